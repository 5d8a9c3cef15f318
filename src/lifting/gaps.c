#include "lifting/gaps.h"
#include "lifting/points.h"

#include <math.h>
#include <stdlib.h>

/* Ends are led on in the direction of their last tenth of a millimetre: shorter sides may be rounding. */
#define DIRECTION_LEAST (0.1 * NETWORK_PER_MM)

/* Ends whose directions differ by less than 10 degrees do not meet in a corner but go on: sin 10°. */
#define CORNER_SINE 0.17

/* An end may lie so little past the other's corner that it is rounding, in steps of the grid. */
#define PAST_MOST (0.01 * NETWORK_PER_MM)

/* Nearer than this to a side's end, a bridge leads to that. */
#define SNAP_MOST 4.0

enum { JOINS_MOST = 4 }; /* of one end: lines drawn twice have two ends each */

/* A point at which lines end. */
struct tip {
    uint32_t course;
    vec2 at, way; /* on the grid; the direction it would be led on in */
    struct network_point neighbours[2];
    unsigned neighbour_count; /* 1: it is free */
    unsigned joins;
    uint32_t partners[JOINS_MOST]; /* courses */
};

/* Two free tips within the gap. */
struct couple {
    uint32_t of[2];
    double distance2;
};

struct closing {
    struct arena *a;
    const struct network_course *courses;
    size_t count;
    double gap;
    struct points_table table;
    struct tip *tips;
    struct couple *couples;
    size_t couple_count, couple_cap;
    struct network_course *bridges;
    size_t bridge_count, bridge_cap;
};

static vec2 on_plane(struct network_point p)
{
    return (vec2){ (double)p.x, (double)p.y };
}

static struct network_point on_grid(vec2 p)
{
    return (struct network_point){ (int32_t)floor(p.x + 0.5), (int32_t)floor(p.y + 0.5) };
}

static bool same(struct network_point a, struct network_point b)
{
    return a.x == b.x && a.y == b.y;
}

/* ---- Tips ---- */

static vec2 way_on(const struct network_course *c, bool last)
{
    size_t i = last ? c->count - 1 : 0;
    vec2 from = on_plane(c->points[i]), by = { 0, 0 };
    for (size_t k = 1; k < c->count && vec2_length(by) < DIRECTION_LEAST; k++)
        by = vec2_sub(from, on_plane(c->points[last ? i - k : k]));
    return vec2_unit(by);
}

static void make_tips(struct closing *w, const struct crossings_end *ends, size_t end_count)
{
    w->table = points_table_make(w->a, end_count);
    w->tips = base_arena_alloc(w->a, end_count, sizeof *w->tips);
    for (size_t i = 0; i < end_count; i++) {
        size_t before = w->table.count;
        uint32_t tip = points_add(&w->table, ends[i].at);
        if (tip == before)
            w->tips[tip] = (struct tip){ .course = ends[i].course,
                                         .at = on_plane(ends[i].at),
                                         .way = way_on(&w->courses[ends[i].course], ends[i].last) };
    }
}

static void meet_neighbour(struct tip *tip, struct network_point p)
{
    if (tip->neighbour_count == 2 || (tip->neighbour_count == 1 && same(tip->neighbours[0], p)))
        return;
    tip->neighbours[tip->neighbour_count++] = p;
}

/* What else runs to the tips. */
static void find_neighbours(struct closing *w)
{
    for (size_t i = 0; i < w->count; i++) {
        const struct network_course *c = &w->courses[i];
        for (size_t k = 0; k < c->count; k++) {
            uint32_t tip = points_find(&w->table, c->points[k]);
            if (tip == NETWORK_NONE)
                continue;
            if (k > 0)
                meet_neighbour(&w->tips[tip], c->points[k - 1]);
            if (k + 1 < c->count)
                meet_neighbour(&w->tips[tip], c->points[k + 1]);
        }
    }
}

static bool is_free(const struct closing *w, uint32_t tip)
{
    return tip != NETWORK_NONE && w->tips[tip].neighbour_count == 1;
}

/* ---- Bridges ---- */

