#include "paint/edges.h"

#include <assert.h>

enum { BAND = PAINT_BAND_ROWS * PAINT_SUBPIXEL };

static int bands_of(int rows)
{
    return (rows + PAINT_BAND_ROWS - 1) / PAINT_BAND_ROWS;
}

struct paint_edges paint_edges_create(struct arena *a, int most_rows)
{
    struct paint_edges e = { .arena = a };
    e.first = base_arena_alloc(a, (size_t)bands_of(most_rows), sizeof *e.first);
    e.last = base_arena_alloc(a, (size_t)bands_of(most_rows), sizeof *e.last);
    return e;
}

void paint_edges_begin(struct paint_edges *e, int rows)
{
    e->bands = bands_of(rows);
    e->height = rows * PAINT_SUBPIXEL;
    e->count = 0;
    for (int band = 0; band < e->bands; band++)
        e->first[band] = e->last[band] = PAINT_NO_PARCEL;
}

static struct paint_parcel *new_parcel(struct paint_edges *e, int band, uint32_t layer)
{
    e->parcels = base_arena_grow(e->arena, e->parcels, &e->cap, e->count + 1, sizeof *e->parcels);
    uint32_t number = (uint32_t)e->count++;
    if (e->last[band] == PAINT_NO_PARCEL)
        e->first[band] = number;
    else
        e->parcels[e->last[band]].next = number;
    e->last[band] = number;
    struct paint_parcel *parcel = &e->parcels[number];
    parcel->next = PAINT_NO_PARCEL;
    parcel->layer = layer;
    parcel->count = 0;
    return parcel;
}

static void add_to_band(struct paint_edges *e, int band, uint32_t layer, struct paint_edge edge)
{
    struct paint_parcel *parcel = e->last[band] == PAINT_NO_PARCEL ? NULL : &e->parcels[e->last[band]];
    assert(!parcel || parcel->layer <= layer);
    if (!parcel || parcel->layer != layer || parcel->count == PAINT_EDGES_TOGETHER)
        parcel = new_parcel(e, band, layer);
    parcel->edges[parcel->count++] = edge;
}

void paint_edges_add(struct paint_edges *e, uint32_t layer, int32_t x, int32_t y, int32_t next_x, int32_t next_y)
{
    struct paint_edge edge = { x, y, next_x, next_y, +1 };
    if (y == next_y)
        return;
    if (y > next_y)
        edge = (struct paint_edge){ next_x, next_y, x, y, -1 };
    int32_t top = edge.y0 - PAINT_SHIFT, bottom = edge.y1 + PAINT_SHIFT;
    if (bottom <= 0 || top >= e->height)
        return;
    int first = top > 0 ? top / BAND : 0, last = (bottom - 1) / BAND;
    for (int band = first; band <= last && band < e->bands; band++)
        add_to_band(e, band, layer, edge);
}
