/* Two outlines made one, and one made two. Outlines run counter-clockwise and do not cross themselves. */
#ifndef GEOMETRY_UNITE_H
#define GEOMETRY_UNITE_H

#include "geometry/path.h"

/* The outline around both, without what may be left open between them; it lives in `a`. Gaps up to gap_mm between them
 * are closed. False when they stay apart or one crosses itself; *out is then empty. */
bool geometry_unite(struct arena *a, struct geometry_path p, struct geometry_path q, double gap_mm,
                    struct geometry_path *out);

/* Cuts an outline along the line through two points: between the two places where it crosses the outline on either side
 * of the middle of the points, or, when that lies outside, of the cut nearest to it. out[0] lies to the left of the way
 * from `from` to `to`; both live in `a`. False when the line does not cut it in two. */
bool geometry_part(struct arena *a, struct geometry_path p, vec2 from, vec2 to, struct geometry_path out[2]);

#endif
