#include "lifting/outlines.h"
#include "lifting/furniture.h"
#include "lifting/one_size.h"
#include "lifting/within.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct err_kind too_much = {
    "lifting.too_much", ERR_WARNING,
    BASE_TR("the lines of size “{0}” are too many or cross each other too often to find pieces in them; "
            "leave out layers or lines that are no part of the pieces")
};
static const struct err_kind too_much_in_all = {
    "lifting.too_much_in_all", ERR_WARNING,
    BASE_TR("the lines are too many or cross each other too often to find pieces in them; leave "
            "out layers or lines that are no part of the pieces")
};

/* Of the boxes of two sizes of a piece, nested, the common part is at least so much of what both cover: a third when
 * many sizes lie between them, else nine tenths. */
#define NESTED_LEAST 0.35

/* Of two neighbouring sizes of a piece that lie apart, no measure is larger by more. */
#define ALIKE_MOST 1.35

/* What a place further in the row counts, and words that are not the same, beside measures that differ. */
#define ROW_COUNTS 0.03
#define WORDS_COUNT 0.3

/* Outlines of two sizes are one when they are this near. */
#define SAME_MM 0.005

/* Of one size. The largest sheets have some 100; beyond, what is found are tiles of a ground, not pieces. */
enum { PIECES_MOST = 500 };

/* The pieces of one size. */
struct found {
    const struct nest_outline *pieces;
    size_t count;
};

struct shaping {
    struct arena *a;
    const struct drawing *d;
    size_t size_count;
    struct found *sizes;
    struct within_shape *shapes;
    size_t count, cap;
};

/* ---- A shape ---- */

static struct within_shape *new_shape(struct shaping *w, bool one_size, int cup_group)
{
    w->shapes = base_arena_grow(w->a, w->shapes, &w->cap, w->count + 1, sizeof *w->shapes);
    struct within_shape *s = &w->shapes[w->count++];
    *s = (struct within_shape){ .shape = { .one_size = one_size, .cup_group = cup_group } };
    s->outlines = base_arena_alloc(w->a, w->size_count, sizeof(const struct nest_outline *));
    return s;
}

static const struct nest_outline *find_same(const struct found *in, const struct nest_outline *o)
{
    for (size_t i = 0; i < in->count; i++)
        if (nest_is_same(&in->pieces[i], o, SAME_MM))
            return &in->pieces[i];
    return NULL;
}

/* What is drawn for all sizes is a piece where it is one in every size: in some it may lie within another. */
static void add_common(struct shaping *w, int cup_group)
{
    for (size_t i = 0; i < w->sizes[0].count; i++) {
        const struct nest_outline *o = &w->sizes[0].pieces[i];
        bool in_all = !o->of_size;
        for (size_t k = 1; k < w->size_count && in_all; k++)
            in_all = find_same(&w->sizes[k], o) != NULL;
        if (!in_all)
            continue;
        struct within_shape *s = new_shape(w, true, o->of_cup ? cup_group : LIFTING_NONE);
        for (size_t k = 0; k < w->size_count; k++)
            s->outlines[k] = o;
    }
}

/* ---- Which outlines are one piece ---- */

struct match {
    size_t shape, piece;
    double score; /* the higher the better */
};

struct matching {
    struct shaping *w;
    size_t first, size; /* shapes from the first on; the size that is matched */
    bool *piece_taken;
    double growth; /* in length, from one size to the next, of pieces that lie apart */
    struct match *matches;
    size_t count, cap;
};

static int best_first(const void *a, const void *b)
{
    const struct match *p = a, *q = b;
    if (p->score < q->score || p->score > q->score)
        return p->score > q->score ? -1 : 1;
    if (p->shape != q->shape)
        return p->shape < q->shape ? -1 : 1;
    return p->piece < q->piece ? -1 : p->piece > q->piece;
}

/* The nearest smaller size that a shape has. */
static const struct nest_outline *latest(const struct within_shape *s, size_t size)
{
    while (size-- > 0)
        if (s->outlines[size])
            return s->outlines[size];
    return NULL;
}

static double box_area(struct geometry_box b)
{
    return b.max.x > b.min.x && b.max.y > b.min.y ? (b.max.x - b.min.x) * (b.max.y - b.min.y) : 0;
}

static double nested(const struct nest_outline *a, const struct nest_outline *b)
{
    struct geometry_box both = { { fmax(a->box.min.x, b->box.min.x), fmax(a->box.min.y, b->box.min.y) },
                                 { fmin(a->box.max.x, b->box.max.x), fmin(a->box.max.y, b->box.max.y) } };
    double in = box_area(both), all = box_area(a->box) + box_area(b->box) - in;
    double size = a->area_mm2 < b->area_mm2 ? a->area_mm2 / b->area_mm2 : b->area_mm2 / a->area_mm2;
    return in / all >= NESTED_LEAST ? in / all * size : 0;
}

