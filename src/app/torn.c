#include "app/torn.h"

#include "app/block.h"
#include "app/sentence.h"
#include "base/text.h"
#include "job/cloth.h"

#include <math.h>

#define LEAST_MM 1.0 /* of what is left, that anything may lie on */

enum { ESTIMATE_ROUNDS = 2 };

static const struct err_kind not_torn = {
    "app.not_torn", ERR_FAULT,
    BASE_TR(
        "the rectangles of the {0} are torn before it is laid out, but {1}. Or lay them out with the rest: `chalklight "
        "tear --drop`")
};
static const struct err_kind trial_needs_none = {
    "app.trial_needs_none", ERR_FAULT,
    BASE_TR("a trial garment is cut of its main fabric alone: no {0} is needed for it")
};
static const struct err_kind all_torn = {
    "app.all_torn", ERR_WARNING,
    BASE_TR("all that is cut of the {0} is torn or cut of what strips leave; nothing is left to be laid out")
};
static const struct err_kind no_length = { "app.torn_no_length", ERR_FAULT,
                                           BASE_TR("the {0}'s rectangles are torn first and take {1}, and only {2} of "
                                                   "washed cloth are at hand: nothing is left for "
                                                   "the rest; get more cloth") };

static bool is_rectangle(const struct draft *draft, const struct draft_cut *cut)
{
    return draft->sized->pattern->pieces[draft->pieces[cut->piece].index].is_rectangle;
}

static bool has_rectangles(const struct app_material *m)
{
    size_t i = 0;
    while (i < m->draft->cut_count &&
           (m->draft->cuts[i].cloth != m->material || !is_rectangle(m->draft, &m->draft->cuts[i])))
        i++;
    return i < m->draft->cut_count;
}

/* How the job has it that they are torn; NULL: they are not, or there are none. */
static const struct job_torn *torn_of(const struct app_material *m)
{
    const struct job_cloth *kept = job_find_cloth(m->job, m->material);
    return kept && kept->torn.is_kept && has_rectangles(m) ? &kept->torn : NULL;
}

/* False when it was stopped. */
static bool take_rests(struct arena *a, struct tearing_plan *plan)
{
    struct tearing_rests *rests = base_arena_alloc(a, 1, sizeof *rests);
    if (!tearing_rests_find(a, plan, rests))
        return false;
    if (rests->count)
        tearing_rests_take(plan, rests);
    return true;
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
                                 .margin_mm = torn->margin_mm,
                                 .stop = m->stop };
    bool ok = tearing_plan_make(a, &task, plan, told);
    for (int i = 0; !ok && i < told->count; i++) /* cloth too short for the plan is too short for both, which is told */
        if (told->items[i].kind->severity == ERR_FAULT)
            base_err(errs, &not_torn, base_err_in_file(NULL), ERR_TEXT(base_tr(pattern_cloth_name(m->material))),
                     ERR_TEXT(app_sentence(a, &told->items[i], m->unit)));
    base_err_list_destroy(told);
    return ok && (!torn->rests || take_rests(a, plan)) ? plan : NULL;
}

/* --- the cloth that is left --------------------------------------------------------------------------------------- */

