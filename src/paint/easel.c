#include "paint/easel.h"

#include "paint/cells.h"
#include "paint/outline.h"
#include "paint/warp.h"

#include <assert.h>
#include <string.h>

/* Outlines are traced in so many parts, bands of the picture are filled one by one: neither hangs on the threads. */
enum { PARTS = 4, CHAINS = PARTS * PAINT_EDGE_KINDS };

struct part {
    struct arena *room;    /* kept from frame to frame */
    struct arena *scratch; /* emptied after every frame */
    size_t first, end;     /* outlines */
    struct paint_edges edges;
    struct paint_bent bent;
    double *u, *v; /* corners in px */
    size_t u_cap, v_cap;
};

struct paint_easel {
    struct arena *arena;
    struct arena *scratch; /* emptied after every frame */
    struct base_pool *pool;
    int most_width, most_height;
    struct part parts[PARTS];
    struct paint_cells *cells[BASE_POOL_MOST]; /* of each worker */
};

/* One frame. */
struct frame {
    struct paint_easel *easel;
    const struct paint_content *content;
    struct paint_warp table, px;
    struct paint_image *image;
};

struct paint_easel *paint_easel_create(struct base_pool *pool, int most_width, int most_height)
{
    struct arena *a = base_arena_create();
    struct paint_easel *e = base_arena_alloc(a, 1, sizeof *e);
    e->arena = a;
    e->scratch = base_arena_create();
    e->pool = pool;
    e->most_width = most_width;
    e->most_height = most_height;
    for (int i = 0; i < PARTS; i++) {
        struct part *part = &e->parts[i];
        part->room = base_arena_create();
        part->scratch = base_arena_create();
        part->edges = paint_edges_create(part->room, most_height);
        part->bent.arena = part->room;
    }
    for (int i = 0; i < base_pool_threads(pool); i++)
        e->cells[i] = paint_cells_create(a, most_width);
    return e;
}

void paint_easel_destroy(struct paint_easel *e)
{
    if (!e)
        return;
    for (int i = 0; i < PARTS; i++) {
        base_arena_destroy(e->parts[i].scratch);
        base_arena_destroy(e->parts[i].room);
    }
    base_arena_destroy(e->scratch);
    base_arena_destroy(e->arena);
}

/* ---- outlines into edges ---- */

/* To the nearest 1/256 px. Whole numbers are cut off towards 0: far above it that is downwards. */
static inline int32_t to_subpixel(double px)
{
    enum { ABOVE = 1 << 23, FARTHEST_PX = ABOVE / PAINT_SUBPIXEL };
    assert(fabs(px) < FARTHEST_PX);
    return (int32_t)(px * PAINT_SUBPIXEL + (ABOVE + 0.5)) - ABOVE;
}

struct corner {
    int32_t x, y;
};

static inline struct corner corner_at(vec2 px)
{
    return (struct corner){ to_subpixel(px.x), to_subpixel(px.y) };
}

static inline struct corner trace_to(struct paint_edges *edges, uint32_t layer, struct corner from, vec2 to_px)
{
    struct corner to = corner_at(to_px);
    paint_edges_add(edges, layer, from.x, from.y, to.x, to.y);
    return to;
}

static void trace_path(struct paint_edges *edges, uint32_t layer, struct geometry_path px)
{
    if (!px.count)
        return;
    struct corner at = corner_at(px.points[px.count - 1]);
    for (size_t i = 0; i < px.count; i++)
        at = trace_to(edges, layer, at, px.points[i]);
}

static struct geometry_path path_of(struct arena *a, const struct paint_corners *corners,
                                    const struct paint_outline *outline)
{
    struct geometry_path path = { base_arena_alloc(a, outline->count, sizeof(vec2)), outline->count, true };
    for (size_t i = 0; i < outline->count; i++)
        path.points[i] = (vec2){ corners->x[outline->first + i], corners->y[outline->first + i] };
    return path;
}

