#include "drawing/signs.h"
#include "drawing/phrases.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PLACE_MM 12.0      /* labels stand at one place of their pages within that */
#define COVER_LEAST 0.3    /* of all tiles: have one, or it is no label: there may be many pages of instructions */
#define TWICE_MOST 0.1     /* of those: have one that another has, too */
#define NUMBERED_LEAST 0.8 /* of all tiles: then it is a page number, whatever the pages are joined by */
enum { PLACES_MOST = 96, ASKED_MOST = 200 };

/* Something on a page that may be its label. */
struct seen {
    struct drawing_label label;
    size_t tile;
    vec2 at; /* its middle, mm at true scale from the tile's origin */
    struct geometry_box box;
    double size_mm;
};

struct looking {
    struct drawing_tiling *t;
    struct seen *all; /* by tile */
    size_t count, cap;
    size_t *first; /* of each tile's; one more at the end */
};

static int *tiles_of_pages(const struct drawing_tiling *t)
{
    int *tiles = base_arena_alloc(t->a, t->d->page_count, sizeof *tiles);
    for (size_t i = 0; i < t->d->page_count; i++)
        tiles[i] = DRAWING_NONE;
    for (size_t i = 0; i < t->count; i++)
        tiles[t->tiles[i].page] = (int)i;
    return tiles;
}

static void see(struct looking *l, size_t tile, const char *words, struct geometry_box box, double size_mm)
{
    struct drawing_label label = drawing_label_read(words);
    if (label.kind == DRAWING_LABEL_NONE)
        return;
    vec2 middle = vec2_lerp(box.min, box.max, 0.5);
    middle = (vec2){ middle.x * l->t->scale.across, middle.y * l->t->scale.up };
    l->all = base_arena_grow(l->t->a, l->all, &l->cap, l->count + 1, sizeof *l->all);
    l->all[l->count++] = (struct seen){ label, tile, vec2_sub(middle, l->t->tiles[tile].origin), box, size_mm };
}

/* Every run alone, too: a label may stand in a row with other words. */
static void see_runs(struct looking *l, size_t tile)
{
    const struct drawing_page *page = &l->t->d->pages[l->t->tiles[tile].page];
    for (size_t i = page->first_text; i < page->first_text + page->text_count; i++) {
        const struct drawing_text *text = &l->t->d->texts[i];
        vec2 from = { text->at.x, text->at.y }, to = vec2_add(from, vec2_scale(text->along, text->length_mm));
        vec2 up = vec2_scale(vec2_right(text->along), -0.7 * text->size_mm);
        struct geometry_box box =
            geometry_box_join((struct geometry_box){ from, from }, (struct geometry_box){ to, to });
        box = geometry_box_join(box, (struct geometry_box){ vec2_add(from, up), vec2_add(from, up) });
        see(l, tile, text->words, box, text->size_mm);
    }
}

static int by_tile(const void *x, const void *y)
{
    const struct seen *a = x, *b = y;
    if (a->tile != b->tile)
        return a->tile < b->tile ? -1 : 1;
    if (a->at.y != b->at.y)
        return a->at.y < b->at.y ? -1 : 1;
    return (a->at.x > b->at.x) - (a->at.x < b->at.x);
}

static struct looking look(struct drawing_tiling *t)
{
    struct looking l = { .t = t };
    const int *tiles = tiles_of_pages(t);
    const struct drawing_phrase *phrases;
    size_t count = drawing_phrases(t->a, t->d, &phrases);
    for (size_t i = 0; i < count; i++)
        if (tiles[phrases[i].page] != DRAWING_NONE)
            see(&l, (size_t)tiles[phrases[i].page], phrases[i].words, phrases[i].box, phrases[i].size_mm);
    for (size_t i = 0; i < t->count; i++)
        see_runs(&l, i);
    if (l.count)
        qsort(l.all, l.count, sizeof *l.all, by_tile);
    l.first = base_arena_alloc(t->a, t->count + 1, sizeof *l.first);
    for (size_t i = 0, k = 0; i <= t->count; i++) {
        while (k < l.count && l.all[k].tile < i)
            k++;
        l.first[i] = k;
    }
    return l;
}

