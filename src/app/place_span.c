/* Section by section: what is done in which order, how far the cloth is slid, and where it then lies. */
#include "app/place_state.h"
#include "base/words.h"

#include <math.h>

/* Whose steps are in hand: a section's, or those behind the last one. */
static size_t span_in_hand(const struct app_place_cloth *cloth)
{
    bool by_lamp = cloth->stage == APP_PLACE_LAMP || (cloth->stage == APP_PLACE_DONE && cloth->chalks_all);
    return by_lamp ? cloth->plan.count : cloth->span;
}

static bool is_open(const struct app_place_cloth *cloth, size_t step)
{
    return cloth->steps[step].span == span_in_hand(cloth) && !cloth->steps[step].done;
}

size_t app_place_left(const struct app_place_cloth *cloth, size_t span)
{
    size_t left = 0;
    for (size_t i = 0; i < cloth->step_count; i++)
        left += cloth->steps[i].span == span && !cloth->steps[i].done && cloth->steps[i].item != LAY_NONE;
    return left;
}

static bool is_left(const struct app_step *step, size_t item, size_t from, size_t to)
{
    return step->span >= from && step->span <= to && !step->done && step->item == (int)item;
}

size_t app_place_pieces_left(const struct app_place_cloth *cloth, size_t from, size_t to)
{
    const struct lay_task *task = cloth->lay->task;
    size_t left = 0;
    for (size_t item = 0; item < task->item_count; item++) {
        size_t i = 0;
        while (i < cloth->step_count && !is_left(&cloth->steps[i], item, from, to))
            i++;
        left += i < cloth->step_count ? (size_t)task->items[item].copies : 0;
    }
    return left;
}

/* The first step that is not done. False when all are. */
static bool go_to_first(struct app_place_cloth *cloth)
{
    for (size_t i = 0; i < cloth->step_count; i++)
        if (is_open(cloth, i)) {
            cloth->now = i;
            return true;
        }
    return false;
}

vec2 app_place_slide_by(const struct app_place_cloth *cloth)
{
    const struct spans_span *to = &cloth->plan.spans[cloth->span + 1];
    struct geometry_motion straight = app_place_straight(cloth, to->from_mm);
    struct cloth_pt middle = { (to->from_mm + to->to_mm) / 2,
                               fmin(app_place_reach(cloth).across_mm, cloth->lay->task->spread.width_mm) / 2 };
    struct table_pt from = app_place_at(&cloth->seat.to_table, middle), into = app_place_at(&straight, middle);
    return (vec2){ into.x - from.x, into.y - from.y };
}

struct geometry_motion app_place_expected(const struct app_place_cloth *cloth)
{
    struct geometry_motion expected = cloth->seat.to_table;
    if (cloth->stage == APP_PLACE_SLIDE)
        expected.shift = vec2_add(expected.shift, app_place_slide_by(cloth));
    return expected;
}

static void aim_at_marks(struct app_place_cloth *cloth, const struct geometry_motion *expected,
                         const struct app_chalk *marks, int count)
{
    for (int i = 0; i < count; i++)
        app_place_aim_mark(cloth, expected, &marks[i]);
}

/* What is nudged once the cloth is slid to a section. */
static void aim_at_section(struct app *app, struct app_place_cloth *cloth, size_t span,
                           const struct geometry_motion *expected)
{
    struct app_chalk marks[APP_PLACE_CHALK];
    app_place_aim_anew(cloth);
    aim_at_marks(cloth, expected, marks, app_place_shared(app->a, cloth, span, marks));
    app_place_aim_edges(app, cloth, span, expected);
}

/* What is chalked is cut, or it is the end. */
static void leave_light(struct app_place_cloth *cloth)
{
    cloth->stage = APP_PLACE_LAMP;
    if (!go_to_first(cloth))
        cloth->stage = APP_PLACE_DONE;
}

/* All of this section is done: sliding, or the end of the cloth. */
static void leave_section(struct app *app, struct app_place_cloth *cloth)
{
    if (cloth->span + 1 == cloth->plan.count) {
        leave_light(cloth);
        return;
    }
    cloth->stage = APP_PLACE_SLIDE;
    struct geometry_motion expected = app_place_expected(cloth);
    aim_at_section(app, cloth, cloth->span + 1, &expected);
}

void app_place_begin(struct app *app, struct app_place_cloth *cloth)
{
    cloth->stage = APP_PLACE_CUT;
    if (!go_to_first(cloth))
        leave_section(app, cloth);
}

size_t app_section_count(const struct app *app)
{
    size_t count = 0;
    for (size_t i = 0; app->place && i < app->place->count; i++)
        count += app->place->cloths[i].plan.count;
    return count;
}

