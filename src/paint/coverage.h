/* Exact coverage of pixels by polygons: signed area accumulated cell by cell, corners in 24.8 fixed point. */
#ifndef PAINT_COVERAGE_H
#define PAINT_COVERAGE_H

#include "base/arena.h"
#include "geometry/path.h"

#include <stddef.h>
#include <stdint.h>

enum { PAINT_SUBPIXEL = 256, PAINT_BAND_ROWS = 16 };

struct paint_coverage; /* the polygons of one layer */

/* An empty layer for a picture of that size, at most 16384 a side. */
struct paint_coverage *paint_coverage_create(struct arena *a, int width, int height);

/* Adds one closed polygon in px. Corners off the picture are allowed as far as 2^22 px. */
void paint_coverage_add(struct paint_coverage *c, struct geometry_path polygon);

/* One row's coverage, 0 (dark) to 65536 (full), for x from `first` to before `end`. Called top to bottom, row after row,
 * only where something is lit. */
typedef void paint_coverage_row(void *user, int y, int first, int end, const int32_t *covered);

void paint_coverage_sweep(struct paint_coverage *c, paint_coverage_row *row, void *user);

#endif
