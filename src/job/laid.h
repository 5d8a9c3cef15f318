/* What a change leaves of the layouts that a job has. Not for other folders. */
#ifndef JOB_LAID_H
#define JOB_LAID_H

#include "job/job.h"

/* Takes off what no longer fits where it lies: places of pieces that are not cut any more, and the whole layout of a
 * cloth on which pieces lie over each other or where they may not, and did not in `was`; both are told. `changed` is
 * the material whose cloth is another than before, or PATTERN_NONE. A job that cannot be drafted keeps all. */
void job_judge_layouts(struct arena *a, const struct job *was, int changed, struct job *job, struct err_list *errs);

/* Takes the layout off one cloth. */
void job_clear_layout(struct arena *a, struct job *job, enum pattern_cloth material);

#endif
