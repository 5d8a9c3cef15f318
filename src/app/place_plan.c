/* Sections for the light: which part of the cloth lies where, and what is done in which order. */
#include "app/place.h"
#include "app/place_state.h"
#include "app/sentence.h"
#include "app/torn.h"
#include "base/words.h"

#include <math.h>
#include <string.h>

#define INSET_MM 15.0 /* of sections in the light: the cloth's edge is seen, and sliding is never exact … */
#define TIGHT_MM 6.0  /* … or so much, where that saves a section */

struct app_place_cloth *app_place_now(const struct app *app)
{
    return &app->place->cloths[app->place->now];
}

static vec2 turned(int quarter, vec2 v)
{
    static const double cosines[] = { 1, 0, -1, 0 }, sines[] = { 0, 1, 0, -1 };
    double c = cosines[quarter % 4], s = sines[quarter % 4];
    return (vec2){ c * v.x - s * v.y, s * v.x + c * v.y };
}

struct spans_reach app_place_reach(const struct app_place_cloth *cloth)
{
    double across = cloth->light.max.x - cloth->light.min.x, away = cloth->light.max.y - cloth->light.min.y;
    struct spans_reach reach = { cloth->quarter % 2 ? away : across, cloth->quarter % 2 ? across : away };
    reach.across_mm += app_place_near_mm(cloth); /* the cloth's edge is in the light, too */
    return reach;
}

struct geometry_motion app_place_straight(const struct app_place_cloth *cloth, double from_mm)
{
    vec2 along = turned(cloth->quarter, (vec2){ 1, 0 }), away = turned(cloth->quarter, (vec2){ 0, 1 });
    vec2 in = vec2_add(along, away); /* from the corner of the light where the section's begins */
    vec2 corner = { in.x > 0 ? cloth->light.min.x : cloth->light.max.x,
                    in.y > 0 ? cloth->light.min.y : cloth->light.max.y };
    vec2 edge = vec2_scale(away, app_place_near_mm(cloth));
    return (struct geometry_motion){ .turn_deg = 90.0 * cloth->quarter,
                                     .shift = vec2_sub(vec2_sub(corner, vec2_scale(along, from_mm)), edge) };
}

struct table_pt app_place_at(const struct geometry_motion *to_table, struct cloth_pt at)
{
    struct geometry_mover mover = geometry_mover_of(*to_table);
    vec2 p = geometry_move(&mover, (vec2){ at.x, at.y });
    return (struct table_pt){ p.x, p.y };
}

bool app_place_is_lit(const struct app *app, struct table_pt at)
{
    struct px_pt px;
    return geometry_map_to_px(&app->map, at, &px) && px.x >= 0 && px.y >= 0 && px.x <= app->map.width_px &&
           px.y <= app->map.height_px;
}

vec2 app_place_along(const struct app_place_cloth *cloth)
{
    return turned(cloth->quarter, (vec2){ 1, 0 });
}

static bool lies_away(const struct app_place_cloth *cloth, enum scene_side side)
{
    return fabs(vec2_dot(app_place_along(cloth), scene_side_right(side))) < 0.5;
}

bool app_place_lies_away(const struct app *app, const struct app_place_cloth *cloth)
{
    return lies_away(cloth, app->side);
}

bool app_place_end_is_second(const struct app_place_cloth *cloth, enum scene_side side)
{
    vec2 way = lies_away(cloth, side) ? scene_side_away(side) : scene_side_right(side);
    return vec2_dot(app_place_along(cloth), way) < 0;
}

const char *app_place_end_name(const struct app *app, const struct app_place_cloth *cloth, int end)
{
    static const char *const names[2][2] = {
        { BASE_TR_IN("end of the cloth", "left"), BASE_TR_IN("end of the cloth", "right") },
        { BASE_TR_IN("end of the cloth", "near"), BASE_TR_IN("end of the cloth", "far") }
    };
    return base_tr_in("end of the cloth", names[app_place_lies_away(app, cloth)][end]);
}

