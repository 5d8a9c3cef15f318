/* What is wrong with a lay, asked of the exact outlines. */
#include "lay/items.h"
#include "lay/match.h"
#include "lay/ways.h"

#include "geometry/region.h"

#include <stdlib.h>

#define NOTHING_MM 1e-3    /* off a border or nearer than the gap: finer than any cut */
#define ON_FOLD_MM 0.05    /* off the fold */
#define ON_LINE_MM 0.1     /* off a stripe */
#define TURN_DEG 1e-6      /* a turn's rounding */
#define NOTHING_SHARE 1e-6 /* of the smaller piece's area: no overlap */

/* A lay under judgement. */
struct judging {
    struct arena *a;
    const struct lay *lay;
    struct geometry_path *outlines; /* of each item as it lies; without points: it is not laid */
    struct geometry_box *boxes;
    struct lay_finding *found;
    size_t count, cap;
};

static void find(struct judging *j, enum lay_fault fault, size_t item, int other, double amount)
{
    j->found = base_arena_grow(j->a, j->found, &j->cap, j->count + 1, sizeof *j->found);
    j->found[j->count++] = (struct lay_finding){ fault, (int)item, other, amount };
}

static vec2 moved(const struct judging *j, size_t item, vec2 at)
{
    struct geometry_mover m = geometry_mover_of(j->lay->places[item].motion);
    return geometry_move(&m, at);
}

/* The direction that lies along the cloth, as it is turned. */
static vec2 lengthwise(const struct judging *j, size_t item)
{
    const struct lay_item *it = &j->lay->task->items[item];
    struct geometry_motion turn = j->lay->places[item].motion;
    turn.shift = (vec2){ 0, 0 };
    struct geometry_mover m = geometry_mover_of(turn);
    return geometry_move(&m, lay_lengthwise(it->piece, it->on_fold));
}

static void judge_turn(struct judging *j, size_t i)
{
    const struct lay_task *task = j->lay->task;
    const struct lay_item *it = &task->items[i];
    vec2 way = lengthwise(j, i);
    double off = geometry_direction(fabs(way.y), fabs(way.x));
    if (off > task->cloth->grain_tolerance_deg + TURN_DEG)
        find(j, LAY_OFF_GRAIN, i, LAY_NONE, off);
    if (lay_is_one_way(task->cloth) && way.x < 0)
        find(j, LAY_AGAINST_NAP, i, LAY_NONE, 180 - off);
    if (!it->either_hand && j->lay->places[i].motion.mirror != it->mirrored)
        find(j, LAY_WRONG_HAND, i, LAY_NONE, 0);
}

/* How far the fold's ends lie from the nearest fold, the further one. */
static void judge_fold(struct judging *j, size_t i)
{
    const struct lay_task *task = j->lay->task;
    const struct draft_piece *piece = task->items[i].piece;
    double nearest = INFINITY;
    if (!task->items[i].on_fold)
        return;
    for (int b = 0; b < task->spread.band_count; b++) {
        const struct cloth_band *band = &task->spread.bands[b];
        const double at[] = { band->fold_at_from ? band->from_mm : INFINITY,
                              band->fold_at_to ? band->to_mm : INFINITY };
        for (int k = 0; k < 2; k++) {
            double off = 0;
            for (int e = 0; e < 2; e++)
                off = fmax(off, fabs(moved(j, i, (vec2){ piece->fold[e].x, piece->fold[e].y }).y - at[k]));
            nearest = fmin(nearest, off);
        }
    }
    if (nearest > ON_FOLD_MM)
        find(j, LAY_OFF_FOLD, i, LAY_NONE, nearest);
}

/* How far it lies past the borders of the band that it is nearest to being in. */
static double off_bands(const struct judging *j, size_t i)
{
    const struct cloth_spread *s = &j->lay->task->spread;
    double least = INFINITY;
    for (int b = 0; b < s->band_count; b++)
        if (s->bands[b].layers == j->lay->task->items[i].layers)
            least = fmin(least, fmax(s->bands[b].from_mm - j->boxes[i].min.y, j->boxes[i].max.y - s->bands[b].to_mm));
    return least;
}

static double depth_in(struct geometry_path path, struct geometry_path other)
{
    struct arena *scratch = base_arena_create();
    double depth = 0, least = fmin(geometry_path_area(path), geometry_path_area(other)) * NOTHING_SHARE;
    if (geometry_common_area(path, other) > least)
        depth = packing_depth(scratch, path, (vec2){ 0, 0 }, other, (vec2){ 0, 0 }, NULL);
    base_arena_destroy(scratch);
    return depth;
}

