#include "lifting/marking.h"

#include "geometry/inset.h"
#include "lifting/corners.h"

#include <assert.h>
#include <math.h>

#define SAME_MARK_MM 30.0  /* from one size to the next a mark moves no farther, once its piece has grown */
#define OTHER_KIND_MM 20.0 /* a notch of another form is so much farther away */
#define ON_OUTLINE_MM 1.0  /* a dart's leg begins so near to it */
#define WITHIN_MM 0.2      /* a line ends so far within the outline */
#define LEAST_TURN 0.035   /* of a line within: 2° */
#define SHORT_MM 2.0       /* a line that is shorter is none */

enum { MOST_POINTS = 3 };

/* A mark in one size. */
struct seen {
    const struct lifting_mark *mark;
    vec2 points[MOST_POINTS];
};

struct row {
    struct seen *of; /* in each drawn size */
    bool *found;
};

struct gather {
    struct arena *a, *work;
    const struct lifting_made *made;
    struct geometry_box *boxes;
    struct geometry_path **written, **sewn; /* of each drawn size its edges, and their stitching lines; NULL until asked
                                               for */
    bool inset;                             /* the stitching line lies within the outline */
    double allowance_mm;
    struct lifting_marked *out;
    size_t count, cap, *left_out;
};

static const struct {
    enum lifting_mark_kind kind;
    size_t points; /* of the first and the last of its path; 3: of all */
} kind_rows[] = {
    { LIFTING_NOTCH, 1 }, { LIFTING_DRILL, 1 }, { LIFTING_DART, 3 }, { LIFTING_LENGTHEN, 2 }, { LIFTING_INNER, 2 },
};

/* A piece has no more lines within than so many; more are a decoration or hatching. */
enum { INNER_MOST = 24, STRETCHES_MOST = 8 /* of a single one */ };

/* ---- One mark in all sizes ---- */

/* Where a place of one size lies in another, by their boxes. */
static vec2 carried(const struct gather *g, vec2 p, size_t from, size_t to)
{
    const struct geometry_box *one = &g->boxes[from], *other = &g->boxes[to];
    vec2 size = vec2_sub(one->max, one->min), there = vec2_sub(other->max, other->min), off = vec2_sub(p, one->min);
    return (vec2){ other->min.x + (size.x > 0 ? off.x * there.x / size.x : 0),
                   other->min.y + (size.y > 0 ? off.y * there.y / size.y : 0) };
}

static vec2 middle_of(const struct seen *s, size_t points)
{
    vec2 sum = { 0, 0 };
    for (size_t i = 0; i < points; i++)
        sum = vec2_add(sum, s->points[i]);
    return vec2_scale(sum, 1 / (double)points);
}

/* From left to right, or upwards; a dart's legs likewise. */
static void put_in_order(struct seen *s, size_t points)
{
    vec2 *first = &s->points[0], *last = &s->points[points - 1], kept = *first;
    vec2 way = vec2_sub(*last, *first);
    if (points > 1 && way.x + way.y < 0) {
        *first = *last;
        *last = kept;
    }
}

/* The points at which a line turns, its ends among them; as many as `most` at most. */
static size_t turns_of(struct geometry_path p, size_t most, vec2 *out)
{
    assert(p.count > 0);
    size_t count = 0, sides = p.count - (p.closed ? 0 : 1);
    vec2 before = { 0, 0 };
    for (size_t i = 0; i < sides && count < most; i++) {
        vec2 way = vec2_unit(vec2_sub(p.points[(i + 1) % p.count], p.points[i]));
        if (i == 0 || fabs(lifting_turn(before, way)) > LEAST_TURN)
            out[count++] = p.points[i];
        before = way;
    }
    if (count < most)
        out[count++] = p.points[sides % p.count];
    return count;
}

/* The straight stretches of a line within; of a curve none. */
static void see_stretches(struct gather *g, const struct lifting_mark *mark, struct geometry_path path,
                          struct seen *out, size_t *count)
{
    vec2 turns[STRETCHES_MOST + 2];
    size_t turn_count = turns_of(path, STRETCHES_MOST + 2, turns);
    if (turn_count > STRETCHES_MOST + 1) {
        ++*g->left_out;
        return;
    }
    for (size_t i = 0; i + 1 < turn_count; i++) {
        struct seen s = { mark, { turns[i], turns[i + 1] } };
        put_in_order(&s, 2);
        if (vec2_length(vec2_sub(turns[i + 1], turns[i])) >= SHORT_MM)
            out[(*count)++] = s;
    }
}

