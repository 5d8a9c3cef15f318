#include "draft/outline.h"

#include "geometry/cubic.h"

#include <assert.h>

#define SAME_POINT_MM 1e-6

struct piece_pt draft_point(const struct pattern_piece *piece, int point, double position)
{
    const struct pattern_point *p = &piece->points[point];
    return (struct piece_pt){ pattern_value_at(p->x, position), pattern_value_at(p->y, position) };
}

static vec2 point_at(const struct pattern_piece *piece, int point, double position)
{
    struct piece_pt p = draft_point(piece, point, position);
    return (vec2){ p.x, p.y };
}

/* A path under construction: points, and for each the edge whose side leads to it. */
struct trace {
    struct arena *a;
    vec2 *points;
    size_t count, cap;
};

static void trace_to(struct trace *t, vec2 p)
{
    if (t->count && vec2_length(vec2_sub(p, t->points[t->count - 1])) < SAME_POINT_MM)
        return;
    t->points = base_arena_grow(t->a, t->points, &t->cap, t->count + 1, sizeof *t->points);
    t->points[t->count++] = p;
}

static void trace_step(struct trace *t, const struct pattern_piece *piece, vec2 from, const struct pattern_step *step,
                       double position)
{
    vec2 end = point_at(piece, step->end, position);
    if (step->control[0] == PATTERN_NONE) {
        trace_to(t, end);
        return;
    }
    struct geometry_cubic c = { { from, point_at(piece, step->control[0], position),
                                  point_at(piece, step->control[1], position), end } };
    size_t steps = geometry_cubic_steps(c, DRAFT_FLATTEN_MM);
    for (size_t i = 1; i < steps; i++)
        trace_to(t, geometry_cubic_at(c, (double)i / (double)steps));
    trace_to(t, end);
}

static void trace_edge(struct trace *t, const struct pattern_piece *piece, const struct pattern_edge *edge,
                       double position)
{
    vec2 from = point_at(piece, edge->start, position);
    trace_to(t, from);
    for (size_t s = 0; s < edge->step_count; s++) {
        trace_step(t, piece, from, &edge->steps[s], position);
        from = point_at(piece, edge->steps[s].end, position);
    }
}

struct geometry_path draft_edge_path(struct arena *a, const struct pattern_piece *piece, int edge, double position)
{
    struct trace t = { a, NULL, 0, 0 };
    trace_edge(&t, piece, &piece->edges[edge], position);
    return (struct geometry_path){ t.points, t.count, false };
}

double draft_edge_length(struct arena *scratch, const struct pattern_piece *piece, int edge, double position)
{
    return geometry_path_length(draft_edge_path(scratch, piece, edge, position));
}

double draft_notch_along(struct arena *scratch, const struct pattern_piece *piece, const struct pattern_notch *notch,
                         double position)
{
    double at = pattern_value_at(notch->at, position);
    return notch->from_end ? draft_edge_length(scratch, piece, notch->edge, position) - at : at;
}

/* The same outline the other way round; side i then was side count - 2 - i (around the end). */
static void turn_round(struct draft_outline *o, size_t edge_count)
{
    size_t n = o->path.count;
    geometry_path_reverse(o->path);
    for (size_t i = 0, j = n - 2; i < j && n > 2; i++, j--) {
        double kept = o->allowance_mm[i];
        o->allowance_mm[i] = o->allowance_mm[j];
        o->allowance_mm[j] = kept;
    }
    for (size_t e = 0; e < edge_count; e++)
        o->edges[e].first = (2 * n - 1 - o->edges[e].first - o->edges[e].count) % n;
}

struct draft_outline draft_outline_of(struct arena *a, const struct pattern_piece *piece, double position)
{
    struct draft_outline o = { .edges = base_arena_alloc(a, piece->edge_count, sizeof *o.edges) };
    struct trace t = { a, NULL, 0, 0 };
    for (size_t e = 0; e < piece->edge_count; e++) {
        trace_edge(&t, piece, &piece->edges[e], position);
        o.edges[e].first = e ? o.edges[e - 1].first + o.edges[e - 1].count : 0;
        o.edges[e].count = t.count - 1 - o.edges[e].first;
    }
    assert(t.count > 0); /* an outline has an edge, and an edge a point */
    if (t.count > 1 && vec2_length(vec2_sub(t.points[0], t.points[t.count - 1])) < SAME_POINT_MM)
        t.count--;
    o.path = (struct geometry_path){ t.points, t.count, true };
    o.allowance_mm = base_arena_alloc(a, t.count, sizeof *o.allowance_mm);
    for (size_t e = 0; e < piece->edge_count; e++) {
        double allowance = pattern_value_at(piece->edges[e].allowance, position);
        for (size_t i = 0; i < o.edges[e].count; i++)
            o.allowance_mm[(o.edges[e].first + i) % t.count] = allowance;
        o.edges[e].first %= t.count; /* a last edge without length begins at the outline's first point */
        o.edges[e].length_mm = draft_edge_length(a, piece, (int)e, position);
    }
    o.turned = geometry_path_area(o.path) < 0;
    if (o.turned)
        turn_round(&o, piece->edge_count);
    return o;
}
