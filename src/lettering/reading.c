#include "lettering/reading.h"

#include <stdlib.h>
#include <string.h>

/* Own bounds, no source. */
#define STACKED 0.5       /* of a dot's width above or below its letter */
#define INTO 0.2          /* of its height beside it */
#define ABOVE 0.6         /* of the row's height: no farther off */
#define TOGETHER 0.12     /* how much less like a letter the two may be in one */
#define COST_MOST 0.7     /* of one glyph: no letter at all */
#define PLACE_COST 2.0    /* of the squares of what bottom and top are off, in heights of capitals */
#define CAPITALS 0.08     /* of a glyph, for each time that the capitals are higher than the row */
#define TALL_LEAST 0.45   /* of the height of capitals: what is lower says too little of it */
#define SLOPE_LEAST 0.004 /* what the direction is put right by */
#define SLOPE_MOST 0.2

enum { HYPOTHESES_OF = 3, GLYPHS_ASKED = 40 };

struct line_reading {
    struct arena *a;
    struct lettering_reader *reader;
    const struct lettering_ink *inks;
    struct lettering_reading out;
    double height; /* of its highest cell */
    double low;    /* height of letters like x, in heights of capitals; 0: as in the fonts */
};

/* ------------------------------------------------------------------------------------------------------------ glyphs
 */

static struct lettering_form form_of(const struct line_reading *r, const struct lettering_glyph *g)
{
    size_t count = 0;
    for (size_t i = 0; i < g->ink_count; i++)
        count += r->inks[g->inks[i]].count;
    struct geometry_path *contours = base_arena_alloc(r->a, count, sizeof *contours);
    count = 0;
    for (size_t i = 0; i < g->ink_count; i++)
        for (size_t k = 0; k < r->inks[g->inks[i]].count; k++) {
            struct geometry_path path = geometry_path_copy(r->a, r->inks[g->inks[i]].contours[k]);
            for (size_t p = 0; p < path.count; p++)
                path.points[p] =
                    (vec2){ vec2_dot(r->out.along, path.points[p]), vec2_cross(r->out.along, path.points[p]) };
            contours[count++] = path;
        }
    return lettering_form_of(contours, count);
}

static void guess(const struct line_reading *r, struct lettering_glyph *g)
{
    struct lettering_form form = form_of(r, g);
    g->guesses = lettering_guess(r->reader, &form);
}

static double apart(const struct lettering_glyph *g)
{
    return g->guesses.items[0].apart;
}

static double height_of(const struct lettering_cell *c)
{
    return c->high - c->low;
}

/* How much of a mark's width stands above or below a letter; 0: it is no part of it. */
static double stacked(const struct line_reading *r, const struct lettering_cell *mark, const struct lettering_cell *of)
{
    double shared = fmin(mark->right, of->right) - fmax(mark->left, of->left), width = mark->right - mark->left;
    double into = fmin(mark->high, of->high) - fmax(mark->low, of->low);
    bool lower = height_of(mark) < height_of(of) || (height_of(mark) == height_of(of) && mark->low > of->low);
    bool fits = lower && shared >= STACKED * width && into <= INTO * height_of(mark) && -into <= ABOVE * r->height;
    return fits ? shared / width : 0;
}

/* A dot of a dot stands for itself. */
static size_t *without_chains(struct arena *a, const size_t *of, size_t count)
{
    size_t *out = base_arena_alloc(a, count, sizeof *out);
    for (size_t i = 0; i < count; i++)
        out[i] = of[of[i]] == of[i] ? of[i] : i;
    return out;
}

/* For each cell the letter that it is a dot of, or itself. */
static size_t *find_letters(const struct line_reading *r, const struct lettering_line *line)
{
    size_t *of = base_arena_alloc(r->a, line->count, sizeof *of), first = 0;
    double widest = 0;
    for (size_t i = 0; i < line->count; i++)
        widest = fmax(widest, line->cells[i].right - line->cells[i].left);
    for (size_t i = 0; i < line->count; i++) {
        double best = 0;
        of[i] = i;
        while (line->cells[first].left < line->cells[i].left - widest)
            first++;
        for (size_t k = first; k < line->count && line->cells[k].left <= line->cells[i].right; k++) {
            double share = k == i ? 0 : stacked(r, &line->cells[i], &line->cells[k]);
            if (share > best) {
                best = share;
                of[i] = k;
            }
        }
    }
    return without_chains(r->a, of, line->count);
}

