#include "paint/edges.h"

#include <assert.h>
#include <stdbool.h>
#include <stdlib.h>

enum { BAND = PAINT_BAND_ROWS * PAINT_SUBPIXEL, LINK = PAINT_LINK_PX * PAINT_SUBPIXEL };

struct edge {
    int32_t x0, y0, x1, y1;
    int16_t sign;
};

static int bands_of(int rows)
{
    return (rows + PAINT_BAND_ROWS - 1) / PAINT_BAND_ROWS;
}

struct paint_edges paint_edges_create(struct arena *a, int most_rows)
{
    struct paint_edges e = { .arena = a };
    size_t chains = (size_t)bands_of(most_rows) * PAINT_EDGE_KINDS;
    e.first = base_arena_alloc(a, chains, sizeof *e.first);
    e.last = base_arena_alloc(a, chains, sizeof *e.last);
    return e;
}

void paint_edges_begin(struct paint_edges *e, int width, int rows)
{
    e->left = -PAINT_BESIDE;
    e->right = width * PAINT_SUBPIXEL + PAINT_BESIDE;
    e->bands = bands_of(rows);
    e->height = rows * PAINT_SUBPIXEL;
    e->count = 0;
    for (int chain = 0; chain < e->bands * PAINT_EDGE_KINDS; chain++)
        e->first[chain] = e->last[chain] = PAINT_NO_PARCEL;
}

/* Links that light nothing: just under a band, in both measurements. */
static void fill_with_nothing(struct paint_parcel *parcel)
{
    for (int i = 0; i < PAINT_LINKS; i++) {
        parcel->x[i] = 0;
        parcel->y[i] = BAND + PAINT_SHIFT;
        parcel->across[i] = parcel->down[i] = 1;
        parcel->sign[i] = 0;
    }
}

static struct paint_parcel *new_parcel(struct paint_edges *e, size_t chain, uint32_t layer)
{
    e->parcels = base_arena_grow(e->arena, e->parcels, &e->cap, e->count + 1, sizeof *e->parcels);
    uint32_t number = (uint32_t)e->count++;
    if (e->last[chain] == PAINT_NO_PARCEL)
        e->first[chain] = number;
    else
        e->parcels[e->last[chain]].next = number;
    e->last[chain] = number;
    struct paint_parcel *parcel = &e->parcels[number];
    parcel->next = PAINT_NO_PARCEL;
    parcel->layer = layer;
    parcel->count = 0;
    fill_with_nothing(parcel);
    return parcel;
}

/* An edge that is no longer than a link; level ones light nothing. */
static inline void add_link(struct paint_edges *e, uint32_t layer, struct edge edge)
{
    int32_t top = edge.y0 - PAINT_SHIFT, bottom = edge.y1 + PAINT_SHIFT;
    if (edge.y0 == edge.y1 || bottom <= 0 || top >= e->height)
        return;
    int32_t across = edge.x1 - edge.x0, down = edge.y1 - edge.y0;
    size_t kind = abs(across) > down ? PAINT_FLAT : PAINT_STEEP;
    int first = top > 0 ? top / BAND : 0, last = (bottom - 1) / BAND;
    for (int band = first; band <= last && band < e->bands; band++) {
        size_t chain = (size_t)band * PAINT_EDGE_KINDS + kind;
        struct paint_parcel *p = e->last[chain] == PAINT_NO_PARCEL ? NULL : &e->parcels[e->last[chain]];
        if (!p || p->layer != layer || p->count == PAINT_LINKS)
            p = new_parcel(e, chain, layer);
        uint32_t i = p->count++;
        p->x[i] = edge.x0;
        p->y[i] = (int16_t)(edge.y0 - band * BAND);
        p->across[i] = (int16_t)across;
        p->down[i] = (int16_t)down;
        p->sign[i] = edge.sign;
    }
}

/* Part / whole of a length, to the nearest 1/256 px. */
static int32_t share_of(int32_t length, int32_t part, int32_t all)
{
    int64_t twice = 2 * (int64_t)length * part;
    return (int32_t)((twice + (length < 0 ? -all : all)) / (2 * (int64_t)all));
}

/* Links' ends are rounded to 1/256 px, counted from the edge's upper end. */
static void add_long(struct paint_edges *e, uint32_t layer, struct edge edge, int32_t length)
{
    int32_t across = edge.x1 - edge.x0, down = edge.y1 - edge.y0;
    struct edge link = { edge.x0, edge.y0, 0, 0, edge.sign };
    for (int32_t way = LINK; way < length; way += LINK) {
        link.x1 = edge.x0 + share_of(across, way, length);
        link.y1 = edge.y0 + share_of(down, way, length);
        add_link(e, layer, link);
        link.x0 = link.x1;
        link.y0 = link.y1;
    }
    link.x1 = edge.x1;
    link.y1 = edge.y1;
    add_link(e, layer, link);
}

static inline void add(struct paint_edges *e, uint32_t layer, struct edge edge)
{
    int32_t across = abs(edge.x1 - edge.x0), down = edge.y1 - edge.y0, length = across > down ? across : down;
    if (length <= LINK)
        add_link(e, layer, edge);
    else
        add_long(e, layer, edge, length);
}

static int32_t height_at(const struct edge *edge, int32_t x)
{
    double part = ((double)x - edge->x0) / ((double)edge->x1 - edge->x0);
    return edge->y0 + (int32_t)(part * ((double)edge->y1 - edge->y0) + 0.5);
}

static void add_cut(struct paint_edges *e, uint32_t layer, struct edge edge);

/* What lies beyond a side is laid upright just outside it: from the left it lights the rows that it did, and from the
 * right none. */
static void add_beside(struct paint_edges *e, uint32_t layer, struct edge edge, int32_t side, bool first_is_out)
{
    int32_t y = height_at(&edge, side);
    struct edge out = edge, in = edge;
    out.x0 = out.x1 = side;
    if (first_is_out) {
        out.y1 = in.y0 = y;
        in.x0 = side;
    } else {
        out.y0 = in.y1 = y;
        in.x1 = side;
    }
    add(e, layer, out);
    add_cut(e, layer, in);
}

static void add_cut(struct paint_edges *e, uint32_t layer, struct edge edge)
{
    const int32_t sides[2] = { e->left, e->right };
    for (int i = 0; i < 2; i++) {
        int32_t out = i ? -1 : 1; /* times a distance from the side: negative outside */
        bool first = (edge.x0 - sides[i]) * out < 0, second = (edge.x1 - sides[i]) * out < 0;
        if (first && second)
            edge.x0 = edge.x1 = sides[i];
        else if (first || second) {
            add_beside(e, layer, edge, sides[i], first);
            return;
        }
    }
    add(e, layer, edge);
}

void paint_edges_add(struct paint_edges *e, uint32_t layer, int32_t x, int32_t y, int32_t next_x, int32_t next_y)
{
    struct edge edge = { x, y, next_x, next_y, +1 };
    if (y > next_y)
        edge = (struct edge){ next_x, next_y, x, y, -1 };
    int32_t least = x < next_x ? x : next_x, most = x < next_x ? next_x : x;
    if (least < e->left || most > e->right)
        add_cut(e, layer, edge);
    else
        add(e, layer, edge);
}
