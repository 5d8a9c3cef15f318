/* The bench's one table of colours, by day and by night. */
#ifndef FORM_COLOUR_H
#define FORM_COLOUR_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum form_colour {
    FORM_BENCH, /* behind everything */
    FORM_SHEET, /* the page */
    FORM_SELVEDGE,
    FORM_MANILA, /* tickets and slips */
    FORM_WELL,   /* what is written in */
    FORM_CLOTH,
    FORM_INK,
    FORM_INK_2,
    FORM_LINE,
    FORM_BLUE,   /* here */
    FORM_RED,    /* a fault */
    FORM_GREEN,  /* done */
    FORM_AMBER,  /* still to do */
    FORM_HAIR,   /* ornament only */
    FORM_DEEP,   /* ornament only, on manila */
    FORM_WASH,   /* behind what is chosen */
    FORM_TWINE,  /* ornament only */
    FORM_ON_INK, /* words on ink */
    FORM_COLOURS,
    FORM_OWN = FORM_COLOURS /* none of the table: a cloth's own */
};

/* 0x00RRGGBB, sRGB. */
uint32_t form_rgb(enum form_colour colour, bool night);

/* The contrast of two colours, 1 to 21 (WCAG 2.1, "contrast ratio" and "relative luminance"). */
double form_contrast(uint32_t a, uint32_t b);

/* Pairs that stand one on the other in the pictures, and the least contrast that each must have: 4.5 for words, 3 for
 * what is seen and not read (WCAG 2.1, 1.4.3 and 1.4.11). */
struct form_pair {
    enum form_colour front, back;
    double least;
};

const struct form_pair *form_pairs(size_t *count);

#endif
