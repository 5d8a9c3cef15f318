/* What the table shows while pieces are arranged. */
#include "app/app.h"
#include "app/arrange_state.h"
#include "app/hands.h"
#include "app/lay_words.h"
#include "app/torn.h"
#include "base/words.h"
#include "scene/arrange.h"
#include "scene/board.h"

#define BEYOND_MM 1e5 /* of what lies past an edge of the cloth, all that a piece can reach */

enum { SIDES = 4 };

static struct scene_view view_of(const struct app_arrange *ar)
{
    const struct geometry_map *map = app_arrange_map(ar);
    return (struct scene_view){ .map = map,
                                .mat = &ar->start.table.mat,
                                .font = ar->start.font,
                                .look = { geometry_map_mm_per_px(map), SCENE_CUT_WIDTH_MM, &scene_chalks[ar->chalks] },
                                .side = ar->side,
                                .sticker_in_hand = -1 };
}

/* --- pages of words ---------------------------------------------------------------------------------------------- */

static struct paint_scene help_scene(const struct app_arrange *ar, struct arena *a, bool cautions)
{
    struct scene_view view = view_of(ar);
    view.mode = SCENE_HELP;
    view.help_count =
        cautions ? app_caution_page(a, NULL, &view.help) : app_arrange_help_lines(a, ar->start.keys, &view.help);
    view.strip_left = cautions ? base_tr("Any key: to the layout") : base_tr("Any key: back");
    view.strip_right = app_key_map_said(ar->start.keys, APP_KEYS_ARRANGE, a, base_tr("Ctrl Q: leave"));
    return scene_make(a, &view);
}

static const char *which_cloth(const struct app_arrange *ar, struct arena *a)
{
    if (ar->cloth_count == 1)
        return base_tr("F1: keys");
    return base_arena_print(a, base_tr("Cloth %zu of %zu: F2 to F%zu · F1: keys"), ar->cloth + 1, ar->cloth_count,
                            ar->cloth_count + 1);
}

/* Of cloth that is all torn, how; NULL: it is not. */
static const char *strips_words(const struct app_arrange *ar, struct arena *a)
{
    const struct tearing_plan *torn = ar->cloths[ar->cloth].torn;
    if (!torn || !app_torn_is_all(torn))
        return NULL;
    return base_arena_print(a,
                            base_tr_count(torn->strip_count, "%zu strip is torn off %s of washed cloth",
                                          "%zu strips are torn off %s of washed cloth"),
                            torn->strip_count, app_lay_length(a, torn->length_mm, ar->start.unit));
}

static struct paint_scene refused_scene(struct app_arrange *ar, struct arena *a)
{
    struct scene_view view = view_of(ar);
    const struct app_arranged *cloth = app_arrange_now(ar);
    const char *const lines[] = { cloth->refused, strips_words(ar, a), NULL };
    struct scene_board board = { .title = base_arena_print(a, base_tr("Nothing is laid: %s"),
                                                           base_tr(pattern_cloth_name(cloth->from->material))),
                                 .lines = lines };
    view.notice = ar->trouble ? ar->trouble : ar->told;
    view.strip_left = lines[1] ? base_tr("“chalklight tear” tells how it is torn")
                               : base_tr("Change the cloth with “chalklight lay”");
    view.strip_right = app_key_map_said(ar->start.keys, APP_KEYS_ARRANGE, a, which_cloth(ar, a));
    return scene_board(a, &view, &board);
}

/* --- the lay ----------------------------------------------------------------------------------------------------- */

static struct cloth_path rectangle(struct arena *a, vec2 min, vec2 max)
{
    struct cloth_path out = { { base_arena_alloc(a, SIDES, sizeof(vec2)), SIDES, true } };
    out.path.points[0] = min;
    out.path.points[1] = (vec2){ max.x, min.y };
    out.path.points[2] = max;
    out.path.points[3] = (vec2){ min.x, max.y };
    return out;
}