/* The tile's label of the kind nearest to a place; NULL: none is near. */
static const struct seen *nearest(const struct looking *l, size_t tile, enum drawing_label_kind kind, vec2 place)
{
    const struct seen *best = NULL;
    double best_apart = PLACE_MM;
    for (size_t i = l->first[tile]; i < l->first[tile + 1]; i++) {
        double apart = vec2_length(vec2_sub(l->all[i].at, place));
        if (l->all[i].label.kind == kind && apart <= best_apart) {
            best = &l->all[i];
            best_apart = apart;
        }
    }
    return best;
}

static size_t tiles_that_have(const struct looking *l, enum drawing_label_kind kind, vec2 place)
{
    size_t count = 0, step = l->t->count / ASKED_MOST + 1;
    for (size_t i = 0; i < l->t->count; i += step)
        count += nearest(l, i, kind, place) != NULL;
    return count;
}

/* The place where most tiles have one; asked of the first, the middle and the last tile that have any. */
static bool find_place(const struct looking *l, enum drawing_label_kind kind, vec2 *place)
{
    size_t best = 0, from[] = { 0, l->count / 2, l->count - l->count / 4 };
    for (size_t k = 0; k < 3; k++)
        for (size_t i = from[k], asked = 0; i < l->count && asked < PLACES_MOST; i++) {
            if (l->all[i].label.kind != kind)
                continue;
            asked++;
            size_t have = tiles_that_have(l, kind, l->all[i].at);
            if (have > best) {
                best = have;
                *place = l->all[i].at;
            }
        }
    return best > 0;
}

static int by_value(const void *x, const void *y)
{
    const struct drawing_label *a = x, *b = y;
    if (a->first != b->first)
        return a->first < b->first ? -1 : 1;
    return (a->second > b->second) - (a->second < b->second);
}

/* Whether nearly every label is another one. */
static bool all_differ(struct arena *a, const struct drawing_signs *signs, size_t tiles)
{
    struct drawing_label *labels = base_arena_alloc(a, tiles, sizeof *labels);
    size_t count = 0, twice = 0;
    for (size_t i = 0; i < tiles; i++)
        if (signs->of[i].kind != DRAWING_LABEL_NONE)
            labels[count++] = signs->of[i];
    qsort(labels, count, sizeof *labels, by_value);
    for (size_t i = 1; i < count; i++)
        twice += by_value(&labels[i - 1], &labels[i]) == 0;
    return (double)twice <= TWICE_MOST * (double)count;
}

static bool is_good(struct arena *a, const struct drawing_signs *signs, size_t tiles)
{
    return signs->count >= 2 && (double)signs->count >= COVER_LEAST * (double)tiles && all_differ(a, signs, tiles);
}

static struct drawing_signs no_signs(struct arena *a, enum drawing_label_kind kind, size_t tiles)
{
    return (struct drawing_signs){ .kind = kind, .of = base_arena_alloc(a, tiles, sizeof(struct drawing_label)) };
}

/* None yet, with room for where they stand. */
static struct drawing_signs signs_on(struct drawing_tiling *t, enum drawing_label_kind kind,
                                     struct geometry_box **boxes, struct drawing_letters **letters)
{
    struct drawing_signs signs = no_signs(t->a, kind, t->count);
    signs.boxes = *boxes = base_arena_alloc(t->a, t->count, sizeof **boxes);
    signs.letters = *letters = base_arena_alloc(t->a, t->count, sizeof **letters);
    return signs;
}

static bool find_kind(struct looking *l, enum drawing_label_kind kind, struct drawing_signs *out)
{
    vec2 place = { 0, 0 };
    struct geometry_box *boxes;
    struct drawing_letters *letters;
    *out = signs_on(l->t, kind, &boxes, &letters);
    if (!find_place(l, kind, &place))
        return false;
    for (size_t i = 0; i < l->t->count; i++) {
        const struct seen *label = nearest(l, i, kind, place);
        if (!label)
            continue;
        out->of[i] = label->label;
        boxes[i] = label->box;
        letters[i] = (struct drawing_letters){ label->size_mm, label->size_mm };
        out->count++;
    }
    return is_good(l->t->a, out, l->t->count);
}

