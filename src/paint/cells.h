/* Inside paint: how much of each pixel is lit, in one band of rows: signed area accumulated cell by cell.
 *
 * A pixel shines from its own middle, wherever in it the line lay: with the plain area of pixels the middle of an
 * upright line of 1.5 px is up to 0.125 / 1.5 = 0.083 px off. So every pixel is the mean of two areas, one measured a
 * quarter pixel up and left of its place and one a quarter down and right. What moves the middle of a line's light is
 * how the picture of the line beats with the grid; only for upright and level lines does it (else the area of a square
 * averages it out), and the two parts beat in opposite phase. What is left is the beat with a grid of half pixels, a
 * quarter as large: at most 0.031 / width. Sides fade over 1.5 px at most, and a line two pixels wide stays full in
 * its middle. */
#ifndef PAINT_CELLS_H
#define PAINT_CELLS_H

#include "paint/edges.h"

#include <stdbool.h>

/* Shares of a pixel are told in steps of 1 / PAINT_WHOLE. */
enum { PAINT_WHOLE = 4096 };

struct paint_cells; /* one band; all dark when it is made */

/* For pictures of up to that width, 16383. Lives in `a`. */
struct paint_cells *paint_cells_create(struct arena *a, int most_width);

/* Empty cells are made ready for a picture of that width. */
void paint_cells_begin(struct paint_cells *c, int width);

/* Adds edges to the band. */
void paint_cells_add(struct paint_cells *c, const struct paint_parcel *parcel, enum paint_edge_kind kind);

/* Runs are at most so many pixels long, unless they are even. */
enum { PAINT_RUN_MOST = 8 };

struct paint_run {
    int first, end; /* pixels */
    bool even;      /* the first one's share in all of them */
};

struct paint_row {
    const uint16_t *shares; /* of each pixel in a run, 0..PAINT_WHOLE */
    const struct paint_run *runs;
    size_t count;
};

/* Sums a row of the band up: left to right, only where something may be lit. The shares are |sum of signed areas|, at
 * most whole: the non-zero rule, exact wherever no two polygons' edges share a pixel, while fewer than 512 polygons lie
 * on each other. The row is dark again afterwards; the answer lasts until the next. */
struct paint_row paint_cells_sweep(struct paint_cells *c, int row);

#endif
