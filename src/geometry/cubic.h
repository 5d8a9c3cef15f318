/* Cubic Bézier curves. */
#ifndef GEOMETRY_CUBIC_H
#define GEOMETRY_CUBIC_H

#include "base/arena.h"
#include "geometry/vec2.h"

#include <stddef.h>

struct geometry_cubic {
    vec2 p[4]; /* start, two controls, end */
};

vec2 geometry_cubic_at(struct geometry_cubic c, double t);

/* The unit direction it runs in there; null where it has none, as at an end whose control lies on it. */
vec2 geometry_cubic_direction(struct geometry_cubic c, double t);

/* How many equal steps of the parameter keep every chord within `tolerance_mm` of the curve, at least 1.
 * Bound: error <= |second derivative| / (8 n²), the second derivative of a cubic being largest at an end. */
size_t geometry_cubic_steps(struct geometry_cubic c, double tolerance_mm);

#endif
