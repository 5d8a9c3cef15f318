#include "geometry/offset_work.h"

#include "geometry/geos_ring.h"

#include <assert.h>
#include <math.h>

/* The grown outline is the union of the piece and one convex patch for every side: the strip between the side and its
 * grown line, whose ends the corners decide. Neighbouring patches share corners to the last bit or overlap with area to
 * spare, never by rounding alone, so that the union has no cracks. */

enum {
    /* A strip has four corners, and one more for each cut; it is cut twice from either end of its run at most. */
    PATCH_MOST = 8
};

/* A patch with more area than this, in mm2, is no thinner anywhere than the grid of the second union can tell. */
#define WIDE_MM2 1e-2

struct patch {
    vec2 p[PATCH_MOST];
    int count; /* 0: none */
    bool is_cut;
};

/* One for each side of the outline. */
struct strip {
    vec2 grown_a, grown_b; /* where its grown line ends at a and at b */
    struct patch patch;
};

/* All that is united with the piece. */
struct patches {
    const struct offset_outline *o;
    struct strip *strips;
    struct patch *bevels;        /* of corner i */
    struct geometry_path *lobes; /* of corner i, if it has a shape */
    bool is_broken;              /* what a shape has taken overlaps what the other end of the side has lost */
};

static void put(struct patch *patch, vec2 p)
{
    assert(patch->count < PATCH_MOST);
    patch->p[patch->count++] = p;
}

/* ---- Ends of strips ---- */

/* What a corner decides. */
struct ends {
    vec2 *before, *after; /* the ends of the two strips' grown lines there */
    struct patch *bevel;
};

/* A convex corner whose cut lines stop at a line square to the bisector; the bevel fills what lies between. */
static bool cut_off(struct ends *e, const struct offset_corner *c)
{
    if (!offset_cuts_off(c, e->before, e->after))
        return false;
    put(e->bevel, c->before->b);
    put(e->bevel, *e->before);
    put(e->bevel, *e->after);
    return true;
}

/* How far the narrower side's grown line must run past the corner, to reach well into the wider side's strip instead of
 * stopping at its end: half way to where it leaves that strip, but not past the strip's far end. */
static double reach(const struct offset_corner *c, const struct offset_side *narrow, const struct offset_side *wide,
                    double past_wide)
{
    double back = fmin(-past_wide, wide->length) / 2;
    return (narrow->dist * c->sine + back) / c->cosine;
}

/* A corner at which the narrower side's grown line runs into the wider one's strip, to trim it there or to leave a
 * step. */
static void end_inside(struct ends *e, const struct offset_corner *c)
{
    bool before_is_wide = c->before->dist > c->after->dist;
    *e->before = offset_end_of_before(c, before_is_wide ? 0 : reach(c, c->before, c->after, c->past_after));
    *e->after = offset_start_of_after(c, before_is_wide ? reach(c, c->after, c->before, c->past_before) : 0);
}

/* A reflex corner. Strips that end square cover all of it; they end at the meeting where that cannot run past either
 * side, to hand the union fewer crossings, and the wider one is led on to it where it would end in a step. */
static void end_reflex(struct ends *e, const struct offset_corner *c)
{
    double shortest = fmin(c->before->length, c->after->length);
    *e->before = offset_end_of_before(c, 0);
    *e->after = offset_start_of_after(c, 0);
    if (c->before->dist == c->after->dist) {
        /* A quarter: what this strip gives up then lies within the neighbour's near half, which the neighbour's other
         * end cannot take away. */
        if (-c->past_before <= shortest / 4)
            *e->before = *e->after = vec2_add(c->before->b, c->meet);
    } else if (c->meets_near && c->past_before > 0 && -c->past_after <= c->after->length - OFFSET_OVERLAP_MM) {
        *e->before = offset_end_of_before(c, c->past_before + OFFSET_OVERLAP_MM);
    } else if (c->meets_near && c->past_after > 0 && -c->past_before <= c->before->length - OFFSET_OVERLAP_MM) {
        *e->after = offset_start_of_after(c, c->past_after + OFFSET_OVERLAP_MM);
    }
}

