/* Depths of two outlines over each other for all shifts of the second: a grid of signed distances to the boundary of
 * the no-fit region, positive within. The grid answers at once what is deep within or well outside; near the boundary
 * the edges themselves are asked, so that contact is exact.
 *
 * What an overlap counts in the search grows faster than its depth: d (1 + d / bend). Were it the depth alone, one
 * large item deep over another would be as good as many slightly over each other, and the search would carry the large
 * one about instead of making room for it.
 *
 * Beside the depths what they count is kept roughly, a byte each, for maps of the whole strip: that of every
 * DEPTH_PHASES-th point across and up lies together in a block of its own, so that a coarser grid over the strip reads
 * one block from end to end wherever the outlines lie. */
#ifndef PACKING_DEPTH_TABLE_H
#define PACKING_DEPTH_TABLE_H

#include "packing/nofit.h"

#include <stdint.h>

enum { DEPTH_PHASES = 4, DEPTH_LANES = 8 };

struct depth_table {
    double step, per_unit;
    vec2 origin; /* of the first point */
    int columns, rows;
    int16_t *depth; /* rows x columns, in units of `unit` */
    double unit;
    uint8_t *
        rough; /* DEPTH_PHASES x DEPTH_PHASES blocks of block_rows x block_columns, in units of rough_unit; 0 outside */
    float rough_unit;
    int block_columns, block_rows; /* columns are a multiple of DEPTH_LANES, with as many zeros after them at the end */
    int cells_across, cells_up;    /* cells of DEPTH_CELL steps, each with the edges near it */
    unsigned *cell_first;          /* cells + 1 */
    unsigned *in_cell;
    const struct convolution_edge *edges;
    size_t edge_count;
    const struct nofit *nofit; /* the region itself, or that of -shift when turned */
    bool turned;
    double touch;
    double bend; /* the depth that counts twice */
};

/* Steps along a cell's side. */
enum { DEPTH_CELL = 4 };

/* In `out`; the region stays where it is. */
struct depth_table *depth_table_of(struct arena *out, struct arena *scratch, const struct nofit *n, double step,
                                   double bend);

/* The table of the same outlines with both turned by half a turn, or in the other order: depths at -shift. */
struct depth_table *depth_table_turned(struct arena *out, struct arena *scratch, const struct depth_table *t);

/* What the overlap at a shift counts, 0 where there is none: of the exact depth when that is less than half a step,
 * else of one within a step's share. */
double depth_table_overlap(const struct depth_table *t, vec2 shift);

/* Edges within one step and a half of a shift, and some beyond; *count may be 0. */
const unsigned *depth_table_edges(const struct depth_table *t, vec2 shift, size_t *count);

/* How far the second outline can go from a shift in a direction (unit vector), at most `most`, before it overlaps the
 * first. */
double depth_table_ray(struct arena *scratch, const struct depth_table *t, vec2 shift, vec2 direction, double most);

/* Points that a table of a region would have. */
double depth_table_size(struct geometry_box box, double step);

/* Where what a point counts roughly is. */
static inline size_t depth_table_rough(const struct depth_table *t, int column, int row)
{
    int block = (row % DEPTH_PHASES) * DEPTH_PHASES + column % DEPTH_PHASES;
    int line = block * t->block_rows + row / DEPTH_PHASES;
    return (size_t)line * (size_t)t->block_columns + (size_t)(column / DEPTH_PHASES);
}

/* The block of every DEPTH_PHASES-th point from one of the first on. */
static inline const uint8_t *depth_table_block(const struct depth_table *t, int column, int row)
{
    return t->rough + depth_table_rough(t, column, row);
}

#endif
