/* Points of light that are nudged onto the cloth, one after the other, and where it lies by them. */
#include "app/amount.h"
#include "app/place.h"
#include "app/place_state.h"
#include "app/sentence.h"
#include "base/text.h"
#include "base/words.h"

#include <math.h>

/* How well a point is nudged onto what it is for, mm, chalk and eye together; common practice, no source. */
#define MARK_SIGMA_MM 0.8 /* a mark chalked within 0.7 mm, found again by eye */

void app_place_aim_anew(struct app_place_cloth *cloth)
{
    cloth->aim_count = 0;
    cloth->in_hand = 0;
    cloth->apart_told = cloth->stretch_told = false;
}

static void add_aim(struct app_place_cloth *cloth, const char *name, struct spans_sighting sighting)
{
    if (cloth->aim_count < APP_PLACE_AIMS)
        cloth->aims[cloth->aim_count++] = (struct app_aim){ name, sighting };
}

void app_place_aim_mark(struct app_place_cloth *cloth, const struct geometry_motion *expected,
                        const struct app_chalk *mark)
{
    struct spans_sighting sighting = { SPANS_MARK, mark->at, app_place_at(expected, mark->at), MARK_SIGMA_MM };
    add_aim(cloth, mark->name, sighting);
}

/* Named by numbers, so that no letter of a mark is theirs. */
void app_place_aim_point(struct app *app, struct app_place_cloth *cloth, struct spans_sighting sighting)
{
    int number = 1;
    for (int i = 0; i < cloth->aim_count; i++)
        number += cloth->aims[i].sighting.sign != SPANS_MARK;
    add_aim(cloth, base_arena_print(app->a, "%d", number), sighting);
}

void app_place_aim_line(struct app *app, struct app_place_cloth *cloth, const struct geometry_motion *expected,
                        enum spans_sign sign, struct cloth_pt at)
{
    app_place_aim_point(app, cloth,
                        (struct spans_sighting){ sign, at, app_place_at(expected, at), APP_PLACE_LINE_SIGMA_MM });
}

/* One that was expected out of the light may be brought into it. */
static bool may_move_to(const struct app *app, struct table_pt from, struct table_pt to)
{
    struct px_pt middle = { app->map.width_px / 2.0, app->map.height_px / 2.0 };
    struct table_pt in = geometry_map_to_table(&app->map, middle);
    return app_place_is_lit(app, to) ||
           (!app_place_is_lit(app, from) &&
            vec2_length((vec2){ to.x - in.x, to.y - in.y }) < vec2_length((vec2){ from.x - in.x, from.y - in.y }));
}

void app_place_move_aim(struct app *app, struct app_place_cloth *cloth, vec2 by)
{
    struct table_pt *at = &cloth->aims[cloth->in_hand].sighting.table;
    struct table_pt to = { at->x + by.x, at->y + by.y };
    cloth->stretch_told = false;
    if (may_move_to(app, *at, to))
        *at = to;
    else
        app->told = cloth->stage == APP_PLACE_EDGE
                        ? base_tr("The light ends here: move the cloth, or leave the point where it is")
                        : base_tr("The light ends here: move the cloth, or X leaves this point out");
}

/* What is told of a seat, or of why there is none. */
static const char *told_of(struct app *app, const struct err_list *errs)
{
    return errs->count ? app_sentence_short(app->a, &errs->items[0], app->unit) : NULL;
}

/* --- points that do not agree ------------------------------------------------------------------------------------ */

enum { SEAT_ROWS = 3 /* coordinates that a seat takes; what is more confirms it */ };

static int rows_of(const struct app_place_cloth *c, int left_out)
{
    int rows = 0;
    for (int i = 0; i < c->aim_count; i++)
        if (i != left_out)
            rows += c->aims[i].sighting.sign == SPANS_MARK ? 2 : 1;
    return rows;
}

enum without { AGREE, UNSURE, DISAGREE };

/* What the others say of each other without one point: surely agree only those that have one more than they need. */
static enum without without(const struct app_place_cloth *c, int left_out, struct spans_seat *seat)
{
    struct err_list *errs = base_err_list_create();
    struct spans_sighting rest[APP_PLACE_AIMS];
    size_t count = 0;
    for (int i = 0; i < c->aim_count; i++)
        if (i != left_out)
            rest[count++] = c->aims[i].sighting;
    bool sits = spans_sit(rest, count, seat, errs), told = errs->count > 0;
    bool against = base_err_list_has(errs, "spans.contradiction");
    base_err_list_destroy(errs);
    return against ? DISAGREE : sits && !told && rows_of(c, left_out) > SEAT_ROWS ? AGREE : UNSURE;
}