/* ---- Corners with a hem ---- */

/* Where the hem's strip ends square, if that is part of the lobe: its cut line runs on past the corner. */
static bool hem_runs_past(const struct offset_corner *c, const struct offset_shape *shape, vec2 *square)
{
    bool before = shape->hem_before;
    const struct offset_side *hem = before ? c->before : c->after;
    vec2 end = shape->points[before ? 0 : shape->count - 1];
    *square = before ? offset_end_of_before(c, 0) : offset_start_of_after(c, 0);
    return vec2_dot(vec2_sub(end, *square), hem->along) * (before ? 1 : -1) > 0;
}

/* The lobe between the shape and the outline's points from where the hem's cut line ends to the corner. */
static struct geometry_path lobe_of(struct arena *a, const struct offset_outline *o, size_t i, const vec2 *square)
{
    const struct offset_shape *shape = o->tips[i].shape;
    bool before = shape->hem_before;
    struct geometry_path lobe = { base_arena_alloc(a, o->count + OFFSET_SHAPE_MOST + 2, sizeof(vec2)), 0, true };
    size_t at = before ? offset_next(o, o->tips[i].before) : i, last = before ? i : o->tips[i].after;
    if (square && before)
        lobe.points[lobe.count++] = *square;
    for (int k = 0; k < shape->count; k++)
        lobe.points[lobe.count++] = shape->points[k];
    if (square && !before)
        lobe.points[lobe.count++] = *square;
    /* Back along the outline; Q may lie on the corner. */
    for (size_t k = last;; k = offset_previous(o, k)) {
        vec2 p = o->sides[k].a;
        if (vec2_length(vec2_sub(p, lobe.points[lobe.count - 1])) > 0)
            lobe.points[lobe.count++] = p;
        if (k == at)
            break;
    }
    if (vec2_length(vec2_sub(lobe.points[0], lobe.points[lobe.count - 1])) == 0)
        lobe.count--;
    return lobe;
}

/* The hem's strip ends square, or where its cut line does if that is earlier; the lobe fills what lies beyond. The
 * other strip begins at the hem's stitching line or will be cut there. */
static void end_shaped(struct arena *a, struct patches *all, size_t i)
{
    const struct offset_tip *tip = &all->o->tips[i];
    struct offset_corner c = offset_corner_at(all->o, i);
    bool before = tip->shape->hem_before, other_is_cut = c.cosine > 0;
    vec2 square, *hem_end = before ? &all->strips[tip->before].grown_b : &all->strips[tip->after].grown_a;
    vec2 *other_end = before ? &all->strips[i].grown_a : &all->strips[offset_previous(all->o, i)].grown_b;
    bool past = hem_runs_past(&c, tip->shape, &square);
    *hem_end = past ? square : before ? tip->from : tip->to;
    if (other_is_cut)
        *other_end = before ? offset_start_of_after(&c, 0) : offset_end_of_before(&c, 0);
    else
        *other_end = before ? tip->to : tip->from;
    all->lobes[i] = lobe_of(a, all->o, i, past ? &square : NULL);
}

/* Takes the strips away whose cut lines a shape has taken all of. */
static void drop_strips(struct patches *all, size_t i)
{
    const struct offset_outline *o = all->o;
    const struct offset_tip *tip = &o->tips[i];
    if (!tip->shape)
        return;
    size_t first = tip->shape->hem_before ? offset_next(o, tip->before) : i;
    size_t end = tip->shape->hem_before ? i : tip->after;
    for (size_t k = first; k != end; k = offset_next(o, k))
        all->strips[k].patch.count = 0;
}

/* ---- All corners ---- */

static void end_strips(struct patches *all, size_t i)
{
    const struct offset_outline *o = all->o;
    struct offset_corner c = offset_corner_at(o, i);
    struct ends e = { &all->strips[offset_previous(o, i)].grown_b, &all->strips[i].grown_a, &all->bevels[i] };
    if (c.before->dist == 0 && c.after->dist == 0)
        return;
    if (c.sine < 0 && !c.is_straight)
        end_reflex(&e, &c);
    else if (cut_off(&e, &c))
        return;
    else if (offset_meets_in_reach(&c))
        *e.before = *e.after = vec2_add(c.before->b, c.meet);
    else
        end_inside(&e, &c);
}

