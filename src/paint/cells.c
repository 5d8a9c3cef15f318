#include "paint/cells.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* Where an edge crosses the grid between pixels is rounded to UNIT of a pixel, so an area, a height times twice a mean
 * distance, is an integer, and a pixel that is full in both its measurements is 2 * 2^10 * 2^11. */
enum {
    UNIT_BITS = 10,
    UNIT = 1 << UNIT_BITS,
    UNITS_PER_SUBPIXEL = UNIT / PAINT_SUBPIXEL,
    BOTH_BITS = 2 * UNIT_BITS + 2,
    BOTH = 1 << BOTH_BITS,
    SHARE_BITS = BOTH_BITS - 12, /* PAINT_WHOLE is 2^12 */
    BLOCK = 8,                   /* pixels whose light is worked out together */
    WORD = 8,                    /* blocks that are looked at together */
    BAND = PAINT_BAND_ROWS * PAINT_SUBPIXEL
};

/* Places along an edge are followed in 1/256 px with FRACTION_BITS more, so that the slope's rounding stays far under
 * one unit over the longest edge; heights by way across with INVERSE_BITS more. */
enum { FRACTION_BITS = 24, TO_UNIT_BITS = FRACTION_BITS - 2, INVERSE_BITS = 32 };

struct paint_cells {
    int width, blocks;         /* blocks: a whole number of words, one cell beyond the picture at least */
    uint32_t *areas;           /* a row's running sum is the covered area; wraps like any sum of integers */
    unsigned char *touched;    /* blocks in which anything was added */
    uint16_t *shares;          /* one row */
    struct paint_run *runs;    /* of that row */
};

static int blocks_for(int width)
{
    int words = width / (BLOCK * WORD) + 1;
    return words * WORD;
}

struct paint_cells *paint_cells_create(struct arena *a, int most_width)
{
    assert(most_width > 0 && most_width <= 16383);
    struct paint_cells *c = base_arena_alloc(a, 1, sizeof *c);
    size_t blocks = (size_t)blocks_for(most_width);
    c->areas = base_arena_alloc(a, PAINT_BAND_ROWS * blocks * BLOCK, sizeof *c->areas);
    c->touched = base_arena_alloc(a, PAINT_BAND_ROWS * blocks, 1);
    c->shares = base_arena_alloc(a, blocks * BLOCK, sizeof *c->shares);
    c->runs = base_arena_alloc(a, blocks, sizeof *c->runs);
    paint_cells_begin(c, most_width);
    return c;
}

void paint_cells_begin(struct paint_cells *c, int width)
{
    c->width = width;
    c->blocks = blocks_for(width);
}

/* One edge on its way down a band, in one of the two measurements. */
struct walk {
    uint32_t *areas;
    unsigned char *touched;
    int width;
    int32_t sign;
    int64_t inverse; /* height by way across, in 2^-INVERSE_BITS */
};

/* Light to the right of a piece within one column: `reach` is twice its mean distance from the column's left. */
static inline void add_to_cell(uint32_t *cell, int32_t height, int32_t reach)
{
    cell[0] += (uint32_t)(height * (2 * UNIT - reach));
    cell[1] += (uint32_t)(height * reach);
}

/* The part of an edge within one row, leaning from `left` to `right`, shared out to the columns it comes through. */
static inline void add_across(const struct walk *w, int32_t left, int32_t right, int32_t height)
{
    int32_t column = left >> UNIT_BITS, last = right >> UNIT_BITS, done = 0;
    for (int32_t block = column / BLOCK; block <= (last + 1) / BLOCK; block++)
        w->touched[block] = 1;
    for (int32_t at = left; column < last; column++) {
        int32_t border = (column + 1) * UNIT;
        int64_t way = (border - left) * w->inverse >> INVERSE_BITS;
        int32_t reached = way < height ? (int32_t)way : height;
        add_to_cell(w->areas + column, w->sign * (reached - done), at - column * UNIT + UNIT);
        done = reached;
        at = border;
    }
    int32_t from = left > last * UNIT ? left : last * UNIT;
    add_to_cell(w->areas + last, w->sign * (height - done), from + right - 2 * last * UNIT);
}

static int32_t height_over(const struct walk *w, int32_t across, int32_t most)
{
    int64_t way = across * w->inverse >> INVERSE_BITS;
    return way < most ? (int32_t)way : most;
}

/* What lies left of the picture lights whole rows; what lies right of it lights nothing. */
static void add_cut(const struct walk *w, int32_t left, int32_t right, int32_t height)
{
    int32_t end = w->width * UNIT;
    if (left >= end)
        return;
    if (left < 0) {
        int32_t done = right <= 0 ? height : height_over(w, -left, height);
        add_to_cell(w->areas, w->sign * done, 0);
        w->touched[0] = 1;
        left = 0;
        height -= done;
    }
    if (right >= end) {
        height = height_over(w, end - left, height);
        right = end - 1;
    }
    if (right >= left)
        add_across(w, left, right, height);
}

static inline void add_to_row(const struct walk *w, int32_t x, int32_t next_x, int32_t height)
{
    int32_t left = x < next_x ? x : next_x, right = x < next_x ? next_x : x;
    int32_t first = left >> UNIT_BITS, last = right >> UNIT_BITS;
    if (left < 0 || last >= w->width) {
        add_cut(w, left, right, height);
    } else if (first == last) {
        w->touched[first / BLOCK] = 1;
        w->touched[(first + 1) / BLOCK] = 1;
        add_to_cell(w->areas + first, w->sign * height, left + right - 2 * first * UNIT);
    } else {
        add_across(w, left, right, height);
    }
}

