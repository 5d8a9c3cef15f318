/* Where the light of a painted straight line is, measured as an eye or a camera would: the middle of its light. */
#ifndef TESTS_BENCH_LINE_PLACE_H
#define TESTS_BENCH_LINE_PLACE_H

#include "geometry/map.h"
#include "paint/image.h"

/* A straight line on the table. */
struct line_place {
    struct table_pt middle;  /* where it is measured, mm */
    double along_x, along_y; /* unit direction */
};

/* How far off the line's true middle the middle of the light lies, straight across the line in px; NAN where all is
 * dark.
 *
 * The middle is that of the lit table: every pixel counts with its linear light (mean of the channels) times the table
 * area it lights, as if at the pixel's middle, and with a window cos² along the line, 64 px from dark to dark (32 px
 * wide at half its height). Distances are measured on the table, through the map, and turned to px with the scale at
 * the line's middle. (Light alone, without the area, would in steep perspective put even a faultless line's middle off
 * its edges' middle.) Only pixels within `reach_px` of the line count. */
struct px_pt line_place_off(const struct paint_image *image, const struct geometry_map *map, struct line_place line,
                            double reach_px);

#endif
