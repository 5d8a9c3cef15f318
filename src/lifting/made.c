#include "lifting/made.h"

#include "geometry/cubic.h"
#include "lifting/corners.h"

#include <assert.h>
#include <math.h>

#define SHORT_MM 2.0         /* a shorter edge is part of its neighbour */
#define FOLD_STRAIGHT_MM 0.1 /* what strays farther is no fold */
#define FOLD_END_MM 3.0      /* a fold's mark ends so near to the edge's ends */
#define LEG_MM 1.0           /* corners so near to a dart's leg are its own */
#define NESTED_SHARE 0.5     /* of sizes drawn into each other one lies over so much of the next, both ways */

/* ---- One plane ---- */

static bool lie_over(double from, double to, double other_from, double other_to)
{
    double both = fmin(to, other_to) - fmax(from, other_from);
    return both > NESTED_SHARE * fmin(to - from, other_to - other_from);
}

/* Whether all sizes are drawn into each other; else each has a place of its own on the sheet. */
static bool are_nested(const struct geometry_path *outlines, size_t count)
{
    for (size_t k = 1; k < count; k++) {
        struct geometry_box one = geometry_path_box(outlines[k - 1]), next = geometry_path_box(outlines[k]);
        if (!lie_over(one.min.x, one.max.x, next.min.x, next.max.x) ||
            !lie_over(one.min.y, one.max.y, next.min.y, next.max.y))
            return false;
    }
    return true;
}

/* The lower left corner, in whole mm. */
static vec2 origin_of(struct geometry_path p)
{
    struct geometry_box box = geometry_path_box(p);
    return (vec2){ floor(box.min.x), floor(box.min.y) };
}

static struct geometry_path shifted(struct arena *a, struct geometry_path p, vec2 by)
{
    struct geometry_path out = geometry_path_copy(a, p);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = vec2_add(out.points[i], by);
    return out;
}

static void find_sizes(struct arena *a, size_t sizes, struct lifting_made *m)
{
    size_t *size = base_arena_alloc(a, sizes, sizeof *size), *stands = base_arena_alloc(a, sizes, sizeof *stands);
    for (size_t k = 0; k < sizes && !(m->piece->one_size && m->size_count); k++)
        if (m->piece->outlines[k].there && m->piece->outlines[k].path.path.count >= 3)
            size[m->size_count++] = k;
    for (size_t k = 0; k < sizes; k++) { /* the nearest that is there, of two the smaller */
        for (size_t d = 1; d < m->size_count; d++) {
            size_t best = size[stands[k]], off = best > k ? best - k : k - best;
            size_t now = size[d] > k ? size[d] - k : k - size[d];
            if (now < off)
                stands[k] = d;
        }
    }
    m->size = size;
    m->stands_for = stands;
}

static void put_in_one_plane(struct arena *a, struct lifting_made *m)
{
    size_t n = m->size_count;
    struct geometry_path *outlines = base_arena_alloc(a, n, sizeof *outlines);
    const double **along = base_arena_alloc(a, n, sizeof(const double *));
    vec2 *shift = base_arena_alloc(a, n, sizeof *shift);
    for (size_t d = 0; d < n; d++)
        outlines[d] = m->piece->outlines[m->size[d]].path.path;
    bool nested = are_nested(outlines, n);
    vec2 largest = origin_of(outlines[n - 1]);
    for (size_t d = 0; d < n; d++) {
        shift[d] = vec2_scale(nested ? largest : origin_of(outlines[d]), -1);
        outlines[d] = shifted(a, outlines[d], shift[d]);
        along[d] = lifting_along(a, outlines[d]);
    }
    m->outlines = outlines;
    m->along = along;
    m->shift = shift;
}

/* ---- Marks ---- */

bool lifting_mark_in(struct arena *a, const struct lifting_made *made, const struct lifting_mark *mark, size_t drawn,
                     struct geometry_path *out)
{
    if (mark->size != LIFTING_NONE && (size_t)mark->size != made->size[drawn])
        return false;
    *out = shifted(a, mark->path.path, made->shift[drawn]);
    return out->count > 0;
}

double lifting_corner_along(const struct lifting_made *made, size_t corner, size_t drawn)
{
    return made->match.places[corner % made->match.corner_count * made->match.size_count + drawn].along_mm;
}

static double length_of(const struct lifting_made *m, size_t drawn)
{
    return m->along[drawn][m->outlines[drawn].count];
}

static double way_on(double from, double to, double length)
{
    return to < from ? to - from + length : to - from;
}

/* ---- Edges ---- */

