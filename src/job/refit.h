/* What follows from a change of a job. Not for other folders. */
#ifndef JOB_REFIT_H
#define JOB_REFIT_H

#include "job/job.h"

/* Works out anew all that follows from the choices of `job`, which was made from `was` by changing some: size and cup
 * group by the body, the blend, alterations. `before` is the size position that it was at, in its own pattern.
 * Warnings as job/change.h tells. */
void job_refit(struct arena *a, const struct job *was, double before, struct job *job, struct err_list *errs);

/* Where her measurements lie; PATTERN_NONE: they do not tell. */
double job_position_by_body(const struct job *job);

#endif
