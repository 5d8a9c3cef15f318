#include "lettering/spelling.h"

#include "base/buffer.h"
#include "base/text.h"

#include <stdlib.h>
#include <string.h>

/* Own bounds, no source: gaps in heights of capitals, costs as those of glyphs. */
#define SPACE 0.18         /* more than between letters of a word */
#define GAP 0.12           /* between letters */
#define GAP_MOST 0.3       /* between letters of one word, however widely they are set */
#define FIGURES 0.15       /* more between figures, each as wide as the others: 1 is narrow */
#define OVERHANG 0.1       /* of an f over what comes behind it */
#define INNER_CAPITAL 0.08 /* behind a capital within a word */
#define KNOWN_WORD 0.3     /* what a known word may cost more than what is read letter by letter */
#define NEAR_COST 0.06     /* a letter that costs so little more may be meant as well */
#define FAR_COST 0.42      /* a letter that costs so much may be none of those that are known */

enum { GAPS_LEAST = 4 };

enum { TRIALS_MOST = 400, WORD_LETTERS_MOST = 40, WORD_BYTES = 4 * WORD_LETTERS_MOST + 1 };

enum letter_class { SIGN, DIGIT, UPPER, LOWER, CLASSES };

/* What it costs that one follows the other within a word. */
static const double follow_cost[CLASSES][CLASSES] = {
    /*            SIGN  DIGIT UPPER LOWER */
    [SIGN] = { 0.02, 0.02, 0.04, 0.06 },
    [DIGIT] = { 0.02, 0.0, 0.1, 0.15 },
    [UPPER] = { 0.04, 0.06, 0.0, 0.0 },
    [LOWER] = { 0.06, 0.12, 0.2, 0.0 },
};

struct spelling {
    const struct lettering_reading *r;
    const struct lettering_vocabulary *vocabulary;
    size_t first, end;               /* the word's glyphs */
    size_t picks[WORD_LETTERS_MOST]; /* for each the guess that is taken */
    bool doubtful;
};

static enum letter_class class_of(int letter)
{
    const char *at = lettering_letter_text(letter);
    unsigned long c = base_text_next(&at);
    if (c >= '0' && c <= '9')
        return DIGIT;
    if ((c >= 'A' && c <= 'Z') || (c >= 0xc0 && c <= 0xde && c != 0xd7))
        return UPPER;
    return (c >= 'a' && c <= 'z') || (c >= 0xdf && c <= 0xff) ? LOWER : SIGN;
}

static const struct lettering_glyph *glyph(const struct spelling *s, size_t k)
{
    return &s->r->glyphs[s->first + k];
}

static int letter_at(const struct spelling *s, size_t k, size_t pick)
{
    return glyph(s, k)->guesses.items[pick].letter;
}

/* I and l are one stroke in many fonts: a word begins with I before a consonant and with l before a vowel. */
static double stroke_cost(const char *first, const char *next)
{
    bool vowel = strchr("aeiouyäöü", *next) != NULL;
    return (strcmp(first, "l") == 0 && !vowel) || (strcmp(first, "I") == 0 && vowel) ? 0.05 : 0;
}

static double step_cost(const struct spelling *s, size_t k, size_t before, size_t pick)
{
    int from = letter_at(s, k - 1, before), to = letter_at(s, k, pick);
    double cost = follow_cost[class_of(from)][class_of(to)];
    if (k > 1 && class_of(from) == UPPER && class_of(to) == LOWER)
        cost += INNER_CAPITAL;
    if (k == 1 && class_of(to) == LOWER)
        cost += stroke_cost(lettering_letter_text(from), lettering_letter_text(to));
    return cost;
}

/* The cheapest way through all guesses (Viterbi). */
static double pick_letters(struct spelling *s)
{
    size_t count = s->end - s->first, from[WORD_LETTERS_MOST][GUESSES_MOST] = { { 0 } };
    double costs[GUESSES_MOST] = { 0 }, next[GUESSES_MOST] = { 0 };
    for (size_t p = 0; p < glyph(s, 0)->guesses.count; p++)
        costs[p] = glyph(s, 0)->costs[p];
    for (size_t k = 1; k < count; k++) {
        for (size_t p = 0; p < glyph(s, k)->guesses.count; p++) {
            next[p] = INFINITY;
            for (size_t b = 0; b < glyph(s, k - 1)->guesses.count; b++) {
                double cost = costs[b] + step_cost(s, k, b, p) + glyph(s, k)->costs[p];
                if (cost < next[p]) {
                    next[p] = cost;
                    from[k][p] = b;
                }
            }
        }
        memcpy(costs, next, sizeof costs);
    }
    size_t best = 0;
    for (size_t p = 0; p < glyph(s, count - 1)->guesses.count; p++)
        if (costs[p] < costs[best])
            best = p;
    double least = costs[best];
    for (size_t k = count; k-- > 0;) {
        s->picks[k] = best;
        best = k ? from[k][best] : 0;
    }
    return least;
}

static void write_word(const struct spelling *s, const size_t *picks, char out[WORD_BYTES])
{
    size_t used = 0;
    for (size_t k = 0; k < s->end - s->first; k++) {
        const char *text = lettering_letter_text(letter_at(s, k, picks[k]));
        memcpy(out + used, text, strlen(text));
        used += strlen(text);
    }
    out[used] = 0;
}

static bool is_known(const struct spelling *s, const size_t *picks)
{
    char word[WORD_BYTES];
    write_word(s, picks, word);
    return s->vocabulary && s->vocabulary->is_known(word, s->vocabulary->user);
}

