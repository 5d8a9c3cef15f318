/* Match lines of pieces, and of what they are sewn to; for this folder alone. */
#ifndef LAY_SEWN_H
#define LAY_SEWN_H

#include "lay/match.h"

/* The places of the piece's own match lines. */
void lay_own_match(const struct draft_piece *piece, struct lay_match *out);

/* The place that has to lie on a line across the cloth for the piece to match, along their seam, one that has a match
 * line of its own; false: it is sewn to none. */
bool lay_sewn_match(const struct lay_task *task, const struct draft_piece *piece, vec2 *out);

/* Whether a seam joins it to another piece of the task, by the first edges of both sides. */
bool lay_is_sewn(const struct lay_task *task, const struct draft_piece *piece);

#endif