/* Between a dart's legs, and at them, an edge goes on. */
static void spare_darts(struct arena *work, const struct lifting_made *m, bool *is_break)
{
    struct geometry_path path;
    for (size_t i = 0; i < m->piece->mark_count; i++)
        for (size_t d = 0; d < m->size_count; d++) {
            const struct lifting_mark *mark = &m->piece->marks[i];
            double legs[2], length = length_of(m, d);
            if (mark->kind != LIFTING_DART || !lifting_mark_in(work, m, mark, d, &path) || path.count < 3)
                continue;
            for (int leg = 0; leg < 2; leg++)
                geometry_path_distance(m->outlines[d], path.points[leg * 2], &legs[leg]);
            bool swap = way_on(legs[0], legs[1], length) > length / 2;
            double from = legs[swap] - LEG_MM, mouth = way_on(legs[swap], legs[!swap], length) + 2 * LEG_MM;
            for (size_t c = 0; c < m->match.corner_count; c++)
                if (way_on(from < 0 ? from + length : from, lifting_corner_along(m, c, d), length) <= mouth)
                    is_break[c] = false;
        }
}

/* The longest that it is in any size. */
static double longest(const struct lifting_made *m, size_t from, size_t to)
{
    double most = 0;
    for (size_t d = 0; d < m->size_count; d++)
        most = fmax(most, way_on(lifting_corner_along(m, from, d), lifting_corner_along(m, to, d), length_of(m, d)));
    return most;
}

/* Short edges become part of the neighbour that they turn from the least. */
static void spare_short(const struct lifting_made *m, bool *is_break)
{
    size_t n = m->match.corner_count;
    for (size_t c = 0; c < n; c++) {
        size_t next = (c + 1) % n;
        while (!is_break[next] && next != c)
            next = (next + 1) % n;
        if (is_break[c] && next != c && longest(m, c, next) < SHORT_MM)
            is_break[fabs(m->match.turn[c]) <= fabs(m->match.turn[next]) ? c : next] = false;
    }
}

static size_t nearest_corner(const struct lifting_made *m, size_t drawn, vec2 at, double *off)
{
    size_t best = 0;
    *off = INFINITY;
    for (size_t c = 0; c < m->match.corner_count; c++) {
        vec2 corner = geometry_path_at(m->outlines[drawn], lifting_corner_along(m, c, drawn), &(vec2){ 0, 0 });
        double now = vec2_length(vec2_sub(corner, at));
        if (now < *off) {
            *off = now;
            best = c;
        }
    }
    return best;
}

static bool is_straight(struct arena *work, const struct lifting_made *m, size_t from, size_t to)
{
    for (size_t d = 0; d < m->size_count; d++) {
        struct lifting_run r = lifting_run_of(work, m->outlines[d], m->along[d], lifting_corner_along(m, from, d),
                                              lifting_corner_along(m, to, d));
        vec2 along = vec2_unit(vec2_sub(r.points[r.count - 1], r.points[0]));
        for (size_t i = 1; i + 1 < r.count; i++)
            if (fabs(vec2_cross(along, vec2_sub(r.points[i], r.points[0]))) > FOLD_STRAIGHT_MM)
                return false;
        if (vec2_length(vec2_sub(r.points[r.count - 1], r.points[0])) < SHORT_MM)
            return false;
    }
    return from != to;
}

/* The corners that the fold leads between; false when no straight edge does in all sizes. */
static bool find_fold(struct arena *work, const struct lifting_made *m, size_t ends[2])
{
    struct geometry_path path;
    for (size_t i = 0; i < m->piece->mark_count; i++)
        for (size_t d = m->size_count; d-- > 0;) {
            double off[2];
            if (m->piece->marks[i].kind != LIFTING_FOLD || !lifting_mark_in(work, m, &m->piece->marks[i], d, &path))
                continue;
            size_t one = nearest_corner(m, d, path.points[0], &off[0]);
            size_t other = nearest_corner(m, d, path.points[path.count - 1], &off[1]);
            if (fmax(off[0], off[1]) > FOLD_END_MM)
                continue;
            bool swap = !is_straight(work, m, one, other);
            ends[0] = swap ? other : one;
            ends[1] = swap ? one : other;
            if (is_straight(work, m, ends[0], ends[1]))
                return true;
        }
    return false;
}

static void mark_breaks(struct arena *work, const struct lifting_made *m, const size_t *fold, bool *is_break)
{
    size_t n = m->match.corner_count;
    assert(n > 0);
    for (size_t c = 0; c < n; c++)
        is_break[c] = fabs(m->match.turn[c]) > LIFTING_PLAIN_TURN;
    spare_darts(work, m, is_break);
    spare_short(m, is_break);
    if (fold) {
        for (size_t c = (fold[0] + 1) % n; c != fold[1]; c = (c + 1) % n)
            is_break[c] = false;
        is_break[fold[0]] = is_break[fold[1]] = true;
    }
}

