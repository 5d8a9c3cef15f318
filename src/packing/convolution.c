#include "packing/convolution.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* Directions nearer to each other than that (of 4 for a full turn) are one: what is parallel but for rounding is
 * parallel. */
#define SAME_DIRECTION 1e-11

/* An outline with its sides in the order of their directions. side i runs from point i. */
struct ring {
    vec2 *points;
    size_t count;
    int *rank;          /* of each side's direction among those of both outlines */
    size_t *by_rank;    /* sides in that order */
    size_t *rank_first; /* ranks + 1: where each rank begins in it */
};

enum { MOST_ROWS = 1024 };

struct direction {
    double angle; /* 0 to 4, grows as the angle does */
    struct ring *ring;
    size_t side;
};

static vec2 side_of(const struct ring *r, size_t i)
{
    return vec2_sub(r->points[i + 1 < r->count ? i + 1 : 0], r->points[i]);
}

/* Grows with the angle from +x on, from 0 to 4. */
static double angle_like(vec2 d)
{
    double part = d.y / (fabs(d.x) + fabs(d.y));
    if (d.x < 0)
        return 2 - part;
    return part >= 0 ? part : 4 + part;
}

/* Points that repeat the one before are left out: they have no direction. */
static struct ring ring_of(struct arena *a, struct geometry_path p, double sign)
{
    struct ring ring = { .points = base_arena_alloc(a, p.count, sizeof *ring.points) };
    for (size_t i = 0; i < p.count; i++) {
        vec2 before = p.points[i ? i - 1 : p.count - 1];
        if (before.x != p.points[i].x || before.y != p.points[i].y)
            ring.points[ring.count++] = vec2_scale(p.points[i], sign);
    }
    ring.rank = base_arena_alloc(a, ring.count, sizeof *ring.rank);
    ring.by_rank = base_arena_alloc(a, ring.count, sizeof *ring.by_rank);
    return ring;
}

static int compare_directions(const void *a, const void *b)
{
    const struct direction *p = a, *q = b;
    return (p->angle > q->angle) - (p->angle < q->angle);
}

static size_t list_directions(struct direction *out, struct ring *ring)
{
    for (size_t i = 0; i < ring->count; i++)
        out[i] = (struct direction){ angle_like(side_of(ring, i)), ring, i };
    return ring->count;
}

static void start_ranks(struct arena *a, struct ring *ring, int ranks)
{
    ring->rank_first = base_arena_alloc(a, (size_t)ranks + 1, sizeof *ring->rank_first);
    for (size_t i = 0; i < ring->count; i++)
        ring->rank_first[ring->rank[i] + 1]++;
    for (int r = 0; r < ranks; r++)
        ring->rank_first[r + 1] += ring->rank_first[r];
    size_t *next = base_arena_alloc(a, (size_t)ranks, sizeof *next);
    for (size_t i = 0; i < ring->count; i++) {
        size_t r = (size_t)ring->rank[i];
        ring->by_rank[ring->rank_first[r] + next[r]++] = i;
    }
}

/* Gives every side the rank of its direction; the number of ranks. */
static int rank_directions(struct arena *a, struct ring *p, struct ring *q)
{
    struct direction *all = base_arena_alloc(a, p->count + q->count, sizeof *all);
    size_t count = list_directions(all, p);
    count += list_directions(all + count, q);
    qsort(all, count, sizeof *all, compare_directions);
    int rank = 0;
    for (size_t i = 0; i < count; i++) {
        if (i && all[i].angle - all[i - 1].angle > SAME_DIRECTION)
            rank++;
        all[i].ring->rank[all[i].side] = rank;
    }
    int ranks = rank + 1;
    if (rank > 0 && all[0].angle + 4 - all[count - 1].angle <= SAME_DIRECTION) {
        ranks = rank;
        for (size_t i = count; i-- > 0 && all[i].ring->rank[all[i].side] == rank;)
            all[i].ring->rank[all[i].side] = 0;
    }
    start_ranks(a, p, ranks);
    start_ranks(a, q, ranks);
    return ranks;
}

struct gathering {
    struct arena *out;
    struct convolution *c;
    size_t cap;
};

static void add_edge(struct gathering *g, vec2 from, vec2 to)
{
    struct convolution *c = g->c;
    c->edges = base_arena_grow(g->out, c->edges, &g->cap, c->count + 1, sizeof *c->edges);
    c->edges[c->count++] = (struct convolution_edge){ from, to };
    c->box = geometry_box_join(c->box, (struct geometry_box){ from, from });
}

