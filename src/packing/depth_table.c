#include "packing/depth_table.h"

#include <float.h>
#include <stdlib.h>

/* Steps up to which distances outside are told, and up to which edges are near a cell: any point of which the nearest
 * point of the grid is less than three quarters of a step from the boundary is within a step and a half of it. */
#define NEAR 1.5

/* Units of stored depths in a step. */
#define UNITS 64

/* Points around the region. */
enum { MARGIN = 2 };

/* An edge ready for distances. */
struct side {
    double x, y, ux, uy, length;
};

struct building {
    struct depth_table *t;
    const struct side *sides;
    int *nearest;   /* of each point: an edge, or -1 */
    double *square; /* of each point: squared distance to it */
    signed char *within;
};

static double square_to(const struct side *s, double x, double y)
{
    double dx = x - s->x, dy = y - s->y;
    double along = dx * s->ux + dy * s->uy;
    along = along > 0 ? along < s->length ? along : s->length : 0; /* fmin and fmax are calls */
    dx -= along * s->ux;
    dy -= along * s->uy;
    return dx * dx + dy * dy;
}

static const struct side *sides_of(struct arena *scratch, const struct nofit *n)
{
    struct side *sides = base_arena_alloc(scratch, n->count, sizeof *sides);
    for (size_t i = 0; i < n->count; i++) {
        vec2 along = vec2_sub(n->edges[i].to, n->edges[i].from), unit = vec2_unit(along);
        sides[i] = (struct side){ n->edges[i].from.x, n->edges[i].from.y, unit.x, unit.y, vec2_length(along) };
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
    t->unit = step / UNITS;
    t->block_columns = ((columns + DEPTH_PHASES - 1) / DEPTH_PHASES + DEPTH_LANES - 1) / DEPTH_LANES * DEPTH_LANES;
    t->block_rows = (rows + DEPTH_PHASES - 1) / DEPTH_PHASES;
    size_t blocks = (size_t)DEPTH_PHASES * DEPTH_PHASES * (size_t)t->block_rows;
    t->depth = base_arena_alloc(out, (size_t)rows * (size_t)columns, sizeof *t->depth);
    t->rough = base_arena_alloc(out, blocks * (size_t)t->block_columns + DEPTH_LANES, sizeof *t->rough);
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
    double square = square_to(&b->sides[edge], x, y);
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

/* What is above zero stays so. */
static void store_rough(struct depth_table *t)
{
    int most = 1;
    for (int i = 0; i < t->rows * t->columns; i++)
        most = t->depth[i] > most ? t->depth[i] : most;
    double unit = counted(t, most * t->unit) / UINT8_MAX;
    t->rough_unit = (float)unit;
    for (int row = 0; row < t->rows; row++)
        for (int column = 0; column < t->columns; column++) {
            int depth = t->depth[row * t->columns + column];
            double units = depth > 0 ? fmax(floor(counted(t, depth * t->unit) / unit + 0.5), 1) : 0;
            t->rough[depth_table_rough(t, column, row)] = (uint8_t)units;
        }
}

static void store(struct building *b)
{
    for (int row = 0; row < b->t->rows; row++)
        store_row(b, row);
    store_rough(b->t);
}

/* --- which edges are near --- */

static void cell_range(const struct depth_table *t, const struct convolution_edge *e, int row, int *first, int *last)
{
    double side = DEPTH_CELL * t->step, reach = NEAR * t->step;
    double bottom = t->origin.y + row * side - reach - t->step, top = bottom + side + 2 * (reach + t->step);
    double rise = e->to.y - e->from.y;
    double from = rise != 0 ? fmin(fmax((bottom - e->from.y) / rise, 0), 1) : 0;
    double to = rise != 0 ? fmin(fmax((top - e->from.y) / rise, 0), 1) : 1;
    double x0 = e->from.x + (e->to.x - e->from.x) * from, x1 = e->from.x + (e->to.x - e->from.x) * to;
    *first = clamp_int(floor((fmin(x0, x1) - reach - t->step - t->origin.x) / side), t->cells_across - 1);
    *last = clamp_int(floor((fmax(x0, x1) + reach + t->step - t->origin.x) / side), t->cells_across - 1);
}

static void cell_rows(const struct depth_table *t, const struct convolution_edge *e, int *first, int *last)
{
    double side = DEPTH_CELL * t->step, reach = (NEAR + 1) * t->step;
    *first = clamp_int(floor((fmin(e->from.y, e->to.y) - reach - t->origin.y) / side), t->cells_up - 1);
    *last = clamp_int(floor((fmax(e->from.y, e->to.y) + reach - t->origin.y) / side), t->cells_up - 1);
}

/* Counts the edges of each cell; with `next`, lists them. */
static void visit_cells(struct depth_table *t, unsigned *next)
{
    for (size_t i = 0; i < t->edge_count; i++) {
        int bottom, top, left, right;
        cell_rows(t, &t->edges[i], &bottom, &top);
        for (int row = bottom; row <= top; row++) {
            cell_range(t, &t->edges[i], row, &left, &right);
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
    t->edges = n->edges;
    t->edge_count = n->count;
    t->touch = n->touch;
    t->nofit = n;
    t->bend = bend;
    size_t points = (size_t)t->columns * (size_t)t->rows;
    struct building b = { t, sides_of(scratch, n), base_arena_alloc(scratch, points, sizeof(int)),
                          base_arena_alloc(scratch, points, sizeof(double)), base_arena_alloc(scratch, points, 1) };
    for (size_t i = 0; i < points; i++) {
        b.nearest[i] = -1;
        b.square[i] = DBL_MAX;
    }
    set_within(&b, scratch, &n->convolution);
    for (size_t i = 0; i < n->count; i++)
        offer_near(&b, &n->edges[i], (int)i);
    sweep(&b);
    store(&b);
    list_cells(out, scratch, t);
    return t;
}

static const struct convolution_edge *turned_edges(struct arena *out, const struct depth_table *t)
{
    struct convolution_edge *edges = base_arena_alloc(out, t->edge_count, sizeof *edges);
    for (size_t i = 0; i < t->edge_count; i++)
        edges[i] = (struct convolution_edge){ vec2_scale(t->edges[i].from, -1), vec2_scale(t->edges[i].to, -1) };
    return edges;
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
    u->edges = turned_edges(out, t);
    u->edge_count = t->edge_count;
    u->touch = t->touch;
    u->nofit = t->nofit;
    u->turned = !t->turned;
    u->bend = t->bend;
    turn_points(u, t);
    store_rough(u);
    list_cells(out, scratch, u);
    return u;
}

const unsigned *depth_table_edges(const struct depth_table *t, vec2 shift, size_t *count)
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

/* Signed distance to the boundary from the edges near. Where two edges are nearest with the corner they share, the one
 * whose line is farther off tells the side. */
static double exact(const struct depth_table *t, vec2 shift, double otherwise)
{
    size_t count;
    const unsigned *near = depth_table_edges(t, shift, &count);
    double least = DBL_MAX, side = 0;
    for (size_t i = 0; i < count; i++) {
        const struct convolution_edge *e = &t->edges[near[i]];
        double ax = e->to.x - e->from.x, ay = e->to.y - e->from.y;
        double px = shift.x - e->from.x, py = shift.y - e->from.y;
        double square = ax * ax + ay * ay;
        double along = (px * ax + py * ay) / square;
        along = along > 0 ? along < 1 ? along : 1 : 0; /* fmin and fmax are calls */
        double dx = px - along * ax, dy = py - along * ay, distance = dx * dx + dy * dy;
        double left = (ax * py - ay * px) / sqrt(square);
        double tie = TIE * distance + 1e-4 * t->touch * t->touch;
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

double depth_table_overlap(const struct depth_table *t, vec2 shift)
{
    double column = (shift.x - t->origin.x) * t->per_unit, row = (shift.y - t->origin.y) * t->per_unit;
    if (!(column >= 1 && row >= 1 && column < t->columns - 1 && row < t->rows - 1))
        return 0;
    int here = t->depth[(int)(row + 0.5) * t->columns + (int)(column + 0.5)];
    if (here <= -UNITS * 3 / 4)
        return 0;
    double depth = here < UNITS * 3 / 4 ? exact(t, shift, here * t->unit) : between_points(t, column, row);
    return depth > t->touch ? counted(t, depth) : 0;
}

double depth_table_ray(struct arena *scratch, const struct depth_table *t, vec2 shift, vec2 direction, double most)
{
    double sign = t->turned ? -1 : 1;
    return nofit_ray(scratch, t->nofit, vec2_scale(shift, sign), vec2_scale(direction, sign), most);
}
