/* Between our points and GEOS' polygons, for this folder alone. A context made by GEOS_init_r has no handlers, so GEOS
 * stays silent: what fails there is NULL or an error code here. */
#ifndef GEOMETRY_GEOS_RING_H
#define GEOMETRY_GEOS_RING_H

#include "base/arena.h"
#include "geometry/path.h"

#include <geos_c.h>
#include <stddef.h>

/* A polygon with the points as its outer ring, the first not repeated; at least three. The caller destroys it. NULL
 * when GEOS refuses. */
GEOSGeometry *geometry_geos_polygon(GEOSContextHandle_t geos, const vec2 *points, size_t count);

/* The outer ring of a polygon as a closed path in `a`, as GEOS turns it; empty when GEOS fails. */
struct geometry_path geometry_geos_outer_ring(struct arena *a, GEOSContextHandle_t geos, const GEOSGeometry *polygon);

#endif