static double ratio(double a, double b)
{
    return a > b ? a / b : b / a;
}

static bool is_in(const struct nest_outline *o, const struct drawing_text *t)
{
    vec2 at = vec2_add((vec2){ t->at.x, t->at.y }, vec2_scale(t->along, t->length_mm / 2));
    return at.x >= o->box.min.x && at.x <= o->box.max.x && at.y >= o->box.min.y && at.y <= o->box.max.y &&
           geometry_path_holds(o->path, at);
}

/* Whether the first words in either are the same; false where one has none. */
static bool same_words(const struct drawing *d, const struct nest_outline *a, const struct nest_outline *b)
{
    const char *first = NULL, *other = NULL;
    for (size_t i = 0; i < d->text_count; i++) {
        if (!first && is_in(a, &d->texts[i]))
            first = d->texts[i].words;
        if (!other && is_in(b, &d->texts[i]))
            other = d->texts[i].words;
    }
    return first && other && strcmp(first, other) == 0;
}

/* How many of a size stand before an outline, from the left, then from the top. */
static size_t place_in_row(const struct found *all, const struct nest_outline *o)
{
    size_t before = 0;
    for (size_t i = 0; i < all->count; i++) {
        const struct nest_outline *p = &all->pieces[i];
        before += p->box.min.x < o->box.min.x || (p->box.min.x <= o->box.min.x && p->box.max.y > o->box.max.y);
    }
    return before;
}

static size_t size_of(const struct within_shape *s, size_t before)
{
    while (before-- > 0)
        if (s->outlines[before])
            return before;
    return 0;
}

/* How alike two outlines are that lie apart, by their measures, their words and where in the row they stand. */
static double alike(const struct matching *m, const struct within_shape *s, const struct nest_outline *p)
{
    const struct nest_outline *o = latest(s, m->size);
    vec2 a = vec2_sub(o->box.max, o->box.min), b = vec2_sub(p->box.max, p->box.min);
    double g = m->growth;
    double worst = fmax(fmax(ratio(g * a.x, b.x), ratio(g * a.y, b.y)), ratio(g * o->length_mm, p->length_mm));
    if (worst > ALIKE_MOST)
        return 0;
    double from = (double)place_in_row(&m->w->sizes[size_of(s, m->size)], o);
    double to = (double)place_in_row(&m->w->sizes[m->size], p);
    double words = same_words(m->w->d, o, p) ? 0 : WORDS_COUNT;
    return 1 / (worst * worst + ROW_COUNTS * fabs(from - to) + words);
}

static void take_matches(struct matching *m)
{
    if (m->count)
        qsort(m->matches, m->count, sizeof *m->matches, best_first);
    for (size_t i = 0; i < m->count; i++) {
        struct within_shape *s = &m->w->shapes[m->matches[i].shape];
        if (s->outlines[m->size] || m->piece_taken[m->matches[i].piece])
            continue;
        s->outlines[m->size] = &m->w->sizes[m->size].pieces[m->matches[i].piece];
        m->piece_taken[m->matches[i].piece] = true;
    }
    m->count = 0;
}

/* By the areas of all that is not matched yet, where as many are left on both sides; else none. */
static double growth_of(const struct matching *m)
{
    double from = 0, to = 0;
    long more = 0;
    for (size_t i = m->first; i < m->w->count; i++)
        if (!m->w->shapes[i].outlines[m->size]) {
            from += latest(&m->w->shapes[i], m->size)->area_mm2;
            more--;
        }
    for (size_t i = 0; i < m->w->sizes[m->size].count; i++)
        if (!m->piece_taken[i]) {
            to += m->w->sizes[m->size].pieces[i].area_mm2;
            more++;
        }
    double growth = more == 0 && from > 0 && to > 0 ? sqrt(to / from) : 1;
    return ratio(growth, 1) <= ALIKE_MOST ? growth : 1;
}

static void match(struct matching *m, bool apart)
{
    m->growth = growth_of(m);
    const struct found *size = &m->w->sizes[m->size];
    for (size_t i = m->first; i < m->w->count; i++)
        for (size_t k = 0; k < size->count; k++) {
            const struct within_shape *s = &m->w->shapes[i];
            if (s->outlines[m->size] || m->piece_taken[k])
                continue;
            double score = apart ? alike(m, s, &size->pieces[k]) : nested(latest(s, m->size), &size->pieces[k]);
            if (score <= 0)
                continue;
            m->matches = base_arena_grow(m->w->a, m->matches, &m->cap, m->count + 1, sizeof *m->matches);
            m->matches[m->count++] = (struct match){ i, k, score };
        }
    take_matches(m);
}

