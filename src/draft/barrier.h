/* A path that lines run up against: where they first meet it. Not for other folders. */
#ifndef DRAFT_BARRIER_H
#define DRAFT_BARRIER_H

#include "geometry/path.h"

/* Made once and met by many lines: most of the path is passed over in blocks of a few sides. */
struct draft_barrier {
    struct geometry_path path;
    const double *reach_mm; /* of each block, how far its sides come from its first point */
};

/* A path with at least one point; the blocks live in `a`. */
struct draft_barrier draft_barrier_of(struct arena *a, struct geometry_path path);

/* How far from `from` the line along the unit direction first meets the barrier, or a meeting no farther than
 * `near_enough`; infinitely far when it never does. */
double draft_way_to(const struct draft_barrier *barrier, vec2 from, vec2 direction, double near_enough);

/* Where it first meets it; `from` itself when it never does. */
vec2 draft_first_meeting(const struct draft_barrier *barrier, vec2 from, vec2 direction);

#endif
