#include "geometry/geos_ring.h"

#include <assert.h>

/* GEOS takes over what goes into its create functions, also when they fail. */
GEOSGeometry *geometry_geos_polygon(GEOSContextHandle_t geos, const vec2 *points, size_t count)
{
    assert(count >= 3);
    GEOSCoordSequence *ring = GEOSCoordSeq_create_r(geos, (unsigned)count + 1, 2);
    if (!ring)
        return NULL;
    for (size_t i = 0; i <= count; i++)
        GEOSCoordSeq_setXY_r(geos, ring, (unsigned)i, points[i % count].x, points[i % count].y);
    GEOSGeometry *shell = GEOSGeom_createLinearRing_r(geos, ring);
    return shell ? GEOSGeom_createPolygon_r(geos, shell, NULL, 0) : NULL;
}

struct geometry_path geometry_geos_outer_ring(struct arena *a, GEOSContextHandle_t geos, const GEOSGeometry *polygon)
{
    struct geometry_path path = { NULL, 0, true };
    const GEOSGeometry *shell = GEOSGetExteriorRing_r(geos, polygon);
    const GEOSCoordSequence *ring = shell ? GEOSGeom_getCoordSeq_r(geos, shell) : NULL;
    unsigned size = 0;
    if (!ring || !GEOSCoordSeq_getSize_r(geos, ring, &size) || size < 4)
        return path;
    path.points = base_arena_alloc(a, size - 1, sizeof(vec2));
    for (unsigned i = 0; i < size - 1; i++)
        GEOSCoordSeq_getXY_r(geos, ring, i, &path.points[i].x, &path.points[i].y);
    path.count = size - 1;
    return path;
}
