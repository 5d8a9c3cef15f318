/* The places of a layout's items, kept in a job by piece and number. */
#ifndef JOB_PLACES_H
#define JOB_PLACES_H

#include "job/job.h"
#include "lay/lay.h"

/* Keeps where the items of a task lie on the job's cloth of its material, which it must have; in `a`. */
void job_keep_places(struct arena *a, struct job *job, const struct lay_task *task, const struct lay_place *places);

/* Where they lie: one place for each item of the task, in `a`; an item that has none there is not laid. How many were
 * found. What the job has laid and the task has not is warned of in one sentence, unless `errs` is NULL: the pattern or
 * the cloth has changed since. */
size_t job_places(struct arena *a, const struct job *job, const struct lay_task *task, struct lay_place **out,
                  struct err_list *errs);

/* What is laid of one of the job's cloths, as lay_task_make, were nothing torn first: of interfacing for fabric that is
 * fused in a block, as that lies, the block in place of what is cut out of it. In `a`, the draft and the cloth. */
bool job_lay_task(struct arena *a, const struct job *job, const struct draft *draft, const struct job_cloth *cloth,
                  struct lay_task *out, struct err_list *errs);

#endif
