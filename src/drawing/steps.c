#include "drawing/steps.h"

#include <stdlib.h>
#include <string.h>

#define BIN_MM 0.1
#define STEP_LEAST 0.4  /* of what is seen of the sheet on a page */
#define GAP_MOST_MM 3.0 /* between what is seen on neighbours */
#define SLANT_LEAST                                                                                                    \
    0.12 /* beside the axis, of a line's direction: straighter ones do not tell how far pages lie apart */
#define SLANT_MOST 0.995
#define TURN_MOST 0.02 /* sine of the angle between lines that are one straight line */
#define NEAR_END_MM 0.5
#define LEVEL_MM 1.2 /* pages that lie level are off by less */
#define SAME_CORNER_MM 0.05
#define BELIEVED_VOTES 3.0
enum {
    PAIRS_MOST = 4000,
    LINES_MOST = 150,
    CORNERS_MOST = 400,
    CROWD_MOST = 40,
    VOTED_MOST = 4,
    VOTES_LEAST = 2,
    TWIN_VOTES = 3
};

/* Votes for a step, from the least on in bins. */
struct votes {
    double least;
    size_t count;
    unsigned *bins;
    double *sums; /* of the steps voted for */
};

static struct votes start_votes(struct arena *a, const struct drawing_tiling *t, int axis)
{
    double seen = t->high[axis] - t->low[axis];
    struct votes v = { .least = STEP_LEAST * seen };
    double most = seen + GAP_MOST_MM;
    v.count = (size_t)((most - v.least) / BIN_MM) + 1;
    v.bins = base_arena_alloc(a, v.count, sizeof *v.bins);
    v.sums = base_arena_alloc(a, v.count, sizeof *v.sums);
    return v;
}

static void vote(struct votes *v, double step, unsigned weight)
{
    double bin = floor((step - v->least) / BIN_MM);
    if (!(bin >= 0 && bin < (double)v->count))
        return;
    v->bins[(size_t)bin] += weight;
    v->sums[(size_t)bin] += step * weight;
}

static bool is_slanted(const struct drawing_crossing *c)
{
    return fabs(c->dir[1]) >= SLANT_LEAST && fabs(c->dir[1]) <= SLANT_MOST;
}

/* Two lines that are one straight line say how far apart the pages lie, when they lie level. */
static void vote_by_lines(struct votes *v, const struct drawing_crossings *p, const struct drawing_crossings *q,
                          double apart)
{
    size_t first = 0;
    for (size_t i = 0; i < p->count && i < LINES_MOST; i++) {
        const struct drawing_crossing *c = &p->all[i];
        if (!is_slanted(c))
            continue;
        while (first < q->count && q->all[first].look < c->look)
            first++;
        for (size_t k = first; k < q->count && q->all[k].look == c->look && k < first + LINES_MOST; k++) {
            const struct drawing_crossing *e = &q->all[k];
            if (fabs(c->dir[0] * e->dir[1] - c->dir[1] * e->dir[0]) <= TURN_MOST)
                vote(v, apart + (e->at - c->at) / (c->dir[1] / c->dir[0]), 1);
        }
    }
}

static double part(vec2 v, int axis)
{
    return axis ? v.y : v.x;
}

/* Lines that both pages have whole, on pages that lie level. */
static void vote_by_twins(struct votes *v, const struct drawing_twins *twins, int axis)
{
    for (size_t i = 0; i < twins->count; i++)
        if (fabs(part(twins->all[i].apart, !axis)) <= LEVEL_MM)
            vote(v, fabs(part(twins->all[i].apart, axis)), TWIN_VOTES);
}

/* A corner of a line near a side. */
struct corner {
    long look;
    double beside, along;
};

static int by_place(const void *x, const void *y)
{
    const struct corner *a = x, *b = y;
    if (a->look != b->look)
        return a->look < b->look ? -1 : 1;
    if (a->beside != b->beside)
        return a->beside < b->beside ? -1 : 1;
    return (a->along > b->along) - (a->along < b->along);
}

struct corners {
    struct corner *all;
    size_t count;
};