/* How far a point was found from where a seat says. */
static double off_mm(const struct spans_seat *seat, const struct spans_sighting *s)
{
    struct table_pt at = app_place_at(&seat->to_table, s->cloth);
    struct geometry_mover turn = geometry_mover_of((struct geometry_motion){ .turn_deg = seat->to_table.turn_deg });
    vec2 off = { s->table.x - at.x, s->table.y - at.y };
    if (s->sign == SPANS_MARK)
        return vec2_length(off);
    return fabs(vec2_dot(off, geometry_move(&turn, s->sign == SPANS_ALONG_LINE ? (vec2){ 0, 1 } : (vec2){ 1, 0 })));
}

/* The one point that alone explains it, with what the others say; -1 where it may be any of several. */
static int to_blame(const struct app_place_cloth *c, struct spans_seat *others)
{
    int found = -1, suspects = 0;
    for (int i = 0; i < c->aim_count; i++) {
        struct spans_seat seat;
        enum without rest = without(c, i, &seat);
        suspects += rest != DISAGREE;
        if (rest != AGREE)
            continue;
        found = i;
        *others = seat;
    }
    return suspects == 1 ? found : -1;
}

static const char *aim_list(struct arena *a, const struct app_place_cloth *c)
{
    const char *names[APP_PLACE_AIMS];
    for (int i = 0; i < c->aim_count; i++)
        names[i] = c->aims[i].name;
    return base_text_list(a, names, (size_t)c->aim_count, APP_PLACE_AIMS);
}

static void tell_apart(struct app *app, struct app_place_cloth *c, const struct spans_seat *all)
{
    struct spans_seat others;
    int one = to_blame(c, &others);
    c->apart_told = true;
    c->in_hand = one >= 0 ? one : 0;
    if (one >= 0)
        app->told =
            base_arena_print(app->a,
                             base_tr("%s lies %s from where the others say: nudge it once more; if it stays so, "
                                     "X leaves it out"),
                             c->aims[one].name, app_mm(app->a, off_mm(&others, &c->aims[one].sighting)));
    else
        app->told = base_arena_print(app->a,
                                     base_tr("%s do not agree, by %s or more, and which is wrong cannot be told: nudge "
                                             "each of them once more"),
                                     aim_list(app->a, c), app_mm(app->a, all->worst_off_mm));
}

bool app_place_sit(struct app *app, struct app_place_cloth *cloth, const struct spans_sighting *seen, int count)
{
    struct err_list *errs = base_err_list_create();
    struct spans_seat seat;
    bool ok = spans_sit(seen, (size_t)count, &seat, errs);
    app->told = told_of(app, errs);
    if (ok) {
        cloth->seat = seat;
        cloth->seen_count = count;
        for (int i = 0; i < count; i++)
            cloth->seen[i] = seen[i];
    } else if (base_err_list_has(errs, "spans.contradiction")) {
        tell_apart(app, cloth, &seat);
    }
    base_err_list_destroy(errs);
    return ok;
}

void app_place_drop_aim(struct app *app, struct app_place_cloth *cloth)
{
    if (cloth->aim_count <= 2) {
        app->told = base_tr("Two points at least tell how the cloth lies");
        return;
    }
    struct spans_seat others;
    if (cloth->apart_told && to_blame(cloth, &others) != cloth->in_hand) {
        app->told = base_tr("Without it nothing would confirm the others: nudge each of them once more");
        return;
    }
    for (int i = cloth->in_hand; i + 1 < cloth->aim_count; i++)
        cloth->aims[i] = cloth->aims[i + 1];
    cloth->aim_count--;
    cloth->in_hand = 0;
}

/* Whether each point was found within chalk and eye of where the cloth is taken to lie. */
static bool lies_still(const struct app_place_cloth *cloth)
{
    enum { SIGMAS = 2 };
    for (int i = 0; i < cloth->aim_count; i++)
        if (off_mm(&cloth->seat, &cloth->aims[i].sighting) > SIGMAS * cloth->aims[i].sighting.sigma_mm)
            return false;
    return true;
}

