#include "draft/sizer.h"

#include "draft/outline.h"
#include "units/length.h"

#include <assert.h>
#include <string.h>

#define SAME_POINT_MM 1e-6

enum { RECTANGLE_CORNERS = 4, MOST_NAMED = 12 }; /* of a circle's steps, in a sentence */

static const struct err_kind cycle = { "draft.cycle", ERR_FAULT,
                                       BASE_TR("“{0}” rests on itself: {1}; break the circle") };
static const struct err_kind too_deep = {
    "draft.too_deep", ERR_FAULT, BASE_TR("“{0}” rests on more than {1} others in a row; build it up in fewer steps")
};

static const struct err_kind too_much = {
    "draft.too_much", ERR_FAULT,
    BASE_TR("the edges of all pieces together are too long and winding to be worked out in "
            "size {1}, which showed at “{0}”; draw them with fewer curves")
};

static bool is_same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* A rectangle's corners share its formulas, and so may count and edge: each is told once. */
static bool is_told(const struct sizer *z, const struct err_kind *kind, struct err_place place, const char *name)
{
    for (int i = 0; i < z->errs->count; i++) {
        const struct err *e = &z->errs->items[i];
        if (e->kind == kind && e->place.line == place.line && is_same_text(e->place.path, place.path) &&
            is_same_text(e->args[0].text, name))
            return true;
    }
    return false;
}

bool sizer_refuse(const struct sizer *z, const struct err_kind *kind, struct err_place place, const char *name,
                  struct err_arg part)
{
    if (!is_told(z, kind, place, name))
        base_err(z->errs, kind, place, ERR_TEXT(name),
                 ERR_TEXT(pattern_size_shown(z->errs->arena, z->pattern, z->figure.position)), part);
    return false;
}

bool sizer_spend(struct sizer *z, size_t count, struct err_place place, const char *name)
{
    if (z->spent > SIZER_MOST)
        return false; /* told already */
    z->spent += count;
    return z->spent <= SIZER_MOST || sizer_refuse(z, &too_much, place, name, ERR_NONE);
}

const struct pattern_named *sizer_named(const struct sizer *z, struct pattern_ref ref)
{
    return ref.piece == PATTERN_NONE ? &z->pattern->values[ref.index]
                                     : &z->pattern->pieces[ref.piece].values[ref.index];
}

bool sizer_is_near(vec2 at)
{
    return fabs(at.x) <= UNITS_FARTHEST_MM && fabs(at.y) <= UNITS_FARTHEST_MM;
}

static const char *step_name(const struct sizer *z, struct sizer_step step)
{
    if (step.ref.piece == PATTERN_NONE)
        return sizer_named(z, step.ref)->name;
    const struct pattern_piece *piece = &z->pattern->pieces[step.ref.piece];
    const char *part = step.kind == SIZER_POINT  ? piece->points[step.ref.index].name
                       : step.kind == SIZER_EDGE ? piece->edges[step.ref.index].name
                                                 : piece->values[step.ref.index].name;
    return base_arena_print(z->errs->arena, "%s.%s", piece->name, part);
}

static struct err_place step_place(const struct sizer *z, struct sizer_step step)
{
    if (step.kind == SIZER_NAMED)
        return sizer_named(z, step.ref)->place;
    const struct pattern_piece *piece = &z->pattern->pieces[step.ref.piece];
    return step.kind == SIZER_POINT ? piece->points[step.ref.index].place : piece->edges[step.ref.index].place;
}

static bool is_same_step(struct sizer_step a, struct sizer_step b)
{
    return a.kind == b.kind && a.ref.piece == b.ref.piece && a.ref.index == b.ref.index;
}

/* A rectangle's corners, which no one has written. */
static bool is_invented(const struct sizer *z, struct sizer_step step)
{
    return step.kind == SIZER_POINT && z->pattern->pieces[step.ref.piece].is_rectangle &&
           step.ref.index < RECTANGLE_CORNERS;
}

/* The circle's steps are the trail's from `first` on; `closing` is the first again, as the last one asks for it. */
struct circle {
    const struct sizer *z;
    size_t first;
    struct sizer_step closing;
};

static size_t circle_count(const struct circle *c)
{
    return c->z->depth - c->first;
}

