#include "paint/stroke.h"

#include "paint/dash.h"

#include <assert.h>

#define SAME_POINT 1e-9
#define MITRE_LIMIT 4.0

/* Why the winding is right. Take for each piece of the path the rectangle under the pen, and for each turn the wedge
 * that fills its outer side: all counter-clockwise, together exactly what is lit. The sum of their outlines is the ring
 * made here, if on the inner side of a turn the ring goes by the corner itself (the rectangles' ends cancel elsewhere).
 * So it winds around every lit place as often as rectangles and wedges lie on it, and around no other.
 *
 * A trimmed inner corner takes away the kite in which the two rectangles of the turn lie on each other; what it leaves
 * is lit at least once, as a place in n kites is in n + 1 rectangles. Two things could spoil that, and then the ring
 * goes by the corner: a rectangle too short to hold the kite; a closed path so small that a place may lie in all kites.
 */

struct ring {
    vec2 *points;
    size_t count;
};

static void put(struct ring *r, vec2 p)
{
    r->points[r->count++] = p;
}

/* What stays of the points when neighbours differ; at least one. */
static struct geometry_path tidy(struct arena *a, struct geometry_path in)
{
    struct geometry_path out = { base_arena_alloc(a, in.count, sizeof(vec2)), 0, in.closed };
    for (size_t i = 0; i < in.count; i++)
        if (!out.count || vec2_length(vec2_sub(in.points[i], out.points[out.count - 1])) > SAME_POINT)
            out.points[out.count++] = in.points[i];
    while (out.closed && out.count > 1 && vec2_length(vec2_sub(out.points[out.count - 1], out.points[0])) <= SAME_POINT)
        out.count--;
    out.closed = out.closed && out.count > 2; /* there and back is once there */
    return out;
}

/* The right side of the pen through one turn. The tip of the outer side and the corner of the inner side are the same
 * formula: both lie on the line that halves the turn. `room` is the larger side of a closed path's box: when a place
 * lies in all its kites, all its corners are as near to it as their kites are long. */
static void put_turn(struct ring *r, vec2 before, vec2 at, vec2 after, double half, double room)
{
    vec2 in = vec2_sub(at, before), out = vec2_sub(after, at);
    double in_length = vec2_length(in), out_length = vec2_length(out);
    in = vec2_scale(in, 1 / in_length);
    out = vec2_scale(out, 1 / out_length);
    double cosine = vec2_dot(in, out), sine = vec2_cross(in, out);
    vec2 right_in = vec2_scale(vec2_right(in), half), right_out = vec2_scale(vec2_right(out), half);
    bool inner = sine < 0, to_tip = (1 + cosine) * MITRE_LIMIT * MITRE_LIMIT >= 2; /* tip : half = 1 / cos half turn */
    if (inner) {
        double tangent = sqrt(fmax(1 - cosine, 0) / fmax(1 + cosine, 0)); /* of half the turn */
        double reach = half * fmax(tangent, -sine); /* how far the kite lies along its rectangles */
        to_tip = reach <= fmin(in_length, out_length) && 2 * half * sqrt(1 + tangent * tangent) < room;
    }
    if (to_tip) {
        put(r, vec2_add(at, vec2_scale(vec2_add(right_in, right_out), 1 / (1 + cosine))));
        return;
    }
    put(r, vec2_add(at, right_in));
    if (inner)
        put(r, at);
    put(r, vec2_add(at, right_out));
}

static void put_right_of(struct ring *r, vec2 at, vec2 from, vec2 to, double half)
{
    put(r, vec2_add(at, vec2_scale(vec2_right(vec2_unit(vec2_sub(to, from))), half)));
}

static void put_open_side(struct ring *r, struct geometry_path p, double half)
{
    put_right_of(r, p.points[0], p.points[0], p.points[1], half);
    for (size_t i = 1; i + 1 < p.count; i++)
        put_turn(r, p.points[i - 1], p.points[i], p.points[i + 1], half, INFINITY);
    put_right_of(r, p.points[p.count - 1], p.points[p.count - 2], p.points[p.count - 1], half);
}

static void put_closed_side(struct ring *r, struct geometry_path p, double half)
{
    struct geometry_box box = geometry_path_box(p);
    double room = fmax(box.max.x - box.min.x, box.max.y - box.min.y);
    for (size_t i = 0; i < p.count; i++)
        put_turn(r, p.points[(i + p.count - 1) % p.count], p.points[i], p.points[(i + 1) % p.count], half, room);
}

static struct ring ring_for(struct arena *a, size_t turns)
{
    return (struct ring){ base_arena_alloc(a, 3 * turns, sizeof(vec2)), 0 };
}

static void add_ring(struct arena *a, struct paint_outlines *out, struct ring r)
{
    out->paths = base_arena_grow(a, out->paths, &out->cap, out->count + 1, sizeof *out->paths);
    out->paths[out->count++] = (struct geometry_path){ r.points, r.count, true };
}

/* The left side is the right side of the path walked back. */
static void add_outline(struct arena *a, struct geometry_path p, double half, struct paint_outlines *out)
{
    if (p.count < 2)
        return;
    struct geometry_path back = geometry_path_copy(a, p);
    geometry_path_reverse(back);
    if (p.closed) {
        struct ring right = ring_for(a, p.count), left = ring_for(a, p.count);
        put_closed_side(&right, p, half);
        put_closed_side(&left, back, half);
        add_ring(a, out, right);
        add_ring(a, out, left);
    } else {
        struct ring around = ring_for(a, 2 * p.count);
        put_open_side(&around, p, half);
        put_open_side(&around, back, half);
        add_ring(a, out, around);
    }
}

void paint_stroke_outline(struct arena *a, struct geometry_path path, struct paint_pen pen, struct paint_outlines *out)
{
    assert(pen.width > 0);
    size_t count;
    struct geometry_path line = tidy(a, path);
    struct geometry_path *dashes = paint_dashes(a, line, pen, &count);
    for (size_t i = 0; i < count; i++)
        add_outline(a, tidy(a, dashes[i]), pen.width / 2, out);
}
