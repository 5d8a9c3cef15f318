/* Random jobs of 1 to 60 pieces in all spreads: whatever is laid lies on the cloth, nothing over anything else, by the
 * rules, and no piece is lost. Asked of GEOS, of every job, and by this file's own arithmetic, not by lay_judge. Every
 * third is laid again with every other piece held, every sixth must come out the same again; of every fourth the lay is
 * searched on. Arguments: the first job, how many, and of which the lay is searched on (1: of each). */
#include "lay/laying.h"

#include <geos_c.h>
#include <stdlib.h>

#define GRID_MM 1e-9

static size_t first_job, job_count = 250;
static int searched_every = 4; /* jobs: of the others the first lay is looked at */

enum { SEARCHED = 14 }; /* items up to which a lay is searched on: of more, too, the first one is looked at */

/* A generator of its own (Lehmer, Park and Miller 1988), so that jobs are the same everywhere. */
static uint64_t draw_state;

static double draw(void)
{
    draw_state = draw_state * 48271 % 2147483647;
    return (double)draw_state / 2147483647;
}

static int draw_to(int most)
{
    return (int)(draw() * (most + 1));
}

static double draw_mm(double from, double to)
{
    return floor(from + draw() * (to - from));
}

/* A piece around a middle, or with its left edge, which is a fold, upright. */
static const char *drawn_piece(struct room *room, int number, bool fold)
{
    int corners = 3 + draw_to(6);
    const char *points = "", *path = "";
    double width = draw_mm(40, fold ? 200 : 260), height = draw_mm(60, 500);
    for (int i = 0; i < corners; i++) {
        double angle = (fold ? -90 + 180.0 * i / (corners - 1) : 360.0 * i / corners) * 3.14159265358979 / 180;
        double reach = 0.55 + 0.45 * draw(), x = width * reach * cos(angle), y = height / 2 * reach * sin(angle);
        if (fold && (i == 0 || i == corners - 1))
            x = 0;
        points = base_arena_print(room->a, "%s%s'p%d': [%.3f, %.3f]", points, i ? ", " : "", i, x, y);
        path = base_arena_print(room->a, "%s%s'p%d'", path, i ? ", " : "", i);
    }
    const char *edges = fold ? base_arena_print(room->a,
                                                "{ 'name': 'e', 'path': [%s] },"
                                                "{ 'name': 'f', 'path': ['p%d', 'p0'] }",
                                                path, corners - 1)
                             : base_arena_print(room->a, "{ 'name': 'e', 'path': [%s, 'p0'] }", path);
    const char *match =
        draw() < 0.3 && corners > 3 && !fold ? ", 'lines': [ { 'kind': 'match', 'from': 'm', 'to': 'n' } ]" : "";
    const char *ends = draw() < 0.5 ? "'m': [-5, 0], 'n': [5, 0]" : "'m': [0, -5], 'n': [0, 5]";
    return base_arena_print(room->a, "{ 'name': 'q%d', 'points': { %s, %s }, 'outline': [ %s ]%s%s }", number, points,
                            ends, edges, fold ? ", 'fold': 'f'" : "", match);
}

static const char *drawn_rectangle(struct room *room, int number)
{
    return base_arena_print(room->a, "{ 'name': 'q%d', 'rectangle': { 'width': %.0f, 'height': %.0f } }", number,
                            draw_mm(30, 300), draw_mm(30, 500));
}

/* Pieces and a cutting list of at most `most` pieces in all; of some of it all are fused, too. */
static void drawn_list(struct room *room, int most, bool fuses, const char **pieces, const char **cuts)
{
    *pieces = *cuts = "";
    for (int i = 0; most > 0 && i < 14; i++) {
        double kind = draw();
        bool fold = kind < 0.25;
        const char *piece = kind < 0.5    ? drawn_piece(room, i, fold)
                            : kind < 0.75 ? drawn_piece(room, i, false)
                                          : drawn_rectangle(room, i);
        int count = 1 + draw_to(most < 6 ? most - 1 : 5), hand = draw_to(3);
        const char *how = "";
        if (!fold && hand == 0 && count > 1)
            how = base_arena_print(room->a, "'pairs': %d", count / 2);
        else
            how = base_arena_print(room->a, "'count': %d%s", count,
                                   fold || hand < 2 ? ""
                                   : hand == 2      ? ", 'hand': 'left'"
                                                    : ", 'hand': 'right'");
        *pieces = base_arena_print(room->a, "%s%s%s", *pieces, i ? ", " : "", piece);
        *cuts = base_arena_print(room->a, "%s%s{ 'piece': 'q%d', %s }", *cuts, i ? ", " : "", i, how);
        if (fuses && draw() < 0.5)
            *cuts = base_arena_print(room->a, "%s, { 'piece': 'q%d', %s, 'cloth': 'interfacing' }", *cuts, i, how);
        most -= count;
    }
}

