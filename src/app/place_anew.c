/* The rest of a layout planned anew, from where the cloth lies after it was slid or has moved: windows again over what
 * is not cut. What lies before the light can only be had by moving the cloth back, and is told as such. */
#include "app/place.h"
#include "app/place_state.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define STRAIGHT_DEG 20.0 /* cloth that lies more askew is no strip that can be slid on; our own choice */
#define EDGE_OUT_MM 20.0  /* so far the near edge may lie out of the light */

/* --- what the light shows ---------------------------------------------------------------------------------------- */

static int by_size(const void *a, const void *b)
{
    double p = *(const double *)a, q = *(const double *)b;
    return (p > q) - (p < q);
}

/* The corners of the light on the cloth: of the four, between the middle two it is lit all across. */
static struct geometry_box light_on_cloth(const struct app *app, const struct app_place_cloth *c)
{
    struct geometry_box light = app_place_light(app, c);
    struct geometry_mover back = geometry_mover_of((struct geometry_motion){ .turn_deg = -c->seat.to_table.turn_deg });
    double x[4], y[4];
    for (int i = 0; i < 4; i++) {
        vec2 corner = { i % 2 ? light.max.x : light.min.x, i / 2 ? light.max.y : light.min.y };
        vec2 at = geometry_move(&back, vec2_sub(corner, c->seat.to_table.shift));
        x[i] = at.x;
        y[i] = at.y;
    }
    qsort(x, 4, sizeof *x, by_size);
    qsort(y, 4, sizeof *y, by_size);
    return (struct geometry_box){ { x[1], y[1] }, { x[2], y[2] } };
}

/* How far the cloth lies off the way that sections are slid along. */
static double askew_deg(const struct app_place_cloth *c)
{
    double off = c->seat.to_table.turn_deg - 90.0 * c->quarter;
    return fabs(off - 360 * floor(off / 360 + 0.5));
}

/* --- what is not cut --------------------------------------------------------------------------------------------- */

static double first_left(const struct spans_cloth *cloth)
{
    double first = INFINITY;
    for (size_t i = 0; i < cloth->count; i++)
        if (cloth->outlines[i].path.count)
            first = fmin(first, geometry_path_box(cloth->outlines[i].path).min.x);
    return first;
}

/* --- planning ---------------------------------------------------------------------------------------------------- */

/* Sections up to that one, then those of the new plan: marks that are chalked for the next one stay its own. */
static struct spans_plan join(struct arena *a, const struct app_place_cloth *c, size_t span, struct spans_plan rest)
{
    struct spans_span *spans = base_arena_alloc(a, span + 1 + rest.count, sizeof *spans);
    memcpy(spans, c->plan.spans, (span + 1) * sizeof *spans);
    memcpy(spans + span + 1, rest.spans, rest.count * sizeof *spans);
    if (span + 1 < c->plan.count && app_place_are_shared_chalked(c, span + 1)) {
        const struct spans_span *next = &c->plan.spans[span + 1];
        memcpy(spans[span + 1].marks, next->marks, sizeof next->marks);
        memcpy(spans[span + 1].mark_items, next->mark_items, sizeof next->mark_items);
        spans[span + 1].mark_count = next->mark_count;
    }
    return (struct spans_plan){ spans, span + 1 + rest.count };
}

bool app_place_apply_anew(struct app *app, struct app_place_cloth *c, struct app_anew anew)
{
    struct err_list *errs = base_err_list_create();
    struct arena *scratch = base_arena_create();
    struct spans_cloth left = app_place_to_cut(scratch, c, false);
    struct spans_reach reach = { anew.to_mm - anew.from_mm, anew.across_mm };
    struct spans_plan rest = { 0 };
    left.begin_mm = anew.from_mm;
    bool ok = anew.span < c->plan.count && first_left(&left) >= anew.from_mm &&
              spans_make(app->a, &left, reach, SPANS_OVERLAP_MM, &rest, errs) && rest.count > 0;
    if (ok) {
        struct app_anew *all = base_arena_alloc(app->a, c->anew_count + 1, sizeof *all);
        if (c->anew_count)
            memcpy(all, c->anew, c->anew_count * sizeof *all);
        all[c->anew_count++] = anew;
        c->anew = all;
        c->plan = join(app->a, c, anew.span, rest);
        app_place_steps_anew(app->a, c, anew.span + 1);
        c->span = anew.span + 1;
    }
    base_arena_destroy(scratch);
    base_err_list_destroy(errs);
    return ok;
}

/* No more than sections have of the light: sliding is not exact. */
static struct app_anew anew_from(const struct app *app, const struct app_place_cloth *c)
{
    struct geometry_box light = light_on_cloth(app, c);
    struct spans_reach reach = app_place_reach(c);
    size_t *done = base_arena_alloc(app->a, c->step_count, sizeof *done);
    struct app_anew anew = { .span = c->span,
                             .from_mm = light.min.x,
                             .to_mm = fmin(light.max.x, light.min.x + reach.along_mm),
                             .across_mm = fmin(light.max.y, reach.across_mm),
                             .done = done };
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].done)
            done[anew.done_count++] = i;
    return anew;
}

/* The piece in hand stays in hand, where its section is in the light. */
static void keep_in_hand(struct app_place_cloth *c, struct app_step step)
{
    for (size_t i = 0; i < c->step_count && c->stage == APP_PLACE_CUT; i++)
        if (c->steps[i].span == c->span && c->steps[i].kind == step.kind && c->steps[i].item == step.item &&
            !c->steps[i].done)
            c->now = i;
}

bool app_place_plan_anew(struct app *app, struct app_place_cloth *c)
{
    struct app_place_cloth made = *c;
    struct geometry_box light = light_on_cloth(app, c);
    if (!app_place_left(c, c->span) || askew_deg(c) > STRAIGHT_DEG || light.min.y > EDGE_OUT_MM)
        return false;
    made.stage = APP_PLACE_CUT;
    if (!app_place_apply_anew(app, &made, anew_from(app, c)) || !app_place_left(&made, made.span) ||
        *app_place_outside_text(app, &made, app->a))
        return false;
    struct app_step step = c->steps[c->now];
    *c = made;
    app_place_begin(app, c);
    keep_in_hand(c, step);
    return true;
}