static void part_into_edges(struct arena *a, const size_t *fold, const bool *is_break, struct lifting_made *m)
{
    size_t n = m->match.corner_count, first = 0, named = 0;
    while (first < n && !is_break[first])
        first++;
    struct lifting_made_edge *edges = base_arena_alloc(a, n, sizeof *edges), *edge = NULL;
    for (size_t i = 0; i < n; i++) {
        size_t c = (first + i) % n;
        if (i == 0 || is_break[c]) {
            edge = &edges[m->edge_count++];
            bool is_fold = fold && c == fold[0];
            *edge = (struct lifting_made_edge){ is_fold ? "fold" : base_arena_print(a, "e%zu", ++named), c, 0 };
            if (is_fold)
                m->fold = (int)(m->edge_count - 1);
        }
        edge->spans++;
    }
    m->edges = edges;
}

size_t lifting_edge_at(const struct lifting_made *made, size_t drawn, double along_mm)
{
    double length = length_of(made, drawn), best_off = INFINITY;
    size_t best = 0;
    for (size_t e = 0; e < made->edge_count; e++) {
        const struct lifting_made_edge *edge = &made->edges[e];
        double from = lifting_corner_along(made, edge->first, drawn);
        double long_mm = way_on(from, lifting_corner_along(made, edge->first + edge->spans, drawn), length);
        double on = way_on(from, along_mm, length), off = 0;
        if (made->edge_count > 1 && on > long_mm)
            off = fmin(on - long_mm, length - on);
        if ((int)e != made->fold && off < best_off) {
            best_off = off;
            best = e;
        }
    }
    return best;
}

/* ---- Curves ---- */

static struct lifting_curve fit_span(struct arena *a, const struct lifting_made *m, size_t corner)
{
    struct arena *work = base_arena_create();
    struct lifting_run *runs = base_arena_alloc(work, m->size_count, sizeof *runs);
    for (size_t d = 0; d < m->size_count; d++)
        runs[d] = lifting_run_of(work, m->outlines[d], m->along[d], lifting_corner_along(m, corner, d),
                                 lifting_corner_along(m, corner + 1, d));
    struct lifting_curve curve = lifting_fit(a, runs, m->size_count);
    base_arena_destroy(work);
    return curve;
}

static void trace_curve(struct geometry_path *path, const struct lifting_curve *curve, size_t drawn, struct arena *a,
                        size_t *cap)
{
    for (size_t s = 0; s < curve->step_count; s++) {
        struct geometry_cubic c;
        for (size_t i = 0; i < 4; i++)
            c.p[i] = curve->points[(3 * s + i) * curve->size_count + drawn];
        size_t steps = curve->is_line[s] ? 1 : geometry_cubic_steps(c, DRAWING_FLAT_MM);
        path->points = base_arena_grow(a, path->points, cap, path->count + steps, sizeof(vec2));
        for (size_t i = 1; i <= steps; i++)
            path->points[path->count++] = i < steps ? geometry_cubic_at(c, (double)i / (double)steps) : c.p[3];
    }
}

struct geometry_path lifting_edge_path(struct arena *a, const struct lifting_made *made, size_t edge, size_t drawn)
{
    const struct lifting_made_edge *e = &made->edges[edge];
    struct geometry_path path = { NULL, 0, false };
    size_t cap = 0;
    path.points = base_arena_grow(a, path.points, &cap, 2, sizeof(vec2));
    path.points[path.count++] = made->curves[e->first].points[drawn];
    for (size_t i = 0; i < e->spans; i++)
        trace_curve(&path, &made->curves[(e->first + i) % made->match.corner_count], drawn, a, &cap);
    if ((int)edge == made->fold) { /* one line */
        path.points[1] = path.points[path.count - 1];
        path.count = 2;
    }
    return path;
}

void lifting_make(struct arena *a, const struct lifting_piece *piece, size_t sizes, struct lifting_made *out)
{
    struct arena *work = base_arena_create();
    size_t fold[2];
    *out = (struct lifting_made){ .piece = piece, .fold = LIFTING_NONE };
    find_sizes(a, sizes, out);
    put_in_one_plane(a, out);
    out->match = lifting_match(a, out->outlines, out->size_count);
    size_t n = out->match.corner_count;
    bool *is_break = base_arena_alloc(work, n, sizeof *is_break), has_fold = find_fold(work, out, fold);
    mark_breaks(work, out, has_fold ? fold : NULL, is_break);
    part_into_edges(a, has_fold ? fold : NULL, is_break, out);
    struct lifting_curve *curves = base_arena_alloc(a, n, sizeof *curves);
    for (size_t c = 0; c < n; c++)
        curves[c] = fit_span(a, out, c);
    out->curves = curves;
    base_arena_destroy(work);
}