/* A scrap of cloth with five corners, somewhere. */
static struct geometry_path drawn_scrap(struct room *room)
{
    double x = draw_mm(-200, 200), y = draw_mm(-200, 200), w = draw_mm(700, 1500), h = draw_mm(700, 1300);
    const vec2 corners[] = { { x + w * 0.1, y },
                             { x + w, y + h * 0.2 },
                             { x + w * 0.9, y + h },
                             { x, y + h * 0.8 },
                             { x + w * 0.2, y + h * 0.5 } };
    return geometry_path_copy(room->a, (struct geometry_path){ (vec2 *)(uintptr_t)corners, 5, true });
}

static struct cloth drawn_cloth(struct room *room, int job)
{
    struct cloth c = { .width_mm = draw_mm(700, 1600), .spread = (enum cloth_spread_kind)(job % 5) };
    c.selvedge_mm = draw() < 0.5 ? 0 : 12.5;
    c.fold_depth_mm = draw_mm(150, c.width_mm / 2 - 20);
    c.one_way = draw() < 0.3;
    c.sides_alike = draw() < 0.2;
    c.wrong_side_up = draw() < 0.3;
    c.gap_mm = draw() < 0.5 ? 0 : draw_mm(1, 8);
    c.length_mm = draw() < 0.3 ? draw_mm(800, 3000) : 0;
    c.grain_tolerance_deg = draw() < 0.1 ? 2 : 0;
    if (draw() < 0.2)
        c.repeat = (struct cloth_repeat){ .along_mm = draw_mm(20, 120), .line_along_mm = 15 };
    if (draw() < 0.2) {
        c.repeat.across_mm = draw_mm(20, 90);
        c.repeat.line_across_mm = 7;
    }
    c.repeat.uneven = (c.repeat.along_mm > 0 || c.repeat.across_mm > 0) && c.spread == CLOTH_SINGLE && draw() < 0.5;
    if (c.spread == CLOTH_SINGLE && draw() < 0.3)
        c.outline.path = drawn_scrap(room);
    if (c.length_mm > 0 && draw() < 0.5) {
        struct cloth_path *fault = base_arena_alloc(room->a, 1, sizeof *fault);
        double x = draw_mm(0, 700), y = draw_mm(0, 600);
        const vec2 corners[] = { { x, y }, { x + 60, y }, { x + 30, y + 70 } };
        fault->path = geometry_path_copy(room->a, (struct geometry_path){ (vec2 *)(uintptr_t)corners, 3, true });
        c.faults = fault;
        c.fault_count = 1;
    }
    return c;
}

/* --- the check --- */

struct checking {
    struct room *room;
    const struct laying *l;
    const struct lay *lay;
    GEOSContextHandle_t geos;
    GEOSGeometry **shapes;
    int job;
};

#define must(c, holds)                                                                                                 \
    do {                                                                                                               \
        if (!(holds))                                                                                                  \
            fail_msg("job %d: must hold: %s", (c)->job, #holds);                                                       \
    } while (0)

/* Mirrored, turned, shifted: by libm. */
static vec2 moved(const struct geometry_motion *m, vec2 p)
{
    double angle = m->turn_deg * 3.141592653589793 / 180, x = m->mirror ? -p.x : p.x;
    return (vec2){ x * cos(angle) - p.y * sin(angle) + m->shift.x, x * sin(angle) + p.y * cos(angle) + m->shift.y };
}

static GEOSGeometry *polygon(GEOSContextHandle_t geos, struct geometry_path path, const struct geometry_motion *m)
{
    GEOSCoordSequence *ring = GEOSCoordSeq_create_r(geos, (unsigned)path.count + 1, 2);
    for (size_t i = 0; i <= path.count; i++) {
        vec2 p = path.points[i % path.count];
        vec2 at = m ? moved(m, p) : p;
        GEOSCoordSeq_setXY_r(geos, ring, (unsigned)i, at.x, at.y);
    }
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, ring), NULL, 0);
}

