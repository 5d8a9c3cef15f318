#include "geometry/path.h"

#include "geometry/geos_ring.h"
#include "geometry/simple.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct geometry_box geometry_box_empty(void)
{
    return (struct geometry_box){ { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };
}

struct geometry_box geometry_box_join(struct geometry_box a, struct geometry_box b)
{
    return (struct geometry_box){
        { fmin(a.min.x, b.min.x), fmin(a.min.y, b.min.y) },
        { fmax(a.max.x, b.max.x), fmax(a.max.y, b.max.y) },
    };
}

bool geometry_boxes_meet(struct geometry_box a, struct geometry_box b)
{
    return a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y;
}

struct geometry_box geometry_path_box(struct geometry_path p)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < p.count; i++) { /* not fmin and fmax, which are calls */
        vec2 at = p.points[i];
        box.min.x = at.x < box.min.x ? at.x : box.min.x;
        box.min.y = at.y < box.min.y ? at.y : box.min.y;
        box.max.x = at.x > box.max.x ? at.x : box.max.x;
        box.max.y = at.y > box.max.y ? at.y : box.max.y;
    }
    return box;
}

/* Twice the area, and three times that times the centre of area; both as seen from the first point, so that a small
 * piece far from the origin loses no digits. */
static double moments(struct geometry_path p, vec2 *first)
{
    double twice = 0;
    *first = (vec2){ 0, 0 };
    for (size_t i = 1; i + 1 < p.count; i++) {
        vec2 u = vec2_sub(p.points[i], p.points[0]), v = vec2_sub(p.points[i + 1], p.points[0]);
        double cross = vec2_cross(u, v);
        twice += cross;
        *first = vec2_add(*first, vec2_scale(vec2_add(u, v), cross));
    }
    return twice;
}

double geometry_path_area(struct geometry_path p)
{
    vec2 first;
    return moments(p, &first) / 2;
}

vec2 geometry_path_centre(struct geometry_path p)
{
    assert(p.count > 0);
    vec2 first;
    struct geometry_box box = geometry_path_box(p);
    double twice = moments(p, &first);
    vec2 centre = vec2_add(p.points[0], vec2_scale(first, 1 / (3 * twice)));
    /* Of a path without area, or with so little that its centre is made of rounding. */
    bool inside = centre.x >= box.min.x && centre.x <= box.max.x && centre.y >= box.min.y && centre.y <= box.max.y;
    return inside ? centre : vec2_lerp(box.min, box.max, 0.5);
}

/* How many sides a path has; side i runs from point i to point i + 1, the closing one to point 0. */
static size_t side_count(struct geometry_path p)
{
    if (p.count < 2)
        return 0;
    return p.closed ? p.count : p.count - 1;
}

static vec2 side_end(struct geometry_path p, size_t side)
{
    return p.points[side + 1 < p.count ? side + 1 : 0];
}

double geometry_path_length(struct geometry_path p)
{
    double length = 0;
    for (size_t i = 0; i < side_count(p); i++)
        length += vec2_length(vec2_sub(side_end(p, i), p.points[i]));
    return length;
}

static int by_size(const void *a, const void *b)
{
    double p = *(const double *)a, q = *(const double *)b;
    return (p > q) - (p < q);
}

size_t geometry_path_crossings(struct geometry_path p, double y, double *at)
{
    size_t count = 0;
    for (size_t i = 0; i < p.count; i++) {
        vec2 from = p.points[i], to = p.points[(i + 1) % p.count];
        if ((from.y <= y) != (to.y <= y))
            at[count++] = from.x + (to.x - from.x) * ((y - from.y) / (to.y - from.y));
    }
    if (count)
        qsort(at, count, sizeof *at, by_size);
    return count;
}

bool geometry_path_holds(struct geometry_path p, vec2 at)
{
    bool inside = false;
    for (size_t i = 0, before = p.count - 1; i < p.count; before = i++) {
        vec2 a = p.points[before], b = p.points[i];
        if ((a.y > at.y) == (b.y > at.y))
            continue;
        /* The side passes the point's height: on its right when the point is to the left of an upward side. */
        bool left = vec2_cross(vec2_sub(b, a), vec2_sub(at, a)) > 0;
        if (left == (b.y > a.y))
            inside = !inside;
    }
    return inside;
}

bool geometry_path_crosses_itself(struct geometry_path p, vec2 *where)
{
    if (p.count < 3 || geometry_is_surely_simple(p))
        return false;
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSGeometry *polygon = geometry_geos_polygon(geos, p.points, p.count);
    GEOSGeometry *place = NULL;
    char *reason = NULL;
    bool clear = polygon && GEOSisValidDetail_r(geos, polygon, 0, &reason, &place) == 1;
    if (!clear) {
        *where = p.points[0];
        if (place) {
            GEOSGeomGetX_r(geos, place, &where->x);
            GEOSGeomGetY_r(geos, place, &where->y);
        }
    }
    GEOSFree_r(geos, reason);
    GEOSGeom_destroy_r(geos, place);
    GEOSGeom_destroy_r(geos, polygon);
    GEOS_finish_r(geos);
    return !clear;
}