/* Cloth that has not moved after all lies as it was found before, where that tells it better. */
static void keep_better(struct app *app, struct app_place_cloth *cloth, const struct app_place_cloth *before)
{
    if (!lies_still(before) || app_place_doubt_mm(app, before) > app_place_doubt_mm(app, cloth))
        return;
    cloth->seat = before->seat;
    cloth->seen_count = before->seen_count;
    for (int i = 0; i < before->seen_count; i++)
        cloth->seen[i] = before->seen[i];
    app->told = base_tr("The cloth has not moved");
}

/* Whether it would lie the other way round than it was laid, or than it lay. */
static bool is_end_for_end(const struct app_place_cloth *cloth, const struct app_place_cloth *before)
{
    double was = cloth->stage == APP_PLACE_EDGE ? 90.0 * cloth->quarter : before->seat.to_table.turn_deg;
    double off = cloth->seat.to_table.turn_deg - was;
    return fabs(off - 360 * floor(off / 360 + 0.5)) > 90;
}

/* Points taken for one another turn the cloth on the light alone. Of a scrap, whose outline is seen to turn with its
 * corners, nothing is asked. */
static bool tell_end_for_end(struct app *app, struct app_place_cloth *cloth, const struct app_place_cloth *before)
{
    if (app_place_is_scrap(cloth) || !is_end_for_end(cloth, before))
        return false;
    *cloth = *before;
    cloth->in_hand = 0;
    app->told = base_arena_print(
        app->a,
        /* To: “By these points the cut end lies at your right …” */
        base_tr("By these points %s lies %s: if it does not, nudge each of them once more; if it does, "
                "turn the cloth end for end"),
        app_place_end(cloth).the, app_place_end_text(app, cloth, !app_place_end_is_second(cloth, app->side)));
    return true;
}

bool app_place_take_aim(struct app *app, struct app_place_cloth *cloth)
{
    struct spans_sighting seen[APP_PLACE_AIMS];
    struct app_place_cloth before = *cloth;
    if (!cloth->stretch_told && cloth->in_hand + 1 < cloth->aim_count) {
        cloth->in_hand++;
        return false;
    }
    for (int i = 0; i < cloth->aim_count; i++)
        seen[i] = cloth->aims[i].sighting;
    cloth->in_hand = 0; /* to be looked at again, should they not agree */
    if (!app_place_sit(app, cloth, seen, cloth->aim_count) || tell_end_for_end(app, cloth, &before))
        return false;
    if (spans_is_stretched(&cloth->seat) && !before.stretch_told) {
        *cloth = before; /* until she has seen it */
        cloth->in_hand = 0;
        cloth->stretch_told = true;
        app->told = base_arena_print(app->a, base_tr("%s · Enter: go on all the same"), app->told);
        return false;
    }
    if (cloth->stage == APP_PLACE_MOVED)
        keep_better(app, cloth, &before);
    return true;
}

/* As far as cloth that lies stretched has taken a place from the midst of the marks, which alone hold it lengthwise. */
static double by_stretch_mm(const struct app_place_cloth *cloth, struct cloth_pt at)
{
    vec2 sum = { 0, 0 };
    int count = 0;
    for (int i = 0; i < cloth->seen_count; i++)
        if (cloth->seen[i].sign == SPANS_MARK) {
            sum = vec2_add(sum, (vec2){ cloth->seen[i].cloth.x, cloth->seen[i].cloth.y });
            count++;
        }
    if (!count || !spans_is_stretched(&cloth->seat))
        return 0;
    return fabs(cloth->seat.stretch) * vec2_length(vec2_sub((vec2){ at.x, at.y }, vec2_scale(sum, 1.0 / count)));
}

/* At the corners of a box about a piece as it lies: the seat's doubt there and the table's are of different making. */
static double doubt_of_item(const struct app *app, const struct app_place_cloth *cloth, struct geometry_box box)
{
    double worst = 0;
    for (int i = 0; i < 4; i++) {
        struct cloth_pt at = { i % 2 ? box.max.x : box.min.x, i / 2 ? box.max.y : box.min.y };
        double seat = spans_doubt(&cloth->seat, at), table = 0;
        struct px_pt px;
        if (app->table.has_doubt && geometry_map_to_px(&app->map, app_place_at(&cloth->seat.to_table, at), &px))
            table = calibration_doubt_place_mm(&app->map, &app->table.doubt, px);
        worst = fmax(worst, sqrt(seat * seat + table * table) + by_stretch_mm(cloth, at));
    }
    return worst;
}