/* "row 2" and "column 3", apart on the page; each alone is the same on many pages. */
static bool find_apart(struct looking *l, struct drawing_signs *out)
{
    vec2 row = { 0, 0 }, column = { 0, 0 };
    struct geometry_box *boxes;
    struct drawing_letters *letters;
    *out = signs_on(l->t, DRAWING_LABEL_ROW_COLUMN, &boxes, &letters);
    if (!find_place(l, DRAWING_LABEL_ROW, &row) || !find_place(l, DRAWING_LABEL_COLUMN, &column))
        return false;
    for (size_t i = 0; i < l->t->count; i++) {
        const struct seen *r = nearest(l, i, DRAWING_LABEL_ROW, row);
        const struct seen *c = nearest(l, i, DRAWING_LABEL_COLUMN, column);
        if (!r || !c)
            continue;
        out->of[i] = (struct drawing_label){ DRAWING_LABEL_ROW_COLUMN, r->label.first, c->label.second };
        boxes[i] = geometry_box_join(r->box, c->box);
        letters[i] = (struct drawing_letters){ fmin(r->size_mm, c->size_mm), fmax(r->size_mm, c->size_mm) };
        out->count++;
    }
    return is_good(l->t->a, out, l->t->count);
}

static bool is_on(const struct geometry_box *box, struct sheet_pt at, double more)
{
    return at.x >= box->min.x - more && at.x <= box->max.x + more && at.y >= box->min.y - more &&
           at.y <= box->max.y + more;
}

/* A piece's words may run through a large page number; letters of one size do not differ by so much. */
#define SAME_LETTERS 0.02

static bool is_of(const struct drawing_signs *signs, size_t tile, const struct drawing_text *text)
{
    const struct drawing_letters *letters = &signs->letters[tile];
    return signs->of[tile].kind != DRAWING_LABEL_NONE && text->size_mm >= (1 - SAME_LETTERS) * letters->least &&
           text->size_mm <= (1 + SAME_LETTERS) * letters->most &&
           is_on(&signs->boxes[tile], text->at, 0.1 * text->size_mm);
}

void drawing_mark_signs(struct drawing_tiling *t, const struct drawing_signs *signs)
{
    for (size_t k = 0; signs->boxes && k < t->count; k++) {
        const struct drawing_page *page = &t->d->pages[t->tiles[k].page];
        for (size_t i = page->first_text; i < page->first_text + page->text_count; i++)
            if (is_of(signs, k, &t->d->texts[i]))
                t->furniture_texts[i] = true;
    }
}

/* What the file calls its pages, when the kind is the same on most. */
static bool find_of_file(const struct drawing_tiling *t, enum drawing_label_kind kind, struct drawing_signs *out)
{
    *out = no_signs(t->a, kind, t->count);
    for (size_t i = 0; i < t->count; i++) {
        const char *label = t->d->pages[t->tiles[i].page].label;
        struct drawing_label read = label ? drawing_label_read(label) : (struct drawing_label){ .first = 0 };
        if (read.kind == kind) {
            out->of[i] = read;
            out->count++;
        }
    }
    return is_good(t->a, out, t->count);
}

size_t drawing_find_signs(struct drawing_tiling *t, struct drawing_signs **out)
{
    struct drawing_signs *all = base_arena_alloc(t->a, 2 * DRAWING_LABEL_KINDS + 1, sizeof *all);
    struct looking l = look(t);
    size_t count = 0;
    count += find_apart(&l, &all[count]);
    for (int kind = DRAWING_LABEL_NONE + 1; kind < DRAWING_LABEL_KINDS; kind++)
        if (kind != DRAWING_LABEL_ROW && kind != DRAWING_LABEL_COLUMN)
            count += find_kind(&l, (enum drawing_label_kind)kind, &all[count]);
    for (int kind = DRAWING_LABEL_NONE + 1; kind < DRAWING_LABEL_KINDS; kind++)
        if (kind != DRAWING_LABEL_ROW && kind != DRAWING_LABEL_COLUMN)
            count += find_of_file(t, (enum drawing_label_kind)kind, &all[count]);
    for (size_t i = 0; i < count; i++)
        if ((double)all[i].count >= NUMBERED_LEAST * (double)t->count)
            drawing_mark_signs(t, &all[i]);
    *out = all;
    return count;
}
