#include "draft/outline.h"

#include <assert.h>
#include <math.h>

#define ON_LINE_MM 0.05 /* by which darts that share the place of a leg may seem to overlap */

/* A path under construction. */
struct trace {
    struct arena *a;
    vec2 *points;
    size_t count, cap;
};

static void trace_to(struct trace *t, vec2 p)
{
    if (t->count && draft_is_same_point(p, t->points[t->count - 1]))
        return;
    t->points = base_arena_grow(t->a, t->points, &t->cap, t->count + 1, sizeof *t->points);
    t->points[t->count++] = p;
}

/* `path` may have points twice in a row. */
static void trace_path(struct trace *t, struct geometry_path path)
{
    for (size_t i = 0; i < path.count; i++)
        trace_to(t, path.points[i]);
}

/* The dart folded on an edge whose mouth begins first from that place on; its mouth is then filled in. */
static const struct pattern_dart *next_folded(const struct pattern_piece *piece, const struct draft_sized_piece *at,
                                              int edge, double from, double mouth[2])
{
    const struct pattern_dart *next = NULL;
    for (size_t i = 0; i < piece->dart_count; i++) {
        const struct pattern_dart *dart = &piece->darts[i];
        double place[2];
        if (dart->edge != edge || dart->fold == PATTERN_NOT_FOLDED || !draft_dart_mouth(at, dart, place) ||
            place[0] < from - ON_LINE_MM || place[1] - place[0] <= 2 * ON_LINE_MM || (next && place[0] >= mouth[0]))
            continue;
        next = dart;
        mouth[0] = place[0];
        mouth[1] = place[1];
    }
    return next;
}

/* An edge as it is written, but for the mouths of its folded darts. */
static struct geometry_path edge_with_caps(struct arena *a, const struct pattern_piece *piece,
                                           const struct draft_sized_piece *at, int edge)
{
    struct geometry_path path = at->edge_paths[edge], cap;
    struct trace t = { a, NULL, 0, 0 };
    double come = 0, traced = 0, mouth[2];
    const struct pattern_dart *dart;
    for (; (dart = next_folded(piece, at, edge, come, mouth)) != NULL; come = mouth[1]) {
        if (!draft_dart_cap(a, piece, at, dart, &cap))
            continue; /* told where the dart is placed */
        trace_path(&t, geometry_path_part(a, path, traced, fmax(traced, mouth[0])));
        trace_path(&t, cap);
        traced = mouth[1];
    }
    if (traced == 0)
        return path;
    trace_path(&t, geometry_path_part(a, path, traced, INFINITY));
    return (struct geometry_path){ t.points, t.count, false };
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

bool draft_is_fold_end(const struct draft_outline *o, const struct pattern_piece *piece, size_t point)
{
    if (piece->fold == PATTERN_NONE)
        return false;
    const struct draft_edge *fold = &o->edges[piece->fold];
    return point == fold->first || point == (fold->first + fold->count) % o->path.count;
}

/* As the edge says of its side of a corner, the side that comes before or after the corner on the path. */
static enum geometry_corner_kind corner_kind(enum pattern_end end, bool is_before)
{
    switch (end) {
    case PATTERN_END_MITRE:
        break;
    case PATTERN_END_SQUARE:
        return is_before ? GEOMETRY_CORNER_SQUARE_BEFORE : GEOMETRY_CORNER_SQUARE_AFTER;
    case PATTERN_END_FOLDED_BACK:
        return is_before ? GEOMETRY_CORNER_FOLD_BACK_BEFORE : GEOMETRY_CORNER_FOLD_BACK_AFTER;
    case PATTERN_END_CLIPPED:
        return GEOMETRY_CORNER_CLIPPED;
    }
    return GEOMETRY_CORNER_MITRE;
}

/* A piece on the fold is cut on its line whatever the edges there say. */
static void shape_corners(struct arena *a, const struct pattern_piece *piece, struct draft_outline *o)
{
    o->corners = base_arena_alloc(a, o->path.count, sizeof *o->corners);
    for (size_t e = 0; e < piece->edge_count; e++)
        for (int end = 0; end < 2 && o->edges[e].count > 0; end++) {
            bool is_before = (end == 1) != o->turned; /* the corner, on the path */
            size_t point = (o->edges[e].first + (is_before ? o->edges[e].count : 0)) % o->path.count;
            enum geometry_corner_kind kind = corner_kind(piece->edges[e].ends[end], is_before);
            if (kind != GEOMETRY_CORNER_MITRE && !draft_is_fold_end(o, piece, point))
                o->corners[point].kind = kind;
        }
}

/* Leads an outline on along an edge, which begins where that ends. */
static void put_edge(struct geometry_path *outline, struct geometry_path edge)
{
    size_t first = 0;
    while (outline->count > 0 && first < edge.count &&
           draft_is_same_point(edge.points[first], outline->points[outline->count - 1]))
        first++;
    for (size_t i = first; i < edge.count; i++)
        outline->points[outline->count++] = edge.points[i];
}

static struct geometry_path join_edges(struct arena *a, const struct geometry_path *edges, size_t edge_count,
                                       struct draft_edge *places)
{
    size_t most = 0;
    for (size_t e = 0; e < edge_count; e++)
        most += edges[e].count;
    struct geometry_path outline = { base_arena_alloc(a, most, sizeof(vec2)), 0, true };
    for (size_t e = 0; e < edge_count; e++) {
        put_edge(&outline, edges[e]);
        places[e].first = e ? places[e - 1].first + places[e - 1].count : 0;
        places[e].count = outline.count - 1 - places[e].first;
    }
    assert(outline.count > 0); /* an outline has an edge, and an edge a point */
    if (outline.count > 1 && draft_is_same_point(outline.points[0], outline.points[outline.count - 1]))
        outline.count--;
    return outline;
}

struct draft_outline draft_outline_join(struct arena *a, const struct geometry_path *edges, const double *allowance_mm,
                                        size_t edge_count)
{
    struct draft_outline o = { .edges = base_arena_alloc(a, edge_count, sizeof *o.edges) };
    o.path = join_edges(a, edges, edge_count, o.edges);
    o.allowance_mm = base_arena_alloc(a, o.path.count, sizeof *o.allowance_mm);
    for (size_t e = 0; e < edge_count; e++) {
        for (size_t i = 0; i < o.edges[e].count; i++)
            o.allowance_mm[o.edges[e].first + i] = allowance_mm[e];
        o.edges[e].first %= o.path.count; /* a last edge without length begins at the outline's first point */
    }
    o.turned = geometry_path_area(o.path) < 0;
    if (o.turned)
        turn_round(&o, edge_count);
    return o;
}

struct draft_outline draft_outline_of(struct arena *a, const struct draft_sized *sized, int index)
{
    const struct pattern_piece *piece = &sized->pattern->pieces[index];
    const struct draft_sized_piece *at = &sized->pieces[index];
    struct geometry_path *edges = base_arena_alloc(a, piece->edge_count, sizeof *edges);
    for (size_t e = 0; e < piece->edge_count; e++)
        edges[e] = edge_with_caps(a, piece, at, (int)e);
    struct draft_outline o = draft_outline_join(a, edges, at->allowance_mm, piece->edge_count);
    for (size_t e = 0; e < piece->edge_count; e++)
        o.edges[e].length_mm = at->edge_mm[e];
    shape_corners(a, piece, &o);
    return o;
}