double app_place_doubt_mm(const struct app *app, const struct app_place_cloth *cloth)
{
    struct arena *a = base_arena_create();
    double worst = 0;
    for (size_t i = 0; i < cloth->step_count; i++) {
        const struct app_step *step = &cloth->steps[i];
        if (step->span != cloth->span || step->kind != APP_STEP_CUT)
            continue;
        size_t item = (size_t)step->item;
        struct cloth_path outline = lay_outline(a, cloth->lay->task, item, &cloth->lay->places[item]);
        struct geometry_box box = geometry_path_box(outline.path);
        const struct spans_span *span = &cloth->plan.spans[step->span];
        box.min.x = fmax(box.min.x, span->from_mm);
        box.max.x = fmin(box.max.x, span->to_mm);
        worst = fmax(worst, doubt_of_item(app, cloth, box));
    }
    base_arena_destroy(a);
    return worst;
}

/* --- ways on the table ------------------------------------------------------------------------------------------- */

#define LEAST_WAY_MM 10.0 /* what is less is within how well cloth is slid */

/* "120 mm to your left". */
static const char *one_way(const struct app *app, double mm, const char *plus, const char *minus, struct arena *a)
{
    char by[UNITS_TEXT];
    units_print_length(by, units_on_tape(fabs(mm), app->unit), app->unit);
    return base_arena_print(a, mm > 0 ? plus : minus, by);
}

const char *app_place_way_text(const struct app *app, vec2 by, struct arena *a)
{
    double right = vec2_dot(by, scene_side_right(app->side)), away = vec2_dot(by, scene_side_away(app->side));
    const char *aside = one_way(app, right, base_tr("%s to your right"), base_tr("%s to your left"), a);
    const char *off = one_way(app, away, base_tr("%s away from you"), base_tr("%s toward you"), a);
    bool asides = fabs(right) >= fabs(away);
    if (fmin(fabs(right), fabs(away)) < LEAST_WAY_MM)
        return asides ? aside : off;
    return base_arena_print(a, base_tr("%s and %s"), asides ? aside : off, asides ? off : aside);
}

/* --- what lies outside ------------------------------------------------------------------------------------------- */

static bool is_to_cut_here(const struct app_place_cloth *cloth, size_t step)
{
    const struct app_step *s = &cloth->steps[step];
    return s->span == cloth->span && s->kind == APP_STEP_CUT && !s->done;
}

/* About what is cut of a piece in this section, on the table as the cloth lies. */
static struct geometry_box step_box(const struct app_place_cloth *cloth, size_t step)
{
    struct arena *a = base_arena_create();
    const struct spans_span *span = &cloth->plan.spans[cloth->span];
    struct geometry_box box = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };
    size_t item = (size_t)cloth->steps[step].item;
    struct geometry_path path = lay_outline(a, cloth->lay->task, item, &cloth->lay->places[item]).path;
    double from = fmax(span->from_mm, app_place_cut_to(cloth, item));
    for (size_t i = 0; i < path.count; i++) {
        double x = fmin(fmax(path.points[i].x, from), span->to_mm);
        struct table_pt at = app_place_at(&cloth->seat.to_table, (struct cloth_pt){ x, path.points[i].y });
        box.min = (vec2){ fmin(box.min.x, at.x), fmin(box.min.y, at.y) };
        box.max = (vec2){ fmax(box.max.x, at.x), fmax(box.max.y, at.y) };
    }
    base_arena_destroy(a);
    return box;
}

/* About all of this section that is still to be cut. */
static struct geometry_box section_box(const struct app_place_cloth *cloth)
{
    struct geometry_box box = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };
    for (size_t i = 0; i < cloth->step_count; i++)
        if (is_to_cut_here(cloth, i))
            box = geometry_box_join(box, step_box(cloth, i));
    return box;
}

static double into(double from, double to, double least, double most)
{
    return from < least ? least - from : to > most ? most - to : 0;
}

