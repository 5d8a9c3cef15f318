/* How far apart neighbouring pages may lie: from frames and marks, and from slanted lines and shapes that are on both.
 */
#ifndef DRAWING_STEPS_H
#define DRAWING_STEPS_H

#include "drawing/crossings.h"
#include "drawing/twins.h"

enum { DRAWING_STEPS_MOST = 8 };

/* Distances between the origins of neighbours, the likeliest first. */
struct drawing_steps {
    double step[DRAWING_STEPS_MOST];
    size_t count;
};

/* Pages lie level within `level_mm`, but for few. */
void drawing_find_steps(const struct drawing_tiling *t, const struct drawing_twins *twins, double level_mm,
                        struct drawing_steps steps[DRAWING_AXES]);

/* Where the two pages are cut when they lie so far apart: the middle of what both show, from the origin of the first
 * and of the second. */
double drawing_cut_of_first(const struct drawing_tiling *t, int axis, double step);
double drawing_cut_of_second(const struct drawing_tiling *t, int axis, double step);

#endif
