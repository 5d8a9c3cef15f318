/* Inside paint: the edges of polygons, kept by the band of picture rows they come through. */
#ifndef PAINT_EDGES_H
#define PAINT_EDGES_H

#include "base/arena.h"

#include <stddef.h>
#include <stdint.h>

/* Corners are in 24.8 fixed point. A pixel is measured twice, a quarter pixel up and left of its place and a quarter
 * down and right (paint/cells.h), so edges count in rows a quarter beyond their own. */
enum { PAINT_SUBPIXEL = 256, PAINT_SHIFT = PAINT_SUBPIXEL / 4, PAINT_BAND_ROWS = 16 };

/* Always downwards (y0 < y1), so that both directions of an edge round alike and cancel to the last bit. */
struct paint_edge {
    int32_t x0, y0, x1, y1; /* 1/256 px */
    int32_t sign;           /* +1 where the polygon ran downwards, else -1 */
};

enum { PAINT_EDGES_TOGETHER = 30 };

/* Some edges of one layer and one band; the next such parcel of the band by number, or PAINT_NO_PARCEL. */
struct paint_parcel {
    uint32_t next, layer, count;
    struct paint_edge edges[PAINT_EDGES_TOGETHER];
};

#define PAINT_NO_PARCEL UINT32_MAX

struct paint_edges {
    struct arena *arena;
    struct paint_parcel *parcels;
    size_t count, cap;
    uint32_t *first, *last; /* of each band */
    int bands, height;      /* height in 1/256 px */
};

/* For pictures of up to that many rows. Lives in `a`. */
struct paint_edges paint_edges_create(struct arena *a, int most_rows);

/* Forgets all edges and keeps the room. */
void paint_edges_begin(struct paint_edges *e, int rows);

/* An edge from one corner to the next, in 1/256 px, at most 2^23 from 0. Layers come in rising order. */
void paint_edges_add(struct paint_edges *e, uint32_t layer, int32_t x, int32_t y, int32_t next_x, int32_t next_y);

static inline const struct paint_parcel *paint_edges_parcel(const struct paint_edges *e, uint32_t number)
{
    return number == PAINT_NO_PARCEL ? NULL : &e->parcels[number];
}

#endif
