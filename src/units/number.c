#include "units/number.h"

#include "base/text.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_DIGITS = 9 }; /* what a long is sure to hold */

unsigned long units_peek(const char *at)
{
    return base_text_next(&at);
}

static bool take(const char **at, unsigned long point)
{
    const char *after = *at;
    if (base_text_next(&after) != point)
        return false;
    *at = after;
    return true;
}

static bool take_one_of(const char **at, const unsigned long *points)
{
    for (; *points; points++)
        if (take(at, *points))
            return true;
    return false;
}

bool units_skip_space(const char **at)
{
    /* space, tab, no-break, thin, narrow no-break */
    static const unsigned long spaces[] = { ' ', '\t', 0xa0, 0x2009, 0x202f, 0 };
    const char *start = *at;
    while (take_one_of(at, spaces))
        continue;
    return *at != start;
}

double units_read_sign(const char **at)
{
    static const unsigned long minus[] = { '-', 0x2212, 0 };
    if (take_one_of(at, minus))
        return -1;
    take(at, '+');
    return 1;
}

static size_t count_digits(const char *at)
{
    return strspn(at, "0123456789");
}

/* strtod reads much that no person means by a length, so it only gets what was counted here. */
static bool read_decimal(const char **at, bool comma, double *out)
{
    size_t whole = count_digits(*at);
    char mark = (*at)[whole];
    size_t after = mark == '.' || (comma && mark == ',') ? count_digits(*at + whole + 1) : 0;
    size_t length = after ? whole + 1 + after : whole;
    /* "1,000" is a thousand to some and one to others: it is asked for again, never guessed. */
    if (!length || length > UNITS_LONGEST || (mark == ',' && after == 3))
        return false;
    char digits[UNITS_LONGEST + 1] = { 0 };
    memcpy(digits, *at, length);
    if (after)
        digits[whole] = '.';
    *out = strtod(digits, NULL);
    *at += length;
    return true;
}

bool units_read_decimal(const char **at, double *out)
{
    return read_decimal(at, true, out);
}

bool units_read_point_decimal(const char **at, double *out)
{
    return read_decimal(at, false, out);
}

bool units_read_whole(const char **at, long *out)
{
    size_t length = count_digits(*at);
    if (!length || length > MOST_DIGITS)
        return false;
    *out = strtol(*at, NULL, 10);
    *at += length;
    return true;
}

bool units_is_rest(const char *at, const char *word)
{
    units_skip_space(&at);
    while (*word && tolower((unsigned char)*at) == tolower((unsigned char)*word))
        at++, word++;
    units_skip_space(&at);
    return !*word && !*at;
}

bool units_fits(const char *text)
{
    return strnlen(text, UNITS_LONGEST + 1) <= UNITS_LONGEST;
}