/* Size after size is matched with the shapes so far; what matches none is a shape of its own. */
static void add_sized(struct shaping *w, int cup_group)
{
    size_t first = w->count;
    for (size_t k = 0; k < w->size_count; k++) {
        struct matching m = { .w = w, .first = first, .size = k };
        m.piece_taken = base_arena_alloc(w->a, w->sizes[k].count, sizeof *m.piece_taken);
        for (size_t i = 0; i < w->sizes[k].count; i++)
            m.piece_taken[i] = !w->sizes[k].pieces[i].of_size;
        match(&m, false);
        match(&m, true);
        for (size_t i = 0; i < w->sizes[k].count; i++)
            if (!m.piece_taken[i])
                new_shape(w, false, cup_group)->outlines[k] = &w->sizes[k].pieces[i];
    }
}

/* ---- Cup groups ---- */

static bool is_of_cup(const struct shaping *w, const struct within_shape *s)
{
    for (size_t k = 0; k < w->size_count; k++)
        if (s->outlines[k] && s->outlines[k]->of_cup)
            return true;
    return false;
}

/* What a cup group has in common with all was found with the first one. */
static void drop_found_before(struct shaping *w, size_t first, bool is_first)
{
    size_t left = first;
    for (size_t i = first; i < w->count; i++) {
        struct within_shape s = w->shapes[i];
        bool own = is_of_cup(w, &s);
        if (!own && !is_first)
            continue;
        s.shape.cup_group = own ? s.shape.cup_group : LIFTING_NONE;
        w->shapes[left++] = s;
    }
    w->count = left;
}

/* ---- The result ---- */

static bool is_one_size(const struct shaping *w, const struct within_shape *s)
{
    for (size_t k = 0; k < w->size_count; k++)
        if (!s->outlines[k] || !nest_is_same(s->outlines[k], s->outlines[0], SAME_MM))
            return false;
    return w->size_count > 1 || s->shape.one_size;
}

static void tell_outlines(struct shaping *w, struct within_shape *s)
{
    struct lifting_outline *out = base_arena_alloc(w->a, w->size_count, sizeof *out);
    for (size_t k = 0; k < w->size_count; k++)
        if (s->outlines[k])
            out[k] = (struct lifting_outline){ true, { s->outlines[k]->path }, s->outlines[k]->gap_mm };
    s->shape.outlines = out;
    s->shape.one_size = is_one_size(w, s);
}

struct placed {
    struct geometry_box box;
    size_t shape;
    size_t row;
};

static int by_top(const void *a, const void *b)
{
    const struct placed *p = a, *q = b;
    if (p->box.max.y < q->box.max.y || p->box.max.y > q->box.max.y)
        return p->box.max.y > q->box.max.y ? -1 : 1;
    return p->shape < q->shape ? -1 : p->shape > q->shape;
}

static int by_row(const void *a, const void *b)
{
    const struct placed *p = a, *q = b;
    if (p->row != q->row)
        return p->row < q->row ? -1 : 1;
    if (p->box.min.x < q->box.min.x || p->box.min.x > q->box.min.x)
        return p->box.min.x < q->box.min.x ? -1 : 1;
    return by_top(a, b);
}

/* A row is whatever has its middle above the lower edge of the row's highest. */
static void find_rows(struct placed *p, size_t count)
{
    size_t row = 0;
    double low = 0;
    for (size_t i = 0; i < count; i++) {
        if (i == 0 || (p[i].box.min.y + p[i].box.max.y) / 2 < low) {
            row += i > 0;
            low = p[i].box.min.y;
        }
        p[i].row = row;
    }
}

static const struct lifting_shape *in_rows(struct shaping *w)
{
    struct placed *places = base_arena_alloc(w->a, w->count, sizeof *places);
    struct lifting_shape *out = base_arena_alloc(w->a, w->count, sizeof *out);
    for (size_t i = 0; i < w->count; i++) {
        places[i] = (struct placed){ geometry_box_empty(), i, 0 };
        for (size_t k = 0; k < w->size_count; k++)
            if (w->shapes[i].outlines[k])
                places[i].box = geometry_box_join(places[i].box, w->shapes[i].outlines[k]->box);
    }
    if (w->count) {
        qsort(places, w->count, sizeof *places, by_top);
        find_rows(places, w->count);
        qsort(places, w->count, sizeof *places, by_row);
    }
    for (size_t i = 0; i < w->count; i++)
        out[i] = w->shapes[places[i].shape].shape;
    return out;
}

/* ---- All sizes ---- */

static bool same_dash(const struct lifting_strand *a, const struct lifting_strand *b)
{
    return a->dash_count == b->dash_count &&
           (a->dash_count == 0 || memcmp(a->dash_mm, b->dash_mm, a->dash_count * sizeof *a->dash_mm) == 0);
}