static void judge_place(struct judging *j, size_t i)
{
    const struct cloth_spread *s = &j->lay->task->spread;
    double off = fmax(off_bands(j, i), -j->boxes[i].min.x);
    if (s->most_length_mm > 0)
        off = fmax(off, j->boxes[i].max.x - s->most_length_mm);
    for (size_t b = 0; b < s->blocked_count; b++)
        off = fmax(off, depth_in(j->outlines[i], s->blocked[b].path));
    if (off > NOTHING_MM)
        find(j, LAY_OFF_CLOTH, i, LAY_NONE, off);
}

static double off_lines(double at, struct packing_range lines)
{
    double steps = (at - lines.first) / lines.step;
    return fabs(steps - floor(steps + 0.5)) * lines.step;
}

static void judge_repeat(struct judging *j, size_t i)
{
    const struct lay_task *task = j->lay->task;
    struct lay_match match = lay_match_of(task, &task->items[i]);
    double off = 0;
    if (match.has_along)
        off = off_lines(moved(j, i, match.along).x, lay_lines_along(task));
    if (match.has_across && !task->items[i].on_fold)
        off = fmax(off, off_lines(moved(j, i, match.across).y, lay_lines_across(task)));
    if (off > ON_LINE_MM)
        find(j, LAY_OFF_REPEAT, i, LAY_NONE, off);
}

static bool boxes_are_near(struct geometry_box a, struct geometry_box b, double gap)
{
    return a.min.x < b.max.x + gap && b.min.x < a.max.x + gap && a.min.y < b.max.y + gap && b.min.y < a.max.y + gap;
}

/* The least way between two outlines that do not cross. */
static double distance(struct geometry_path a, struct geometry_path b)
{
    double least = INFINITY, along;
    for (size_t i = 0; i < a.count; i++)
        least = fmin(least, geometry_path_distance(b, a.points[i], &along));
    for (size_t i = 0; i < b.count; i++)
        least = fmin(least, geometry_path_distance(a, b.points[i], &along));
    return least;
}

static void judge_pair(struct judging *j, size_t i, size_t k)
{
    double gap = j->lay->task->cloth->gap_mm;
    if (!boxes_are_near(j->boxes[i], j->boxes[k], gap))
        return;
    double depth = depth_in(j->outlines[i], j->outlines[k]);
    if (depth > 0)
        find(j, LAY_OVERLAP, i, (int)k, depth + gap);
    else if (gap > 0) {
        double near = gap - distance(j->outlines[i], j->outlines[k]);
        if (near > NOTHING_MM)
            find(j, LAY_OVERLAP, i, (int)k, near);
    }
}

/* How far one box reaches past the other. */
static double reach_past(struct geometry_box box, struct geometry_box other)
{
    return fmax(fmax(other.min.x - box.min.x, box.max.x - other.max.x),
                fmax(other.min.y - box.min.y, box.max.y - other.max.y));
}

static void judge_block(struct judging *j)
{
    const struct lay_task *task = j->lay->task;
    struct lay_fusing f = lay_fusing_of(j->a, task, j->lay->places);
    for (size_t i = 0; f.block.count && i < task->item_count; i++) {
        if (!j->outlines[i].count || f.inside[i])
            continue;
        if (task->items[i].covered)
            find(j, LAY_OFF_BLOCK, i, LAY_NONE, reach_past(j->boxes[i], geometry_path_box(f.block)));
        else if (depth_in(j->outlines[i], f.block) > NOTHING_MM)
            find(j, LAY_IN_BLOCK, i, LAY_NONE, depth_in(j->outlines[i], f.block));
    }
}

static int by_amount(const void *pa, const void *pb)
{
    const struct lay_finding *a = pa, *b = pb;
    if (a->amount != b->amount)
        return a->amount < b->amount ? 1 : -1;
    if (a->item != b->item)
        return a->item - b->item;
    return a->other != b->other ? a->other - b->other : (int)a->fault - (int)b->fault;
}

static void judge_item(struct judging *j, size_t i)
{
    judge_turn(j, i);
    judge_fold(j, i);
    judge_place(j, i);
    judge_repeat(j, i);
    for (size_t k = i + 1; k < j->lay->task->item_count; k++)
        if (j->outlines[k].count)
            judge_pair(j, i, k);
}

size_t lay_judge(struct arena *a, const struct lay *lay, const struct lay_finding **out)
{
    size_t n = lay->task->item_count;
    struct judging j = { .a = a,
                         .lay = lay,
                         .outlines = base_arena_alloc(a, n, sizeof *j.outlines),
                         .boxes = base_arena_alloc(a, n, sizeof *j.boxes) };
    for (size_t i = 0; i < n; i++)
        if (lay->places[i].is_laid) {
            j.outlines[i] = lay_outline(a, lay->task, i, &lay->places[i]).path;
            j.boxes[i] = geometry_path_box(j.outlines[i]);
        }
    for (size_t i = 0; i < n; i++)
        if (j.outlines[i].count)
            judge_item(&j, i);
    judge_block(&j);
    if (j.count)
        qsort(j.found, j.count, sizeof *j.found, by_amount);
    *out = j.found;
    return j.count;
}
