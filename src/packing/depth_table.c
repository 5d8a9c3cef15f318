#include "packing/depth_table.h"

#include <float.h>
#include <stdlib.h>

/* Steps up to which distances outside are told, and up to which sides are near a cell: any point of which the nearest
 * point of the grid is less than three quarters of a step from the boundary is within a step and a half of it. */
#define NEAR 1.5

/* Steps from a cell within which a side counts as near it. */
#define CELL_REACH (NEAR + 0.5)

/* Points around the region. */
enum { MARGIN = 2 };

struct building {
    struct depth_table *t;
    int *nearest;   /* of each point: an edge, or -1 */
    double *square; /* of each point: squared distance to it */
    signed char *within;
};

static const struct depth_side *sides_of(struct arena *out, const struct nofit *n)
{
    struct depth_side *sides = base_arena_alloc(out, n->count, sizeof *sides);
    for (size_t i = 0; i < n->count; i++) {
        vec2 along = vec2_sub(n->edges[i].to, n->edges[i].from);
        sides[i] = (struct depth_side){ n->edges[i].from, vec2_unit(along), vec2_length(along) };
    }
    return sides;
}

double depth_table_size(struct geometry_box box, double step)
{
    return ((box.max.x - box.min.x) / step + 2 * MARGIN + 1) * ((box.max.y - box.min.y) / step + 2 * MARGIN + 1);
}

static void set_grid(struct arena *out, struct depth_table *t, int columns, int rows, double step)
{
    t->step = step;
    t->per_unit = 1 / step;
    t->columns = columns;
    t->rows = rows;
    t->unit = step / DEPTH_UNITS;
    t->last_column = columns - 1;
    t->last_row = rows - 1;
    t->depth = base_arena_alloc(out, (size_t)rows * (size_t)columns, sizeof *t->depth);
    t->cells_across = columns / DEPTH_CELL + 1;
    t->cells_up = rows / DEPTH_CELL + 1;
}

/* Points needed to reach over a length. */
static int points_over(double length, double step)
{
    return (int)ceil(length / step) + 2 * MARGIN + 1;
}

/* --- which points are within --- */

struct crossing {
    double x;
    int up;
};

static int compare_crossings(const void *a, const void *b)
{
    const struct crossing *p = a, *q = b;
    return (p->x > q->x) - (p->x < q->x);
}

static size_t crossings_of_row(struct crossing *out, const struct convolution *c, double y)
{
    size_t count = 0;
    if (y < c->box.min.y || y > c->box.max.y)
        return 0;
    size_t row = (size_t)fmin(fmax((y - c->box.min.y) * c->rows_per_unit, 0), (double)(c->rows - 1));
    for (size_t k = c->row_first[row]; k < c->row_first[row + 1]; k++) {
        const struct convolution_edge *e = &c->edges[c->in_row[k]];
        bool from_below = e->from.y <= y, to_below = e->to.y <= y;
        if (from_below == to_below)
            continue;
        double x = e->from.x + (e->to.x - e->from.x) * ((y - e->from.y) / (e->to.y - e->from.y));
        out[count++] = (struct crossing){ x, from_below ? 1 : -1 };
    }
    qsort(out, count, sizeof *out, compare_crossings);
    return count;
}

/* Going right over an edge that runs up leaves what lies to its left. */
static void set_within(struct building *b, struct arena *scratch, const struct convolution *c)
{
    const struct depth_table *t = b->t;
    struct crossing *crossings = base_arena_alloc(scratch, c->count, sizeof *crossings);
    for (int row = 0; row < t->rows; row++) {
        size_t count = crossings_of_row(crossings, c, t->origin.y + row * t->step), next = 0;
        int winding = 0;
        signed char *within = b->within + (size_t)row * (size_t)t->columns;
        for (int column = 0; column < t->columns; column++) {
            double x = t->origin.x + column * t->step;
            for (; next < count && crossings[next].x <= x; next++)
                winding -= crossings[next].up;
            within[column] = winding > 0;
        }
    }
}

/* --- how far from the boundary --- */

static void offer(struct building *b, size_t at, int edge, double x, double y)
{
    double left, square = depth_side_square(&b->t->sides[edge], (vec2){ x, y }, &left);
    if (square < b->square[at]) {
        b->square[at] = square;
        b->nearest[at] = edge;
    }
}

static int clamp_int(double v, int last)
{
    return v <= 0 ? 0 : v >= last ? last : (int)v;
}

