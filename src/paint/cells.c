#include "paint/cells.h"

#include "base/wide.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Lengths are in units of 1/1024 px: areas, heights times twice mean distances, are whole numbers, and a pixel that is
 * full in both its measurements is 2 * 2^10 * 2^11. */
enum {
    UNIT_BITS = 10,
    UNIT = 1 << UNIT_BITS,
    UNITS_PER_SUBPIXEL = UNIT / PAINT_SUBPIXEL,
    SHIFT = PAINT_SHIFT * UNITS_PER_SUBPIXEL,
    BAND = PAINT_BAND_ROWS * UNIT,
    BOTH_BITS = 2 * UNIT_BITS + 2,
    BOTH = 1 << BOTH_BITS,
    SHARE_BITS = BOTH_BITS - 12 /* PAINT_WHOLE is 2^12 */
};

/* Pixels whose light is worked out together, and such blocks that are looked at together. */
enum { BLOCK = 8, WORD = 8 };

/* Columns before and behind the picture, for edges that PAINT_BESIDE cut off, and rows behind the band: pieces without
 * height may fall there. */
enum { LEAD = 2 * BLOCK, TAIL = 2 * BLOCK, SPARE_ROWS = PAINT_LINK_PX + 4 };

/* The links of a parcel on their way through the band, in one of the two measurements. A flat one's way across counts
 * from its upper end. Heights and areas are whole
 * numbers under 2^24, which floats hold exactly. */
struct walks {
    float x0[PAINT_LINKS], y0[PAINT_LINKS]; /* where the edge starts, from the first cell */
    float slope[PAINT_LINKS];               /* its way across by way down; without sign where it is flat */
    float inverse[PAINT_LINKS];             /* its way down by way across, without sign */
    float sign[PAINT_LINKS];
    float end[PAINT_LINKS];    /* of the link: a height or a way across */
    float at[PAINT_LINKS];     /* how far it is: a height or a way across */
    float other[PAINT_LINKS];  /* and the other coordinate there: x, or a height */
    float first[PAINT_LINKS];  /* row or column in which it starts */
    float pieces[PAINT_LINKS]; /* rows or columns that it comes through */
    /* Of flat ones: to the right or left (+1, -1), heights and ways at which the edge enters and leaves the band. */
    float direction[PAINT_LINKS], top[PAINT_LINKS], bottom[PAINT_LINKS], enter[PAINT_LINKS], leave[PAINT_LINKS];
};

/* What a piece of each link adds: to a cell and those right of it, or under it. */
struct pieces {
    int32_t cell[PAINT_LINKS];
    int32_t a[PAINT_LINKS], b[PAINT_LINKS], c[PAINT_LINKS], d[PAINT_LINKS];
};

struct paint_cells {
    int width;
    int blocks;             /* of a row: a whole number of words */
    uint32_t *areas;        /* a row's running sum is the covered area; wraps like any sum of integers */
    unsigned char *touched; /* blocks in which anything was added */
    uint16_t *shares;       /* one row */
    struct paint_run *runs; /* of that row */
};

static int blocks_for(int width)
{
    int words = (LEAD + width + TAIL) / (BLOCK * WORD) + 1;
    return words * WORD;
}