static const uint32_t *number_dashes(struct arena *a, const struct lifting_division *division)
{
    uint32_t *dashes = base_arena_alloc(a, division->strand_count, sizeof *dashes);
    for (uint32_t i = 0; i < division->strand_count; i++) {
        dashes[i] = i;
        for (uint32_t k = 0; k < i && dashes[i] == i; k++)
            if (same_dash(&division->strands[k], &division->strands[i]))
                dashes[i] = dashes[k];
    }
    return dashes;
}

static struct one_size_sheet look_at_sheet(struct arena *a, const struct drawing *d,
                                           const struct lifting_division *division)
{
    struct one_size_sheet s = { .d = d, .division = division };
    s.is_letter = within_find_letters(a, d, division);
    s.dash_of_strand = number_dashes(a, division);
    s.letters = within_written(a, d, s.is_letter, &s.letter_count);
    s.asked.square_count = drawing_find_squares(a, d, &s.asked.squares);
    s.asked.counts = within_counts(a, d, &s.asked.count_count);
    if (d->page_count == 1)
        s.asked.page = (vec2){ d->pages[0].width_mm, d->pages[0].height_mm };
    return s;
}

static struct nest_outline kept(struct arena *a, const struct nest_outline *o)
{
    struct nest_outline out = *o;
    struct nest_use *uses = base_arena_alloc(a, o->use_count, sizeof *uses);
    memcpy(uses, o->uses, o->use_count * sizeof *uses);
    out.uses = uses;
    out.path = geometry_path_copy(a, o->path);
    struct nest_outline *rooms = base_arena_alloc(a, o->room_count, sizeof *rooms);
    for (size_t i = 0; i < o->room_count; i++)
        rooms[i] = (struct nest_outline){ .path = geometry_path_copy(a, o->rooms[i].path), .box = o->rooms[i].box };
    out.rooms = rooms;
    return out;
}

/* What a size needs on the way goes with its scratch arena. */
static bool find_pieces(struct arena *a, const struct one_size_sheet *s, int size, int cup_group, size_t *work_left,
                        struct found *out)
{
    struct arena *scratch = base_arena_create();
    size_t given = *work_left < NETWORK_WORK_MOST ? *work_left : NETWORK_WORK_MOST, work = given;
    const struct nest_outline *pieces = NULL;
    size_t count = 0;
    bool ok = given > 0 && one_size_find(scratch, s, size, cup_group, &work, &pieces, &count) && count <= PIECES_MOST;
    *work_left -= given - work;
    struct nest_outline *copies = base_arena_alloc(a, count, sizeof *copies);
    for (size_t i = 0; ok && i < count; i++)
        copies[i] = kept(a, &pieces[i]);
    *out = (struct found){ copies, ok ? count : 0 };
    base_arena_destroy(scratch);
    return ok;
}

static void find_size(struct shaping *w, const struct one_size_sheet *s, size_t size, int cup_group, size_t *work_left,
                      struct err_list *errs)
{
    bool one = s->division->size_count > 0;
    if (find_pieces(w->a, s, one ? (int)size : LIFTING_NONE, cup_group, work_left, &w->sizes[size]))
        return;
    if (one)
        base_err(errs, &too_much, (struct err_place){ 0 }, ERR_TEXT(s->division->sizes[size]));
    else
        base_err(errs, &too_much_in_all, (struct err_place){ 0 }, ERR_NONE);
}

static void drop_furniture(struct shaping *w, const struct one_size_sheet *sheet)
{
    size_t left = 0;
    for (size_t i = 0; i < w->count; i++)
        if (!furniture_is(w->a, sheet, &w->shapes[i]))
            w->shapes[left++] = w->shapes[i];
    w->count = left;
}

size_t lifting_find_shapes(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                           const struct lifting_shape **out, size_t *loose, struct err_list *errs)
{
    struct shaping w = { .a = a, .d = d, .size_count = division->size_count ? division->size_count : 1 };
    struct one_size_sheet sheet = look_at_sheet(a, d, division);
    size_t work_left = NETWORK_WORK_OF_SHEET, groups = division->cup_group_count ? division->cup_group_count : 1;
    for (size_t g = 0; g < groups; g++) {
        int cup_group = division->cup_group_count ? (int)g : LIFTING_NONE;
        size_t first = w.count;
        w.sizes = base_arena_alloc(a, w.size_count, sizeof *w.sizes);
        for (size_t k = 0; k < w.size_count; k++)
            find_size(&w, &sheet, k, cup_group, &work_left, errs);
        add_common(&w, cup_group);
        add_sized(&w, cup_group);
        drop_found_before(&w, first, g == 0);
    }
    for (size_t i = 0; i < w.count; i++)
        tell_outlines(&w, &w.shapes[i]);
    *loose = within_sort(a, &sheet, w.shapes, w.count, w.size_count);
    drop_furniture(&w, &sheet);
    *out = in_rows(&w);
    return w.count;
}
