/* What all changes of a job have in common. Not for other folders. */
#ifndef JOB_CHANGED_H
#define JOB_CHANGED_H

#include "job/job.h"

/* A copy to be changed, in `a`. */
struct job *job_changed(struct arena *a, const struct job *job);

/* The changed job with all that follows: fitted anew, layouts judged. */
const struct job *job_settled(struct arena *a, const struct job *was, struct job *job, struct err_list *errs);

#endif