vec2 geometry_path_at(struct geometry_path p, double along, vec2 *direction)
{
    assert(p.count > 0);
    vec2 from = p.points[0], to = from;
    double length = 0;
    along = along > 0 ? along : 0;
    for (size_t i = 0; i < side_count(p) && !(along < length); i++) {
        double next = vec2_length(vec2_sub(side_end(p, i), p.points[i]));
        if (next == 0)
            continue;
        along -= length;
        from = p.points[i];
        to = side_end(p, i);
        length = next;
    }
    *direction = vec2_unit(vec2_sub(to, from));
    return along < length ? vec2_lerp(from, to, along / length) : to;
}

/* Whether a way is longer than that, beyond the doubt of rounding. */
static bool is_out_of_reach(vec2 way, double reach)
{
    return vec2_dot(way, way) > reach * reach * (1 + 1e-9);
}

/* Whether a place is nearer to a side than the square of that distance, which then becomes its own; *on is how far
 * along the side. */
static bool is_nearer(vec2 from, vec2 run, double length, vec2 at, double *least, double *on)
{
    vec2 unit = length > 0 ? vec2_scale(run, 1 / length) : run;
    double ahead = vec2_dot(unit, vec2_sub(at, from));
    *on = ahead < 0 ? 0 : ahead > length ? length : ahead;
    vec2 off = vec2_sub(at, vec2_add(from, vec2_scale(unit, *on)));
    bool nearer = vec2_dot(off, off) < *least;
    if (nearer)
        *least = vec2_dot(off, off);
    return nearer;
}

double geometry_path_distance(struct geometry_path p, vec2 at, double *along)
{
    vec2 first = vec2_sub(at, p.points[0]);
    double least = vec2_dot(first, first), near = sqrt(least), before = 0; /* least: squared */
    *along = 0;
    for (size_t i = 0; i < side_count(p); i++) {
        vec2 from = p.points[i], run = vec2_sub(side_end(p, i), from);
        double length = vec2_length(run), on;
        if (!is_out_of_reach(vec2_sub(at, from), length + near) && is_nearer(from, run, length, at, &least, &on)) {
            near = sqrt(least);
            *along = before + on;
        }
        before += length;
    }
    return near;
}

struct geometry_path geometry_path_part(struct arena *a, struct geometry_path p, double from, double to)
{
    struct geometry_path part = { base_arena_alloc(a, p.count + 2, sizeof(vec2)), 0, false };
    double least = fmin(from, to), most = fmin(fmax(from, to), geometry_path_length(p)), along = 0;
    vec2 direction;
    part.points[part.count++] = geometry_path_at(p, least, &direction);
    for (size_t i = 1; i < p.count + p.closed; i++) {
        vec2 corner = p.points[i % p.count];
        along += vec2_length(vec2_sub(corner, p.points[i - 1]));
        if (along > least && along < most)
            part.points[part.count++] = corner;
    }
    part.points[part.count++] = geometry_path_at(p, most, &direction);
    if (from > to)
        geometry_path_reverse(part);
    return part;
}

void geometry_path_reverse(struct geometry_path p)
{
    for (size_t i = 0, j = p.count; i + 1 < j; i++) {
        vec2 kept = p.points[i];
        p.points[i] = p.points[--j];
        p.points[j] = kept;
    }
}

struct geometry_path geometry_path_copy(struct arena *a, struct geometry_path p)
{
    struct geometry_path copy = { base_arena_alloc(a, p.count, sizeof(vec2)), p.count, p.closed };
    if (p.count > 0)
        memcpy(copy.points, p.points, p.count * sizeof(vec2));
    return copy;
}

#define LONGEST_MITRE 4.0 /* of the distance */

/* Where a corner goes when both its sides move to the left: along the bisector, farther the sharper the corner. */
static vec2 corner_beside(vec2 before, vec2 at, vec2 after, double dist)
{
    vec2 in = vec2_unit(vec2_sub(at, before)), out = vec2_unit(vec2_sub(after, at));
    vec2 sum = vec2_unit(vec2_add(in, out));
    vec2 left = vec2_scale(vec2_right(sum), -1);
    double along = vec2_dot(left, vec2_scale(vec2_right(out), -1)); /* cosine of half the turn */
    return vec2_add(at, vec2_scale(left, along > 1 / LONGEST_MITRE ? dist / along : dist));
}

struct geometry_path geometry_path_beside(struct arena *a, struct geometry_path p, double dist)
{
    struct geometry_path out = geometry_path_copy(a, p);
    size_t n = p.count;
    for (size_t i = 0; i < n; i++) {
        bool first = !p.closed && i == 0, last = !p.closed && i + 1 == n;
        vec2 at = p.points[i];
        vec2 before = first ? vec2_sub(vec2_scale(at, 2), p.points[1]) : p.points[(i + n - 1) % n];
        vec2 after = last ? vec2_sub(vec2_scale(at, 2), p.points[n - 2]) : p.points[(i + 1) % n];
        out.points[i] = corner_beside(before, at, after, dist);
    }
    return out;
}
