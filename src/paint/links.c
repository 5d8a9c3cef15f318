#include "base/wide.h"
#include "paint/cells.h"
#include "paint/grid.h"
#include "paint/lanes.h"

#include <assert.h>
#include <string.h>

/* Most links are some pixels long, and a processor loses more time by a wrong guess at where a loop ends than by work.
 * So eight links go beside each other, each in as many steps as the one that has most: steep ones row by row, flat ones
 * column by column. A step before the start of a link or behind its end has no height and adds nothing.
 *
 * Both measurements go along: in a row the lower one lies right of the upper, and in a column under it, by one pixel at
 * most, so that what both add to a row is four cells side by side, and to a column three pairs. Heights, ways and areas
 * are whole numbers under 2^24, which floats hold exactly. */

enum {
    UNIT = PAINT_UNIT,
    UNITS_PER_SUBPIXEL = UNIT / PAINT_SUBPIXEL,
    SHIFT = PAINT_SHIFT * UNITS_PER_SUBPIXEL,
    BAND = PAINT_BAND_ROWS * UNIT
};

static_assert((int)PAINT_LINKS % (int)PAINT_LANES == 0, "a parcel is a whole number of lanes");

static BASE_WITHIN paint_lanes all(float number)
{
    return (paint_lanes){ 0 } + number;
}

static BASE_WITHIN paint_lanes between(paint_lanes low, paint_lanes number, paint_lanes high)
{
    return paint_lanes_least(paint_lanes_most(number, low), high);
}

/* The row or column in which a length that is not negative ends. */
static BASE_WITHIN paint_lanes cell_of(paint_lanes length)
{
    return paint_lanes_whole(length * (1.0f / UNIT));
}

/* Upper ends of links, from the first cell. */
static BASE_WITHIN paint_lanes x_of(const struct paint_parcel *p, uint32_t first)
{
    paint_lanes_int x = paint_lanes_of_ints(p->x + first) + PAINT_LEAD * PAINT_SUBPIXEL;
    return __builtin_convertvector(x, paint_lanes) * UNITS_PER_SUBPIXEL;
}

static BASE_WITHIN paint_lanes y_of(const struct paint_parcel *p, uint32_t first)
{
    return paint_lanes_of_shorts(p->y + first) * UNITS_PER_SUBPIXEL;
}

/* Numbers that are not negative, or that wrap. */
static BASE_WITHIN paint_lanes_uint cut(paint_lanes a)
{
    return (paint_lanes_uint)paint_lanes_cut(a);
}

/* Numbers of lanes for loops that take them one by one. */
struct numbers {
    uint32_t of[PAINT_LANES];
};

static BASE_WITHIN struct numbers numbers(paint_lanes_uint lanes)
{
    struct numbers out;
    memcpy(&out, &lanes, sizeof out);
    return out;
}

/* ---- steep links ---- */

/* One measurement on its way down. */
struct descent {
    paint_lanes x0, y0; /* where the link starts */
    paint_lanes end;    /* the height at which it ends or leaves the band */
    paint_lanes x, y;   /* how far it is */
};

struct steep {
    paint_lanes slope;        /* way across by way down */
    paint_lanes inverse;      /* and the other way round, without sign */
    paint_lanes sign;         /* of the links */
    paint_lanes first, steps; /* the row in which a link starts, and how many more it comes through */
    struct descent upper, lower;
};

static BASE_WITHIN struct descent begin_descent(paint_lanes x, paint_lanes y, paint_lanes down, paint_lanes slope,
                                                float shift)
{
    struct descent d = { .x0 = x + shift, .y0 = y + shift };
    d.y = between(all(0), d.y0, all(BAND));
    d.end = between(all(0), d.y0 + down, all(BAND));
    d.x = d.x0 + slope * (d.y - d.y0);
    return d;
}

