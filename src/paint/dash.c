#include "paint/dash.h"

#include <assert.h>

#define COS_30 0.86602540378443864676
#define LEAST_FIT (2.0 / 3)

/* A path as a way from its start to its end. A closed one starts at a turn, if it has any, and is walked twice, so that
 * a dash can run on past the start. */
struct way {
    vec2 *at;
    double *along; /* the way to each point */
    size_t count;
    size_t end; /* the point where the first round ends */
    bool closed;
};

/* Ways between which the light is on. */
struct dashes {
    struct arena *arena;
    struct dash {
        double from, to;
    } * items;
    size_t count, cap;
};

struct pattern {
    double on[PAINT_DASHES / 2], off[PAINT_DASHES / 2];
    double period;
};

static struct pattern pattern_of(struct paint_pen pen)
{
    struct pattern p = { { 0 }, { 0 }, 0 };
    for (int i = 0; i < PAINT_DASHES / 2; i++) {
        p.on[i] = pen.dash[2 * i];
        p.off[i] = pen.dash[2 * i + 1];
        assert(p.on[i] >= 0 && p.off[i] >= 0);
        p.period += p.on[i] + p.off[i];
    }
    return p;
}

static bool turns(vec2 before, vec2 at, vec2 after)
{
    return vec2_dot(vec2_unit(vec2_sub(at, before)), vec2_unit(vec2_sub(after, at))) < COS_30;
}

/* The first point of a closed path at which it turns; point 0 when there is none. */
static size_t first_turn(struct geometry_path p)
{
    for (size_t i = 0; i < p.count; i++)
        if (turns(p.points[(i + p.count - 1) % p.count], p.points[i], p.points[(i + 1) % p.count]))
            return i;
    return 0;
}

static struct way way_of(struct arena *a, struct geometry_path p)
{
    size_t start = p.closed ? first_turn(p) : 0;
    struct way w = { .count = p.closed ? 2 * p.count + 1 : p.count,
                     .end = p.closed ? p.count : p.count - 1,
                     .closed = p.closed };
    w.at = base_arena_alloc(a, w.count, sizeof *w.at);
    w.along = base_arena_alloc(a, w.count, sizeof *w.along);
    for (size_t i = 0; i < w.count; i++) {
        w.at[i] = p.points[(start + i) % p.count];
        w.along[i] = i ? w.along[i - 1] + vec2_length(vec2_sub(w.at[i], w.at[i - 1])) : 0;
    }
    return w;
}

/* A dash that starts where the last one ended is one with it. */
static void add(struct dashes *d, double from, double to)
{
    if (to <= from)
        return;
    if (d->count && d->items[d->count - 1].to >= from) {
        d->items[d->count - 1].to = to;
        return;
    }
    d->items = base_arena_grow(d->arena, d->items, &d->cap, d->count + 1, sizeof *d->items);
    d->items[d->count++] = (struct dash){ from, to };
}

static double clamp(double x, double low, double high)
{
    return x < low ? low : x > high ? high : x;
}

/* The stretch between two turns or ends. `lead` and `tail` are how much of the first dash lies before its end and after
 * its beginning: half at a turn, all at an open end. */
static void fill_stretch(struct dashes *d, const struct pattern *p, double from, double to, double lead, double tail)
{
    double extra = lead + tail - p->on[0];
    double periods = floor((to - from - extra) / p->period + 0.5), natural = periods * p->period + extra;
    if (periods < 1 || to - from < LEAST_FIT * natural) {
        add(d, from, to);
        return;
    }
    double fit = (to - from) / natural, at = lead - p->on[0];
    for (size_t period = 0; period < (size_t)periods; period++) {
        for (int i = 0; i < PAINT_DASHES / 2; i++) {
            add(d, clamp(from + at * fit, from, to), clamp(from + (at + p->on[i]) * fit, from, to));
            at += p->on[i] + p->off[i];
        }
    }
    add(d, clamp(from + at * fit, from, to), to);
}

static void fill_way(struct dashes *d, const struct pattern *p, const struct way *w)
{
    double half = p->on[0] / 2, from = 0, lead = w->closed ? half : p->on[0];
    for (size_t i = 1; i < w->end; i++) {
        if (!turns(w->at[i - 1], w->at[i], w->at[i + 1]))
            continue;
        fill_stretch(d, p, from, w->along[i], lead, half);
        from = w->along[i];
        lead = half;
    }
    fill_stretch(d, p, from, w->along[w->end], lead, w->closed ? half : p->on[0]);
}

/* The last dash of a closed way runs on into the first. */
static void join_ends(struct dashes *d, double length)
{
    if (d->count < 2 || d->items[0].from > 0 || d->items[d->count - 1].to < length)
        return;
    d->items[d->count - 1].to += d->items[0].to;
    d->items++;
    d->count--;
}

static vec2 at_way(const struct way *w, size_t before, double along)
{
    double part = (along - w->along[before]) / (w->along[before + 1] - w->along[before]);
    return vec2_lerp(w->at[before], w->at[before + 1], clamp(part, 0, 1));
}

/* The part of a way that one dash covers; *point is moved on to the last point before its start. */
static struct geometry_path cut_out(struct arena *a, const struct way *w, struct dash dash, size_t *point)
{
    while (*point + 2 < w->count && w->along[*point + 1] <= dash.from)
        ++*point;
    size_t last = *point;
    while (last + 2 < w->count && w->along[last + 1] < dash.to)
        last++;
    size_t inner = last - *point;
    struct geometry_path out = { base_arena_alloc(a, inner + 2, sizeof(vec2)), inner + 2, false };
    out.points[0] = at_way(w, *point, dash.from);
    for (size_t i = 0; i < inner; i++)
        out.points[i + 1] = w->at[*point + 1 + i];
    out.points[inner + 1] = at_way(w, last, dash.to);
    return out;
}

static struct geometry_path *whole(struct arena *a, struct geometry_path path, size_t *count)
{
    struct geometry_path *out = base_arena_alloc(a, 1, sizeof *out);
    out[0] = path;
    *count = 1;
    return out;
}

struct geometry_path *paint_dashes(struct arena *a, struct geometry_path path, struct paint_pen pen, size_t *count)
{
    struct pattern pattern = pattern_of(pen);
    if (pattern.period <= 0 || path.count < 2)
        return whole(a, path, count);
    struct way way = way_of(a, path);
    double length = way.along[way.end];
    struct dashes dashes = { .arena = a };
    fill_way(&dashes, &pattern, &way);
    if (dashes.count == 1 && dashes.items[0].from <= 0 && dashes.items[0].to >= length)
        return whole(a, path, count);
    if (way.closed)
        join_ends(&dashes, length);
    struct geometry_path *out = base_arena_alloc(a, dashes.count, sizeof *out);
    size_t point = 0;
    for (size_t i = 0; i < dashes.count; i++)
        out[i] = cut_out(a, &way, dashes.items[i], &point);
    *count = dashes.count;
    return out;
}
