/* The steps of an edge as cubics, end to start. */
#include "draft/sizer.h"
#include "geometry/turn.h"

#define ARC_DEG 15.0 /* an arc's cubics span this much at most: within 6e-9 of the radius */
#define SAME_MM 1e-9
#define MOST_TURNS_DEG 3600.0

static const struct err_kind no_radius = { "draft.no_radius", ERR_FAULT,
                                           BASE_TR("the arc that ends at “{0}” begins at its own centre in size {1}") };
static const struct err_kind far_turn = {
    "draft.far_turn", ERR_FAULT, BASE_TR("the arc that ends at “{0}” turns by more than ten whole turns in size {1}")
};
static const struct err_kind nothing_along = {
    "draft.nothing_along", ERR_FAULT, BASE_TR("the edge that the way to “{0}” runs along has no length in size {1}")
};

static const struct err_kind far_curve = {
    "draft.far_curve", ERR_FAULT,
    BASE_TR("edge “{0}” swings more than 100 m from the origin in size {1}; check the "
            "points and angles of its curves")
};

/* An edge under construction. */
struct tracing {
    struct sizer *z;
    int piece;
    struct geometry_cubic *parts;
    int *ends;
    size_t count, cap, end_cap;
    vec2 at; /* how far it has come */
};

static void add(struct tracing *t, vec2 leave, vec2 arrive, vec2 end)
{
    t->parts = base_arena_grow(t->z->a, t->parts, &t->cap, t->count + 1, sizeof *t->parts);
    t->ends = base_arena_grow(t->z->a, t->ends, &t->end_cap, t->count + 1, sizeof *t->ends);
    t->ends[t->count] = PATTERN_NONE;
    t->parts[t->count++] = (struct geometry_cubic){ { t->at, leave, arrive, end } };
    t->at = end;
}

/* What was added last ends at a point of the piece. */
static void end_at(struct tracing *t, int point)
{
    if (t->count)
        t->ends[t->count - 1] = point;
}

static void add_line(struct tracing *t, vec2 end)
{
    add(t, t->at, end, end);
}

static const vec2 *point_of(const struct tracing *t, int point)
{
    return sizer_point_at(t->z, (struct pattern_ref){ t->piece, point });
}

static const struct pattern_point *written(const struct tracing *t, int point)
{
    return &t->z->pattern->pieces[t->piece].points[point];
}

static bool reckon(const struct tracing *t, const struct pattern_value *value, int point, double *out)
{
    double position = sizer_position_of(t->z, (struct pattern_ref){ t->piece, point });
    return sizer_reckon(t->z, value, position, out);
}

static bool refuse(const struct tracing *t, const struct err_kind *kind, const struct pattern_step *step)
{
    return sizer_refuse(t->z, kind, step->place, written(t, step->end)->name, ERR_NONE);
}

static bool trace_line(struct tracing *t, const struct pattern_step *step)
{
    const vec2 *end = point_of(t, step->end);
    if (end)
        add_line(t, *end);
    return end != NULL;
}

static bool trace_cubic(struct tracing *t, const struct pattern_step *step)
{
    const vec2 *leave = point_of(t, step->control[0]), *arrive = leave ? point_of(t, step->control[1]) : NULL;
    const vec2 *end = arrive ? point_of(t, step->end) : NULL;
    if (end)
        add(t, *leave, *arrive, *end);
    return end != NULL;
}

static vec2 unit_at(double degrees)
{
    vec2 unit;
    geometry_sincos(degrees, &unit.y, &unit.x);
    return unit;
}

static bool trace_tangents(struct tracing *t, const struct pattern_step *step)
{
    double leave, arrive, pull[2] = { 1.0 / 3, 1.0 / 3 };
    const vec2 *end = point_of(t, step->end);
    if (!end || !reckon(t, &step->leave, step->end, &leave) || !reckon(t, &step->arrive, step->end, &arrive))
        return false;
    for (int i = 0; i < 2; i++)
        if (pattern_value_is_given(step->pull[i]) && !reckon(t, &step->pull[i], step->end, &pull[i]))
            return false;
    double way = vec2_length(vec2_sub(*end, t->at));
    add(t, vec2_add(t->at, vec2_scale(unit_at(leave), pull[0] * way)),
        vec2_sub(*end, vec2_scale(unit_at(arrive), pull[1] * way)), *end);
    return true;
}

