/* Where the lens is, from two tables of one projector: one set up as usual, one on a board under the same mat. The
 * board brings the light nearer to the lens by its thickness b, so that the second table is the first one made smaller
 * by the share b / h towards the foot (calibration/height.h): h = b / (1 - s), and the foot is what stays where it is.
 * The scale s and the shift are those of the similarity that carries the first table to the second over a grid of the
 * frame, by least squares (S. Umeyama, IEEE TPAMI 13(4), 1991). */
#ifndef CALIBRATION_BOARD_H
#define CALIBRATION_BOARD_H

#include "base/err_list.h"
#include "calibration/table.h"

/* A board's bounds: a thinner one says nothing of the lens. */
#define CALIBRATION_LEAST_BOARD_MM 5.0
#define CALIBRATION_MOST_BOARD_MM 100.0

struct calibration_found_lens {
    struct calibration_lens_place lens;
    double height_doubt_mm; /* by how much the height may be off (95 %) for both tables' readings and a board measured
                               to 0.25 mm (one in three is farther off; assumed, no source) … */
    double foot_doubt_mm;   /* … and the foot, for the readings and a mat laid back to 0.5 mm (assumed, no source) */
};

/* The lens. Refused with a sentence about `file`, the board's table, *out untouched: frames of different sizes, a
 * second table that is not clearly smaller (by four times what its readings leave open), two that differ by more than a
 * height does (the projector was moved), and a lens where none can be. Warns of a mat that was laid back turned: the
 * height holds, but the foot does not. */
bool calibration_find_lens(const char *file, const struct calibration_table *table,
                           const struct calibration_table *board, double board_mm, struct calibration_found_lens *out,
                           struct err_list *errs);

#endif
