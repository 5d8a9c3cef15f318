#include "geometry/offset.h"

#include "geometry/geos_ring.h"

#include <assert.h>
#include <math.h>

/* The grown outline is the union of the piece and one convex patch for every side: the strip between the side and its
 * grown line, whose ends the corners decide. Neighbouring patches share corners to the last bit or overlap with area to
 * spare, never by rounding alone, so that the union has no cracks. */

/* Points nearer than this are one point, in mm; a hundredth of what any reading of a length tells apart. It only has to
 * lie well above the rounding of coordinates of metres (1e-12) and well below what can be seen. */
#define NEAR_MM 1e-6

/* Sides whose directions differ by no more than this sine run in one line. Far above rounding (1e-16), far below what
 * any drawn curve turns by from one chord to the next. */
#define STRAIGHT_SINE 1e-9

/* How deep a patch that ends on another's edge is let into it, in mm: edges that all but coincide are what unions in
 * floating point stumble over. Nothing of it shows, so it only has to lie well above rounding. */
#define OVERLAP_MM 1e-3

/* A point this near to the line through its neighbours is no corner but rounding, in mm. */
#define STRAIGHT_MM 1e-9

enum {
    PATCH_MOST = 8 /* four corners, and one more for each cut; a patch is cut once from either end of its run */
};

struct patch {
    vec2 p[PATCH_MOST];
    int count; /* 0: none */
    bool is_cut;
};

struct side {
    vec2 a, b;
    vec2 along, out; /* unit vectors: a to b, and away from the piece */
    double length, dist;
    vec2 grown_a, grown_b; /* where its grown line ends at a and at b */
    struct patch strip;
};

/* Side i runs from corner i to corner i + 1. */
struct outline {
    struct side *sides;
    struct patch *bevels; /* of corner i */
    size_t count;
};

/* A corner between two sides. Everything is measured from its point. */
struct corner {
    struct side *before, *after;
    double sine, cosine; /* of the turn from before to after; sine > 0 is convex */
    bool is_straight;
    /* Where the two grown lines meet, whether within the mitre limit, and how far past the end of either side, along
     * its grown line: minus infinity when they run beside each other. */
    vec2 meet;
    bool meets_near;
    double past_before, past_after;
};

static size_t next_of(const struct outline *o, size_t i)
{
    return i + 1 < o->count ? i + 1 : 0;
}

static size_t previous_of(const struct outline *o, size_t i)
{
    return i > 0 ? i - 1 : o->count - 1;
}

static void put(struct patch *patch, vec2 p)
{
    assert(patch->count < PATCH_MOST);
    patch->p[patch->count++] = p;
}

/* ---- Sides ---- */

/* The points without those that fall onto the one before, as sides. */
static struct outline sides_of(struct arena *a, struct geometry_path in, const double *dist_mm)
{
    struct outline o = {
        base_arena_alloc(a, in.count, sizeof(struct side)),
        base_arena_alloc(a, in.count, sizeof(struct patch)),
        0,
    };
    vec2 at = in.points[0];
    for (size_t i = 0; i < in.count; i++) {
        assert(dist_mm[i] >= 0 && isfinite(dist_mm[i]));
        bool closing = i + 1 == in.count;
        vec2 end = in.points[closing ? 0 : i + 1];
        double length = vec2_length(vec2_sub(end, at));
        if (length < NEAR_MM)
            continue;
        struct side *side = &o.sides[o.count++];
        side->a = at;
        side->b = end;
        side->length = length;
        side->along = vec2_scale(vec2_sub(end, at), 1 / length);
        side->out = vec2_right(side->along);
        side->dist = dist_mm[i];
        at = end;
    }
    /* A last side left out leaves the ring open by less than NEAR_MM: close it. */
    if (o.count > 0)
        o.sides[o.count - 1].b = o.sides[0].a;
    return o;
}

/* ---- Corners ---- */

static double limit_of(const struct corner *c)
{
    return GEOMETRY_MITRE_LIMIT * fmax(c->before->dist, c->after->dist);
}