const char *app_place_end_text(const struct app *app, const struct app_place_cloth *cloth, int end)
{
    static const char *const names[2][2] = { { BASE_TR("at your left"), BASE_TR("at your right") },
                                             { BASE_TR("at the near end"), BASE_TR("at the far end") } };
    return base_tr(names[app_place_lies_away(app, cloth)][end]);
}

bool app_place_on_fold(const struct app_place_cloth *cloth)
{
    const struct cloth_spread *spread = &cloth->lay->task->spread;
    return spread->band_count > 0 && spread->bands[0].fold_at_from;
}

static bool is_fold_far(const struct app_place_cloth *cloth)
{
    const struct cloth_spread *spread = &cloth->lay->task->spread;
    return spread->band_count > 0 && spread->bands[spread->band_count - 1].fold_at_to;
}

double app_place_near_mm(const struct app_place_cloth *cloth)
{
    return app_place_on_fold(cloth) ? 0 : -cloth->lay->task->cloth->selvedge_mm;
}

double app_place_far_mm(const struct app_place_cloth *cloth)
{
    const struct lay_task *task = cloth->lay->task;
    return task->spread.width_mm + (is_fold_far(cloth) ? 0 : task->cloth->selvedge_mm);
}

const char *app_place_name(struct arena *a, const struct app_place_cloth *cloth)
{
    return cloth->rest ? app_torn_rest_name(a, cloth->rest) : base_tr(pattern_cloth_name(cloth->lay->task->material));
}

/* To: of the three forms, the second and third stand in “lay … along its line” and “nudge A onto …”. */
static const struct app_edge fold_edge = { BASE_TR_IN("edge of the cloth", "fold"),
                                           BASE_TR_IN("edge of the cloth", "the fold"),
                                           BASE_TR_IN("edge of the cloth", "the other fold") };
static const struct app_edge selvedge = { BASE_TR_IN("edge of the cloth", "selvedge"),
                                          BASE_TR_IN("edge of the cloth", "the selvedge"),
                                          BASE_TR_IN("edge of the cloth", "the other selvedge") };
static const struct app_edge cut_side = { BASE_TR_IN("edge of the cloth", "cut side"),
                                          BASE_TR_IN("edge of the cloth", "the cut side"), NULL };
static const struct app_edge torn_side = { BASE_TR_IN("edge of the cloth", "torn side"),
                                           BASE_TR_IN("edge of the cloth", "the torn side"), NULL };
static const struct app_edge other_side = { BASE_TR_IN("edge of the cloth", "other side"),
                                            BASE_TR_IN("edge of the cloth", "the other side"), NULL };
static const struct app_edge cut_end = { BASE_TR_IN("edge of the cloth", "cut end"),
                                         BASE_TR_IN("edge of the cloth", "the cut end"), NULL };
static const struct app_edge torn_end = { BASE_TR_IN("edge of the cloth", "torn end"),
                                          BASE_TR_IN("edge of the cloth", "the torn end"), NULL };

/* How a rest tells its sides: by what they were torn or cut off. */
struct sides {
    const struct app_edge *near, *far, *end;
};

static const struct sides across_sides = { &cut_side, &selvedge, &torn_end };
static const struct sides along_sides = { &torn_side, &other_side, &cut_end };
static const struct sides above_sides = { &cut_side, &other_side, &cut_end };
static const struct sides beside_sides = { &torn_side, &selvedge, &torn_end };

static const struct app_edge *edge_of(bool fold)
{
    return fold ? &fold_edge : &selvedge;
}

static struct sides sides_of(const struct app_place_cloth *cloth)
{
    if (cloth->rest && cloth->rest->above)
        return above_sides;
    if (cloth->rest)
        return cloth->rest->strip == TEARING_BESIDE ? beside_sides : cloth->rest->along ? along_sides : across_sides;
    return (struct sides){ edge_of(app_place_on_fold(cloth)), edge_of(is_fold_far(cloth)), &cut_end };
}

