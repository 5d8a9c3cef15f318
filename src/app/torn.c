#include "app/torn.h"

#include "app/sentence.h"
#include "job/cloth.h"

#include <math.h>

#define LEAST_MM 1.0 /* of what is left, that anything may lie on */

static const struct err_kind not_torn = {
    "app.not_torn", ERR_FAULT,
    "the rectangles of the {0} are torn before it is laid out, but {1}. Or lay them out with the rest: `chalklight "
    "tear --drop`"
};
static const struct err_kind all_torn = { "app.all_torn", ERR_WARNING,
                                          "all that is cut of the {0} is torn; nothing is left to be laid out" };
static const struct err_kind no_length = {
    "app.torn_no_length", ERR_FAULT,
    "the {0}'s rectangles are torn first and take {1}, and only {2} of washed cloth are at hand: nothing is left for "
    "the rest; get more cloth"
};

static bool is_rectangle(const struct draft *draft, const struct draft_cut *cut)
{
    return draft->sized->pattern->pieces[draft->pieces[cut->piece].index].is_rectangle;
}

/* How many lines of the cutting list are of that material and are rectangles, or are none. */
static int count_lines(const struct app_material *m, bool rectangles)
{
    int count = 0;
    for (size_t i = 0; i < m->draft->cut_count; i++)
        count += m->draft->cuts[i].cloth == m->material && is_rectangle(m->draft, &m->draft->cuts[i]) == rectangles;
    return count;
}

/* How the job has it that they are torn; NULL: they are not, or there are none. */
static const struct job_torn *torn_of(const struct app_material *m)
{
    const struct job_cloth *kept = job_find_cloth(m->job, m->material);
    return kept && kept->torn.is_kept && count_lines(m, true) ? &kept->torn : NULL;
}

bool app_torn_is_all(const struct app_material *m)
{
    return torn_of(m) && !count_lines(m, false);
}

/* What may be wrong with that plan was told when it was kept, unless it cannot be made any more. */
static const struct tearing_plan *plan_of(struct arena *a, const struct app_material *m, const struct job_torn *torn,
                                          struct err_list *errs)
{
    struct err_list *told = base_err_list_create();
    struct tearing_plan *plan = base_arena_alloc(a, 1, sizeof *plan);
    struct tearing_task task = { .pattern = m->draft->sized->pattern,
                                 .draft = m->draft,
                                 .cloth = m->cloth,
                                 .material = m->material,
                                 .unit = m->unit,
                                 .way = torn->along ? TEARING_ALONG : TEARING_ACROSS,
                                 .off_square_mm = torn->off_square_mm,
                                 .margin_mm = torn->margin_mm };
    bool ok = tearing_plan_make(a, &task, plan, told);
    for (int i = 0; !ok && i < told->count; i++) /* cloth too short for the plan is too short for both, which is told */
        if (told->items[i].kind->severity == ERR_FAULT)
            base_err(errs, &not_torn, base_err_in_file(NULL), ERR_TEXT(pattern_cloth_name(m->material)),
                     ERR_TEXT(app_sentence(a, &told->items[i], m->unit)));
    base_err_list_destroy(told);
    return ok ? plan : NULL;
}

/* --- the cloth that is left --------------------------------------------------------------------------------------- */

static bool shorten(struct cloth *rest, double by_mm, enum pattern_cloth material, struct err_list *errs)
{
    double washed = cloth_washed_length(rest);
    if (!(washed > 0))
        return true;
    if (washed - by_mm < LEAST_MM) {
        base_err(errs, &no_length, base_err_in_file(NULL), ERR_TEXT(pattern_cloth_name(material)), ERR_MM(by_mm),
                 ERR_MM(washed));
        return false;
    }
    rest->length_mm *= (washed - by_mm) / washed;
    return true;
}

