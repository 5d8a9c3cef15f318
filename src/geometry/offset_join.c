#include "geometry/offset_work.h"

#include "geometry/simple.h"

#include <math.h>

/* Between the outline and the tips in a row lies one tile for each side, from the side out to its cut line, and one for
 * each corner that needs it; neighbouring tiles share an edge. Every tile that runs the right way round covers its
 * points once. The boundaries of the piece and of all tiles add up to the ring of tips, so how often that ring winds
 * about a point is how many of them cover it: where it winds at most once, which is to say where it is simple, what is
 * inside is their union, and no tile lies on another. */

/* Whether each tip takes up the side on which the one before it left off, further on along it. */
static bool runs_on(const struct offset_outline *o, const struct offset_tip *tip, const struct offset_tip *next)
{
    vec2 along = o->sides[tip->after].along;
    return tip->after == next->before && vec2_dot(vec2_sub(next->from, tip->to), along) >= 0;
}

/* Marks the corners between sides that a tip has taken all of; false when two tips want the same. */
static bool swallow(const struct offset_outline *o, size_t corner, bool *swallowed)
{
    const struct offset_tip *tip = &o->tips[corner];
    size_t first = offset_next(o, tip->before), last = tip->after;
    for (size_t i = first;; i = offset_next(o, i)) {
        if (i != corner && swallowed[i])
            return false;
        swallowed[i] = i != corner;
        if (i == last)
            return true;
    }
}

static bool find_swallowed(const struct offset_outline *o, bool *swallowed)
{
    for (size_t i = 0; i < o->count; i++) {
        const struct offset_tip *tip = &o->tips[i];
        bool alone = tip->after == i && offset_next(o, tip->before) == i;
        if (!tip->is_clear || (!alone && !swallow(o, i, swallowed)))
            return false;
    }
    return true;
}

static void put_tip(struct geometry_path *ring, const struct offset_tip *tip)
{
    ring->points[ring->count++] = tip->from;
    for (int i = 1; tip->shape && i + 1 < tip->shape->count; i++)
        ring->points[ring->count++] = tip->shape->points[i];
    if (tip->to.x != tip->from.x || tip->to.y != tip->from.y)
        ring->points[ring->count++] = tip->to;
}

static size_t most_points(const struct offset_outline *o)
{
    size_t most = 0;
    for (size_t i = 0; i < o->count; i++)
        most += 2 + (o->tips[i].shape ? (size_t)o->tips[i].shape->count : 0);
    return most;
}

struct geometry_path offset_join(struct arena *a, const struct offset_outline *o)
{
    const struct geometry_path none = { NULL, 0, true };
    struct geometry_path ring = { base_arena_alloc(a, most_points(o), sizeof(vec2)), 0, true };
    bool *swallowed = base_arena_alloc(a, o->count, sizeof *swallowed);
    if (!find_swallowed(o, swallowed))
        return none;
    const struct offset_tip *first = NULL, *last = NULL;
    for (size_t i = 0; i < o->count; i++) {
        if (swallowed[i])
            continue;
        if (last && !runs_on(o, last, &o->tips[i]))
            return none;
        last = &o->tips[i];
        first = first ? first : last;
        put_tip(&ring, last);
    }
    if (!first || !runs_on(o, last, first))
        return none;
    ring = offset_cleaned(ring);
    return geometry_is_surely_simple(ring) ? ring : none;
}