/* The light that pieces may use with the strip at that edge, less than there is where that is no rectangle. */
static struct geometry_box usable_light(const struct app *app, enum scene_side edge)
{
    struct scene_view view = { .map = &app->map,
                               .look = { geometry_map_mm_per_px(&app->map), app->weight_mm, &scene_chalks[0] },
                               .side = app->side,
                               .strip_edge = edge };
    return scene_usable_light(&view);
}

/* How a box on the table must be moved to lie in the light for certain. */
static vec2 way_into_light(const struct app *app, struct geometry_box box)
{
    struct geometry_box light = usable_light(app, app_strip_edge(app));
    return (vec2){ into(box.min.x, box.max.x, light.min.x, light.max.x),
                   into(box.min.y, box.max.y, light.min.y, light.max.y) };
}

#define LEAST_OUT_MM 0.5

/* Whether the strip, and what lies beyond it, has a place. */
static bool is_at_strip(const struct app *app, vec2 at)
{
    enum scene_side strip = app_strip_edge(app);
    struct geometry_box light = usable_light(app, strip);
    vec2 away = scene_side_away(scene_side_of_hers(app->side, strip));
    vec2 edge = { away.x > 0 ? light.min.x : light.max.x, away.y > 0 ? light.min.y : light.max.y };
    return vec2_dot(vec2_sub(at, edge), away) < -LEAST_OUT_MM;
}

/* Whether light falls on all of a box, strip and notice aside. */
static bool is_all_lit(const struct app *app, struct geometry_box box)
{
    for (int i = 0; i < 4; i++) {
        vec2 at = { i % 2 ? box.max.x : box.min.x, i / 2 ? box.max.y : box.min.y };
        if (!app_place_is_lit(app, (struct table_pt){ at.x, at.y }) || is_at_strip(app, at))
            return false;
    }
    return true;
}

/* Pieces of this section that are not whole in the light. */
static const char *names_outside(const struct app *app, const struct app_place_cloth *cloth, struct arena *a,
                                 size_t *count)
{
    enum { MOST_NAMED = 2 };
    const char **names = base_arena_alloc(a, cloth->step_count, sizeof *names);
    *count = 0;
    for (size_t i = 0; i < cloth->step_count; i++) {
        if (!is_to_cut_here(cloth, i))
            continue;
        struct geometry_box box = step_box(cloth, i);
        if (vec2_length(way_into_light(app, box)) > LEAST_OUT_MM && !is_all_lit(app, box))
            names[(*count)++] = lay_item_name(a, cloth->lay->task, (size_t)cloth->steps[i].item);
    }
    return base_text_list(a, names, *count, MOST_NAMED);
}

const char *app_place_outside_text(const struct app *app, const struct app_place_cloth *cloth, struct arena *a)
{
    enum { SPARE_MM = 5 }; /* moved by so much more it is in for certain */
    vec2 by = way_into_light(app, section_box(cloth));
    double far = vec2_length(by);
    size_t count;
    if (!(far > LEAST_OUT_MM))
        return "";
    const char *names = names_outside(app, cloth, a, &count);
    if (!count)
        return "";
    const char *way = app_place_way_text(app, vec2_scale(by, (far + SPARE_MM) / far), a);
    if (cloth->stage == APP_PLACE_GRAIN)
        return base_arena_print(
            a,
            base_tr_count(count, "%s lies partly out of the light: move the cloth %s and place it anew (Esc)",
                          "%s lie partly out of the light: move the cloth %s and place it anew (Esc)"),
            names, way);
    return base_arena_print(a,
                            base_tr_count(count, "%s lies partly out of the light: move the cloth %s and press W",
                                          "%s lie partly out of the light: move the cloth %s and press W"),
                            names, way);
}

#define AIM_MM 30.0 /* about a point in hand: the ring around it (scene/layout.c) */

/* About all points that are nudged, with their rings. */
static struct geometry_box aims_box(const struct app_place_cloth *cloth)
{
    struct geometry_box box = geometry_box_empty();
    for (int i = 0; i < cloth->aim_count; i++) {
        struct table_pt at = cloth->aims[i].sighting.table;
        struct geometry_box one = { { at.x - AIM_MM, at.y - AIM_MM }, { at.x + AIM_MM, at.y + AIM_MM } };
        box = geometry_box_join(box, one);
    }
    return box;
}