static struct lettering_glyph glyph_of(const struct line_reading *r, const struct lettering_cell *cell)
{
    struct lettering_glyph g = { .inks = { cell->ink }, .ink_count = 1, .cell = *cell };
    guess(r, &g);
    return g;
}

static void add(struct lettering_glyph *g, const struct lettering_cell *cell)
{
    g->inks[g->ink_count++] = cell->ink;
    g->cell.left = fmin(g->cell.left, cell->left);
    g->cell.right = fmax(g->cell.right, cell->right);
    g->cell.low = fmin(g->cell.low, cell->low);
    g->cell.high = fmax(g->cell.high, cell->high);
}

/* A letter with its dots is one glyph if it is as much like one as its parts are. */
static void put_letter(struct line_reading *r, const struct lettering_line *line, const size_t *of, size_t at)
{
    struct lettering_glyph *parts = r->out.glyphs + r->out.count;
    size_t count = 1;
    parts[0] = glyph_of(r, &line->cells[at]);
    struct lettering_glyph whole = parts[0];
    double worst = apart(&parts[0]);
    for (size_t k = 0; k < line->count; k++) {
        if (k == at || of[k] != at)
            continue;
        parts[count] = glyph_of(r, &line->cells[k]);
        worst = fmax(worst, apart(&parts[count++]));
        if (whole.ink_count < GLYPH_INKS_MOST)
            add(&whole, &line->cells[k]);
    }
    if (count > 1) {
        guess(r, &whole);
        if (whole.ink_count == count && apart(&whole) <= worst + TOGETHER)
            parts[0] = whole, count = 1;
    }
    r->out.count += count;
}

static int by_left(const void *pa, const void *pb)
{
    const struct lettering_glyph *a = pa, *b = pb;
    if (a->cell.left != b->cell.left)
        return a->cell.left < b->cell.left ? -1 : 1;
    return (a->inks[0] > b->inks[0]) - (a->inks[0] < b->inks[0]);
}

static void find_glyphs(struct line_reading *r, const struct lettering_line *line)
{
    const size_t *of = find_letters(r, line);
    r->out.glyphs = base_arena_alloc(r->a, line->count, sizeof *r->out.glyphs);
    for (size_t i = 0; i < line->count; i++)
        if (of[i] == i)
            put_letter(r, line, of, i);
    if (r->out.count)
        qsort(r->out.glyphs, r->out.count, sizeof *r->out.glyphs, by_left);
}

/* ------------------------------------------------------------------------------------------------------- the baseline
 */

/* Letters as high as an x. */
static bool is_low(int letter)
{
    return strchr("acegmnopqrsuvwxyz", lettering_letter_text(letter)[0]) && !lettering_letter_text(letter)[1];
}

static double square(double x)
{
    return x * x;
}

static double cost_of(const struct line_reading *r, const struct lettering_glyph *g, size_t k, double cap, double base)
{
    const struct lettering_guess *guess = &g->guesses.items[k];
    double top = r->low > 0 && is_low(guess->letter) ? r->low : guess->top;
    double off = square((g->cell.low - base) / cap - guess->bottom) + square((g->cell.high - base) / cap - top);
    return guess->apart + PLACE_COST * off;
}

static double least_cost(const struct line_reading *r, const struct lettering_glyph *g, double cap, double base)
{
    double least = COST_MOST;
    for (size_t k = 0; k < g->guesses.count && g->guesses.items[k].apart < least; k++)
        least = fmin(least, cost_of(r, g, k, cap, base));
    return least;
}

static double row_cost(const struct line_reading *r, double cap, double base)
{
    size_t step = 1 + r->out.count / GLYPHS_ASKED;
    double sum = 0;
    for (size_t i = 0; i < r->out.count; i += step)
        sum += least_cost(r, &r->out.glyphs[i], cap, base);
    return sum;
}

/* Each letter that a glyph may be would have its baseline: the one that suits all. Of two that suit alike, that of
 * smaller letters, whose letters are capitals then. */
static void find_baseline(struct line_reading *r)
{
    size_t step = 1 + r->out.count / GLYPHS_ASKED, asked = (r->out.count + step - 1) / step;
    double least = INFINITY, higher = CAPITALS * (double)asked / r->height;
    r->out.cap = 0;
    for (size_t i = 0; i < r->out.count; i += step) {
        const struct lettering_glyph *g = &r->out.glyphs[i];
        for (size_t k = 0; k < g->guesses.count && k < HYPOTHESES_OF; k++) {
            const struct lettering_guess *guess = &g->guesses.items[k];
            double high = guess->top - guess->bottom;
            if (high < TALL_LEAST)
                continue;
            double cap = height_of(&g->cell) / high, base = g->cell.low - guess->bottom * cap;
            double cost = row_cost(r, cap, base) + higher * cap;
            if (cost < least) {
                least = cost;
                r->out.cap = cap;
                r->out.base = base;
            }
        }
    }
}