static BASE_WITHIN struct steep begin_steep(const struct paint_parcel *p, uint32_t first)
{
    paint_lanes across = paint_lanes_of_shorts(p->across + first), down = paint_lanes_of_shorts(p->down + first);
    paint_lanes x = x_of(p, first), y = y_of(p, first), slope = across / down;
    struct steep s = { .slope = slope, .sign = paint_lanes_of_shorts(p->sign + first) };
    s.inverse = down / paint_lanes_most(paint_lanes_most(across, -across), all(1.0f / UNIT));
    s.upper = begin_descent(x, y, down * UNITS_PER_SUBPIXEL, slope, -SHIFT);
    s.lower = begin_descent(x, y, down * UNITS_PER_SUBPIXEL, slope, SHIFT);
    s.first = cell_of(s.upper.y);
    s.steps = paint_lanes_most(cell_of(s.lower.end + (UNIT - 1)) - 1 - s.first, all(0));
    return s;
}

/* The piece of a measurement in one row. */
struct steep_piece {
    paint_lanes left, right, height;
};

static BASE_WITHIN struct steep_piece descend(struct descent *d, paint_lanes slope, paint_lanes border)
{
    paint_lanes y = paint_lanes_most(paint_lanes_least(border, d->end), d->y), x = d->x0 + slope * (y - d->y0);
    struct steep_piece piece = { paint_lanes_least(d->x, x), paint_lanes_most(d->x, x), y - d->y };
    d->x = x;
    d->y = y;
    return piece;
}

/* What a piece adds to a column and the two right of it. It begins in that column and ends there or in the next. */
struct steep_areas {
    paint_lanes of[3];
};

static BASE_WITHIN struct steep_areas steep_areas(const struct steep *s, struct steep_piece piece, paint_lanes column)
{
    paint_lanes start = column * UNIT, border = start + UNIT, beyond = paint_lanes_most(piece.right - border, all(0));
    paint_lanes after = paint_lanes_whole(paint_lanes_least(beyond * s->inverse, piece.height)) * s->sign;
    paint_lanes before = piece.height * s->sign - after;
    paint_lanes reach = paint_lanes_whole(before * (piece.left + paint_lanes_least(piece.right, border) - 2 * start));
    paint_lanes far_reach = paint_lanes_whole(after * beyond);
    return (struct steep_areas){ { before * (2 * UNIT) - reach, after * (2 * UNIT) - far_reach + reach, far_reach } };
}

struct steep_sum {
    paint_lanes_uint cell, add[4]; /* to that cell and the three right of it */
};

/* Both measurements in the row k under the first. */
static BASE_WITHIN struct steep_sum step_steep(struct steep *s, float k, uint32_t stride)
{
    paint_lanes row = s->first + paint_lanes_least(all(k), s->steps), border = (row + 1) * UNIT;
    struct steep_piece upper = descend(&s->upper, s->slope, border), lower = descend(&s->lower, s->slope, border);
    paint_lanes column = cell_of(upper.left), lower_column = between(column, cell_of(lower.left), column + 1);
    struct steep_areas one = steep_areas(s, upper, column), two = steep_areas(s, lower, lower_column);
    paint_lanes_int same = lower_column == column;
    struct steep_sum sum = { .cell = cut(row) * stride + cut(column) };
    sum.add[0] = cut(one.of[0] + paint_lanes_pick(same, two.of[0], all(0)));
    sum.add[1] = cut(one.of[1] + paint_lanes_pick(same, two.of[1], two.of[0]));
    sum.add[2] = cut(one.of[2] + paint_lanes_pick(same, two.of[2], two.of[1]));
    sum.add[3] = cut(paint_lanes_pick(same, all(0), two.of[2]));
    return sum;
}

typedef uint32_t four_cells __attribute__((vector_size(4 * sizeof(uint32_t))));

static BASE_WITHIN void add_four(uint32_t *cells, const uint32_t *add)
{
    four_cells sum, more;
    memcpy(&sum, cells, sizeof sum);
    memcpy(&more, add, sizeof more);
    sum += more;
    memcpy(cells, &sum, sizeof sum);
}

