#include "drawing/phrases.h"
#include "base/buffer.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* Shares of the font's size. Common practice, no source: a word space is about a quarter, a tab more than a whole. */
#define ROW_APART 0.3    /* baselines of one row */
#define WORDS_APART 0.24 /* from here on a gap is a space */
#define ONE_SHORT 0.15   /* by which the figure 1 is drawn narrower than the place that it takes */
#define ROWS_APART 1.5   /* and from here on another row */
#define TWICE_APART 0.2  /* the same words that near are printed twice for bold */
#define CAPITALS 0.7     /* height of capitals */

/* A run with its place in the turned plane in which it reads to the right. */
struct placed {
    const struct drawing_text *text;
    size_t index;
    long turn_x, turn_y; /* its direction to a hundredth */
    double along, up;
};

struct joining {
    struct arena *a;
    struct placed *runs;
    struct drawing_phrase *out;
    size_t count, cap;
};

static int by_number(double a, double b)
{
    return (a > b) - (a < b);
}

static int by_row(const void *left, const void *right)
{
    const struct placed *a = left, *b = right;
    if (a->text->page != b->text->page)
        return a->text->page < b->text->page ? -1 : 1;
    if (a->turn_x != b->turn_x)
        return a->turn_x < b->turn_x ? -1 : 1;
    if (a->turn_y != b->turn_y)
        return a->turn_y < b->turn_y ? -1 : 1;
    int order = by_number(b->up, a->up);
    return order ? order : (a->index > b->index) - (a->index < b->index);
}

static int by_place(const void *left, const void *right)
{
    const struct placed *a = left, *b = right;
    int order = by_number(a->along, b->along);
    return order ? order : (a->index > b->index) - (a->index < b->index);
}

static bool same_row(const struct placed *a, const struct placed *b)
{
    return a->text->page == b->text->page && a->turn_x == b->turn_x && a->turn_y == b->turn_y &&
           fabs(a->up - b->up) <= ROW_APART * fmin(a->text->size_mm, b->text->size_mm);
}

static struct placed placed(const struct drawing *d, size_t index)
{
    const struct drawing_text *text = &d->texts[index];
    vec2 at = { text->at.x, text->at.y };
    return (struct placed){ .text = text,
                            .index = index,
                            .turn_x = lround(100 * text->along.x),
                            .turn_y = lround(100 * text->along.y),
                            .along = vec2_dot(at, text->along),
                            .up = vec2_cross(text->along, at) };
}

static bool is_blank_at(const char *text, size_t count)
{
    return count && isspace((unsigned char)text[count - 1]);
}

/* How far a space begins behind what ends so. */
static double space_from(const char *words, size_t count, double size)
{
    return (count && words[count - 1] == '1' ? WORDS_APART + ONE_SHORT : WORDS_APART) * size;
}

static bool is_twice(const struct placed *last, const struct placed *next)
{
    return next > last && next->along - last->along <= TWICE_APART * last->text->size_mm &&
           strcmp(last->text->words, next->text->words) == 0;
}

/* Whether the next run goes on where the row has come to. */
static bool goes_on(const struct placed *last, double end, const struct placed *next)
{
    double size = fmin(last->text->size_mm, next->text->size_mm);
    return is_twice(last, next) || fabs(next->along - end) <= ROWS_APART * size;
}

static void cover(struct geometry_box *box, const struct drawing_text *text)
{
    vec2 start = { text->at.x, text->at.y }, end = vec2_add(start, vec2_scale(text->along, text->length_mm));
    vec2 up = vec2_scale(vec2_right(text->along), -CAPITALS * text->size_mm);
    const vec2 corners[] = { start, end, vec2_add(start, up), vec2_add(end, up) };
    for (size_t i = 0; i < 4; i++)
        *box = geometry_box_join(*box, (struct geometry_box){ corners[i], corners[i] });
}

/* Takes runs from `first` on for as long as they go on from each other; returns where it stopped. */
static size_t put_phrase(struct joining *j, size_t first, size_t end)
{
    const struct placed *run = &j->runs[first];
    struct drawing_phrase phrase = { .along = run->text->along,
                                     .size_mm = run->text->size_mm,
                                     .box = geometry_box_empty(),
                                     .page = run->text->page,
                                     .layer = run->text->layer,
                                     .first_text = run->index };
    struct base_buffer words = { .a = j->a };
    double reached = run->along;
    size_t next = first;
    for (; next < end && goes_on(run, reached, &j->runs[next]); next++) {
        if (is_twice(run, &j->runs[next]))
            continue;
        run = &j->runs[next];
        bool apart = next > first && run->along - reached > space_from(words.data, words.count, run->text->size_mm) &&
                     !is_blank_at(words.data, words.count) && !isspace((unsigned char)*run->text->words);
        base_buffer_print(&words, "%s%s", apart ? " " : "", run->text->words);
        cover(&phrase.box, run->text);
        phrase.doubtful = phrase.doubtful || run->text->doubtful;
        reached = run->along + run->text->length_mm;
    }
    phrase.words = base_buffer_text(&words);
    phrase.length_mm = reached - j->runs[first].along;
    j->out = base_arena_grow(j->a, j->out, &j->cap, j->count + 1, sizeof *j->out);
    j->out[j->count++] = phrase;
    return next;
}

size_t drawing_phrases_of(struct arena *a, const struct drawing *d, const size_t *texts, size_t count,
                          const struct drawing_phrase **out)
{
    struct joining j = { .a = a, .runs = base_arena_alloc(a, count, sizeof *j.runs) };
    for (size_t i = 0; i < count; i++)
        j.runs[i] = placed(d, texts[i]);
    qsort(j.runs, count, sizeof *j.runs, by_row);
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count && same_row(&j.runs[end - 1], &j.runs[end]);)
            end++;
        qsort(j.runs + first, end - first, sizeof *j.runs, by_place);
        for (size_t at = first; at < end;)
            at = put_phrase(&j, at, end);
    }
    *out = j.out;
    return j.count;
}

size_t drawing_phrases(struct arena *a, const struct drawing *d, const struct drawing_phrase **out)
{
    size_t *all = base_arena_alloc(a, d->text_count, sizeof *all);
    for (size_t i = 0; i < d->text_count; i++)
        all[i] = i;
    return drawing_phrases_of(a, d, all, d->text_count, out);
}