/* Corners of lines within what is seen: those where a line was cut at its side are none. */
static struct corners corners_near(struct arena *a, const struct drawing_tiling *t, size_t tile, int axis, int end)
{
    const struct drawing_bits *bits = &t->tiles[tile].bits[axis][end];
    struct corners c = { base_arena_alloc(a, 2 * bits->count, sizeof *c.all), 0 };
    for (size_t i = 0; i < bits->count && c.count < CORNERS_MOST; i++)
        for (int k = 0; k < 2; k++) {
            const double *at = k ? bits->bits[i].to : bits->bits[i].from;
            if (at[0] > t->low[axis] + NEAR_END_MM && at[0] < t->high[axis] - NEAR_END_MM)
                c.all[c.count++] = (struct corner){ bits->bits[i].look, at[1], at[0] };
        }
    if (c.count)
        qsort(c.all, c.count, sizeof *c.all, by_place);
    return c;
}

static void vote_by_corners(struct votes *v, const struct corners *p, const struct corners *q, double level_mm)
{
    double same = level_mm < LEVEL_MM ? SAME_CORNER_MM : level_mm;
    size_t first = 0;
    for (size_t i = 0; i < p->count; i++) {
        const struct corner *c = &p->all[i];
        while (first < q->count && (q->all[first].look < c->look ||
                                    (q->all[first].look == c->look && q->all[first].beside < c->beside - same)))
            first++;
        for (size_t k = first; k < q->count && k < first + CROWD_MOST && q->all[k].look == c->look &&
                               q->all[k].beside <= c->beside + same;
             k++)
            vote(v, c->along - q->all[k].along, 1);
    }
}

/* Lines that cross near the sides, and corners there, of each tile. */
struct sides {
    struct drawing_crossings *of[DRAWING_ENDS];
    struct corners *corners[DRAWING_ENDS];
    double at[DRAWING_ENDS];
};

static struct sides look_at_sides(struct arena *a, const struct drawing_tiling *t, int axis)
{
    struct sides s = { .at = { t->low[axis] + NEAR_END_MM, t->high[axis] - NEAR_END_MM } };
    for (int end = 0; end < DRAWING_ENDS; end++) {
        s.of[end] = base_arena_alloc(a, t->count, sizeof *s.of[end]);
        s.corners[end] = base_arena_alloc(a, t->count, sizeof *s.corners[end]);
        for (size_t i = 0; i < t->count; i++) {
            s.of[end][i] = drawing_cross(a, t, i, axis, end, s.at[end]);
            s.corners[end][i] = corners_near(a, t, i, axis, end);
        }
    }
    return s;
}

static void vote_by_pair(struct votes *v, const struct sides *s, size_t p, size_t q, double level_mm)
{
    vote_by_lines(v, &s->of[1][p], &s->of[0][q], s->at[1] - s->at[0]);
    vote_by_corners(v, &s->corners[1][p], &s->corners[0][q], level_mm);
}

/* All pairs of pages that may be neighbours, the nearer in the file the sooner, as far as they can be looked at. */
static struct votes votes_of(struct arena *a, const struct drawing_tiling *t, const struct drawing_twins *twins,
                             double level_mm, int axis)
{
    struct votes v = start_votes(a, t, axis);
    struct sides s = look_at_sides(a, t, axis);
    size_t looked = 0;
    vote_by_twins(&v, twins, axis);
    for (size_t apart = 1; apart < t->count && looked < PAIRS_MOST; apart++)
        for (size_t i = 0; i + apart < t->count && looked < PAIRS_MOST; i++, looked++) {
            vote_by_pair(&v, &s, i, i + apart, level_mm);
            vote_by_pair(&v, &s, i + apart, i, level_mm);
        }
    return v;
}

static unsigned votes_near(const struct votes *v, double step)
{
    double bin = floor((step - v->least) / BIN_MM + 0.5); /* the two bins on either side */
    unsigned sum = 0;
    for (int k = -1; k <= 0; k++)
        if (bin + k >= 0 && bin + k < (double)v->count)
            sum += v->bins[(size_t)(bin + k)];
    return sum;
}

