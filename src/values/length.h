/* Lengths and their unit in our own files: a JSON number is in the file's unit, a text names its own ("5/8 in").
 * Not: values that change with the size; those are the pattern's. */
#ifndef VALUES_LENGTH_H
#define VALUES_LENGTH_H

#include "base/err_list.h"
#include "units/length.h"
#include "json/tree.h"
#include "json/write.h"

#include <stdbool.h>

/* The length in mm that a number or text stands for; a bare number, also one in a text, is in `unit`. False, with a
 * complaint that says what to write instead, when it is none or is beyond UNITS_FARTHEST_MM; *out_mm is then untouched.
 */
bool values_length(const struct json_node *node, enum units_length unit, double *out_mm, struct err_list *errs);

/* The member that is a length within the bounds. False, with a complaint, when missing or not so; *out_mm is then
 * untouched. An `object` of NULL has no members and is not complained of. */
bool values_need_length(const struct json_node *object, const char *name, enum units_length unit, double least_mm,
                        double most_mm, double *out_mm, struct err_list *errs);

/* The object's "unit". False, with a complaint, when it is missing or unknown; *out is then UNITS_MM, so that the rest
 * of the file can still be read for its own faults. */
bool values_unit(const struct json_node *object, enum units_length *out, struct err_list *errs);

/* Adds a length as a number in `unit`, with the fewest digits that read back as the same mm where there are such. */
void values_write_length(struct json_out *to, const char *key, double mm, enum units_length unit);

#endif
