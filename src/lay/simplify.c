/* Fewer points, outwards: a corner that points inwards is cut off, and two that point outwards are led on to one, as
 * long as nothing comes to lie further out than it may. What adds the least area goes first. */
#include "lay/ways.h"

#include <stdlib.h>

/* A corner of the outline as it shrinks, and the side that begins there. */
struct corner {
    vec2 at;
    size_t before, after; /* neighbours */
    double out;           /* how far the side may lie outside of the outline as it was */
    double gain;          /* area that the best step here would add; INFINITY: there is none */
};

struct shrinking {
    struct corner *corners;
    size_t count;
    double most;
};

static double turn_at(const struct shrinking *s, size_t i)
{
    const struct corner *c = &s->corners[i];
    return vec2_cross(vec2_sub(c->at, s->corners[c->before].at), vec2_sub(s->corners[c->after].at, c->at));
}

static double height_over(vec2 p, vec2 from, vec2 to)
{
    double length = vec2_length(vec2_sub(to, from));
    return length > 0 ? fabs(vec2_cross(vec2_sub(to, from), vec2_sub(p, from))) / length : INFINITY;
}

/* Cutting off corner i, which points inwards: how far the new side lies out. */
static double cut_out(const struct shrinking *s, size_t i)
{
    const struct corner *c = &s->corners[i];
    double height = height_over(c->at, s->corners[c->before].at, s->corners[c->after].at);
    return fmax(s->corners[c->before].out, c->out) + height;
}

/* Where the sides before and after the side of corner i meet when they are led on beyond it. */
static bool lead_on(const struct shrinking *s, size_t i, vec2 *at)
{
    const struct corner *c = &s->corners[i], *next = &s->corners[c->after];
    vec2 before = vec2_sub(c->at, s->corners[c->before].at), after = vec2_sub(s->corners[next->after].at, next->at);
    double sine = vec2_cross(before, after);
    if (!(sine > 0) || next->after == c->before)
        return false;
    double on = vec2_cross(vec2_sub(next->at, c->at), after) / sine;
    *at = vec2_add(c->at, vec2_scale(before, on));
    return on > 0;
}

static double lead_out(const struct shrinking *s, size_t i, vec2 at)
{
    const struct corner *c = &s->corners[i], *next = &s->corners[c->after];
    double was = fmax(fmax(s->corners[c->before].out, c->out), next->out);
    return was + height_over(at, c->at, next->at);
}

static double area_of(vec2 a, vec2 b, vec2 c)
{
    return fabs(vec2_cross(vec2_sub(b, a), vec2_sub(c, a))) / 2;
}

static void weigh(struct shrinking *s, size_t i)
{
    struct corner *c = &s->corners[i];
    vec2 at;
    c->gain = INFINITY;
    if (turn_at(s, i) <= 0) {
        if (cut_out(s, i) <= s->most)
            c->gain = area_of(s->corners[c->before].at, c->at, s->corners[c->after].at);
    } else if (turn_at(s, c->after) > 0 && lead_on(s, i, &at) && lead_out(s, i, at) <= s->most) {
        c->gain = area_of(c->at, at, s->corners[c->after].at);
    }
}

static void take_out(struct shrinking *s, size_t i)
{
    struct corner *c = &s->corners[i];
    s->corners[c->before].after = c->after;
    s->corners[c->after].before = c->before;
    c->gain = INFINITY;
    s->count--;
}

static void step(struct shrinking *s, size_t i)
{
    struct corner *c = &s->corners[i], *before = &s->corners[c->before];
    size_t from = c->before;
    if (turn_at(s, i) <= 0) {
        before->out = cut_out(s, i);
    } else {
        size_t next = c->after;
        vec2 at = c->at;
        lead_on(s, i, &at);
        double out = lead_out(s, i, at);
        before->out = s->corners[next].out = out;
        s->corners[next].at = at;
    }
    take_out(s, i);
    /* what is weighed of a corner looks as far as the second after it */
    size_t k = s->corners[s->corners[from].before].before;
    for (int n = 0; n < 6; n++, k = s->corners[k].after)
        weigh(s, k);
}

static size_t cheapest(const struct shrinking *s, size_t start)
{
    size_t best = start, k = start;
    for (size_t n = 0; n < s->count; n++, k = s->corners[k].after)
        if (s->corners[k].gain < s->corners[best].gain)
            best = k;
    return best;
}

static struct geometry_path left_over(struct arena *a, const struct shrinking *s, size_t start)
{
    struct geometry_path out = { base_arena_alloc(a, s->count, sizeof *out.points), 0, true };
    size_t k = start;
    for (size_t n = 0; n < s->count; n++, k = s->corners[k].after)
        out.points[out.count++] = s->corners[k].at;
    return out;
}

struct geometry_path lay_simplified(struct arena *a, struct geometry_path outline, double most_mm)
{
    size_t n = outline.count, start = 0;
    vec2 where;
    struct shrinking s = { base_arena_alloc(a, n, sizeof *s.corners), n, most_mm };
    for (size_t i = 0; i < n; i++)
        s.corners[i] = (struct corner){ outline.points[i], (i + n - 1) % n, (i + 1) % n, 0, INFINITY };
    for (size_t i = 0; n > 4 && i < n; i++)
        weigh(&s, i);
    for (size_t best = cheapest(&s, start); s.count > 4 && isfinite(s.corners[best].gain); best = cheapest(&s, start)) {
        if (best == start)
            start = s.corners[start].after;
        step(&s, best);
    }
    struct geometry_path out = left_over(a, &s, start);
    return geometry_path_crosses_itself(out, &where) ? outline : out;
}