struct guessed {
    double step;
    double votes;
    size_t rank;
};

struct guesses {
    struct guessed *all;
    size_t count;
};

static bool is_known(const struct guesses *g, double step)
{
    for (size_t i = 0; i < g->count; i++)
        if (fabs(g->all[i].step - step) < 1.5 * BIN_MM)
            return true;
    return false;
}

/* From any guide to any other, a frame's two sides first. What pages are printed with is believed unless clearly more
 * lines speak for something else than would by chance. */
static void guess_by_guides(struct guesses *g, const struct drawing_tiling *t, int axis, const struct votes *v)
{
    double seen = t->high[axis] - t->low[axis], chance = 0;
    for (size_t i = 0; i < v->count; i++)
        chance += v->bins[i];
    double more = BELIEVED_VOTES * (1 + 2 * chance / (double)v->count);
    g->all[g->count++] = (struct guessed){ seen, votes_near(v, seen) + more, 1 };
    for (size_t i = 0; i < t->guide_count[axis]; i++)
        for (size_t k = 0; k < i; k++) {
            double step = fabs(t->guides[axis][i] - t->guides[axis][k]);
            bool frame = i == 1 && k == 0;
            if (step >= STEP_LEAST * seen && step <= seen + GAP_MOST_MM)
                g->all[g->count++] =
                    (struct guessed){ step, votes_near(v, step) + more, frame ? 0 : 2 + i * DRAWING_GUIDES_MOST + k };
        }
}

/* The bins that most lines voted for, beside those. */
static void guess_by_votes(struct guesses *g, const struct votes *v)
{
    for (size_t round = 0; round < VOTED_MOST; round++) {
        size_t best = 0;
        unsigned best_votes = VOTES_LEAST - 1;
        for (size_t i = 1; i < v->count; i++)
            if (v->bins[i - 1] + v->bins[i] > best_votes && !is_known(g, v->least + (double)i * BIN_MM)) {
                best = i;
                best_votes = v->bins[i - 1] + v->bins[i];
            }
        if (best == 0)
            return;
        double step = (v->sums[best - 1] + v->sums[best]) / best_votes;
        g->all[g->count++] = (struct guessed){ step, best_votes, SIZE_MAX };
    }
}

static int by_votes(const void *x, const void *y)
{
    const struct guessed *a = x, *b = y;
    if (a->votes != b->votes)
        return a->votes > b->votes ? -1 : 1;
    if (a->rank != b->rank)
        return a->rank < b->rank ? -1 : 1;
    return (a->step > b->step) - (a->step < b->step);
}

static void take_likeliest(const struct guesses *g, struct drawing_steps *out)
{
    for (size_t i = 0; i < g->count && out->count < DRAWING_STEPS_MOST; i++) {
        bool known = false;
        for (size_t k = 0; k < out->count; k++)
            known = known || fabs(out->step[k] - g->all[i].step) < BIN_MM / 2;
        if (!known)
            out->step[out->count++] = g->all[i].step;
    }
}

void drawing_find_steps(const struct drawing_tiling *t, const struct drawing_twins *twins, double level_mm,
                        struct drawing_steps steps[DRAWING_AXES])
{
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        struct votes v = votes_of(t->a, t, twins, level_mm, axis);
        size_t most = t->guide_count[axis] * t->guide_count[axis] + 1 + VOTED_MOST;
        struct guesses g = { base_arena_alloc(t->a, most, sizeof(struct guessed)), 0 };
        guess_by_guides(&g, t, axis, &v);
        guess_by_votes(&g, &v);
        qsort(g.all, g.count, sizeof *g.all, by_votes);
        steps[axis] = (struct drawing_steps){ .count = 0 };
        take_likeliest(&g, &steps[axis]);
    }
}

double drawing_cut_of_first(const struct drawing_tiling *t, int axis, double step)
{
    return (t->low[axis] + step + t->high[axis]) / 2;
}

double drawing_cut_of_second(const struct drawing_tiling *t, int axis, double step)
{
    return drawing_cut_of_first(t, axis, step) - step;
}
