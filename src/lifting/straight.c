#include "lifting/straight.h"

#include <assert.h>

#define STRAIGHT_MM 0.15
#define CORNER 0.1 /* sine of the angle at a corner */

enum { RUN_MOST = 500 }; /* points on one edge */

static vec2 way_of(vec2 a, vec2 b)
{
    return vec2_unit(vec2_sub(b, a));
}

/* A corner to begin at, so that no edge is parted by the start. */
static size_t first_corner(struct geometry_path p)
{
    for (size_t k = 0; k < p.count; k++) {
        vec2 before = p.points[(k + p.count - 1) % p.count], at = p.points[k], next = p.points[(k + 1) % p.count];
        if (fabs(vec2_cross(way_of(before, at), way_of(at, next))) > CORNER)
            return k;
    }
    return 0;
}

static double off_line(vec2 at, vec2 a, vec2 b)
{
    return fabs(vec2_cross(way_of(a, b), vec2_sub(at, a)));
}

/* The end of the straight part from the k-th point behind `start` on. */
static size_t straight_until(struct geometry_path p, size_t start, size_t k)
{
    assert(p.count > 0);
    vec2 from = p.points[(start + k) % p.count];
    size_t end = k + 1;
    for (; end < p.count && end - k < RUN_MOST; end++) {
        vec2 next = p.points[(start + end + 1) % p.count];
        for (size_t i = k + 1; i <= end; i++)
            if (off_line(p.points[(start + i) % p.count], from, next) > STRAIGHT_MM)
                return end;
    }
    return end;
}

bool lifting_next_edge(struct geometry_path p, size_t *cursor, vec2 *from, vec2 *to)
{
    if (p.count == 0 || *cursor >= p.count)
        return false;
    size_t start = first_corner(p), end = straight_until(p, start, *cursor);
    *from = p.points[(start + *cursor) % p.count];
    *to = p.points[(start + end) % p.count];
    *cursor = end;
    return true;
}
