/* Polygons for tests of paint: random ones that repeat, and areas by a second way. */
#ifndef TESTS_PAINT_POLYGON_H
#define TESTS_PAINT_POLYGON_H

#include "base/arena.h"
#include "geometry/path.h"

#include <stdint.h>

/* A number in [low, high), a multiple of 1/256; `seed` moves on. */
double polygon_random(uint64_t *seed, double low, double high);

/* A closed path in `a` of x, y pairs. */
struct geometry_path polygon_of(struct arena *a, const double *xy, size_t count);

/* Signed area of the part of a polygon inside the pixel (x, y): cut to four half planes in doubles, then the shoelace
 * formula. */
double polygon_area_in_pixel(struct geometry_path polygon, int x, int y);

/* How often the paths wind around a place (counter-clockwise counts up). */
int polygon_winding(const struct geometry_path *paths, size_t count, vec2 at);

#endif
