/* Where the points of a piece stand between the levels of a blend. Not for other folders. */
#ifndef DRAFT_BLEND_H
#define DRAFT_BLEND_H

#include "base/arena.h"
#include "draft/figure.h"

/* The size position of every point of a piece whose points lie at `at` in the figure's own size; in `a`. NULL when it
 * follows the figure's one position: the figure is no blend, or the piece names no level. */
const double *draft_blend_positions(struct arena *a, const struct pattern_piece *piece,
                                    const struct draft_figure *figure, const vec2 *at);

#endif