static struct corner corner_between(struct side *before, struct side *after)
{
    struct corner c = { .before = before, .after = after };
    c.sine = vec2_cross(before->along, after->along);
    c.cosine = vec2_dot(before->along, after->along);
    c.is_straight = fabs(c.sine) < STRAIGHT_SINE && c.cosine > 0;
    /* meet · out is the allowance of either side, mean + half and mean - half, which comes apart along the sum and the
     * difference of the two outs. 1 + cosine and 1 - cosine without the digits that the subtraction loses: */
    double squared = c.sine * c.sine;
    double plus = c.cosine < 0 ? squared / (1 - c.cosine) : 1 + c.cosine;
    double minus = c.cosine > 0 ? squared / (1 + c.cosine) : 1 - c.cosine;
    double mean = (before->dist + after->dist) / 2, half = (before->dist - after->dist) / 2;
    c.meet = vec2_scale(vec2_add(before->out, after->out), mean / plus);
    if (half != 0)
        c.meet = vec2_add(c.meet, vec2_scale(vec2_sub(before->out, after->out), half / minus));
    c.past_before = vec2_dot(c.meet, before->along);
    c.past_after = -vec2_dot(c.meet, after->along);
    c.meets_near = vec2_length(c.meet) <= limit_of(&c); /* not when it is infinite or not a number */
    if (c.is_straight && half != 0) {
        c.past_before = c.past_after = -INFINITY;
        c.meets_near = false;
    }
    return c;
}

/* The end of a side's grown line square to the side, moved on by `past` along the line. */
static vec2 end_of_before(const struct corner *c, double past)
{
    const struct side *s = c->before;
    return vec2_add(s->b, vec2_add(vec2_scale(s->out, s->dist), vec2_scale(s->along, past)));
}

static vec2 start_of_after(const struct corner *c, double past)
{
    const struct side *s = c->after;
    return vec2_sub(vec2_add(s->a, vec2_scale(s->out, s->dist)), vec2_scale(s->along, past));
}

static void end_both_at_meet(struct corner *c)
{
    c->before->grown_b = c->after->grown_a = vec2_add(c->before->b, c->meet);
}

/* A convex corner so sharp that its mitre runs past the limit: both grown lines stop at the line square to the bisector
 * at the limit, and the bevel fills what lies between. */
static void cut_off(struct corner *c, struct patch *bevel)
{
    vec2 bisector = vec2_unit(vec2_sub(c->before->along, c->after->along));
    double run = vec2_dot(c->before->along, bisector), rise = vec2_dot(c->before->out, bisector);
    double limit = limit_of(c);
    c->before->grown_b = end_of_before(c, (limit - c->before->dist * rise) / run);
    c->after->grown_a = start_of_after(c, (limit - c->after->dist * rise) / run);
    put(bevel, c->before->b);
    put(bevel, c->before->grown_b);
    put(bevel, c->after->grown_a);
}

static bool is_too_sharp(const struct corner *c)
{
    vec2 bisector = vec2_unit(vec2_sub(c->before->along, c->after->along));
    return c->cosine < 0 && !(vec2_dot(c->meet, bisector) <= limit_of(c));
}

/* Whether both strips can end where their grown lines meet: past their ends or, before those, where neither loses more
 * than half of its side. The other half is left to its other end. */
static bool meets_in_reach(const struct corner *c)
{
    bool outside = c->past_before >= 0 && c->past_after >= 0;
    bool inside = c->past_before >= -c->before->length / 2 && c->past_after >= -c->after->length / 2;
    return outside || (inside && c->meets_near);
}

/* How far the narrower side's grown line must run past the corner, to reach well into the wider side's strip instead of
 * stopping at its end: half way to where it leaves that strip, but not past the strip's far end. */
static double reach(const struct corner *c, const struct side *narrow, const struct side *wide, double past_wide)
{
    double back = fmin(-past_wide, wide->length) / 2;
    return (narrow->dist * c->sine + back) / c->cosine;
}

/* A corner at which the narrower side's grown line runs into the wider one's strip, to trim it there or to leave a
 * step. */
