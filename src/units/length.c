#include "units/length.h"

#include "base/text.h"
#include "base/words.h"
#include "units/number.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LARGEST_DENOMINATOR = 64 };

static const struct {
    const char *name;
    double mm;
    int decimals; /* printed */
} shown_rows[] = {
    [UNITS_MM] = { "mm", 1, 1 },
    [UNITS_CM] = { "cm", 10, 2 },
    [UNITS_IN] = { "in", UNITS_MM_PER_IN, 2 },
};

/* All names a unit may be written by; the inch also by the signs of keyboards, typesetters and word processors. */
static const struct {
    const char *name;
    double mm;
} unit_rows[] = {
    { "mm", 1 },
    { "millimetre", 1 },
    { "millimetres", 1 },
    { "millimeter", 1 },
    { "millimeters", 1 },
    { "cm", 10 },
    { "centimetre", 10 },
    { "centimetres", 10 },
    { "centimeter", 10 },
    { "centimeters", 10 },
    { "Zentimeter", 10 },
    { "m", 1000 },
    { "in", UNITS_MM_PER_IN },
    { "in.", UNITS_MM_PER_IN },
    { "inch", UNITS_MM_PER_IN },
    { "inches", UNITS_MM_PER_IN },
    { "Zoll", UNITS_MM_PER_IN },
    { "\"", UNITS_MM_PER_IN },
    { "″", UNITS_MM_PER_IN },
    { "”", UNITS_MM_PER_IN },
    { "''", UNITS_MM_PER_IN },
    { "’’", UNITS_MM_PER_IN },
    { "′′", UNITS_MM_PER_IN },
    { "ft", 12 * UNITS_MM_PER_IN },
    { "foot", 12 * UNITS_MM_PER_IN },
    { "feet", 12 * UNITS_MM_PER_IN },
    { "yd", 36 * UNITS_MM_PER_IN },
    { "yard", 36 * UNITS_MM_PER_IN },
    { "yards", 36 * UNITS_MM_PER_IN },
};

enum { UNIT_ROWS = sizeof unit_rows / sizeof unit_rows[0] };

static const struct {
    unsigned long point;
    int over, under;
} glyph_rows[] = {
    { 0xbd, 1, 2 },   { 0xbc, 1, 4 },   { 0xbe, 3, 4 },   { 0x2153, 1, 3 }, { 0x2154, 2, 3 },
    { 0x215b, 1, 8 }, { 0x215c, 3, 8 }, { 0x215d, 5, 8 }, { 0x215e, 7, 8 },
};

double units_mm_per(enum units_length unit)
{
    return shown_rows[unit].mm;
}

const char *units_name(enum units_length unit)
{
    return shown_rows[unit].name;
}

bool units_from_name(const char *name, enum units_length *out)
{
    for (size_t i = 0; i < sizeof shown_rows / sizeof shown_rows[0]; i++) {
        if (strcmp(name, shown_rows[i].name) != 0)
            continue;
        *out = (enum units_length)i;
        return true;
    }
    return false;
}

static bool read_glyph(const char **at, double *out)
{
    unsigned long point = units_peek(*at);
    for (size_t i = 0; i < sizeof glyph_rows / sizeof glyph_rows[0]; i++) {
        if (glyph_rows[i].point != point)
            continue;
        *out = (double)glyph_rows[i].over / glyph_rows[i].under;
        base_text_next(at);
        return true;
    }
    return false;
}

/* A slash, or the fraction slash that word processors put in. */
static bool read_slash(const char **at)
{
    unsigned long point = units_peek(*at);
    if (point != '/' && point != 0x2044)
        return false;
    base_text_next(at);
    return true;
}

/* 5/8 or ⅝. */
static bool read_fraction(const char **at, double *out)
{
    if (read_glyph(at, out))
        return true;
    const char *ahead = *at;
    long over, under;
    if (!units_read_whole(&ahead, &over) || !read_slash(&ahead) || !units_read_whole(&ahead, &under))
        return false;
    if (under < 1 || under > LARGEST_DENOMINATOR)
        return false;
    *out = (double)over / (double)under;
    *at = ahead;
    return true;
}

/* 37 1/2, 37½ and, with a hyphen allowed, 37-1/2: a whole number and what is missing to the next. */
static bool read_mixed(const char **at, bool hyphen, double *out)
{
    const char *ahead = *at;
    long whole;
    double part;
    if (!units_read_whole(&ahead, &whole))
        return false;
    bool parted = units_skip_space(&ahead);
    if (hyphen && !parted && units_peek(ahead) == '-') {
        base_text_next(&ahead);
        parted = true;
    }
    bool good = parted ? read_fraction(&ahead, &part) : read_glyph(&ahead, &part);
    if (!good || part >= 1)
        return false;
    *out = (double)whole + part;
    *at = ahead;
    return true;
}

/* The unit must be all that is left; nothing left means the unit shown. */
static bool read_unit(const char *at, enum units_length shown, double *out)
{
    if (units_is_rest(at, "")) {
        *out = units_mm_per(shown);
        return true;
    }
    size_t row = 0;
    while (row < UNIT_ROWS && !units_is_rest(at, unit_rows[row].name))
        row++;
    if (row == UNIT_ROWS)
        return false;
    *out = unit_rows[row].mm;
    return true;
}