struct paint_cells *paint_cells_create(struct arena *a, int most_width)
{
    assert(most_width > 0 && most_width <= 16383);
    struct paint_cells *c = base_arena_alloc(a, 1, sizeof *c);
    size_t blocks = (size_t)blocks_for(most_width), rows = PAINT_BAND_ROWS + SPARE_ROWS;
    c->areas = base_arena_alloc(a, rows * blocks * BLOCK, sizeof *c->areas);
    c->touched = base_arena_alloc(a, rows * blocks, 1);
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

/* ---- edges into cells ----
 *
 * Most edges are some pixels long, and a processor loses more time by a wrong guess at where a loop ends than by work.
 * So the links of a parcel go beside each other, each in as many pieces as the one that has most: a steep one in pieces
 * of one row, which reach over two columns at most, a flat one in pieces of one column, over two rows at most. A piece
 * behind the end of its link has no height and adds nothing. The loops over links have no questions, so that compilers
 * work on four links and more at once. */

static BASE_WITHIN float least(float a, float b)
{
    return a < b ? a : b;
}

static BASE_WITHIN float most(float a, float b)
{
    return a > b ? a : b;
}

static BASE_WITHIN float whole(float a)
{
    return (float)(int32_t)a;
}

static BASE_WITHIN void begin_steep(struct walks *w, const struct paint_parcel *p, float shift)
{
    for (uint32_t i = 0; i < p->count; i++) {
        float across = (float)p->across[i], down = (float)p->down[i], slope = across / down;
        float x0 = (float)(p->x[i] + LEAD * PAINT_SUBPIXEL) * UNITS_PER_SUBPIXEL + shift;
        float y0 = (float)p->y[i] * UNITS_PER_SUBPIXEL + shift, y1 = y0 + down * UNITS_PER_SUBPIXEL;
        float from = least(most(y0, 0), BAND), to = most(least(y1, BAND), from);
        float row = whole(from * (1.0f / UNIT));
        w->x0[i] = x0;
        w->y0[i] = y0;
        w->slope[i] = slope;
        w->inverse[i] = down / most(fabsf(across), 1.0f / 1024);
        w->sign[i] = (float)p->sign[i];
        w->end[i] = to;
        w->at[i] = from;
        w->other[i] = x0 + slope * least(most(from - y0, 0), down * UNITS_PER_SUBPIXEL);
        w->first[i] = row;
        w->pieces[i] = (to - row * UNIT + (UNIT - 1)) * (1.0f / UNIT);
    }
}

/* Pieces number k of all links. */
static BASE_WITHIN void step_steep(struct walks *w, struct pieces *out, uint32_t count, float k, int32_t stride)
{
    for (uint32_t i = 0; i < count; i++) {
        float row = w->first[i] + k, y = w->at[i], next_y = most(least((row + 1) * UNIT, w->end[i]), y);
        float x = w->other[i], next_x = next_y > y ? w->x0[i] + w->slope[i] * (next_y - w->y0[i]) : x;
        float left = least(x, next_x), right = most(x, next_x), height = next_y - y;
        float column = whole(left * (1.0f / UNIT)), border = (column + 1) * UNIT, beyond = most(right - border, 0);
        float after = whole(least(beyond * w->inverse[i], height)), before = height - after;
        float reach = whole(before * (left + least(right, border) - 2 * (border - UNIT)));
        float far_reach = whole(after * beyond);
        out->cell[i] = (int32_t)row * stride + (int32_t)column;
        out->a[i] = (int32_t)(w->sign[i] * (before * (2 * UNIT) - reach));
        out->b[i] = (int32_t)(w->sign[i] * (after * (2 * UNIT) - far_reach + reach));
        out->c[i] = (int32_t)(w->sign[i] * far_reach);
        w->at[i] = next_y;
        w->other[i] = next_x;
    }
}

static BASE_WITHIN void add_steep(const struct paint_cells *c, const struct pieces *p, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        uint32_t at = (uint32_t)p->cell[i], *cell = c->areas + at;
        c->touched[at / BLOCK] = 1;
        c->touched[(at + 2) / BLOCK] = 1;
        cell[0] += (uint32_t)p->a[i];
        cell[1] += (uint32_t)p->b[i];
        cell[2] += (uint32_t)p->c[i];
    }
}

/* The height of a flat edge at a way across. At the band's ends it is theirs, or light would leak along the row. */
static BASE_WITHIN float height_at(const struct walks *w, uint32_t i, float way)
{
    float y = least(most(whole(w->y0[i] + way * w->inverse[i]), w->top[i]), w->bottom[i]);
    y = way >= w->leave[i] ? w->bottom[i] : y;
    return way <= w->enter[i] ? w->top[i] : y;
}

static BASE_WITHIN void begin_flat(struct walks *w, const struct paint_parcel *p, float shift)
{
    for (uint32_t i = 0; i < p->count; i++) {
        float across = (float)p->across[i] * UNITS_PER_SUBPIXEL, down = (float)p->down[i] * UNITS_PER_SUBPIXEL;
        float direction = across < 0 ? -1.0f : 1.0f, length = across * direction, slope = length / down;
        float x0 = (float)(p->x[i] + LEAD * PAINT_SUBPIXEL) * UNITS_PER_SUBPIXEL + shift;
        float y0 = (float)p->y[i] * UNITS_PER_SUBPIXEL + shift, y1 = y0 + down;
        float enter_y = least(most(y0, 0), BAND), leave_y = most(least(y1, BAND), enter_y);
        float enter = least(most(enter_y - y0, 0) * slope, length), leave = least((leave_y - y0) * slope, length);
        leave = most(leave, enter);
        float x = x0 + direction * enter, column = whole(x * (1.0f / UNIT));
        float way_out = ((column + (direction * 0.5f + 0.5f)) * UNIT - x) * direction;
        w->x0[i] = x0;
        w->y0[i] = y0;
        w->slope[i] = slope;
        w->inverse[i] = down / length;
        w->sign[i] = (float)p->sign[i];
        w->direction[i] = direction;
        w->top[i] = enter_y;
        w->bottom[i] = leave_y;
        w->enter[i] = enter;
        w->leave[i] = leave;
        w->end[i] = leave;
        w->at[i] = enter;
        w->first[i] = column;
        w->pieces[i] = (most(leave - enter - way_out, 0) + 2 * UNIT - 1) * (1.0f / UNIT);
    }
    for (uint32_t i = 0; i < p->count; i++)
        w->other[i] = height_at(w, i, w->at[i]);
}

