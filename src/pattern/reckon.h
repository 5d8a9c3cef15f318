/* The arithmetic of formulas; where the numbers behind their names come from is the caller's. */
#ifndef PATTERN_RECKON_H
#define PATTERN_RECKON_H

#include "base/err_list.h"
#include "pattern/formula.h"

#include <stdbool.h>

/* Why a formula has no outcome. Of the kind's sentence {0} is the formula, {1} the size, {2} `part`. */
struct pattern_no_outcome {
    const struct err_kind *kind; /* NULL: whoever read a name has told it */
    struct err_arg part;
};

/* What a name, or a length, place or way of the pieces, stands for, in the file's unit or in degrees. Of two points the
 * first is the term before. False when it was told that it stands for nothing. */
typedef bool pattern_read_term(void *user, const struct pattern_term *term, double *number);

/* What a formula comes to, in mm (or a plain number, or degrees), within its bound. False when it comes to nothing,
 * with the reason in *why. */
bool pattern_reckon(const struct pattern_formula *formula, pattern_read_term *read, void *user, double *out,
                    struct pattern_no_outcome *why);

#endif