/* Other guesses for the letters from `k` on, as long as they cost little more. */
struct search {
    struct spelling *s;
    size_t picks[WORD_LETTERS_MOST], best[WORD_LETTERS_MOST];
    double least; /* extra cost of `best` */
    int trials;
};

static void try_letters(struct search *t, size_t k, double extra)
{
    const struct spelling *s = t->s;
    size_t count = s->end - s->first;
    if (t->trials <= 0 || extra >= t->least)
        return;
    if (k == count) {
        t->trials--;
        if (is_known(s, t->picks)) {
            t->least = extra;
            memcpy(t->best, t->picks, sizeof t->best);
        }
        return;
    }
    const struct lettering_glyph *g = glyph(s, k);
    t->picks[k] = s->picks[k];
    try_letters(t, k + 1, extra);
    for (size_t p = 0; p < g->guesses.count; p++) {
        if (p == s->picks[k])
            continue;
        t->picks[k] = p;
        try_letters(t, k + 1, extra + fmax(0, g->costs[p] - g->costs[s->picks[k]]));
    }
}

static bool find_known(struct spelling *s)
{
    struct search t = { .s = s, .least = KNOWN_WORD, .trials = TRIALS_MOST };
    if (!s->vocabulary)
        return false;
    if (is_known(s, s->picks))
        return true;
    try_letters(&t, 0, 0);
    if (t.least >= KNOWN_WORD)
        return false;
    memcpy(s->picks, t.best, sizeof t.best);
    return true;
}

/* The same letter as a small one and a capital is told by its height alone, and reads the same. */
static bool same_but_case(int a, int b)
{
    const char *x = lettering_letter_text(a), *y = lettering_letter_text(b);
    return (x[0] | 0x20) == (y[0] | 0x20) && strcmp(x + 1, y + 1) == 0;
}

/* What it costs that the letter at `k` is a guess, its neighbours as they were picked. */
static double cost_between(const struct spelling *s, size_t k, size_t pick)
{
    double cost = glyph(s, k)->costs[pick];
    if (k > 0)
        cost += step_cost(s, k, s->picks[k - 1], pick);
    if (s->first + k + 1 < s->end)
        cost += step_cost(s, k + 1, pick, s->picks[k + 1]);
    return cost;
}

static bool is_doubtful(const struct spelling *s)
{
    for (size_t k = 0; k < s->end - s->first; k++) {
        const struct lettering_glyph *g = glyph(s, k);
        double cost = cost_between(s, k, s->picks[k]);
        if (g->costs[s->picks[k]] > FAR_COST)
            return true;
        for (size_t p = 0; p < g->guesses.count; p++)
            if (!same_but_case(letter_at(s, k, p), letter_at(s, k, s->picks[k])) &&
                cost_between(s, k, p) < cost + NEAR_COST)
                return true;
    }
    return false;
}

static void put_word(struct spelling *s, struct base_buffer *words)
{
    char word[WORD_BYTES];
    pick_letters(s);
    if (!find_known(s))
        s->doubtful = s->doubtful || is_doubtful(s);
    write_word(s, s->picks, word);
    base_buffer_print(words, "%s%s", words->count ? " " : "", word);
}

static int by_number(const void *pa, const void *pb)
{
    const double *a = pa, *b = pb;
    return (*a > *b) - (*a < *b);
}

static double gap_behind(const struct lettering_reading *r, size_t i)
{
    return r->glyphs[i + 1].cell.left - r->glyphs[i].cell.right;
}

/* From which gap on another word begins: letters may be set wide or narrow. */
static double space_of(struct arena *a, const struct lettering_reading *r)
{
    double *gaps = base_arena_alloc(a, r->count, sizeof *gaps), usual = GAP * r->cap;
    size_t count = r->count - 1;
    for (size_t i = 0; i < count; i++)
        gaps[i] = gap_behind(r, i);
    if (count >= GAPS_LEAST) {
        qsort(gaps, count, sizeof *gaps, by_number);
        usual = fmin(fmax(gaps[count / 3], 0), GAP_MOST * r->cap);
    }
    return usual + SPACE * r->cap;
}

static bool is_figure(const struct lettering_glyph *g)
{
    return class_of(g->guesses.items[g->best].letter) == DIGIT;
}

/* Whether the glyph behind belongs to the same word. */
static bool goes_on(const struct lettering_reading *r, size_t i, double space)
{
    bool figures = is_figure(&r->glyphs[i]) && is_figure(&r->glyphs[i + 1]);
    const struct lettering_glyph *g = &r->glyphs[i];
    bool hangs = lettering_letter_text(g->guesses.items[g->best].letter)[0] == 'f';
    return gap_behind(r, i) < space + (figures ? FIGURES * r->cap : 0) - (hangs ? OVERHANG * r->cap : 0);
}

const char *lettering_spell(struct arena *a, const struct lettering_reading *reading,
                            const struct lettering_vocabulary *vocabulary, bool *doubtful)
{
    struct spelling s = { .r = reading, .vocabulary = vocabulary };
    struct base_buffer words = { .a = a };
    double space = space_of(a, reading);
    for (size_t i = 0; i < reading->count; i = s.end) {
        s.first = i;
        for (s.end = i + 1;
             s.end < reading->count && s.end - i < WORD_LETTERS_MOST && goes_on(reading, s.end - 1, space);)
            s.end++;
        put_word(&s, &words);
    }
    *doubtful = s.doubtful;
    return base_buffer_text(&words);
}
