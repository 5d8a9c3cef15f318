#include "tearing/needs.h"

#include <math.h>

#define LEAST_WIDTH_MM 1.0

static const struct err_kind no_tear = { "tearing.no_tear", ERR_FAULT, BASE_TR("there is no tearing plan: {0}") };
static const struct err_kind no_width = {
    "tearing.no_width", ERR_FAULT,
    BASE_TR("cloth {0} wide has nothing left once {1} of selvedge is taken off on either "
            "side: measure both again")
};
static const struct err_kind no_rectangle = {
    "tearing.no_rectangle", ERR_FAULT,
    BASE_TR("no rectangle is cut of the {0}, so there is nothing to tear; lay its "
            "pieces out instead")
};
static const struct err_kind scrap = {
    "tearing.scrap", ERR_FAULT, BASE_TR("a scrap has no selvedges to tear between; lay its pieces out instead")
};
static const struct err_kind too_many = {
    "tearing.too_many", ERR_FAULT,
    BASE_TR("{0} rectangles are too many for one plan, which takes {1}; plan them in parts")
};
static const struct err_kind no_room = {
    "tearing.no_room_along", ERR_FAULT,
    BASE_TR("strips along the cloth do not fit beside each other on {0}, with {1} left at "
            "each torn edge; tear across it instead")
};
static const struct err_kind too_short = { "tearing.short", ERR_FAULT,
                                           BASE_TR(
                                               "{0} of washed cloth are needed, and {1} are at hand, {2} too little; a "
                                               "length of {3} as bought would do, or rectangles of another width") };
static const struct err_kind repeat = {
    "tearing.repeat", ERR_WARNING,
    BASE_TR("tearing does not look at the cloth's stripes or checks; lay pieces that have "
            "to match out instead")
};

static bool refuse(struct err_list *errs, const struct err_kind *kind, struct err_arg one, struct err_arg two)
{
    base_err(errs, kind, base_err_in_file(NULL), one, two);
    return false;
}

static bool may_be_torn(const struct cloth *cloth, struct err_list *errs)
{
    const char *why_not;
    if (!cloth_tears(cloth, &why_not))
        return refuse(errs, &no_tear, ERR_TEXT(base_tr(why_not)), ERR_NONE);
    if (cloth->outline.path.count)
        return refuse(errs, &scrap, ERR_NONE, ERR_NONE);
    if (cloth_usable_width(cloth) < LEAST_WIDTH_MM)
        return refuse(errs, &no_width, ERR_MM(cloth_washed_width(cloth)), ERR_MM(cloth->selvedge_mm));
    return true;
}

static bool has_needs(const struct tearing_plan *plan, struct err_list *errs)
{
    int count = 0;
    for (size_t i = 0; i < plan->need_count; i++)
        count += plan->needs[i].count;
    if (!count)
        return refuse(errs, &no_rectangle, ERR_TEXT(base_tr(pattern_cloth_name(plan->task->material))), ERR_NONE);
    return count <= TEARING_MOST || refuse(errs, &too_many, ERR_NUMBER(count), ERR_NUMBER(TEARING_MOST));
}

/* Its strips the other way; false when there is no such plan. */
static bool turn(struct arena *a, struct tearing_plan *plan)
{
    plan->along = !plan->along;
    return tearing_lay_strips(a, plan);
}

static bool spares_a_step(const struct tearing_plan *one, const struct tearing_plan *other)
{
    const struct tearing_task *task = one->task;
    return cloth_to_buy(task->cloth, one->length_mm, task->unit) <
           cloth_to_buy(task->cloth, other->length_mm, task->unit);
}

bool tearing_lay_best(struct arena *a, struct tearing_plan *plan)
{
    enum tearing_way way = plan->task->way;
    plan->along = way == TEARING_ALONG;
    if (!tearing_lay_strips(a, plan))
        return false;
    struct tearing_plan other = *plan;
    bool is_there = turn(a, &other);
    plan->other_mm = is_there ? other.length_mm : NAN;
    if (way == TEARING_LEAST && is_there && spares_a_step(&other, plan)) {
        other.other_mm = plan->length_mm;
        *plan = other;
    }
    return true;
}

static void reckon_figures(struct tearing_plan *plan, struct err_list *errs)
{
    const struct cloth *cloth = plan->task->cloth;
    enum units_length unit = plan->task->unit;
    double area = 0, at_hand = cloth_washed_length(cloth);
    for (size_t i = 0; i < plan->need_count; i++)
        area += plan->needs[i].width_mm * plan->needs[i].height_mm * plan->needs[i].count;
    plan->used = area / (cloth_usable_width(cloth) * plan->length_mm);
    plan->to_buy_mm = cloth_to_buy(cloth, plan->length_mm, unit);
    plan->spare_mm = at_hand > 0 ? at_hand - plan->length_mm : NAN;
    if (plan->spare_mm < -TEARING_SLACK_MM)
        base_err(errs, &too_short, base_err_in_file(NULL), ERR_MM(units_on_tape(plan->length_mm, unit)),
                 ERR_MM(units_on_tape(at_hand, unit)), ERR_MM(units_on_tape(-plan->spare_mm, unit)),
                 ERR_MM(plan->to_buy_mm));
    if (cloth->repeat.along_mm > 0 || cloth->repeat.across_mm > 0)
        base_err(errs, &repeat, base_err_in_file(NULL), ERR_NONE);
}

bool tearing_plan_make(struct arena *a, const struct tearing_task *task, struct tearing_plan *out,
                       struct err_list *errs)
{
    struct tearing_task *kept = base_arena_alloc(a, 1, sizeof *kept);
    *kept = *task;
    *out = (struct tearing_plan){ .task = kept };
    if (!may_be_torn(task->cloth, errs))
        return false;
    struct tearing_need *needs = tearing_collect(a, out);
    if (!tearing_piece_wide(out, needs, errs) || !has_needs(out, errs))
        return false;
    if (!tearing_lay_best(a, out))
        return refuse(errs, &no_room, ERR_MM(units_on_tape(cloth_usable_width(task->cloth), task->unit)),
                      ERR_MM(units_on_tape(task->margin_mm, task->unit)));
    reckon_figures(out, errs);
    return true;
}
