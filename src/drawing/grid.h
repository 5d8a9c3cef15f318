/* Which page lies where: every way that labels, numbers or the order of pages suggest is tried, and lines that go on
 * from page to page decide. */
#ifndef DRAWING_GRID_H
#define DRAWING_GRID_H

#include "drawing/signs.h"
#include "drawing/steps.h"

struct drawing_cell {
    int column, row; /* from the left, from the top; column DRAWING_NONE: it is not part of the sheet */
};

struct drawing_grid {
    enum drawing_joined how;
    struct drawing_cell *cells; /* of each tile */
    int columns, rows;
    const size_t *tiles;               /* for each cell (row × columns + column) its tile, or SIZE_MAX */
    double step[DRAWING_AXES];         /* between the origins of neighbours */
    size_t matched;                    /* lines that go on */
    size_t open;                       /* lines that run out of a page into another and do not go on there */
    size_t loose;                      /* and those that run out where no page is */
    const struct drawing_signs *signs; /* the labels it follows, or NULL */
    bool doubtful;
};

/* Finds the grid; false when the pages have nothing to do with each other. In the tiling's arena. */
bool drawing_find_grid(struct drawing_tiling *t, const struct drawing_twins *twins,
                       const struct drawing_pages_choice *choice, struct drawing_grid *out);

/* Fills `tiles` from cells, which are moved so that they begin at 0. False when they are too far apart, or two tiles
 * lie in one cell too often; the later of two is left out. In `a`. */
bool drawing_fill_grid(struct arena *a, const struct drawing_tiling *t, struct drawing_grid *g);

/* The tile beside one, after it along the axis (to its right, or above it) or before it; SIZE_MAX: none is. */
size_t drawing_tile_beside(const struct drawing_grid *g, size_t tile, int axis, bool after);

#endif
