/* Seams that a blend, alterations or a body have put out of step. */
#ifndef FIT_MISMATCH_H
#define FIT_MISMATCH_H

#include "base/err_list.h"
#include "draft/sized.h"

/* Warns of every seam between pieces that are cut together, by its name and by how much, that misses what it is meant
 * to be by more than FIT_SEAM_TOLERANCE_MM, and by more than it does as it is drawn in the figure's size. A seam that
 * is more or less full because a rectangle was given another width was meant to be: its ratio is told. `is_cut` says of
 * each of the pattern's pieces whether it is cut; NULL: all are. */
void fit_tell_mismatches(const struct draft_sized *sized, const bool *is_cut, struct err_list *errs);

#endif
