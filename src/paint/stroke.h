/* A pen drawn along a path, as closed outlines to be filled: mitred joins up to a limit (then bevelled), square-cut ends,
 * dashes with their phase kept along the path. */
#ifndef PAINT_STROKE_H
#define PAINT_STROKE_H

#include "base/arena.h"
#include "geometry/path.h"
#include "paint/draw_list.h"

struct paint_outlines {
    struct geometry_path *paths; /* closed; non-zero rule, each with positive winding where it is lit */
    size_t count, cap;
};

/* Adds the outlines of one stroked path; everything lives in `a`. Points closer than 1e-9 are one point. */
void paint_stroke_outline(struct arena *a, struct geometry_path path, struct paint_pen pen, struct paint_outlines *out);

#endif
