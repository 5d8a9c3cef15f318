#include "lifting/written.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define NEXT_LINE 2.3 /* from baseline to baseline, in heights of the font; common practice, no source */

enum { LOOK_BACK = 12 }; /* lines between which there may be others beside them */

struct writing {
    struct arena *a;
    struct lifting_written *lines;
    size_t count;
};

/* Whether `b` stands right below `a`. */
static bool stands_below(const struct lifting_written *a, const struct lifting_written *b)
{
    const struct drawing_phrase *p = a->phrase, *q = b->phrase;
    vec2 step = vec2_sub((vec2){ b->at.x, b->at.y }, (vec2){ a->at.x, a->at.y });
    double down = -vec2_cross(p->along, step), right = vec2_dot(p->along, step);
    return vec2_dot(p->along, q->along) > 0.99 && down > 0 && down < NEXT_LINE * fmax(p->size_mm, q->size_mm) &&
           right < p->length_mm && right + q->length_mm > 0;
}

static void find_blocks(struct writing *w)
{
    size_t blocks = 0;
    for (size_t i = 0; i < w->count; i++) {
        size_t back = i;
        while (back > 0 && i - back < LOOK_BACK && !stands_below(&w->lines[back - 1], &w->lines[i]))
            back--;
        bool below = back > 0 && i - back < LOOK_BACK;
        w->lines[i].block = below ? w->lines[back - 1].block : blocks++;
    }
}

/* Lines of a block behind each other; the order of lines within it stays. */
static const struct lifting_written *in_blocks(const struct writing *w)
{
    size_t *next = base_arena_alloc(w->a, w->count + 1, sizeof *next);
    struct lifting_written *out = base_arena_alloc(w->a, w->count, sizeof *out);
    for (size_t i = 0; i < w->count; i++)
        next[w->lines[i].block + 1]++;
    for (size_t i = 0; i < w->count; i++)
        next[i + 1] += next[i];
    for (size_t i = 0; i < w->count; i++)
        out[next[w->lines[i].block]++] = w->lines[i];
    return out;
}

static int by_words(const void *pa, const void *pb)
{
    const struct drawing_phrase *const *a = pa, *const *b = pb;
    int order = strcmp((*a)->words, (*b)->words);
    return order ? order : (*a > *b) - (*a < *b);
}

/* Lines that say the same again, in another size's layer, count once. */
static bool *said_before(struct arena *a, const struct drawing_phrase *phrases, size_t count)
{
    bool *again = base_arena_alloc(a, count, sizeof *again);
    const struct drawing_phrase **sorted = base_arena_alloc(a, count, sizeof(void *));
    for (size_t i = 0; i < count; i++)
        sorted[i] = &phrases[i];
    qsort(sorted, count, sizeof(void *), by_words);
    for (size_t i = 1; i < count; i++)
        again[sorted[i] - phrases] = strcmp(sorted[i - 1]->words, sorted[i]->words) == 0;
    return again;
}

static void put_line(struct writing *w, const struct drawing *d, const struct drawing_phrase *phrase)
{
    struct lifting_written line = { .phrase = phrase,
                                    .tokens = lifting_tokens_of(w->a, phrase->words),
                                    .at = d->texts[phrase->first_text].at };
    if (line.tokens.count && phrase->size_mm > 0)
        w->lines[w->count++] = line;
}

size_t lifting_written_lines(struct arena *a, const struct drawing *d, const size_t *texts, size_t count,
                             const struct lifting_written **out)
{
    const struct drawing_phrase *phrases;
    size_t phrase_count = drawing_phrases_of(a, d, texts, count, &phrases);
    const bool *again = said_before(a, phrases, phrase_count);
    struct writing w = { .a = a, .lines = base_arena_alloc(a, phrase_count, sizeof *w.lines) };
    for (size_t i = 0; i < phrase_count; i++)
        if (!again[i])
            put_line(&w, d, &phrases[i]);
    find_blocks(&w);
    *out = in_blocks(&w);
    return w.count;
}
