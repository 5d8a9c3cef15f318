#include "paint/cells.h"

#include "base/wide.h"
#include "paint/grid.h"
#include "paint/lanes.h"

#include <assert.h>
#include <string.h>

enum {
    BOTH_BITS = 2 * PAINT_UNIT_BITS + 2,
    BOTH = 1 << BOTH_BITS,
    SHARE_BITS = BOTH_BITS - 12 /* PAINT_WHOLE is 2^12 */
};

/* Blocks that are looked at together. */
enum { WORD = 8 };

static_assert((int)PAINT_BLOCK == (int)PAINT_LANES, "a block is summed up in lanes");

static int blocks_for(int width)
{
    int words = (PAINT_LEAD + width + PAINT_TAIL) / (PAINT_BLOCK * WORD) + 1;
    return words * WORD;
}

struct paint_cells *paint_cells_create(struct arena *a, int most_width)
{
    assert(most_width > 0 && most_width <= 16383);
    struct paint_cells *c = base_arena_alloc(a, 1, sizeof *c);
    size_t blocks = (size_t)blocks_for(most_width), rows = PAINT_BAND_ROWS + PAINT_SPARE_ROWS;
    c->areas = base_arena_alloc(a, rows * blocks * PAINT_BLOCK, sizeof *c->areas);
    c->touched = base_arena_alloc(a, rows * blocks, 1);
    c->list = base_arena_alloc(a, blocks + 1, sizeof *c->list);
    c->shares = base_arena_alloc(a, blocks * PAINT_BLOCK, sizeof *c->shares);
    c->runs = base_arena_alloc(a, 2 * blocks + 1, sizeof *c->runs);
    paint_cells_begin(c, most_width);
    return c;
}

void paint_cells_begin(struct paint_cells *c, int width)
{
    c->width = width;
    c->blocks = blocks_for(width);
}

/* The touched blocks of a row, in order; none is marked any more. */
static BASE_WITHIN size_t take_touched(const struct paint_cells *c, int row)
{
    static const unsigned char untouched[WORD] = { 0 };
    unsigned char *touched = c->touched + (size_t)row * (size_t)c->blocks;
    uint16_t *list = c->list;
    size_t count = 0;
    for (int first = 0; first < c->blocks; first += WORD) {
        if (memcmp(touched + first, untouched, WORD) == 0)
            continue;
        for (int block = first; block < first + WORD; block++) {
            list[count] = (uint16_t)block; /* overwritten by the next unless it counts */
            count += touched[block];
        }
        memset(touched + first, 0, WORD);
    }
    return count;
}

static BASE_WITHIN uint16_t share_of(uint32_t area)
{
    uint32_t lit = area > INT32_MAX ? 0 - area : area, most = BOTH;
    return (uint16_t)(((lit < most ? lit : most) + (1u << (SHARE_BITS - 1))) >> SHARE_BITS);
}

/* share_of for a block. */
static BASE_WITHIN void put_shares(paint_lanes_uint areas, uint16_t *shares)
{
    paint_lanes_uint negative = (paint_lanes_uint)((paint_lanes_int)areas < 0), lit = (areas ^ negative) - negative;
    paint_lanes_uint part = (paint_lanes_uint)(lit < BOTH);
    lit = (lit & part) | (BOTH & ~part);
    paint_lanes_ushort out =
        __builtin_convertvector((lit + (1u << (SHARE_BITS - 1))) >> SHARE_BITS, paint_lanes_ushort);
    memcpy(shares, &out, sizeof out);
}

/* Takes the cells of a block, and gives the areas: sums from the row's start. All lanes of `before` are the area left
 * of it. */
static BASE_WITHIN paint_lanes_uint take_block(uint32_t *cells, paint_lanes_uint before)
{
    paint_lanes_uint sum, none = { 0 };
    memcpy(&sum, cells, sizeof sum);
    memcpy(cells, &none, sizeof none);
    sum += __builtin_shufflevector(sum, none, 8, 0, 1, 2, 8, 4, 5, 6);
    sum += __builtin_shufflevector(sum, none, 8, 8, 0, 1, 8, 8, 4, 5);
    sum += __builtin_shufflevector(sum, none, 8, 8, 8, 8, 3, 3, 3, 3);
    return sum + before;
}

/* A run of what lies from one cell to another, when it is in the picture. */
static BASE_WITHIN size_t add_run(struct paint_cells *c, size_t count, int first, int end, bool even)
{
    int in_picture = first < PAINT_LEAD ? PAINT_LEAD : first, last = PAINT_LEAD + c->width;
    last = end < last ? end : last;
    c->runs[count] = (struct paint_run){ in_picture - PAINT_LEAD, last - PAINT_LEAD, even };
    return count + (in_picture < last);
}

/* Cells without an edge, all lit alike. */
static BASE_WITHIN size_t add_even(struct paint_cells *c, size_t count, int first, int end, uint32_t area)
{
    uint16_t share = share_of(area);
    if (share == 0)
        return count;
    c->shares[first < PAINT_LEAD ? PAINT_LEAD : first] = share;
    return add_run(c, count, first, end, true);
}

/* A question that is hard to guess costs more than the work for a block. So there is one for each, and it is seldom
 * true: whether there is a gap before it *and* light in it. */
BASE_WIDE struct paint_row paint_cells_sweep(struct paint_cells *c, int row)
{
    uint32_t *areas = c->areas + (size_t)row * (size_t)c->blocks * PAINT_BLOCK;
    size_t touched = take_touched(c, row), count = 0;
    paint_lanes_uint area = { 0 };
    int end = 0;
    for (size_t i = 0; i < touched; i++) {
        int first = c->list[i] * PAINT_BLOCK;
        if ((uint64_t)area[0] * (uint64_t)(first - end) != 0)
            count = add_even(c, count, end, first, area[0]);
        area = take_block(areas + first, area);
        put_shares(area, c->shares + first);
        area = __builtin_shufflevector(area, area, 7, 7, 7, 7, 7, 7, 7, 7);
        end = first + PAINT_BLOCK;
        count = add_run(c, count, first, end, false);
    }
    count = add_even(c, count, end, c->blocks * PAINT_BLOCK, area[0]);
    return (struct paint_row){ c->shares + PAINT_LEAD, c->runs, count };
}
