/* Which places of the waste are chalked. For this folder alone. */
#ifndef SPANS_MARKS_H
#define SPANS_MARKS_H

#include "spans/spans.h"

/* Two marks that are nearer than this tell little more than one: with the usual chalk a turn within 0.4°. Our own
 * choice. */
#define SPANS_APART_MM 150.0

/* Of the places with from_mm <= x <= to_mm up to `most` that lie far apart: the first two as far as any two do (within
 * 2 %), each of the others as far from all before it as any place does; none nearer than SPANS_APART_MM. Returns how
 * many. */
int spans_marks_choose(const struct cloth_pt *places, size_t count, double from_mm, double to_mm, int most,
                       struct cloth_pt *out);

#endif