/* An outline of which nothing is cut off, its corners already in px. */
static void trace_whole(struct part *part, const struct paint_warp *warp, const struct paint_corners *corners,
                        const struct paint_outline *outline, const double *u, const double *v)
{
    const double *x = corners->x + outline->first, *y = corners->y + outline->first;
    double straight2 = warp->straight_px * warp->straight_px;
    size_t before = outline->count - 1;
    vec2 px = { u[before], v[before] };
    struct corner at = corner_at(px);
    for (size_t i = 0; i < outline->count; i++) {
        vec2 next_px = { u[i], v[i] }, way = vec2_sub(next_px, px);
        if (vec2_dot(way, way) > straight2) {
            part->bent.path.count = 0;
            paint_warp_edge(&part->bent, warp, (const vec2[]){ { x[before], y[before] }, { x[i], y[i] } },
                            (const vec2[]){ px, next_px });
            for (size_t j = 0; j < part->bent.path.count; j++)
                at = trace_to(&part->edges, outline->layer, at, part->bent.path.points[j]);
        }
        at = trace_to(&part->edges, outline->layer, at, next_px);
        px = next_px;
        before = i;
    }
}

static void trace_outlines(struct part *part, const struct paint_warp *warp, const struct paint_content *content,
                           size_t first, size_t end)
{
    if (first >= end)
        return;
    const struct paint_outline *outlines = content->outlines;
    const struct paint_corners *corners = &content->corners;
    size_t from = outlines[first].first, count = outlines[end - 1].first + outlines[end - 1].count - from;
    part->u = base_arena_grow(part->room, part->u, &part->u_cap, count, sizeof *part->u);
    part->v = base_arena_grow(part->room, part->v, &part->v_cap, count, sizeof *part->v);
    paint_warp_places(warp, count, corners->x + from, corners->y + from, part->u, part->v);
    for (size_t i = first; i < end; i++) {
        const struct paint_outline *outline = &outlines[i];
        const double *u = part->u + (outline->first - from), *v = part->v + (outline->first - from);
        if (paint_warp_holds(warp, outline->count, u, v))
            trace_whole(part, warp, corners, outline, u, v);
        else
            trace_path(&part->edges, outline->layer,
                       paint_warp_polygon(part->scratch, warp, path_of(part->scratch, corners, outline)));
    }
}

static size_t smaller(size_t a, size_t b)
{
    return a < b ? a : b;
}

static size_t larger(size_t a, size_t b)
{
    return a > b ? a : b;
}

static void trace_part(void *user, size_t number, int worker)
{
    (void)worker;
    const struct frame *frame = user;
    const struct paint_content *content = frame->content;
    struct part *part = &frame->easel->parts[number];
    paint_edges_begin(&part->edges, frame->image->width, frame->image->height);
    trace_outlines(part, &frame->table, content, part->first, smaller(part->end, content->in_mm));
    trace_outlines(part, &frame->px, content, larger(part->first, content->in_mm), part->end);
    base_arena_reset(part->scratch);
}

