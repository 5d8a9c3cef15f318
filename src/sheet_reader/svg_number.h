/* Numbers, lists and lengths as SVG and CSS write them. */
#ifndef SHEET_READER_SVG_NUMBER_H
#define SHEET_READER_SVG_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/* Beyond this a number is no number: far past what can be drawn, and safe to square and multiply. */
#define SVG_NUMBER_MOST 1e12

/* What is still to be read of a text that ends with a zero byte. */
struct svg_scan {
    const char *at;
};

/* Past white space; past white space with at most one comma in it. */
void svg_skip_space(struct svg_scan *s);
void svg_skip_comma(struct svg_scan *s);

/* A number at once: sign, digits with at most one point, exponent. It ends where the next may begin ("1.5.5-3" are
 * three). False, and nothing is passed over, where there is none, or one beyond SVG_NUMBER_MOST. */
bool svg_scan_number(struct svg_scan *s, double *out);

/* A flag of an arc: one "0" or "1". */
bool svg_scan_flag(struct svg_scan *s, bool *out);

/* What lengths are measured against, in user units. */
struct svg_measure {
    double font_size; /* em; ex is half of it */
    double whole;     /* 100 % */
};

enum { SVG_UNITS_PER_INCH = 96 }; /* CSS Values and Units 3, 5.2 */

/* A length in user units: a number with a unit or none; white space about it. False for anything else. */
bool svg_length(const char *text, struct svg_measure m, double *out);

/* The same of a length at the head of a list; past it. */
bool svg_scan_length(struct svg_scan *s, struct svg_measure m, double *out);

/* Whether the text is a length in per cent. */
bool svg_is_percent(const char *text);

#endif
