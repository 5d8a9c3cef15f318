#include "geometry/simple.h"

#include <float.h>
#include <math.h>
#include <stddef.h>

/* The ring is cut where it turns back in x (in y, among points of equal x) into chains that run one way. A chain cannot
 * cross itself; two of them are walked along together, side by side as they pass each other. A drawn outline has few
 * chains, so that this takes a few steps for each point and no sorting (the monotone chains of any sweep over lines,
 * see de Berg and others, Computational Geometry, 2008, chapter 3). */

enum {
    CHAINS_MOST = 64 /* a drawn outline has 2 to 20; beyond, the pairs of chains would take the time */
};

struct chain {
    size_t first, last; /* of the ring's points, counted on past its end */
    bool falls;         /* its order runs against the ring's */
    double low, high;   /* in y */
};

struct ring {
    const vec2 *points;
    size_t count;
    struct chain chains[CHAINS_MOST];
    size_t chain_count;
};

static vec2 point_of(const struct ring *r, size_t i)
{
    return r->points[i < r->count ? i : i - r->count];
}

/* In order of x and, where that is equal, of y: as if the plane were sheared by a hair, so that no side is upright. */
static bool is_before(vec2 a, vec2 b)
{
    return a.x < b.x || (a.x == b.x && a.y < b.y);
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

/* Not fmin and fmax, which are calls: this is what the time goes into. */
static double lower(double a, double b)
{
    return a < b ? a : b;
}

static double higher(double a, double b)
{
    return a > b ? a : b;
}

static bool are_surely_apart(vec2 a, vec2 b, vec2 c, vec2 d)
{
    if (higher(a.y, b.y) < lower(c.y, d.y) || higher(c.y, d.y) < lower(a.y, b.y))
        return true;
    return sure_side(a, b, c) * sure_side(a, b, d) > 0 || sure_side(c, d, a) * sure_side(c, d, b) > 0;
}

/* Whether two sides with one point in common have no other: a, joint and joint, b. */
static bool part_at(vec2 a, vec2 joint, vec2 b)
{
    return vec2_dot(vec2_sub(joint, a), vec2_sub(b, joint)) > 0 || sure_side(a, joint, b) != 0;
}

/* ---- Two chains ---- */

/* A walk up a chain: the side from the point `at` to the next one in order, `end`. */
struct walker {
    size_t at, end, last; /* up to the point `last` */
    bool falls;
    vec2 from, to;
};

static struct walker start_of(const struct ring *r, const struct chain *c)
{
    size_t at = c->falls ? c->last : c->first, end = c->falls ? at - 1 : at + 1;
    return (struct walker){ at, end, c->falls ? c->first : c->last, c->falls, point_of(r, at), point_of(r, end) };
}

static bool step(const struct ring *r, struct walker *w)
{
    if (w->end == w->last)
        return false;
    w->at = w->end;
    w->end = w->falls ? w->end - 1 : w->end + 1;
    w->from = w->to;
    w->to = point_of(r, w->end);
    return true;
}

static bool is_one_point(const struct ring *r, size_t i, size_t j)
{
    return i == j || i == j + r->count || j == i + r->count;
}

static bool clear_of_each_other(const struct ring *r, const struct walker *v, const struct walker *w)
{
    if (is_one_point(r, v->at, w->at))
        return part_at(v->to, v->from, w->to);
    if (is_one_point(r, v->end, w->end))
        return part_at(v->from, v->to, w->from);
    return are_surely_apart(v->from, v->to, w->from, w->to);
}

/* Walks up both and looks at every two sides that pass each other. */
static bool chains_are_apart(const struct ring *r, const struct chain *a, const struct chain *b)
{
    if (a->high < b->low || b->high < a->low)
        return true;
    struct walker v = start_of(r, a), w = start_of(r, b);
    bool more = true;
    while (more) {
        bool apart = is_before(v.to, w.from) || is_before(w.to, v.from);
        if (!apart && !clear_of_each_other(r, &v, &w))
            return false;
        more = is_before(v.to, w.to) ? step(r, &v) : step(r, &w);
    }
    return true;
}

static bool pairs_are_apart(const struct ring *r)
{
    for (size_t i = 0; i < r->chain_count; i++)
        for (size_t j = i + 1; j < r->chain_count; j++)
            if (!chains_are_apart(r, &r->chains[i], &r->chains[j]))
                return false;
    return true;
}

/* ---- The ring in chains ---- */

static void end_chain(struct ring *r, struct chain *c, size_t last)
{
    c->last = last;
    if (r->chain_count < CHAINS_MOST)
        r->chains[r->chain_count] = *c;
    r->chain_count++;
}

/* From the ring's lowest point in order all around; false when a point is there twice in a row or there are too many
 * chains. */
static bool cut_into_chains(struct ring *r)
{
    size_t lowest = 0;
    for (size_t i = 1; i < r->count; i++)
        if (is_before(r->points[i], r->points[lowest]))
            lowest = i;
    struct chain c = { lowest, lowest, false, r->points[lowest].y, r->points[lowest].y };
    for (size_t i = lowest; i < lowest + r->count; i++) {
        vec2 p = point_of(r, i), q = point_of(r, i + 1);
        bool falls = is_before(q, p);
        if (!falls && !is_before(p, q))
            return false;
        if (falls != c.falls) {
            end_chain(r, &c, i);
            c = (struct chain){ i, i, falls, p.y, p.y };
        }
        c.low = lower(c.low, q.y);
        c.high = higher(c.high, q.y);
    }
    end_chain(r, &c, lowest + r->count);
    return r->chain_count <= CHAINS_MOST;
}

/* Nothing times a number is nothing, and no number otherwise. */
static bool all_are_finite(struct geometry_path p)
{
    double nothing = 0;
    for (size_t i = 0; i < p.count; i++)
        nothing += 0 * p.points[i].x + 0 * p.points[i].y;
    return nothing == 0;
}

bool geometry_is_surely_simple(struct geometry_path p)
{
    struct ring r;
    r.points = p.points;
    r.count = p.count;
    r.chain_count = 0;
    return p.count >= 3 && all_are_finite(p) && cut_into_chains(&r) && pairs_are_apart(&r);
}
