#include "paint/clip.h"

#include <assert.h>

static size_t after(struct geometry_path p, size_t i)
{
    return i + 1 < p.count ? i + 1 : 0;
}

/* How far left of the side from a to b a point lies, times the side's length. */
static double left_of(vec2 a, vec2 b, vec2 p)
{
    return vec2_cross(vec2_sub(b, a), vec2_sub(p, a));
}

static bool all_left_of(struct geometry_path polygon, vec2 a, vec2 b)
{
    for (size_t i = 0; i < polygon.count; i++)
        if (left_of(a, b, polygon.points[i]) < 0)
            return false;
    return true;
}

/* Where a side crosses the line, from the inner end outwards, so that both directions of a side give the same bits. */
static vec2 crossing(vec2 inner, double inner_by, vec2 outer, double outer_by)
{
    return vec2_lerp(inner, outer, inner_by / (inner_by - outer_by));
}

static struct geometry_path keep_left_of(struct arena *a, struct geometry_path in, vec2 from, vec2 to)
{
    struct geometry_path out = { base_arena_alloc(a, 2 * in.count, sizeof(vec2)), 0, true };
    for (size_t i = 0; i < in.count; i++) {
        vec2 p = in.points[i], next = in.points[after(in, i)];
        double by = left_of(from, to, p), next_by = left_of(from, to, next);
        if (by >= 0)
            out.points[out.count++] = p;
        if (by >= 0 && next_by < 0)
            out.points[out.count++] = crossing(p, by, next, next_by);
        else if (by < 0 && next_by >= 0)
            out.points[out.count++] = crossing(next, next_by, p, by);
    }
    return out;
}

struct geometry_path paint_clip(struct arena *a, struct geometry_path polygon, struct geometry_path region)
{
    assert(region.count >= 3);
    for (size_t i = 0; i < region.count && polygon.count; i++) {
        vec2 from = region.points[i], to = region.points[after(region, i)];
        if (!all_left_of(polygon, from, to))
            polygon = keep_left_of(a, polygon, from, to);
    }
    return polygon.count >= 3 ? polygon : (struct geometry_path){ NULL, 0, true };
}
