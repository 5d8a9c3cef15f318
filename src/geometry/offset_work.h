/* What the two ways to grow an outline share: its sides, the corners between them and where their cut lines end there.
 * For this folder alone. */
#ifndef GEOMETRY_OFFSET_WORK_H
#define GEOMETRY_OFFSET_WORK_H

#include "base/arena.h"
#include "geometry/offset.h"

#include <stdbool.h>
#include <stddef.h>

/* Points nearer than this are one point, in mm; a hundredth of what any reading of a length tells apart. It only has to
 * lie well above the rounding of coordinates of metres (1e-12) and well below what can be seen. */
#define OFFSET_NEAR_MM 1e-6

/* A point this near to the line through its neighbours is no corner but rounding, in mm. */
#define OFFSET_STRAIGHT_MM 1e-9

/* How deep a patch that ends on another's edge is let into it, in mm: edges that all but coincide are what unions in
 * floating point stumble over. Nothing of it shows, so it only has to lie well above rounding. */
#define OFFSET_OVERLAP_MM 1e-3

struct offset_side {
    vec2 a, b;
    vec2 along, out; /* unit vectors: a to b, and away from the piece */
    double length, dist;
};

/* A line by a point on it and its unit normal. */
struct offset_line {
    vec2 at, normal;
};

enum {
    OFFSET_SHAPE_MOST = 24 /* points of one corner: a mirrored curve's chords, and two ends */
};

/* A corner that is neither mitred nor clipped. */
struct offset_shape {
    bool hem_before;
    struct offset_line stitch;      /* the hem's; what lies above it of the other side's allowance is cut off */
    vec2 points[OFFSET_SHAPE_MOST]; /* the cut line's, along the outline */
    int count;
};

/* How the cut line passes a corner: along side `before` to `from`, on to `to` (by way of the shape's points, if there
 * is one), and along side `after`. The sides between those two have lost all of their cut line. */
struct offset_tip {
    vec2 from, to;
    size_t before, after;
    const struct offset_shape *shape; /* NULL: mitred or clipped */
    bool is_clear;                    /* false: only the union can tell */
};

/* Side i runs from corner i to corner i + 1. */
struct offset_outline {
    struct offset_side *sides;
    size_t *from; /* which side of the path each one is */
    struct geometry_corner *corners;
    struct offset_tip *tips;
    size_t count;
};

/* A corner between two sides. Everything is measured from its point. */
struct offset_corner {
    const struct offset_side *before, *after;
    enum geometry_corner_kind kind;
    double sine, cosine; /* of the turn from before to after; sine > 0 is convex */
    bool is_straight;
    /* Where the two grown lines meet, whether within the mitre limit, and how far past the end of either side, along
     * its grown line: minus infinity when they run beside each other. */
    vec2 meet;
    bool meets_near;
    double past_before, past_after;
};

size_t offset_next(const struct offset_outline *o, size_t i);
size_t offset_previous(const struct offset_outline *o, size_t i);

/* How far a point lies above a line. */
double offset_above(struct offset_line l, vec2 p);

/* The points without those that fall onto the one before, as sides, in `a`; no tips yet. */
struct offset_outline offset_sides(struct arena *a, struct geometry_path in, const double *dist_mm,
                                   const struct geometry_corner *corners);

struct offset_corner offset_corner_at(const struct offset_outline *o, size_t i);

/* The end of a side's grown line square to the side, moved on by `past` along the line. */
vec2 offset_end_of_before(const struct offset_corner *c, double past);
vec2 offset_start_of_after(const struct offset_corner *c, double past);

/* Whether a convex corner is cut off square to its bisector, and then where both grown lines end. */
bool offset_cuts_off(const struct offset_corner *c, vec2 *end_of_before, vec2 *start_of_after);

/* Whether both strips of a corner that is not reflex can end where their grown lines meet: past their ends or, before
 * those, where neither loses more than half of its side. The other half is left to its other end. */
bool offset_meets_in_reach(const struct offset_corner *c);

/* Whether the narrower side's grown line trims a run of the wider one's strips. */
bool offset_trims_run(const struct offset_corner *c);

/* The line that does it. */
struct offset_line offset_trimming_line(const struct offset_corner *c);

/* Whether a run of sides that is trimmed ends with side i: the corner at its far end has a rule of its own. */
bool offset_run_ends(const struct offset_outline *o, size_t i, bool backwards);

/* Finds where the cut line passes every corner (o->tips, in `a`). */
void offset_find_tips(struct arena *a, struct offset_outline *o);

/* The outer boundary of the piece and all its allowances by uniting them in GEOS; empty when there is no telling. */
struct geometry_path offset_unite(struct arena *a, struct geometry_path in, const struct offset_outline *o);

/* The same from the tips, one after the other, where that can be proved to be it; empty when it cannot. */
struct geometry_path offset_join(struct arena *a, const struct offset_outline *o);

/* Takes points out, in place, that lie in line with their neighbours or on one of them, and spikes. */
struct geometry_path offset_cleaned(struct geometry_path ring);

#endif
