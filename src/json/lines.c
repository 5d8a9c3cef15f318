#include "json/lines.h"

#include "base/text.h"

#include <stdbool.h>
#include <string.h>

/* What may come next. */
enum want {
    WANT_VALUE,
    WANT_FIRST_ENTRY, /* a value, or the end of a list that just opened */
    WANT_FIRST_NAME,  /* a name, or the end of an object that just opened */
    WANT_NAME,
    WANT_COLON,
    WANT_NEXT, /* a comma, or the end of the list or object */
    WANT_END,
};

struct walk {
    struct arena *a;
    const char *bytes;
    size_t count, at;
    int line;
    enum want want;
    char closer[JSON_DEEPEST]; /* what will close each list and object that is open */
    size_t depth;
    size_t cap;
    struct json_lines found;
};

/* The byte at hand, or -1 past the end: unlike a zero byte, it can stand nowhere in a text. */
static int here(const struct walk *w)
{
    return w->at < w->count ? (unsigned char)w->bytes[w->at] : -1;
}

static bool is_space(int c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static bool is_digit(int c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(int c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static void skip_space(struct walk *w)
{
    for (; is_space(here(w)); w->at++)
        w->line += here(w) == '\n';
}

/* The line of the last thing that is written, whatever empty lines follow. */
static int last_line(const struct walk *w)
{
    int line = w->line;
    for (size_t i = w->count; i > 0 && is_space((unsigned char)w->bytes[i - 1]); i--)
        line -= w->bytes[i - 1] == '\n';
    return line > 1 ? line : 1;
}

/* Where the bytes beyond ASCII that begin at hand end. */
static size_t end_of_beyond_ascii(const struct walk *w)
{
    size_t end = w->at;
    while (end < w->count && (unsigned char)w->bytes[end] >= 0x80)
        end++;
    return end;
}

static bool is_utf8_here(const struct walk *w)
{
    return base_text_is_utf8(w->bytes + w->at, end_of_beyond_ascii(w) - w->at);
}

/* Records what does not fit at hand; at the end of the bytes that is always the same: they break off. */
static bool refuse(struct walk *w, enum json_flaw flaw)
{
    bool ended = w->at >= w->count;
    if (ended)
        flaw = w->found.count ? JSON_BREAKS_OFF : JSON_EMPTY;
    else if (!is_utf8_here(w))
        flaw = JSON_NOT_UTF8;
    w->found.flaw = flaw;
    w->found.flaw_at = w->at;
    w->found.flaw_line = ended ? last_line(w) : w->line;
    return false;
}

static bool record_value(struct walk *w)
{
    if (w->found.count == JSON_MOST_VALUES)
        return refuse(w, JSON_TOO_MANY);
    w->found.line = base_arena_grow(w->a, w->found.line, &w->cap, w->found.count + 1, sizeof *w->found.line);
    w->found.line[w->found.count++] = w->line;
    return true;
}

static bool end_value(struct walk *w)
{
    w->want = w->depth ? WANT_NEXT : WANT_END;
    return true;
}

static bool open_bracket(struct walk *w, char closer, enum want first)
{
    if (w->depth == JSON_DEEPEST)
        return refuse(w, JSON_TOO_DEEP);
    w->closer[w->depth++] = closer;
    w->at++;
    w->want = first;
    return true;
}

static bool close_bracket(struct walk *w)
{
    w->depth--;
    w->at++;
    return end_value(w);
}

static bool closes(const struct walk *w)
{
    return w->depth && here(w) == w->closer[w->depth - 1];
}

static bool in_object(const struct walk *w)
{
    return w->depth && w->closer[w->depth - 1] == '}';
}

/* Four hexadecimal digits. */
static bool hex4(struct walk *w, unsigned *out)
{
    unsigned value = 0;
    for (int i = 0; i < 4; i++, w->at++) {
        static const char sixteen[] = "0123456789abcdefABCDEF";
        const char *digit = here(w) > 0 ? strchr(sixteen, here(w)) : NULL;
        if (!digit)
            return refuse(w, JSON_ESCAPE);
        unsigned worth = (unsigned)(digit - sixteen);
        value = value * 16 + (worth < 16 ? worth : worth - 6);
    }
    *out = value;
    return true;
}

static bool pass(struct walk *w, char c)
{
    if (here(w) != c)
        return refuse(w, JSON_ESCAPE);
    w->at++;
    return true;
}

/* After \u: a code unit, and its other half when it is the first of a surrogate pair (RFC 8259, section 7). */
static bool code_units(struct walk *w)
{
    size_t start = w->at;
    unsigned first = 0, second = 0xdc00;
    if (!hex4(w, &first))
        return false;
    bool paired = first >= 0xd800 && first <= 0xdbff;
    if (paired && !(pass(w, '\\') && pass(w, 'u') && hex4(w, &second)))
        return false;
    bool half = (first >= 0xdc00 && first <= 0xdfff) || second < 0xdc00 || second > 0xdfff;
    if (first && !half)
        return true;
    w->at = start;
    return refuse(w, half ? JSON_ESCAPE : JSON_ZERO);
}

static bool escape(struct walk *w)
{
    static const char plain[] = "\"\\/bfnrt";
    w->at++;
    if (here(w) == 'u') {
        w->at++;
        return code_units(w);
    }
    if (here(w) <= 0 || !strchr(plain, here(w)))
        return refuse(w, JSON_ESCAPE);
    w->at++;
    return true;
}

static bool beyond_ascii(struct walk *w)
{
    size_t end = end_of_beyond_ascii(w);
    bool good = is_utf8_here(w);
    if (good || end == w->count) /* a character cut in two at the end is no fault of the encoding */
        w->at = end;
    return good || refuse(w, JSON_NOT_UTF8);
}

/* From one quotation mark to the other. */
static bool string(struct walk *w)
{
    w->at++;
    while (here(w) != '"') {
        int c = here(w);
        bool good = true;
        if (c == '\\')
            good = escape(w);
        else if (c >= 0x80)
            good = beyond_ascii(w);
        else if (c < 0x20)
            good = refuse(w, c == '\n' || c == '\r' ? JSON_LINE_BREAK : JSON_CONTROL);
        else
            w->at++;
        if (!good)
            return false;
    }
    w->at++;
    return true;
}

static bool digits(struct walk *w)
{
    if (!is_digit(here(w)))
        return refuse(w, JSON_NUMBER_FORM);
    while (is_digit(here(w)))
        w->at++;
    return true;
}

static bool whole_part(struct walk *w)
{
    if (here(w) != '0')
        return digits(w);
    w->at++;
    return true;
}

static bool fraction(struct walk *w)
{
    if (here(w) != '.')
        return true;
    w->at++;
    return digits(w);
}

static bool exponent(struct walk *w)
{
    if (here(w) != 'e' && here(w) != 'E')
        return true;
    w->at++;
    if (here(w) == '+' || here(w) == '-')
        w->at++;
    return digits(w);
}

/* RFC 8259, section 6. What follows at once and could belong to a number is told as part of it: 01, 1.2.3, 5cm. */
static bool number(struct walk *w)
{
    size_t start = w->at;
    if (here(w) == '-')
        w->at++;
    if (!whole_part(w) || !fraction(w) || !exponent(w))
        return false;
    if (is_digit(here(w)) || is_letter(here(w)) || here(w) == '.')
        return refuse(w, JSON_NUMBER_FORM);
    if (w->at - start <= JSON_NUMBER_CHARS)
        return true;
    w->at = start;
    return refuse(w, JSON_NUMBER_LONG);
}

static bool word(struct walk *w)
{
    static const char *const words[] = { "true", "false", "null" };
    size_t left = w->count - w->at, length = 0;
    while (length < left && is_letter((unsigned char)w->bytes[w->at + length]))
        length++;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (!length || strncmp(w->bytes + w->at, words[i], length) != 0)
            continue;
        bool whole = words[i][length] == '\0';
        if (whole || length == left)
            w->at += length;
        return whole || refuse(w, JSON_NO_VALUE);
    }
    return refuse(w, JSON_NO_VALUE);
}

static bool value(struct walk *w)
{
    int c = here(w);
    if (c < 0)
        return refuse(w, JSON_BREAKS_OFF);
    if (closes(w) && !in_object(w))
        return refuse(w, JSON_SPARE_COMMA);
    if (!record_value(w))
        return false;
    if (c == '{')
        return open_bracket(w, '}', WANT_FIRST_NAME);
    if (c == '[')
        return open_bracket(w, ']', WANT_FIRST_ENTRY);
    if (c == '+' || c == '.')
        return refuse(w, JSON_NUMBER_FORM);
    bool good = c == '"' ? string(w) : c == '-' || is_digit(c) ? number(w) : word(w);
    return good && end_value(w);
}

static bool first_entry(struct walk *w)
{
    return closes(w) ? close_bracket(w) : value(w);
}

static bool name(struct walk *w)
{
    if (here(w) != '"')
        return refuse(w, closes(w) ? JSON_SPARE_COMMA : JSON_NO_NAME);
    w->want = WANT_COLON;
    return string(w);
}

static bool first_name(struct walk *w)
{
    return closes(w) ? close_bracket(w) : name(w);
}

static bool colon(struct walk *w)
{
    if (here(w) != ':')
        return refuse(w, JSON_NO_COLON);
    w->at++;
    w->want = WANT_VALUE;
    return true;
}

static bool next(struct walk *w)
{
    if (closes(w))
        return close_bracket(w);
    if (here(w) != ',')
        return refuse(w, here(w) == ']' || here(w) == '}' ? JSON_WRONG_CLOSE : JSON_NO_COMMA);
    w->at++;
    w->want = in_object(w) ? WANT_NAME : WANT_VALUE;
    return true;
}

static bool (*const steps[])(struct walk *) = {
    [WANT_VALUE] = value,           [WANT_FIRST_ENTRY] = first_entry,
    [WANT_FIRST_NAME] = first_name, [WANT_NAME] = name,
    [WANT_COLON] = colon,           [WANT_NEXT] = next,
};

size_t json_mark_bytes(const char *bytes, size_t count)
{
    return count >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
}

struct json_lines json_find_lines(struct arena *a, const char *bytes, size_t count)
{
    struct walk w = { .a = a, .bytes = bytes, .count = count, .at = json_mark_bytes(bytes, count), .line = 1 };
    bool good = true;
    for (skip_space(&w); good && w.want != WANT_END; skip_space(&w))
        good = steps[w.want](&w);
    if (good && w.at < count)
        refuse(&w, JSON_MORE_AFTER);
    return w.found;
}