bool units_parse_length(const char *text, enum units_length shown, double *out_mm)
{
    double amount, mm_per;
    if (!units_fits(text))
        return false;
    units_skip_space(&text);
    double sign = units_read_sign(&text);
    bool good = read_mixed(&text, true, &amount) || read_fraction(&text, &amount) || units_read_decimal(&text, &amount);
    if (!good || !read_unit(text, shown, &mm_per) || amount * mm_per > UNITS_FARTHEST_MM)
        return false;
    *out_mm = sign * amount * mm_per;
    return true;
}

static bool begins_with(const char *text, const char *word)
{
    while (*word && tolower((unsigned char)*text) == tolower((unsigned char)*word))
        text++, word++;
    return !*word;
}

/* The longest unit's name there ("in." rather than "in") with no letter after it. */
static bool read_unit_word(const char **at, double *mm)
{
    size_t longest = 0;
    for (size_t row = 0; row < UNIT_ROWS; row++) {
        size_t length = strlen(unit_rows[row].name);
        if (!begins_with(*at, unit_rows[row].name))
            continue;
        unsigned char after = (unsigned char)(*at)[length];
        if (isalnum((unsigned char)(*at)[length - 1]) && (isalnum(after) || after == '_' || after >= 0x80))
            continue;
        if (length > longest) {
            longest = length;
            *mm = unit_rows[row].mm;
        }
    }
    *at += longest;
    return longest > 0;
}

bool units_read_mixed(const char **at, double *out)
{
    return read_mixed(at, false, out) || read_glyph(at, out);
}

bool units_read_length(const char **at, double *out_mm)
{
    const char *ahead = *at;
    double amount, mm_per;
    if (!read_mixed(&ahead, false, &amount) && !read_fraction(&ahead, &amount) &&
        !units_read_point_decimal(&ahead, &amount))
        return false;
    units_skip_space(&ahead);
    if (!read_unit_word(&ahead, &mm_per) || amount * mm_per > UNITS_FARTHEST_MM)
        return false;
    *out_mm = amount * mm_per;
    *at = ahead;
    return true;
}

/* Digits past the point that are zeros say nothing. */
static void drop_zeros(char *text)
{
    char *end = text + strlen(text);
    while (end[-1] == '0')
        *--end = '\0';
    if (end[-1] == '.')
        end[-1] = '\0';
}

/* With the language's own decimal mark, which is one byte long. */
const char *units_print_decimal(char out[UNITS_TEXT], double value, int decimals)
{
    assert(fabs(value) < 1e15 && decimals >= 0 && decimals <= 6);
    char digits[UNITS_TEXT / 2];
    snprintf(digits, sizeof digits, "%.*f", decimals, fabs(value));
    drop_zeros(digits);
    char *point = strchr(digits, '.');
    if (point)
        *point = *base_tr_in("decimal mark", ".");
    snprintf(out, UNITS_TEXT, "%s%s", value < 0 && strcmp(digits, "0") != 0 ? "-" : "", digits);
    return out;
}

const char *units_shown_name(enum units_length unit)
{
    return unit == UNITS_IN ? base_tr_in("inches, behind a number", "in") : units_name(unit);
}

/* False when no sixteenth is within 0.05 mm. */
static bool print_sixteenths(char out[UNITS_TEXT], double mm, const char *sign)
{
    const char *name = units_shown_name(UNITS_IN);
    long long over = llround(mm / UNITS_MM_PER_IN * 16), under = 16;
    if (fabs((double)over / 16 * UNITS_MM_PER_IN - mm) > 0.05)
        return false;
    while (under > 1 && over % 2 == 0) {
        over /= 2;
        under /= 2;
    }
    long long whole = over / under, rest = over % under;
    if (!over)
        sign = "";
    if (!rest)
        snprintf(out, UNITS_TEXT, "%s%lld %s", sign, whole, name);
    else if (!whole)
        snprintf(out, UNITS_TEXT, "%s%lld/%lld %s", sign, rest, under, name);
    else
        snprintf(out, UNITS_TEXT, "%s%lld %lld/%lld %s", sign, whole, rest, under, name);
    return true;
}

const char *units_print_length(char out[UNITS_TEXT], double mm, enum units_length unit)
{
    assert(fabs(mm) < 1e12);
    char number[UNITS_TEXT];
    if (unit == UNITS_IN && print_sixteenths(out, fabs(mm), mm < 0 ? "-" : ""))
        return out;
    units_print_decimal(number, mm / units_mm_per(unit), shown_rows[unit].decimals);
    snprintf(out, UNITS_TEXT, "%.30s %s", number, units_shown_name(unit));
    return out;
}

double units_on_tape(double mm, enum units_length unit)
{
    double mark_mm = unit == UNITS_IN ? UNITS_MM_PER_IN / 8 : 1;
    return round(mm / mark_mm) * mark_mm;
}

double units_to_sixteenth(double mm, enum units_length unit)
{
    const double sixteenth_mm = UNITS_MM_PER_IN / 16;
    return unit == UNITS_IN ? round(mm / sixteenth_mm) * sixteenth_mm : mm;
}
