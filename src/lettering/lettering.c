#include "lettering/lettering.h"

#include "lettering/spelling.h"
#include "lettering/turns.h"

#include <stdlib.h>
#include <string.h>

/* Own bounds, no source. */
#define ROW_COST 0.36     /* of a glyph on average: it is a row of letters */
#define DOUBT_COST 0.3    /* from here on one of them may well be wrong */
#define CERTAIN_COST 0.03 /* so little that it need not be tried upside down */
#define SHORT_COST 0.2    /* the same of a short one */
#define GLYPH_COST 0.5    /* of one glyph: it may be a letter */
#define LONE_COST 0.12    /* of one that stands alone among rows of its kind */
#define SURE_BETTER 0.7   /* of what it costs upside down: it is read the right way up */
#define LONG_ROW 4.0      /* a row longer than high, to tell its direction */
#define COLUMN 1.5        /* between letters, in heights of capitals: from here on another row begins */
#define CAP_LEAST_MM 0.7
#define CAP_MOST_MM 45.0

enum { CELLS_MOST = 400, SHORT_ROW = 4, CORNERS_LEAST = 6 };

struct lettering_work {
    struct arena *a, *work;
    const struct lettering_vocabulary *vocabulary;
    struct lettering_reader *reader; /* NULL: no font was looked for yet */
    bool no_fonts;
    const struct lettering_ink *inks;
    bool *is_read; /* for each ink whether it is in a row */
    struct lettering_row *rows;
    size_t count, cap;
};

static bool has_reader(struct lettering_work *w)
{
    if (!w->reader && !w->no_fonts) {
        struct lettering_alphabet alphabet = lettering_alphabet_of_fonts(w->work);
        w->no_fonts = alphabet.count == 0;
        w->reader = lettering_reader_create(w->work, alphabet);
    }
    return !w->no_fonts;
}

/* Rings, strokes and dots are everywhere on a drawing: a row of nothing else is none of letters. */
static bool says_something(const struct lettering_reading *r)
{
    static const char *const plain[] = { "oO0°", "lI1|'", ".,-–_·•:;", "/", "xX×+*", "vV", "→", "=", "!?\"&()#%@©" };
    bool met[sizeof plain / sizeof plain[0] + 1] = { false };
    int kinds = 0;
    for (size_t i = 0; i < r->count; i++) {
        const char *text = lettering_letter_text(r->glyphs[i].guesses.items[r->glyphs[i].best].letter);
        size_t k = 0;
        while (k + 1 < sizeof met / sizeof met[0] && !strstr(plain[k], text))
            k++;
        if (k + 1 == sizeof met / sizeof met[0])
            return true;
        kinds += (k == 0 || k == 1) && !met[k];
        met[k] = true;
    }
    return kinds == 2;
}

static bool is_text(const struct lettering_reading *r)
{
    return r->count >= 2 && r->cost <= (r->count < SHORT_ROW ? SHORT_COST : ROW_COST) && r->cap >= CAP_LEAST_MM &&
           r->cap <= CAP_MOST_MM && says_something(r);
}

static void put_shapes(struct lettering_work *w, const struct lettering_reading *r, struct lettering_row *row)
{
    size_t count = 0;
    for (size_t i = 0; i < r->count; i++)
        for (size_t k = 0; k < r->glyphs[i].ink_count; k++)
            count += w->inks[r->glyphs[i].inks[k]].count;
    size_t *shapes = base_arena_alloc(w->a, count, sizeof *shapes);
    for (size_t i = 0; i < r->count; i++)
        for (size_t k = 0; k < r->glyphs[i].ink_count; k++) {
            const struct lettering_ink *ink = &w->inks[r->glyphs[i].inks[k]];
            memcpy(shapes + row->shape_count, ink->shapes, ink->count * sizeof *shapes);
            row->shape_count += ink->count;
            w->is_read[r->glyphs[i].inks[k]] = true;
        }
    row->shapes = shapes;
}

static vec2 place_of(const struct lettering_reading *r, double along)
{
    return vec2_sub(vec2_scale(r->along, along), vec2_scale(vec2_right(r->along), r->base));
}

