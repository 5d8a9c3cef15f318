#include "geometry/offset_work.h"

#include <assert.h>
#include <math.h>

/* Whether the way from a to c needs no point at b: b falls onto a, lies in line with both, or ends a spike. */
static bool is_idle(vec2 a, vec2 b, vec2 c)
{
    const double near2 = OFFSET_NEAR_MM * OFFSET_NEAR_MM, straight2 = OFFSET_STRAIGHT_MM * OFFSET_STRAIGHT_MM;
    vec2 ab = vec2_sub(b, a), ac = vec2_sub(c, a);
    double cross = vec2_cross(ac, ab), length2 = vec2_dot(ac, ac);
    return vec2_dot(ab, ab) < near2 || length2 < near2 || cross * cross < straight2 * length2;
}

/* Takes idle points out, in place. Each point is judged against the last one kept, and that one again when its next
 * neighbour changes. */
struct geometry_path offset_cleaned(struct geometry_path ring)
{
    size_t kept = 0;
    for (size_t i = 0; i < ring.count; i++) {
        vec2 p = ring.points[i];
        while (kept >= 2 && is_idle(ring.points[kept - 2], ring.points[kept - 1], p))
            kept--;
        ring.points[kept++] = p;
    }
    /* The same round the seam. */
    size_t first = 0;
    bool again = true;
    while (again && kept - first > 3) {
        if (is_idle(ring.points[kept - 2], ring.points[kept - 1], ring.points[first]))
            kept--;
        else if (is_idle(ring.points[kept - 1], ring.points[first], ring.points[first + 1]))
            first++;
        else
            again = false;
    }
    return (struct geometry_path){ ring.points + first, kept - first, true };
}

/* The ring counter-clockwise from its leftmost point, of several such the lowest: the same whatever order GEOS uses. */
static struct geometry_path ordered(struct arena *a, struct geometry_path ring)
{
    if (geometry_path_area(ring) < 0)
        geometry_path_reverse(ring);
    size_t first = 0;
    for (size_t i = 1; i < ring.count; i++) {
        vec2 p = ring.points[i], q = ring.points[first];
        if (p.x < q.x || (p.x == q.x && p.y < q.y))
            first = i;
    }
    struct geometry_path out = { base_arena_alloc(a, ring.count, sizeof(vec2)), ring.count, true };
    for (size_t i = 0, from = first; i < ring.count; i++, from = from + 1 < ring.count ? from + 1 : 0)
        out.points[i] = ring.points[from];
    return out;
}

/* The grown outline; empty when there is no telling. */
static struct geometry_path grown(struct arena *a, struct geometry_path in, const double *dist_mm,
                                  const struct geometry_corner *corners)
{
    struct offset_outline o = offset_sides(a, in, dist_mm, corners);
    if (o.count < 3)
        return (struct geometry_path){ NULL, 0, true };
    offset_find_tips(a, &o);
    struct geometry_path ring = offset_join(a, &o);
    return ring.count >= 3 ? ring : offset_cleaned(offset_unite(a, in, &o));
}

bool geometry_offset(struct arena *a, struct geometry_path in, const double *dist_mm,
                     const struct geometry_corner *corners, struct geometry_path *out)
{
    vec2 crossing;
    *out = (struct geometry_path){ NULL, 0, true };
    if (in.count < 3 || geometry_path_area(in) == 0 || geometry_path_crosses_itself(in, &crossing))
        return false;
    assert(in.closed && geometry_path_area(in) > 0);
    struct arena *work = base_arena_create();
    struct geometry_path ring = grown(work, in, dist_mm, corners);
    /* Corners of so many kinds so near to each other that they leave nothing to unite. */
    if (ring.count < 3 && corners)
        ring = grown(work, in, dist_mm, NULL);
    if (ring.count >= 3)
        *out = ordered(a, ring);
    base_arena_destroy(work);
    return out->count > 0;
}
