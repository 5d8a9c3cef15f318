/* Drawings at random, cut into pages in every way that people print them, and joined again. The cutting here is done by
 * hand: where a page lies is known from it. */
#include "drawing/drawn.h"
#include "drawing/pages.h"
#include "support/room.h"

#include <stdlib.h>
#include <string.h>

enum { CASES = 250, SIZES = 5, AROUND = 60, PIECES_MOST = 80, PAGES_MOST = 64 };
enum mark { MARK_NONE, MARK_FRAME, MARK_FOUR_LINES, MARK_TICKS, MARK_CORNERS, MARKS };
enum said { SAID_NOTHING, SAID_LETTER_FIRST, SAID_NUMBER_FIRST, SAID_RUNNING, SAID_OF, SAID_WORDS, SAID_GERMAN, SAIDS };
enum shown { SHOWN_CUT, SHOWN_CLIPPED, SHOWN_WHOLE, SHOWNS };

struct random {
    uint64_t state;
};

/* Steele, Lea and Flood's SplitMix64, "Fast splittable pseudorandom number generators" (2014). */
static uint32_t next(struct random *r)
{
    uint64_t z = r->state += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (uint32_t)((z ^ (z >> 31)) >> 40);
}

static double between(struct random *r, double low, double high)
{
    return low + (high - low) * (double)next(r) / (double)(1 << 24);
}

static int below(struct random *r, int count)
{
    return (int)(next(r) % (unsigned)count);
}

/* How a sheet is cut. Every number is mm. */
struct way {
    int columns, rows, covers, gone; /* gone: a cell without a page, or -1 */
    double page[2], low[2], high[2]; /* what is seen of the sheet on a page: from, to */
    double lap[2], off;              /* off: how far each page may lie where it should not */
    enum mark mark;
    enum said said;
    enum shown shown;
    bool by_columns, shuffled, by_layers;
};

struct piece {
    vec2 points[SIZES][AROUND];
};

struct made {
    struct way way;
    struct piece pieces[PIECES_MOST];
    int piece_count;
    vec2 shift[PAGES_MOST]; /* truth: of each page of the file */
    int cell[PAGES_MOST];
    bool drawn[PAGES_MOST]; /* a line of the sheet is seen on it */
    int page_count;
};

static struct way random_way(struct random *r)
{
    static const double papers[][2] = { { 210, 297 }, { 297, 210 }, { 215.9, 279.4 }, { 279.4, 215.9 } };
    struct way w = { .columns = 1 + below(r, 5), .rows = 1 + below(r, 4), .gone = -1 };
    const double *paper = papers[below(r, 4)];
    if (w.columns * w.rows == 1)
        w.columns = 2;
    for (int axis = 0; axis < 2; axis++) {
        w.page[axis] = paper[axis];
        w.low[axis] = between(r, 4, 15);
        w.high[axis] = paper[axis] - between(r, 4, 15);
        w.lap[axis] = below(r, 2) ? between(r, 3, 25) : 0;
    }
    w.mark = (enum mark)below(r, MARKS);
    w.said = (enum said)below(r, SAIDS);
    w.shown = (enum shown)below(r, SHOWNS);
    w.by_columns = below(r, 3) == 0;
    w.by_layers = below(r, 2) == 0;
    /* Where pages are off and nothing is there twice, what lies between them cannot be known. */
    w.off = w.shown != SHOWN_CUT && below(r, 3) == 0 ? between(r, 0.1, 0.5) : 0;
    w.covers = below(r, 3) == 0 ? 1 + below(r, 2) : 0;
    w.shuffled = w.said != SAID_NOTHING && below(r, 2) == 0;
    if (w.columns * w.rows > 4 && w.said != SAID_NOTHING && below(r, 4) == 0)
        w.gone = below(r, w.columns * w.rows);
    if (w.gone >= 0) /* no line holds a page that is alone */
        w.off = 0;
    return w;
}

static double step(const struct way *w, int axis)
{
    return w->high[axis] - w->low[axis] - w->lap[axis];
}

/* Blobs with corners, in nested sizes, side by side over the whole sheet. */
static void draw_pieces(struct random *r, struct made *m)
{
    double wide = m->way.columns * step(&m->way, 0), high = m->way.rows * step(&m->way, 1);
    int across = m->way.columns + 1, up = m->way.rows + 1; /* so that each join runs through pieces */
    for (int k = 0; k < across * up && k < PIECES_MOST; k++) {
        vec2 at = { (k % across + 0.5) * wide / across, (k / across + 0.5) * high / up };
        double turn = between(r, 0, 6), a = between(r, 0.05, 0.15), b = between(r, 0.02, 0.1);
        double most = 0.5 / (1.22 * 1.25); /* so that the largest stays in its place */
        double x = between(r, 0.8, 1) * most * wide / across, y = between(r, 0.8, 1) * most * high / up;
        for (int s = 0; s < SIZES; s++)
            for (int i = 0; i < AROUND; i++) {
                double t = 6.283185307179586 * (i + 0.3) / AROUND, grown = 1 + 0.04 * s + 0.002 * s * s;
                double radius = grown * (1 + a * cos(2 * t + turn) + b * cos(5 * t) - (i % 15 == 0 ? 0.06 : 0));
                m->pieces[k].points[s][i] = (vec2){ at.x + x * radius * cos(t), at.y + y * radius * sin(t) };
            }
        m->piece_count = k + 1;
    }
}