static BASE_WITHIN void add_steep(const struct paint_cells *c, const struct steep_sum *sum)
{
    static const int order[PAINT_LANES] = { 0, 4, 1, 5, 2, 6, 3, 7 }; /* in which lanes come out below */
    const paint_lanes_uint *add = sum->add;
    paint_lanes_uint a = __builtin_shufflevector(add[0], add[1], 0, 8, 1, 9, 4, 12, 5, 13);
    paint_lanes_uint b = __builtin_shufflevector(add[2], add[3], 0, 8, 1, 9, 4, 12, 5, 13);
    paint_lanes_uint d = __builtin_shufflevector(add[0], add[1], 2, 10, 3, 11, 6, 14, 7, 15);
    paint_lanes_uint e = __builtin_shufflevector(add[2], add[3], 2, 10, 3, 11, 6, 14, 7, 15);
    struct numbers fours[4] = { numbers(__builtin_shufflevector(a, b, 0, 1, 8, 9, 4, 5, 12, 13)),
                                numbers(__builtin_shufflevector(a, b, 2, 3, 10, 11, 6, 7, 14, 15)),
                                numbers(__builtin_shufflevector(d, e, 0, 1, 8, 9, 4, 5, 12, 13)),
                                numbers(__builtin_shufflevector(d, e, 2, 3, 10, 11, 6, 7, 14, 15)) };
    struct numbers cell = numbers(sum->cell), block = numbers(sum->cell / PAINT_BLOCK);
    struct numbers last_block = numbers((sum->cell + 3) / PAINT_BLOCK);
    uint32_t *areas = c->areas;
    unsigned char *touched = c->touched;
    for (int i = 0; i < PAINT_LANES; i++) {
        int lane = order[i];
        touched[block.of[lane]] = touched[last_block.of[lane]] = 1;
        add_four(areas + cell.of[lane], fours[i / 2].of + 4 * (i % 2));
    }
}

static BASE_WITHIN void walk_steep(const struct paint_cells *c, const struct paint_parcel *p, uint32_t first)
{
    struct steep s = begin_steep(p, first);
    float steps = paint_lanes_largest(s.steps);
    for (float k = 0; k <= steps; k++) {
        struct steep_sum sum = step_steep(&s, k, (uint32_t)c->blocks * PAINT_BLOCK);
        add_steep(c, &sum);
    }
}

/* ---- flat links ---- */

/* One measurement on its way across; ways count from the upper end, to the right or left. */
struct traverse {
    paint_lanes x0, y0;      /* where the link starts */
    paint_lanes top, bottom; /* heights at which it starts or enters the band, and ends or leaves it */
    paint_lanes end;         /* the way at which it does */
    paint_lanes way, y;      /* how far it is */
};

struct flat {
    paint_lanes slope;                  /* way across by way down, without sign */
    paint_lanes inverse;                /* and the other way round */
    paint_lanes direction;              /* +1 to the right, -1 to the left */
    paint_lanes sign;                   /* of the links */
    paint_lanes first, steps;           /* the column in which a link starts, and how many more it comes through */
    paint_lanes top_row, rows;          /* the row in which it starts, and how many more it comes through */
    paint_lanes_uint block, last_block; /* of a row, in which its columns lie */
    struct traverse upper, lower;
};

static BASE_WITHIN struct traverse begin_traverse(paint_lanes x, paint_lanes y, paint_lanes down, paint_lanes length,
                                                  paint_lanes slope, float shift)
{
    struct traverse t = { .x0 = x + shift, .y0 = y + shift };
    t.top = t.y = between(all(0), t.y0, all(BAND));
    t.bottom = between(all(0), t.y0 + down, all(BAND));
    t.way = between(all(0), (t.top - t.y0) * slope, length);
    t.end = between(all(0), (t.bottom - t.y0) * slope, length);
    return t;
}

static BASE_WITHIN paint_lanes column_at(const struct traverse *t, paint_lanes direction, paint_lanes way)
{
    return cell_of(t->x0 + direction * way);
}