/* The edge moved by `shift` both ways. Its y count from the band's top. */
static inline void add_moved(const struct paint_cells *c, struct walk w, struct paint_edge e, int64_t slope, int shift)
{
    int32_t y0 = e.y0 + shift, y1 = e.y1 + shift;
    int32_t y = y0 > 0 ? y0 : 0, end = y1 < BAND ? y1 : BAND;
    int64_t x = ((int64_t)e.x0 + shift) * (1 << FRACTION_BITS) + slope * (y - y0);
    int32_t at = (int32_t)(x >> TO_UNIT_BITS);
    size_t row = (size_t)(y / PAINT_SUBPIXEL), blocks = (size_t)c->blocks;
    w.areas = c->areas + row * blocks * BLOCK;
    w.touched = c->touched + row * blocks;
    for (int32_t border = (int32_t)(row + 1) * PAINT_SUBPIXEL; y < end; border += PAINT_SUBPIXEL) {
        int32_t next_y = border < end ? border : end;
        x += slope * (next_y - y);
        int32_t next = (int32_t)(x >> TO_UNIT_BITS);
        add_to_row(&w, at, next, (next_y - y) * UNITS_PER_SUBPIXEL);
        w.areas += blocks * BLOCK;
        w.touched += blocks;
        y = next_y;
        at = next;
    }
}

void paint_cells_add(struct paint_cells *c, const struct paint_edge *edges, size_t count, int top)
{
    for (size_t i = 0; i < count; i++) {
        struct paint_edge e = edges[i];
        double across = (double)e.x1 - e.x0, down = (double)e.y1 - e.y0;
        e.y0 -= top * PAINT_SUBPIXEL;
        e.y1 -= top * PAINT_SUBPIXEL;
        int64_t slope = (int64_t)(across / down * (1 << FRACTION_BITS));
        struct walk w = { .width = c->width, .sign = e.sign };
        if (across != 0)
            w.inverse = (int64_t)(down / (across < 0 ? -across : across) * ((int64_t)1 << INVERSE_BITS));
        add_moved(c, w, e, slope, -PAINT_SHIFT);
        add_moved(c, w, e, slope, PAINT_SHIFT);
    }
}

static inline uint16_t share_of(uint32_t area)
{
    int32_t lit = (int32_t)(area > INT32_MAX ? 0 - area : area);
    return (uint16_t)(((lit < BOTH ? lit : BOTH) + (1 << (SHARE_BITS - 1))) >> SHARE_BITS);
}

static inline uint32_t sweep_block(uint32_t area, uint32_t *cells, uint16_t *shares)
{
    uint32_t sums[BLOCK];
    for (int i = 0; i < BLOCK; i++)
        sums[i] = area += cells[i];
    for (int i = 0; i < BLOCK; i++)
        shares[i] = share_of(sums[i]);
    memset(cells, 0, BLOCK * sizeof *cells);
    return area;
}

/* Adds pixels to a row's last run when they go on with it. */
static inline size_t add_run(struct paint_run *runs, size_t count, int first, int end, bool even)
{
    if (count && runs[count - 1].end == first && runs[count - 1].even == even && !even) {
        runs[count - 1].end = end;
        return count;
    }
    runs[count] = (struct paint_run){ first, end, even };
    return count + 1;
}

/* Pixels without an edge: all dark, or lit alike. */
static size_t sweep_even(struct paint_cells *c, uint32_t area, size_t count, int first, int end)
{
    uint16_t share = share_of(area);
    if (share == 0)
        return count;
    struct paint_run *last = count ? &c->runs[count - 1] : NULL;
    c->shares[first] = share;
    if (last && last->even && last->end == first && c->shares[last->first] == share) {
        last->end = end;
        return count;
    }
    return add_run(c->runs, count, first, end, true);
}

struct paint_row paint_cells_sweep(struct paint_cells *c, int row)
{
    uint32_t *areas = c->areas + (size_t)row * (size_t)c->blocks * BLOCK, area = 0;
    unsigned char *touched = c->touched + (size_t)row * (size_t)c->blocks;
    static const unsigned char untouched[WORD] = { 0 };
    size_t count = 0;
    for (int first = 0; first < c->blocks; first += WORD) {
        if (memcmp(touched + first, untouched, WORD) == 0) {
            count = sweep_even(c, area, count, first * BLOCK, (first + WORD) * BLOCK);
            continue;
        }
        for (int block = first; block < first + WORD; block++) {
            if (!touched[block]) {
                count = sweep_even(c, area, count, block * BLOCK, (block + 1) * BLOCK);
                continue;
            }
            area = sweep_block(area, areas + (size_t)block * BLOCK, c->shares + (size_t)block * BLOCK);
            count = add_run(c->runs, count, block * BLOCK, (block + 1) * BLOCK, false);
        }
        memset(touched + first, 0, WORD);
    }
    while (count && c->runs[count - 1].first >= c->width)
        count--;
    if (count && c->runs[count - 1].end > c->width)
        c->runs[count - 1].end = c->width;
    return (struct paint_row){ c->shares, c->runs, count };
}
