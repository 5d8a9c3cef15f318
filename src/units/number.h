/* What lengths and angles share: the pieces of a number as people write it. Each reader begins at *at and moves it past
 * what it took; when it returns false or takes nothing, *at has not moved. Texts are UTF-8. */
#ifndef UNITS_NUMBER_H
#define UNITS_NUMBER_H

#include <stdbool.h>

enum { UNITS_LONGEST = 64 }; /* bytes of a text that can be a length or an angle */

/* Passes over spaces, tabs and the no-break and thin spaces of word processors; whether there were any. */
bool units_skip_space(const char **at);

/* -1 after a minus sign (hyphen or U+2212), otherwise 1. */
double units_read_sign(const char **at);

/* Digits, and a decimal point or comma if digits follow it; .5 is a number, of 5. only the 5 is taken. No exponent, no
 * hex, no grouping. The double nearest to what is written. */
bool units_read_decimal(const char **at, double *out);

/* The same where a comma parts one number from the next. */
bool units_read_point_decimal(const char **at, double *out);

/* Only digits, up to 9 of them. */
bool units_read_whole(const char **at, long *out);

/* The code point at hand, 0 at the end. */
unsigned long units_peek(const char *at);

/* Whether all that is left is that word, in small or capital letters, with or without spaces around. */
bool units_is_rest(const char *at, const char *word);

/* Whether the text is short enough to be read at all. */
bool units_fits(const char *text);

#endif