/* All marks of a kind in a drawn size. */
static size_t see_all(struct gather *g, enum lifting_mark_kind kind, size_t points, size_t drawn, struct seen **out)
{
    const struct lifting_piece *piece = g->made->piece;
    size_t count = 0;
    *out = base_arena_alloc(g->work, STRETCHES_MOST * piece->mark_count, sizeof **out);
    for (size_t i = 0; i < piece->mark_count; i++) {
        struct geometry_path path;
        if (piece->marks[i].kind != kind || !lifting_mark_in(g->work, g->made, &piece->marks[i], drawn, &path) ||
            path.count < points)
            continue;
        if (kind == LIFTING_INNER) {
            see_stretches(g, &piece->marks[i], path, *out, &count);
            continue;
        }
        struct seen *s = &(*out)[count++];
        s->mark = &piece->marks[i];
        for (size_t k = 0; k < points; k++)
            s->points[k] = path.points[points == MOST_POINTS ? k : k * (path.count - 1)];
        put_in_order(s, points);
    }
    if (kind == LIFTING_INNER && count > INNER_MOST) {
        *g->left_out += count;
        count = 0;
    }
    return count;
}

static double apart(const struct gather *g, const struct seen *one, size_t from, const struct seen *other, size_t to,
                    size_t points)
{
    vec2 way = vec2_sub(carried(g, middle_of(one, points), from, to), middle_of(other, points));
    bool alike = one->mark->is_v == other->mark->is_v && (one->mark->apart_mm > 0) == (other->mark->apart_mm > 0);
    return vec2_length(way) + (alike ? 0 : OTHER_KIND_MM);
}

/* Gives each row its mark in the next size, the nearest pairs first; without one, the place that it would have. */
static void match_rows(struct gather *g, struct row *rows, size_t count, size_t points, size_t from, size_t to,
                       const struct seen *seen, size_t seen_count)
{
    bool *taken = base_arena_alloc(g->work, seen_count, sizeof *taken);
    for (;;) {
        double best = SAME_MARK_MM;
        size_t row = count, item = 0;
        for (size_t r = 0; r < count; r++)
            for (size_t i = 0; i < seen_count && !rows[r].found[to]; i++) {
                double now = taken[i] ? INFINITY : apart(g, &rows[r].of[from], from, &seen[i], to, points);
                if (now < best) {
                    best = now;
                    row = r;
                    item = i;
                }
            }
        if (row == count)
            break;
        rows[row].of[to] = seen[item];
        rows[row].found[to] = taken[item] = true;
    }
    for (size_t r = 0; r < count; r++)
        for (size_t k = 0; k < points && !rows[r].found[to]; k++) {
            rows[r].of[to].mark = rows[r].of[from].mark;
            rows[r].of[to].points[k] = carried(g, rows[r].of[from].points[k], from, to);
        }
    for (size_t i = 0; i < seen_count; i++)
        *g->left_out += !taken[i];
}

/* All marks of a kind, from the size that has the most of them to its neighbours and on. */
static size_t rows_of(struct gather *g, enum lifting_mark_kind kind, size_t points, struct row **out)
{
    size_t sizes = g->made->size_count, most = 0;
    struct seen **seen = base_arena_alloc(g->work, sizes, sizeof(struct seen *));
    size_t *counts = base_arena_alloc(g->work, sizes, sizeof *counts);
    for (size_t d = 0; d < sizes; d++) {
        counts[d] = see_all(g, kind, points, d, &seen[d]);
        if (counts[d] >= counts[most])
            most = d;
    }
    struct row *rows = base_arena_alloc(g->work, counts[most], sizeof *rows);
    for (size_t r = 0; r < counts[most]; r++) {
        rows[r] = (struct row){ base_arena_alloc(g->work, sizes, sizeof(struct seen)),
                                base_arena_alloc(g->a, sizes, sizeof(bool)) };
        rows[r].of[most] = seen[most][r];
        rows[r].found[most] = true;
    }
    for (size_t d = most; d-- > 0;)
        match_rows(g, rows, counts[most], points, d + 1, d, seen[d], counts[d]);
    for (size_t d = most + 1; d < sizes; d++)
        match_rows(g, rows, counts[most], points, d - 1, d, seen[d], counts[d]);
    *out = rows;
    return counts[most];
}

