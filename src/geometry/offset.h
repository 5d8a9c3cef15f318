/* Growing a closed outline outwards by a distance of its own on every edge: seam allowances. */
#ifndef GEOMETRY_OFFSET_H
#define GEOMETRY_OFFSET_H

#include "base/arena.h"
#include "geometry/path.h"

#include <stdbool.h>

/* Mitres longer than this many times the allowance are cut off square to the corner's bisector, there; the usual limit
 * of stroking programs (SVG 2 stroke-miterlimit has the same default): corners sharper than 29°. */
#define GEOMETRY_MITRE_LIMIT 4.0

/* Grows a closed outline that runs counter-clockwise and does not cross itself. dist_mm[i] >= 0 is the allowance of the
 * side from point i to point i + 1.
 *
 * Corners are mitred: the two grown sides run on, or are trimmed back, to where they meet. So where allowances differ,
 * too: a hem ends on the line of a fold, whatever their angle. Where the two would meet further off than the limit (in
 * a curve, or in line) a change of allowance is a step, square to the wider side; so is one at a reflex corner whose
 * sides are too short to meet on.
 *
 * The result is the outer boundary, counter-clockwise from its leftmost point, in `a`; it holds the outline, and has no
 * points in line with their neighbours nor nearer than 1e-6 mm. What the allowances close over is filled. False when
 * the outline has fewer than three points, no area or crosses or touches itself, or should GEOS fail to unite it; *out
 * is then empty. */
bool geometry_offset(struct arena *a, struct geometry_path in, const double *dist_mm, struct geometry_path *out);

#endif
