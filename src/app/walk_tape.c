/* A table without rulings: distances between crosses, by tape alone. They fix size and shape; where the picture lies is
 * then a matter of choice, and it is laid with the cross at her near left at zero. */
#include "app/amount.h"
#include "app/walk_guess.h"
#include "app/walk_state.h"
#include "base/words.h"
#include "units/typed.h"

#include <math.h>
#include <string.h>

static const struct app_walk_effects redraw = { .redraw = true }, changed = { .redraw = true, .save = true };

/* By their numbers (scene/crosses.h): sides, diagonals, the middle to the corners, then the middles of the edges to the
 * corners beside them. The first ten fix the picture and show a slip; the lens wants the others. */
static const int pairs[APP_WALK_TAPES][2] = {
    { 4, 3 }, { 3, 2 }, { 2, 1 }, { 1, 4 }, { 4, 2 }, { 3, 1 }, { 5, 4 }, { 5, 3 }, { 5, 2 },
    { 5, 1 }, { 6, 1 }, { 6, 2 }, { 7, 2 }, { 7, 3 }, { 8, 3 }, { 8, 4 }, { 9, 4 }, { 9, 1 },
};

void app_walk_tape_ends(const struct app_walk *w, size_t items[2])
{
    for (int end = 0; end < 2; end++)
        items[end] = app_walk_find(w, pairs[w->tape][end]);
}

static size_t next_tape(const struct app_walk *w, size_t from)
{
    size_t at = from;
    while (at < APP_WALK_TAPES && w->tape_mm[at] > 0)
        at++;
    return at;
}

static struct app_walk_effects show(struct app_walk *w, size_t tape)
{
    w->tape = tape;
    w->page = APP_WALK_TAPE;
    w->refusal = NULL;
    w->adjusted_mm = 0;
    w->touched = false;
    app_walk_pace_afresh(w, APP_WALK_TAPE_STEP_MM);
    memset(w->typed, 0, sizeof w->typed);
    return redraw;
}

struct app_walk_effects app_walk_next_tape(struct app_walk *w)
{
    size_t next = next_tape(w, w->tape);
    return next < APP_WALK_TAPES ? show(w, next) : app_walk_show_result(w);
}

struct app_walk_effects app_walk_step_tape(struct app_walk *w, int by)
{
    return show(w, (w->tape + APP_WALK_TAPES + (size_t)(by < 0 ? -1 : 1)) % APP_WALK_TAPES);
}

double app_walk_tape_guess_mm(const struct app_walk *w)
{
    struct calibration_readings none = { .width_px = w->start.width_px, .height_px = w->start.height_px };
    struct app_walk_guess guess = app_walk_guess(&none, (vec2){ 1, 0 });
    size_t ends[2];
    app_walk_tape_ends(w, ends);
    struct table_pt a = geometry_map_to_table(&guess.map, w->items[ends[0]].px);
    struct table_pt b = geometry_map_to_table(&guess.map, w->items[ends[1]].px);
    return round(hypot(a.x - b.x, a.y - b.y));
}

struct app_walk_effects app_walk_taped(struct app_walk *w)
{
    double mm = app_walk_tape_guess_mm(w) + w->adjusted_mm;
    if (w->presenter ? !w->touched : !w->typed[0][0]) {
        size_t next = w->tape + 1; /* not measured, for now */
        return next < APP_WALK_TAPES ? show(w, next) : app_walk_show_result(w);
    }
    if (!w->presenter && !units_typed_length(w->typed[0], w->start.unit, &mm)) {
        w->refusal = app_no_length(w->said, w->typed[0], base_tr("That is not a length: write 135.2 or 53 1/4"));
        return redraw;
    }
    if (!(mm >= APP_WALK_LEAST_TAPE_MM && mm <= APP_WALK_MOST_TAPE_MM)) {
        w->refusal = base_tr("No light on a table is so small or so large: read it again, its unit too");
        return redraw;
    }
    w->tape_mm[w->tape] = mm;
    app_walk_next_tape(w);
    return changed;
}