/* Handles of 4/3 tan(a/4) times the radius keep a cubic on its arc of angle a (Goldapp 1991 has the error). */
static void add_arc(struct tracing *t, vec2 centre, double degrees, vec2 end)
{
    int count = (int)ceil(fabs(degrees) / ARC_DEG);
    double sine, cosine;
    geometry_sincos(degrees / count / 4, &sine, &cosine);
    double handle = 4.0 / 3 * sine / cosine;
    vec2 first = vec2_sub(t->at, centre);
    for (int i = 1; i <= count; i++) {
        struct geometry_mover turn = geometry_mover_of((struct geometry_motion){ .turn_deg = degrees * i / count });
        vec2 from = vec2_sub(t->at, centre), to = i < count ? geometry_move(&turn, first) : vec2_sub(end, centre);
        vec2 leave = vec2_sub(from, vec2_scale(vec2_right(from), handle));
        vec2 arrive = vec2_add(to, vec2_scale(vec2_right(to), handle));
        add(t, vec2_add(centre, leave), vec2_add(centre, arrive), vec2_add(centre, to));
    }
}

static bool trace_arc(struct tracing *t, const struct pattern_step *step)
{
    double degrees;
    const vec2 *centre = point_of(t, step->centre), *end = centre ? point_of(t, step->end) : NULL;
    if (!end || !reckon(t, &step->angle, step->end, &degrees))
        return false;
    if (vec2_length(vec2_sub(t->at, *centre)) < SAME_MM)
        return refuse(t, &no_radius, step);
    if (fabs(degrees) > MOST_TURNS_DEG)
        return refuse(t, &far_turn, step);
    if (degrees != 0)
        add_arc(t, *centre, degrees, *end);
    return true;
}

/* A spline through `count` places; its speeds are wanted there. */
struct spline {
    const vec2 *at;
    size_t count;
    const double *step_mm; /* straight distance from each to the next, above zero */
    vec2 *speed;           /* per mm of that distance */
};

/* The cubic spline with continuous curvature whose parameter is the straight distance between the places: solves its
 * tridiagonal equations for the speeds (Thomas' elimination). An end without a direction is left uncurved. */
static void solve_spline(struct arena *a, const struct spline *s, const vec2 *leave, const vec2 *arrive)
{
    size_t last = s->count - 1;
    double *above = base_arena_alloc(a, s->count, sizeof *above);
    for (size_t i = 0; i <= last; i++) {
        double before = i ? s->step_mm[i - 1] : 0, after = i < last ? s->step_mm[i] : 0;
        vec2 in = i ? vec2_scale(vec2_sub(s->at[i], s->at[i - 1]), 1 / before) : (vec2){ 0, 0 };
        vec2 out = i < last ? vec2_scale(vec2_sub(s->at[i + 1], s->at[i]), 1 / after) : (vec2){ 0, 0 };
        double left = i ? after : 0, middle = 2 * (before + after), right = before;
        vec2 sum = vec2_scale(vec2_add(vec2_scale(in, after), vec2_scale(out, before)), 3);
        if (i == 0) {
            middle = leave ? 1 : 2, right = leave ? 0 : 1;
            sum = leave ? *leave : vec2_scale(out, 3);
        } else if (i == last) {
            left = arrive ? 0 : 1, middle = arrive ? 1 : 2;
            sum = arrive ? *arrive : vec2_scale(in, 3);
        }
        double pivot = middle - (i ? left * above[i - 1] : 0);
        above[i] = right / pivot;
        s->speed[i] = vec2_scale(i ? vec2_sub(sum, vec2_scale(s->speed[i - 1], left)) : sum, 1 / pivot);
    }
    for (size_t i = last; i-- > 0;)
        s->speed[i] = vec2_sub(s->speed[i], vec2_scale(s->speed[i + 1], above[i]));
}

static bool maybe_direction(const struct tracing *t, const struct pattern_value *value, int point, vec2 *unit,
                            const vec2 **out)
{
    double degrees;
    *out = NULL;
    if (!pattern_value_is_given(*value))
        return true;
    if (!reckon(t, value, point, &degrees))
        return false;
    *unit = unit_at(degrees);
    *out = unit;
    return true;
}