static BASE_WITHIN void step_flat(struct walks *w, struct pieces *out, uint32_t count, float k, int32_t stride)
{
    for (uint32_t i = 0; i < count; i++) {
        float direction = w->direction[i], column = w->first[i] + direction * k;
        float side = (column + (direction * 0.5f + 0.5f)) * UNIT; /* where the edge leaves the column */
        float way = w->at[i], next_way = most(least((side - w->x0[i]) * direction, w->end[i]), way);
        float y = w->other[i], next_y = most(height_at(w, i, next_way), y);
        float row = whole(y * (1.0f / UNIT)), border = (row + 1) * UNIT;
        float above = least(next_y, border) - y, below = next_y - y - above;
        float turn = least(way + (border - y) * w->slope[i], next_way), base = 2 * (w->x0[i] - column * UNIT);
        float reach = whole(above * (base + direction * (way + turn)));
        float low_reach = whole(below * (base + direction * (turn + next_way)));
        out->cell[i] = (int32_t)row * stride + (int32_t)column;
        out->a[i] = (int32_t)(w->sign[i] * (above * (2 * UNIT) - reach));
        out->b[i] = (int32_t)(w->sign[i] * reach);
        out->c[i] = (int32_t)(w->sign[i] * (below * (2 * UNIT) - low_reach));
        out->d[i] = (int32_t)(w->sign[i] * low_reach);
        w->at[i] = next_way;
        w->other[i] = next_y;
    }
}

static BASE_WITHIN void add_flat(const struct paint_cells *c, const struct pieces *p, uint32_t count)
{
    size_t stride = (size_t)c->blocks * BLOCK;
    for (uint32_t i = 0; i < count; i++) {
        size_t at = (size_t)p->cell[i], under = at + stride;
        c->touched[at / BLOCK] = 1;
        c->touched[(at + 1) / BLOCK] = 1;
        c->touched[under / BLOCK] = 1;
        c->touched[(under + 1) / BLOCK] = 1;
        c->areas[at] += (uint32_t)p->a[i];
        c->areas[at + 1] += (uint32_t)p->b[i];
        c->areas[under] += (uint32_t)p->c[i];
        c->areas[under + 1] += (uint32_t)p->d[i];
    }
}

static BASE_WITHIN float most_pieces(const struct walks *w, uint32_t count)
{
    float pieces = 0;
    for (uint32_t i = 0; i < count; i++)
        pieces = most(pieces, w->pieces[i]);
    return whole(pieces);
}

static BASE_WITHIN void add_measured(struct paint_cells *c, const struct paint_parcel *p, enum paint_edge_kind kind,
                                     float shift)
{
    struct walks w;
    struct pieces out;
    int32_t stride = c->blocks * BLOCK;
    if (kind == PAINT_STEEP) {
        begin_steep(&w, p, shift);
        float pieces = most_pieces(&w, p->count);
        for (float k = 0; k < pieces; k++) {
            step_steep(&w, &out, p->count, k, stride);
            add_steep(c, &out, p->count);
        }
    } else {
        begin_flat(&w, p, shift);
        float pieces = most_pieces(&w, p->count);
        for (float k = 0; k < pieces; k++) {
            step_flat(&w, &out, p->count, k, stride);
            add_flat(c, &out, p->count);
        }
    }
}

BASE_WIDE void paint_cells_add(struct paint_cells *c, const struct paint_parcel *parcel, enum paint_edge_kind kind)
{
    add_measured(c, parcel, kind, -SHIFT);
    add_measured(c, parcel, kind, SHIFT);
}

/* ---- cells into light ---- */

static BASE_WITHIN uint16_t share_of(uint32_t area)
{
    uint32_t lit = area > INT32_MAX ? 0 - area : area, most = BOTH;
    return (uint16_t)(((lit < most ? lit : most) + (1u << (SHARE_BITS - 1))) >> SHARE_BITS);
}

static BASE_WITHIN uint32_t sweep_block(uint32_t area, uint32_t *cells, uint16_t *shares)
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
static BASE_WITHIN size_t add_run(struct paint_run *runs, size_t count, int first, int end, bool even)
{
    if (count && runs[count - 1].end == first && runs[count - 1].even == even && !even) {
        runs[count - 1].end = end;
        return count;
    }
    runs[count] = (struct paint_run){ first, end, even };
    return count + 1;
}

/* Pixels without an edge: all dark, or lit alike. */
static BASE_WITHIN size_t sweep_even(struct paint_cells *c, uint32_t area, size_t count, int first, int end)
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

/* Runs count cells here; in the end they are the picture's pixels. */
static size_t cut_to_picture(struct paint_run *runs, size_t count, int width)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        int first = runs[i].first - LEAD, end = runs[i].end - LEAD;
        first = first > 0 ? first : 0;
        end = end < width ? end : width;
        if (first < end)
            runs[kept++] = (struct paint_run){ first, end, runs[i].even };
    }
    return kept;
}

BASE_WIDE struct paint_row paint_cells_sweep(struct paint_cells *c, int row)
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
    count = cut_to_picture(c->runs, count, c->width);
    return (struct paint_row){ c->shares + LEAD, c->runs, count };
}
