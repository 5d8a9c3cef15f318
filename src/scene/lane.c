#include "scene/lane.h"

#include <math.h>
#include <stdlib.h>

#define GRAIN_BESIDE_MM 9.0 /* half a head and a little air */
#define GRAIN_AHEAD_MM 10.0 /* from a tip to the next line */
#define GRAIN_LEAST_MM 50.0 /* shorter it shows no direction; of a small piece, its share */
#define GRAIN_LEAST 0.6     /* of what is wished */
#define COST_ASIDE 0.3      /* mm of length that a mm away from the middle is worth */
#define COST_ALONG 0.1      /* the same up or down the lane */

/* Gaps under construction: what is blocked, in any order and overlapping. */
struct blocked {
    struct arena *a;
    struct scene_gap *parts;
    size_t count, cap;
};

/* The part of a side that lies in the lane, with what has to be kept clear before and after it. */
static void block_side(struct blocked *b, const struct scene_lane *lane, vec2 p, vec2 q)
{
    vec2 from = vec2_sub(p, lane->at), to = vec2_sub(q, lane->at);
    double left[2] = { vec2_cross(lane->along, from), vec2_cross(lane->along, to) };
    double begin = 0, end = 1, rise = left[1] - left[0];
    if ((left[0] < -lane->right && left[1] < -lane->right) || (left[0] > lane->left && left[1] > lane->left))
        return; /* as most are: not fmin and fmax, which are calls */
    if (rise != 0) {
        double low = (-lane->right - left[0]) / rise, high = (lane->left - left[0]) / rise;
        begin = fmax(0, fmin(low, high));
        end = fmin(1, fmax(low, high));
    }
    double ahead[2] = { vec2_dot(lane->along, vec2_lerp(from, to, begin)),
                        vec2_dot(lane->along, vec2_lerp(from, to, end)) };
    b->parts = base_arena_grow(b->a, b->parts, &b->cap, b->count + 1, sizeof *b->parts);
    b->parts[b->count++] =
        (struct scene_gap){ fmin(ahead[0], ahead[1]) - lane->ahead, fmax(ahead[0], ahead[1]) + lane->ahead };
}

static void block_path(struct blocked *b, const struct scene_lane *lane, struct geometry_path path)
{
    size_t sides = path.closed || !path.count ? path.count : path.count - 1;
    for (size_t i = 0; i < sides; i++)
        block_side(b, lane, path.points[i], path.points[(i + 1) % path.count]);
}

static int by_begin(const void *a, const void *b)
{
    double first = ((const struct scene_gap *)a)->from, second = ((const struct scene_gap *)b)->from;
    return (first > second) - (first < second);
}

size_t scene_lane_gaps(struct arena *a, const struct scene_lane *lane, const struct scene_obstacles *obstacles,
                       double from, double to, struct scene_gap **gaps)
{
    struct blocked b = { .a = a };
    for (size_t i = 0; i < obstacles->count; i++)
        block_path(&b, lane, obstacles->paths[i]);
    if (b.count)
        qsort(b.parts, b.count, sizeof *b.parts, by_begin);
    *gaps = base_arena_alloc(a, b.count + 1, sizeof **gaps);
    size_t count = 0;
    for (size_t i = 0; i <= b.count; i++) {
        double end = i < b.count ? fmin(b.parts[i].from, to) : to;
        if (end > from)
            (*gaps)[count++] = (struct scene_gap){ from, end };
        if (i < b.count)
            from = fmax(from, b.parts[i].to);
    }
    return count;
}

/* Which way a wished arrow runs, and how far a piece reaches about it. */
struct grain {
    vec2 middle, along;
    double length;
    struct scene_gap along_piece, across_piece; /* across: to the left of the arrow */
};

static struct grain grain_of(struct geometry_path seam, const vec2 wish[2])
{
    vec2 run = vec2_sub(wish[1], wish[0]);
    struct grain g = { vec2_lerp(wish[0], wish[1], 0.5), vec2_unit(run), vec2_length(run), { 0, 0 }, { 0, 0 } };
    for (size_t i = 0; i < seam.count; i++) {
        vec2 off = vec2_sub(seam.points[i], g.middle);
        double along = vec2_dot(g.along, off), left = vec2_cross(g.along, off);
        g.along_piece = (struct scene_gap){ fmin(g.along_piece.from, along), fmax(g.along_piece.to, along) };
        g.across_piece = (struct scene_gap){ fmin(g.across_piece.from, left), fmax(g.across_piece.to, left) };
    }
    return g;
}

/* The best arrow so far, and what it is worth. */
struct best {
    double worth;
    vec2 middle;
    double length;
};

/* The arrow that a gap has room for, nearest the piece's middle. */
static void try_gap(const struct grain *g, double left, struct scene_gap gap, struct best *best)
{
    double length = fmin(g->length, gap.to - gap.from);
    double along = fmin(fmax(0, gap.from + length / 2), gap.to - length / 2);
    double worth = length - COST_ASIDE * fabs(left) - COST_ALONG * fabs(along);
    if (length < fmin(GRAIN_LEAST_MM, GRAIN_LEAST * g->length) || worth <= best->worth)
        return;
    vec2 aside = vec2_scale(vec2_right(g->along), -left);
    *best = (struct best){ worth, vec2_add(g->middle, vec2_add(aside, vec2_scale(g->along, along))), length };
}

double scene_outwards(int i, int places)
{
    int step = i % 2 ? (i + 1) / 2 : -i / 2;
    return 0.5 + (double)step / places;
}

bool scene_grain_place(struct arena *a, struct geometry_path seam, struct geometry_path letters,
                       const struct scene_obstacles *obstacles, const vec2 wish[2], int lanes, vec2 ends[2])
{
    struct grain g = grain_of(seam, wish);
    struct best best = { .worth = -INFINITY };
    for (int lane = -1; lane < lanes; lane++) { /* first the one that is wished */
        double part = scene_outwards(lane, lanes);
        double left = lane < 0 ? 0 : g.across_piece.from + (g.across_piece.to - g.across_piece.from) * part;
        if (g.length - COST_ASIDE * fabs(left) <= best.worth)
            continue; /* not even a whole arrow there were better */
        struct scene_lane l = { vec2_sub(g.middle, vec2_scale(vec2_right(g.along), left)), g.along, GRAIN_BESIDE_MM,
                                GRAIN_BESIDE_MM, GRAIN_AHEAD_MM };
        struct scene_gap *gaps;
        size_t count = scene_lane_gaps(a, &l, obstacles, g.along_piece.from, g.along_piece.to, &gaps);
        for (size_t i = 0; i < count; i++) {
            vec2 middle = vec2_add(l.at, vec2_scale(g.along, (gaps[i].from + gaps[i].to) / 2));
            double longest = fmin(g.length, gaps[i].to - gaps[i].from);
            if (longest - COST_ASIDE * fabs(left) > best.worth && geometry_path_holds(seam, middle) &&
                !geometry_path_holds(letters, middle))
                try_gap(&g, left, gaps[i], &best);
        }
    }
    vec2 half = vec2_scale(g.along, best.length / 2);
    ends[0] = vec2_sub(best.middle, half);
    ends[1] = vec2_add(best.middle, half);
    return best.length > 0;
}
