#include "geometry/unite.h"
#include "geometry/geos_ring.h"

#include <stdlib.h>

#define SAME_MM 1e-9

/* Makes it the union of both where that is one polygon. */
static bool union_of(struct arena *a, GEOSContextHandle_t geos, const GEOSGeometry *p, const GEOSGeometry *q,
                     struct geometry_path *out)
{
    GEOSGeometry *both = p && q ? GEOSUnion_r(geos, p, q) : NULL;
    bool one = both && GEOSGeomTypeId_r(geos, both) == GEOS_POLYGON && GEOSisEmpty_r(geos, both) == 0;
    if (one)
        *out = geometry_geos_outer_ring(a, geos, both);
    GEOSGeom_destroy_r(geos, both);
    return one && out->count >= 3;
}

bool geometry_unite(struct arena *a, struct geometry_path p, struct geometry_path q, double gap_mm,
                    struct geometry_path *out)
{
    *out = (struct geometry_path){ NULL, 0, true };
    if (p.count < 3 || q.count < 3)
        return false;
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSGeometry *one = geometry_geos_polygon(geos, p.points, p.count);
    GEOSGeometry *two = geometry_geos_polygon(geos, q.points, q.count);
    bool united = union_of(a, geos, one, two, out);
    if (!united && one && two) {
        GEOSGeometry *moved = GEOSSnap_r(geos, two, one, gap_mm);
        GEOSGeometry *met = moved ? GEOSSnap_r(geos, one, moved, gap_mm) : NULL;
        united = union_of(a, geos, met, moved, out);
        GEOSGeom_destroy_r(geos, moved);
        GEOSGeom_destroy_r(geos, met);
    }
    GEOSGeom_destroy_r(geos, one);
    GEOSGeom_destroy_r(geos, two);
    GEOS_finish_r(geos);
    if (!united)
        *out = (struct geometry_path){ NULL, 0, true };
    else if (geometry_path_area(*out) < 0)
        geometry_path_reverse(*out);
    return united;
}

/* Where the line crosses a side: before that side's end, at `along` of the line. */
struct crossing {
    size_t side;
    double along;
    vec2 at;
};

static int by_along(const void *pa, const void *pb)
{
    const struct crossing *a = pa, *b = pb;
    return (a->along > b->along) - (a->along < b->along);
}

/* A point on the line counts as left of it, so that every cut has two ends. */
static size_t find_crossings(struct geometry_path p, vec2 from, vec2 way, struct crossing *out)
{
    size_t count = 0;
    for (size_t i = 0; i < p.count; i++) {
        vec2 a = p.points[i], b = p.points[(i + 1) % p.count];
        double left_a = vec2_cross(way, vec2_sub(a, from)), left_b = vec2_cross(way, vec2_sub(b, from));
        if ((left_a >= 0) == (left_b >= 0))
            continue;
        vec2 at = vec2_lerp(a, b, left_a / (left_a - left_b));
        out[count++] = (struct crossing){ i, vec2_dot(vec2_sub(at, from), way), at };
    }
    qsort(out, count, sizeof *out, by_along);
    return count;
}

/* The cut that holds the middle, or lies nearest to it: each second crossing opens one. */
static size_t nearest_cut(const struct crossing *c, size_t count, double middle)
{
    size_t best = 0;
    double least = -1;
    for (size_t i = 0; i + 1 < count; i += 2) {
        double away = fmax(fmax(c[i].along - middle, middle - c[i + 1].along), 0);
        if (least < 0 || away < least) {
            least = away;
            best = i;
        }
    }
    return best;
}

static void put(struct geometry_path *out, vec2 p)
{
    if (!out->count || vec2_length(vec2_sub(out->points[out->count - 1], p)) > SAME_MM)
        out->points[out->count++] = p;
}

/* The outline from one crossing on to the other, and back along the cut. */
static struct geometry_path side_of(struct arena *a, struct geometry_path p, const struct crossing *from,
                                    const struct crossing *to)
{
    struct geometry_path out = { base_arena_alloc(a, p.count + 2, sizeof(vec2)), 0, true };
    put(&out, from->at);
    for (size_t i = from->side; i != to->side; i = (i + 1) % p.count)
        put(&out, p.points[(i + 1) % p.count]);
    put(&out, to->at);
    while (out.count > 1 && vec2_length(vec2_sub(out.points[0], out.points[out.count - 1])) <= SAME_MM)
        out.count--;
    return out;
}

bool geometry_part(struct arena *a, struct geometry_path p, vec2 from, vec2 to, struct geometry_path out[2])
{
    vec2 way = vec2_unit(vec2_sub(to, from));
    struct crossing *c = base_arena_alloc(a, p.count, sizeof *c);
    size_t count = way.x == 0 && way.y == 0 ? 0 : find_crossings(p, from, way, c);
    if (count < 2)
        return false;
    size_t cut = nearest_cut(c, count, vec2_length(vec2_sub(to, from)) / 2);
    struct geometry_path one = side_of(a, p, &c[cut], &c[cut + 1]), two = side_of(a, p, &c[cut + 1], &c[cut]);
    /* counter-clockwise, the line leaves a left side through a point at which the outline goes on to the left */
    vec2 next = p.points[(c[cut + 1].side + 1) % p.count];
    bool two_left = vec2_cross(way, vec2_sub(next, from)) >= 0;
    out[0] = two_left ? two : one;
    out[1] = two_left ? one : two;
    return out[0].count >= 3 && out[1].count >= 3;
}