/* Those that lie behind the last tear. */
static void move_faults(struct arena *a, struct cloth *rest, double by_mm)
{
    struct cloth_path *faults = base_arena_alloc(a, rest->fault_count, sizeof *faults);
    size_t count = 0;
    for (size_t i = 0; i < rest->fault_count; i++) {
        struct geometry_path from = rest->faults[i].path;
        if (geometry_path_box(from).max.x <= by_mm)
            continue;
        struct geometry_path *to = &faults[count++].path;
        *to = (struct geometry_path){ base_arena_alloc(a, from.count, sizeof(vec2)), from.count, from.closed };
        for (size_t k = 0; k < from.count; k++)
            to->points[k] = (vec2){ from.points[k].x - by_mm, from.points[k].y };
    }
    rest->faults = faults;
    rest->fault_count = count;
}

/* From the last tear to the first line of the repeat behind it. */
static double line_behind(double line_mm, double by_mm, double repeat_mm)
{
    double at = line_mm - by_mm;
    return repeat_mm > 0 ? at - repeat_mm * floor(at / repeat_mm) : line_mm;
}

static bool cut_rest(struct arena *a, const struct tearing_plan *plan, struct cloth *rest, struct err_list *errs)
{
    const struct tearing_task *task = plan->task;
    struct cloth_repeat *r = &rest->repeat;
    *rest = *task->cloth;
    double torn_mm = cloth_before_washing(rest, plan->length_mm); /* all is told of cloth before it is washed */
    r->line_along_mm = line_behind(r->line_along_mm, torn_mm, r->along_mm);
    move_faults(a, rest, torn_mm);
    return shorten(rest, plan->length_mm, task->material, errs);
}

/* --- what is laid on it ------------------------------------------------------------------------------------------- */

static const bool *torn_lines(struct arena *a, const struct tearing_plan *plan)
{
    bool *torn = base_arena_alloc(a, plan->task->draft->cut_count, sizeof *torn);
    for (size_t i = 0; i < plan->need_count; i++)
        torn[plan->needs[i].cut] = true;
    return torn;
}

bool app_torn_task(struct arena *a, const struct app_material *m, struct lay_task *out,
                   const struct tearing_plan **plan, struct err_list *errs)
{
    const struct job_torn *torn = torn_of(m);
    *plan = NULL;
    if (!torn)
        return lay_task_make(a, m->draft, NULL, m->cloth, m->material, out, errs);
    if (app_torn_is_all(m)) {
        base_err(errs, &all_torn, base_err_in_file(NULL), ERR_TEXT(pattern_cloth_name(m->material)));
        return false;
    }
    struct cloth *rest = base_arena_alloc(a, 1, sizeof *rest);
    *plan = plan_of(a, m, torn, errs);
    return *plan && cut_rest(a, *plan, rest, errs) &&
           lay_task_make(a, m->draft, torn_lines(a, *plan), rest, m->material, out, errs);
}

/* --- both together ------------------------------------------------------------------------------------------------ */

struct lay_figures app_torn_both(const struct tearing_plan *plan, const struct lay_figures *laid,
                                 enum units_length unit)
{
    struct lay_figures both = *laid;
    if (!plan)
        return both;
    const struct cloth *cloth = plan->task->cloth;
    double at_hand = cloth_washed_length(cloth);
    both.length_mm = plan->length_mm + laid->length_mm;
    both.to_buy_mm = cloth_to_buy(cloth, both.length_mm, unit);
    both.used = (plan->used * plan->length_mm + laid->used * laid->length_mm) / both.length_mm;
    both.spare_mm = at_hand > 0 ? at_hand - both.length_mm : (double)NAN;
    return both;
}

bool app_torn_on_width(struct arena *a, const struct tearing_plan *plan, const struct lay_task *task, double width_mm,
                       size_t rounds, struct base_pool *pool, struct lay_figures *out)
{
    struct err_list *told = base_err_list_create();
    struct tearing_task other = *plan->task;
    struct cloth *cloth = base_arena_alloc(a, 1, sizeof *cloth);
    struct tearing_plan on;
    *cloth = lay_cloth_as_wide(plan->task->cloth, width_mm);
    other.cloth = cloth;
    other.way = plan->along ? TEARING_ALONG : TEARING_ACROSS;
    bool fits =
        tearing_plan_make(a, &other, &on, told) && lay_on_width(a, task, width_mm, rounds, pool, out, other.unit);
    if (fits)
        *out = app_torn_both(&on, out, other.unit);
    base_err_list_destroy(told);
    return fits;
}
