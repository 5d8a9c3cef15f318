#include "paint/warp.h"

#include "paint/clip.h"

#include <stdlib.h>
#include <string.h>

#define BEYOND 0.05 /* share of the frame that the region reaches past it */
/* How far the middle of an edge may be off. A tenth of what is promised, as all edges of a bend are off to one side. */
#define TOLERANCE_PX 0.005
#define LONG_PX 256.0 /* longer edges are halved before their middle is believed */

enum { SIDE_STEPS = 16, MOST_HALVINGS = 16, SEARCH_STEPS = 40 };

/* The frame, grown by BEYOND on every side. */
static struct geometry_box around(int width_px, int height_px)
{
    vec2 size = { width_px, height_px };
    return (struct geometry_box){ vec2_scale(size, -BEYOND), vec2_scale(size, 1 + BEYOND) };
}

/* A place on the outline of the frame, grown by BEYOND on every side. */
static vec2 grown_frame_at(const struct geometry_map *map, int side, double part)
{
    static const double start[4][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 } };
    const double *from = start[side], *to = start[(side + 1) % 4];
    double grown = 0.5 + BEYOND;
    struct px_pt px = { map->width_px * (0.5 + grown * (from[0] + part * (to[0] - from[0]))),
                        map->height_px * (0.5 + grown * (from[1] + part * (to[1] - from[1]))) };
    struct table_pt at = geometry_map_to_table(map, px);
    return (vec2){ at.x, at.y };
}

static int by_place(const void *left, const void *right)
{
    const vec2 *a = left, *b = right;
    if (a->x != b->x)
        return a->x < b->x ? -1 : 1;
    return (a->y > b->y) - (a->y < b->y);
}

/* One chain of the hull over sorted points: a point stays while the chain turns left at it. */
static size_t add_to_chain(vec2 *hull, size_t base, size_t count, vec2 p)
{
    while (count >= base + 2 &&
           vec2_cross(vec2_sub(hull[count - 1], hull[count - 2]), vec2_sub(p, hull[count - 2])) <= 0)
        count--;
    hull[count] = p;
    return count + 1;
}

/* Convex hull, counter-clockwise (A. M. Andrew, 1979: the lower chain, then the upper). Sorts the points. */
static struct geometry_path hull_of(struct arena *a, vec2 *points, size_t count)
{
    qsort(points, count, sizeof *points, by_place);
    struct geometry_path hull = { base_arena_alloc(a, 2 * count, sizeof(vec2)), 0, true };
    for (size_t i = 0; i < count; i++)
        hull.count = add_to_chain(hull.points, 0, hull.count, points[i]);
    size_t base = hull.count - 1;
    for (size_t i = count - 1; i-- > 0;)
        hull.count = add_to_chain(hull.points, base, hull.count, points[i]);
    hull.count--; /* the first point again */
    return hull;
}

/* A chord of an arc with curvature k and length l is off by k l² / 8. */
static double straight_px(double curvature)
{
    return curvature > 0 ? sqrt(8 * TOLERANCE_PX / curvature) : INFINITY;
}

struct paint_warp paint_warp_create(struct arena *a, const struct geometry_map *map)
{
    vec2 outline[4 * SIDE_STEPS];
    for (int i = 0; i < 4 * SIDE_STEPS; i++)
        outline[i] = grown_frame_at(map, i / SIDE_STEPS, (double)(i % SIDE_STEPS) / SIDE_STEPS);
    struct geometry_inverse inverse = geometry_inverse_create(map);
    return (struct paint_warp){ .map = map,
                                .inverse = inverse,
                                .region = hull_of(a, outline, 4 * SIDE_STEPS),
                                .around = around(map->width_px, map->height_px),
                                .straight_px = straight_px(inverse.curvature) };
}

struct paint_warp paint_warp_none(struct arena *a, int width_px, int height_px)
{
    struct geometry_box box = around(width_px, height_px);
    struct geometry_path region = { base_arena_alloc(a, 4, sizeof(vec2)), 4, true };
    region.points[0] = box.min;
    region.points[1] = (vec2){ box.max.x, box.min.y };
    region.points[2] = box.max;
    region.points[3] = (vec2){ box.min.x, box.max.y };
    return (struct paint_warp){ .region = region, .around = box, .straight_px = INFINITY };
}

