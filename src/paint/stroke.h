/* A pen drawn along a path, as closed outlines to be filled: mitred joins up to a limit (then bevelled), square-cut
 * ends, dashes with their phase kept along the path. */
#ifndef PAINT_STROKE_H
#define PAINT_STROKE_H

#include "base/arena.h"
#include "geometry/path.h"
#include "paint/draw_list.h"

struct paint_outlines {
    struct geometry_path *paths; /* closed; the rings of one stroke wind once or more around what is lit, else not */
    size_t count, cap;
};

/* Adds the outlines of one stroked path; everything lives in `a`. Points closer than 1e-9 are one point; what is then
 * a single point draws nothing. Dashes: at a turn over 30° one lies half on each side, at an open end a whole one;
 * between these there is a whole number of periods, stretched or pressed (to two thirds at most) to fit, and where not
 * one fits no gap. */
void paint_stroke_outline(struct arena *a, struct geometry_path path, struct paint_pen pen, struct paint_outlines *out);

#endif