static void settle_costs(struct line_reading *r)
{
    r->out.cost = 0;
    for (size_t i = 0; i < r->out.count; i++) {
        struct lettering_glyph *g = &r->out.glyphs[i];
        double least = COST_MOST;
        g->best = 0;
        for (size_t k = 0; k < g->guesses.count; k++) {
            g->costs[k] = cost_of(r, g, k, r->out.cap, r->out.base);
            if (g->costs[k] < least) {
                least = g->costs[k];
                g->best = k;
            }
        }
        r->out.cost += least / (double)r->out.count;
    }
}

static int by_number(const void *pa, const void *pb)
{
    const double *a = pa, *b = pb;
    return (*a > *b) - (*a < *b);
}

/* How high the letters like x are here, as two or more of them say. */
static void find_low_letters(struct line_reading *r)
{
    double *tops = base_arena_alloc(r->a, r->out.count, sizeof *tops);
    size_t count = 0;
    for (size_t i = 0; i < r->out.count; i++) {
        const struct lettering_glyph *g = &r->out.glyphs[i];
        if (is_low(g->guesses.items[g->best].letter))
            tops[count++] = (g->cell.high - r->out.base) / r->out.cap;
    }
    if (count < 2)
        return;
    qsort(tops, count, sizeof *tops, by_number);
    r->low = tops[count / 2];
}

/* How much the baseline rises on its way, by least squares over the bottoms of the letters as they were read. */
static double slope_of(const struct lettering_reading *r)
{
    double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, from = r->count ? r->glyphs[0].cell.left : 0;
    for (size_t i = 0; i < r->count; i++) {
        const struct lettering_glyph *g = &r->glyphs[i];
        if (g->costs[g->best] > COST_MOST / 2)
            continue;
        double x = (g->cell.left + g->cell.right) / 2 - from;
        double y = g->cell.low - g->guesses.items[g->best].bottom * r->cap - r->base;
        n += 1, sx += x, sy += y, sxx += x * x, sxy += x * y;
    }
    double spread = n * sxx - sx * sx;
    return n >= 3 && spread > 0 ? (n * sxy - sx * sy) / spread : 0;
}

static struct lettering_reading read_along(struct arena *a, struct lettering_reader *reader,
                                           const struct lettering_ink *inks, const struct lettering_line *line,
                                           vec2 along)
{
    struct line_reading r = { .a = a, .reader = reader, .inks = inks, .out = { .along = along, .cost = INFINITY } };
    for (size_t i = 0; i < line->count; i++)
        r.height = fmax(r.height, height_of(&line->cells[i]));
    find_glyphs(&r, line);
    if (r.height > 0)
        find_baseline(&r);
    if (!(r.out.cap > 0)) {
        r.out.count = 0;
        return r.out;
    }
    settle_costs(&r);
    find_low_letters(&r);
    if (r.low > 0) {
        find_baseline(&r);
        settle_costs(&r);
    }
    return r.out;
}

static struct lettering_line turned_line(struct arena *a, const struct lettering_ink *inks,
                                         const struct lettering_line *line, vec2 along)
{
    struct lettering_line out = { base_arena_alloc(a, line->count, sizeof *out.cells), line->count };
    for (size_t i = 0; i < line->count; i++)
        out.cells[i] = lettering_cell_of(inks, line->cells[i].ink, along);
    lettering_sort_cells(out.cells, out.count);
    return out;
}

struct lettering_reading lettering_read_line(struct arena *a, struct lettering_reader *reader,
                                             const struct lettering_ink *inks, const struct lettering_line *line,
                                             vec2 along)
{
    struct lettering_line cells = turned_line(a, inks, line, along);
    struct lettering_reading first = read_along(a, reader, inks, &cells, along);
    double slope = slope_of(&first);
    if (fabs(slope) < SLOPE_LEAST || fabs(slope) > SLOPE_MOST)
        return first;
    vec2 better = vec2_unit(vec2_sub(along, vec2_scale(vec2_right(along), slope)));
    cells = turned_line(a, inks, line, better);
    struct lettering_reading second = read_along(a, reader, inks, &cells, better);
    return second.cost <= first.cost ? second : first;
}