void paint_warp_places(const struct paint_warp *warp, size_t count, const double *x, const double *y, double *u,
                       double *v)
{
    if (warp->map) {
        geometry_inverse_px(&warp->inverse, count, x, y, u, v);
    } else if (count) {
        memcpy(u, x, count * sizeof *u);
        memcpy(v, y, count * sizeof *v);
    }
}

bool paint_warp_holds(const struct paint_warp *warp, size_t count, const double *u, const double *v)
{
    struct geometry_box box = warp->around;
    bool inside = true; /* no number is inside nothing */
    for (size_t i = 0; i < count; i++)
        inside = inside & (u[i] >= box.min.x) & (u[i] <= box.max.x) & (v[i] >= box.min.y) & (v[i] <= box.max.y);
    return inside;
}

static bool to_px(const struct paint_warp *warp, vec2 at, vec2 *px)
{
    struct px_pt place;
    if (!geometry_map_to_px(warp->map, (struct table_pt){ at.x, at.y }, &place))
        return false;
    *px = (vec2){ place.x, place.y };
    return true;
}

/* The hull of a strongly bent frame can bulge past where the map has an answer: such a place, far outside the frame,
 * is taken at the last answer on the way to it. */
static vec2 place(const struct paint_warp *warp, vec2 at)
{
    vec2 px = { 0, 0 };
    if (to_px(warp, at, &px))
        return px;
    struct px_pt middle = { warp->map->width_px / 2.0, warp->map->height_px / 2.0 };
    struct table_pt centre = geometry_map_to_table(warp->map, middle);
    double inside = 0, outside = 1;
    for (int i = 0; i < SEARCH_STEPS; i++) {
        double part = (inside + outside) / 2;
        if (to_px(warp, vec2_lerp((vec2){ centre.x, centre.y }, at, part), &px))
            inside = part;
        else
            outside = part;
    }
    return px;
}

static void put(struct paint_bent *b, vec2 px)
{
    b->path.points = base_arena_grow(b->arena, b->path.points, &b->cap, b->path.count + 1, sizeof(vec2));
    b->path.points[b->path.count++] = px;
}

static bool is_straight(vec2 a, vec2 middle, vec2 b)
{
    vec2 chord = vec2_sub(b, a);
    return fabs(vec2_cross(chord, vec2_sub(middle, a))) <= TOLERANCE_PX * vec2_length(chord);
}

/* Puts what lies between two points of an edge. The middle is the same from both ends, so that polygons that share an
 * edge still share it afterwards. */
static void put_between(struct paint_bent *out, const struct paint_warp *warp, const vec2 at[2], const vec2 px[2],
                        int depth)
{
    double length = vec2_length(vec2_sub(px[1], px[0]));
    if (length <= warp->straight_px || depth == MOST_HALVINGS)
        return;
    vec2 middle = vec2_scale(vec2_add(at[0], at[1]), 0.5), middle_px = place(warp, middle);
    if (length <= LONG_PX && is_straight(px[0], middle_px, px[1]))
        return;
    put_between(out, warp, (const vec2[]){ at[0], middle }, (const vec2[]){ px[0], middle_px }, depth + 1);
    put(out, middle_px);
    put_between(out, warp, (const vec2[]){ middle, at[1] }, (const vec2[]){ middle_px, px[1] }, depth + 1);
}

void paint_warp_edge(struct paint_bent *out, const struct paint_warp *warp, const vec2 at[2], const vec2 px[2])
{
    put_between(out, warp, at, px, 0);
}

struct geometry_path paint_warp_polygon(struct arena *a, const struct paint_warp *warp, struct geometry_path polygon)
{
    struct geometry_path seen = paint_clip(a, polygon, warp->region);
    struct paint_bent out = { .arena = a, .path.closed = true };
    if (!seen.count || !warp->map)
        return seen;
    vec2 at = seen.points[seen.count - 1], px = place(warp, at);
    for (size_t i = 0; i < seen.count; i++) {
        vec2 next = seen.points[i], next_px = place(warp, next);
        paint_warp_edge(&out, warp, (const vec2[]){ at, next }, (const vec2[]){ px, next_px });
        put(&out, next_px);
        at = next;
        px = next_px;
    }
    return out.path;
}