/* The first outline whose corners begin at or behind a place among all corners. */
static size_t outline_at(const struct paint_content *content, size_t corner)
{
    size_t low = 0, high = content->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (content->outlines[middle].first < corner)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Parts of about equally many corners. */
static void share_out(struct paint_easel *e, const struct paint_content *content)
{
    size_t corners = content->corners.count, first = 0;
    for (size_t i = 0; i < PARTS; i++) {
        size_t end = i + 1 < PARTS ? outline_at(content, corners / PARTS * (i + 1)) : content->count;
        e->parts[i].first = first;
        e->parts[i].end = end;
        first = end;
    }
}

/* ---- edges into light ---- */

static uint32_t *row_of(const struct paint_image *image, int y)
{
    return image->pixels + (size_t)y * image->stride;
}

static void clear_row(const struct paint_image *image, int y)
{
    memset(row_of(image, y), 0, (size_t)image->width * sizeof(uint32_t));
}

/* The first layer's rows are cleared one by one, while the processor's nearest cache keeps them. The rows below the
 * picture's last are swept, too: edges end there. */
static void shade_layer(const struct frame *frame, struct paint_cells *cells, int top, uint32_t layer, bool first)
{
    const struct paint_image *image = frame->image;
    for (int row = 0; row < PAINT_BAND_ROWS; row++) {
        struct paint_row lit = paint_cells_sweep(cells, row);
        if (top + row >= image->height)
            continue;
        if (first)
            clear_row(image, top + row);
        paint_shade_row(frame->content->layers[layer], &lit, row_of(image, top + row));
    }
}

/* Where each chain of parcels of a band is: layers come in rising order in all of them. */
struct band {
    const struct paint_edges *edges[CHAINS];
    const struct paint_parcel *next[CHAINS];
};

static struct band band_of(const struct frame *frame, size_t number)
{
    struct band b;
    for (int i = 0; i < CHAINS; i++) {
        b.edges[i] = &frame->easel->parts[i / PAINT_EDGE_KINDS].edges;
        uint32_t first = paint_edges_first(b.edges[i], number, (enum paint_edge_kind)(i % PAINT_EDGE_KINDS));
        b.next[i] = paint_edges_parcel(b.edges[i], first);
    }
    return b;
}

/* False when no parcel is left. */
static bool next_layer(const struct band *b, uint32_t *layer)
{
    bool any = false;
    *layer = UINT32_MAX;
    for (int i = 0; i < CHAINS; i++) {
        if (b->next[i] && b->next[i]->layer <= *layer) {
            *layer = b->next[i]->layer;
            any = true;
        }
    }
    return any;
}

/* Adds the parcels of a layer from one chain. */
static void add_chain(struct paint_cells *cells, struct band *b, int chain, uint32_t layer)
{
    while (b->next[chain] && b->next[chain]->layer == layer) {
        const struct paint_parcel *parcel = b->next[chain];
        b->next[chain] = paint_edges_parcel(b->edges[chain], parcel->next);
        paint_edges_fetch(b->next[chain]);
        paint_cells_add(cells, parcel, (enum paint_edge_kind)(chain % PAINT_EDGE_KINDS));
    }
}

static void fill_band(void *user, size_t number, int worker)
{
    const struct frame *frame = user;
    struct paint_cells *cells = frame->easel->cells[worker];
    int top = (int)number * PAINT_BAND_ROWS;
    struct band b = band_of(frame, number);
    bool first = true;
    for (uint32_t layer; next_layer(&b, &layer); first = false) {
        for (int chain = 0; chain < CHAINS; chain++)
            add_chain(cells, &b, chain, layer);
        shade_layer(frame, cells, top, layer, first);
    }
    for (int y = top; first && y < top + PAINT_BAND_ROWS && y < frame->image->height; y++)
        clear_row(frame->image, y);
}

static int at_most(int value, int most)
{
    return value < most ? value : most;
}

static bool is_lit(const struct paint_raster *r, int column, int row)
{
    int stripes = (r->across ? column / r->across : 0) + (r->down ? row / r->down : 0);
    return stripes % 2 == 0;
}

static void put_raster(const struct paint_image *image, const struct paint_rastered *rastered)
{
    const struct paint_raster *r = &rastered->raster;
    for (int y = r->top < 0 ? 0 : r->top; y < at_most(r->bottom, image->height); y++)
        for (int x = r->left < 0 ? 0 : r->left; x < at_most(r->right, image->width); x++)
            row_of(image, y)[x] = is_lit(r, x - r->left, y - r->top) ? rastered->pixel : 0;
}

void paint_draw(struct paint_easel *e, const struct paint_content *content, const struct geometry_map *map,
                struct paint_image *image)
{
    assert(image->width <= e->most_width && image->height <= e->most_height);
    assert(map ? image->width == map->width_px && image->height == map->height_px : content->in_mm == 0);
    struct frame frame = {
        .easel = e, .content = content, .px = paint_warp_none(e->scratch, image->width, image->height), .image = image
    };
    if (map)
        frame.table = paint_warp_create(e->scratch, map);
    for (int i = 0; i < base_pool_threads(e->pool); i++)
        paint_cells_begin(e->cells[i], image->width);
    share_out(e, content);
    base_pool_run(e->pool, PARTS, trace_part, &frame);
    size_t bands = ((size_t)image->height + PAINT_BAND_ROWS - 1) / PAINT_BAND_ROWS;
    base_pool_run(e->pool, bands, fill_band, &frame);
    for (size_t i = 0; i < content->raster_count; i++)
        put_raster(image, &content->rasters[i]);
    base_arena_reset(e->scratch);
}