static void go_to_section(struct app_place_cloth *cloth, size_t span)
{
    cloth->span = span;
    cloth->seat = (struct spans_seat){ .to_table = app_place_straight(cloth, cloth->plan.spans[span].from_mm) };
    cloth->stage = APP_PLACE_CUT;
    for (size_t i = 0; i < cloth->step_count; i++) {
        cloth->steps[i].done = cloth->steps[i].span < span;
        cloth->steps[i].part = APP_PART_CUT;
    }
    go_to_first(cloth);
}

void app_go_to_section(struct app *app, size_t index)
{
    struct app_place *place = app->place;
    for (place->now = 0; index >= place->cloths[place->now].plan.count; place->now++)
        index -= place->cloths[place->now].plan.count;
    place->on = true;
    app_attend_surface(app);
    app->mode = SCENE_PIECES;
    go_to_section(&place->cloths[place->now], index);
    app->told = app_place_warning(&place->cloths[place->now], index);
}

void app_place_step_done(struct app *app, struct app_place_cloth *cloth)
{
    struct app_step *step = &cloth->steps[cloth->now];
    enum app_part next = app_place_part_from(cloth, step, (int)step->part + 1, +1);
    if (next == APP_PARTS)
        app_place_step_ticked(app, cloth);
    else
        step->part = next;
}

void app_place_step_ticked(struct app *app, struct app_place_cloth *cloth)
{
    cloth->steps[cloth->now].done = true;
    for (size_t i = cloth->now + 1; i < cloth->step_count; i++)
        if (is_open(cloth, i)) {
            cloth->now = i;
            return;
        }
    if (cloth->stage == APP_PLACE_LAMP)
        leave_light(cloth);
    else
        app_place_begin(app, cloth);
}

/* The last done step of a section, or of those behind the last, before that one is not after all; false: there is none.
 * What was done of it last is in hand. */
static bool take_back(struct app_place_cloth *cloth, size_t span, size_t before)
{
    for (size_t i = before; i-- > 0;) {
        struct app_step *step = &cloth->steps[i];
        if (step->span != span || !step->done)
            continue;
        step->done = false;
        step->part = app_place_part_from(cloth, step, APP_PARTS - 1, -1);
        cloth->now = i;
        cloth->stage = step->kind == APP_STEP_LAMP ? APP_PLACE_LAMP : APP_PLACE_CUT;
        return true;
    }
    return false;
}

/* What is in hand of a piece, else the last done step before; from a page past the last, the last one. */
void app_place_step_undone(struct app *app, struct app_place_cloth *cloth)
{
    bool working = cloth->stage == APP_PLACE_CUT || cloth->stage == APP_PLACE_LAMP;
    struct app_step *step = &cloth->steps[cloth->now];
    if (working && step->part > APP_PART_CUT) {
        step->part = app_place_part_from(cloth, step, (int)step->part - 1, -1);
        return;
    }
    if (take_back(cloth, span_in_hand(cloth), working ? cloth->now : cloth->step_count))
        return;
    if (cloth->stage == APP_PLACE_LAMP && take_back(cloth, cloth->span, cloth->step_count))
        return;
    if (cloth->span == 0)
        app_place_to_lines(cloth);
    else
        app->told = base_tr("The section before is done. If the cloth has moved, press W");
}

void app_place_choose_step(struct app_place_cloth *cloth, int by)
{
    size_t count = cloth->step_count;
    for (size_t i = 1; i <= count; i++) {
        size_t step = (cloth->now + (by < 0 ? count - i : i)) % count;
        if (!is_open(cloth, step))
            continue;
        cloth->now = step;
        return;
    }
}

/* What does not lie in the light as the cloth lies now is cut in later sections, where that can be. Of cloth that lies
 * stretched that is told before. */
static void settle(struct app *app, struct app_place_cloth *cloth)
{
    const char *told = app->told, *anew = NULL;
    if (*app_place_outside_text(app, cloth, app->a) && app_place_plan_anew(app, cloth))
        anew = base_arena_print(app->a, base_tr("Planned anew from where the cloth lies: sections %zu to %zu"),
                                cloth->span + 1, cloth->plan.count);
    app->told = app_place_doubt_text(app, cloth, app->a);
    if (anew)
        app->told = base_arena_print(app->a, "%s. %s", anew, app->told);
    if (told)
        app->told = base_arena_print(app->a, "%s. %s", told, app->told);
}

void app_place_slid(struct app *app, struct app_place_cloth *cloth)
{
    cloth->span++;
    app_place_begin(app, cloth);
    settle(app, cloth);
}

void app_place_back(struct app *app, struct app_place_cloth *cloth)
{
    cloth->stage = cloth->back;
    if (cloth->stage == APP_PLACE_CUT && !is_open(cloth, cloth->now))
        app_place_begin(app, cloth);
}

