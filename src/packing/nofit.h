/* The no-fit region of two outlines: the shifts of the second at which it overlaps the first. Its boundary is where
 * they touch; the distance to the boundary from within is how far they have to be shifted to part. */
#ifndef PACKING_NOFIT_H
#define PACKING_NOFIT_H

#include "packing/convolution.h"

/* Of the region's size; outlines that lie over each other by no more than that only touch. A square so laid loses
 * 4e-9 of its area; below it rounding of shifts would make neighbours that fit exactly overlap. */
#define NOFIT_TOUCH 1e-9

struct nofit {
    struct convolution convolution;
    struct convolution_edge *edges; /* of the boundary; the region lies to the left of each */
    size_t count;
    double touch; /* depth that still counts as none */
};

/* Lives in `out`. Outlines as convolution_of takes them. A slot into which the second fits exactly, without any play,
 * is not found. */
struct nofit nofit_of(struct arena *out, struct arena *scratch, struct geometry_path a, struct geometry_path b);

/* 0 outside and up to `touch` within, else the distance to the boundary; *nearest (may be NULL) is its place there. */
double nofit_depth(const struct nofit *n, vec2 at, vec2 *nearest);

/* How far one can go from `at` in a direction (unit vector), at most `most`, before the region begins. 0 within it. */
double nofit_ray(struct arena *scratch, const struct nofit *n, vec2 at, vec2 direction, double most);

/* The place on an edge nearest to `at`. */
vec2 nofit_on_edge(const struct convolution_edge *e, vec2 at);

#endif
