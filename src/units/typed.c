#include "units/typed.h"

#include "base/words.h"
#include "units/number.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { GROUP = 3 };

/* The mark that parts thousands in a language is the decimal mark of the other ones. */
static char parts_thousands(void)
{
    return *base_tr_in("decimal mark", ".") == '.' ? ',' : '.';
}

static size_t digits_at(const char *at)
{
    return strspn(at, "0123456789");
}

bool units_two_ways(const char *typed, char small[UNITS_TEXT], char large[UNITS_TEXT])
{
    units_skip_space(&typed);
    double sign = units_read_sign(&typed);
    size_t before = digits_at(typed);
    const char *mark = typed + before, *after = mark + 1 + GROUP;
    if (!units_fits(typed) || before < 1 || before > GROUP || *typed == '0' || *mark != parts_thousands() ||
        digits_at(mark + 1) != GROUP || *after == '.' || *after == ',')
        return false;
    long whole = strtol(typed, NULL, 10), rest = strtol(mark + 1, NULL, 10);
    char number[UNITS_TEXT];
    units_print_decimal(number, sign * ((double)whole + (double)rest / 1000), GROUP);
    snprintf(small, UNITS_TEXT, "%.20s%.24s", number, after);
    snprintf(large, UNITS_TEXT, "%.0f%.24s", sign * (double)(1000 * whole + rest), after);
    return true;
}

/* With a point for each comma, which is then read whatever follows; false where that is to be asked, or too long. */
static bool with_points(const char *typed, char out[UNITS_LONGEST + 1])
{
    char small[UNITS_TEXT], large[UNITS_TEXT];
    if (!units_fits(typed) || units_two_ways(typed, small, large))
        return false;
    snprintf(out, UNITS_LONGEST + 1, "%s", typed);
    for (char *at = out; *at; at++)
        *at = *at == ',' ? '.' : *at;
    return true;
}

bool units_typed_length(const char *typed, enum units_length shown, double *out_mm)
{
    char text[UNITS_LONGEST + 1];
    return with_points(typed, text) && units_parse_length(text, shown, out_mm);
}

bool units_typed_number(const char *typed, double *out)
{
    char text[UNITS_LONGEST + 1];
    const char *at = text;
    double number;
    if (!with_points(typed, text))
        return false;
    units_skip_space(&at);
    if (!units_read_decimal(&at, &number) || !units_is_rest(at, ""))
        return false;
    *out = number;
    return true;
}
