#include "form/colour.h"

#include <math.h>

/* Day, night. */
static const uint32_t rgb[FORM_COLOURS][2] = {
    [FORM_BENCH] = { 0xd9e0df, 0x0e1318 },    [FORM_SHEET] = { 0xfbfaf6, 0x1a2129 },
    [FORM_SELVEDGE] = { 0xeae5d8, 0x242c33 }, [FORM_MANILA] = { 0xf2e2ba, 0x3b3222 },
    [FORM_WELL] = { 0xffffff, 0x10161c },     [FORM_CLOTH] = { 0xe9dec8, 0x3b3a36 },
    [FORM_INK] = { 0x1b2730, 0xede6d6 },      [FORM_INK_2] = { 0x4b5862, 0xb7b9b2 },
    [FORM_LINE] = { 0x707c85, 0x828d96 },     [FORM_BLUE] = { 0x1a5b99, 0x8fc0ec },
    [FORM_RED] = { 0xa12227, 0xf49c8e },      [FORM_GREEN] = { 0x25643d, 0x8ccb9d },
    [FORM_AMBER] = { 0x855000, 0xe5b65c },    [FORM_HAIR] = { 0xcdd1ce, 0x36404a },
    [FORM_DEEP] = { 0xd9bf86, 0x6e5b36 },     [FORM_WASH] = { 0xe1ecf6, 0x20364c },
    [FORM_TWINE] = { 0x8a6a42, 0xa98a5c },    [FORM_ON_INK] = { 0xfbfaf6, 0x10161c },
};

static const double words = 4.5, seen = 3;

static const struct form_pair pairs[] = {
    { FORM_INK, FORM_SHEET, words },    { FORM_INK_2, FORM_SHEET, words },    { FORM_BLUE, FORM_SHEET, words },
    { FORM_RED, FORM_SHEET, words },    { FORM_GREEN, FORM_SHEET, words },    { FORM_AMBER, FORM_SHEET, words },
    { FORM_INK, FORM_MANILA, words },   { FORM_INK_2, FORM_MANILA, words },   { FORM_BLUE, FORM_MANILA, seen },
    { FORM_RED, FORM_MANILA, words },   { FORM_GREEN, FORM_MANILA, seen },    { FORM_AMBER, FORM_MANILA, words },
    { FORM_INK, FORM_WELL, words },     { FORM_INK_2, FORM_WELL, words },     { FORM_BLUE, FORM_WELL, words },
    { FORM_RED, FORM_WELL, words },     { FORM_GREEN, FORM_WELL, words },     { FORM_AMBER, FORM_WELL, words },
    { FORM_INK, FORM_WASH, words },     { FORM_INK_2, FORM_WASH, words },     { FORM_BLUE, FORM_WASH, seen },
    { FORM_INK, FORM_SELVEDGE, words }, { FORM_INK_2, FORM_SELVEDGE, words }, { FORM_BLUE, FORM_SELVEDGE, words },
    { FORM_INK, FORM_CLOTH, words },    { FORM_INK_2, FORM_CLOTH, words },    { FORM_BLUE, FORM_CLOTH, seen },
    { FORM_LINE, FORM_SHEET, seen },    { FORM_LINE, FORM_WELL, seen },       { FORM_LINE, FORM_MANILA, seen },
    { FORM_LINE, FORM_CLOTH, seen },    { FORM_ON_INK, FORM_INK, words },     { FORM_RED, FORM_SELVEDGE, seen },
    { FORM_GREEN, FORM_CLOTH, seen },   { FORM_RED, FORM_CLOTH, seen },       { FORM_INK, FORM_DEEP, seen },
};

uint32_t form_rgb(enum form_colour colour, bool night)
{
    return rgb[colour][night];
}

/* IEC 61966-2-1, with the threshold that WCAG prints. */
static double linear(uint32_t byte)
{
    double c = (double)(byte & 0xff) / 255;
    return c <= 0.03928 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
}

static double luminance(uint32_t c)
{
    return 0.2126 * linear(c >> 16) + 0.7152 * linear(c >> 8) + 0.0722 * linear(c);
}

double form_contrast(uint32_t a, uint32_t b)
{
    double first = luminance(a), second = luminance(b);
    return (fmax(first, second) + 0.05) / (fmin(first, second) + 0.05);
}

const struct form_pair *form_pairs(size_t *count)
{
    *count = sizeof pairs / sizeof pairs[0];
    return pairs;
}
