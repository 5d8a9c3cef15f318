/* Exact coverage of pixels by polygons: signed area accumulated cell by cell, corners in 24.8 fixed point. */
#ifndef PAINT_COVERAGE_H
#define PAINT_COVERAGE_H

#include "base/arena.h"
#include "geometry/path.h"

#include <stddef.h>
#include <stdint.h>

enum { PAINT_SUBPIXEL = 256, PAINT_BAND_ROWS = 16 };

struct paint_coverage; /* the polygons of one layer */

/* An empty layer for a picture of that size, at most 32768 a side. Lives in `a`. */
struct paint_coverage *paint_coverage_create(struct arena *a, int width, int height);

/* Adds one closed polygon in px; it is not kept. Corners off the picture are allowed as far as 2^22 px. Two polygons
 * that share an edge meet without a seam. */
void paint_coverage_add(struct paint_coverage *c, struct geometry_path polygon);

/* One run of lit pixels in a row: coverage 0 (dark) to 65536 (full) of x = first + i is covered[i], i < count. Called
 * top to bottom, left to right, only where something is lit. */
typedef void paint_coverage_run(void *user, int y, int first, int count, const int32_t *covered);

/* Coverage of all polygons together by the non-zero rule, as |sum of signed areas| in each pixel, at most full: exact
 * wherever no two polygons' edges share a pixel. The layer is empty again afterwards. */
void paint_coverage_sweep(struct paint_coverage *c, paint_coverage_run *run, void *user);

#endif
