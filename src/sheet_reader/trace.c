#include "sheet_reader/trace.h"
#include "sheet_reader/centre.h"

#include <limits.h>
#include <math.h>
#include <potracelib.h>
#include <stdlib.h>

/* Common practice, no source: ink and paper lie further apart than that in grey; ink smaller than that across is dust;
 * a corner is one by potrace's usual measure. */
#define CONTRAST_LEAST 24.0
#define DUST_MM 0.2
#define LINE_MOST_MM 2.0  /* thicker ink is a patch */
#define LINE_LEAST_MM 1.0 /* so is shorter ink: a dot */
#define CORNER 1.0
#define CURVE_TOLERANCE 0.2 /* pixels by which curves may be off where several become one */

enum { WORD_BITS = sizeof(potrace_word) * CHAR_BIT, LINE_DOTS_MOST = 4 << 20 }; /* more ink is no drawing of lines */

/* The grey below which a dot is ink, 0 when there is none: N. Otsu, A Threshold Selection Method from Gray-Level
 * Histograms, IEEE Transactions on Systems, Man, and Cybernetics 9 (1979), 62-66. It is the split where the two sides
 * differ most, by their between-class variance, here times the square of all dots. */
static unsigned best_split(const uint64_t counts[256])
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
    return best_split(counts);
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

/* Of the ink that is patches. */
static potrace_bitmap_t *bitmap_create(const struct thin_map *m)
{
    size_t wide = m->width - 2, high = m->height - 2, words = (wide + WORD_BITS - 1) / WORD_BITS;
    potrace_bitmap_t *map = malloc(sizeof *map);
    potrace_word *rows = calloc(words * high, sizeof *rows);
    if (!map || !rows) {
        free(map);
        free(rows);
        return NULL;
    }
    *map = (potrace_bitmap_t){ (int)wide, (int)high, (int)words, rows };
    for (size_t y = 0; y < high; y++) {
        potrace_word *row = rows + (high - 1 - y) * words;
        const uint8_t *dots = m->dots + (y + 1) * m->width + 1;
        for (size_t x = 0; x < wide; x++)
            row[x / WORD_BITS] |= (potrace_word)((dots[x] & THIN_PATCH) != 0) << (WORD_BITS - 1 - x % WORD_BITS);
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

static bool follow_patches(struct collect *c, uint32_t layer, const struct sheet_image *image, const struct thin_map *m)
{
    potrace_bitmap_t *map = bitmap_create(m);
    bool whole = map && follow(c, layer, image, map);
    bitmap_destroy(map);
    return whole;
}

/* Lines by their middle and patches by their outline; of too much ink, all is patches. */
static bool part(struct thin_map *m, const struct sheet_image *image)
{
    double dot = fmin(length(image->across) / image->width, length(image->up) / image->height);
    double rounds = dot > 0 ? LINE_MOST_MM / 2 / dot : 0, least = dot > 0 ? LINE_LEAST_MM / dot : 0;
    if (m->count <= LINE_DOTS_MOST && rounds >= 1 && rounds < 200)
        return thin_lines(m, (unsigned)ceil(rounds), (size_t)ceil(least));
    for (size_t i = 0; i < m->count; i++)
        m->dots[m->ink[i]] = THIN_INK | THIN_PATCH;
    m->count = 0;
    return true;
}

bool trace_put(struct collect *c, uint32_t layer, const struct sheet_image *image, const uint8_t *grey)
{
    unsigned threshold = threshold_of(grey, (size_t)image->width * image->height);
    struct thin_map m;
    if (!threshold)
        return true;
    if (!thin_start(&m, grey, image->width, image->height, threshold))
        return false;
    bool whole = part(&m, image);
    if (whole)
        centre_put(c, layer, image, &m);
    whole = whole && follow_patches(c, layer, image, &m);
    thin_finish(&m);
    return whole;
}
