#include "sheet_reader/svg_number.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

void svg_skip_space(struct svg_scan *s)
{
    while (is_space(*s->at))
        s->at++;
}

void svg_skip_comma(struct svg_scan *s)
{
    svg_skip_space(s);
    if (*s->at == ',') {
        s->at++;
        svg_skip_space(s);
    }
}

/* A number in its parts: digits as one whole number, and the power of ten it stands for. */
struct parts {
    uint64_t digits;
    int count; /* of digits that count */
    int power;
    bool any;
};

static const char *take_digits(const char *at, struct parts *p, int step)
{
    for (; is_digit(*at); at++) {
        p->any = true;
        if (p->count < 18) {
            p->digits = p->digits * 10 + (uint64_t)(*at - '0');
            p->count += p->digits != 0;
            p->power += step;
        } else {
            p->power += step + 1; /* too far behind to count */
            p->count = 19;
        }
    }
    return at;
}

/* An exponent needs digits: "1em" is a number with a unit. */
static const char *take_exponent(const char *at, struct parts *p)
{
    if (*at != 'e' && *at != 'E')
        return at;
    const char *first = at + 1;
    bool minus = *first == '-';
    if (*first == '-' || *first == '+')
        first++;
    if (!is_digit(*first))
        return at;
    int power = 0;
    for (at = first; is_digit(*at); at++)
        power = power < 10000 ? power * 10 + (*at - '0') : power;
    p->power += minus ? -power : power;
    return at;
}

/* Where digits and power are exact as doubles, so is one product or quotient of them (Clinger 1990); else the C library
 * reads it. */
static double value_of(const struct parts *p, const char *from, size_t length)
{
    static const double tens[] = { 1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                   1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22 };
    if (p->count <= 18 && p->digits <= (uint64_t)1 << 53 && p->power >= -22 && p->power <= 22)
        return p->power < 0 ? (double)p->digits / tens[-p->power] : (double)p->digits * tens[p->power];
    char copy[512];
    if (length >= sizeof copy)
        return INFINITY; /* nobody writes it so */
    memcpy(copy, from, length);
    copy[length] = 0;
    return strtod(copy, NULL);
}

bool svg_scan_number(struct svg_scan *s, double *out)
{
    struct parts p = { 0 };
    const char *at = s->at;
    bool minus = *at == '-';
    if (*at == '-' || *at == '+')
        at++;
    const char *from = at;
    at = take_digits(at, &p, 0);
    if (*at == '.' && (p.any || is_digit(at[1])))
        at = take_digits(at + 1, &p, -1);
    if (!p.any)
        return false;
    at = take_exponent(at, &p);
    double value = value_of(&p, from, (size_t)(at - from));
    if (!(value <= SVG_NUMBER_MOST))
        return false;
    *out = minus ? -value : value;
    s->at = at;
    return true;
}

bool svg_scan_flag(struct svg_scan *s, bool *out)
{
    if (*s->at != '0' && *s->at != '1')
        return false;
    *out = *s->at++ == '1';
    return true;
}

/* How far a unit's name reaches: letters, or one "%". */
static size_t unit_length(const char *at)
{
    size_t n = 0;
    if (*at == '%')
        return 1;
    while ((at[n] >= 'a' && at[n] <= 'z') || (at[n] >= 'A' && at[n] <= 'Z'))
        n++;
    return n;
}

static bool same_word(const char *at, size_t length, const char *word)
{
    if (strlen(word) != length)
        return false;
    for (size_t i = 0; i < length; i++)
        if ((at[i] | 32) != (word[i] | 32))
            return false;
    return true;
}

bool svg_scan_length(struct svg_scan *s, struct svg_measure m, double *out)
{
    const struct {
        const char *name;
        double units;
    } rows[] = {
        { "", 1 },
        { "px", 1 },
        { "mm", 96 / 25.4 },
        { "cm", 96 / 2.54 },
        { "in", 96 },
        { "pt", 96 / 72.0 },
        { "pc", 16 },
        { "q", 96 / 101.6 },
        { "em", m.font_size },
        { "rem", 16 },
        { "ex", m.font_size / 2 },
        { "%", m.whole / 100 },
    };
    double number;
    struct svg_scan try = *s;
    if (!svg_scan_number(&try, &number))
        return false;
    size_t length = unit_length(try.at);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (same_word(try.at, length, rows[i].name)) {
            *out = number * rows[i].units;
            s->at = try.at + length;
            return true;
        }
    return false;
}

bool svg_length(const char *text, struct svg_measure m, double *out)
{
    struct svg_scan s = { text };
    double value;
    svg_skip_space(&s);
    if (!svg_scan_length(&s, m, &value))
        return false;
    svg_skip_space(&s);
    if (*s.at)
        return false;
    *out = value;
    return true;
}

bool svg_is_percent(const char *text)
{
    struct svg_scan s = { text };
    double number;
    svg_skip_space(&s);
    return svg_scan_number(&s, &number) && *s.at == '%';
}