/* How far a box reaches beyond another at that side of the table; below zero where it ends before. */
static double beyond(struct geometry_box box, struct geometry_box within, enum scene_side side)
{
    const double by[SCENE_SIDES] = { [SCENE_NEAR] = within.min.y - box.min.y,
                                     [SCENE_RIGHT] = box.max.x - within.max.x,
                                     [SCENE_FAR] = box.max.y - within.max.y,
                                     [SCENE_LEFT] = within.min.x - box.min.x };
    return by[side];
}

/* Where a notice stands: across from the strip. */
static bool is_at_notice(const struct app *app, struct geometry_box box)
{
    enum scene_side across = scene_side_of_hers(app_strip_edge(app), SCENE_FAR);
    return box.min.x <= box.max.x && beyond(box, app_place_clear_light(app), scene_side_of_hers(app->side, across)) > 0;
}

/* What is cut, or nudged, now. */
static struct geometry_box box_now(const struct app_place_cloth *c)
{
    bool nudges = c->stage == APP_PLACE_EDGE || c->stage == APP_PLACE_SLIDE || c->stage == APP_PLACE_MOVED;
    return nudges ? aims_box(c) : c->stage == APP_PLACE_CUT ? section_box(c) : geometry_box_empty();
}

/* Whether a strip at that edge of hers covers none of it. */
static bool is_edge_free(const struct app *app, struct geometry_box box, enum scene_side edge)
{
    return box.min.x > box.max.x || beyond(box, usable_light(app, edge), scene_side_of_hers(app->side, edge)) <= 0;
}

/* Hers, wherever she stands; where something lies there, the next one that is free, and at last the one that sections
 * were made for. */
enum scene_side app_strip_edge(const struct app *app)
{
    static const enum scene_side others[] = { SCENE_NEAR, SCENE_FAR, SCENE_LEFT, SCENE_RIGHT };
    if (!app_place_is_shown(app) || !app_place_is_begun(app_place_now(app)) || app_place_now(app)->trouble)
        return app->strip;
    const struct app_place_cloth *c = app_place_now(app);
    struct geometry_box box = box_now(c), light = scene_light_box(&app->map);
    if (is_edge_free(app, box, app->strip))
        return app->strip;
    enum scene_side best = app->strip;
    for (int i = 0; i < SCENE_SIDES; i++) {
        if (is_edge_free(app, box, others[i]))
            return others[i];
        if (beyond(light, c->light, scene_side_of_hers(app->side, others[i])) >
            beyond(light, c->light, scene_side_of_hers(app->side, best)))
            best = others[i];
    }
    return best;
}

bool app_place_needs_notice_side(const struct app *app)
{
    const struct app_place_cloth *c = app_place_now(app);
    switch (c->stage) {
    case APP_PLACE_CUT:
        return app_place_reaches_out(app, c) || is_at_notice(app, box_now(c));
    case APP_PLACE_EDGE:
    case APP_PLACE_SLIDE:
    case APP_PLACE_MOVED:
        return is_at_notice(app, box_now(c));
    case APP_PLACE_LINES:
    case APP_PLACE_GRAIN:
    case APP_PLACE_LAMP:
    case APP_PLACE_DONE:
    case APP_PLACE_STAGES:
        break;
    }
    return false;
}

#define DOUBT_MM 3.0 /* more is seen in a seam: common practice, no source */

const char *app_place_doubt_warning(const struct app *app, const struct app_place_cloth *cloth, struct arena *a)
{
    double doubt = cloth->seen_count ? app_place_doubt_mm(app, cloth) : 0;
    if (!(doubt > DOUBT_MM))
        return NULL;
    return base_arena_print(
        a, base_tr("A place in this section may be off by %s. Cut so much wider, or line it up again (W)"),
        app_mm(a, doubt));
}

const char *app_place_doubt_text(const struct app *app, const struct app_place_cloth *cloth, struct arena *a)
{
    const char *text = app_place_doubt_warning(app, cloth, a);
    if (!text)
        text = base_arena_print(a, base_tr("A place may be off by %s"), app_mm(a, app_place_doubt_mm(app, cloth)));
    const char *outside = app_place_outside_text(app, cloth, a);
    return *outside ? base_arena_print(a, "%s. %s", text, outside) : text;
}