static vec2 moved(vec2 p, vec2 by)
{
    return (vec2){ p.x - by.x, p.y - by.y };
}

static bool is_seen(const struct way *w, vec2 p)
{
    return p.x >= w->low[0] && p.x <= w->high[0] && p.y >= w->low[1] && p.y <= w->high[1];
}

static void put_bit(struct collect *c, vec2 p, vec2 q, bool *drawing)
{
    if (!*drawing)
        collect_move(c, p.x, p.y);
    collect_line(c, q.x, q.y);
    *drawing = true;
}

static int by_number(const void *x, const void *y)
{
    const double *a = x, *b = y;
    return (*a > *b) - (*a < *b);
}

/* The part of a side that is seen, found by where it meets the four sides' lines. */
static bool put_side(struct collect *c, const struct way *w, vec2 p, vec2 q, bool *drawing)
{
    double t[6] = { 0, 1 };
    int count = 2;
    bool any = false;
    const double from[] = { p.x, p.y }, by[] = { q.x - p.x, q.y - p.y };
    for (int axis = 0; axis < 2; axis++)
        for (int end = 0; end < 2 && by[axis] != 0; end++) {
            double at = ((end ? w->high[axis] : w->low[axis]) - from[axis]) / by[axis];
            if (at > 0 && at < 1)
                t[count++] = at;
        }
    qsort(t, (size_t)count, sizeof t[0], by_number);
    for (int k = 0; k + 1 < count; k++) {
        if (!is_seen(w, vec2_lerp(p, q, (t[k] + t[k + 1]) / 2))) {
            *drawing = false;
            continue;
        }
        put_bit(c, vec2_lerp(p, q, t[k]), vec2_lerp(p, q, t[k + 1]), drawing);
        any = true;
    }
    return any;
}

static struct collect_style style_of(const struct made *m, int size)
{
    static const uint32_t colours[SIZES] = { 0x000000, 0xC00000, 0x0050C0, 0x008030, 0xC06000 };
    return (struct collect_style){ 0.3, m->way.by_layers ? 0 : colours[size], SHEET_STROKED, NULL, 0 };
}

static bool put_outline(struct collect *c, const struct made *m, const vec2 *points, int size, vec2 shift)
{
    const struct way *w = &m->way;
    struct collect_style style = style_of(m, size);
    bool drawing = false, any = false;
    collect_begin(c, w->by_layers ? (uint32_t)size : SHEET_NONE, &style);
    for (int i = 0; i < AROUND; i++) {
        vec2 p = moved(points[i], shift), q = moved(points[(i + 1) % AROUND], shift);
        if (w->shown == SHOWN_CUT)
            any = put_side(c, w, p, q, &drawing) || any;
        else {
            put_bit(c, p, q, &drawing);
            for (int k = 0; k <= 8 && !any; k++)
                any = is_seen(w, vec2_lerp(p, q, k / 8.0));
        }
    }
    if (w->shown != SHOWN_CUT)
        collect_close(c);
    collect_end(c);
    return any;
}

static bool may_be_seen(const struct made *m, const vec2 *points, vec2 shift)
{
    struct geometry_box box = geometry_box_empty();
    for (int i = 0; i < AROUND; i++) {
        vec2 p = moved(points[i], shift);
        box = geometry_box_join(box, (struct geometry_box){ p, p });
    }
    return box.max.x >= m->way.low[0] && box.min.x <= m->way.high[0] && box.max.y >= m->way.low[1] &&
           box.min.y <= m->way.high[1];
}

static void tick(struct collect *c, double x, double y, double dx, double dy)
{
    drawn_line(c, SHEET_NONE, (const double[]){ x, y, x + dx, y + dy }, 2, false);
}

