/* Lengths as people write them, turned into millimetres and back. Not: which unit a person prefers. */
#ifndef UNITS_LENGTH_H
#define UNITS_LENGTH_H

#include <stdbool.h>
#include <stddef.h>

enum units_length { UNITS_MM, UNITS_CM, UNITS_IN };

#define UNITS_MM_PER_IN 25.4       /* exactly: international yard and pound agreement, 1959 */
#define UNITS_FARTHEST_MM 100000.0 /* a length beyond 100 m is a slip of the pen */

enum { UNITS_TEXT = 48 }; /* room for any printed length */

/* Millimetres in one of the unit. */
double units_mm_per(enum units_length unit);

/* "mm", "cm" or "in". */
const char *units_name(enum units_length unit);

/* The same as a person reads it behind a number. */
const char *units_shown_name(enum units_length unit);

/* The unit of that name; false when there is none. */
bool units_from_name(const char *name, enum units_length *out);

/* Reads a length such as 94, 94 cm, 940mm, 37in, 37 1/2", 37-1/2 in, 37½ in, 5/8 in, 1.2 m, 3 1/4 yd, 94,5 cm: decimals
 * with point or comma (1.200 is 1.2; 1,200 is refused, as some read it as thousands), or a fraction with a denominator
 * from 1 to 64, alone or, when below 1, after a whole number and a space or hyphen; a leading sign. The unit is any of
 * mm, cm, m, in, ft, yd, with the other names that length.c lists, in small or capital letters; a bare number is in
 * `shown`. The whole text must be the length (spaces around it aside). False when it is no length, is longer than
 * UNITS_LONGEST or is beyond UNITS_FARTHEST_MM either way; *out_mm is then untouched. */
bool units_parse_length(const char *text, enum units_length shown, double *out_mm);

/* Takes a length that stands at *at in a longer text and names its unit: "5/8 in", "1 1/2 in", "3cm", without sign,
 * hyphen or decimal comma. False, with *at unmoved, when there is none or it is beyond UNITS_FARTHEST_MM. */
bool units_read_length(const char **at, double *out_mm);

/* Takes a number with a fraction that no reckoning could mean from a longer text: "37 1/2", "37½", "½", without sign
 * or unit. False, with *at unmoved, when there is none. */
bool units_read_mixed(const char **at, double *out);

/* Prints with the unit's name: mm to 0.1, cm to 0.01 (0.1 mm), inches as the nearest sixteenth when within 0.05 mm of
 * one ("37 1/2 in"), otherwise to 0.01. Trailing zeros go. `mm` is finite, and below 1e12 either way. Returns `out`. */
const char *units_print_length(char out[UNITS_TEXT], double mm, enum units_length unit);

/* Prints a number for a person to read, with at most so many decimals, 0 to 6: trailing zeros go, and the decimal mark
 * is her language's. `value` is finite, and below 1e15 either way. Returns `out`. */
const char *units_print_decimal(char out[UNITS_TEXT], double value, int decimals);

/* The nearest mark of a tape in that unit: whole millimetres, or eighths of an inch. */
double units_on_tape(double mm, enum units_length unit);

/* In inches the nearest sixteenth, for a tape has no decimals of an inch; in the other units as it is. */
double units_to_sixteenth(double mm, enum units_length unit);

#endif