static struct app_edge in_her_language(const struct app_edge *edge)
{
    static const char context[] = "edge of the cloth";
    return (struct app_edge){ base_tr_in(context, edge->label), base_tr_in(context, edge->the),
                              edge->the_other ? base_tr_in(context, edge->the_other) : NULL };
}

struct app_edge app_place_near_edge(const struct app_place_cloth *cloth)
{
    return in_her_language(sides_of(cloth).near);
}

struct app_edge app_place_far_edge(const struct app_place_cloth *cloth)
{
    return in_her_language(sides_of(cloth).far);
}

struct app_edge app_place_end(const struct app_place_cloth *cloth)
{
    return in_her_language(sides_of(cloth).end);
}

/* --- steps ------------------------------------------------------------------------------------------------------- */

static void add_step(struct app_place_cloth *c, size_t span, enum app_step_kind kind, int item)
{
    c->steps[c->step_count++] = (struct app_step){ .span = span, .kind = kind, .item = item };
}

static void add_cutting(struct app_place_cloth *c, size_t span, const int *items, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!app_place_overlaps(c, items[i]))
            add_step(c, span, APP_STEP_CUT, items[i]);
}

/* What is laid, in the order of the list. */
static void add_cutting_by_lamp(struct app_place_cloth *c)
{
    for (size_t i = 0; i < c->lay->task->item_count; i++)
        if (c->lay->places[i].is_laid && !app_place_overlaps(c, (int)i))
            add_step(c, c->plan.count, APP_STEP_LAMP, (int)i);
    for (size_t i = 0; c->earlier && i < c->step_count; i++)
        if (c->steps[i].kind == APP_STEP_LAMP)
            c->steps[i].done = c->earlier->lamp[c->steps[i].item];
}

static void add_done_steps(struct app_place_cloth *c, const struct app_step *steps, size_t count, size_t end)
{
    for (size_t i = 0; i < count; i++)
        if (steps[i].span < end && steps[i].done)
            c->steps[c->step_count++] = steps[i];
}

/* What was done of a piece that is still in work goes on in the last of its steps. */
static void keep_parts(struct app_place_cloth *c, const struct app_step *before, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct app_step *last = NULL;
        for (size_t k = 0; k < c->step_count && before[i].part > APP_PART_CUT && !before[i].done; k++)
            if (c->steps[k].kind == before[i].kind && c->steps[k].item == before[i].item && !c->steps[k].done)
                last = &c->steps[k];
        if (last)
            last->part = before[i].part;
    }
}

void app_place_steps_anew(struct arena *a, struct app_place_cloth *c, size_t from)
{
    const struct app_step *before = c->steps;
    size_t before_count = c->step_count, most = before_count + c->lay->task->item_count;
    for (size_t s = from; s < c->plan.count; s++)
        most += c->plan.spans[s].item_count + c->plan.spans[s].part_count + 2;
    c->steps = base_arena_alloc(a, most, sizeof *c->steps);
    c->step_count = 0;
    add_done_steps(c, before, before_count, from);
    for (size_t s = from; s < c->plan.count; s++) {
        const struct spans_span *span = &c->plan.spans[s];
        struct app_chalk marks[APP_PLACE_CHALK];
        if (app_place_chalk(a, c, s, APP_STEP_WITNESSES, marks))
            add_step(c, s, APP_STEP_WITNESSES, LAY_NONE);
        add_cutting(c, s, span->items, span->item_count);
        add_cutting(c, s, span->parts, span->part_count);
        if (app_place_chalk(a, c, s, APP_STEP_MARKS, marks))
            add_step(c, s, APP_STEP_MARKS, LAY_NONE);
    }
    if (c->chalks_all)
        add_cutting_by_lamp(c);
    keep_parts(c, before, before_count);
}

