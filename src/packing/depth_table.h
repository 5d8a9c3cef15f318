/* Depths of two outlines over each other for all shifts of the second: a grid of signed distances to the boundary of
 * the no-fit region, positive within. The grid answers at once what is deep within or well outside; near the boundary
 * the edges themselves are asked, so that contact is exact.
 *
 * Points are `step` apart. Those in a row are stored in `DEPTH_PHASES` runs, each of every DEPTH_PHASES-th point, so
 * that a coarser grid over the strip reads neighbours in memory wherever the outlines lie. */
#ifndef PACKING_DEPTH_TABLE_H
#define PACKING_DEPTH_TABLE_H

#include "packing/nofit.h"

enum { DEPTH_PHASES = 4 };

struct depth_table {
    double step, per_unit;
    vec2 origin;                /* of the first point */
    int columns, rows, run;     /* run: points in one phase of a row */
    float *depth;               /* rows x phases x run */
    int *first, *last;          /* of each row: columns between which depths are above zero; first > last: none is */
    int cells_across, cells_up; /* cells of DEPTH_CELL steps, each with the edges near it */
    unsigned *cell_first;       /* cells + 1 */
    unsigned *in_cell;
    const struct convolution_edge *edges;
    size_t edge_count;
    const struct nofit *nofit; /* the region itself, or that of -shift when turned */
    bool turned;
    double touch;
};

/* Steps along a cell's side. */
enum { DEPTH_CELL = 4 };

/* In `out`; the region stays where it is. */
struct depth_table *depth_table_of(struct arena *out, struct arena *scratch, const struct nofit *n, double step);

/* The table of the same outlines with both turned by half a turn, or in the other order: depths at -shift. */
struct depth_table *depth_table_turned(struct arena *out, struct arena *scratch, const struct depth_table *t);

/* Depth at a shift, 0 where they do not overlap: exact when it is less than half a step, else within a step's share. */
double depth_table_at(const struct depth_table *t, vec2 shift);

/* Edges within one step and a half of a shift, and some beyond; *count may be 0. */
const unsigned *depth_table_edges(const struct depth_table *t, vec2 shift, size_t *count);

/* How far the second outline can go from a shift in a direction (unit vector), at most `most`, before it overlaps the
 * first. */
double depth_table_ray(struct arena *scratch, const struct depth_table *t, vec2 shift, vec2 direction, double most);

/* Points that a table of a region would have. */
double depth_table_size(struct geometry_box box, double step);

static inline size_t depth_table_index(const struct depth_table *t, int column, int row)
{
    int phase = column & (DEPTH_PHASES - 1), place = column / DEPTH_PHASES;
    return ((size_t)row * DEPTH_PHASES + (size_t)phase) * (size_t)t->run + (size_t)place;
}

#endif