static double area(GEOSContextHandle_t geos, const GEOSGeometry *g)
{
    double a = 0;
    GEOSArea_r(geos, g, &a);
    return a;
}

/* On a fine grid: without one GEOS (3.11) takes triangles that share a side but for 1e-14 to lie wholly over each other
 * (job 324). */
static double common(GEOSContextHandle_t geos, const GEOSGeometry *a, const GEOSGeometry *b)
{
    GEOSGeometry *both = GEOSIntersectionPrec_r(geos, a, b, GRID_MM);
    double found = both ? area(geos, both) : INFINITY;
    GEOSGeom_destroy_r(geos, both);
    return found;
}

static void check_pair(const struct checking *c, size_t i, size_t k)
{
    double smaller = fmin(area(c->geos, c->shapes[i]), area(c->geos, c->shapes[k])), apart = 0;
    must(c, common(c->geos, c->shapes[i], c->shapes[k]) <= 1e-6 * smaller);
    if (c->l->cloth.gap_mm > 0) {
        GEOSDistance_r(c->geos, c->shapes[i], c->shapes[k], &apart);
        must(c, apart >= c->l->cloth.gap_mm - 1e-3);
    }
}

static bool is_scrap(const struct cloth *cloth)
{
    return cloth->outline.path.count > 0;
}

static bool is_one_way(const struct cloth *cloth)
{
    return cloth->one_way || cloth->repeat.uneven;
}

/* What can be cut from, across; and along as it lies, 0: as much as it takes. */
static double usable(const struct cloth *cloth)
{
    struct geometry_box box = geometry_path_box(cloth->outline.path);
    return is_scrap(cloth) ? box.max.y - box.min.y : cloth->width_mm - 2 * cloth->selvedge_mm;
}

/* Of the places first, first + step … up to `end` the nearest to `at` from `from` to `to`; without steps `at` itself.
 */
static double nearest_place(double first, double step, double at, double from, double to)
{
    double best = step > 0 ? -1 : at;
    for (double p = first - floor(first / fmax(step, 1)) * step; step > 0 && p < to + 1e-6; p += step)
        if (p > from - 1e-6 && (best < 0 || fabs(p - at) < fabs(best - at)))
            best = p;
    return best;
}

/* Where a fold about there, from the near edge, mirrors the repeat: on a line or midway between two. */
static double fold_across(const struct cloth *cloth, double at, double from, double to)
{
    return nearest_place(cloth->repeat.line_across_mm, cloth->repeat.across_mm / 2, at, from, to);
}

/* Of cloth folded across: cut off it is after whole repeats. */
static double fold_along(const struct cloth *cloth, double half)
{
    if (cloth->one_way)
        return nearest_place(0, cloth->repeat.along_mm, half, 1, half);
    return nearest_place(cloth->repeat.line_along_mm, cloth->repeat.along_mm / 2, half, 1, half);
}

/* How far the layer that was cut off and turned has to be shifted, for its lines, which lie u - 7 - k r, to lie on
 * others. */
static double slip_of(const struct cloth *cloth, double u)
{
    double r = cloth->repeat.across_mm;
    return cloth->one_way && r > 0 ? -remainder(u - 2 * cloth->repeat.line_across_mm, r) : 0;
}

static double most_length(const struct cloth *cloth)
{
    struct geometry_box box = geometry_path_box(cloth->outline.path);
    double length = is_scrap(cloth) ? box.max.x - box.min.x : cloth->length_mm;
    return cloth->spread == CLOTH_FOLDED_ACROSS && length > 0 ? fold_along(cloth, length / 2) : length;
}

