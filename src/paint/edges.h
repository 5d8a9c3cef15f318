/* Inside paint: the edges of polygons, kept by the band of picture rows they come through. */
#ifndef PAINT_EDGES_H
#define PAINT_EDGES_H

#include "base/arena.h"

#include <stddef.h>
#include <stdint.h>

/* Corners are in 24.8 fixed point. A pixel is measured twice, a quarter pixel up and left of its place and a quarter
 * down and right (paint/cells.h), so edges count in rows a quarter beyond their own. */
enum { PAINT_SUBPIXEL = 256, PAINT_SHIFT = PAINT_SUBPIXEL / 4, PAINT_BAND_ROWS = 32 };

/* Edges are kept as far as this beside the picture; measured a quarter pixel to either side they are still outside. */
enum { PAINT_BESIDE = PAINT_SUBPIXEL / 2 };

/* Edges are kept as links of at most 6 px, downwards, so that both directions round alike and cancel to the last bit.
 * They are kept small, as they are too many for the processor's caches. */
enum { PAINT_LINKS = 32, PAINT_LINK_PX = 6 };

enum paint_edge_kind { PAINT_STEEP, PAINT_FLAT, PAINT_EDGE_KINDS };

/* Some links of one layer, one band and one kind; the next such parcel by number, or PAINT_NO_PARCEL. In 1/256 px. What
 * is behind the last link are links that light nothing, so that any number of them may be worked on. */
struct paint_parcel {
    uint32_t next, layer, count;
    int32_t x[PAINT_LINKS];                         /* of the upper end */
    int16_t y[PAINT_LINKS];                         /* of the upper end, from the band's top */
    int16_t across[PAINT_LINKS], down[PAINT_LINKS]; /* to the lower end; down > 0, and >= across where steep */
    int16_t sign[PAINT_LINKS];                      /* +1 where the polygon ran downwards, else -1 */
};

#define PAINT_NO_PARCEL UINT32_MAX

struct paint_edges {
    struct arena *arena;
    struct paint_parcel *parcels;
    size_t count, cap;
    uint32_t *first, *last; /* of each band and kind */
    int bands, height;      /* height in 1/256 px */
    int32_t left, right;    /* 1/256 px: no edge goes beyond */
};

/* For pictures of up to that many rows. Lives in `a`. */
struct paint_edges paint_edges_create(struct arena *a, int most_rows);

/* Forgets all edges and keeps the room. */
void paint_edges_begin(struct paint_edges *e, int width, int rows);

/* An edge from one corner to the next, in 1/256 px, at most 2^23 from 0. Layers come in rising order. What lies left
 * of the picture lights whole rows, what lies right of it nothing. */
void paint_edges_add(struct paint_edges *e, uint32_t layer, int32_t x, int32_t y, int32_t next_x, int32_t next_y);

static inline uint32_t paint_edges_first(const struct paint_edges *e, size_t band, enum paint_edge_kind kind)
{
    return e->first[band * PAINT_EDGE_KINDS + kind];
}

static inline const struct paint_parcel *paint_edges_parcel(const struct paint_edges *e, uint32_t number)
{
    return number == PAINT_NO_PARCEL ? NULL : &e->parcels[number];
}

/* Asks for a parcel before it is needed: they lie all over the memory. NULL is allowed. */
static inline void paint_edges_fetch(const struct paint_parcel *parcel)
{
    enum { CACHE_LINE = 64 };
    for (size_t at = 0; parcel && at < sizeof *parcel; at += CACHE_LINE)
        __builtin_prefetch((const char *)parcel + at);
}

#endif
