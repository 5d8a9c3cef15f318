/* A measurement against one row of a size chart: a length for each size, each as long as the one before or longer. */
#ifndef SIZING_ROW_H
#define SIZING_ROW_H

#include "pattern/value.h"

#include <stdbool.h>

/* Two sizes whose distances from the measurement differ by no more than this are equally near: a tape is read to the
 * nearest 0.5 cm (common practice, no source), and a tenth of that is as good as equal. */
#define SIZING_TIE_MM 0.5

/* Nearer to the middle between two sizes than this share of the step from one to the other, neither is clearly hers. */
#define SIZING_MIDDLE_SHARE 0.25

struct sizing_nearest {
    size_t size;  /* the nearest, of equally near ones the larger */
    size_t other; /* its rival: the size across the middle when that is close, or one equally near; otherwise `size` */
    bool tie;     /* the rival is equally near */
};

/* All of it at a size of the row; a row with a single length has one size. */
struct sizing_nearest sizing_row_nearest(struct pattern_value row, double mm);

/* The place between the nearest size and its rival where the measurement lies, to a tenth of the step between them: in
 * a step of 4 cm that is 2 mm at most, less than a tape is read to. 0 when there is no such place: the two are not
 * neighbours, measure the same, or the measurement is as good as one of them. */
double sizing_row_between(struct pattern_value row, struct sizing_nearest nearest, double mm);

/* Where the measurement lies along the row, by linear interpolation; clamped to the row. */
double sizing_row_position(struct pattern_value row, double mm);

/* The same, but of all places where the row is as long as there, such as those between two sizes that measure the same,
 * the one nearest to `position`: that itself, where the row is the same in all sizes. */
double sizing_row_position_near(struct pattern_value row, double mm, double position);

/* Whether it lies outside the row. Half a step outside the end sizes a further size would be as near, and the larger of
 * two equally near is taken: the row reaches from half a step below it, that included, to half a step above it, that
 * not. */
bool sizing_row_is_below(struct pattern_value row, double mm);
bool sizing_row_is_above(struct pattern_value row, double mm);

#endif