/* Nothing of it lies beside the scrap, which begins at the corner of its box. */
static void check_scrap(const struct checking *c, size_t i)
{
    if (!is_scrap(&c->l->cloth))
        return;
    struct geometry_box box = geometry_path_box(c->l->cloth.outline.path);
    struct geometry_motion to = { .shift = { -box.min.x, -box.min.y } };
    GEOSGeometry *scrap = polygon(c->geos, c->l->cloth.outline.path, &to);
    must(c, area(c->geos, c->shapes[i]) - common(c->geos, c->shapes[i], scrap) < 1e-2);
    GEOSGeom_destroy_r(c->geos, scrap);
}

/* The bands of the spread once more, from its description. */
static bool lies_in_a_band(const struct checking *c, const struct lay_item *it, double from, double to)
{
    const struct cloth *cloth = &c->l->cloth;
    double u = usable(cloth), near = 1e-4, d = fold_across(cloth, cloth->fold_depth_mm, 1, u / 2);
    double f = fold_across(cloth, u / 2, 0, u), f1 = fold_across(cloth, u / 4, 1, u / 4), slip = slip_of(cloth, u);
    double f2 = fold_across(cloth, u * 3 / 4, u * 3 / 4, u), far = f2 - f1;
    switch (cloth->spread) {
    case CLOTH_SINGLE:
        return it->layers == 1 && from > -near && to < u + near;
    case CLOTH_FOLDED:
        return it->layers == 2 ? from > -near && to < fmin(f, u - f) + near : from > f - near && to < u - f + near;
    case CLOTH_FOLDED_TO:
        return it->layers == 2 ? from > -near && to < d + near : from > d - near && to < u - d + near;
    case CLOTH_TO_MIDDLE:
        return it->layers == 2 ? from > -near && to < far + near && (to < f1 + near || from > far - (u - f2) - near)
                               : from > f1 - near && to < far - (u - f2) + near;
    case CLOTH_FOLDED_ACROSS:
        return it->layers == 2 && from > fmax(slip, 0) - near && to < u + fmin(slip, 0) + near;
    }
    return false;
}

static void check_turn(const struct checking *c, size_t i)
{
    const struct lay_item *it = &c->l->task.items[i];
    const struct geometry_motion *m = &c->lay->places[i].motion;
    vec2 foot = moved(m, (vec2){ it->piece->grain[0].x, it->piece->grain[0].y });
    vec2 head = moved(m, (vec2){ it->piece->grain[1].x, it->piece->grain[1].y });
    double off = atan2(fabs(head.y - foot.y), fabs(head.x - foot.x)) * 180 / 3.141592653589793;
    must(c, off <= c->l->cloth.grain_tolerance_deg + 1e-6);
    must(c, !is_one_way(&c->l->cloth) || head.x > foot.x);
}

static void check_fold(const struct checking *c, size_t i)
{
    const struct lay_item *it = &c->l->task.items[i];
    const struct cloth *cloth = &c->l->cloth;
    double u = usable(cloth), far = fold_across(cloth, u * 3 / 4, u * 3 / 4, u) - fold_across(cloth, u / 4, 1, u / 4);
    if (!it->on_fold)
        return;
    must(c, it->piece->has_fold && it->copies == 1);
    for (int e = 0; e < 2; e++) {
        double y = moved(&c->lay->places[i].motion, (vec2){ it->piece->fold[e].x, it->piece->fold[e].y }).y;
        must(c, fabs(y) < 1e-6 || (cloth->spread == CLOTH_TO_MIDDLE && fabs(y - far) < 1e-6));
    }
}

static bool on_stripe(double at, double first, double step)
{
    return fabs(remainder(at - first, step)) < 1e-6;
}

/* Where the near edge or the fold lies, on the cloth opened out. */
static double begins_at(const struct cloth *cloth)
{
    double u = usable(cloth);
    switch (cloth->spread) {
    case CLOTH_SINGLE:
    case CLOTH_FOLDED_ACROSS:
        break;
    case CLOTH_FOLDED:
        return fold_across(cloth, u / 2, 0, u);
    case CLOTH_FOLDED_TO:
        return fold_across(cloth, cloth->fold_depth_mm, 1, u / 2);
    case CLOTH_TO_MIDDLE:
        return fold_across(cloth, u / 4, 1, u / 4);
    }
    return is_scrap(cloth) ? geometry_path_box(cloth->outline.path).min.y : 0;
}