static struct sizer_step circle_step(const struct circle *c, size_t i)
{
    size_t at = i % circle_count(c);
    return at ? c->z->trail[c->first + at] : c->closing;
}

/* Where a person can break it: at the first formula on the way on from a step, else where that step stands. */
static struct err_place circle_place(const struct circle *c, size_t from)
{
    for (size_t i = 1; i <= circle_count(c); i++)
        if (circle_step(c, from + i).asked_by)
            return circle_step(c, from + i).asked_by->place;
    return step_place(c->z, circle_step(c, from));
}

/* All of it by name, or, where it is long, how it begins and ends. */
static const char *circle_text(const struct circle *c, size_t from)
{
    const struct sizer *z = c->z;
    const char *name = step_name(z, circle_step(c, from)), *way = name;
    size_t count = circle_count(c);
    for (size_t i = 1; i < count; i++) {
        if (count > MOST_NAMED && i == MOST_NAMED / 2) {
            i = count - MOST_NAMED / 2;
            way = base_arena_print(z->errs->arena, "%s → …", way);
        }
        if (!is_invented(z, circle_step(c, from + i)))
            way = base_arena_print(z->errs->arena, "%s → %s", way, step_name(z, circle_step(c, from + i)));
    }
    return base_arena_print(z->errs->arena, "%s → %s", way, name);
}

static void tell_cycle(const struct sizer *z, struct sizer_step step)
{
    struct circle c = { z, z->depth - 1, step };
    while (c.first > 0 && !is_same_step(z->trail[c.first], step))
        c.first--;
    size_t from = 0;
    while (from + 1 < circle_count(&c) && is_invented(z, circle_step(&c, from)))
        from++;
    base_err(z->errs, &cycle, circle_place(&c, from), ERR_TEXT(step_name(z, circle_step(&c, from))),
             ERR_TEXT(circle_text(&c, from)));
}

bool sizer_enter(struct sizer *z, enum sizer_state *state, enum sizer_kind kind, struct pattern_ref ref)
{
    struct sizer_step step = { kind, ref, z->formula };
    if (*state == SIZER_FAILED)
        return false; /* told already */
    if (*state == SIZER_BUSY) {
        tell_cycle(z, step);
        return false;
    }
    if (z->depth == SIZER_DEEPEST) {
        base_err(z->errs, &too_deep, step_place(z, step), ERR_TEXT(step_name(z, step)), ERR_NUMBER(SIZER_DEEPEST));
        return false;
    }
    *state = SIZER_BUSY;
    z->trail[z->depth++] = step;
    z->formula = NULL;
    return true;
}

void sizer_leave(struct sizer *z)
{
    assert(z->depth > 0);
    z->formula = z->trail[--z->depth].asked_by;
}

double sizer_position_of(const struct sizer *z, struct pattern_ref point)
{
    const double *positions = z->pieces[point.piece].position;
    return positions ? positions[point.index] : z->figure.position;
}

enum sizer_view sizer_view_of(const struct sizer *z, int piece)
{
    int home = z->depth ? z->trail[z->depth - 1].ref.piece : z->home;
    return z->figure.alteration_count && home != piece ? SIZER_ALTERED : SIZER_WRITTEN;
}

static bool build_point(struct sizer *z, struct pattern_ref ref, enum sizer_view view, vec2 *at)
{
    if (view == SIZER_ALTERED)
        return sizer_alter_point(z, ref, at);
    return sizer_build_point(z, &z->pattern->pieces[ref.piece].points[ref.index], sizer_position_of(z, ref), at);
}

const vec2 *sizer_point_at(struct sizer *z, struct pattern_ref ref)
{
    enum sizer_view view = sizer_view_of(z, ref.piece);
    struct sizer_point *point = &z->pieces[ref.piece].points[view][ref.index];
    if (point->state == SIZER_DONE)
        return &point->at;
    if (!sizer_enter(z, &point->state, SIZER_POINT, ref))
        return NULL;
    bool ok = build_point(z, ref, view, &point->at);
    point->state = ok ? SIZER_DONE : SIZER_FAILED;
    sizer_leave(z);
    return ok ? &point->at : NULL;
}

static void flat_to(struct geometry_path *flat, vec2 p)
{
    if (!draft_is_same_point(p, flat->points[flat->count - 1]))
        flat->points[flat->count++] = p;
}