/* Offers an edge to the points near it, row by row. */
static void offer_near(struct building *b, const struct convolution_edge *e, int edge)
{
    const struct depth_table *t = b->t;
    double reach = NEAR * t->step;
    vec2 low = e->from.y <= e->to.y ? e->from : e->to, high = e->from.y <= e->to.y ? e->to : e->from;
    int first = clamp_int(ceil((low.y - reach - t->origin.y) * t->per_unit), t->rows - 1);
    int last = clamp_int(floor((high.y + reach - t->origin.y) * t->per_unit), t->rows - 1);
    for (int row = first; row <= last; row++) {
        double y = t->origin.y + row * t->step, rise = high.y - low.y;
        double from = rise > 0 ? fmin(fmax((y - reach - low.y) / rise, 0), 1) : 0;
        double to = rise > 0 ? fmin(fmax((y + reach - low.y) / rise, 0), 1) : 1;
        double x0 = low.x + (high.x - low.x) * from, x1 = low.x + (high.x - low.x) * to;
        int left = clamp_int(ceil((fmin(x0, x1) - reach - t->origin.x) * t->per_unit), t->columns - 1);
        int right = clamp_int(floor((fmax(x0, x1) + reach - t->origin.x) * t->per_unit), t->columns - 1);
        for (int column = left; column <= right; column++)
            offer(b, (size_t)row * (size_t)t->columns + (size_t)column, edge, t->origin.x + column * t->step, y);
    }
}

static void offer_from(struct building *b, size_t at, size_t neighbour, double x, double y)
{
    int edge = b->nearest[neighbour];
    if (edge >= 0 && edge != b->nearest[at])
        offer(b, at, edge, x, y);
}

/* One row: edges that are nearest to neighbours in the row before, then to those on either side. */
static void sweep_row(struct building *b, int row, int before)
{
    const struct depth_table *t = b->t;
    size_t start = (size_t)row * (size_t)t->columns, other = (size_t)before * (size_t)t->columns;
    double y = t->origin.y + row * t->step;
    for (int c = 1; c + 1 < t->columns; c++) {
        size_t at = start + (size_t)c;
        if (!b->within[at])
            continue;
        double x = t->origin.x + c * t->step;
        offer_from(b, at, other + (size_t)c, x, y);
        offer_from(b, at, at - 1, x, y);
    }
    for (int c = t->columns - 2; c > 0; c--)
        if (b->within[start + (size_t)c])
            offer_from(b, start + (size_t)c, start + (size_t)c + 1, t->origin.x + c * t->step, y);
}

/* Hands nearest edges on to the points deeper within: down the rows and up again. */
static void sweep(struct building *b)
{
    for (int row = 1; row < b->t->rows; row++)
        sweep_row(b, row, row - 1);
    for (int row = b->t->rows - 2; row >= 0; row--)
        sweep_row(b, row, row + 1);
}

static double signed_distance(const struct building *b, size_t at)
{
    double far = NEAR * b->t->step;
    double distance = b->nearest[at] < 0 ? far : sqrt(b->square[at]);
    return b->within[at] ? distance : -fmin(distance, far);
}

static void store_row(struct building *b, int row)
{
    struct depth_table *t = b->t;
    for (int column = 0; column < t->columns; column++) {
        size_t at = (size_t)row * (size_t)t->columns + (size_t)column;
        double units = signed_distance(b, at) / t->unit;
        t->depth[at] = (int16_t)floor(fmin(units, INT16_MAX) + 0.5);
    }
}

static double counted(const struct depth_table *t, double depth)
{
    return depth * (1 + depth / t->bend);
}

static void set_rough(struct arena *out, struct depth_table *t)
{
    int columns = (t->columns + DEPTH_PHASES - 1) / DEPTH_PHASES, rows = (t->rows + DEPTH_PHASES - 1) / DEPTH_PHASES;
    struct depth_rough *r = &t->rough;
    r->left = t->origin.x * t->per_unit;
    r->low = t->origin.y * t->per_unit;
    r->columns = (columns + DEPTH_LANES - 1) / DEPTH_LANES * DEPTH_LANES;
    r->rows = rows;
    size_t lines = (size_t)DEPTH_PHASES * DEPTH_PHASES * (size_t)r->rows;
    r->points = base_arena_alloc(out, lines * (size_t)r->columns + DEPTH_LANES, sizeof *r->points);
}

