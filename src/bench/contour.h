/* Lines of equal height through numbers on a grid. */
#ifndef BENCH_CONTOUR_H
#define BENCH_CONTOUR_H

#include "base/arena.h"
#include "geometry/vec2.h"

#include <stdbool.h>
#include <stddef.h>

/* In columns and rows of the grid, both from 0. */
struct bench_contour {
    vec2 *points;
    size_t count;
    bool closed; /* else it ends at the grid's edge */
};

struct bench_contours {
    struct bench_contour *items;
    size_t count;
};

/* Where the heights, row after row of finite numbers, cross a level: linear between neighbours (marching squares after
 * Lorensen and Cline, 1987, in the plane; at a saddle, by the mean of its four corners). A height that is the level
 * counts as above it. Lives in `a`. */
struct bench_contours bench_contours_of(struct arena *a, const double *heights, size_t columns, size_t rows,
                                        double level);

#endif