static bool shorten(struct cloth *rest, double by_mm, enum pattern_cloth material, struct err_list *errs)
{
    double washed = cloth_washed_length(rest);
    if (!(washed > 0))
        return true;
    if (washed - by_mm < LEAST_MM) {
        base_err(errs, &no_length, base_err_in_file(NULL), ERR_TEXT(base_tr(pattern_cloth_name(material))),
                 ERR_MM(by_mm), ERR_MM(washed));
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

/* How many of each line of the cutting list are torn, or cut of those rests (NULL: none). */
static const struct lay_hands *elsewhere(struct arena *a, const struct tearing_plan *plan,
                                         const struct tearing_rests *rests)
{
    const struct draft *draft = plan->task->draft;
    struct lay_hands *hands = base_arena_alloc(a, draft->cut_count, sizeof *hands);
    for (size_t i = 0; rests && i < draft->cut_count; i++)
        hands[i] = rests->pieces[i];
    for (size_t i = 0; i < plan->need_count; i++)
        hands[plan->needs[i].cut] = lay_hands_of(&draft->cuts[plan->needs[i].cut]);
    return hands;
}

static bool takes_all(const struct tearing_plan *plan, const struct tearing_rests *rests)
{
    const struct draft *draft = plan->task->draft;
    for (size_t i = 0; i < draft->cut_count; i++) {
        struct lay_hands all = lay_hands_of(&draft->cuts[i]), cut = { 0, 0 };
        if (draft->cuts[i].cloth != plan->task->material || is_rectangle(draft, &draft->cuts[i]))
            continue;
        if (rests)
            cut = rests->pieces[i];
        if (all.right + all.left > cut.right + cut.left)
            return false;
    }
    return true;
}

bool app_torn_is_all(const struct tearing_plan *plan)
{
    return takes_all(plan, plan->rests);
}

/* Of which nothing is torn. */
static bool make_whole(struct arena *a, const struct app_material *m, struct lay_task *out, struct err_list *errs)
{
    struct app_block of = app_block_of(a, m, errs);
    if (of.block.count)
        return lay_task_make_interfacing(a, m->draft, of.within, &of.block, m->cloth, out, errs);
    return lay_task_make(a, m->draft, NULL, m->cloth, m->material, out, errs);
}

bool app_torn_task(struct arena *a, const struct app_material *m, struct lay_task *out,
                   const struct tearing_plan **plan, struct err_list *errs)
{
    const struct job_torn *torn = torn_of(m);
    *plan = NULL;
    if (m->job->trial && !lay_is_cut(m->draft, m->material)) {
        base_err(errs, &trial_needs_none, base_err_in_file(NULL), ERR_TEXT(base_tr(pattern_cloth_name(m->material))));
        return false;
    }
    if (!torn)
        return make_whole(a, m, out, errs);
    *plan = plan_of(a, m, torn, errs);
    if (!*plan)
        return false;
    if (app_torn_is_all(*plan)) {
        base_err(errs, &all_torn, base_err_in_file(NULL), ERR_TEXT(base_tr(pattern_cloth_name(m->material))));
        return false;
    }
    struct cloth *rest = base_arena_alloc(a, 1, sizeof *rest);
    return cut_rest(a, *plan, rest, errs) &&
           lay_task_make(a, m->draft, elsewhere(a, *plan, (*plan)->rests), rest, m->material, out, errs);
}

/* --- rests -------------------------------------------------------------------------------------------------------- */

/* Of a layout behind the plan, as the cloth is spread or, where that does not do, in a single layer; NAN: of none. */
static double length_behind(struct arena *a, const struct tearing_plan *plan, const struct tearing_rests *rests)
{
    const struct tearing_task *of = plan->task;
    struct cloth cloth = *of->cloth;
    struct lay_task task = {
        .draft = of->draft, .cloth = &cloth, .material = of->material, .elsewhere = elsewhere(a, plan, rests)
    };
    const struct lay_effort estimate = { ESTIMATE_ROUNDS, NULL, of->stop };
    struct lay_figures f;
    if (takes_all(plan, rests))
        return 0;
    if (lay_on_enough(a, &task, &estimate, &f, of->unit))
        return f.length_mm;
    cloth.spread = CLOTH_SINGLE;
    return lay_on_enough(a, &task, &estimate, &f, of->unit) ? f.length_mm : (double)NAN;
}

struct app_torn_worth app_torn_worth_of(struct arena *a, const struct tearing_plan *plan,
                                        const struct tearing_rests *rests)
{
    struct app_torn_worth worth = { 0 };
    if (!rests->count)
        return worth;
    double without = length_behind(a, plan, NULL), with = length_behind(a, plan, rests);
    worth.spared_mm = without > with ? without - with : 0;
    worth.is_short = !isnan(plan->spare_mm) && !(without <= plan->spare_mm);
    worth.is_worth_it = worth.is_short || worth.spared_mm >= APP_TORN_WORTH_MM;
    return worth;
}

const char *app_torn_part_name(struct arena *a, const struct tearing_need *need)
{
    const char *label = base_text_one_line(a, need->piece->label);
    if (need->parts == 1)
        return label;
    return base_arena_print(a, need->is_rest ? base_tr("%s, the rest") : base_tr("%s, a part"), label);
}

const char *app_torn_rest_name(struct arena *a, const struct tearing_rest *rest)
{
    if (rest->strip == TEARING_BESIDE)
        return base_tr("what is left beside the strips");
    if (rest->above)
        return base_arena_print(a, base_tr("the rest of strip %d above %s"), rest->strip + 1, rest->above);
    return base_arena_print(a, base_tr("the rest of strip %d"), rest->strip + 1);
}

const char *app_torn_rest_pieces(struct arena *a, const struct tearing_rest *rest)
{
    const struct lay_task *task = rest->lay->task;
    const char *names = "";
    for (size_t i = 0, count; i < task->item_count; i += count) {
        count = 1;
        while (i + count < task->item_count && task->items[i + count].cut == task->items[i].cut)
            count++;
        const char *label = base_text_one_line(a, task->items[i].piece->label);
        const char *name = base_arena_print(a, "%zu × %s", count, label);
        if (count == 1)
            name = base_text_one_line(a, lay_item_name(a, task, i));
        names = base_arena_print(a, "%s%s%s", names, i ? ", " : "", name);
    }
    return names;
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

/* The same plan, on other cloth. */
static bool plan_on(struct arena *a, const struct tearing_plan *plan, const struct cloth *cloth,
                    struct tearing_plan *out)
{
    struct err_list *told = base_err_list_create();
    struct tearing_task other = *plan->task;
    other.cloth = cloth;
    other.way = plan->along ? TEARING_ALONG : TEARING_ACROSS;
    bool ok = tearing_plan_make(a, &other, out, told);
    base_err_list_destroy(told);
    return ok && (!plan->rests || take_rests(a, out));
}

bool app_torn_on_width(struct arena *a, const struct tearing_plan *plan, const struct lay_task *task, double width_mm,
                       const struct lay_effort *effort, struct lay_figures *out)
{
    struct cloth *cloth = base_arena_alloc(a, 1, sizeof *cloth);
    struct lay_task behind = *task;
    struct tearing_plan on;
    *cloth = lay_cloth_as_wide(plan->task->cloth, width_mm);
    cloth->spread = task->cloth->spread;
    if (!plan_on(a, plan, cloth, &on))
        return false;
    *out = (struct lay_figures){ .spare_mm = (double)NAN };
    behind.elsewhere = elsewhere(a, &on, on.rests);
    if (!app_torn_is_all(&on) && !lay_on_width(a, &behind, width_mm, effort, out, on.task->unit))
        return false;
    *out = app_torn_both(&on, out, on.task->unit);
    return true;
}
