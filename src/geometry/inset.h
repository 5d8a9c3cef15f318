/* Moving the sides of a closed outline inwards, each by a distance of its own: from a drawn cutting line to the
 * stitching line within it. */
#ifndef GEOMETRY_INSET_H
#define GEOMETRY_INSET_H

#include "base/arena.h"
#include "geometry/path.h"

#include <stdbool.h>
#include <stddef.h>

/* `in` runs counter-clockwise and does not cross itself; dist_mm[i] >= 0 is how far its side i, from point i to point
 * i + 1, moves inwards. Neighbours are led on or trimmed back to where they meet again; what a corner (a turn of 20°
 * and more) trims may be several chords of a curve. Where distances change in line, or nearly so, and where a reflex
 * corner is so sharp that they would meet further off than the limit of a mitre (geometry/offset.h), a side of its own
 * joins their ends.
 *
 * Every side keeps its place: side i of `in` is the side of *out from point starts[i] to the next one, in the order of
 * `in`, of no length where it was trimmed away. `starts` has room for in.count. *out lives in `a`; it runs
 * counter-clockwise, does not cross itself and, where sides of no length are, has the same point several times in a
 * row.
 *
 * False when `in` has fewer than three points, no area or crosses or touches itself, and when the moved sides fold over
 * each other: the distance is more than the piece is wide there, or than the radius of a curve. *out is then empty. */
bool geometry_inset(struct arena *a, struct geometry_path in, const double *dist_mm, struct geometry_path *out,
                    size_t *starts);

#endif
