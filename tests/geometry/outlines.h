/* Outlines of every kind for the tests of offsets, the same on every run. */
#ifndef TESTS_GEOMETRY_OUTLINES_H
#define TESTS_GEOMETRY_OUTLINES_H

#include "base/arena.h"
#include "geometry/offset.h"

#include <stdint.h>

/* An outline with the allowance of every side and the rule of every corner. */
struct outline_case {
    struct geometry_path path;
    double *dist;
    struct geometry_corner *corners;
};

enum outline_kind {
    OUTLINE_CONVEX,  /* few corners, straight edges */
    OUTLINE_PIECE,   /* edges straight, hollow or round, in chords */
    OUTLINE_NOTCHED, /* the same with a tooth or a slit in some edges */
    OUTLINE_SPIKY,   /* a star of sharp and reflex corners */
    OUTLINE_KINDS
};

/* Counter-clockwise; does not cross itself (others are drawn again). One allowance an edge, of 0 to 40 mm, or `even` on
 * all of them where it is not below zero. The corners between edges are of all kinds, those within an edge mitred. */
struct outline_case outline_random(struct arena *a, uint64_t *seed, enum outline_kind kind, double even);

/* How far a place is from the nearest place of a closed path, mm. */
double outline_distance(struct geometry_path p, vec2 at);

#endif
