/* Where lines cross a cut along a page's side, and which of two pages' are the same line. */
#ifndef DRAWING_CROSSINGS_H
#define DRAWING_CROSSINGS_H

#include "drawing/tiling.h"

struct drawing_crossing {
    long look;
    double at;     /* beside the axis, mm from the page's origin */
    double dir[2]; /* length 1; along the axis above 0, beside it */
};

struct drawing_crossings {
    struct drawing_crossing *all; /* by look, then by place; lines drawn over each other once */
    size_t count;
};

struct drawing_match {
    size_t p, q;
};

/* Lines of a tile that cross the cut at `at` along the axis from its origin, near its low (0) or high (1) end. A cut at
 * or beyond what is seen of the sheet is crossed by lines that end there. In `a`. */
struct drawing_crossings drawing_cross(struct arena *a, const struct drawing_tiling *t, size_t tile, int axis, int end,
                                       double at);

/* Pairs of the same look and direction that lie within `tolerance_mm` of each other, square to the line, when q's are
 * moved by `offset`; each is in one pair at most. `out` has room for the fewer of both, or is NULL. How many. */
size_t drawing_match_crossings(const struct drawing_crossings *p, const struct drawing_crossings *q, double offset,
                               double tolerance_mm, struct drawing_match *out);

#endif
