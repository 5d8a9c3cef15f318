/* The rectangles of a cutting list. Not for other folders. */
#ifndef TEARING_NEEDS_H
#define TEARING_NEEDS_H

#include "tearing/tearing.h"

/* Collects needs and others of the plan's task; returns the needs, which the plan only reads. */
struct tearing_need *tearing_collect(struct arena *a, struct tearing_plan *plan);

/* Where a piece is too wide for the cloth it is pieced of as few parts as go, which is told; false, told too, when the
 * cloth has no room for parts. */
bool tearing_piece_wide(struct tearing_plan *plan, struct tearing_need *needs, struct err_list *errs);

/* The allowance of a join: as wide as the piece's own side seam, else 15 mm, or 5/8 in. */
double tearing_join_mm(const struct tearing_task *task, const struct draft_piece *piece);

/* The strips of the needs in order, their places and the length; false where strips along the cloth have no room. */
bool tearing_lay_strips(struct arena *a, struct tearing_plan *plan);

#endif
