/* Cells of a grid are marked outline by outline: what lies within it row by row, what lies near it side by side. Then
 * what is left of the cloth when the items are cut is followed from cell to cell, from where the cloth goes on. */
#include "spans/waste.h"

#include <assert.h>
#include <math.h>

/* Cloth nearer than this to a cut holds nothing: a strip narrower than a centimetre twists. Our own choice. */
#define FRAYED_MM 5.0

/* Of places of marks that come back from a file. */
#define ROUNDED_MM 0.1

enum {
    GONE = 1 /* cut out, frayed or not there */,
    TAKEN = 2 /* no place for a mark */,
    HOLDS = 4,
    NEAR = 8 /* a mark */
};

/* Cell (col, row) stands for the place x + col * grid, y + row * grid. */
struct grid {
    double x, y;
    double clear_mm;
    long cols, rows;
    unsigned char *cells;
};

static struct grid grid_over(struct arena *a, const struct spans_cloth *cloth, struct spans_stretch stretch,
                             double clear_mm)
{
    double end = fmin(stretch.to_mm, cloth->length_mm), top = fmin(stretch.across_mm, cloth->width_mm);
    struct grid g = { .x = stretch.from_mm,
                      .clear_mm = clear_mm,
                      .cols = (long)floor(fmax(end - stretch.from_mm, 0) / SPANS_GRID_MM) + 1,
                      .rows = (long)floor(fmax(top, 0) / SPANS_GRID_MM) + 1 };
    g.cells = base_arena_alloc(a, (size_t)g.cols * (size_t)g.rows, 1);
    return g;
}

/* The cells of a span of coordinates, first … last; none when first > last. */
struct range {
    long first, last;
};

static struct range range_of(double low, double high, double origin, long count)
{
    double first = ceil((low - origin) / SPANS_GRID_MM), last = floor((high - origin) / SPANS_GRID_MM);
    return (struct range){ (long)fmin(fmax(first, 0), (double)count), (long)fmin(fmax(last, -1), (double)count - 1) };
}

static void mark_row(const struct grid *g, long row, struct range cols, unsigned char flags)
{
    for (long col = cols.first; col <= cols.last; col++)
        g->cells[row * g->cols + col] |= flags;
}

/* ---- Within an outline ---- */

static void mark_within(struct arena *a, const struct grid *g, struct geometry_path p, unsigned char flags)
{
    struct geometry_box box = geometry_path_box(p);
    struct range rows = range_of(box.min.y, box.max.y, g->y, g->rows);
    double *at = base_arena_alloc(a, p.count, sizeof *at);
    for (long row = rows.first; row <= rows.last; row++) {
        size_t count = geometry_path_crossings(p, g->y + (double)row * SPANS_GRID_MM, at);
        for (size_t i = 0; i + 1 < count; i += 2)
            mark_row(g, row, range_of(at[i], at[i + 1], g->x, g->cols), flags);
    }
}

/* ---- Near an outline ---- */

static double off_side(vec2 from, vec2 to, vec2 at)
{
    vec2 along = vec2_sub(to, from), way = vec2_sub(at, from);
    double length2 = vec2_dot(along, along);
    double share = length2 > 0 ? fmin(fmax(vec2_dot(way, along) / length2, 0), 1) : 0;
    return vec2_length(vec2_sub(way, vec2_scale(along, share)));
}

static void mark_near_side(const struct grid *g, vec2 from, vec2 to, double near_mm, unsigned char flags)
{
    struct range cols = range_of(fmin(from.x, to.x) - near_mm, fmax(from.x, to.x) + near_mm, g->x, g->cols);
    struct range rows = range_of(fmin(from.y, to.y) - near_mm, fmax(from.y, to.y) + near_mm, g->y, g->rows);
    for (long row = rows.first; row <= rows.last; row++)
        for (long col = cols.first; col <= cols.last; col++) {
            vec2 at = { g->x + (double)col * SPANS_GRID_MM, g->y + (double)row * SPANS_GRID_MM };
            if (off_side(from, to, at) < near_mm)
                g->cells[row * g->cols + col] |= flags;
        }
}

