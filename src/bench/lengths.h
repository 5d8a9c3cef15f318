/* Lengths as they are read off a tape. Texts live in `a`. */
#ifndef BENCH_LENGTHS_H
#define BENCH_LENGTHS_H

#include "base/arena.h"
#include "units/length.h"

/* "94.5 cm", "37 1⁄2 in" to a sixteenth; the fraction's stroke is the one (U+2044) that fonts set it by. */
const char *bench_length(struct arena *a, double mm, enum units_length unit);

/* The same without the unit. */
const char *bench_number(struct arena *a, double mm, enum units_length unit);

/* To half a centimetre or an eighth of an inch, as one says it. */
const char *bench_length_about(struct arena *a, double mm, enum units_length unit);

/* What mends a length that cannot be read: which ways to write it where it can be read in two (units/typed.h), else
 * `mend`. */
const char *bench_two_ways(struct arena *a, const char *typed, const char *mend);

#endif
