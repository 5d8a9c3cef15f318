/* Lengths as a person types them, with her language's decimal mark or the other one. Not for files, which say the same
 * in every language. */
#ifndef UNITS_TYPED_H
#define UNITS_TYPED_H

#include "units/length.h"

/* As units_parse_length, but that both 1.2 and 1,2 are read whatever follows. False, too, for what units_two_ways tells
 * of; *out_mm is untouched then. */
bool units_typed_length(const char *typed, enum units_length shown, double *out_mm);

/* The same of a number without a unit or fraction, 0 or above. */
bool units_typed_number(const char *typed, double *out);

/* Whether it may be meant as a number with decimals or as thousands: "1.200" where the decimal mark is a comma, "1,200"
 * where it is a point. Then both, so written that nobody doubts them: "1,2" and "1200". */
bool units_two_ways(const char *typed, char small[UNITS_TEXT], char large[UNITS_TEXT]);

#endif
