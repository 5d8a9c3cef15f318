/* What two outlines have in common, and what one has beyond the other. Outlines run counter-clockwise and do not cross
 * themselves. */
#ifndef GEOMETRY_REGION_H
#define GEOMETRY_REGION_H

#include "geometry/path.h"

/* The parts that lie in both, or in the first alone, each a closed outline, counter-clockwise; returns how many, none
 * as well where GEOS fails. Parts and outlines live in `a`. Holes are not told: of an outline that holds the other
 * wholly, all of it lies beyond. */
size_t geometry_common(struct arena *a, struct geometry_path p, struct geometry_path q, struct geometry_path **parts);
size_t geometry_beyond(struct arena *a, struct geometry_path p, struct geometry_path q, struct geometry_path **parts);

/* The area that lies in both. */
double geometry_common_area(struct geometry_path p, struct geometry_path q);

#endif