static void put_marks(struct collect *c, const struct way *w)
{
    double x0 = w->low[0], y0 = w->low[1], x1 = w->high[0], y1 = w->high[1];
    if (w->mark == MARK_FRAME)
        drawn_line(c, SHEET_NONE, (const double[]){ x0, y0, x1, y0, x1, y1, x0, y1 }, 4, true);
    if (w->mark == MARK_FOUR_LINES) {
        tick(c, x0, y0, x1 - x0, 0);
        tick(c, x0, y1, x1 - x0, 0);
        tick(c, x0, y0, 0, y1 - y0);
        tick(c, x1, y0, 0, y1 - y0);
    }
    for (int k = 0; k < 4 && (w->mark == MARK_TICKS || w->mark == MARK_CORNERS); k++) {
        double x = k & 1 ? x1 : x0, y = k & 2 ? y1 : y0, out = w->mark == MARK_TICKS ? 3 : -6;
        tick(c, x, y, k & 1 ? out : -out, 0);
        tick(c, x, y, 0, k & 2 ? out : -out);
    }
}

static void put_label(struct collect *c, const struct way *w, int cell)
{
    int column = cell % w->columns, row = cell / w->columns;
    int number = w->by_columns ? column * w->rows + row : cell;
    char text[64] = "";
    switch (w->said) {
    case SAID_LETTER_FIRST:
        snprintf(text, sizeof text, "%c%d", 'A' + column, row + 1);
        break;
    case SAID_NUMBER_FIRST:
        snprintf(text, sizeof text, "%d%c", column + 1, 'a' + row);
        break;
    case SAID_RUNNING:
        snprintf(text, sizeof text, "%d", number + 1);
        break;
    case SAID_OF:
        snprintf(text, sizeof text, "Page %d of %d", number + 1, w->columns * w->rows);
        break;
    case SAID_WORDS:
        snprintf(text, sizeof text, "row %d, column %d", row + 1, column + 1);
        break;
    case SAID_GERMAN:
        snprintf(text, sizeof text, "Seite %d von %d", number + 1, w->columns * w->rows);
        break;
    case SAID_NOTHING:
    case SAIDS:
        return;
    }
    drawn_words(c, SHEET_NONE, w->low[0] + 8, w->low[1] + 8, 6, text);
    drawn_words(c, SHEET_NONE, 10, 1, 2, "Invented trousers, glue here");
}

static void put_cover(struct collect *c, const struct way *w)
{
    collect_page(c, w->page[0], w->page[1], NULL);
    for (int k = 0; k < 12; k++)
        drawn_words(c, SHEET_NONE, 30, 180 - 10.0 * k, 4, "Print this at 100 % and measure the square first.");
    drawn_line(c, SHEET_NONE, (const double[]){ 60, 20, 110, 20, 110, 70, 60, 70 }, 4, true);
}

static void put_page(struct collect *c, struct random *r, struct made *m, int cell)
{
    const struct way *w = &m->way;
    int column = cell % w->columns, row = cell / w->columns;
    vec2 shift = { column * step(w, 0) - w->low[0] + between(r, -w->off, w->off),
                   (w->rows - 1 - row) * step(w, 1) - w->low[1] + between(r, -w->off, w->off) };
    collect_page(c, w->page[0], w->page[1], NULL);
    put_marks(c, w);
    put_label(c, w, cell);
    if (w->shown != SHOWN_CUT)
        collect_clip(c, &(struct sheet_clip){ w->low[0], w->low[1], w->high[0], w->high[1], 0, 0 });
    bool any = false;
    for (int k = 0; k < m->piece_count; k++)
        for (int size = 0; size < SIZES; size++)
            if (w->shown == SHOWN_WHOLE || may_be_seen(m, m->pieces[k].points[size], shift))
                any = put_outline(c, m, m->pieces[k].points[size], size, shift) || any;
    m->shift[m->page_count] = shift;
    m->drawn[m->page_count] = any;
    m->cell[m->page_count++] = cell;
}

static void shuffle(struct random *r, int *order, int count)
{
    for (int i = count - 1; i > 0; i--) {
        int k = below(r, i + 1), kept = order[i];
        order[i] = order[k];
        order[k] = kept;
    }
}

static struct drawing make(struct arena *a, struct random *r, struct made *m)
{
    struct collect *c = collect_create(-1);
    const struct way *w = &m->way;
    int order[PAGES_MOST], count = w->columns * w->rows;
    draw_pieces(r, m);
    for (int size = 0; size < SIZES; size++) {
        char name[8];
        snprintf(name, sizeof name, "%d", 36 + 2 * size);
        collect_layer(c, SHEET_NONE, name, SHEET_LAYER_ON);
    }
    for (int k = 0; k < w->covers; k++) {
        put_cover(c, w);
        m->cell[m->page_count++] = -1;
    }
    for (int k = 0; k < count; k++)
        order[k] = w->by_columns ? k % w->rows * w->columns + k / w->rows : k;
    if (w->shuffled)
        shuffle(r, order, count);
    for (int k = 0; k < count; k++)
        if (order[k] != w->gone)
            put_page(c, r, m, order[k]);
    return drawn_drawing(a, c);
}

