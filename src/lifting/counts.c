#include "lifting/counts.h"

#include <stdlib.h>
#include <string.h>

/* What may stand within the telling of a count, by kind of word. */
static const bool goes_on[] = {
    [TRADE_CUT] = true,    [TRADE_TIMES] = true,  [TRADE_NUMBER] = true, [TRADE_ONCE] = true,
    [TRADE_PAIR] = true,   [TRADE_MIRROR] = true, [TRADE_FOLD] = true,   [TRADE_CLOTH] = true,
    [TRADE_FABRIC] = true, [TRADE_LINING] = true, [TRADE_GLUE] = true,   [TRADE_INTERFACING] = true,
    [TRADE_GRAIN] = true,  [TRADE_PIECE] = true,  [TRADE_PART] = false,
};

static bool is_cloth(enum trade_word word)
{
    return word >= TRADE_CLOTH && word <= TRADE_LINING;
}

static bool is_number(enum trade_word word)
{
    return word == TRADE_NUMBER || word == TRADE_ONCE;
}

static void speak_number(const struct lifting_tokens *line, size_t k, struct lifting_spoken *out)
{
    const char *plain = line->items[k].plain;
    bool whole = strspn(plain, "0123456789") == strlen(plain) && strlen(plain) <= 2;
    bool joined = k + 1 < line->count && !line->items[k + 1].spaced && line->items[k + 1].kind == LIFTING_WORD;
    bool unit = k + 1 < line->count && (lifting_trade_word(line->items[k + 1].plain, NULL) == TRADE_UNIT ||
                                        lifting_token_is(line, k + 1, "\"") || lifting_token_is(line, k + 1, "%"));
    bool part = k > 1 && lifting_token_is(line, k - 1, "/") && line->items[k - 2].kind == LIFTING_NUMBER; /* 1/2 */
    if (joined && lifting_trade_word(line->items[k + 1].plain, NULL) == TRADE_UNKNOWN)
        whole = false;
    out->digits = true;
    out->number = whole && !unit && !part ? atoi(plain) : 0;
    out->word = out->number ? TRADE_NUMBER : TRADE_UNKNOWN;
}

void lifting_speak(const struct lifting_tokens *line, struct lifting_spoken *out)
{
    for (size_t k = 0; k < line->count; k++) {
        out[k] = (struct lifting_spoken){ .last = k + 1 == line->count };
        if (line->items[k].kind == LIFTING_WORD)
            out[k].word = lifting_trade_word(line->items[k].plain, &out[k].number);
        else if (line->items[k].kind == LIFTING_NUMBER)
            speak_number(line, k, &out[k]);
        else
            out[k].sign = true, out[k].parts = strchr(",;+&()/", *line->items[k].plain) != NULL;
    }
}

struct reading {
    struct lifting_spoken *spoken;
    size_t count;
};

static enum trade_word word_at(const struct reading *r, size_t k)
{
    return k < r->count ? r->spoken[k].word : TRADE_UNKNOWN;
}

static bool joins(const struct reading *r, size_t k)
{
    return k < r->count && (r->spoken[k].sign || goes_on[r->spoken[k].word]);
}

/* Whether all of the line from `k` on can be part of a count, and is more than numbers (which are sizes). */
static bool line_joins(const struct reading *r, size_t k)
{
    bool more = false;
    for (; k < r->count; k++) {
        if (!joins(r, k) || r->spoken[k].word == TRADE_PIECE)
            return false;
        more = more || (!r->spoken[k].sign && !is_number(r->spoken[k].word));
        if (r->spoken[k].last)
            break;
    }
    return more;
}

/* The next word that is neither a sign nor glue, on the same line. */
static enum trade_word next_word(const struct reading *r, size_t k)
{
    while (k < r->count && !r->spoken[k].last) {
        k++;
        if (!r->spoken[k].sign && r->spoken[k].word != TRADE_GLUE)
            return r->spoken[k].word;
    }
    return TRADE_UNKNOWN;
}

static bool opens_after_number(enum trade_word next)
{
    return next == TRADE_TIMES || next == TRADE_CUT || next == TRADE_PAIR || next == TRADE_MIRROR ||
           next == TRADE_FOLD || is_cloth(next);
}

/* A cloth opens a count where the whole line tells it: “Einlage 1x”, not “Lining back 1”. */
static bool opens_with_cloth(const struct reading *r, size_t k)
{
    bool first = k == 0 || r->spoken[k - 1].last, number = false;
    size_t i = k;
    for (; first && joins(r, i); i++) {
        number = number || is_number(r->spoken[i].word);
        if (r->spoken[i].last)
            return number;
    }
    return false;
}