static void put_row(struct lettering_work *w, const struct lettering_reading *r, bool doubtful)
{
    struct lettering_row row = { .along = r->along, .cap_mm = r->cap };
    double left = r->glyphs[0].cell.left;
    row.words = lettering_spell(w->a, r, w->vocabulary, &row.doubtful);
    row.doubtful = row.doubtful || doubtful;
    row.at = place_of(r, left);
    row.length_mm = r->glyphs[r->count - 1].cell.right - left;
    row.kind = w->inks[r->glyphs[0].inks[0]].kind;
    put_shapes(w, r, &row);
    w->rows = base_arena_grow(w->a, w->rows, &w->cap, w->count + 1, sizeof *w->rows);
    w->rows[w->count++] = row;
}

static double cost_at(const struct lettering_reading *r, size_t i)
{
    return r->glyphs[i].costs[r->glyphs[i].best];
}

/* What is no letter at its ends is none of the row: an arrowhead, a notch. */
static struct lettering_reading trimmed(struct lettering_reading r)
{
    double sum = r.cost * (double)r.count;
    for (; r.count && cost_at(&r, 0) > GLYPH_COST; r.glyphs++, r.count--)
        sum -= cost_at(&r, 0);
    for (; r.count && cost_at(&r, r.count - 1) > GLYPH_COST; r.count--)
        sum -= cost_at(&r, r.count - 1);
    r.cost = r.count ? sum / (double)r.count : INFINITY;
    return r;
}

/* The way of a long row, better told by all of it than by its words: the axis along which its letters' middles lie. */
static vec2 way_of(const struct lettering_line *line, vec2 along)
{
    double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, tallest = 0;
    for (size_t i = 0; i < line->count; i++) {
        const struct lettering_cell *c = &line->cells[i];
        double x = (c->left + c->right) / 2 - line->cells[0].left, y = (c->low + c->high) / 2 - line->cells[0].low;
        double w = (c->high - c->low) * (c->high - c->low); /* dots say little */
        n += w, sx += w * x, sy += w * y, sxx += w * x * x, sxy += w * x * y;
        tallest = fmax(tallest, c->high - c->low);
    }
    double spread = n * sxx - sx * sx, long_way = line->cells[line->count - 1].right - line->cells[0].left;
    double slope = spread > 0 && long_way > LONG_ROW * tallest ? (n * sxy - sx * sy) / spread : 0;
    return vec2_unit(vec2_sub(along, vec2_scale(vec2_right(along), slope)));
}

/* A row read as it lies, and from the other side. */
struct sides {
    struct lettering_reading to, back;
};

/* Whether anything has as many corners as letters have that are not mere strokes. */
static bool may_say(const struct lettering_work *w, const struct lettering_line *line)
{
    for (size_t i = 0; i < line->count; i++)
        if (w->inks[line->cells[i].ink].contours[0].count >= CORNERS_LEAST)
            return true;
    return false;
}

static struct sides read_sides(struct lettering_work *w, const struct lettering_line *line, vec2 along)
{
    struct sides s = { { .cost = INFINITY }, { .cost = INFINITY } };
    if (line->count < 2 || line->count > CELLS_MOST || !may_say(w, line) || !has_reader(w))
        return s;
    vec2 way = way_of(line, along);
    s.to = lettering_read_line(w->work, w->reader, w->inks, line, way);
    if (line->count >= SHORT_ROW && s.to.cost <= CERTAIN_COST)
        return s;
    s.back = lettering_read_line(w->work, w->reader, w->inks, line, vec2_scale(way, -1));
    return s;
}

/* How surely a row is read from the left, as a count of letters; below zero: from the other side. */
static double sense_of(const struct sides *s)
{
    double least = fmin(s->to.cost, s->back.cost);
    if (!(least <= ROW_COST) || least > SURE_BETTER * fmax(s->to.cost, s->back.cost))
        return 0;
    return s->to.cost < s->back.cost ? (double)s->to.count : -(double)s->back.count;
}

/* A row whose letters stand so far apart somewhere is two: columns of a table. */
static void put_parts(struct lettering_work *w, const struct lettering_reading *r)
{
    struct lettering_reading part = *r;
    for (size_t first = 0, end; first < r->count; first = end) {
        double sum = cost_at(r, first);
        for (end = first + 1;
             end < r->count && r->glyphs[end].cell.left - r->glyphs[end - 1].cell.right < COLUMN * r->cap; end++)
            sum += cost_at(r, end);
        part.glyphs = r->glyphs + first;
        part.count = end - first;
        part.cost = sum / (double)part.count;
        size_t all = part.count;
        part = trimmed(part);
        if (is_text(&part))
            put_row(w, &part, part.count < all || part.cost > DOUBT_COST);
    }
}