/* The way the grain runs, from a piece's lower end as it is drawn to its upper one. */
static vec2 grain_of(const struct lay_item *item, const struct lay_place *place)
{
    const struct piece_pt *g = item->piece->grain;
    struct geometry_mover turn = geometry_mover_of(
        (struct geometry_motion){ .mirror = place->motion.mirror, .turn_deg = place->motion.turn_deg });
    vec2 up = vec2_unit((vec2){ g[1].x - g[0].x, g[1].y - g[0].y });
    return geometry_move(&turn, up.y < 0 ? vec2_scale(up, -1) : up);
}

static void add_pieces(struct app_arranged *cloth, struct arena *a, struct scene_arrange *out)
{
    const struct lay_place *places = app_arrange_places(cloth);
    struct scene_arrange_piece *pieces = base_arena_alloc(a, cloth->task.item_count + 1, sizeof *pieces);
    out->pieces = pieces;
    for (size_t i = 0; i < cloth->task.item_count; i++)
        if (places[i].is_laid)
            pieces[out->piece_count++] =
                (struct scene_arrange_piece){ .outline = lay_outline(a, &cloth->task, i, &places[i]),
                                              .grain = grain_of(&cloth->task.items[i], &places[i]),
                                              .one_way = lay_is_one_way(cloth->task.cloth),
                                              .name = app_arrange_piece_name(cloth, a, i),
                                              .in_hand = i == cloth->in_hand,
                                              .held = places[i].is_pinned,
                                              .cut = cloth->cut[i] };
}

/* Overlaps under construction. */
struct hatching {
    struct arena *a;
    struct scene_arrange_overlap *items;
    size_t count, cap;
};

static void add_overlap(struct hatching *h, struct cloth_path one, struct cloth_path other, const char *amount)
{
    h->items = base_arena_grow(h->a, h->items, &h->cap, h->count + 1, sizeof *h->items);
    h->items[h->count++] = (struct scene_arrange_overlap){ { one, other }, amount };
}

/* A piece over what lies past the edges, over blocked places, and over bands with too few layers for it. */
static void add_off_cloth(struct hatching *h, const struct lay_task *task, size_t item, struct cloth_path outline,
                          const char *amount)
{
    const struct cloth_spread *spread = &task->spread;
    double width = spread->width_mm, most = spread->most_length_mm, far = BEYOND_MM;
    add_overlap(h, outline, rectangle(h->a, (vec2){ -far, -far }, (vec2){ 0, far }), amount);
    add_overlap(h, outline, rectangle(h->a, (vec2){ 0, -far }, (vec2){ far, 0 }), amount);
    add_overlap(h, outline, rectangle(h->a, (vec2){ 0, width }, (vec2){ far, far }), amount);
    if (most > 0)
        add_overlap(h, outline, rectangle(h->a, (vec2){ most, 0 }, (vec2){ far, width }), amount);
    for (size_t i = 0; i < spread->blocked_count; i++)
        add_overlap(h, outline, spread->blocked[i], amount);
    for (int i = 0; i < spread->band_count; i++)
        if (spread->bands[i].layers < task->items[item].layers)
            add_overlap(h, outline,
                        rectangle(h->a, (vec2){ 0, spread->bands[i].from_mm }, (vec2){ far, spread->bands[i].to_mm }),
                        amount);
}

static void add_overlaps(struct app_arranged *cloth, struct arena *a, struct scene_arrange *out)
{
    const struct lay_place *places = app_arrange_places(cloth);
    const struct lay_finding *findings;
    size_t count = app_arrange_findings(cloth, &findings);
    struct hatching h = { .a = a };
    for (size_t i = 0; i < count; i++) {
        const struct lay_finding *f = &findings[i];
        const char *by = app_lay_off(a, f->amount), *amount = base_arena_print(a, base_tr("over by %s"), by);
        struct cloth_path one = lay_outline(a, &cloth->task, (size_t)f->item, &places[f->item]);
        if (f->fault == LAY_OVERLAP)
            add_overlap(&h, one, lay_outline(a, &cloth->task, (size_t)f->other, &places[f->other]), amount);
        else if (f->fault == LAY_OFF_CLOTH)
            add_off_cloth(&h, &cloth->task, (size_t)f->item, one, base_arena_print(a, base_tr("%s off the cloth"), by));
        else if (f->fault == LAY_IN_BLOCK)
            add_overlap(&h, one, out->block, base_arena_print(a, base_tr("%s within the block"), by));
        else if (f->fault == LAY_OFF_BLOCK)
            add_overlap(&h, one, one, base_tr("outside the block"));
    }
    out->overlaps = h.items;
    out->overlap_count = h.count;
}

