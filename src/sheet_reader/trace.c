#include "sheet_reader/trace.h"

#include <limits.h>
#include <math.h>
#include <potracelib.h>
#include <stdlib.h>

/* Common practice, no source: ink and paper lie further apart than that in grey; ink smaller than that across is dust;
 * a corner is one by potrace's usual measure. */
#define CONTRAST_LEAST 24.0
#define DUST_MM 0.2
#define CORNER 1.0
#define CURVE_TOLERANCE 0.2 /* pixels by which curves may be off where several become one */

enum { WORD_BITS = sizeof(potrace_word) * CHAR_BIT };

/* The split where the two sides differ most: Otsu's between-class variance, here times the square of all pixels. */
unsigned trace_threshold(const uint64_t counts[256])
{
    double all = 0, sum = 0, below = 0, below_sum = 0, best = -1, apart = 0;
    unsigned at = 0;
    for (unsigned i = 0; i < 256; i++) {
        all += (double)counts[i];
        sum += (double)counts[i] * i;
    }
    for (unsigned i = 0; i < 255; i++) {
        below += (double)counts[i];
        below_sum += (double)counts[i] * i;
        if (below == 0 || below == all)
            continue;
        double between = (sum - below_sum) / (all - below) - below_sum / below;
        double variance = below * (all - below) * between * between;
        if (variance <= best)
            continue;
        best = variance;
        apart = between;
        at = i + 1;
    }
    return apart >= CONTRAST_LEAST ? at : 0;
}

static unsigned threshold_of(const uint8_t *grey, size_t count)
{
    uint64_t counts[256] = { 0 };
    for (size_t i = 0; i < count; i++)
        counts[grey[i]]++;
    return trace_threshold(counts);
}

/* Where a pixel's corner lies on the page; potrace counts from the lower left. */
struct placing {
    const struct sheet_image *image;
    double x, y; /* mm */
};

static void place(struct placing *p, potrace_dpoint_t at)
{
    const struct sheet_image *m = p->image;
    double across = at.x / m->width, up = at.y / m->height;
    p->x = m->origin[0] + across * m->across[0] + up * m->up[0];
    p->y = m->origin[1] + across * m->across[1] + up * m->up[1];
}

static potrace_bitmap_t *bitmap_create(const struct sheet_image *image, const uint8_t *grey, unsigned threshold)
{
    size_t words = (image->width + WORD_BITS - 1) / WORD_BITS, high = image->height;
    potrace_bitmap_t *map = malloc(sizeof *map);
    potrace_word *rows = calloc(words * high, sizeof *rows);
    if (!map || !rows) {
        free(map);
        free(rows);
        return NULL;
    }
    *map = (potrace_bitmap_t){ (int)image->width, (int)image->height, (int)words, rows };
    for (size_t y = 0; y < high; y++) {
        potrace_word *row = rows + (high - 1 - y) * words;
        for (size_t x = 0; x < image->width; x++, grey++)
            row[x / WORD_BITS] |= (potrace_word)(*grey < threshold) << (WORD_BITS - 1 - x % WORD_BITS);
    }
    return map;
}

static void bitmap_destroy(potrace_bitmap_t *map)
{
    if (map)
        free(map->map);
    free(map);
}

static void line_to(struct collect *c, struct placing *p, potrace_dpoint_t to)
{
    place(p, to);
    collect_line(c, p->x, p->y);
}

static void cubic_to(struct collect *c, struct placing *p, const potrace_dpoint_t to[3])
{
    struct placing a = *p, b = *p;
    place(&a, to[0]);
    place(&b, to[1]);
    place(p, to[2]);
    collect_cubic(c, a.x, a.y, b.x, b.y, p->x, p->y);
}

/* A corner is two lines; the closing line is not drawn. */
static void put_curve(struct collect *c, struct placing *p, const potrace_curve_t *curve)
{
    place(p, curve->c[curve->n - 1][2]);
    collect_move(c, p->x, p->y);
    for (int i = 0; i < curve->n; i++) {
        if (curve->tag[i] == POTRACE_CURVETO) {
            cubic_to(c, p, curve->c[i]);
            continue;
        }
        line_to(c, p, curve->c[i][1]);
        if (i + 1 < curve->n)
            line_to(c, p, curve->c[i][2]);
    }
    collect_close(c);
}

/* Each patch of ink with the holes in it is one item. */
static void put_patches(struct collect *c, uint32_t layer, struct placing *p, const potrace_path_t *all)
{
    const struct collect_style ink = { .flags = SHEET_FILLED | SHEET_TRACED };
    for (const potrace_path_t *path = all; path && !collect_failed(c); path = path->next) {
        if (path->sign != '+')
            continue;
        collect_begin(c, layer, &ink);
        put_curve(c, p, &path->curve);
        for (const potrace_path_t *hole = path->childlist; hole; hole = hole->sibling)
            put_curve(c, p, &hole->curve);
        collect_end(c);
    }
}

static double length(const double v[2])
{
    return sqrt(v[0] * v[0] + v[1] * v[1]);
}

/* Pixels of a patch that is dust. */
static int dust_of(const struct sheet_image *image)
{
    double across = length(image->across) / image->width, up = length(image->up) / image->height;
    double pixels = across > 0 && up > 0 ? DUST_MM * DUST_MM / (across * up) : 0;
    return pixels < 10000 ? (int)pixels : 10000;
}

static bool follow(struct collect *c, uint32_t layer, const struct sheet_image *image, const potrace_bitmap_t *map)
{
    struct placing p = { image, 0, 0 };
    potrace_param_t *how = potrace_param_default();
    potrace_state_t *found = NULL;
    if (how) {
        how->turdsize = dust_of(image);
        how->alphamax = CORNER;
        how->opttolerance = CURVE_TOLERANCE;
        found = potrace_trace(how, map);
        potrace_param_free(how);
    }
    bool whole = found && found->status == POTRACE_STATUS_OK;
    if (whole)
        put_patches(c, layer, &p, found->plist);
    if (found)
        potrace_state_free(found);
    return whole;
}

bool trace_put(struct collect *c, uint32_t layer, const struct sheet_image *image, const uint8_t *grey)
{
    unsigned threshold = threshold_of(grey, (size_t)image->width * image->height);
    if (!threshold)
        return true;
    potrace_bitmap_t *map = bitmap_create(image, grey, threshold);
    bool whole = map && follow(c, layer, image, map);
    bitmap_destroy(map);
    return whole;
}