/* ---- Stitching lines ---- */

/* Each edge's part of the line within an outline of so many points; false when there is none. */
static bool inset_edges(struct gather *g, const struct geometry_path *drawn, struct geometry_path *out)
{
    size_t count = g->made->edge_count, most = 1, points = 0;
    for (size_t e = 0; e < count; e++)
        most += drawn[e].count;
    vec2 *all = base_arena_alloc(g->work, most, sizeof *all);
    double *dist = base_arena_alloc(g->work, most, sizeof *dist);
    size_t *first = base_arena_alloc(g->work, count + 1, sizeof *first);
    size_t *starts = base_arena_alloc(g->work, most, sizeof *starts);
    for (size_t e = 0; e < count; e++) {
        first[e] = points;
        for (size_t i = 0; i + 1 < drawn[e].count; i++) {
            all[points] = drawn[e].points[i];
            dist[points++] = (int)e == g->made->fold ? 0 : g->allowance_mm;
        }
    }
    struct geometry_path ring;
    if (!geometry_inset(g->work, (struct geometry_path){ all, points, true }, dist, &ring, starts))
        return false;
    for (size_t e = 0; e < count; e++) {
        size_t from = starts[first[e]], to = e + 1 < count ? starts[first[e + 1]] : starts[0] + ring.count;
        out[e] = (struct geometry_path){ base_arena_alloc(g->work, to + 1 - from, sizeof(vec2)), 0, false };
        for (size_t i = from; i <= to; i++)
            out[e].points[out[e].count++] = ring.points[i % ring.count];
    }
    return true;
}

/* An edge as it is written. */
static struct geometry_path written_edge(struct gather *g, size_t edge, size_t drawn)
{
    size_t count = g->made->edge_count;
    if (!g->written[drawn]) {
        g->written[drawn] = base_arena_alloc(g->work, count, sizeof(struct geometry_path));
        for (size_t e = 0; e < count; e++)
            g->written[drawn][e] = lifting_edge_path(g->work, g->made, e, drawn);
    }
    return g->written[drawn][edge];
}

/* The stitching line of an edge; where none can be drawn, the edge. */
static struct geometry_path sewn_edge(struct gather *g, size_t edge, size_t drawn)
{
    struct geometry_path written = written_edge(g, edge, drawn);
    if (!g->inset)
        return written;
    if (!g->sewn[drawn]) {
        struct geometry_path *sewn = base_arena_alloc(g->work, g->made->edge_count, sizeof *sewn);
        g->sewn[drawn] = inset_edges(g, g->written[drawn], sewn) ? sewn : g->written[drawn];
    }
    return g->sewn[drawn][edge];
}

/* ---- Kinds ---- */

static double on_outline(const struct gather *g, vec2 p, size_t drawn, double *along)
{
    return geometry_path_distance(g->made->outlines[drawn], p, along);
}

/* The edge that most sizes have it on. */
static size_t edge_of_most(struct gather *g, const struct row *row, size_t point)
{
    size_t *votes = base_arena_alloc(g->work, g->made->edge_count, sizeof *votes), best = 0;
    for (size_t d = 0; d < g->made->size_count; d++) {
        double along;
        on_outline(g, row->of[d].points[point], d, &along);
        size_t edge = lifting_edge_at(g->made, d, along);
        votes[edge] += row->found[d];
        if (votes[edge] > votes[best])
            best = edge;
    }
    return best;
}

