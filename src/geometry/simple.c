#include "geometry/simple.h"

#include <float.h>
#include <math.h>
#include <stddef.h>

/* The ring is cut where it turns back in x or in y into chains that run one way in both. A chain cannot cross itself,
 * and the box of any stretch of it is spanned by that stretch's two ends: two chains are halved again and again where
 * their boxes meet, down to the few pairs of sides that come near each other (the monotone chains of any sweep over
 * lines, see de Berg and others, Computational Geometry, 2008, chapter 3). */

enum {
    CHAINS_MOST = 256 /* a drawn outline has 4 to 30; beyond, the pairs of chains would take the time */
};

struct ring {
    const vec2 *points;
    size_t count;
    size_t starts[CHAINS_MOST + 1]; /* the point that each chain begins at, and after the last chain `count` */
    size_t chain_count;
};

/* A chain or part of it, from one of the ring's points to a later one; the point `count` is the first. */
struct stretch {
    size_t first, last;
};

static vec2 point_of(const struct ring *r, size_t i)
{
    return r->points[i < r->count ? i : 0];
}

/* ---- Two sides ---- */

/* Twice the area of a, b, p where its sign is beyond doubt, else 0. The bound is Shewchuk's (Adaptive Precision
 * Floating-Point Arithmetic and Fast Robust Geometric Predicates, 1997): (3 + 16 e) e of the two products, e = 2^-53.
 */
static double sure_side(vec2 a, vec2 b, vec2 p)
{
    double left = (a.x - p.x) * (b.y - p.y), right = (a.y - p.y) * (b.x - p.x);
    double twice = left - right;
    return fabs(twice) > 2 * DBL_EPSILON * (fabs(left) + fabs(right)) ? twice : 0;
}

static bool are_surely_apart(vec2 a, vec2 b, vec2 c, vec2 d)
{
    return sure_side(a, b, c) * sure_side(a, b, d) > 0 || sure_side(c, d, a) * sure_side(c, d, b) > 0;
}

/* Whether two sides with one point in common have no other: a, joint and joint, b. */
static bool part_at(vec2 a, vec2 joint, vec2 b)
{
    return vec2_dot(vec2_sub(joint, a), vec2_sub(b, joint)) > 0 || sure_side(a, joint, b) != 0;
}

/* The sides from those two points on. */
static bool clear_of_each_other(const struct ring *r, size_t i, size_t j)
{
    vec2 a = point_of(r, i), b = point_of(r, i + 1), c = point_of(r, j), d = point_of(r, j + 1);
    if (i + 1 == j || (j == 0 && i + 1 == r->count))
        return part_at(a, b, d);
    if (j + 1 == i || (i == 0 && j + 1 == r->count))
        return part_at(c, a, b);
    return are_surely_apart(a, b, c, d);
}

/* ---- Two chains ---- */

/* Not fmin and fmax, which are calls: this is what the time goes into. */
static double lower(double a, double b)
{
    return a < b ? a : b;
}

static double higher(double a, double b)
{
    return a > b ? a : b;
}

/* Whether the boxes spanned by two stretches have no point in common. */
static bool boxes_are_apart(const struct ring *r, struct stretch s, struct stretch t)
{
    vec2 a = point_of(r, s.first), b = point_of(r, s.last), c = point_of(r, t.first), d = point_of(r, t.last);
    double left = higher(lower(a.x, b.x), lower(c.x, d.x)), right = lower(higher(a.x, b.x), higher(c.x, d.x));
    double bottom = higher(lower(a.y, b.y), lower(c.y, d.y)), top = lower(higher(a.y, b.y), higher(c.y, d.y));
    return left > right || bottom > top;
}

/* Halves the one with more sides. A stretch without any is apart from everything. */
static bool stretches_are_apart(const struct ring *r, struct stretch s, struct stretch t)
{
    size_t sides = s.last - s.first, others = t.last - t.first;
    if (sides == 0 || others == 0 || boxes_are_apart(r, s, t))
        return true;
    if (sides == 1 && others == 1)
        return clear_of_each_other(r, s.first, t.first);
    if (sides < others)
        return stretches_are_apart(r, t, s);
    size_t middle = s.first + sides / 2;
    return stretches_are_apart(r, (struct stretch){ s.first, middle }, t) &&
           stretches_are_apart(r, (struct stretch){ middle, s.last }, t);
}

/* Whether a chain and the one that follows it have only the point between them in common. Halving would come down to
 * the sides on its two hands in many steps. */
static bool part_ways(const struct ring *r, struct stretch s, struct stretch t)
{
    size_t joint = s.last;
    return clear_of_each_other(r, joint - 1, joint) &&
           stretches_are_apart(r, (struct stretch){ s.first, joint - 1 }, t) &&
           stretches_are_apart(r, (struct stretch){ joint - 1, joint }, (struct stretch){ joint + 1, t.last });
}

static struct stretch chain(const struct ring *r, size_t i)
{
    return (struct stretch){ r->starts[i], r->starts[i + 1] };
}

static bool chains_are_apart(const struct ring *r)
{
    for (size_t i = 0; i + 1 < r->chain_count; i++) {
        if (!part_ways(r, chain(r, i), chain(r, i + 1)))
            return false;
        for (size_t j = i + 2; j < r->chain_count; j++)
            if (!stretches_are_apart(r, chain(r, i), chain(r, j)))
                return false;
    }
    return true;
}

/* ---- The ring in chains ---- */

/* False when a point is there twice in a row or is no number, or when there are too many chains. An upright or level
 * side counts as rising where it does not fall. */
static bool cut_into_chains(struct ring *r)
{
    int quarter = -1;
    r->chain_count = 0;
    for (size_t i = 0; i < r->count; i++) {
        vec2 way = vec2_sub(point_of(r, i + 1), r->points[i]);
        double squared = vec2_dot(way, way);
        int ahead = (way.x >= 0) + 2 * (way.y >= 0);
        if (!(squared > 0 && squared <= DBL_MAX))
            return false;
        if (ahead == quarter)
            continue;
        if (r->chain_count == CHAINS_MOST)
            return false;
        r->starts[r->chain_count++] = i;
        quarter = ahead;
    }
    r->starts[r->chain_count] = r->count;
    return true;
}

bool geometry_is_surely_simple(struct geometry_path p)
{
    struct ring r;
    r.points = p.points;
    r.count = p.count;
    return p.count >= 3 && cut_into_chains(&r) && chains_are_apart(&r);
}