static BASE_WITHIN void find_columns(struct flat *f)
{
    paint_lanes from = column_at(&f->upper, f->direction, f->upper.way);
    paint_lanes to = column_at(&f->upper, f->direction, f->upper.end);
    paint_lanes lower_from = column_at(&f->lower, f->direction, f->lower.way);
    paint_lanes lower_to = column_at(&f->lower, f->direction, f->lower.end);
    paint_lanes left = paint_lanes_least(paint_lanes_least(from, to), paint_lanes_least(lower_from, lower_to));
    paint_lanes right = paint_lanes_most(paint_lanes_most(from, to), paint_lanes_most(lower_from, lower_to));
    f->first = paint_lanes_pick(f->direction > 0, left, right);
    f->steps = right - left;
    f->block = cut(left) / PAINT_BLOCK;
    f->last_block = (cut(right) + 1) / PAINT_BLOCK;
}

static BASE_WITHIN struct flat begin_flat(const struct paint_parcel *p, uint32_t first)
{
    paint_lanes across = paint_lanes_of_shorts(p->across + first) * UNITS_PER_SUBPIXEL;
    paint_lanes down = paint_lanes_of_shorts(p->down + first) * UNITS_PER_SUBPIXEL;
    paint_lanes length = paint_lanes_most(across, -across), x = x_of(p, first), y = y_of(p, first);
    struct flat f = { .slope = length / down, .inverse = down / length };
    f.direction = paint_lanes_pick(across > 0, all(1), all(-1));
    f.sign = paint_lanes_of_shorts(p->sign + first);
    f.upper = begin_traverse(x, y, down, length, f.slope, -SHIFT);
    f.lower = begin_traverse(x, y, down, length, f.slope, SHIFT);
    f.top_row = cell_of(f.upper.top);
    f.rows = paint_lanes_most(cell_of(f.lower.bottom + (UNIT - 1)) - 1 - f.top_row, all(0));
    find_columns(&f);
    return f;
}

/* The piece of a measurement in one column. */
struct flat_piece {
    paint_lanes way, y, next_way, next_y;
};

/* At the ends the height is the end's, or light would leak along the row. */
static BASE_WITHIN struct flat_piece traverse(struct traverse *t, const struct flat *f, paint_lanes side)
{
    paint_lanes way = paint_lanes_most(paint_lanes_least((side - t->x0) * f->direction, t->end), t->way);
    paint_lanes y = between(t->top, paint_lanes_whole(t->y0 + way * f->inverse), t->bottom);
    y = paint_lanes_pick(way < t->end, y, t->bottom);
    y = paint_lanes_pick(way > t->way, y, t->y);
    struct flat_piece piece = { t->way, t->y, way, y };
    t->way = way;
    t->y = y;
    return piece;
}

/* What a piece adds in a row and the one under it to its column and the one right of it. It begins in that row and ends
 * there or in the next. */
struct flat_areas {
    paint_lanes of[2][2];
};

static BASE_WITHIN struct flat_areas flat_areas(const struct flat *f, const struct traverse *t, struct flat_piece piece,
                                                paint_lanes column, paint_lanes row)
{
    paint_lanes border = (row + 1) * UNIT, base = 2 * (t->x0 - column * UNIT);
    paint_lanes turn = paint_lanes_least(piece.way + (border - piece.y) * f->slope, piece.next_way);
    paint_lanes above = (paint_lanes_least(piece.next_y, border) - piece.y) * f->sign;
    paint_lanes below = (piece.next_y - piece.y) * f->sign - above;
    paint_lanes reach = paint_lanes_whole(above * (base + f->direction * (piece.way + turn)));
    paint_lanes low_reach = paint_lanes_whole(below * (base + f->direction * (turn + piece.next_way)));
    return (
        struct flat_areas){ { { above * (2 * UNIT) - reach, reach }, { below * (2 * UNIT) - low_reach, low_reach } } };
}

struct flat_sum {
    paint_lanes_uint cell, add[3][2];   /* to that cell and the one right of it, and to those under them */
    paint_lanes_uint block, last_block; /* to be marked: row by row along the way, as links have fewer rows */
};