static void bridge(struct closing *w, const struct network_point *points, size_t count, double length)
{
    struct network_course c = { .line = NETWORK_NO_LINE, .gap_mm = length / NETWORK_PER_MM, .count = 1 };
    c.points = base_arena_alloc(w->a, count, sizeof *c.points);
    c.points[0] = points[0];
    for (size_t i = 1; i < count; i++)
        if (!same(points[i], c.points[c.count - 1]))
            c.points[c.count++] = points[i];
    if (c.count < 2)
        return;
    c.from = base_arena_alloc(w->a, c.count, sizeof *c.from);
    c.pass = base_arena_alloc(w->a, c.count, sizeof *c.pass);
    for (size_t i = 0; i < c.count; i++) {
        c.from[i] = NETWORK_ADDED;
        c.pass[i] = 1;
    }
    w->bridges = base_arena_grow(w->a, w->bridges, &w->bridge_cap, w->bridge_count + 1, sizeof *w->bridges);
    w->bridges[w->bridge_count++] = c;
}

/* Where two tips meet when they are led on; false when they do not, or too far away. */
static bool corner(const struct closing *w, const struct tip *a, const struct tip *b, vec2 *at)
{
    double sine = vec2_cross(a->way, b->way);
    if (fabs(sine) < CORNER_SINE)
        return false;
    vec2 to = vec2_sub(b->at, a->at);
    double past_a = vec2_cross(to, b->way) / sine, past_b = vec2_cross(to, a->way) / sine;
    *at = vec2_add(a->at, vec2_scale(a->way, past_a));
    return past_a > PAST_MOST && past_b > PAST_MOST && past_a <= w->gap && past_b <= w->gap;
}

static void join(struct closing *w, const struct couple *c)
{
    struct tip *a = &w->tips[c->of[0]], *b = &w->tips[c->of[1]];
    if (a->joins == JOINS_MOST || b->joins == JOINS_MOST)
        return;
    a->partners[a->joins++] = b->course;
    b->partners[b->joins++] = a->course;
    vec2 at;
    struct network_point points[3] = { on_grid(a->at), on_grid(b->at), on_grid(b->at) };
    if (corner(w, a, b, &at))
        points[1] = on_grid(at);
    bridge(w, points, 3, sqrt(c->distance2));
}

/* ---- Two ends ---- */

static void couple(struct closing *w, uint32_t tip, struct network_point p)
{
    uint32_t other = points_find(&w->table, p);
    if (!is_free(w, other) || other == tip)
        return;
    vec2 off = vec2_sub(w->tips[tip].at, w->tips[other].at);
    double distance2 = vec2_dot(off, off);
    if (distance2 > w->gap * w->gap)
        return;
    w->couples = base_arena_grow(w->a, w->couples, &w->couple_cap, w->couple_count + 1, sizeof *w->couples);
    w->couples[w->couple_count++] =
        (struct couple){ { tip < other ? tip : other, tip < other ? other : tip }, distance2 };
}

static int nearest_first(const void *a, const void *b)
{
    const struct couple *p = a, *q = b;
    if (p->distance2 < q->distance2 || p->distance2 > q->distance2)
        return p->distance2 < q->distance2 ? -1 : 1;
    if (p->of[0] != q->of[0])
        return p->of[0] < q->of[0] ? -1 : 1;
    return p->of[1] < q->of[1] ? -1 : p->of[1] > q->of[1];
}

static void join_couples(struct closing *w)
{
    if (w->couple_count)
        qsort(w->couples, w->couple_count, sizeof *w->couples, nearest_first);
    for (size_t i = 0; i < w->couple_count; i++)
        if (i == 0 || nearest_first(&w->couples[i - 1], &w->couples[i]) != 0)
            join(w, &w->couples[i]);
}

/* ---- An end and a line ---- */

static bool is_partner(const struct tip *tip, uint32_t course)
{
    for (unsigned i = 0; i < tip->joins; i++)
        if (tip->partners[i] == course)
            return true;
    return false;
}