static void mark_near(const struct grid *g, struct geometry_path p, double near_mm, unsigned char flags)
{
    for (size_t i = 0; i < p.count; i++)
        mark_near_side(g, p.points[i], p.points[(i + 1) % p.count], near_mm, flags);
}

/* ---- What takes cells ---- */

enum kept {
    NOTHING, /* it is cut out */
    INSIDE,  /* it holds within, and is cut along its sides */
    MARKED,  /* all of it, and its inside may be marked */
    WHOLE    /* all of it, but it is not marked */
};

static void mark_outline(struct arena *a, const struct grid *g, struct geometry_path p, enum kept kept)
{
    struct geometry_box box = geometry_path_box(p);
    struct range cols = range_of(box.min.x - g->clear_mm, box.max.x + g->clear_mm, g->x, g->cols);
    if (cols.first > cols.last) /* as most are, of a long lay */
        return;
    if (kept == NOTHING || kept == WHOLE)
        mark_within(a, g, p, TAKEN | (kept == NOTHING ? GONE : 0));
    mark_near(g, p, g->clear_mm, TAKEN);
    if (kept == NOTHING || kept == INSIDE)
        mark_near(g, p, FRAYED_MM, GONE);
}

static enum kept kept_of(const struct spans_ground *ground, size_t item)
{
    static const enum kept waste[] = { [SPANS_UNCUT] = WHOLE, [SPANS_BEGUN] = NOTHING, [SPANS_CUT] = NOTHING };
    static const enum kept pieces[] = { [SPANS_UNCUT] = MARKED, [SPANS_BEGUN] = INSIDE, [SPANS_CUT] = NOTHING };
    return (ground->on_pieces ? pieces : waste)[ground->cut[item]];
}

/* All but the cells that are clear of the borders of cloth and light. */
static void mark_borders(const struct grid *g, const struct spans_cloth *cloth, struct spans_stretch stretch)
{
    double left = fmax(stretch.from_mm, 0) + g->clear_mm;
    double right = fmin(stretch.to_mm, cloth->length_mm) - g->clear_mm;
    double top = fmin(stretch.across_mm, cloth->width_mm) - g->clear_mm;
    for (long row = 0; row < g->rows; row++)
        for (long col = 0; col < g->cols; col++) {
            double x = g->x + (double)col * SPANS_GRID_MM, y = g->y + (double)row * SPANS_GRID_MM;
            if (x < left || x > right || y < g->clear_mm || y > top)
                g->cells[row * g->cols + col] |= TAKEN;
        }
}

/* All that are too near a mark that is on the cloth. */
static void mark_near_chalk(const struct grid *g, const struct spans_cloth *cloth)
{
    for (size_t i = 0; i < cloth->chalked_count; i++) {
        vec2 at = { cloth->chalked[i].x, cloth->chalked[i].y };
        mark_near_side(g, at, at, SPANS_APART_MM, NEAR);
    }
}

/* ---- What holds on ---- */

struct walk {
    const struct grid *g;
    size_t *stack, count; /* each cell comes on it once at most */
};

static void hold(struct walk *w, long col, long row)
{
    if (col < 0 || col >= w->g->cols || row < 0 || row >= w->g->rows)
        return;
    size_t cell = (size_t)(row * w->g->cols + col);
    if (w->g->cells[cell] & (GONE | HOLDS))
        return;
    w->g->cells[cell] |= HOLDS;
    w->stack[w->count++] = cell;
}

static void follow_cloth(struct arena *a, const struct grid *g)
{
    struct walk w = { .g = g, .stack = base_arena_alloc(a, (size_t)g->cols * (size_t)g->rows, sizeof *w.stack) };
    for (long row = 0; row < g->rows; row++)
        hold(&w, g->cols - 1, row);
    while (w.count > 0) {
        size_t cell = w.stack[--w.count];
        long col = (long)cell % g->cols, row = (long)cell / g->cols;
        hold(&w, col - 1, row);
        hold(&w, col + 1, row);
        hold(&w, col, row - 1);
        hold(&w, col, row + 1);
    }
}

/* ---- Places ---- */

