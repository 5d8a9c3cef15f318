/* Growing a closed outline outwards by a distance of its own on every side: seam allowances and their corners. */
#ifndef GEOMETRY_OFFSET_H
#define GEOMETRY_OFFSET_H

#include "base/arena.h"
#include "geometry/path.h"

#include <stdbool.h>

/* Mitres longer than this many times the allowance are cut off square to the corner's bisector, there; the usual limit
 * of stroking programs (SVG 2 stroke-miterlimit has the same default): corners sharper than 29°. */
#define GEOMETRY_MITRE_LIMIT 4.0

/* What the allowances of the two sides at a corner do there. `P` is the corner's point; the hem is the side that the
 * kind names, the side before the corner or the side after it; `Q` is where the other side's cut line meets the hem's
 * stitching line, if need be each led on. */
enum geometry_corner_kind {
    /* The two cut lines run on, or are trimmed back, to where they meet. */
    GEOMETRY_CORNER_MITRE,
    /* The other side's cut line ends at Q; from there the cut runs square to the hem's stitching line out to the hem's
     * cut line. What lies beyond the stitching line is as long as the seam with the other side's allowance, so that it
     * meets that of a piece of the same allowances that it is sewn to. */
    GEOMETRY_CORNER_SQUARE_BEFORE,
    GEOMETRY_CORNER_SQUARE_AFTER,
    /* From Q on the cut is the mirror image, in the hem's stitching line, of the other side's cut line within the
     * piece, as deep as the hem: folded up along its stitching line the hem ends on that cut line. */
    GEOMETRY_CORNER_FOLD_BACK_BEFORE,
    GEOMETRY_CORNER_FOLD_BACK_AFTER,
    /* Both cut lines stop at the line square to the corner's bisector as far from P as the wider allowance; where they
     * meet nearer than that it is a mitre. */
    GEOMETRY_CORNER_CLIPPED,
};

struct geometry_corner {
    enum geometry_corner_kind kind;
};

/* Grows a closed outline that runs counter-clockwise and does not cross itself. dist_mm[i] >= 0 is the allowance of the
 * side from point i to point i + 1, corners[i] the corner at point i, between the sides i - 1 and i; NULL mitres all.
 *
 * Mitres are as wide as the allowances are. So a hem ends on the line of a fold, whatever their angle. Where the two
 * cut lines would meet further off than the limit (in a curve, or in line) a change of allowance is a step, square to
 * the wider side; so is one at a reflex corner whose sides are too short to meet on.
 *
 * A corner is mitred whatever its kind where it is reflex or straight, where the hem has no allowance, where Q or the
 * end of the hem's cut line lies further from P than the limit of a mitre with the wider allowance, and where the cut
 * line that is to be trimmed is shorter than that takes; all corners are, should GEOS fail to unite them as they are.
 *
 * The result is the outer boundary, counter-clockwise from its leftmost point, in `a`; it does not cross itself, holds
 * the outline, and has no points in line with their neighbours nor nearer than 1e-6 mm. What the allowances close over
 * is filled. False when the outline has fewer than three points, no area or crosses or touches itself, or should GEOS
 * fail to unite it; *out is then empty. */
bool geometry_offset(struct arena *a, struct geometry_path in, const double *dist_mm,
                     const struct geometry_corner *corners, struct geometry_path *out);

#endif
