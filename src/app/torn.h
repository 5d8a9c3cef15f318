/* A layout behind a tearing plan: where a job keeps that a cloth's rectangles are torn first (job/job.h), only the rest
 * is laid, on what is left of the length. The last tear across the cloth is the layout's cut end; of strips along it,
 * that is where their length was torn off. What strips leave, and what lies beside those along the cloth, is cloth by
 * itself: where the job has it so, some of the pieces are cut of that, and not laid either. */
#ifndef APP_TORN_H
#define APP_TORN_H

#include "job/job.h"
#include "lay/lay.h"
#include "tearing/rests.h"

/* A material of a job on a cloth, its own or another. */
struct app_material {
    const struct job *job;
    const struct draft *draft;
    const struct cloth *cloth;
    enum pattern_cloth material;
    enum units_length unit;  /* of the person */
    const atomic_bool *stop; /* ends looking for what can be cut of torn strips' rests; may be NULL */
};

/* What is laid of it, as lay_task_make. *plan: what is torn first; NULL when nothing is. Everything lives in `a`, the
 * draft and the cloth. False with the reasons, also when it does not tear any more or nothing is left to be laid;
 * without one when it was stopped. */
bool app_torn_task(struct arena *a, const struct app_material *m, struct lay_task *out,
                   const struct tearing_plan **plan, struct err_list *errs);

/* Whether all that is cut is torn, or cut of what strips leave. */
bool app_torn_is_all(const struct tearing_plan *plan);

/* What it is worth to cut those pieces of a plan's rests, by an estimate: first layouts that are bettered a little. */
struct app_torn_worth {
    double spared_mm; /* how much shorter a layout behind the plan is, of washed cloth; 0: it is not */
    bool is_short;    /* without, the length at hand does not do for all */
    bool is_worth_it; /* by the one or the other */
};

struct app_torn_worth app_torn_worth_of(struct arena *a, const struct tearing_plan *plan,
                                        const struct tearing_rests *rests);

#define APP_TORN_WORTH_MM 10.0 /* spared, that rests are used for; our own choice */

/* "Ruffle, a part" where a rectangle is joined of several; in `a`. */
const char *app_torn_part_name(struct arena *a, const struct tearing_need *need);

/* "the rest of strip 2", and "Bib front, 2 × Pocket", what is cut of it; in `a`. */
const char *app_torn_rest_name(struct arena *a, const struct tearing_rest *rest);
const char *app_torn_rest_pieces(struct arena *a, const struct tearing_rest *rest);

/* What the plan and a layout behind it need together, and which share of that they use; without a plan
 * (NULL) the layout's own. */
struct lay_figures app_torn_both(const struct tearing_plan *plan, const struct lay_figures *laid,
                                 enum units_length unit);

/* As lay_on_width of what is laid behind that plan, and the same figures of both together. */
bool app_torn_on_width(struct arena *a, const struct tearing_plan *plan, const struct lay_task *task, double width_mm,
                       const struct lay_effort *effort, struct lay_figures *out);

#endif