static bool gather_notch(struct gather *g, const struct row *row, struct lifting_marked *out)
{
    size_t sizes = g->made->size_count;
    double *at = base_arena_alloc(g->a, sizes, sizeof *at), before = 0, behind = 0, share = 0.5;
    double *whole = base_arena_alloc(g->work, sizes, sizeof *whole);
    out->edge = edge_of_most(g, row, 0);
    for (size_t d = 0; d < sizes; d++) {
        struct geometry_path edge = sewn_edge(g, out->edge, d);
        whole[d] = geometry_path_length(edge);
        geometry_path_distance(edge, row->of[d].points[0], &at[d]);
        if (row->found[d] && whole[d] > 0)
            share = at[d] / whole[d];
        before += at[d];
        behind += whole[d] - at[d];
    }
    out->from_end = behind < before;
    for (size_t d = 0; d < sizes; d++) {
        double half = out->like->apart_mm / 2; /* both places of a double one stand on it */
        if (!row->found[d])
            at[d] = share * whole[d];
        if (whole[d] < fmax(2 * half, SHORT_MM)) /* the stitching line may pass an edge by */
            return false;
        at[d] = fmin(fmax(at[d], half), whole[d] - half);
        if (out->from_end)
            at[d] = whole[d] - at[d];
    }
    out->at_mm = at;
    return true;
}

static bool gather_drill(struct gather *g, const struct row *row, struct lifting_marked *out)
{
    (void)out;
    for (size_t d = 0; d < g->made->size_count; d++)
        if (!geometry_path_holds(g->made->outlines[d], row->of[d].points[0]))
            return false;
    return true;
}

/* Both legs are put onto the outline. */
static bool gather_dart(struct gather *g, const struct row *row, struct lifting_marked *out)
{
    out->edge = edge_of_most(g, row, 0);
    for (size_t d = 0; d < g->made->size_count; d++) {
        struct seen *s = &row->of[d];
        if (!geometry_path_holds(g->made->outlines[d], s->points[1]))
            return false;
        for (int leg = 0; leg < MOST_POINTS; leg += 2) {
            struct geometry_path edge = written_edge(g, out->edge, d);
            double along, off = geometry_path_distance(edge, s->points[leg], &along);
            if (off > ON_OUTLINE_MM && row->found[d])
                return false;
            s->points[leg] = geometry_path_at(edge, along, &(vec2){ 0, 0 });
        }
    }
    return (int)out->edge != g->made->fold;
}

/* The longest stretch of a line within an outline, its ends a little off that; false when there is none. */
static bool keep_within(const struct gather *g, struct geometry_path outline, vec2 ends[2])
{
    vec2 way = vec2_sub(ends[1], ends[0]), along = vec2_unit(way);
    double length = vec2_length(way), *cuts = base_arena_alloc(g->work, outline.count + 2, sizeof *cuts);
    size_t count = 0;
    cuts[count++] = 0;
    for (size_t i = 0; i < outline.count; i++) {
        vec2 p = vec2_sub(outline.points[i], ends[0]);
        vec2 q = vec2_sub(outline.points[(i + 1) % outline.count], ends[0]);
        double over = vec2_cross(along, p), under = vec2_cross(along, q);
        if ((over < 0) == (under < 0))
            continue;
        double at = vec2_dot(along, vec2_lerp(p, q, over / (over - under)));
        size_t k = count;
        if (at <= 0 || at >= length)
            continue;
        for (; k > 0 && cuts[k - 1] > at; k--)
            cuts[k] = cuts[k - 1];
        cuts[k] = at;
        count++;
    }
    cuts[count++] = length;
    double from = 0, to = 0;
    for (size_t k = 1; k < count; k++) {
        vec2 middle = vec2_add(ends[0], vec2_scale(along, (cuts[k - 1] + cuts[k]) / 2));
        if (cuts[k] - cuts[k - 1] > to - from && geometry_path_holds(outline, middle)) {
            from = cuts[k - 1];
            to = cuts[k];
        }
    }
    ends[1] = vec2_add(ends[0], vec2_scale(along, to));
    ends[0] = vec2_add(ends[0], vec2_scale(along, from));
    for (int i = 0; i < 2; i++) {
        double at;
        if (geometry_path_distance(outline, ends[i], &at) < WITHIN_MM)
            ends[i] = vec2_add(ends[i], vec2_scale(along, i ? -WITHIN_MM : WITHIN_MM));
    }
    return to - from > SHORT_MM;
}

