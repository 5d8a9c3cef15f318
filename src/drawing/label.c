#include "drawing/label.h"

#include <stddef.h>
#include <string.h>

enum { TOKENS_MOST = 10, LETTERS_MOST = 2 };

enum token_kind { TOKEN_WORD, TOKEN_NUMBER, TOKEN_SIGN };

struct token {
    enum token_kind kind;
    char word[12]; /* in small letters; of a sign the sign */
    int number;
};

struct tokens {
    struct token t[TOKENS_MOST];
    size_t count;
};

static const char *const row_words[] = { "row", "r", "reihe", "zeile", NULL };
static const char *const column_words[] = { "column", "col", "c", "spalte", NULL };
static const char *const page_words[] = { "page",  "pg",   "p",    "seite", "s",  "sheet", "blatt",
                                          "bogen", "tile", "part", "teil",  "nr", "no",    NULL };
static const char *const of_words[] = { "of", "von", "/", "aus", NULL };
static const char *const between[] = { "-", ".", ",", ":", "x", "/", "_", "|", NULL };

static bool is_one_of(const char *word, const char *const *words)
{
    while (*words && strcmp(word, *words) != 0)
        words++;
    return *words != NULL;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Bytes of letters beyond ASCII count as letters. */
static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}

static char small(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static const char *take_number(const char *text, struct token *t)
{
    t->kind = TOKEN_NUMBER;
    for (t->number = 0; is_digit(*text); text++)
        t->number = t->number > DRAWING_LABEL_MOST ? t->number : 10 * t->number + (*text - '0');
    return text;
}

static const char *take_word(const char *text, struct token *t)
{
    size_t count = 0;
    t->kind = TOKEN_WORD;
    for (; is_letter(*text); text++)
        if (count + 1 < sizeof t->word)
            t->word[count++] = small(*text);
    return text;
}

/* Brackets and blanks say nothing. */
static const char *skip_blanks(const char *text)
{
    while (*text && strchr(" \t()[]#<>\"'", *text))
        text++;
    return text;
}

/* False when it is too long, or has a number beyond any label. */
static bool split(const char *text, struct tokens *out)
{
    *out = (struct tokens){ .count = 0 };
    for (text = skip_blanks(text); *text && out->count < TOKENS_MOST; text = skip_blanks(text)) {
        struct token *t = &out->t[out->count++];
        if (is_digit(*text)) {
            text = take_number(text, t);
        } else if (is_letter(*text)) {
            text = take_word(text, t);
        } else {
            t->kind = TOKEN_SIGN;
            t->word[0] = *text++;
        }
        if (t->number > DRAWING_LABEL_MOST)
            return false;
    }
    return *text == 0;
}

/* Signs at the ends, as in "- 3 -" or "No. 3", are ornament. */
static void trim(struct tokens *s)
{
    size_t kept = 0, last = s->count;
    while (last > 0 && s->t[last - 1].kind == TOKEN_SIGN)
        last--;
    for (size_t i = 0; i < last; i++) {
        bool after_word = kept > 0 && s->t[kept - 1].kind == TOKEN_WORD && strlen(s->t[kept - 1].word) > 1;
        bool ornament = s->t[i].kind == TOKEN_SIGN && (kept == 0 || after_word || s->t[kept - 1].kind == TOKEN_SIGN);
        if (!ornament)
            s->t[kept++] = s->t[i];
    }
    s->count = kept;
}

/* A: 1, Z: 26, AA: 27; 0 when it is a word rather than such letters. */
static int letters_value(const struct token *t)
{
    int value = 0;
    size_t count = strlen(t->word);
    if (t->kind != TOKEN_WORD || count > LETTERS_MOST)
        return 0;
    for (size_t i = 0; i < count; i++) {
        if (t->word[i] < 'a' || t->word[i] > 'z')
            return 0;
        value = 26 * value + (t->word[i] - 'a' + 1);
    }
    return value;
}

/* What stands behind one of the words: a number, or letters. 0: nothing does. */
static int value_behind(const struct tokens *s, const char *const *words)
{
    for (size_t i = 0; i + 1 < s->count; i++) {
        if (s->t[i].kind != TOKEN_WORD || !is_one_of(s->t[i].word, words))
            continue;
        const struct token *next = &s->t[i + 1];
        return next->kind == TOKEN_NUMBER ? next->number : letters_value(next);
    }
    return 0;
}

static struct drawing_label by_row_and_column(const struct tokens *s)
{
    int row = value_behind(s, row_words), column = value_behind(s, column_words);
    enum drawing_label_kind kind = DRAWING_LABEL_NONE;
    if (row && column)
        kind = DRAWING_LABEL_ROW_COLUMN;
    else if (row && s->count == 2 && strlen(s->t[0].word) > 1)
        kind = DRAWING_LABEL_ROW;
    else if (column && s->count == 2 && strlen(s->t[0].word) > 1)
        kind = DRAWING_LABEL_COLUMN;
    return (struct drawing_label){ kind, row, column };
}

static bool is_kinds(const struct tokens *s, size_t from, const char *kinds)
{
    static const char letters[] = { [TOKEN_WORD] = 'w', [TOKEN_NUMBER] = 'n', [TOKEN_SIGN] = '/' };
    size_t count = strlen(kinds);
    if (s->count - from != count)
        return false;
    for (size_t i = 0; i < count; i++)
        if (letters[s->t[from + i].kind] != kinds[i])
            return false;
    return true;
}

/* "3 of 24", "3/24": the first of two numbers runs up to the second. */
static bool is_of(const struct tokens *s, size_t at)
{
    bool three = is_kinds(s, at, "nwn") || is_kinds(s, at, "n/n");
    return three && is_one_of(s->t[at + 1].word, of_words) && s->t[at].number <= s->t[at + 2].number;
}

/* Letters and a number, whichever is first. */
static struct drawing_label by_letter(const struct tokens *s, size_t at)
{
    bool apart = is_kinds(s, at, "w/n") || is_kinds(s, at, "n/w");
    bool beside = is_kinds(s, at, "wn") || is_kinds(s, at, "nw");
    struct drawing_label out = { DRAWING_LABEL_NONE, 0, 0 };
    if (!beside && !(apart && is_one_of(s->t[at + 1].word, between)))
        return out;
    const struct token *ends[] = { &s->t[at], &s->t[s->count - 1] };
    size_t number = ends[0]->kind == TOKEN_NUMBER ? 0 : 1;
    out.first = letters_value(ends[1 - number]);
    out.second = ends[number]->number;
    out.kind = out.first ? DRAWING_LABEL_LETTER : DRAWING_LABEL_NONE;
    return out;
}

static struct drawing_label by_numbers(const struct tokens *s, size_t at)
{
    int first = s->t[at].number;
    if (is_of(s, at))
        return (struct drawing_label){ DRAWING_LABEL_OF, first, s->t[at + 2].number };
    bool apart = is_kinds(s, at, "n/n") || is_kinds(s, at, "nwn");
    if (apart && is_one_of(s->t[at + 1].word, between))
        return (struct drawing_label){ DRAWING_LABEL_PAIR, first, s->t[at + 2].number };
    if (is_kinds(s, at, "n"))
        return (struct drawing_label){ at ? DRAWING_LABEL_RUNNING : DRAWING_LABEL_NUMBER, first, 0 };
    return (struct drawing_label){ DRAWING_LABEL_NONE, 0, 0 };
}

struct drawing_label drawing_label_read(const char *text)
{
    struct tokens s;
    struct drawing_label out = { DRAWING_LABEL_NONE, 0, 0 };
    if (strlen(text) > DRAWING_LABEL_BYTES_MOST || !split(text, &s))
        return out;
    trim(&s);
    out = by_row_and_column(&s);
    if (out.kind != DRAWING_LABEL_NONE || s.count == 0)
        return out;
    /* "Page 3", but also "P 3", where P may be the letter of a row: that is for the lines to decide. */
    size_t at = s.t[0].kind == TOKEN_WORD && s.count > 1 && is_one_of(s.t[0].word, page_words) ? 1 : 0;
    bool lone_letter = at == 1 && s.t[0].word[1] == 0;
    out = by_letter(&s, at && !lone_letter ? 1 : 0);
    if (out.kind == DRAWING_LABEL_NONE)
        out = by_numbers(&s, at);
    return out;
}
