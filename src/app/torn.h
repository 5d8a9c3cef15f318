/* A layout behind a tearing plan: where a job keeps that a cloth's rectangles are torn first (job/job.h), only the rest
 * is laid, on what is left of the length. The last tear across the cloth is the layout's cut end; of strips along it,
 * that is where their length was torn off: they are planned to fill the width, so that nothing lies beside them. */
#ifndef APP_TORN_H
#define APP_TORN_H

#include "job/job.h"
#include "lay/lay.h"
#include "tearing/tearing.h"

/* A material of a job on a cloth, its own or another. */
struct app_material {
    const struct job *job;
    const struct draft *draft;
    const struct cloth *cloth;
    enum pattern_cloth material;
    enum units_length unit; /* of the person */
};

/* Whether all that is cut of it is torn: nothing is left to be laid. */
bool app_torn_is_all(const struct app_material *m);

/* What is laid of it, as lay_task_make. *plan: what is torn first; NULL when nothing is. Everything lives in `a`, the
 * draft and the cloth. False with the reasons, also when it does not tear any more or all of it is torn. */
bool app_torn_task(struct arena *a, const struct app_material *m, struct lay_task *out,
                   const struct tearing_plan **plan, struct err_list *errs);

/* What the plan and a layout behind it need together, and which share of that they use; without a plan
 * (NULL) the layout's own. */
struct lay_figures app_torn_both(const struct tearing_plan *plan, const struct lay_figures *laid,
                                 enum units_length unit);

/* As lay_on_width of what is laid behind that plan, and the same figures of both together. */
bool app_torn_on_width(struct arena *a, const struct tearing_plan *plan, const struct lay_task *task, double width_mm,
                       size_t rounds, struct base_pool *pool, struct lay_figures *out);

#endif