/* Rows that read either way (“no”, “on”) are read as most others of their direction. */
static void put_rows(struct lettering_work *w, const struct sides *sides, size_t count)
{
    double sense = 0;
    for (size_t i = 0; i < count; i++)
        sense += sense_of(&sides[i]);
    for (size_t i = 0; i < count; i++) {
        double own = sense_of(&sides[i]);
        const struct lettering_reading *r = (own != 0 ? own : sense) >= 0 ? &sides[i].to : &sides[i].back;
        put_parts(w, r);
    }
}

static void read_turn(struct lettering_work *w, const size_t *which, size_t count, vec2 along)
{
    struct lettering_line *lines;
    size_t line_count = lettering_find_lines(w->work, w->inks, which, count, along, &lines);
    struct sides *sides = base_arena_alloc(w->work, line_count, sizeof *sides);
    for (size_t i = 0; i < line_count; i++)
        sides[i] = read_sides(w, &lines[i], along);
    put_rows(w, sides, line_count);
}

/* A letter that stands alone: a piece's number, a size. Of those that look like nothing else on a drawing. */
static void put_lone(struct lettering_work *w, size_t ink, vec2 along)
{
    struct lettering_cell cell = lettering_cell_of(w->inks, ink, along);
    struct lettering_line line = { &cell, 1 };
    struct lettering_reading r = lettering_read_line(w->work, w->reader, w->inks, &line, along);
    if (!r.count || r.cap < CAP_LEAST_MM || r.cap > CAP_MOST_MM || cost_at(&r, 0) > LONE_COST)
        return;
    const char *letter = lettering_letter_text(r.glyphs[0].guesses.items[r.glyphs[0].best].letter);
    if (strstr("23456789ABMS", letter))
        put_row(w, &r, strstr("69", letter) != NULL);
}

static void read_lone(struct lettering_work *w, const vec2 *turns, const unsigned char *turn_of, size_t first,
                      size_t end)
{
    for (size_t i = first; i < end; i++)
        if (!w->is_read[i])
            put_lone(w, i, turns[turn_of[i - first]]);
}

/* Then what no row was made of is tried to the right and upwards: short words that stand alone. */
static void read_kind(struct lettering_work *w, size_t first, size_t end)
{
    vec2 turns[TURNS_MOST];
    size_t before = w->count;
    unsigned char *turn_of = base_arena_alloc(w->work, end - first, 1);
    size_t *which = base_arena_alloc(w->work, end - first, sizeof *which);
    size_t turn_count = lettering_find_turns(w->work, w->inks + first, end - first, turns, turn_of);
    for (size_t pass = 0; pass < turn_count + 2; pass++) {
        size_t turn = pass < turn_count ? pass : pass - turn_count, count = 0;
        for (size_t i = first; i < end; i++)
            if (pass < turn_count ? turn_of[i - first] == turn : !w->is_read[i] && turn_of[i - first] != turn)
                which[count++] = i;
        read_turn(w, which, count, turns[turn]);
    }
    if (w->count > before)
        read_lone(w, turns, turn_of, first, end);
}

static int by_shape(const void *pa, const void *pb)
{
    const struct lettering_row *a = pa, *b = pb;
    return (a->shapes[0] > b->shapes[0]) - (a->shapes[0] < b->shapes[0]);
}

size_t lettering_read(struct arena *a, const struct lettering_shape *shapes, size_t count,
                      const struct lettering_vocabulary *vocabulary, const struct lettering_row **out)
{
    struct lettering_work w = { .a = a, .work = base_arena_create(), .vocabulary = vocabulary };
    size_t ink_count = lettering_find_inks(w.work, shapes, count, &w.inks);
    w.is_read = base_arena_alloc(w.work, ink_count, sizeof *w.is_read);
    for (size_t first = 0, end; first < ink_count; first = end) {
        for (end = first + 1; end < ink_count && w.inks[end].kind == w.inks[first].kind;)
            end++;
        read_kind(&w, first, end);
    }
    if (w.count)
        qsort(w.rows, w.count, sizeof *w.rows, by_shape);
    base_arena_destroy(w.work);
    *out = w.rows;
    return w.count;
}