/* Where the tip, led on, comes to the side; else the side's nearest place. */
static vec2 place_on(const struct closing *w, const struct tip *tip, const struct crossings_near *near, vec2 foot)
{
    vec2 a = on_plane(near->a), along = vec2_sub(on_plane(near->b), a), to = vec2_sub(a, tip->at);
    double sine = vec2_cross(tip->way, along);
    double past = sine != 0 ? vec2_cross(to, along) / sine : -1, t = sine != 0 ? vec2_cross(to, tip->way) / sine : -1;
    if (past < 0 || past > w->gap || t < 0 || t > 1)
        return foot;
    return vec2_add(a, vec2_scale(along, t));
}

static struct network_point snapped(const struct crossings_near *near, vec2 at)
{
    if (vec2_length(vec2_sub(at, on_plane(near->a))) < SNAP_MOST)
        return near->a;
    return vec2_length(vec2_sub(at, on_plane(near->b))) < SNAP_MOST ? near->b : on_grid(at);
}

/* Where other lines end already goes before a nearer place amid a line. */
struct best {
    const struct crossings_near *near;
    double distance2;
    bool at_end;
    vec2 foot;
};

static bool is_better(const struct best *a, const struct best *b)
{
    return !b->near || (a->at_end && !b->at_end) || (a->at_end == b->at_end && a->distance2 < b->distance2);
}

/* The nearer end of a side, if lines end there. */
static struct best at_end_of(const struct closing *w, const struct crossings_near *near, struct network_point p)
{
    vec2 to_a = vec2_sub(on_plane(near->a), on_plane(p)), to_b = vec2_sub(on_plane(near->b), on_plane(p));
    bool a = vec2_dot(to_a, to_a) <= vec2_dot(to_b, to_b);
    double distance2 = a ? vec2_dot(to_a, to_a) : vec2_dot(to_b, to_b);
    if (distance2 > w->gap * w->gap || points_find(&w->table, a ? near->a : near->b) == NETWORK_NONE)
        return (struct best){ 0 };
    return (struct best){ near, distance2, true, on_plane(a ? near->a : near->b) };
}

static struct best amid(const struct crossings_near *near, struct network_point p)
{
    struct best best = { .near = near };
    best.distance2 = crossings_distance2(p, near->a, near->b, &best.foot);
    return best;
}

static void lead_to(struct closing *w, uint32_t tip, const struct best *best)
{
    const struct tip *t = &w->tips[tip];
    vec2 at = best->at_end ? best->foot : place_on(w, t, best->near, best->foot);
    struct network_point points[2] = { on_grid(t->at), snapped(best->near, at) };
    bridge(w, points, 2, vec2_length(vec2_sub(on_plane(points[1]), t->at)));
}

static void lead_on(struct closing *w, const struct crossings_end *ends, const struct crossings *found)
{
    struct best *best = base_arena_alloc(w->a, w->table.count, sizeof *best);
    for (size_t i = 0; i < found->near_count; i++) {
        const struct crossings_near *near = &found->nears[i];
        uint32_t tip = points_find(&w->table, ends[near->end].at);
        struct network_point p = ends[near->end].at;
        if (!is_free(w, tip) || is_partner(&w->tips[tip], near->course) || same(near->a, p) || same(near->b, p))
            continue;
        struct best now = at_end_of(w, near, p);
        if (!now.near)
            now = amid(near, p);
        if (is_better(&now, &best[tip]))
            best[tip] = now;
    }
    for (uint32_t tip = 0; tip < w->table.count; tip++)
        if (best[tip].near)
            lead_to(w, tip, &best[tip]);
}

size_t gaps_close(struct arena *a, const struct network_course *courses, size_t count, const struct crossings_end *ends,
                  size_t end_count, const struct crossings *found, double gap, const struct network_course **bridges)
{
    struct closing w = { .a = a, .courses = courses, .count = count, .gap = gap };
    *bridges = NULL;
    if (end_count == 0)
        return 0;
    make_tips(&w, ends, end_count);
    find_neighbours(&w);
    for (size_t i = 0; i < found->near_count; i++) {
        const struct crossings_near *near = &found->nears[i];
        uint32_t tip = points_find(&w.table, ends[near->end].at);
        if (!is_free(&w, tip))
            continue;
        couple(&w, tip, near->a);
        couple(&w, tip, near->b);
    }
    join_couples(&w);
    lead_on(&w, ends, found);
    *bridges = w.bridges;
    return w.bridge_count;
}
