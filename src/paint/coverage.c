#include "paint/coverage.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

/* Corners are integers of 1/256 px. Where an edge crosses the grid between pixels is an integer of 1/65536 px, so an
 * area, a height times twice a mean distance, is an integer too, and a full pixel is 2^16 * 2^17. */
enum { UNIT = 65536, UNITS_PER_SUBPIXEL = UNIT / PAINT_SUBPIXEL, BLOCK = 64 };
#define FULL_AREA ((int64_t)UNIT * 2 * UNIT)
#define FARTHEST_PX 4194304.0

/* Always downwards (y0 < y1), so that both directions of an edge round alike and cancel to the last bit. */
struct edge {
    int32_t x0, y0, x1, y1; /* 1/256 px */
    int sign;               /* +1 where the polygon ran downwards, else -1 */
};

struct paint_coverage {
    struct arena *arena;
    int width, height, bands, blocks;
    struct edge *edges;
    size_t count, cap;
    size_t *band_first; /* where each band's part of `listed` starts */
    size_t *listed;     /* edges by band, an edge once in every band it comes through */
    size_t listed_cap;
    int64_t *cells;         /* one band; a row's running sum is the covered area; all zero between bands */
    unsigned char *touched; /* blocks of cells in which anything was added */
    int32_t *covered;       /* one row */
};

struct paint_coverage *paint_coverage_create(struct arena *a, int width, int height)
{
    assert(width > 0 && height > 0 && width <= 32768 && height <= 32768);
    struct paint_coverage *c = base_arena_alloc(a, 1, sizeof *c);
    c->arena = a;
    c->width = width;
    c->height = height;
    c->bands = (height + PAINT_BAND_ROWS - 1) / PAINT_BAND_ROWS;
    c->blocks = width / BLOCK + 1;
    c->band_first = base_arena_alloc(a, (size_t)c->bands + 1, sizeof *c->band_first);
    c->cells = base_arena_alloc(a, (size_t)PAINT_BAND_ROWS * (size_t)c->blocks * BLOCK, sizeof *c->cells);
    c->touched = base_arena_alloc(a, (size_t)PAINT_BAND_ROWS * (size_t)c->blocks, 1);
    c->covered = base_arena_alloc(a, (size_t)width, sizeof *c->covered);
    return c;
}

static int32_t to_subpixel(double px)
{
    assert(fabs(px) <= FARTHEST_PX);
    return (int32_t)floor(px * PAINT_SUBPIXEL + 0.5);
}

static void add_edge(struct paint_coverage *c, struct edge e)
{
    if (e.y0 == e.y1)
        return;
    if (e.y0 > e.y1)
        e = (struct edge){ e.x1, e.y1, e.x0, e.y0, -1 };
    if (e.y1 <= 0 || e.y0 >= c->height * PAINT_SUBPIXEL)
        return;
    c->edges = base_arena_grow(c->arena, c->edges, &c->cap, c->count + 1, sizeof *c->edges);
    c->edges[c->count++] = e;
}

void paint_coverage_add(struct paint_coverage *c, struct geometry_path polygon)
{
    if (polygon.count < 3)
        return;
    vec2 last = polygon.points[polygon.count - 1];
    int32_t x = to_subpixel(last.x), y = to_subpixel(last.y);
    for (size_t i = 0; i < polygon.count; i++) {
        int32_t next_x = to_subpixel(polygon.points[i].x), next_y = to_subpixel(polygon.points[i].y);
        add_edge(c, (struct edge){ x, y, next_x, next_y, +1 });
        x = next_x;
        y = next_y;
    }
}

/* n / d to the nearest, n >= 0 < d. */
static int64_t nearest(int64_t n, int64_t d)
{
    assert(d > 0);
    return (n + d / 2) / d;
}

/* Where the edge crosses a height between its ends, in units. In two steps, because 256 * way * dx would not fit. */
static int64_t crossing(const struct edge *e, int64_t y)
{
    int64_t dx = (int64_t)e->x1 - e->x0, dy = (int64_t)e->y1 - e->y0;
    int64_t product = (y - e->y0) * llabs(dx); /* at most 2^31 * 2^31 */
    int64_t way = product / dy * UNITS_PER_SUBPIXEL + nearest(product % dy * UNITS_PER_SUBPIXEL, dy);
    return (int64_t)e->x0 * UNITS_PER_SUBPIXEL + (dx < 0 ? -way : way);
}

struct row {
    int64_t *cells;
    unsigned char *touched;
    int width;
};

/* Light to the right of an upright piece in one column: `reach` is twice its mean distance from the column's left. */
static void add_to_cell(struct row r, int64_t column, int64_t height, int64_t reach)
{
    r.cells[column] += height * (2 * UNIT - reach);
    r.cells[column + 1] += height * reach;
    r.touched[column / BLOCK] = 1;
    r.touched[(column + 1) / BLOCK] = 1;
}

/* The part of an edge within one row, leaning from one x to another: shared out to the columns it comes through. What
 * lies left of the picture lights whole rows; what lies right of it lights nothing. `height` is signed. */