static void end_inside(struct corner *c)
{
    bool before_is_wide = c->before->dist > c->after->dist;
    c->before->grown_b = end_of_before(c, before_is_wide ? 0 : reach(c, c->before, c->after, c->past_after));
    c->after->grown_a = start_of_after(c, before_is_wide ? reach(c, c->after, c->before, c->past_before) : 0);
}

/* Whether the narrower side's grown line trims a run of the wider one's strips. */
static bool trims_run(const struct corner *c)
{
    return c->sine > 0 && c->meets_near && !meets_in_reach(c);
}

/* A reflex corner. Strips that end square cover all of it; they end at the meeting where that cannot run past either
 * side, to hand the union fewer crossings, and the wider one is led on to it where it would end in a step. */
static void end_reflex(struct corner *c)
{
    double shortest = fmin(c->before->length, c->after->length);
    c->before->grown_b = end_of_before(c, 0);
    c->after->grown_a = start_of_after(c, 0);
    if (c->before->dist == c->after->dist) {
        /* A quarter: what this strip gives up then lies within the neighbour's near half, which the neighbour's other
         * end cannot take away. */
        if (-c->past_before <= shortest / 4)
            end_both_at_meet(c);
    } else if (c->meets_near && c->past_before > 0 && -c->past_after <= c->after->length - OVERLAP_MM) {
        c->before->grown_b = end_of_before(c, c->past_before + OVERLAP_MM);
    } else if (c->meets_near && c->past_after > 0 && -c->past_before <= c->before->length - OVERLAP_MM) {
        c->after->grown_a = start_of_after(c, c->past_after + OVERLAP_MM);
    }
}

static void end_strips(struct corner *c, struct patch *bevel)
{
    if (c->before->dist == 0 && c->after->dist == 0)
        return;
    if (c->sine < 0 && !c->is_straight)
        end_reflex(c);
    else if (is_too_sharp(c))
        cut_off(c, bevel);
    else if (meets_in_reach(c))
        end_both_at_meet(c);
    else
        end_inside(c);
}

/* ---- Patches ---- */

static struct patch strip_of(const struct side *s)
{
    struct patch strip = { .count = 0 };
    if (s->dist > 0) {
        put(&strip, s->a);
        put(&strip, s->b);
        put(&strip, s->grown_b);
        put(&strip, s->grown_a);
    }
    return strip;
}

/* A line by a point on it and its unit normal. */
struct line {
    vec2 at, normal;
};

static double above(struct line l, vec2 p)
{
    return vec2_dot(vec2_sub(p, l.at), l.normal);
}

