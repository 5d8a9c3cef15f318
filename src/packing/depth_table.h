/* Depths of two outlines over each other for all shifts of the second: a grid of signed distances to the boundary of
 * the no-fit region, positive within. The grid answers at once what is deep within or well outside; near the boundary
 * the sides themselves are asked, so that contact is exact.
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

/* An edge of the boundary, ready for distances. */
struct depth_side {
    vec2 from, unit;
    double length;
};

/* What the points count, roughly. Small, since a map asks one of each item. */
struct depth_rough {
    uint8_t *points;   /* DEPTH_PHASES x DEPTH_PHASES blocks of rows x columns, in units of `unit`; 0 outside */
    double left, low;  /* of the first point, in steps */
    int columns, rows; /* columns are a multiple of DEPTH_LANES, with as many zeros after them at the end */
    float unit;
};

struct depth_table {
    double step, per_unit;
    vec2 origin; /* of the first point */
    int columns, rows;
    double last_column, last_row;
    int16_t *depth; /* rows x columns, in units of `unit` */
    double unit;
    struct depth_rough rough;
    int cells_across, cells_up; /* cells of DEPTH_CELL steps, each with the sides near it */
    unsigned *cell_first;       /* cells + 1 */
    unsigned *in_cell;
    const struct depth_side *sides;
    size_t side_count;
    const struct nofit *nofit; /* the region itself, or that of -shift when turned */
    bool turned;
    double touch;
    double bend; /* the depth that counts twice */
};

/* Steps along a cell's side; units of depth in a step, and up to which a point is well outside. */
enum { DEPTH_CELL = 2, DEPTH_UNITS = 64, DEPTH_OUTSIDE = -DEPTH_UNITS * 3 / 4 };

/* In `out`; the region stays where it is. */
struct depth_table *depth_table_of(struct arena *out, struct arena *scratch, const struct nofit *n, double step,
                                   double bend);

/* The table of the same outlines with both turned by half a turn, or in the other order: depths at -shift. */
struct depth_table *depth_table_turned(struct arena *out, struct arena *scratch, const struct depth_table *t);

/* What the overlap at a shift counts that lies there in columns and rows; what the nearest point says is more than
 * DEPTH_OUTSIDE. */
double depth_table_overlap_near(const struct depth_table *t, vec2 shift, double column, double row, int nearest);

/* What the overlap at a shift counts, 0 where there is none: of the exact depth when that is less than half a step,
 * else of one within a step's share. */
static inline double depth_table_overlap(const struct depth_table *t, vec2 shift)
{
    double column = (shift.x - t->origin.x) * t->per_unit, row = (shift.y - t->origin.y) * t->per_unit;
    if (!(column >= 1 && row >= 1 && column < t->last_column && row < t->last_row))
        return 0;
    int nearest = t->depth[(int)(row + 0.5) * t->columns + (int)(column + 0.5)];
    return nearest > DEPTH_OUTSIDE ? depth_table_overlap_near(t, shift, column, row, nearest) : 0;
}

/* Sides within one step and a half of a shift, and some beyond; *count may be 0. */
const unsigned *depth_table_sides(const struct depth_table *t, vec2 shift, size_t *count);

/* Squared distance of a point from a side; *left is how far it is to the left of the side's line. */
static inline double depth_side_square(const struct depth_side *s, vec2 at, double *left)
{
    double px = at.x - s->from.x, py = at.y - s->from.y;
    double along = px * s->unit.x + py * s->unit.y;
    double beyond = along < 0 ? along : along > s->length ? along - s->length : 0; /* fmin and fmax are calls */
    *left = s->unit.x * py - s->unit.y * px;
    return *left * *left + beyond * beyond;
}

/* How far the second outline can go from a shift in a direction (unit vector), at most `most`, before it overlaps the
 * first. */
double depth_table_ray(struct arena *scratch, const struct depth_table *t, vec2 shift, vec2 direction, double most);

/* Points that a table of a region would have. */
double depth_table_size(struct geometry_box box, double step);

/* Where what a point counts roughly is. */
static inline size_t depth_rough_place(const struct depth_rough *r, int column, int row)
{
    int block = (row % DEPTH_PHASES) * DEPTH_PHASES + column % DEPTH_PHASES;
    int line = block * r->rows + row / DEPTH_PHASES;
    return (size_t)line * (size_t)r->columns + (size_t)(column / DEPTH_PHASES);
}

#endif