/* What is above zero stays so. */
static void store_rough(struct arena *out, struct depth_table *t)
{
    set_rough(out, t);
    int most = 1;
    for (int i = 0; i < t->rows * t->columns; i++)
        most = t->depth[i] > most ? t->depth[i] : most;
    double unit = counted(t, most * t->unit) / UINT8_MAX;
    t->rough.unit = (float)unit;
    for (int row = 0; row < t->rows; row++)
        for (int column = 0; column < t->columns; column++) {
            int depth = t->depth[row * t->columns + column];
            double units = depth > 0 ? fmax(floor(counted(t, depth * t->unit) / unit + 0.5), 1) : 0;
            t->rough.points[depth_rough_place(&t->rough, column, row)] = (uint8_t)units;
        }
}

/* --- which sides are near --- */

static void cell_range(const struct depth_table *t, const struct depth_side *s, int row, int *first, int *last)
{
    double cell = DEPTH_CELL * t->step, reach = CELL_REACH * t->step;
    double bottom = t->origin.y + row * cell - reach, top = bottom + cell + 2 * reach;
    double rise = s->unit.y * s->length, run = s->unit.x * s->length;
    double from = rise != 0 ? fmin(fmax((bottom - s->from.y) / rise, 0), 1) : 0;
    double to = rise != 0 ? fmin(fmax((top - s->from.y) / rise, 0), 1) : 1;
    double x0 = s->from.x + run * from, x1 = s->from.x + run * to;
    *first = clamp_int(floor((fmin(x0, x1) - reach - t->origin.x) / cell), t->cells_across - 1);
    *last = clamp_int(floor((fmax(x0, x1) + reach - t->origin.x) / cell), t->cells_across - 1);
}

static void cell_rows(const struct depth_table *t, const struct depth_side *s, int *first, int *last)
{
    double cell = DEPTH_CELL * t->step, reach = CELL_REACH * t->step, rise = s->unit.y * s->length;
    *first = clamp_int(floor((s->from.y + fmin(rise, 0) - reach - t->origin.y) / cell), t->cells_up - 1);
    *last = clamp_int(floor((s->from.y + fmax(rise, 0) + reach - t->origin.y) / cell), t->cells_up - 1);
}

/* Counts the sides of each cell; with `next`, lists them. */
static void visit_cells(struct depth_table *t, unsigned *next)
{
    for (size_t i = 0; i < t->side_count; i++) {
        int bottom, top, left, right;
        cell_rows(t, &t->sides[i], &bottom, &top);
        for (int row = bottom; row <= top; row++) {
            cell_range(t, &t->sides[i], row, &left, &right);
            for (int column = left; column <= right; column++) {
                size_t cell = (size_t)row * (size_t)t->cells_across + (size_t)column;
                if (next)
                    t->in_cell[t->cell_first[cell] + next[cell]++] = (unsigned)i;
                else
                    t->cell_first[cell + 1]++;
            }
        }
    }
}

static void list_cells(struct arena *out, struct arena *scratch, struct depth_table *t)
{
    size_t cells = (size_t)t->cells_across * (size_t)t->cells_up;
    t->cell_first = base_arena_alloc(out, cells + 1, sizeof *t->cell_first);
    visit_cells(t, NULL);
    for (size_t i = 0; i < cells; i++)
        t->cell_first[i + 1] += t->cell_first[i];
    t->in_cell = base_arena_alloc(out, t->cell_first[cells], sizeof *t->in_cell);
    visit_cells(t, base_arena_alloc(scratch, cells, sizeof(unsigned)));
}

struct depth_table *depth_table_of(struct arena *out, struct arena *scratch, const struct nofit *n, double step,
                                   double bend)
{
    struct depth_table *t = base_arena_alloc(out, 1, sizeof *t);
    struct geometry_box box = n->convolution.box;
    set_grid(out, t, points_over(box.max.x - box.min.x, step), points_over(box.max.y - box.min.y, step), step);
    t->origin = (vec2){ box.min.x - MARGIN * step, box.min.y - MARGIN * step };
    t->sides = sides_of(out, n);
    t->side_count = n->count;
    t->touch = n->touch;
    t->nofit = n;
    t->bend = bend;
    size_t points = (size_t)t->columns * (size_t)t->rows;
    struct building b = { t, base_arena_alloc(scratch, points, sizeof(int)),
                          base_arena_alloc(scratch, points, sizeof(double)), base_arena_alloc(scratch, points, 1) };
    for (size_t i = 0; i < points; i++) {
        b.nearest[i] = -1;
        b.square[i] = DBL_MAX;
    }
    set_within(&b, scratch, &n->convolution);
    for (size_t i = 0; i < n->count; i++)
        offer_near(&b, &n->edges[i], (int)i);
    sweep(&b);
    for (int row = 0; row < t->rows; row++)
        store_row(&b, row);
    store_rough(out, t);
    list_cells(out, scratch, t);
    return t;
}

