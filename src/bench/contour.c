#include "bench/contour.h"

/* Between two neighbours of the grid lies an edge: those to the right come first, then those to the next row. A line
 * crosses an edge once; in a cell it goes from one edge to another, so that each edge has up to two others it leads to,
 * one in each of its cells. */
struct grid {
    const double *heights;
    size_t columns, rows;
    double level;
    size_t (*next)[2]; /* of each edge the edges its line leads to; NONE */
    bool *walked;
};

static const size_t none = (size_t)-1;

static bool is_above(const struct grid *g, size_t column, size_t row)
{
    return g->heights[row * g->columns + column] >= g->level;
}

static size_t edge_right(const struct grid *g, size_t column, size_t row)
{
    return row * g->columns + column;
}

static size_t edge_down(const struct grid *g, size_t column, size_t row)
{
    return (g->rows + row) * g->columns + column;
}

static vec2 place_of(const struct grid *g, size_t edge)
{
    bool down = edge >= g->rows * g->columns;
    size_t from = down ? edge - g->rows * g->columns : edge, to = from + (down ? g->columns : 1);
    double share = (g->level - g->heights[from]) / (g->heights[to] - g->heights[from]);
    size_t column = from % g->columns, row = from / g->columns;
    vec2 at = { (double)column, (double)row };
    return vec2_add(at, down ? (vec2){ 0, share } : (vec2){ share, 0 });
}

static void link(struct grid *g, size_t one, size_t other)
{
    g->next[one][g->next[one][0] != none] = other;
    g->next[other][g->next[other][0] != none] = one;
}

/* The edges of a cell that are crossed, around it; at a saddle those around the corner that is unlike the middle belong
 * together. */
static void link_cell(struct grid *g, size_t column, size_t row)
{
    bool corner[] = { is_above(g, column, row), is_above(g, column + 1, row), is_above(g, column + 1, row + 1),
                      is_above(g, column, row + 1) };
    size_t around[] = { edge_right(g, column, row), edge_down(g, column + 1, row), edge_right(g, column, row + 1),
                        edge_down(g, column, row) };
    size_t crossed[4], count = 0;
    for (size_t i = 0; i < 4; i++)
        if (corner[i] != corner[(i + 1) % 4])
            crossed[count++] = around[i];
    if (count == 2)
        link(g, crossed[0], crossed[1]);
    if (count < 4)
        return;
    const double *h = g->heights + row * g->columns + column;
    bool middle = (h[0] + h[1] + h[g->columns] + h[g->columns + 1]) / 4 >= g->level;
    size_t first = corner[1] != middle ? 0 : 1; /* corner 1 lies between the edges 0 and 1, corner 2 between 1 and 2 */
    link(g, crossed[first], crossed[first + 1]);
    link(g, crossed[first + 2], crossed[(first + 3) % 4]);
}

/* The line from an edge on, each edge once. */
static struct bench_contour walk(struct grid *g, struct arena *a, size_t from)
{
    size_t count = 0, most = 2 * g->columns * g->rows;
    vec2 *points = base_arena_alloc(a, most, sizeof *points);
    size_t at = from;
    while (at != none && !g->walked[at]) {
        g->walked[at] = true;
        points[count++] = place_of(g, at);
        const size_t *next = g->next[at];
        at = next[0] != none && !g->walked[next[0]] ? next[0] : next[1];
    }
    return (struct bench_contour){ points, count, g->next[from][1] != none };
}

struct bench_contours bench_contours_of(struct arena *a, const double *heights, size_t columns, size_t rows,
                                        double level)
{
    size_t edges = 2 * columns * rows;
    struct arena *own = base_arena_create();
    struct grid g = { heights,
                      columns,
                      rows,
                      level,
                      base_arena_alloc(own, edges, sizeof *g.next),
                      base_arena_alloc(own, edges, sizeof *g.walked) };
    struct bench_contours out = { base_arena_alloc(a, edges, sizeof *out.items), 0 };
    for (size_t i = 0; i < edges; i++)
        g.next[i][0] = g.next[i][1] = none;
    for (size_t row = 0; row + 1 < rows; row++)
        for (size_t column = 0; column + 1 < columns; column++)
            link_cell(&g, column, row);
    for (int closed = 0; closed < 2; closed++) /* those that end at the grid's edge first, from their ends */
        for (size_t i = 0; i < edges; i++)
            if (g.next[i][0] != none && !g.walked[i] && (g.next[i][1] == none || closed))
                out.items[out.count++] = walk(&g, a, i);
    base_arena_destroy(own);
    return out;
}
