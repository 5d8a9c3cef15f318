#include "geometry/offset_work.h"

#include <assert.h>
#include <math.h>

/* Sides whose directions differ by no more than this sine run in one line. Far above rounding (1e-16), far below what
 * any drawn curve turns by from one chord to the next. */
#define STRAIGHT_SINE 1e-9

size_t offset_next(const struct offset_outline *o, size_t i)
{
    return i + 1 < o->count ? i + 1 : 0;
}

size_t offset_previous(const struct offset_outline *o, size_t i)
{
    return i > 0 ? i - 1 : o->count - 1;
}

double offset_above(struct offset_line l, vec2 p)
{
    return vec2_dot(vec2_sub(p, l.at), l.normal);
}

static struct offset_side side_between(vec2 a, vec2 b, double length, double dist)
{
    struct offset_side side = { a, b, vec2_scale(vec2_sub(b, a), 1 / length), { 0, 0 }, length, dist };
    side.out = vec2_right(side.along);
    return side;
}

struct offset_outline offset_sides(struct arena *a, struct geometry_path in, const double *dist_mm,
                                   const struct geometry_corner *corners)
{
    struct offset_outline o = { .sides = base_arena_alloc(a, in.count, sizeof *o.sides),
                                .from = base_arena_alloc(a, in.count, sizeof *o.from),
                                .corners = base_arena_alloc(a, in.count + 1, sizeof *o.corners) };
    vec2 at = in.points[0];
    for (size_t i = 0; i < in.count; i++) {
        assert(dist_mm[i] >= 0 && isfinite(dist_mm[i]));
        vec2 end = in.points[i + 1 < in.count ? i + 1 : 0];
        double length = vec2_length(vec2_sub(end, at));
        /* Of points that are one, the last that is no mitre says what the corner is. */
        if (corners && corners[i].kind != GEOMETRY_CORNER_MITRE)
            o.corners[o.count] = corners[i];
        if (length < OFFSET_NEAR_MM)
            continue;
        o.from[o.count] = i;
        o.sides[o.count++] = side_between(at, end, length, dist_mm[i]);
        at = end;
    }
    /* A last side left out leaves the ring open by less than that: close it. */
    if (o.count > 0)
        o.sides[o.count - 1].b = o.sides[0].a;
    if (o.corners[o.count].kind != GEOMETRY_CORNER_MITRE)
        o.corners[0] = o.corners[o.count];
    return o;
}

/* ---- Corners ---- */

static double wider_of(const struct offset_corner *c)
{
    return fmax(c->before->dist, c->after->dist);
}

struct offset_corner offset_corner_at(const struct offset_outline *o, size_t i)
{
    const struct offset_side *before = &o->sides[offset_previous(o, i)], *after = &o->sides[i];
    struct offset_corner c = { .before = before, .after = after, .kind = o->corners[i].kind };
    c.sine = vec2_cross(before->along, after->along);
    c.cosine = vec2_dot(before->along, after->along);
    c.is_straight = fabs(c.sine) < STRAIGHT_SINE && c.cosine > 0;
    /* meet · out is the allowance of either side, mean + half and mean - half, which comes apart along the sum and the
     * difference of the two outs. 1 + cosine and 1 - cosine without the digits that the subtraction loses: */
    double squared = c.sine * c.sine;
    double plus = c.cosine < 0 ? squared / (1 - c.cosine) : 1 + c.cosine;
    double minus = c.cosine > 0 ? squared / (1 + c.cosine) : 1 - c.cosine;
    double mean = (before->dist + after->dist) / 2, half = (before->dist - after->dist) / 2;
    c.meet = vec2_scale(vec2_add(before->out, after->out), mean / plus);
    if (half != 0)
        c.meet = vec2_add(c.meet, vec2_scale(vec2_sub(before->out, after->out), half / minus));
    c.past_before = vec2_dot(c.meet, before->along);
    c.past_after = -vec2_dot(c.meet, after->along);
    /* Not when it is infinite or not a number. */
    c.meets_near = vec2_length(c.meet) <= GEOMETRY_MITRE_LIMIT * wider_of(&c);
    if (c.is_straight && half != 0) {
        c.past_before = c.past_after = -INFINITY;
        c.meets_near = false;
    }
    return c;
}

vec2 offset_end_of_before(const struct offset_corner *c, double past)
{
    const struct offset_side *s = c->before;
    return vec2_add(s->b, vec2_add(vec2_scale(s->out, s->dist), vec2_scale(s->along, past)));
}

vec2 offset_start_of_after(const struct offset_corner *c, double past)
{
    const struct offset_side *s = c->after;
    return vec2_sub(vec2_add(s->a, vec2_scale(s->out, s->dist)), vec2_scale(s->along, past));
}

bool offset_cuts_off(const struct offset_corner *c, vec2 *end_of_before, vec2 *start_of_after)
{
    bool clipped = c->kind == GEOMETRY_CORNER_CLIPPED;
    if (c->sine <= 0 || c->is_straight || (c->cosine >= 0 && !clipped))
        return false;
    vec2 bisector = vec2_unit(vec2_sub(c->before->along, c->after->along));
    double limit = wider_of(c) * (clipped ? 1 : GEOMETRY_MITRE_LIMIT);
    if (vec2_dot(c->meet, bisector) <= limit)
        return false;
    double run = vec2_dot(c->before->along, bisector), rise = vec2_dot(c->before->out, bisector);
    *end_of_before = offset_end_of_before(c, (limit - c->before->dist * rise) / run);
    *start_of_after = offset_start_of_after(c, (limit - c->after->dist * rise) / run);
    return true;
}

bool offset_meets_in_reach(const struct offset_corner *c)
{
    bool outside = c->past_before >= 0 && c->past_after >= 0;
    bool inside = c->past_before >= -c->before->length / 2 && c->past_after >= -c->after->length / 2;
    return outside || (inside && c->meets_near);
}

bool offset_trims_run(const struct offset_corner *c)
{
    return c->sine > 0 && c->meets_near && !offset_meets_in_reach(c);
}

struct offset_line offset_trimming_line(const struct offset_corner *c)
{
    const struct offset_side *narrow = c->before->dist > c->after->dist ? c->after : c->before;
    return (struct offset_line){ vec2_add(c->after->a, vec2_scale(narrow->out, narrow->dist)), narrow->out };
}

bool offset_run_ends(const struct offset_outline *o, size_t i, bool backwards)
{
    return o->corners[backwards ? i : offset_next(o, i)].kind != GEOMETRY_CORNER_MITRE;
}