/* --- planning ---------------------------------------------------------------------------------------------------- */

/* All are about where two sections meet: the first of them is the first thing that is told. */
static void keep_warning(struct app *app, struct app_place_cloth *made, const struct err *err)
{
    if (made->warning_count < APP_PLACE_WARNINGS)
        made->warnings[made->warning_count++] =
            (struct app_warning){ (size_t)err->args[0].number - 1, app_sentence_short(app->a, err, app->unit) };
}

const char *app_place_warning(const struct app_place_cloth *cloth, size_t span)
{
    for (int i = 0; i < cloth->warning_count; i++)
        if (cloth->warnings[i].span == span || cloth->warnings[i].span + 1 == span)
            return cloth->warnings[i].sentence;
    return NULL;
}

/* All that sections depend on is taken together with them, or nothing. */
bool app_place_plan_in(struct app *app, struct app_place_cloth *cloth, struct geometry_box light, int quarter)
{
    struct err_list *errs = base_err_list_create();
    struct arena *scratch = base_arena_create();
    struct app_place_cloth made = { .lay = cloth->lay,
                                    .rest = cloth->rest,
                                    .torn = cloth->torn,
                                    .overlaps = cloth->overlaps,
                                    .overlap_count = cloth->overlap_count,
                                    .chalks_all = cloth->chalks_all,
                                    .earlier = cloth->earlier,
                                    .light = light,
                                    .quarter = quarter };
    struct spans_cloth outlines = app_place_to_cut(scratch, &made, true);
    struct spans_reach reach = app_place_reach(&made);
    bool ok = spans_make(app->a, &outlines, reach, SPANS_OVERLAP_MM, &made.plan, errs) && made.plan.count > 0;
    if (ok)
        app_place_steps_anew(app->a, &made, 0);
    else
        made.trouble = errs->count ? app_sentence_short(app->a, &errs->items[0], app->unit)
                                   : base_tr("Nothing is laid on this cloth");
    for (int i = 0; ok && i < errs->count; i++)
        keep_warning(app, &made, &errs->items[i]);
    if (ok && errs->count)
        app->told = made.warnings[0].sentence;
    *cloth = made;
    base_arena_destroy(scratch);
    base_err_list_destroy(errs);
    return ok;
}

/* What pieces may use of the light as she stands, so much within it, clear of a notice or not. */
static struct geometry_box light_within(const struct app *app, double inset_mm, bool clear)
{
    struct scene_view view = { .map = &app->map,
                               .look = { geometry_map_mm_per_px(&app->map), app->weight_mm, &scene_chalks[0] },
                               .side = app->side,
                               .strip_edge = app_strip_edge(app) };
    struct geometry_box light = clear ? scene_clear_light(&view) : scene_usable_light(&view);
    vec2 inset = { inset_mm, inset_mm };
    light.min = vec2_add(light.min, inset);
    light.max = vec2_sub(light.max, inset);
    return light;
}

/* What is left of the light beside check stickers: each is cut off with the strip along that edge which takes least.
 * The cloth would cover them, and their marks of light lie over its pieces. */
static struct geometry_box beside_stickers(const struct app *app, struct geometry_box light)
{
    for (int i = 0; i < app->stickers.count; i++) {
        struct table_pt at = geometry_map_to_table(&app->map, app->stickers.px[i]);
        double wide = light.max.x - light.min.x, high = light.max.y - light.min.y;
        double off[] = { at.x + SCENE_STICKER_MM - light.min.x, light.max.x - (at.x - SCENE_STICKER_MM),
                         at.y + SCENE_STICKER_MM - light.min.y, light.max.y - (at.y - SCENE_STICKER_MM) };
        int least = 0;
        for (int k = 1; k < 4; k++)
            if (off[k] / (k < 2 ? wide : high) < off[least] / (least < 2 ? wide : high))
                least = k;
        double *const edges[] = { &light.min.x, &light.max.x, &light.min.y, &light.max.y };
        *edges[least] += (least % 2 ? -1 : 1) * fmax(off[least], 0);
    }
    return light;
}