static bool gather_line(struct gather *g, const struct row *row, struct lifting_marked *out)
{
    (void)out;
    for (size_t d = 0; d < g->made->size_count; d++)
        if (!keep_within(g, g->made->outlines[d], row->of[d].points))
            return false;
    return true;
}

/* Notches in the mouth of a dart, which is sewn away, are left out. */
static void leave_mouths(struct gather *g)
{
    size_t sizes = g->made->size_count, kept = 0;
    for (size_t i = 0; i < g->count; i++) {
        bool is_in = false;
        for (size_t j = 0; j < g->count && g->out[i].kind == LIFTING_NOTCH; j++) {
            const struct lifting_marked *dart = &g->out[j];
            for (size_t d = 0; d < sizes && dart->kind == LIFTING_DART && dart->edge == g->out[i].edge; d++) {
                double at, legs[2];
                struct geometry_path edge = written_edge(g, dart->edge, d);
                geometry_path_distance(edge, g->out[i].points[d], &at);
                geometry_path_distance(edge, dart->points[d], &legs[0]);
                geometry_path_distance(edge, dart->points[2 * sizes + d], &legs[1]);
                is_in = is_in || (at > fmin(legs[0], legs[1]) && at < fmax(legs[0], legs[1]));
            }
        }
        *g->left_out += is_in;
        if (!is_in)
            g->out[kept++] = g->out[i];
    }
    g->count = kept;
}

static bool gather_one(struct gather *g, const struct row *row, struct lifting_marked *out)
{
    switch (out->kind) {
    case LIFTING_NOTCH:
        return gather_notch(g, row, out);
    case LIFTING_DRILL:
        return gather_drill(g, row, out);
    case LIFTING_DART:
        return gather_dart(g, row, out);
    case LIFTING_LENGTHEN:
    case LIFTING_INNER:
        return gather_line(g, row, out);
    case LIFTING_GRAIN:
    case LIFTING_FOLD:
    case LIFTING_STITCH:
        break;
    }
    return false;
}

static void put_row(struct gather *g, enum lifting_mark_kind kind, size_t points, const struct row *row)
{
    size_t sizes = g->made->size_count;
    struct lifting_marked one = { .kind = kind, .like = row->of[sizes - 1].mark, .found = row->found };
    if (!gather_one(g, row, &one)) {
        ++*g->left_out;
        return;
    }
    vec2 *at = base_arena_alloc(g->a, points * sizes, sizeof *at);
    for (size_t p = 0; p < points; p++)
        for (size_t d = 0; d < sizes; d++)
            at[p * sizes + d] = row->of[d].points[p];
    one.points = at;
    g->out = base_arena_grow(g->a, g->out, &g->cap, g->count + 1, sizeof *g->out);
    g->out[g->count++] = one;
}

size_t lifting_gather_marks(struct arena *a, const struct lifting_made *made, const struct lifting_wish *wish,
                            const struct lifting_marked **out, size_t *left_out)
{
    struct gather g = { .a = a,
                        .work = base_arena_create(),
                        .made = made,
                        .inset = wish->cutting_line && wish->allowance_mm > 0,
                        .allowance_mm = wish->allowance_mm,
                        .left_out = left_out };
    g.boxes = base_arena_alloc(g.work, made->size_count, sizeof *g.boxes);
    g.sewn = base_arena_alloc(g.work, made->size_count, sizeof(struct geometry_path *));
    g.written = base_arena_alloc(g.work, made->size_count, sizeof(struct geometry_path *));
    for (size_t d = 0; d < made->size_count; d++)
        g.boxes[d] = geometry_path_box(made->outlines[d]);
    *left_out = 0;
    for (size_t k = 0; k < sizeof kind_rows / sizeof kind_rows[0]; k++) {
        struct row *rows;
        size_t count = rows_of(&g, kind_rows[k].kind, kind_rows[k].points, &rows);
        for (size_t r = 0; r < count; r++)
            put_row(&g, kind_rows[k].kind, kind_rows[k].points, &rows[r]);
    }
    leave_mouths(&g);
    base_arena_destroy(g.work);
    *out = g.out;
    return g.count;
}
