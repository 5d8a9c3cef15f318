/* Values: a length (or a number) or a formula, the same in all sizes, or a list with one of them for each size. */
#ifndef PATTERN_VALUE_H
#define PATTERN_VALUE_H

#include "pattern/formula.h"

#include <stdbool.h>
#include <stddef.h>

struct pattern_value {
    const double *mm;
    size_t count; /* 1: the same in all sizes; otherwise one for each size; 0: not given, reads as 0 */
    const struct pattern_formula *const *formulas; /* NULL: there is none; else `count`, NULL where the number counts.
                                                      Only draft can tell what they come to */
};

/* The two neighbours of a list between which a size position lies, and how far it is from the first to the second. */
struct pattern_between {
    size_t below;
    double part; /* 0: at the first; the second may then not be there */
};

/* Positions before the first and past the last of `count`, which is above 0, are those. */
struct pattern_between pattern_value_between(size_t count, double position);

/* The value at a size position (3 is the fourth size, 3.5 half way to the fifth), by linear interpolation between the
 * neighbours; positions before the first and past the last size read as those. At a whole position it is exactly the
 * number that was given. `v` has no formula. */
double pattern_value_at(struct pattern_value v, double position);

/* Whether anything was given. */
bool pattern_value_is_given(struct pattern_value v);

#endif