struct geometry_box app_place_clear_light(const struct app *app)
{
    return light_within(app, 0, true);
}

bool app_place_reaches_out(const struct app *app, const struct app_place_cloth *c)
{
    struct geometry_box clear = app_place_clear_light(app);
    return c->light.min.x < clear.min.x || c->light.min.y < clear.min.y || c->light.max.x > clear.max.x ||
           c->light.max.y > clear.max.y;
}

struct geometry_box app_place_light(const struct app *app, const struct app_place_cloth *cloth)
{
    return light_within(app, 0, !app_place_reaches_out(app, cloth));
}

/* Where sections lie in the light. */
struct way {
    double inset_mm;
    bool clear, beside; /* of notices, stickers */
};

static struct geometry_box light_of(const struct app *app, struct way way)
{
    struct geometry_box light = light_within(app, way.inset_mm, way.clear);
    return way.beside ? beside_stickers(app, light) : light;
}

/* Beside check stickers, else well within the light, or less so, where that saves a section; clear of notices, unless
 * nothing fits so: they cover what is to be cut. */
static bool plan_turned(struct app *app, struct app_place_cloth *cloth, int quarter)
{
    static const struct way ways[] = {
        { INSET_MM, true, true }, { INSET_MM, true, false }, { TIGHT_MM, true, false }, { TIGHT_MM, false, false }
    };
    bool found = false;
    for (size_t i = app->stickers.count ? 0 : 1; i < sizeof ways / sizeof ways[0] && !(found && cloth->plan.count == 1);
         i++) {
        if (found && !ways[i].clear)
            break;
        struct app_place_cloth tried = *cloth;
        const char *told = app->told;
        bool fits = app_place_plan_in(app, &tried, light_of(app, ways[i]), quarter);
        if (found && (!fits || tried.plan.count >= cloth->plan.count)) {
            app->told = told;
            continue;
        }
        *cloth = tried;
        found = fits;
    }
    return found;
}

/* Along the table with the near edge at her side; standing at an end of the table, with its cut end at the mat's zero.
 * Where the cloth is wider than the light reaches so, across the table. */
static void plan_as_she_stands(struct app *app, struct app_place_cloth *cloth)
{
    static const int first[] = { [SCENE_NEAR] = 0, [SCENE_RIGHT] = 0, [SCENE_FAR] = 2, [SCENE_LEFT] = 0 };
    static const int then[] = { [SCENE_NEAR] = 1, [SCENE_RIGHT] = 1, [SCENE_FAR] = 3, [SCENE_LEFT] = 3 };
    if (plan_turned(app, cloth, first[app->side]))
        return;
    struct app_place_cloth along = *cloth;
    if (!plan_turned(app, cloth, then[app->side]) &&
        app_place_reach(&along).across_mm > app_place_reach(cloth).across_mm)
        *cloth = along; /* what would do with the least change is told */
}

void app_place_fresh(struct app *app, struct app_place_cloth *cloth)
{
    cloth->earlier = NULL;
    cloth->chalks_all = app->chalks_all;
    plan_as_she_stands(app, cloth);
}

static void add(struct app *app, const struct lay *lay, const struct tearing_rest *rest,
                const struct tearing_plan *torn)
{
    size_t count = app->place ? app->place->count : 0;
    struct app_place *place = base_arena_alloc(app->a, 1, sizeof *place);
    *place = (struct app_place){ base_arena_alloc(app->a, count + 1, sizeof *place->cloths), count + 1, count, true };
    if (count)
        memcpy(place->cloths, app->place->cloths, count * sizeof *place->cloths);
    place->cloths[count] =
        (struct app_place_cloth){ .lay = lay, .rest = rest, .torn = torn, .chalks_all = app->chalks_all };
    app->place = place;
    app_attend_surface(app);
    app_place_find_overlaps(app, &place->cloths[count]);
    plan_as_she_stands(app, &place->cloths[count]);
}