/* A line that runs across lies on the stripes along, one that runs with the grain on those across. */
static void check_stripes(const struct checking *c, size_t i)
{
    const struct draft_piece *piece = c->l->task.items[i].piece;
    const struct cloth *cloth = &c->l->cloth;
    double cut_end = is_scrap(cloth) ? geometry_path_box(cloth->outline.path).min.x : 0;
    for (size_t k = 0; cloth->grain_tolerance_deg == 0 && k < piece->line_count; k++) {
        const struct draft_line *line = &piece->lines[k];
        vec2 at = moved(&c->lay->places[i].motion, (vec2){ line->ends[0].x, line->ends[0].y });
        bool across = fabs(line->ends[1].x - line->ends[0].x) > 1;
        if (line->kind == PATTERN_LINE_MATCH && across && cloth->repeat.along_mm > 0)
            must(c, on_stripe(at.x, cloth->repeat.line_along_mm - cut_end, cloth->repeat.along_mm));
        if (line->kind == PATTERN_LINE_MATCH && !across && cloth->repeat.across_mm > 0)
            must(c, on_stripe(at.y, cloth->repeat.line_across_mm - begins_at(cloth), cloth->repeat.across_mm));
    }
}

static void check_item(const struct checking *c, size_t i)
{
    const struct lay_item *it = &c->l->task.items[i];
    struct geometry_box box = geometry_box_empty();
    for (size_t k = 0; k < it->piece->cut.path.count; k++) {
        vec2 p = moved(&c->lay->places[i].motion, it->piece->cut.path.points[k]);
        box = geometry_box_join(box, (struct geometry_box){ p, p });
    }
    must(c, box.min.x > -1e-4);
    must(c, most_length(&c->l->cloth) == 0 || box.max.x < most_length(&c->l->cloth) + 1e-4);
    check_scrap(c, i);
    must(c, lies_in_a_band(c, it, box.min.y, box.max.y));
    for (size_t b = 0; b < c->l->task.spread.blocked_count; b++) {
        GEOSGeometry *fault = polygon(c->geos, c->l->task.spread.blocked[b].path, NULL);
        must(c, common(c->geos, c->shapes[i], fault) <= 1e-6 * area(c->geos, fault));
        GEOSGeom_destroy_r(c->geos, fault);
    }
    check_turn(c, i);
    check_fold(c, i);
    check_stripes(c, i);
    for (size_t k = i + 1; k < c->l->task.item_count; k++)
        if (c->shapes[k])
            check_pair(c, i, k);
}

/* A piece that is said to be its own mirror image is, within a tenth of a millimetre all round. */
static bool is_own_image(const struct checking *c, const struct draft_piece *piece)
{
    struct geometry_path path = piece->cut.path;
    struct geometry_box box = geometry_path_box(path);
    GEOSGeometry *one = polygon(c->geos, path, NULL);
    double least = INFINITY;
    for (int flip = 0; flip < 2; flip++) {
        struct geometry_motion m = { .mirror = true, .turn_deg = flip ? 180 : 0 };
        m.shift = (vec2){ flip ? 0 : box.min.x + box.max.x, flip ? box.min.y + box.max.y : 0 };
        GEOSGeometry *other = polygon(c->geos, path, &m);
        least = fmin(least, area(c->geos, one) - common(c->geos, one, other));
        GEOSGeom_destroy_r(c->geos, other);
        if (is_one_way(&c->l->cloth))
            break;
    }
    GEOSGeom_destroy_r(c->geos, one);
    return least < 0.1 * geometry_path_length(path);
}