static void add_to_row(struct row r, int64_t x, int64_t other_x, int64_t height)
{
    int64_t left = x < other_x ? x : other_x, right = x < other_x ? other_x : x;
    int64_t end = (int64_t)r.width * UNIT, sign = height < 0 ? -1 : 1, whole = llabs(height), done = 0;
    if (left >= end)
        return;
    if (left < 0) {
        done = right <= 0 ? whole : nearest(-left * whole, right - left);
        add_to_cell(r, 0, sign * done, 0);
        if (right <= 0)
            return;
    }
    for (int64_t at = left > 0 ? left : 0; at < end;) {
        int64_t column = at / UNIT, border = (column + 1) * UNIT;
        bool last = border >= right;
        int64_t to = last ? right : border;
        int64_t reached = last ? whole : nearest((to - left) * whole, right - left);
        add_to_cell(r, column, sign * (reached - done), at + to - 2 * column * UNIT);
        if (last)
            return;
        done = reached;
        at = to;
    }
}

static struct row row_of(const struct paint_coverage *c, int row)
{
    return (struct row){ c->cells + (size_t)row * (size_t)c->blocks * BLOCK,
                         c->touched + (size_t)row * (size_t)c->blocks, c->width };
}

static void add_to_band(const struct paint_coverage *c, const struct edge *e, int first_row)
{
    int64_t top = (int64_t)first_row * PAINT_SUBPIXEL, bottom = top + PAINT_BAND_ROWS * PAINT_SUBPIXEL;
    int64_t picture = (int64_t)c->height * PAINT_SUBPIXEL;
    int64_t y = e->y0 > top ? e->y0 : top, end = e->y1 < bottom ? e->y1 : bottom;
    if (end > picture)
        end = picture;
    int64_t x = crossing(e, y);
    while (y < end) {
        int64_t row = (y - top) / PAINT_SUBPIXEL, border = top + (row + 1) * PAINT_SUBPIXEL;
        int64_t next_y = border < end ? border : end, next_x = crossing(e, next_y);
        add_to_row(row_of(c, (int)row), x, next_x, e->sign * (next_y - y) * UNITS_PER_SUBPIXEL);
        y = next_y;
        x = next_x;
    }
}

static int32_t share_of(int64_t area)
{
    int64_t lit = llabs(area);
    return (int32_t)(((lit < FULL_AREA ? lit : FULL_AREA) + UNIT) / (2 * UNIT));
}

struct lit_run {
    paint_coverage_run *run;
    void *user;
    const int32_t *covered;
    int y, first; /* first < 0: dark */
};

static void end_run(struct lit_run *lit, int x)
{
    if (lit->first >= 0)
        lit->run(lit->user, lit->y, lit->first, x - lit->first, lit->covered + lit->first);
    lit->first = -1;
}

/* Sums a row up, tells its lit runs and leaves its cells zero. Blocks without an edge go fast. */
static void sweep_row(const struct paint_coverage *c, struct row r, struct lit_run *lit)
{
    int64_t area = 0;
    for (int block = 0; block < c->blocks; block++) {
        int first = block * BLOCK, end = first + BLOCK < c->width ? first + BLOCK : c->width;
        if (!r.touched[block] && share_of(area) == 0) {
            end_run(lit, first);
            continue;
        }
        for (int x = first; x < end; x++) {
            area += r.cells[x];
            r.cells[x] = 0;
            c->covered[x] = share_of(area);
            if (c->covered[x] == 0)
                end_run(lit, x);
            else if (lit->first < 0)
                lit->first = x;
        }
        r.touched[block] = 0;
    }
    end_run(lit, c->width);
    r.cells[c->width] = 0; /* the cell beyond the picture takes what edges in the last column give to their right */
}

static void bands_of(const struct paint_coverage *c, const struct edge *e, int *first, int *last)
{
    int rows = PAINT_BAND_ROWS * PAINT_SUBPIXEL;
    *first = e->y0 > 0 ? e->y0 / rows : 0;
    *last = (e->y1 - 1) / rows < c->bands ? (e->y1 - 1) / rows : c->bands - 1;
}

/* Counting sort of the edges by band. */
static void list_by_band(struct paint_coverage *c)
{
    int first, last;
    size_t total = 0;
    for (int band = 0; band <= c->bands; band++)
        c->band_first[band] = 0;
    for (size_t i = 0; i < c->count; i++) {
        bands_of(c, &c->edges[i], &first, &last);
        for (int band = first; band <= last; band++)
            c->band_first[band]++;
    }
    for (int band = 0; band <= c->bands; band++)
        c->band_first[band] = total += c->band_first[band];
    c->listed = base_arena_grow(c->arena, c->listed, &c->listed_cap, total, sizeof *c->listed);
    for (size_t i = 0; i < c->count; i++) {
        bands_of(c, &c->edges[i], &first, &last);
        for (int band = first; band <= last; band++)
            c->listed[--c->band_first[band]] = i;
    }
}

void paint_coverage_sweep(struct paint_coverage *c, paint_coverage_run *run, void *user)
{
    list_by_band(c);
    for (int band = 0; band < c->bands; band++) {
        int first_row = band * PAINT_BAND_ROWS;
        if (c->band_first[band] == c->band_first[band + 1])
            continue;
        for (size_t i = c->band_first[band]; i < c->band_first[band + 1]; i++)
            add_to_band(c, &c->edges[c->listed[i]], first_row);
        for (int row = 0; row < PAINT_BAND_ROWS && first_row + row < c->height; row++) {
            struct lit_run lit = { run, user, c->covered, first_row + row, -1 };
            sweep_row(c, row_of(c, row), &lit);
        }
    }
    c->count = 0;
}
