/* Values: a length that is the same in all sizes or graded, read at any place of the size chart. */
#ifndef PATTERN_VALUE_H
#define PATTERN_VALUE_H

#include <stddef.h>

struct pattern_value {
    const double *mm;
    size_t count; /* 1: the same in all sizes; otherwise one for each size; 0: not given, reads as 0 */
};

/* The value at a size position (3 is the fourth size, 3.5 half way to the fifth), by linear interpolation between the
 * neighbours; positions before the first and past the last size read as those. At a whole position it is exactly the
 * number that was given. */
double pattern_value_at(struct pattern_value v, double position);

#endif
