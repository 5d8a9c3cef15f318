#include "geometry/region.h"

#include "geometry/geos_ring.h"

/* Points are rounded to it: without, GEOS (3.11) may take outlines that touch all but for the last bit to lie wholly
 * over each other. */
#define GRID_MM 1e-9

typedef GEOSGeometry *overlay(GEOSContextHandle_t geos, const GEOSGeometry *p, const GEOSGeometry *q, double grid);

/* NULL where either is no polygon or GEOS fails. */
static GEOSGeometry *overlaid(GEOSContextHandle_t geos, struct geometry_path p, struct geometry_path q, overlay *how)
{
    if (p.count < 3 || q.count < 3)
        return NULL;
    GEOSGeometry *one = geometry_geos_polygon(geos, p.points, p.count);
    GEOSGeometry *two = geometry_geos_polygon(geos, q.points, q.count);
    GEOSGeometry *found = one && two ? how(geos, one, two, GRID_MM) : NULL;
    GEOSGeom_destroy_r(geos, one);
    GEOSGeom_destroy_r(geos, two);
    return found;
}

/* Outlines meet in points and lines too; these are no parts. */
static size_t outer_rings(struct arena *a, GEOSContextHandle_t geos, const GEOSGeometry *from,
                          struct geometry_path **parts)
{
    int most = from ? GEOSGetNumGeometries_r(geos, from) : 0;
    size_t count = 0;
    *parts = base_arena_alloc(a, most > 0 ? (size_t)most : 0, sizeof **parts);
    for (int i = 0; i < most; i++) {
        const GEOSGeometry *one = GEOSGetGeometryN_r(geos, from, i);
        if (!one || GEOSGeomTypeId_r(geos, one) != GEOS_POLYGON || GEOSisEmpty_r(geos, one) != 0)
            continue;
        struct geometry_path ring = geometry_geos_outer_ring(a, geos, one);
        if (ring.count < 3)
            continue;
        if (geometry_path_area(ring) < 0)
            geometry_path_reverse(ring);
        (*parts)[count++] = ring;
    }
    return count;
}

static size_t parts_of(struct arena *a, struct geometry_path p, struct geometry_path q, overlay *how,
                       struct geometry_path **parts)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSGeometry *found = overlaid(geos, p, q, how);
    size_t count = outer_rings(a, geos, found, parts);
    GEOSGeom_destroy_r(geos, found);
    GEOS_finish_r(geos);
    return count;
}

size_t geometry_common(struct arena *a, struct geometry_path p, struct geometry_path q, struct geometry_path **parts)
{
    return parts_of(a, p, q, GEOSIntersectionPrec_r, parts);
}

size_t geometry_beyond(struct arena *a, struct geometry_path p, struct geometry_path q, struct geometry_path **parts)
{
    return parts_of(a, p, q, GEOSDifferencePrec_r, parts);
}

double geometry_common_area(struct geometry_path p, struct geometry_path q)
{
    double area = 0;
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSGeometry *found = overlaid(geos, p, q, GEOSIntersectionPrec_r);
    if (!found || GEOSArea_r(geos, found, &area) != 1)
        area = 0;
    GEOSGeom_destroy_r(geos, found);
    GEOS_finish_r(geos);
    return area;
}
