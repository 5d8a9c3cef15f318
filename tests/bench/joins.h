/* How true the joins of painted strokes are, against exact areas by GEOS. */
#ifndef TESTS_BENCH_JOINS_H
#define TESTS_BENCH_JOINS_H

#include <stdbool.h>

/* Two legs of 150 px that meet at 5, 10, … 175 degrees, pens of 1.5, 2.25, 3 and 6 px, each at four places within a
 * pixel and turns of the whole (fixed seed), are painted in white on black. The true shape is the union, by GEOS, of
 * both legs' rectangles and of the join: the mitre's wedge, or the bevel's beyond four widths.
 *
 * A pixel of ours is by design the mean of two areas, a quarter pixel up and left of its place and a quarter down and
 * right (paint/cells.h), so the exact areas, by GEOS too, are taken in the same two squares. Compared is the light of
 * the picture's bytes, their rounding to 8 bits included, in all pixels that are partly covered and whose middle is
 * within 3 px of the join.
 *
 * paint.join_error_max, paint.join_error_rms: the largest difference and the root of the mean square, as a share of a
 * pixel. paint.join_plain_max, paint.join_plain_rms: the same against the area in the pixel's own square, which ours is
 * not meant to be: it would put the middle of a thin upright line up to 0.08 px off. False when GEOS fails. */
bool joins_figures(void);

#endif
