/* Where lines break off between pages as they lie in the end: what was told or moved by hand may be wrong. */
#ifndef DRAWING_BREAKS_H
#define DRAWING_BREAKS_H

#include "drawing/grid.h"

/* Joins, and sides of pages where no page is, at which several lines end and few go on. `origins` of each tile, mm at
 * true scale. In the tiling's arena; how many. */
size_t drawing_find_breaks(const struct drawing_tiling *t, const struct drawing_grid *g, const vec2 *origins,
                           const struct drawing_break **out);

#endif