/* Cuts off what lies above the line (Sutherland and Hodgman 1974). */
static void cut(struct patch *patch, struct line l)
{
    struct patch kept = { .is_cut = true };
    bool any = false;
    for (int i = 0; i < patch->count; i++) {
        vec2 p = patch->p[i], q = patch->p[(i + 1) % patch->count];
        double hp = above(l, p), hq = above(l, q);
        any = any || hp > STRAIGHT_MM;
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

/* Cuts the run of equally wide sides that ends at a corner along the narrower side's grown line, as far from the corner
 * as the limit of a mitre. A side that itself passes the line ends it: there the outline has come round to somewhere
 * else. */
static void trim_run(struct outline *o, size_t last, bool backwards, struct line l)
{
    double dist = o->sides[last].dist, left = GEOMETRY_MITRE_LIMIT * dist;
    for (size_t i = last; left > 0; i = backwards ? previous_of(o, i) : next_of(o, i)) {
        struct side *side = &o->sides[i];
        bool below = above(l, side->a) <= STRAIGHT_MM && above(l, side->b) <= STRAIGHT_MM;
        if (side->dist != dist || !below)
            return;
        cut(&side->strip, l);
        cut(&o->bevels[backwards ? i : next_of(o, i)], l);
        left -= side->length;
    }
}

static void trim_at(struct outline *o, size_t corner)
{
    size_t previous = previous_of(o, corner);
    struct corner c = corner_between(&o->sides[previous], &o->sides[corner]);
    if (!trims_run(&c))
        return;
    bool before_is_wide = c.before->dist > c.after->dist;
    const struct side *narrow = before_is_wide ? c.after : c.before;
    struct line l = { vec2_add(c.after->a, vec2_scale(narrow->out, narrow->dist)), narrow->out };
    trim_run(o, before_is_wide ? previous : corner, before_is_wide, l);
}

static void make_patches(struct outline *o)
{
    for (size_t i = 0; i < o->count; i++) {
        struct corner c = corner_between(&o->sides[previous_of(o, i)], &o->sides[i]);
        end_strips(&c, &o->bevels[i]);
    }
    for (size_t i = 0; i < o->count; i++)
        o->sides[i].strip = strip_of(&o->sides[i]);
    for (size_t i = 0; i < o->count; i++)
        trim_at(o, i);
}

/* ---- Union ---- */

/* All that is to be united. */
struct parts {
    struct geometry_path *paths;
    size_t count;
};

/* Whether the strip of the side after carries on the strip of the side before: whole both, with one edge in common. */
static bool carries_on(const struct side *before, const struct side *after)
{
    return before->strip.count > 0 && after->strip.count > 0 && !before->strip.is_cut && !after->strip.is_cut &&
           before->grown_b.x == after->grown_a.x && before->grown_b.y == after->grown_a.y;
}

/* One past the last side whose strip can be put into one band with those since `first`. All of them run onwards in the
 * direction of the first: so does every line of the band between the outline and its grown line, strip by strip, and
 * two such lines never meet. So the band does not cross itself. */
static size_t band_end(const struct outline *o, size_t first)
{
    size_t end = first + 1;
    while (end < o->count && carries_on(&o->sides[end - 1], &o->sides[end]) &&
           vec2_dot(o->sides[first].along, o->sides[end].along) > 0.1)
        end++;
    return end;
}

/* The strips of sides first to end - 1 as one outline. Uniting a few bands is several times as fast as uniting as many
 * strips as a drawn curve has chords. */
static struct geometry_path band_of(struct arena *a, const struct outline *o, size_t first, size_t end)
{
    size_t sides = end - first;
    struct geometry_path band = { base_arena_alloc(a, 2 * sides + 2, sizeof(vec2)), 0, true };
    for (size_t i = first; i < end; i++)
        band.points[band.count++] = o->sides[i].a;
    band.points[band.count++] = o->sides[end - 1].b;
    for (size_t i = end; i-- > first;)
        band.points[band.count++] = o->sides[i].grown_b;
    band.points[band.count++] = o->sides[first].grown_a;
    return band;
}

static void add_patch(struct parts *parts, struct patch *patch)
{
    if (patch->count >= 3)
        parts->paths[parts->count++] = (struct geometry_path){ patch->p, (size_t)patch->count, true };
}

static struct parts parts_of(struct arena *a, struct geometry_path in, struct outline *o)
{
    struct parts parts = { base_arena_alloc(a, 2 * o->count + 1, sizeof(struct geometry_path)), 0 };
    parts.paths[parts.count++] = in;
    for (size_t i = 0; i < o->count; i++)
        add_patch(&parts, &o->bevels[i]);
    for (size_t first = 0, end; first < o->count; first = end) {
        end = band_end(o, first);
        if (end - first > 1)
            parts.paths[parts.count++] = band_of(a, o, first, end);
        else
            add_patch(&parts, &o->sides[first].strip);
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

static bool holds_middle(struct geometry_path ring, struct patch *patch)
{
    struct geometry_path path = { patch->p, (size_t)patch->count, true };
    /* A patch thinner than rounding may have its middle on either side of the line. */
    bool thin = patch->count < 3 || fabs(geometry_path_area(path)) < NEAR_MM;
    return thin || geometry_path_holds(ring, geometry_path_centre(path));
}

/* Whether the ring can be the outer boundary of the union: not smaller than the piece, and with the middle of every
 * patch inside. Where edges all but coincide, GEOS 3.11 can take the inside for the outside without a word. */
static bool is_union_of(struct geometry_path ring, struct geometry_path in, struct outline *o)
{
    if (ring.count < 3 || fabs(geometry_path_area(ring)) < geometry_path_area(in) * (1 - 1e-9))
        return false;
    for (size_t i = 0; i < o->count; i++)
        if (!holds_middle(ring, &o->sides[i].strip) || !holds_middle(ring, &o->bevels[i]))
            return false;
    return true;
}

/* The outer boundary of the piece and all patches; empty when there is no telling. Unites at full precision and, should
 * that go wrong, on a grid of a tenth of NEAR_MM, where unions cannot. */
static struct geometry_path unite(struct arena *a, struct geometry_path in, struct outline *o)
{
    struct parts parts = parts_of(a, in, o);
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSGeometry *all = collect(a, geos, &parts);
    GEOSGeometry *whole = all ? GEOSUnaryUnion_r(geos, all) : NULL;
    struct geometry_path ring = outer_ring_of(a, geos, whole);
    if (all && !is_union_of(ring, in, o)) {
        GEOSGeom_destroy_r(geos, whole);
        whole = GEOSUnaryUnionPrec_r(geos, all, NEAR_MM / 10);
        ring = outer_ring_of(a, geos, whole);
        if (!is_union_of(ring, in, o))
            ring.count = 0;
    }
    GEOSGeom_destroy_r(geos, whole);
    GEOSGeom_destroy_r(geos, all);
    GEOS_finish_r(geos);
    return ring;
}

/* ---- The ring, cleaned ---- */

/* Whether the way from a to c needs no point at b: b falls onto a, lies in line with both, or ends a spike. */
static bool is_idle(vec2 a, vec2 b, vec2 c)
{
    vec2 ab = vec2_sub(b, a), ac = vec2_sub(c, a);
    double length = vec2_length(ac);
    return vec2_length(ab) < NEAR_MM || length < NEAR_MM || fabs(vec2_cross(ac, ab)) < STRAIGHT_MM * length;
}

/* Takes idle points out, in place. Each point is judged against the last one kept, and that one again when its next
 * neighbour changes. */
static struct geometry_path cleaned(struct geometry_path ring)
{
    size_t kept = 0;
    for (size_t i = 0; i < ring.count; i++) {
        vec2 p = ring.points[i];
        while (kept >= 2 && is_idle(ring.points[kept - 2], ring.points[kept - 1], p))
            kept--;
        ring.points[kept++] = p;
    }
    /* The same round the seam. */
    size_t first = 0;
    bool again = true;
    while (again && kept - first > 3) {
        if (is_idle(ring.points[kept - 2], ring.points[kept - 1], ring.points[first]))
            kept--;
        else if (is_idle(ring.points[kept - 1], ring.points[first], ring.points[first + 1]))
            first++;
        else
            again = false;
    }
    return (struct geometry_path){ ring.points + first, kept - first, true };
}

/* The ring counter-clockwise from its leftmost point, of several such the lowest: the same whatever order GEOS uses. */
static struct geometry_path ordered(struct arena *a, struct geometry_path ring)
{
    if (geometry_path_area(ring) < 0)
        geometry_path_reverse(ring);
    size_t first = 0;
    for (size_t i = 1; i < ring.count; i++) {
        vec2 p = ring.points[i], q = ring.points[first];
        if (p.x < q.x || (p.x == q.x && p.y < q.y))
            first = i;
    }
    struct geometry_path out = { base_arena_alloc(a, ring.count, sizeof(vec2)), ring.count, true };
    for (size_t i = 0; i < ring.count; i++)
        out.points[i] = ring.points[(first + i) % ring.count];
    return out;
}

bool geometry_offset(struct arena *a, struct geometry_path in, const double *dist_mm, struct geometry_path *out)
{
    vec2 crossing;
    *out = (struct geometry_path){ NULL, 0, true };
    if (in.count < 3 || geometry_path_area(in) == 0 || geometry_path_crosses_itself(in, &crossing))
        return false;
    assert(in.closed && geometry_path_area(in) > 0);
    struct arena *work = base_arena_create();
    struct outline o = sides_of(work, in, dist_mm);
    if (o.count >= 3) {
        make_patches(&o);
        struct geometry_path ring = cleaned(unite(work, in, &o));
        if (ring.count >= 3)
            *out = ordered(a, ring);
    }
    base_arena_destroy(work);
    return out->count > 0;
}