static void tell(int number, const struct made *m, const struct drawing_pages *p)
{
    const struct way *w = &m->way;
    print_message(
        "case %d: %d x %d of %g x %g, seen %g-%g, %g-%g, lap %g %g, off %g, mark %d, said %d, shown %d, columns "
        "%d, shuffled %d, layers %d, covers %d, gone %d\n",
        number, w->columns, w->rows, w->page[0], w->page[1], w->low[0], w->high[0], w->low[1], w->high[1], w->lap[0],
        w->lap[1], w->off, (int)w->mark, (int)w->said, (int)w->shown, w->by_columns, w->shuffled, w->by_layers,
        w->covers, w->gone);
    print_message(
        "    found: how %d, %d x %d, %zu places, %zu empty, %zu left out, %zu missing, misfit %g, doubtful %d\n",
        (int)p->how, p->columns, p->rows, p->place_count, p->empty_count, p->left_out_count, p->missing_count,
        p->misfit_mm, p->doubtful);
}

/* The largest error of a page's shift, up to one that is common to all. */
static double shift_error(const struct made *m, const struct drawing_pages *p)
{
    vec2 mean = { 0, 0 };
    double worst = 0;
    for (size_t i = 0; i < p->place_count; i++)
        mean = vec2_add(mean, vec2_sub(p->places[i].shift, m->shift[p->places[i].page]));
    mean = vec2_scale(mean, 1 / (double)p->place_count);
    for (size_t i = 0; i < p->place_count; i++) {
        vec2 off = vec2_sub(vec2_sub(p->places[i].shift, m->shift[p->places[i].page]), mean);
        worst = fmax(worst, vec2_length(off));
    }
    return worst;
}

static bool cells_hold(const struct made *m, const struct drawing_pages *p)
{
    int column = 0, row = 0;
    for (size_t i = 0; i < p->place_count; i++) {
        int cell = m->cell[p->places[i].page];
        if (cell < 0)
            return false;
        int off[] = { p->places[i].column - cell % m->way.columns, p->places[i].row - cell / m->way.columns };
        if (i && (off[0] != column || off[1] != row))
            return false;
        column = off[0];
        row = off[1];
    }
    return true;
}

static size_t drawn_pages(const struct made *m)
{
    size_t count = 0;
    for (int i = 0; i < m->page_count; i++)
        count += m->drawn[i];
    return count;
}

/* Every outline is one closed line again, and nothing else is there. */
static bool outlines_hold(const struct made *m, const struct drawing *joined)
{
    size_t closed = 0, lines = 0;
    for (size_t i = 0; i < joined->line_count; i++) {
        if (joined->styles[joined->lines[i].style].lettering)
            continue;
        struct geometry_path path = joined->lines[i].path.path;
        lines++;
        /* Cut by hand, an outline within a page comes as an open line that ends where it began. */
        closed += path.closed || vec2_length(vec2_sub(path.points[0], path.points[path.count - 1])) < 1e-9;
    }
    size_t want = (size_t)(m->piece_count * SIZES);
    if (lines != want || closed != want)
        print_message("    %zu lines, %zu of them closed, of %zu\n", lines, closed, want);
    return lines == want && closed == want;
}

static bool try_case(int number, double *worst)
{
    struct arena *a = base_arena_create();
    struct random r = { (uint64_t)number };
    struct made *m = base_arena_alloc(a, 1, sizeof *m);
    struct drawing_scale same = { 1, 1 };
    struct drawing_pages pages;
    m->way = random_way(&r);
    struct drawing d = make(a, &r, m);
    drawing_find_pages(a, &d, same, NULL, &pages);
    struct drawing joined = drawing_join(a, &d, same, &pages);
    double error = shift_error(m, &pages);
    bool ok = cells_hold(m, &pages) && pages.place_count == drawn_pages(m) && error <= 0.1;
    /* Where a page is gone outlines have gaps; at a sheet's rim they may reach beyond the pages. */
    if (ok && m->way.gone < 0 && m->way.off == 0)
        ok = outlines_hold(m, &joined);
    if (!ok) {
        tell(number, m, &pages);
        print_message("    error %g\n", error);
    }
    *worst = fmax(*worst, ok ? error : 0);
    base_arena_destroy(a);
    return ok;
}

static void pages_cut_at_random_are_joined_again(void **state)
{
    double worst = 0;
    int bad = 0;
    (void)state;
    for (int k = 0; k < CASES; k++)
        bad += !try_case(k, &worst);
    print_message("worst %g mm\n", worst);
    if (bad)
        fail_msg("%d of %d", bad, CASES);
}

int main(void)
{
    const struct CMUnitTest tests[] = { cmocka_unit_test(pages_cut_at_random_are_joined_again) };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
