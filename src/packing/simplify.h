/* Outlines of many points made simpler, outwards only: what lies clear of the simpler outline lies clear of the outline
 * itself. */
#ifndef PACKING_SIMPLIFY_H
#define PACKING_SIMPLIFY_H

#include "geometry/path.h"

/* Up to that many points an outline is left as it is. */
enum { SIMPLIFY_POINTS = 64 };

/* While an outline has more points than that its bound is doubled, up to SIMPLIFY_MOST_SHARE: a scalloped edge. */
enum { SIMPLIFY_MOST_POINTS = 160 };

/* Of the square root of an outline's area; about as far the simpler outline may lie outside: 0.15 mm for a piece of
 * half a metre. */
#define SIMPLIFY_SHARE 3e-4
#define SIMPLIFY_MOST_SHARE 1e-2

/* In `a`; the same outline when it has few points, or when it would cross itself. */
struct geometry_path simplify_outwards(struct arena *a, struct geometry_path p);

#endif