/* What a long edge of the cloth as it lies is; of a scrap nothing is known. */
static const char *edge_name(const struct lay_task *task, bool fold)
{
    if (fold)
        return base_tr("Fold");
    return task->cloth->outline.path.count ? NULL : base_tr("Selvedge");
}

static const char *strip_left(struct app_arranged *cloth)
{
    if (cloth->searching)
        return base_tr("Shorter layouts are shown as they are found · Space: stop");
    if (cloth->in_hand >= cloth->task.item_count)
        return base_tr("Page Down: take a piece · Enter: arrange again · Space: go on · Z: undo");
    if (!app_arrange_places(cloth)[cloth->in_hand].is_laid)
        return base_tr("X: lay it on the cloth · Page Down: the next piece");
    return base_tr("Arrows: move it · T , .: turn it · B: butt it · P: hold it · Enter: arrange the rest again");
}

static const char *const *sentences(struct app_arrange *ar, struct arena *a)
{
    const char **lines = base_arena_alloc(a, 4, sizeof *lines);
    const char *const all[] = { app_arrange_hand_words(ar, a), app_arrange_wrong_words(ar, a),
                                app_arrange_left_out_words(ar, a) };
    size_t count = 0;
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (all[i])
            lines[count++] = all[i];
    return lines;
}

static struct paint_scene lay_scene(struct app_arrange *ar, struct arena *a)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    const struct cloth_spread *spread = &cloth->task.spread;
    const struct lay *lay = app_arrange_lay(cloth);
    struct scene_view view = view_of(ar);
    struct scene_arrange arrange = {
        .title = app_arrange_title(ar, a),
        .lines = sentences(ar, a),
        .spread = spread,
        .near_edge = edge_name(&cloth->task, spread->bands[0].fold_at_from),
        .far_edge = edge_name(&cloth->task, spread->bands[spread->band_count - 1].fold_at_to),
        .block = lay_block_outline(a, lay),
        .needs_mm = lay->length_mm,
        .needs = app_lay_length(a, lay->length_mm, ar->start.unit),
        .unit = ar->start.unit,
        .names = ar->names,
    };
    add_pieces(cloth, a, &arrange);
    add_overlaps(cloth, a, &arrange);
    view.notice = ar->trouble ? ar->trouble : ar->told ? ar->told : base_tr(app_trust_not_true);
    view.strip_left = app_key_map_said(ar->start.keys, APP_KEYS_ARRANGE, a, strip_left(cloth));
    view.strip_right = app_key_map_said(ar->start.keys, APP_KEYS_ARRANGE, a, which_cloth(ar, a));
    if (ar->locked) {
        view.strip_left = app_lock_text(a, ar->start.keys, APP_KEYS_ARRANGE);
        view.strip_right = NULL;
    }
    return scene_arrange(a, &view, &arrange);
}

struct paint_scene app_arrange_scene(struct app_arrange *ar, struct arena *a)
{
    if (ar->cautions || ar->help)
        return help_scene(ar, a, ar->cautions);
    return app_arrange_now(ar)->refused ? refused_scene(ar, a) : lay_scene(ar, a);
}

struct paint_scene app_arrange_away_scene(const struct app_arrange *ar, struct arena *frame, int width, int height,
                                          bool home)
{
    return app_away_page(frame, app_arrange_map(ar), ar->start.font, width, height, home);
}