/* All sides of `q` with a rank from `first` up to, without, `end`, at a corner; round the circle when end < first. */
static void add_sides(struct gathering *g, vec2 corner, const struct ring *q, int ranks, int first, int end, bool back)
{
    for (int r = first; r != end; r = r + 1 < ranks ? r + 1 : 0)
        for (size_t k = q->rank_first[r]; k < q->rank_first[r + 1]; k++) {
            size_t side = q->by_rank[k];
            vec2 from = vec2_add(corner, q->points[side]);
            vec2 to = vec2_add(corner, q->points[side + 1 < q->count ? side + 1 : 0]);
            if (back)
                add_edge(g, to, from);
            else
                add_edge(g, from, to);
        }
}

/* `late`: where directions are the same, those of `p` count as a little further to the left than those of `q`, so that
 * every meeting is taken once. */
static void add_corners(struct gathering *g, const struct ring *p, const struct ring *q, int ranks, bool late)
{
    for (size_t i = 0; i < p->count; i++) {
        size_t before = i ? i - 1 : p->count - 1;
        int in = p->rank[before], out = p->rank[i];
        if (in == out)
            continue;
        bool back = vec2_cross(side_of(p, before), side_of(p, i)) < 0;
        if (back)
            g->c->convex = false;
        int first = back ? out : in, end = back ? in : out;
        if (late) {
            first = first + 1 < ranks ? first + 1 : 0;
            end = end + 1 < ranks ? end + 1 : 0;
        }
        add_sides(g, p->points[i], q, ranks, first, end, back);
    }
}

static size_t row_of(const struct convolution *c, double y)
{
    double row = (y - c->box.min.y) * c->rows_per_unit;
    if (!(row > 0))
        return 0;
    return row < (double)(c->rows - 1) ? (size_t)row : c->rows - 1;
}

static void rows_of_edge(const struct convolution *c, size_t i, size_t *first, size_t *last)
{
    const struct convolution_edge *e = &c->edges[i];
    *first = row_of(c, fmin(e->from.y, e->to.y));
    *last = row_of(c, fmax(e->from.y, e->to.y));
}

static void list_rows(struct arena *out, struct arena *scratch, struct convolution *c)
{
    double height = c->box.max.y - c->box.min.y;
    c->rows = c->count / 4 + 1 < MOST_ROWS ? c->count / 4 + 1 : MOST_ROWS;
    c->rows_per_unit = height > 0 ? (double)c->rows / height : 0;
    c->row_first = base_arena_alloc(out, c->rows + 1, sizeof *c->row_first);
    size_t first, last;
    for (size_t i = 0; i < c->count; i++) {
        rows_of_edge(c, i, &first, &last);
        for (size_t r = first; r <= last; r++)
            c->row_first[r + 1]++;
    }
    for (size_t r = 0; r < c->rows; r++)
        c->row_first[r + 1] += c->row_first[r];
    c->in_row = base_arena_alloc(out, c->row_first[c->rows], sizeof *c->in_row);
    size_t *next = base_arena_alloc(scratch, c->rows, sizeof *next);
    for (size_t i = 0; i < c->count; i++) {
        rows_of_edge(c, i, &first, &last);
        for (size_t r = first; r <= last; r++)
            c->in_row[c->row_first[r] + next[r]++] = (unsigned)i;
    }
}

struct convolution convolution_of(struct arena *out, struct arena *scratch, struct geometry_path a,
                                  struct geometry_path b)
{
    struct ring p = ring_of(scratch, a, 1), q = ring_of(scratch, b, -1);
    assert(p.count >= 3 && q.count >= 3);
    int ranks = rank_directions(scratch, &p, &q);
    struct convolution c = { .box = geometry_box_empty(), .convex = true };
    struct gathering g = { out, &c, 0 };
    add_corners(&g, &p, &q, ranks, true);
    add_corners(&g, &q, &p, ranks, false);
    list_rows(out, scratch, &c);
    return c;
}

/* Crossings of the ray to the right, up counted +1 and down -1. */
int convolution_winding(const struct convolution *c, vec2 at)
{
    if (at.y < c->box.min.y || at.y > c->box.max.y)
        return 0;
    int winding = 0;
    size_t row = row_of(c, at.y);
    for (size_t k = c->row_first[row]; k < c->row_first[row + 1]; k++) {
        const struct convolution_edge *e = &c->edges[c->in_row[k]];
        bool from_below = e->from.y <= at.y, to_below = e->to.y <= at.y;
        if (from_below == to_below)
            continue;
        double side = vec2_cross(vec2_sub(e->to, e->from), vec2_sub(at, e->from));
        if (from_below && side > 0)
            winding++;
        else if (to_below && side < 0)
            winding--;
    }
    return winding;
}
