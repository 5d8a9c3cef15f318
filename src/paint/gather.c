#include "paint/gather.h"

enum { WEIGHTS = 8 * 8 };

static struct paint_gather_row empty_row(struct arena *a, int width)
{
    int32_t *sums = base_arena_alloc(a, (size_t)width + 2, sizeof *sums);
    return (struct paint_gather_row){ sums + 1, width, 0 };
}

struct paint_gather paint_gather_create(struct arena *a, const struct paint_light *light, struct paint_image *image)
{
    struct paint_gather g = { .light = light, .image = image };
    g.rows[0] = empty_row(a, image->width);
    g.rows[1] = empty_row(a, image->width);
    return g;
}

void paint_gather_begin(struct paint_gather *g, struct paint_ink ink)
{
    g->ink = paint_light_ink(g->light, ink);
    g->top = -1;
}

static void paint_pixel(const struct paint_gather *g, uint32_t *pixel, int32_t sum)
{
    if (sum)
        *pixel = paint_light_mix(g->light, &g->ink, *pixel, ((uint32_t)sum + WEIGHTS / 2) / WEIGHTS);
}

/* Paints one row, which no further half row reaches, and leaves it empty; sums beyond the picture are dropped. */
static void finish_row(struct paint_gather *g, int y)
{
    struct paint_gather_row *row = &g->rows[y & 1];
    int width = g->image->width;
    if (y >= 0 && y < g->image->height) {
        uint32_t *pixels = g->image->pixels + (size_t)y * g->image->stride;
        for (int x = row->first > 0 ? row->first : 0; x < row->end && x < width; x++)
            paint_pixel(g, &pixels[x], row->sums[x]);
    }
    for (int x = row->first; x < row->end; x++)
        row->sums[x] = 0;
    row->first = width;
    row->end = 0;
}

static void finish_above(struct paint_gather *g, int y)
{
    for (int i = 0; i < 2 && g->top < y; i++)
        finish_row(g, g->top++);
    g->top = y;
}

/* A half pixel gives 3 parts to the pixel it is in and 1 to the one that it is beside: of these two, the lower one. */
static int lower_pixel(int half)
{
    return half / 2 - 1;
}

static int lower_weight(int half)
{
    return half % 2 ? 1 : 3;
}

static void add_run(struct paint_gather_row *row, int weight, int first, int count, const int32_t *covered)
{
    int from = lower_pixel(first), end = lower_pixel(first + count - 1) + 2;
    row->first = from < row->first ? from : row->first;
    row->end = end > row->end ? end : row->end;
    for (int i = 0; i < count; i++) {
        int lower = lower_pixel(first + i), share = lower_weight(first + i);
        row->sums[lower] += share * weight * covered[i];
        row->sums[lower + 1] += (4 - share) * weight * covered[i];
    }
}

void paint_gather_run(void *gather, int half_y, int first, int count, const int32_t *covered)
{
    struct paint_gather *g = gather;
    int upper = lower_pixel(half_y), weight = lower_weight(half_y);
    finish_above(g, upper);
    add_run(&g->rows[upper & 1], weight, first, count, covered);
    add_run(&g->rows[(upper + 1) & 1], 4 - weight, first, count, covered);
}

void paint_gather_end(struct paint_gather *g)
{
    finish_above(g, g->top + 2);
}
