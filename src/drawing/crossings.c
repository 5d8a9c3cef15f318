#include "drawing/crossings.h"

#include <stdlib.h>

#define EDGE_MM 0.1      /* within that of a side, lines are taken to go on straight */
#define ALONG_LEAST 0.05 /* of a line's direction along the axis: others hardly cross */
#define TURN_MOST 0.12   /* sine of the angle between lines that go on */
#define TWICE_MM 0.02    /* lines nearer than that are drawn over each other */
#define REACH_MOST 4.0   /* a slanted line's crossing may lie that many tolerances off */

static int by_place(const void *x, const void *y)
{
    const struct drawing_crossing *a = x, *b = y;
    if (a->look != b->look)
        return a->look < b->look ? -1 : 1;
    if (a->at != b->at)
        return a->at < b->at ? -1 : 1;
    return (a->dir[1] > b->dir[1]) - (a->dir[1] < b->dir[1]);
}

static double turn(const struct drawing_crossing *p, const struct drawing_crossing *q)
{
    return fabs(p->dir[0] * q->dir[1] - p->dir[1] * q->dir[0]);
}

static bool is_twice(const struct drawing_crossing *p, const struct drawing_crossing *q)
{
    return p->look == q->look && q->at - p->at <= TWICE_MM && turn(p, q) <= TURN_MOST;
}

static size_t without_twice(struct drawing_crossing *all, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (kept == 0 || !is_twice(&all[kept - 1], &all[i]))
            all[kept++] = all[i];
    return kept;
}

/* Where the bit crosses at `within`, told at `at`. */
static struct drawing_crossing crossing_of(const struct drawing_bit *bit, double at)
{
    double by[2] = { bit->to[0] - bit->from[0], bit->to[1] - bit->from[1] };
    double length = sqrt(by[0] * by[0] + by[1] * by[1]);
    return (struct drawing_crossing){ bit->look,
                                      bit->from[1] + (at - bit->from[0]) / by[0] * by[1],
                                      { by[0] / length, by[1] / length } };
}

struct drawing_crossings drawing_cross(struct arena *a, const struct drawing_tiling *t, size_t tile, int axis, int end,
                                       double at)
{
    const struct drawing_bits *bits = &t->tiles[tile].bits[axis][end];
    double within = fmin(fmax(at, t->low[axis] + EDGE_MM), t->high[axis] - EDGE_MM);
    struct drawing_crossings out = { NULL, 0 };
    size_t cap = 0;
    for (size_t i = 0; i < bits->count; i++) {
        const struct drawing_bit *bit = &bits->bits[i];
        if (bit->from[0] > within || bit->to[0] <= within)
            continue;
        struct drawing_crossing c = crossing_of(bit, at);
        if (c.dir[0] < ALONG_LEAST)
            continue;
        out.all = base_arena_grow(a, out.all, &cap, out.count + 1, sizeof *out.all);
        out.all[out.count++] = c;
    }
    if (out.count)
        qsort(out.all, out.count, sizeof *out.all, by_place);
    out.count = without_twice(out.all, out.count);
    return out;
}

static double off(const struct drawing_crossing *p, const struct drawing_crossing *q, double offset)
{
    return fabs(q->at + offset - p->at) * p->dir[0];
}

/* The nearest from `first` on that fits `p`; q's count when none does. */
static size_t nearest(const struct drawing_crossing *p, const struct drawing_crossings *q, size_t first, double offset,
                      double tolerance)
{
    size_t best = q->count;
    double best_off = tolerance;
    for (size_t k = first; k < q->count; k++) {
        const struct drawing_crossing *c = &q->all[k];
        if (c->look != p->look || c->at + offset - p->at > REACH_MOST * tolerance)
            break;
        if (off(p, c, offset) <= best_off && turn(p, c) <= TURN_MOST) {
            best = k;
            best_off = off(p, c, offset);
        }
    }
    return best;
}

size_t drawing_match_crossings(const struct drawing_crossings *p, const struct drawing_crossings *q, double offset,
                               double tolerance_mm, struct drawing_match *out)
{
    size_t count = 0, first = 0, next_free = 0;
    for (size_t i = 0; i < p->count && first < q->count; i++) {
        const struct drawing_crossing *c = &p->all[i];
        while (first < q->count &&
               (q->all[first].look < c->look ||
                (q->all[first].look == c->look && q->all[first].at + offset - c->at < -REACH_MOST * tolerance_mm)))
            first++;
        size_t k = nearest(c, q, first > next_free ? first : next_free, offset, tolerance_mm);
        if (k == q->count)
            continue;
        if (out)
            out[count] = (struct drawing_match){ i, k };
        count++;
        next_free = k + 1;
    }
    return count;
}