/* Both measurements in the column k from the first. */
static BASE_WITHIN struct flat_sum step_flat(struct flat *f, float k, uint32_t blocks)
{
    paint_lanes column = f->first + f->direction * paint_lanes_least(all(k), f->steps);
    paint_lanes side = (column + (f->direction * 0.5f + 0.5f)) * UNIT; /* where links leave the column */
    struct flat_piece upper = traverse(&f->upper, f, side), lower = traverse(&f->lower, f, side);
    paint_lanes row = cell_of(upper.y), lower_row = between(row, cell_of(lower.y), row + 1);
    struct flat_areas one = flat_areas(f, &f->upper, upper, column, row);
    struct flat_areas two = flat_areas(f, &f->lower, lower, column, lower_row);
    paint_lanes_int same = lower_row == row;
    struct flat_sum sum = { .cell = cut(row) * (blocks * PAINT_BLOCK) + cut(column) };
    for (int i = 0; i < 2; i++) {
        sum.add[0][i] = cut(one.of[0][i] + paint_lanes_pick(same, two.of[0][i], all(0)));
        sum.add[1][i] = cut(one.of[1][i] + paint_lanes_pick(same, two.of[1][i], two.of[0][i]));
        sum.add[2][i] = cut(paint_lanes_pick(same, all(0), two.of[1][i]));
    }
    paint_lanes_uint marked = cut(f->top_row + paint_lanes_least(all(k), f->rows)) * blocks;
    sum.block = marked + f->block;
    sum.last_block = marked + f->last_block;
    return sum;
}

typedef uint32_t two_cells __attribute__((vector_size(2 * sizeof(uint32_t))));

static BASE_WITHIN void add_two(uint32_t *cells, const uint32_t *add)
{
    two_cells sum, more;
    memcpy(&sum, cells, sizeof sum);
    memcpy(&more, add, sizeof more);
    sum += more;
    memcpy(cells, &sum, sizeof sum);
}

static BASE_WITHIN void add_flat(const struct paint_cells *c, const struct flat_sum *sum)
{
    static const int order[PAINT_LANES] = { 0, 1, 4, 5, 2, 3, 6, 7 }; /* in which lanes come out below */
    struct numbers pairs[3][2];
    for (int i = 0; i < 3; i++) {
        const paint_lanes_uint *add = sum->add[i];
        pairs[i][0] = numbers(__builtin_shufflevector(add[0], add[1], 0, 8, 1, 9, 4, 12, 5, 13));
        pairs[i][1] = numbers(__builtin_shufflevector(add[0], add[1], 2, 10, 3, 11, 6, 14, 7, 15));
    }
    struct numbers cell = numbers(sum->cell), block = numbers(sum->block), last_block = numbers(sum->last_block);
    size_t stride = (size_t)c->blocks * PAINT_BLOCK;
    uint32_t *areas = c->areas;
    unsigned char *touched = c->touched;
    for (int i = 0; i < PAINT_LANES; i++) {
        int lane = order[i];
        touched[block.of[lane]] = touched[last_block.of[lane]] = 1;
        for (size_t row = 0; row < 3; row++)
            add_two(areas + cell.of[lane] + row * stride, pairs[row][i / 4].of + 2 * (i % 4));
    }
}

static BASE_WITHIN void walk_flat(const struct paint_cells *c, const struct paint_parcel *p, uint32_t first)
{
    struct flat f = begin_flat(p, first);
    float steps = paint_lanes_largest(paint_lanes_most(f.steps, f.rows));
    for (float k = 0; k <= steps; k++) {
        struct flat_sum sum = step_flat(&f, k, (uint32_t)c->blocks);
        add_flat(c, &sum);
    }
}

BASE_WIDE void paint_cells_add(struct paint_cells *c, const struct paint_parcel *parcel, enum paint_edge_kind kind)
{
    for (uint32_t first = 0; first < parcel->count; first += PAINT_LANES) {
        if (kind == PAINT_STEEP)
            walk_steep(c, parcel, first);
        else
            walk_flat(c, parcel, first);
    }
}