void app_place_add(struct app *app, const struct lay *lay)
{
    add(app, lay, NULL, NULL);
}

void app_place_add_behind(struct app *app, const struct lay *lay, const struct tearing_plan *torn)
{
    add(app, lay, NULL, torn);
}

void app_place_add_rest(struct app *app, const struct tearing_rest *rest, const struct tearing_plan *torn)
{
    add(app, rest->lay, rest, torn);
}

void app_place_first(struct app *app)
{
    if (!app->place)
        return;
    app->place->now = 0;
    app_attend_surface(app);
}

void app_show_cloth(struct app *app, enum pattern_cloth material)
{
    for (size_t i = app->place ? app->place->count : 0; i-- > 0;)
        if (app->place->cloths[i].lay->task->material == material) {
            app->place->now = i;
            app->place->on = true;
        }
}

bool app_place_is_shown(const struct app *app)
{
    return app_place_is_on(app) && app->mode == SCENE_PIECES;
}

/* Of what is cut with the layout, most runs through so many layers. */
static int layers_of_most(const struct lay *lay)
{
    double cut_mm[2] = { 0, 0 };
    for (size_t i = 0; i < lay->task->item_count; i++) {
        const struct lay_item *item = &lay->task->items[i];
        if (lay->places[i].is_laid)
            cut_mm[item->layers > 1] += geometry_path_length(item->piece->cut.path);
    }
    return cut_mm[1] > cut_mm[0] ? 2 : 1;
}

struct calibration_surface app_place_surface(const struct app *app)
{
    struct calibration_surface told = app->job->surface, out = told;
    if (told.layers || !app_place_is_on(app))
        return told;
    const struct lay *lay = app_place_now(app)->lay;
    if (!(lay->task->cloth->thickness_mm > 0))
        return told;
    out.cloth_mm = lay->task->cloth->thickness_mm;
    out.layers = layers_of_most(lay);
    return calibration_surface_is_valid(&out) ? out : told;
}

bool app_place_is_on(const struct app *app)
{
    return app->place && app->place->on;
}

bool app_place_show(struct app *app, bool on)
{
    if (!app->place)
        return false;
    app->place->on = on;
    app_attend_surface(app);
    return true;
}

bool app_place_is_begun(const struct app_place_cloth *cloth)
{
    for (size_t i = 0; i < cloth->step_count; i++)
        if (cloth->steps[i].done)
            return true;
    return cloth->stage != APP_PLACE_LINES || cloth->earlier;
}

bool app_place_is_to_tear(const struct app_place_cloth *cloth)
{
    return cloth->torn && !app_place_is_begun(cloth);
}

/* What was measured stays at its end of the cloth, whatever she calls that now. */
static void turn_typed(struct app_place_cloth *cloth)
{
    char first[APP_PLACE_TYPED];
    memcpy(first, cloth->typed[0], sizeof first);
    memcpy(cloth->typed[0], cloth->typed[1], sizeof first);
    memcpy(cloth->typed[1], first, sizeof first);
    if (*cloth->typed[0] || *cloth->typed[1])
        cloth->field = !cloth->field;
}

void app_place_turned(struct app *app, enum scene_side from)
{
    if (!app->place)
        return;
    size_t shown = app->place->now;
    for (app->place->now = 0; app->place->now < app->place->count; app->place->now++) {
        struct app_place_cloth *cloth = app_place_now(app);
        app_attend_surface(app);
        if (!app_place_is_begun(cloth))
            plan_as_she_stands(app, cloth);
        else if (app_place_end_is_second(cloth, from) != app_place_end_is_second(cloth, app->side))
            turn_typed(cloth);
    }
    app->place->now = shown;
    app_attend_surface(app);
}
