#include "lifting/tokens.h"
#include "base/text.h"

#include <string.h>

/* From U+00C0 on (Unicode, Latin-1 supplement); capital and small letters alike. */
static const char *const latin[64] = { "a", "a", "a",  "a", "ae", "a",  "ae", "c", "e",  "e",  "e",  "e",  "i",
                                       "i", "i", "i",  "d", "n",  "o",  "o",  "o", "o",  "oe", "x",  "oe", "u",
                                       "u", "u", "ue", "y", "th", "ss", "a",  "a", "a",  "a",  "ae", "a",  "ae",
                                       "c", "e", "e",  "e", "e",  "i",  "i",  "i", "i",  "d",  "n",  "o",  "o",
                                       "o", "o", "oe", "/", "oe", "u",  "u",  "u", "ue", "y",  "th", "y" };

/* Others that sheets are seen to have; each row a run of code points that read alike. */
static const struct {
    unsigned long first, last;
    const char *plain;
} rows[] = {
    { 0x00a0, 0x00a0, " " },   { 0x00a9, 0x00a9, " (c) " }, { 0x00aa, 0x00aa, "a" },  { 0x00ab, 0x00ab, "\"" },
    { 0x00ad, 0x00ad, "" },    { 0x00ae, 0x00ae, " (r) " }, { 0x00b2, 0x00b2, "2" },  { 0x00b3, 0x00b3, "3" },
    { 0x00b7, 0x00b7, "," },   { 0x00b9, 0x00b9, "1" },     { 0x00ba, 0x00ba, "o" },  { 0x00bb, 0x00bb, "\"" },
    { 0x00a1, 0x00bf, "," },   { 0x0152, 0x0153, "oe" },    { 0x0160, 0x0161, "s" },  { 0x0178, 0x0178, "y" },
    { 0x0300, 0x0307, "" },    { 0x0308, 0x0308, "e" }, /* two dots as a sign of their own */
    { 0x0309, 0x036f, "" },    { 0x1e9e, 0x1e9e, "ss" },    { 0x2000, 0x200a, " " },  { 0x200b, 0x200f, "" },
    { 0x2010, 0x2015, "-" },   { 0x2018, 0x201b, "'" },     { 0x201c, 0x201f, "\"" }, { 0x2020, 0x2027, "," },
    { 0x202f, 0x202f, " " },   { 0x2044, 0x2044, "/" },     { 0x2060, 0x2060, "" },   { 0x2116, 0x2116, "nr " },
    { 0x2122, 0x2122, " " },   { 0x2190, 0x21ff, "," },     { 0x2212, 0x2212, "-" },  { 0x2215, 0x2215, "/" },
    { 0x2500, 0x26ff, "," },   { 0x2715, 0x2718, "x" },     { 0x2a2f, 0x2a2f, "x" },  { 0x3000, 0x3000, " " },
    { 0xfb00, 0xfb00, "ff" },  { 0xfb01, 0xfb01, "fi" },    { 0xfb02, 0xfb02, "fl" }, { 0xfb03, 0xfb03, "ffi" },
    { 0xfb04, 0xfb04, "ffl" }, { 0xfb05, 0xfb06, "st" },    { 0xfeff, 0xfeff, "" },
};

/* Circled numbers stand for 1 to 20 (U+2460) or 1 to 10 (U+2776, white on black). */
static const char *const numbers[] = { "1",  "2",  "3",  "4",  "5",  "6",  "7",  "8",  "9",  "10",
                                       "11", "12", "13", "14", "15", "16", "17", "18", "19", "20" };

enum { LONGEST_FORM = 8 };

/* The plain form of a code point, put into `form`. */
static const char *plain_of(unsigned long point, char form[LONGEST_FORM])
{
    if (point < 0x80) {
        form[0] = (char)(point >= 'A' && point <= 'Z' ? point + ('a' - 'A') : point < 0x20 ? ' ' : point);
        form[1] = 0;
        return form;
    }
    if (point >= 0xc0 && point < 0x100)
        return latin[point - 0xc0];
    if (point >= 0x2460 && point < 0x2474)
        return numbers[point - 0x2460];
    if (point >= 0x2776 && point < 0x2780)
        return numbers[point - 0x2776];
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (point >= rows[i].first && point <= rows[i].last)
            return rows[i].plain;
    return "*";
}

/* Two dots behind a letter that does not take them as an e: Citroën. */
static bool dots_fall_away(unsigned long point, const char *out, size_t count)
{
    return point == 0x0308 && (!count || !strchr("aou", out[count - 1]));
}

/* Plain letters of a whole text, and for each the byte that its code point starts at; `starts` may be NULL. */
static size_t put_plain(const char *text, char *out, size_t *starts)
{
    size_t count = 0;
    char form[LONGEST_FORM];
    for (const char *at = text; *at;) {
        size_t first = (size_t)(at - text);
        unsigned long point = base_text_next(&at);
        if (dots_fall_away(point, out, count))
            continue;
        for (const char *p = plain_of(point, form); *p; p++) {
            if (starts)
                starts[count] = first;
            out[count++] = *p;
        }
    }
    out[count] = 0;
    return count;
}

/* No form is longer than five letters for two bytes. */
static size_t most_plain(const char *text)
{
    return 3 * strlen(text) + LONGEST_FORM;
}

const char *lifting_plain(struct arena *a, const char *text)
{
    char *out = base_arena_alloc(a, most_plain(text), 1);
    put_plain(text, out, NULL);
    return out;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || c == '*';
}

static size_t number_end(const char *plain, size_t k)
{
    while (is_digit(plain[k]))
        k++;
    if ((plain[k] == '.' || plain[k] == ',') && is_digit(plain[k + 1]))
        for (k++; is_digit(plain[k]);)
            k++;
    return k;
}

static size_t token_end(const char *plain, size_t k, enum lifting_token_kind *kind)
{
    *kind = is_digit(plain[k]) ? LIFTING_NUMBER : is_letter(plain[k]) ? LIFTING_WORD : LIFTING_SIGN;
    if (*kind == LIFTING_NUMBER)
        return number_end(plain, k);
    if (*kind == LIFTING_SIGN)
        return k + 1;
    while (is_letter(plain[k]))
        k++;
    return k;
}

struct lifting_tokens lifting_tokens_of(struct arena *a, const char *text)
{
    size_t bytes = strlen(text);
    char *plain = base_arena_alloc(a, most_plain(text), 1);
    size_t *starts = base_arena_alloc(a, most_plain(text), sizeof *starts);
    size_t letters = put_plain(text, plain, starts), count = 0, cap = 0;
    struct lifting_token *items = NULL;
    starts[letters] = bytes;
    for (size_t k = 0; k < letters;) {
        if (plain[k] == ' ') {
            k++;
            continue;
        }
        struct lifting_token token = { .spaced = !k || plain[k - 1] == ' ', .first = starts[k] };
        size_t end = token_end(plain, k, &token.kind);
        token.end = starts[end];
        token.plain = base_arena_copy_bytes(a, plain + k, end - k);
        items = base_arena_grow(a, items, &cap, count + 1, sizeof *items);
        items[count++] = token;
        k = end;
    }
    return (struct lifting_tokens){ text, items, count };
}

bool lifting_token_is(const struct lifting_tokens *t, size_t k, const char *plain)
{
    return k < t->count && strcmp(t->items[k].plain, plain) == 0;
}