/* ---- Patches ---- */

static void fill_strip(const struct offset_side *s, struct strip *strip)
{
    if (s->dist > 0) {
        put(&strip->patch, s->a);
        put(&strip->patch, s->b);
        put(&strip->patch, strip->grown_b);
        put(&strip->patch, strip->grown_a);
    }
}

/* Whether a strip runs backwards: a shape has taken what the other end of the side has lost. */
static bool runs_backwards(const struct offset_side *s, const struct strip *strip)
{
    vec2 run = vec2_sub(strip->grown_b, strip->grown_a);
    return strip->patch.count > 0 && vec2_dot(run, s->along) < -OFFSET_NEAR_MM;
}

/* Cuts off what lies above the line (Sutherland and Hodgman 1974). */
static void cut(struct patch *patch, struct offset_line l)
{
    struct patch kept = { .is_cut = true };
    bool any = false;
    for (int i = 0; i < patch->count; i++) {
        vec2 p = patch->p[i], q = patch->p[(i + 1) % patch->count];
        double hp = offset_above(l, p), hq = offset_above(l, q);
        any = any || hp > OFFSET_STRAIGHT_MM;
        if (hp <= 0)
            put(&kept, p);
        /* Always reckoned from below, so that neighbours who share this edge get the same bits. */
        if (hp < 0 && hq > 0)
            put(&kept, vec2_lerp(p, q, hp / (hp - hq)));
        else if (hp > 0 && hq < 0)
            put(&kept, vec2_lerp(q, p, hq / (hq - hp)));
    }
    if (any)
        *patch = kept;
}

/* Cuts the run of equally wide sides that ends at a corner, along a line, as far from the corner as the limit of a
 * mitre or the next corner with a rule of its own. A side that itself passes the line ends it: there the outline has
 * come round to somewhere else. */
static void trim_run(struct patches *all, size_t last, bool backwards, struct offset_line l)
{
    const struct offset_outline *o = all->o;
    double dist = o->sides[last].dist, left = GEOMETRY_MITRE_LIMIT * dist;
    for (size_t i = last; left > 0; i = backwards ? offset_previous(o, i) : offset_next(o, i)) {
        const struct offset_side *side = &o->sides[i];
        bool below = offset_above(l, side->a) <= OFFSET_STRAIGHT_MM && offset_above(l, side->b) <= OFFSET_STRAIGHT_MM;
        if (side->dist != dist || !below)
            return;
        cut(&all->strips[i].patch, l);
        if (offset_run_ends(o, i, backwards))
            return;
        cut(&all->bevels[backwards ? i : offset_next(o, i)], l);
        left -= side->length;
    }
}

static void trim_at(struct patches *all, size_t i)
{
    const struct offset_outline *o = all->o;
    const struct offset_shape *shape = o->tips[i].shape;
    struct offset_corner c = offset_corner_at(o, i);
    size_t previous = offset_previous(o, i);
    bool before_is_wide = c.before->dist > c.after->dist;
    if (shape) {
        trim_run(all, shape->hem_before ? i : previous, !shape->hem_before, shape->stitch);
    } else if (offset_trims_run(&c)) {
        trim_run(all, before_is_wide ? previous : i, before_is_wide, offset_trimming_line(&c));
    }
}

static struct patches patches_of(struct arena *a, const struct offset_outline *o)
{
    struct patches all = { .o = o,
                           .strips = base_arena_alloc(a, o->count, sizeof(struct strip)),
                           .bevels = base_arena_alloc(a, o->count, sizeof(struct patch)),
                           .lobes = base_arena_alloc(a, o->count, sizeof(struct geometry_path)) };
    for (size_t i = 0; i < o->count; i++)
        if (!o->tips[i].shape)
            end_strips(&all, i);
    /* Then those whose shapes take what others left. */
    for (size_t i = 0; i < o->count; i++)
        if (o->tips[i].shape)
            end_shaped(a, &all, i);
    for (size_t i = 0; i < o->count; i++)
        fill_strip(&o->sides[i], &all.strips[i]);
    for (size_t i = 0; i < o->count; i++)
        drop_strips(&all, i);
    for (size_t i = 0; i < o->count; i++)
        all.is_broken = all.is_broken || runs_backwards(&o->sides[i], &all.strips[i]);
    for (size_t i = 0; i < o->count; i++)
        trim_at(&all, i);
    return all;
}