static bool opens(const struct reading *r, size_t k)
{
    enum trade_word word = word_at(r, k), next = next_word(r, k);
    if (k > 0 && word_at(r, k - 1) == TRADE_NOT)
        return false;
    if (word == TRADE_CUT)
        return is_number(next) || next == TRADE_FOLD || next == TRADE_PAIR || next == TRADE_TIMES || is_cloth(next);
    if (word == TRADE_ONCE)
        return true;
    if (word == TRADE_FOLD)
        return next == TRADE_CUT; /* “im Stoffbruch zuschneiden” */
    if (word == TRADE_TIMES)
        return next == TRADE_NUMBER && (k == 0 || !is_number(word_at(r, k - 1)));
    if (word == TRADE_NUMBER)
        return opens_after_number(next);
    return is_cloth(word) && opens_with_cloth(r, k);
}

/* The end of what is told from `k` on. */
static size_t told_until(const struct reading *r, size_t k)
{
    while (joins(r, k)) {
        if (r->spoken[k].last && (!line_joins(r, k + 1) || opens(r, k + 1)))
            return k + 1;
        k++;
    }
    return k;
}

/* 60 x 8 is a measure, no count. */
static bool is_measure(const struct reading *r, size_t k)
{
    return k + 2 < r->count && r->spoken[k].digits && word_at(r, k + 1) == TRADE_TIMES && r->spoken[k + 2].digits &&
           !is_cloth(next_word(r, k + 2)) && next_word(r, k + 2) != TRADE_TIMES;
}

static struct lifting_count *last_of(struct lifting_counts *found)
{
    return &found->items[found->count - 1];
}

static void add(struct lifting_counts *found, int number)
{
    if (found->count < LIFTING_COUNTS_MOST)
        found->items[found->count++] = (struct lifting_count){ .number = number };
}

static unsigned cloth_bit(enum trade_word word)
{
    return word == TRADE_INTERFACING ? 1U << LIFTING_INTERFACING
           : word == TRADE_LINING    ? 1U << LIFTING_LINING
                                     : 1U << LIFTING_FABRIC;
}

/* “fabric” alone is the main one; behind “lining” it says nothing more. */
static void take_cloth(struct lifting_counts *found, enum trade_word word, bool cloth_first)
{
    struct lifting_count *now = last_of(found);
    if (word == TRADE_CLOTH && now->cloths)
        return;
    if (cloth_first && now->number) {
        add(found, 0);
        now = last_of(found);
    }
    now->cloths |= cloth_bit(word);
}

/* “1 + 1 mirrored”: both are one count. */
static bool adds_up(const struct reading *r, size_t k)
{
    size_t back = k;
    while (back > 0 && (r->spoken[back - 1].sign || r->spoken[back - 1].word == TRADE_GLUE ||
                        r->spoken[back - 1].word == TRADE_TIMES))
        back--;
    return back > 0 && back < k && word_at(r, back - 1) == TRADE_NUMBER &&
           (next_word(r, k) == TRADE_MIRROR || (next_word(r, k) == TRADE_TIMES && next_word(r, k + 1) == TRADE_MIRROR));
}

static void take_number(const struct reading *r, size_t k, struct lifting_counts *found)
{
    if (adds_up(r, k))
        last_of(found)->number += r->spoken[k].number;
    else if (!last_of(found)->number)
        last_of(found)->number = r->spoken[k].number;
    else
        add(found, r->spoken[k].number);
}

static void take_word(const struct reading *r, size_t k, struct lifting_counts *found, bool cloth_first)
{
    enum trade_word word = r->spoken[k].word;
    if (is_number(word))
        take_number(r, k, found);
    else if (is_cloth(word))
        take_cloth(found, word, cloth_first);
    else if (word == TRADE_PAIR)
        last_of(found)->pairs = true;
    else if (word == TRADE_MIRROR)
        last_of(found)->mirrored = true;
    else if (word == TRADE_FOLD)
        found->on_fold = true;
}

/* Whether up to the next comma a cloth stands before its number. */
static bool cloth_comes_first(const struct reading *r, size_t first, size_t end)
{
    bool cloth = false;
    for (size_t k = first; k < end && !r->spoken[k].parts; k++) {
        if (is_number(r->spoken[k].word))
            return cloth;
        cloth = cloth || is_cloth(r->spoken[k].word);
        if (r->spoken[k].last)
            break;
    }
    return false;
}