void app_place_found_again(struct app *app, struct app_place_cloth *cloth)
{
    app_place_back(app, cloth);
    settle(app, cloth);
}

/* The two marks of an earlier layout that lie farthest apart in the light, or the one. */
static int earlier_marks(const struct app *app, const struct app_place_cloth *c, struct app_chalk out[2])
{
    const struct geometry_motion *lies = &c->seat.to_table;
    double farthest = -1;
    int found = 0, count = c->earlier ? c->earlier->chalk_count : 0;
    for (int i = 0; i < count; i++)
        for (int j = i; j < count; j++) {
            struct table_pt p = app_place_at(lies, c->earlier->chalk[i].at),
                            q = app_place_at(lies, c->earlier->chalk[j].at);
            double apart = vec2_length((vec2){ q.x - p.x, q.y - p.y });
            if (apart <= farthest || !app_place_is_lit(app, p) || !app_place_is_lit(app, q))
                continue;
            farthest = apart;
            out[0] = c->earlier->chalk[i];
            out[1] = c->earlier->chalk[j];
            found = i == j ? 1 : 2;
        }
    return found;
}

static void aim_at_earlier(struct app *app, struct app_place_cloth *cloth)
{
    struct app_chalk marks[2];
    aim_at_marks(cloth, &cloth->seat.to_table, marks, earlier_marks(app, cloth, marks));
}

/* What is chalked of this section, else of those that it was lined up on, else of earlier layouts. */
static void aim_at_chalk(struct app *app, struct app_place_cloth *cloth)
{
    const struct geometry_motion *lies = &cloth->seat.to_table;
    struct app_chalk marks[APP_PLACE_CHALK];
    if (app_place_are_chalked(cloth, cloth->span, APP_STEP_WITNESSES))
        aim_at_marks(cloth, lies, marks, app_place_marks(app->a, cloth, cloth->span, APP_STEP_WITNESSES, marks));
    if (cloth->aim_count < 2 && cloth->span > 0 && app_place_are_shared_chalked(cloth, cloth->span))
        aim_at_marks(cloth, lies, marks, app_place_shared(app->a, cloth, cloth->span, marks));
    if (!cloth->aim_count)
        aim_at_earlier(app, cloth);
}

/* Where nothing of it can be found she is told at least. */
void app_place_find_again(struct app *app, struct app_place_cloth *cloth, enum app_find_why why)
{
    static const struct {
        const char *lost, *found;
    } words[] = {
        [APP_FIND_ARRANGED] = { BASE_TR("Arranged anew: what is cut stays. Has the cloth moved since, place it anew "
                                        "(Backspace)"),
                                BASE_TR("Arranged anew: what is cut stays. Line the cloth up again; Esc where it has "
                                        "not moved") },
        [APP_FIND_SET_UP] = { BASE_TR("The table was set up anew: what is cut stays. Place the cloth anew (Backspace)"),
                              BASE_TR("The table was set up anew: what is cut stays. Line the cloth up again") },
    };
    cloth->stage = APP_PLACE_CUT;
    go_to_first(cloth);
    if (*app_place_outside_text(app, cloth, app->a))
        app_place_plan_anew(app, cloth);
    app_place_aim_anew(cloth);
    if (why == APP_FIND_ARRANGED)
        aim_at_earlier(app, cloth);
    else
        aim_at_chalk(app, cloth);
    app_place_aim_edges(app, cloth, cloth->span, &cloth->seat.to_table);
    cloth->back = APP_PLACE_CUT;
    cloth->stage = APP_PLACE_MOVED;
    if (!cloth->aim_count)
        app_place_back(app, cloth);
    app->told = base_tr(cloth->aim_count ? words[why].found : words[why].lost);
}

/* The section's own marks; where they are too few or not chalked yet, those that it was lined up on, too, and then what
 * is there of the edges. */
void app_place_moved(struct app *app, struct app_place_cloth *cloth)
{
    bool own = app_place_are_chalked(cloth, cloth->span, APP_STEP_WITNESSES);
    bool shared = cloth->span > 0 && app_place_are_shared_chalked(cloth, cloth->span);
    struct app_chalk earlier[2];
    if (!own && !shared && !earlier_marks(app, cloth, earlier)) {
        app->told = cloth->span
                        ? base_tr("No marks of this section are chalked yet: W finds the cloth again once they are")
                        : base_tr("No marks are chalked yet: Backspace places the cloth anew");
        return;
    }
    app_place_aim_anew(cloth);
    aim_at_chalk(app, cloth);
    app_place_aim_edges(app, cloth, cloth->span, &cloth->seat.to_table);
    cloth->back = cloth->stage;
    cloth->stage = APP_PLACE_MOVED;
}