/* ---- Union ---- */

/* All that is to be united. */
struct parts {
    struct geometry_path *paths;
    size_t count;
};

/* Whether the strip of the side after carries on the strip of the side before: whole both, with one edge in common. */
static bool carries_on(const struct strip *before, const struct strip *after)
{
    return before->patch.count > 0 && after->patch.count > 0 && !before->patch.is_cut && !after->patch.is_cut &&
           before->grown_b.x == after->grown_a.x && before->grown_b.y == after->grown_a.y;
}

/* One past the last side whose strip can be put into one band with those since `first`. All of them run onwards in the
 * direction of the first: so does every line of the band between the outline and its grown line, strip by strip, and
 * two such lines never meet. So the band does not cross itself. */
static size_t band_end(const struct patches *all, size_t first)
{
    const struct offset_outline *o = all->o;
    size_t end = first + 1;
    while (end < o->count && carries_on(&all->strips[end - 1], &all->strips[end]) &&
           vec2_dot(o->sides[first].along, o->sides[end].along) > 0.1)
        end++;
    return end;
}

/* The strips of sides first to end - 1 as one outline. Uniting a few bands is several times as fast as uniting as many
 * strips as a drawn curve has chords. */
static struct geometry_path band_of(struct arena *a, const struct patches *all, size_t first, size_t end)
{
    size_t sides = end - first;
    struct geometry_path band = { base_arena_alloc(a, 2 * sides + 2, sizeof(vec2)), 0, true };
    for (size_t i = first; i < end; i++)
        band.points[band.count++] = all->o->sides[i].a;
    band.points[band.count++] = all->o->sides[end - 1].b;
    for (size_t i = end; i-- > first;)
        band.points[band.count++] = all->strips[i].grown_b;
    band.points[band.count++] = all->strips[first].grown_a;
    return band;
}

static void add_patch(struct parts *parts, struct patch *patch)
{
    if (patch->count >= 3)
        parts->paths[parts->count++] = (struct geometry_path){ patch->p, (size_t)patch->count, true };
}

static struct parts parts_of(struct arena *a, struct geometry_path in, struct patches *all)
{
    const struct offset_outline *o = all->o;
    struct parts parts = { base_arena_alloc(a, 3 * o->count + 1, sizeof(struct geometry_path)), 0 };
    parts.paths[parts.count++] = in;
    for (size_t i = 0; i < o->count; i++)
        add_patch(&parts, &all->bevels[i]);
    for (size_t i = 0; i < o->count; i++)
        if (all->lobes[i].count >= 3)
            parts.paths[parts.count++] = all->lobes[i];
    for (size_t first = 0, end; first < o->count; first = end) {
        end = band_end(all, first);
        if (end - first > 1)
            parts.paths[parts.count++] = band_of(a, all, first, end);
        else
            add_patch(&parts, &all->strips[first].patch);
    }
    return parts;
}

static GEOSGeometry *collect(struct arena *a, GEOSContextHandle_t geos, const struct parts *parts)
{
    GEOSGeometry **polygons = base_arena_alloc(a, parts->count, sizeof(GEOSGeometry *));
    for (size_t i = 0; i < parts->count; i++) {
        polygons[i] = geometry_geos_polygon(geos, parts->paths[i].points, parts->paths[i].count);
        if (!polygons[i]) {
            while (i-- > 0)
                GEOSGeom_destroy_r(geos, polygons[i]);
            return NULL;
        }
    }
    return GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, polygons, (unsigned)parts->count);
}

/* The outer ring of the largest polygon of a union: all parts hang together, but rounding may leave crumbs beside them.
 * Empty when the union failed. */