/* Cells from a column on that have of these flags just those; counted, and put where `out` is not NULL. */
static size_t take(const struct grid *g, long from, unsigned char flags, unsigned char just, struct cloth_pt *out)
{
    size_t count = 0;
    for (long row = 0; row < g->rows; row++)
        for (long col = from; col < g->cols; col++) {
            if ((g->cells[row * g->cols + col] & flags) != just)
                continue;
            if (out)
                out[count] =
                    (struct cloth_pt){ g->x + (double)col * SPANS_GRID_MM, g->y + (double)row * SPANS_GRID_MM };
            count++;
        }
    return count;
}

/* Off all marks that are on the cloth, where there is room so. */
static void add_places(struct arena *a, const struct grid *g, long from, struct spans_waste *out)
{
    unsigned char flags = out->holds ? TAKEN | HOLDS : TAKEN, just = out->holds ? HOLDS : 0;
    if (take(g, from, flags | NEAR, just, NULL) > 0)
        flags |= NEAR;
    struct cloth_pt *places = base_arena_alloc(a, take(g, from, flags, just, NULL), sizeof *places);
    out->count = take(g, from, flags, just, places);
    out->places = places;
}

/* Whether a mark that is on the cloth keeps clear of all that is, or was, cut out of it. */
static bool is_clear(const struct spans_cloth *cloth, struct cloth_pt at)
{
    const struct cloth_path *const lists[] = { cloth->outlines, cloth->blocked };
    const size_t counts[] = { cloth->count, cloth->blocked_count };
    double along;
    for (int k = 0; k < 2; k++)
        for (size_t i = 0; i < counts[k]; i++) {
            struct geometry_path p = lists[k][i].path;
            vec2 here = { at.x, at.y };
            if (p.count && (geometry_path_holds(p, here) ||
                            geometry_path_distance(p, here, &along) < SPANS_LEAST_CLEAR_MM - ROUNDED_MM))
                return false;
        }
    return true;
}

/* Whether the cell about a mark has these flags, and cloth. */
static bool is_in(const struct grid *g, struct cloth_pt at, unsigned char flags)
{
    long col = lround((at.x - g->x) / SPANS_GRID_MM), row = lround((at.y - g->y) / SPANS_GRID_MM);
    return col >= 0 && row >= 0 && col < g->cols && row < g->rows &&
           (g->cells[row * g->cols + col] & (GONE | flags)) == flags;
}

static void add_chalked(struct arena *a, const struct grid *g, const struct spans_cloth *cloth, double from_mm,
                        double to_mm, struct spans_waste *out)
{
    struct cloth_pt *chalked = base_arena_alloc(a, cloth->chalked_count, sizeof *chalked);
    for (size_t i = 0; i < cloth->chalked_count; i++) {
        struct cloth_pt at = cloth->chalked[i];
        if (at.x >= from_mm && at.x <= to_mm && is_in(g, at, out->holds ? HOLDS : 0) && is_clear(cloth, at))
            chalked[out->chalked_count++] = at;
    }
    out->chalked = chalked;
}

struct spans_waste spans_waste_find(struct arena *a, const struct spans_cloth *cloth, struct spans_stretch stretch,
                                    double begin_mm, const struct spans_ground *ground)
{
    double clear_mm = ground->clear_mm;
    struct grid g = grid_over(a, cloth, stretch, clear_mm);
    mark_borders(&g, cloth, stretch);
    for (size_t i = 0; i < cloth->count; i++)
        mark_outline(a, &g, cloth->outlines[i].path, kept_of(ground, i));
    for (size_t i = 0; i < cloth->blocked_count; i++)
        mark_outline(a, &g, cloth->blocked[i].path, NOTHING);
    follow_cloth(a, &g);
    mark_near_chalk(&g, cloth);
    struct spans_waste out = { .holds = take(&g, 0, TAKEN | HOLDS, HOLDS, NULL) > 0,
                               .is_chalked = cloth->chalked_count > 0 };
    long from = (long)fmax(ceil((begin_mm + clear_mm - g.x) / SPANS_GRID_MM), 0);
    add_places(a, &g, from, &out);
    add_chalked(a, &g, cloth, begin_mm + clear_mm, fmin(stretch.to_mm, cloth->length_mm) - clear_mm, &out);
    return out;
}