static const struct depth_side *turned_sides(struct arena *out, const struct depth_table *t)
{
    struct depth_side *sides = base_arena_alloc(out, t->side_count, sizeof *sides);
    for (size_t i = 0; i < t->side_count; i++) {
        const struct depth_side *s = &t->sides[i];
        sides[i] = (struct depth_side){ vec2_scale(s->from, -1), vec2_scale(s->unit, -1), s->length };
    }
    return sides;
}

/* Points and rows the other way round. */
static void turn_points(struct depth_table *u, const struct depth_table *t)
{
    for (int row = 0; row < t->rows; row++) {
        int from = t->rows - 1 - row;
        for (int column = 0; column < t->columns; column++)
            u->depth[row * t->columns + column] = t->depth[from * t->columns + t->columns - 1 - column];
    }
}

struct depth_table *depth_table_turned(struct arena *out, struct arena *scratch, const struct depth_table *t)
{
    struct depth_table *u = base_arena_alloc(out, 1, sizeof *u);
    set_grid(out, u, t->columns, t->rows, t->step);
    u->origin = (vec2){ -(t->origin.x + (t->columns - 1) * t->step), -(t->origin.y + (t->rows - 1) * t->step) };
    u->sides = turned_sides(out, t);
    u->side_count = t->side_count;
    u->touch = t->touch;
    u->nofit = t->nofit;
    u->turned = !t->turned;
    u->bend = t->bend;
    turn_points(u, t);
    store_rough(out, u);
    list_cells(out, scratch, u);
    return u;
}

const unsigned *depth_table_sides(const struct depth_table *t, vec2 shift, size_t *count)
{
    double side = t->per_unit / DEPTH_CELL;
    double column = (shift.x - t->origin.x) * side, row = (shift.y - t->origin.y) * side;
    *count = 0;
    if (!(column >= 0 && row >= 0 && column < t->cells_across && row < t->cells_up))
        return NULL;
    size_t cell = (size_t)row * (size_t)t->cells_across + (size_t)column;
    *count = t->cell_first[cell + 1] - t->cell_first[cell];
    return t->in_cell + t->cell_first[cell];
}

/* Squared distances that differ by no more than this share are one: rounding. */
#define TIE 1e-10

/* Signed distance to the boundary from the sides near. Where two sides are nearest with the corner they share, the one
 * whose line is farther off tells the side. */
static double exact(const struct depth_table *t, vec2 shift, double otherwise)
{
    size_t count;
    const unsigned *near = depth_table_sides(t, shift, &count);
    double least = DBL_MAX, side = 0, same = 1e-4 * t->touch * t->touch;
    for (size_t i = 0; i < count; i++) {
        double left, distance = depth_side_square(&t->sides[near[i]], shift, &left);
        double tie = TIE * distance + same;
        if (distance < least - tie || (distance <= least + tie && fabs(left) > fabs(side)))
            side = left;
        least = distance < least ? distance : least;
    }
    if (!count)
        return otherwise;
    return side > 0 ? sqrt(least) : -sqrt(least);
}

static double between_points(const struct depth_table *t, double column, double row)
{
    int c = (int)column, r = (int)row;
    double u = column - c, v = row - r;
    const int16_t *low = &t->depth[r * t->columns + c], *high = low + t->columns;
    double near = (1 - u) * low[0] + u * low[1], far = (1 - u) * high[0] + u * high[1];
    return ((1 - v) * near + v * far) * t->unit;
}

double depth_table_overlap_near(const struct depth_table *t, vec2 shift, double column, double row, int nearest)
{
    double depth = nearest < -DEPTH_OUTSIDE ? exact(t, shift, nearest * t->unit) : between_points(t, column, row);
    return depth > t->touch ? counted(t, depth) : 0;
}

double depth_table_ray(struct arena *scratch, const struct depth_table *t, vec2 shift, vec2 direction, double most)
{
    double sign = t->turned ? -1 : 1;
    return nofit_ray(scratch, t->nofit, vec2_scale(shift, sign), vec2_scale(direction, sign), most);
}
