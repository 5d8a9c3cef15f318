/* What test squares say of a drawn sheet's scale, in sentences. */
#ifndef APP_SHEET_TRUTH_H
#define APP_SHEET_TRUTH_H

#include "drawing/squares.h"
#include "units/length.h"

/* What was found, and what to do where that is not enough: "The 4 in square measures 3.76 in here: this sheet was saved
 * at 94 %." A square is called by the size that stands on the sheet, whatever the person measures in. In `a`. */
const char *app_sheet_truth_text(struct arena *a, const struct drawing_truth *truth, enum units_length unit);

/* What a judged square says: "saved at 94 %"; of a scan, whose maker chose no scale, "1 % too large". In `a`. */
const char *app_sheet_saved_text(struct arena *a, const struct drawing_truth *truth);

/* One square, to choose by: "4 in square on page 1: 3.76 in". In `a`. */
const char *app_sheet_square_text(struct arena *a, const struct drawing_square *square, enum units_length unit);

#endif
