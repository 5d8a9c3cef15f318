/* Inside paint: what adding links to cells (paint/links.c) and sweeping them up (paint/cells.c) share. */
#ifndef PAINT_GRID_H
#define PAINT_GRID_H

#include "paint/cells.h"

/* Lengths are in units of 1/1024 px: areas, heights times twice mean distances, are whole numbers, and a pixel that is
 * full in both its measurements is 2 * 2^10 * 2^11. */
enum { PAINT_UNIT_BITS = 10, PAINT_UNIT = 1 << PAINT_UNIT_BITS };

/* Pixels whose light is worked out together. */
enum { PAINT_BLOCK = PAINT_RUN_MOST };

/* Columns before and behind the picture, for edges that PAINT_BESIDE cut off, and rows behind the band: pieces without
 * height may fall there. */
enum { PAINT_LEAD = 2 * PAINT_BLOCK, PAINT_TAIL = 2 * PAINT_BLOCK, PAINT_SPARE_ROWS = 3 };

struct paint_cells {
    int width;
    int blocks;             /* of a row */
    uint32_t *areas;        /* a row's running sum is the covered area; wraps like any sum of integers */
    unsigned char *touched; /* 1 for blocks in which anything was added, else 0 */
    uint16_t *list;         /* the touched blocks of one row */
    uint16_t *shares;       /* of that row's pixels */
    struct paint_run *runs; /* and its runs */
};

#endif
