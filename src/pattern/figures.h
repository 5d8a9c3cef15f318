/* Which measurements of a body the pieces of a pattern are drafted by. */
#ifndef PATTERN_FIGURES_H
#define PATTERN_FIGURES_H

#include "base/arena.h"
#include "pattern/pattern.h"

#include <stdbool.h>

/* Of each piece a row with a place for each of the pattern's figures (row after row, in `a`): whether the piece's
 * formulas read it, or those of what it leans on: named values, and all of another piece whose points or edges it
 * takes.
 */
const bool *pattern_figures_by_piece(struct arena *a, const struct pattern *p);

#endif
