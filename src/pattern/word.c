#include "pattern/word.h"

#include "base/text.h"
#include "units/number.h"

#include <ctype.h>
#include <stddef.h>
#include <string.h>

/* Signs that are no letters although they are no ASCII, and what those that reckon stand for. */
static const struct {
    unsigned long first, last;
    char means;
} sign_rows[] = {
    { 0x2212, 0x2212, '-' }, /* minus */
    { 0xd7, 0xd7, '*' },     /* × */
    { 0xb7, 0xb7, '*' },     /* · */
    { 0x22c5, 0x22c5, '*' }, /* ⋅ */
    { 0xf7, 0xf7, '/' },     /* ÷ */
    { 0x80, 0xa9, 0 },       /* controls, no-break space, signs of money and law */
    { 0xab, 0xb4, 0 },       /* « ¬ ° ± ² ³ */
    { 0xb6, 0xb6, 0 },       { 0xb8, 0xb9, 0 }, { 0xbb, 0xbf, 0 }, /* » ¼ ½ ¾ ¿ */
    { 0x2000, 0x206f, 0 }, /* spaces, dashes, quotes, primes, the fraction slash */
    { 0x2150, 0x218f, 0 }, /* fractions as one sign */
    { 0x2190, 0x2bff, 0 }, /* arrows, mathematics, boxes */
    { 0x3000, 0x3003, 0 }, /* wide space and full stops */
    { 0xfeff, 0xfeff, 0 }, /* byte order mark */
    { 0xfffd, 0xfffd, 0 }, /* stands for what is no UTF-8 */
};

enum { SIGN_ROWS = sizeof sign_rows / sizeof sign_rows[0] };

/* The first row that has it; SIGN_ROWS: it is a letter, or ASCII. */
static size_t sign_row(unsigned long point)
{
    size_t row = 0;
    while (row < SIGN_ROWS && (point < sign_rows[row].first || point > sign_rows[row].last))
        row++;
    return row;
}

char pattern_mark_at(const char *at)
{
    unsigned long point = units_peek(at);
    size_t row = sign_row(point);
    if (row < SIGN_ROWS)
        return sign_rows[row].means;
    return point && point < 0x80 && strchr("+-*/(),", (int)point) ? (char)point : '\0';
}

const char *pattern_past_letter(const char *at)
{
    const char *after = at;
    unsigned long point = base_text_next(&after);
    bool letter = point < 0x80 ? point == '_' || isalnum((int)point) : sign_row(point) == SIGN_ROWS;
    return letter ? after : at;
}

const char *pattern_past_name(const char *at)
{
    const char *end = at;
    if (isdigit((unsigned char)*at))
        return at;
    while (pattern_past_letter(end) > end) {
        end = pattern_past_letter(end);
        if (*end == ' ' && pattern_past_letter(end + 1) > end + 1)
            end++;
    }
    return end;
}

const char *pattern_past_space(const char *at)
{
    while (units_skip_space(&at) || isspace((unsigned char)*at))
        at += isspace((unsigned char)*at) != 0;
    return at;
}

bool pattern_is_formula_name(const char *name)
{
    return *name && !*pattern_past_name(name);
}
