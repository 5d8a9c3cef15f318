/* Straight lines of the sheet that run right through its pages stand at one place of a whole row or column of them, as
 * furniture does. */
#ifndef DRAWING_THROUGH_H
#define DRAWING_THROUGH_H

#include "drawing/grid.h"

/* Takes such lines back from the furniture: those that run from side to side within what is seen of the sheet, and that
 * only the pages of one row, or of one column, have. What every row and column has is a frame. */
void drawing_take_back_lines(struct drawing_tiling *t, const struct drawing_grid *g);

#endif