static void read_told(const struct reading *r, size_t first, size_t end, struct lifting_counts *found)
{
    bool cloth_first = false;
    size_t before = found->count;
    add(found, 0);
    for (size_t k = first; k < end; k++) {
        if (k == first || r->spoken[k - 1].parts || r->spoken[k - 1].last)
            cloth_first = cloth_comes_first(r, k, end);
        r->spoken[k].taken = true;
        take_word(r, k, found, cloth_first);
    }
    if (before < found->count && !found->items[before].number)
        found->items[before].number = 1; /* “cut on fold” */
}

void lifting_find_counts(struct lifting_spoken *spoken, size_t count, struct lifting_counts *found)
{
    struct reading r = { spoken, count };
    for (size_t k = 0; k < count;) {
        if (is_measure(&r, k)) {
            k += 3;
        } else if (!opens(&r, k)) {
            k++;
        } else {
            size_t end = told_until(&r, k);
            read_told(&r, k, end, found);
            k = end;
        }
    }
}

/* A pair is two. */
static int pieces_of(const struct lifting_count *c)
{
    return c->pairs ? 2 * c->number : c->number;
}

/* “cut 4: 2 fabric, 2 lining”: the first is the sum of the others. */
static bool is_sum(const struct lifting_counts *found)
{
    int sum = 0;
    for (size_t i = 1; i < found->count; i++) {
        if (!found->items[i].cloths)
            return false;
        sum += pieces_of(&found->items[i]);
    }
    return found->count > 1 && !found->items[0].pairs && !found->items[0].cloths && sum == pieces_of(&found->items[0]);
}

/* “4 × lining (2 pairs)”: the second says the same again. */
static bool says_in_pairs(const struct lifting_count *c, const struct lifting_count *before)
{
    return !c->cloths && c->pairs && !before->pairs && before->number == pieces_of(c);
}

/* “2 pairs (4 in all)”: the same again, maybe with its cloth. */
static bool says_total(const struct lifting_count *c, const struct lifting_count *before)
{
    return before->pairs && !before->cloths && !c->pairs && c->number == pieces_of(before);
}

/* In pairs: “2 mirrored” is one. */
static void settle_pairs(struct lifting_count *c)
{
    if (c->mirrored && !c->pairs) {
        c->pairs = true;
        c->number = c->number > 1 ? c->number / 2 : 1;
    }
}

static void settle_one(const struct lifting_count *c, struct lifting_words *words, int told[3])
{
    unsigned cloths = c->cloths ? c->cloths : 1U << LIFTING_FABRIC;
    for (int cloth = 0; cloth < 3; cloth++) {
        if (!(cloths >> cloth & 1U) || !c->number)
            continue;
        if (told[cloth] && told[cloth] != c->number)
            words->sure = false;
        else
            told[cloth] = c->number;
    }
    words->cloths |= c->cloths;
    words->pairs = words->pairs || c->pairs;
}

void lifting_settle_counts(const struct lifting_counts *found, struct lifting_words *words)
{
    int told[3] = { 0, 0, 0 };
    words->on_fold = words->on_fold || found->on_fold;
    for (size_t i = is_sum(found) ? 1 : 0; i < found->count; i++) {
        struct lifting_count c = found->items[i];
        if (i > 0 && (says_in_pairs(&c, &found->items[i - 1]) || says_total(&c, &found->items[i - 1])))
            continue;
        if (i + 1 < found->count && says_total(&found->items[i + 1], &c))
            c.cloths = found->items[i + 1].cloths;
        if (i + 1 < found->count && says_in_pairs(&found->items[i + 1], &c))
            c.number = found->items[i + 1].number, c.pairs = true;
        settle_pairs(&c);
        settle_one(&c, words, told);
    }
    for (int cloth = 2; cloth >= 0; cloth--)
        words->count = told[cloth] ? told[cloth] : words->count;
    for (int cloth = 0; cloth < 3; cloth++)
        words->counts[cloth] = told[cloth] != words->count ? told[cloth] : 0;
    if (words->counts[LIFTING_INTERFACING] || words->counts[LIFTING_LINING] || (words->cloths && told[LIFTING_FABRIC]))
        words->cloths |= told[LIFTING_FABRIC] ? 1U << LIFTING_FABRIC : 0;
}
