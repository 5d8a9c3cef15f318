/* GEOS beside the program, for tests that hold outlines against it. */
#ifndef TESTS_GEOMETRY_GEOS_H
#define TESTS_GEOMETRY_GEOS_H

#include "base/arena.h"
#include "geometry/path.h"

#include <geos_c.h>

/* What every test of a group has. */
struct here {
    struct arena *a;
    GEOSContextHandle_t geos;
};

static inline int set_up(void **state)
{
    static struct here h;
    h.a = base_arena_create();
    h.geos = GEOS_init_r();
    *state = &h;
    return 0;
}

static inline int tear_down(void **state)
{
    struct here *h = *state;
    base_arena_destroy(h->a);
    GEOS_finish_r(h->geos);
    return 0;
}

/* A closed path by its points. */
#define PATH(...)                                                                                                      \
    (struct geometry_path)                                                                                             \
    {                                                                                                                  \
        (vec2[]){ __VA_ARGS__ }, sizeof((vec2[]){ __VA_ARGS__ }) / sizeof(vec2), true                                  \
    }

static inline GEOSGeometry *polygon_of(struct here *h, struct geometry_path p)
{
    GEOSCoordSequence *seq = GEOSCoordSeq_create_r(h->geos, (unsigned)p.count + 1, 2);
    for (size_t i = 0; i <= p.count; i++)
        GEOSCoordSeq_setXY_r(h->geos, seq, (unsigned)i, p.points[i % p.count].x, p.points[i % p.count].y);
    return GEOSGeom_createPolygon_r(h->geos, GEOSGeom_createLinearRing_r(h->geos, seq), NULL, 0);
}

static inline bool is_valid(struct here *h, struct geometry_path p)
{
    GEOSGeometry *g = polygon_of(h, p);
    bool valid = GEOSisValid_r(h->geos, g) == 1;
    GEOSGeom_destroy_r(h->geos, g);
    return valid;
}

/* Whether the first lies within the second, up to a millionth of a millimetre. A predicate, as GEOS' differences of
 * polygons with edges in one line cannot be relied on (3.11). */
static inline bool lies_within(struct here *h, struct geometry_path first, struct geometry_path second)
{
    GEOSGeometry *f = polygon_of(h, first), *s = polygon_of(h, second);
    GEOSGeometry *wider = GEOSBufferWithStyle_r(h->geos, s, 1e-6, 8, GEOSBUF_CAP_ROUND, GEOSBUF_JOIN_MITRE, 2);
    bool within = GEOSCovers_r(h->geos, wider, f) == 1;
    GEOSGeom_destroy_r(h->geos, wider);
    GEOSGeom_destroy_r(h->geos, s);
    GEOSGeom_destroy_r(h->geos, f);
    return within;
}

#endif
