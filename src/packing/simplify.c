#include "packing/simplify.h"

/* Passes around the outline, each with twice the bound of the one before: what they add up to is the last bound twice.
 */
enum { PASSES = 14 };

static vec2 point(const struct geometry_path *p, size_t i)
{
    return p->points[i % p->count];
}

static double turn(const struct geometry_path *p, size_t i)
{
    vec2 before = vec2_sub(point(p, i), point(p, i + p->count - 1));
    return vec2_cross(before, vec2_sub(point(p, i + 1), point(p, i)));
}

static double distance_to_line(vec2 at, vec2 from, vec2 to)
{
    vec2 along = vec2_sub(to, from);
    double length = vec2_length(along);
    return length > 0 ? fabs(vec2_cross(along, vec2_sub(at, from))) / length : vec2_length(vec2_sub(at, from));
}

/* Whether a point in a hollow may go: the straight line over it lies outside. */
static bool can_fill(const struct geometry_path *p, size_t i, double most)
{
    return turn(p, i) <= 0 && distance_to_line(point(p, i), point(p, i + p->count - 1), point(p, i + 1)) <= most;
}

/* Whether the side from a point may go, when the sides before and after it are led on to where they meet. */
static bool can_sharpen(const struct geometry_path *p, size_t i, double most, vec2 *meet)
{
    vec2 from = point(p, i), to = point(p, i + 1);
    vec2 before = vec2_sub(from, point(p, i + p->count - 1)), after = vec2_sub(point(p, i + 2), to);
    double sine = vec2_cross(before, after);
    if (turn(p, i) <= 0 || turn(p, i + 1) <= 0 || sine <= 0)
        return false;
    double on = vec2_cross(vec2_sub(to, from), after) / sine;
    *meet = vec2_add(from, vec2_scale(before, on));
    return distance_to_line(*meet, from, to) <= most;
}

/* One pass, in place; the number of points that are left. Points beside a change stay for this pass, so that changes do
 * not heap. */
static size_t pass(struct geometry_path *p, double most)
{
    struct geometry_path in = *p;
    vec2 meet;
    size_t out = 0, i = 0;
    while (i < in.count) {
        size_t left = in.count - i;
        if (i > 0 && left > 1 && can_fill(&in, i, most)) {
            in.points[out++] = point(&in, i + 1);
            i += 2;
        } else if (i > 0 && left > 2 && can_sharpen(&in, i, most, &meet)) {
            in.points[out++] = meet;
            in.points[out++] = point(&in, i + 2);
            i += 3;
        } else {
            in.points[out++] = point(&in, i++);
        }
    }
    return out;
}

struct geometry_path simplify_outwards(struct arena *a, struct geometry_path p)
{
    vec2 where;
    if (p.count <= SIMPLIFY_POINTS)
        return p;
    struct geometry_path simple = geometry_path_copy(a, p);
    double size = sqrt(geometry_path_area(p)), share = SIMPLIFY_SHARE;
    for (int k = PASSES - 1; k >= 0 && simple.count > SIMPLIFY_POINTS; k--)
        simple.count = pass(&simple, size * ldexp(share, -k));
    for (; simple.count > SIMPLIFY_MOST_POINTS && share < SIMPLIFY_MOST_SHARE; share *= 2)
        simple.count = pass(&simple, size * share);
    return geometry_path_crosses_itself(simple, &where) ? p : simple;
}
