/* Values: a length (or a number) that is the same in all sizes, graded, or a formula. */
#ifndef PATTERN_VALUE_H
#define PATTERN_VALUE_H

#include "pattern/formula.h"

#include <stdbool.h>
#include <stddef.h>

struct pattern_value {
    const double *mm;
    size_t count; /* 1: the same in all sizes; otherwise one for each size; 0: not given, reads as 0 */
    const struct pattern_formula *formula; /* or NULL; then count is 0, and only draft can tell what it comes to */
};

/* The value at a size position (3 is the fourth size, 3.5 half way to the fifth), by linear interpolation between the
 * neighbours; positions before the first and past the last size read as those. At a whole position it is exactly the
 * number that was given. `v` is no formula. */
double pattern_value_at(struct pattern_value v, double position);

/* Whether anything was given. */
bool pattern_value_is_given(struct pattern_value v);

#endif