static struct geometry_path outer_ring_of(struct arena *a, GEOSContextHandle_t geos, const GEOSGeometry *whole)
{
    struct geometry_path largest = { NULL, 0, true };
    int count = whole ? GEOSGetNumGeometries_r(geos, whole) : 0;
    for (int i = 0; i < count; i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, whole, i);
        if (!part || GEOSGeomTypeId_r(geos, part) != GEOS_POLYGON)
            continue;
        struct geometry_path ring = geometry_geos_outer_ring(a, geos, part);
        if (largest.count == 0 || fabs(geometry_path_area(ring)) > fabs(geometry_path_area(largest)))
            largest = ring;
    }
    return largest;
}

/* Whether a ring has a patch inside: its middle and, of one that is not thinner than rounding, a place near each
 * corner.
 */
static bool holds_patch(struct geometry_path ring, struct patch *patch)
{
    struct geometry_path path = { patch->p, (size_t)patch->count, true };
    double area = patch->count < 3 ? 0 : fabs(geometry_path_area(path));
    if (area < OFFSET_NEAR_MM)
        return true;
    vec2 middle = geometry_path_centre(path);
    for (int i = 0; area > WIDE_MM2 && i < patch->count; i++)
        if (!geometry_path_holds(ring, vec2_lerp(patch->p[i], middle, 0.125)))
            return false;
    return geometry_path_holds(ring, middle);
}

/* Whether a ring has what lies just within each stretch of a shape, the outline being on the left of it. */
static bool holds_shape(struct geometry_path ring, const struct offset_shape *shape)
{
    for (int i = 0; shape && i + 1 < shape->count; i++) {
        vec2 p = shape->points[i], q = shape->points[i + 1], stretch = vec2_sub(q, p);
        vec2 within = vec2_scale(vec2_unit(vec2_right(stretch)), -OFFSET_OVERLAP_MM);
        bool long_enough = vec2_length(stretch) > 100 * OFFSET_OVERLAP_MM;
        if (long_enough && !geometry_path_holds(ring, vec2_add(vec2_lerp(p, q, 0.5), within)))
            return false;
    }
    return true;
}

/* Whether the ring can be the outer boundary of the union: not smaller than the piece, and with every patch inside.
 * Where edges all but coincide, GEOS 3.11 can take the inside for the outside without a word. */
static bool is_union_of(struct geometry_path ring, struct geometry_path in, struct patches *all)
{
    if (ring.count < 3 || fabs(geometry_path_area(ring)) < geometry_path_area(in) * (1 - 1e-9))
        return false;
    for (size_t i = 0; i < all->o->count; i++)
        if (!holds_patch(ring, &all->strips[i].patch) || !holds_patch(ring, &all->bevels[i]) ||
            !holds_shape(ring, all->o->tips[i].shape))
            return false;
    return true;
}

/* The outer boundary of the piece and all patches; empty when there is no telling. Unites at full precision and, should
 * that go wrong, on a grid of a tenth of OFFSET_NEAR_MM, where unions cannot. */
struct geometry_path offset_unite(struct arena *a, struct geometry_path in, const struct offset_outline *o)
{
    struct patches all = patches_of(a, o);
    if (all.is_broken)
        return (struct geometry_path){ NULL, 0, true };
    struct parts parts = parts_of(a, in, &all);
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSGeometry *collected = collect(a, geos, &parts);
    GEOSGeometry *whole = collected ? GEOSUnaryUnion_r(geos, collected) : NULL;
    struct geometry_path ring = outer_ring_of(a, geos, whole);
    if (collected && !is_union_of(ring, in, &all)) {
        GEOSGeom_destroy_r(geos, whole);
        whole = GEOSUnaryUnionPrec_r(geos, collected, OFFSET_NEAR_MM / 10);
        ring = outer_ring_of(a, geos, whole);
        if (!is_union_of(ring, in, &all))
            ring.count = 0;
    }
    GEOSGeom_destroy_r(geos, whole);
    GEOSGeom_destroy_r(geos, collected);
    GEOS_finish_r(geos);
    return ring;
}