static bool trace_through(struct tracing *t, const struct pattern_step *step)
{
    struct arena *a = t->z->a;
    vec2 *at = base_arena_alloc(a, step->through_count + 1, sizeof *at), first, final;
    double *step_mm = base_arena_alloc(a, step->through_count + 1, sizeof *step_mm);
    int *points = base_arena_alloc(a, step->through_count, sizeof *points);
    size_t count = 1;
    const vec2 *leave, *arrive;
    at[0] = t->at;
    for (size_t i = 0; i < step->through_count; i++) {
        const vec2 *place = point_of(t, step->through[i]);
        if (!place)
            return false;
        double way = vec2_length(vec2_sub(*place, at[count - 1]));
        if (way < SAME_MM)
            continue;
        step_mm[count - 1] = way;
        points[count - 1] = step->through[i];
        at[count++] = *place;
    }
    if (!maybe_direction(t, &step->leave, step->through[0], &first, &leave) ||
        !maybe_direction(t, &step->arrive, step->end, &final, &arrive))
        return false;
    if (count < 2)
        return true;
    struct spline s = { at, count, step_mm, base_arena_alloc(a, count, sizeof(vec2)) };
    solve_spline(a, &s, leave, arrive);
    for (size_t i = 0; i + 1 < count; i++) {
        add(t, vec2_add(at[i], vec2_scale(s.speed[i], step_mm[i] / 3)),
            vec2_sub(at[i + 1], vec2_scale(s.speed[i + 1], step_mm[i] / 3)), at[i + 1]);
        end_at(t, points[i]);
    }
    return true;
}

/* Along the path from the place nearest to where the edge has come to the place nearest to its end. */
static void follow(struct tracing *t, struct geometry_path path, vec2 end)
{
    double from, to, before = 0;
    vec2 ahead;
    geometry_path_distance(path, t->at, &from);
    geometry_path_distance(path, end, &to);
    add_line(t, geometry_path_at(path, from, &ahead));
    for (size_t i = 1; i + 1 < path.count; i++) {
        before += vec2_length(vec2_sub(path.points[i], path.points[i - 1]));
        if (before > from && before < to)
            add_line(t, path.points[i]);
    }
    add_line(t, geometry_path_at(path, to, &ahead));
    add_line(t, end);
}

static bool trace_along(struct tracing *t, const struct pattern_step *step)
{
    double beside;
    const struct sizer_edge *edge = sizer_edge_of(t->z, step->along);
    const vec2 *end = edge ? point_of(t, step->end) : NULL;
    if (!end || !reckon(t, &step->beside, step->end, &beside))
        return false;
    if (edge->path.count < 2)
        return refuse(t, &nothing_along, step);
    if (!sizer_spend(t->z, SIZER_MADE * edge->path.count, step->place, written(t, step->end)->name))
        return false;
    struct geometry_path path =
        beside == 0 ? geometry_path_copy(t->z->a, edge->path) : geometry_path_beside(t->z->a, edge->path, beside);
    if (step->backwards)
        geometry_path_reverse(path);
    follow(t, path, *end);
    return true;
}

static bool (*const trace_rows[])(struct tracing *, const struct pattern_step *) = {
    [PATTERN_STEP_LINE] = trace_line, [PATTERN_STEP_CUBIC] = trace_cubic,     [PATTERN_STEP_TANGENTS] = trace_tangents,
    [PATTERN_STEP_ARC] = trace_arc,   [PATTERN_STEP_THROUGH] = trace_through, [PATTERN_STEP_ALONG] = trace_along,
};

/* A cubic lies within the hull of its four points. */
static bool is_near(const struct tracing *t)
{
    bool near = true;
    for (size_t i = 0; i < t->count; i++)
        for (int k = 0; k < 4; k++)
            near = near && sizer_is_near(t->parts[i].p[k]);
    return near;
}

bool sizer_build_edge(struct sizer *z, int piece, const struct pattern_edge *edge, struct sizer_curve *out)
{
    struct tracing t = { .z = z, .piece = piece };
    const vec2 *start = point_of(&t, edge->start);
    if (!start)
        return false;
    t.at = *start;
    for (size_t s = 0; s < edge->step_count; s++) {
        if (!trace_rows[edge->steps[s].kind](&t, &edge->steps[s]))
            return false;
        end_at(&t, edge->steps[s].end);
    }
    if (!is_near(&t))
        return sizer_refuse(z, &far_curve, edge->place, edge->name, ERR_NONE);
    *out = (struct sizer_curve){ t.parts, t.ends, t.count };
    return true;
}