/* What is cut of a line: right ones, left ones, and those that are either. */
static void check_line(const struct checking *c, int cut)
{
    const struct draft_cut *want = &c->l->draft.cuts[cut];
    int right = 0, left = 0, either = 0;
    if (want->cloth != PATTERN_FABRIC)
        return;
    for (size_t i = 0; i < c->l->task.item_count; i++) {
        const struct lay_item *it = &c->l->task.items[i];
        if (it->cut != cut)
            continue;
        bool alike = it->on_fold || c->l->cloth.sides_alike || (it->own_image && is_own_image(c, it->piece));
        if (alike)
            either += it->copies;
        else if (it->copies == 2) {
            must(c, it->layers == 2);
            left++, right++;
        } else if (it->layers == 2) /* either of the two is left over */
            *(it->hand == PATTERN_LEFT ? &left : &right) += 1;
        else {
            bool mirrored = c->lay->places[i].is_laid ? c->lay->places[i].motion.mirror : it->mirrored;
            *(mirrored != c->l->cloth.wrong_side_up ? &left : &right) += 1;
        }
    }
    int want_left = want->hand == PATTERN_LEFT ? want->count : want->hand == PATTERN_PAIRS ? want->count / 2 : 0;
    must(c, left + right + either == want->count);
    must(c, either || left == want_left);
}

/* What is fused in a block lies in it, 5 mm from its edges but at a fold, and nothing else does; the block is all on
 * the cloth, and no wider than its interfacing. */
static void check_block(const struct checking *c)
{
    struct geometry_path block = lay_block_outline(c->room->a, c->lay).path;
    struct geometry_box in = geometry_path_box(block);
    struct lay_block told = lay_block_of(c->lay);
    GEOSGeometry *shape = block.count ? polygon(c->geos, block, NULL) : NULL;
    must(c, !block.count || (in.min.x > -1e-6 && in.min.y > -1e-6 && in.max.y < c->l->task.spread.width_mm + 1e-6));
    must(c, told.width_mm <= c->l->cloth.block_mm + 1e-6);
    for (size_t i = 0; i < c->l->task.item_count; i++) {
        if (!c->lay->places[i].is_laid)
            continue;
        struct geometry_box box = geometry_path_box(lay_outline(c->room->a, &c->l->task, i, &c->lay->places[i]).path);
        if (!c->l->task.items[i].covered) {
            GEOSGeometry *other = polygon(c->geos, c->l->task.items[i].piece->cut.path, &c->lay->places[i].motion);
            must(c, !shape || common(c->geos, other, shape) <= 1e-6 * area(c->geos, other));
            GEOSGeom_destroy_r(c->geos, other);
            continue;
        }
        must(c, shape && box.min.x > in.min.x + 5 - 1e-3 && box.max.x < in.max.x - 5 + 1e-3);
        must(c, box.max.y < in.max.y - 5 + 1e-3 && (told.over_fold || box.min.y > in.min.y + 5 - 1e-3));
    }
    GEOSGeom_destroy_r(c->geos, shape);
}

static void check_lay(const struct checking *c)
{
    size_t left_out = 0;
    for (size_t i = 0; i < c->l->task.item_count; i++) {
        c->shapes[i] = NULL;
        left_out += !c->lay->places[i].is_laid;
        if (c->lay->places[i].is_laid)
            c->shapes[i] = polygon(c->geos, c->l->task.items[i].piece->cut.path, &c->lay->places[i].motion);
    }
    must(c, left_out == c->lay->left_out);
    must(c, left_out == 0 || most_length(&c->l->cloth) > 0);
    for (size_t i = 0; i < c->l->task.item_count; i++)
        if (c->shapes[i])
            check_item(c, i);
    for (size_t k = 0; k < c->l->draft.cut_count; k++)
        check_line(c, (int)k);
    for (size_t i = 0; i < c->l->task.item_count; i++)
        GEOSGeom_destroy_r(c->geos, c->shapes[i]);
}

static struct lay found(const struct checking *c, const struct lay_place *pinned, struct base_pool *pool)
{
    const struct lay_task *task = &c->l->task;
    struct lay_search *s = lay_search_begin(task, pinned, 3, pool, NULL, c->room->errs);
    assert_non_null(s);
    if (task->item_count <= SEARCHED && c->job % searched_every == 0)
        lay_search_round(s, NULL);
    struct lay lay = lay_search_best(c->room->a, s);
    lay_search_end(s);
    return lay;
}

static void is_the_same(const struct checking *c, const struct lay *other)
{
    for (size_t i = 0; i < c->l->task.item_count; i++) {
        const struct geometry_motion *m = &c->lay->places[i].motion, *n = &other->places[i].motion;
        must(c, m->mirror == n->mirror && m->turn_deg == n->turn_deg);
        must(c, m->shift.x == n->shift.x && m->shift.y == n->shift.y);
    }
}