static bool is_same(vec2 a, vec2 b)
{
    return a.x == b.x && a.y == b.y;
}

bool sizer_is_straight(struct geometry_cubic c)
{
    return is_same(c.p[0], c.p[1]) && is_same(c.p[2], c.p[3]);
}

static size_t steps_of(struct geometry_cubic c)
{
    return sizer_is_straight(c) ? 1 : geometry_cubic_steps(c, DRAFT_FLATTEN_MM);
}

static size_t most_points(struct sizer_curve curve)
{
    size_t most = 1;
    for (size_t i = 0; i < curve.count; i++)
        most += steps_of(curve.parts[i]);
    return most;
}

/* False when it was told that this is more than may be worked out. */
static bool flatten(struct sizer *z, const struct pattern_edge *written, vec2 start, struct sizer_edge *edge)
{
    struct sizer_curve curve = edge->curve;
    size_t most = most_points(curve);
    if (!sizer_spend(z, SIZER_MADE * most, written->place, written->name))
        return false;
    struct geometry_path flat = { base_arena_alloc(z->a, most, sizeof(vec2)), 0, false };
    flat.points[flat.count++] = start;
    for (size_t i = 0; i < curve.count; i++) {
        struct geometry_cubic c = curve.parts[i];
        size_t steps = steps_of(c);
        for (size_t k = 1; k < steps; k++)
            flat_to(&flat, geometry_cubic_at(c, (double)k / (double)steps));
        flat_to(&flat, c.p[3]);
    }
    edge->path = flat;
    edge->length_mm = geometry_path_length(flat);
    return true;
}

vec2 sizer_direction(struct sizer_curve curve, struct geometry_path path, double along)
{
    vec2 unit, from = geometry_path_at(path, 0, &unit);
    double before = 0;
    for (size_t i = 0; i < curve.count; i++) {
        struct geometry_cubic c = curve.parts[i];
        size_t steps = steps_of(c);
        for (size_t k = 1; k <= steps; k++) {
            vec2 to = geometry_cubic_at(c, (double)k / (double)steps), chord = vec2_sub(to, from);
            double length = vec2_length(chord), on = length > SAME_POINT_MM ? (along - before) / length : 1;
            vec2 own = geometry_cubic_direction(c, ((double)(k - 1) + fmin(1, fmax(0, on))) / (double)steps);
            if (length > SAME_POINT_MM)
                unit = sizer_is_straight(c) || vec2_length(own) == 0 ? vec2_unit(chord) : own;
            if (on < 1)
                return unit;
            before += length;
            from = to;
        }
    }
    return unit;
}

static bool build_edge(struct sizer *z, struct pattern_ref ref, enum sizer_view view, struct sizer_curve *out)
{
    const struct pattern_edge *edge = &z->pattern->pieces[ref.piece].edges[ref.index];
    if (view == SIZER_WRITTEN)
        return sizer_build_edge(z, ref.piece, edge, out);
    const struct sizer_edge *written = sizer_edge_of(z, ref);
    return written && sizer_alter_edge(z, ref, &written->curve, out);
}

const struct sizer_edge *sizer_edge_of(struct sizer *z, struct pattern_ref ref)
{
    enum sizer_view view = sizer_view_of(z, ref.piece);
    struct sizer_edge *edge = &z->pieces[ref.piece].edges[view][ref.index];
    const struct pattern_edge *written = &z->pattern->pieces[ref.piece].edges[ref.index];
    struct pattern_ref start = { ref.piece, written->start };
    if (edge->state == SIZER_DONE)
        return edge;
    /* Within the edge its piece's points are seen as they are written. */
    const vec2 *from = view == SIZER_ALTERED ? sizer_point_at(z, start) : NULL;
    if ((view == SIZER_ALTERED && !from) || !sizer_enter(z, &edge->state, SIZER_EDGE, ref))
        return NULL;
    if (view == SIZER_WRITTEN)
        from = sizer_point_at(z, start);
    bool ok = from && build_edge(z, ref, view, &edge->curve) && flatten(z, written, *from, edge);
    edge->state = ok ? SIZER_DONE : SIZER_FAILED;
    sizer_leave(z);
    return ok ? edge : NULL;
}
