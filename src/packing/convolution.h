/* The convolution of an outline with another one turned by half a turn: the closed curve whose winding number at a
 * shift tells into how many parts the first and the second outline, shifted, meet. Not the boundary of anything yet:
 * nofit.h takes that out of it.
 *
 * Guibas, Ramshaw, Stolfi, "A kinetic framework for computational geometry" (1983): every side of one outline at every
 * corner of the other whose turn passes the side's direction, backwards where the corner turns to the right. For two
 * outlines without holes the winding number is the number of parts of what they share. */
#ifndef PACKING_CONVOLUTION_H
#define PACKING_CONVOLUTION_H

#include "base/arena.h"
#include "geometry/path.h"

struct convolution_edge {
    vec2 from, to;
};

/* Edges in no order; together they are closed. Rows of equal height over the box list the edges that reach into each,
 * so that a winding number looks at few of them. */
struct convolution {
    struct convolution_edge *edges;
    size_t count;
    struct geometry_box box;
    bool convex; /* neither outline turns right: the edges are the boundary themselves */
    size_t rows;
    double rows_per_unit;
    size_t *row_first; /* rows + 1 */
    unsigned *in_row;
};

/* Of shifts of `b` against `a`; both counter-clockwise, simple, at least three points. In `out`. */
struct convolution convolution_of(struct arena *out, struct arena *scratch, struct geometry_path a,
                                  struct geometry_path b);

/* Points on the curve go either way. */
int convolution_winding(const struct convolution *c, vec2 at);

#endif