void app_walk_add_tapes(const struct app_walk *w, struct calibration_readings *to)
{
    for (size_t i = 0; i < APP_WALK_TAPES; i++) {
        if (!(w->tape_mm[i] > 0))
            continue;
        const struct app_walk_item *a = &w->items[app_walk_find(w, pairs[i][0])];
        const struct app_walk_item *b = &w->items[app_walk_find(w, pairs[i][1])];
        to->items[to->count++] = (struct calibration_reading){ .cross = a->number,
                                                               .px = a->home,
                                                               .kind = CALIBRATION_DISTANCE,
                                                               .other = b->number,
                                                               .other_px = b->home,
                                                               .distance_mm = w->tape_mm[i] };
    }
    for (size_t i = 0; i < w->carried_count; i++)
        to->items[to->count++] = w->carried[i];
}

/* The pair that a reading is of: distances stand behind the others, in the order of their pairs. APP_WALK_TAPES when it
 * is of another distance. */
static size_t pair_of_reading(const struct app_walk *w, size_t index)
{
    size_t before = 0, pair = 0;
    for (size_t i = 0; i < w->count; i++)
        before += w->items[i].read;
    for (; pair < APP_WALK_TAPES; pair++)
        if (w->tape_mm[pair] > 0 && before++ == index)
            break;
    return pair;
}

static bool is_pair(size_t pair, const struct calibration_reading *r)
{
    return (r->cross == pairs[pair][0] && r->other == pairs[pair][1]) ||
           (r->cross == pairs[pair][1] && r->other == pairs[pair][0]);
}

void app_walk_correct_tape(struct app_walk *w, size_t index, const struct calibration_reading *is)
{
    size_t pair = pair_of_reading(w, index);
    if (pair == APP_WALK_TAPES)
        return;
    w->tape = pair; /* where it was meant of another pair, this one is asked for again */
    w->tape_mm[pair] = 0;
    for (size_t i = 0; i < APP_WALK_TAPES; i++)
        if (is_pair(i, is) && !(w->tape_mm[i] > 0))
            w->tape_mm[i] = is->distance_mm;
}

struct app_walk_effects app_walk_tape_again(struct app_walk *w, size_t index)
{
    size_t pair = pair_of_reading(w, index);
    return pair < APP_WALK_TAPES ? show(w, pair) : redraw;
}

bool app_walk_take_over_tape(struct app_walk *w, const struct calibration_reading *r)
{
    for (size_t i = 0; i < APP_WALK_TAPES; i++) {
        if (!is_pair(i, r))
            continue;
        w->tape_mm[i] = r->distance_mm;
        return true;
    }
    return false;
}

/* As she stands: the corner at her near left at zero, the one at her near right along from it, and not mirrored. */
void app_walk_lay_afloat(struct app_walk *w)
{
    struct scene_page page = scene_page_turned(w->start.width_px, w->start.height_px, w->quarter, 1);
    struct geometry_map *map = &w->solution.map;
    struct geometry_jacobian j =
        geometry_map_jacobian(map, (struct px_pt){ 0.5 * w->start.width_px, 0.5 * w->start.height_px });
    if (j.xu * j.yv - j.xv * j.yu > 0)
        calibration_lay(&w->solution, (struct calibration_move){ .flip = true });
    struct table_pt left = geometry_map_to_table(map, scene_page_px(&page, 0.03 * page.width, 0.03 * page.height));
    struct table_pt right = geometry_map_to_table(map, scene_page_px(&page, 0.97 * page.width, 0.03 * page.height));
    const vec2 from[2] = { { left.x, left.y }, { right.x, right.y } };
    const vec2 to[2] = { { 0, 0 }, { vec2_length(vec2_sub(from[1], from[0])), 0 } };
    calibration_lay(&w->solution, calibration_move_fitting(from, to, 2));
    calibration_doubt_release(map, &w->solution.doubt); /* which cross was held is of no weight */
}