/* Every other piece is held where it lies: it stays, and the rest is laid by the rules all the same. */
static void check_held(struct checking *c)
{
    const struct lay *first = c->lay;
    struct lay_place *pins = base_arena_alloc(c->room->a, c->l->task.item_count, sizeof *pins);
    for (size_t i = 0; i < c->l->task.item_count; i++) {
        pins[i] = first->places[i];
        pins[i].is_pinned = i % 2 == 0 && pins[i].is_laid;
    }
    struct lay again = found(c, pins, NULL);
    c->lay = &again;
    check_lay(c);
    for (size_t i = 0; i < c->l->task.item_count; i++)
        if (pins[i].is_pinned) {
            must(c, again.places[i].is_pinned && again.places[i].motion.shift.x == pins[i].motion.shift.x);
            must(c, again.places[i].motion.shift.y == pins[i].motion.shift.y);
        }
    c->lay = first;
}

/* A piece that is put down anywhere comes to lie by the rules, near to there. */
static void check_butted(struct checking *c)
{
    const struct lay *first = c->lay;
    struct lay_place *places = base_arena_alloc(c->room->a, c->l->task.item_count, sizeof *places);
    for (size_t i = 0; i < c->l->task.item_count; i++)
        places[i] = first->places[i];
    size_t item = (size_t)draw_to((int)c->l->task.item_count - 1);
    vec2 put = { draw() * first->length_mm, draw() * c->l->task.spread.width_mm };
    places[item].motion.shift = put;
    if (!places[item].is_laid || !lay_butt(first, item, 400, &places[item]))
        return;
    must(c, vec2_length(vec2_sub(places[item].motion.shift, put)) <= 400 + 1e-9);
    struct lay moved_lay = lay_of(c->room->a, &c->l->task, places);
    c->lay = &moved_lay;
    check_lay(c);
    c->lay = first;
}

/* False: nothing could be laid, which was told. */
static bool run_job(struct room *room, int job, struct base_pool *pool, GEOSContextHandle_t geos)
{
    const char *pieces, *cuts;
    draw_state = 1 + (uint64_t)job * 7919;
    for (int i = 0; i < 5; i++)
        draw();
    bool fuses = draw() < 0.3;
    drawn_list(room, 1 + draw_to(draw() < 0.8 ? 11 : 59), fuses, &pieces, &cuts);
    struct laying *l = laying_of(room, pieces, "", cuts);
    struct cloth cloth = drawn_cloth(room, job);
    cloth.block_mm = fuses ? draw_mm(200, 900) : 0;
    if (!laying_make(room, l, cloth, PATTERN_FABRIC)) {
        assert_true(room->errs->faults > 0);
        return false;
    }
    struct checking c = { room, l, NULL, geos, base_arena_alloc(room->a, l->task.item_count, sizeof(void *)), job };
    struct lay lay = found(&c, NULL, NULL);
    c.lay = &lay;
    check_lay(&c);
    check_block(&c);
    check_butted(&c);
    if (job % 3 == 0)
        check_held(&c);
    if (job % 6 == 0) {
        struct lay again = found(&c, NULL, pool);
        is_the_same(&c, &again);
    }
    return true;
}

static void random_jobs_are_laid_by_the_rules(void **state)
{
    (void)state;
    struct base_pool *pool = base_pool_create(2);
    GEOSContextHandle_t geos = GEOS_init_r();
    size_t laid = 0;
    for (size_t job = first_job; job < first_job + job_count; job++) {
        struct room room;
        room_init(&room);
        laid += run_job(&room, (int)job, pool, geos);
        room_finish(&room);
    }
    GEOS_finish_r(geos);
    base_pool_destroy(pool);
    print_message("%zu of %zu jobs could be laid\n", laid, job_count);
    assert_true(laid * 3 >= job_count);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = { cmocka_unit_test(random_jobs_are_laid_by_the_rules) };
    if (argc > 2) {
        first_job = strtoul(argv[1], NULL, 10);
        job_count = strtoul(argv[2], NULL, 10);
    }
    if (argc > 3)
        searched_every = (int)strtoul(argv[3], NULL, 10);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
