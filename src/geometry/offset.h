/* Growing a closed outline outwards by a distance of its own on every edge: seam allowances. */
#ifndef GEOMETRY_OFFSET_H
#define GEOMETRY_OFFSET_H

#include "base/arena.h"
#include "geometry/path.h"

#include <stdbool.h>

/* Mitres longer than this many times the allowance are cut off square; the usual limit of stroking programs (SVG 2
 * stroke-miterlimit has the same default): corners sharper than 29°. */
#define GEOMETRY_MITRE_LIMIT 4.0

/* Grows a closed outline that runs counter-clockwise and does not cross itself. dist_mm[i] >= 0 is the allowance of the
 * side from point i to point i + 1. Corners are mitred: the two grown sides are extended until they meet; where their
 * allowances differ too, so that a side without allowance (a fold) stays on its own line. The result is the outer
 * boundary, counter-clockwise, in `a`. False when the outline has fewer than three points, no area or crosses itself;
 * *out is then empty. */
bool geometry_offset(struct arena *a, struct geometry_path in, const double *dist_mm, struct geometry_path *out);

#endif
