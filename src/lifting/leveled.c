#include "lifting/leveled.h"

#include "geometry/cubic.h"

#include <math.h>

#define CORNER_OFF_MM 20.0  /* a corner no higher or lower than that is meant: waist edges rise towards the side */
#define CORNER_NEAR_MM 40.0 /* a crossing so near to it needs no point of its own */
#define STEP_END_MM 1.0     /* a crossing so near to a step's end is that end */

enum { LOOKS = 32, HALVINGS = 40 };

static const struct err_kind beyond = { "chart.beyond", ERR_FAULT,
                                        BASE_TR(
                                            "runs {0} above the lowest point of piece “{1}”, which is {2} high in its "
                                            "smallest size; measure it there, along the "
                                            "grain") };

/* Where a level crosses a curve. */
struct crossing {
    size_t step;
    double t;
    int level;
};

struct finder {
    struct arena *a;
    struct lifting_made *made;
    const struct lifting_levels *of;
    vec2 up;
    double lowest, highest;
    int *corner;
    bool *is_met; /* for each level whether a point follows it */
    struct crossing *crossings;
    size_t count, cap;
};

/* ---- Heights: in the smallest size that is drawn ---- */

static double height_of(const struct finder *f, vec2 at)
{
    return vec2_dot(f->up, at) - f->lowest;
}

static void measure(struct finder *f)
{
    vec2 grain = vec2_unit(f->made->piece->grain);
    bool is_across = fabs(grain.x) > fabs(grain.y);
    f->up = (is_across ? grain.x : grain.y) < 0 ? vec2_scale(grain, -1) : grain;
    struct geometry_path outline = f->made->outlines[0];
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < outline.count; i++) {
        least = fmin(least, vec2_dot(f->up, outline.points[i]));
        most = fmax(most, vec2_dot(f->up, outline.points[i]));
    }
    f->lowest = least;
    f->highest = most - least;
}

/* A line as the cubic that runs evenly. */
static struct geometry_cubic step_of(const struct lifting_curve *curve, size_t step, size_t drawn)
{
    struct geometry_cubic c;
    for (size_t i = 0; i < 4; i++)
        c.p[i] = curve->points[(3 * step + i) * curve->size_count + drawn];
    for (size_t i = 1; i < 3 && curve->is_line[step]; i++)
        c.p[i] = vec2_lerp(c.p[0], c.p[3], (double)i / 3);
    return c;
}

/* ---- Corners ---- */

static bool is_within_fold(const struct finder *f, size_t corner)
{
    if (f->made->fold == LIFTING_NONE)
        return false;
    const struct lifting_made_edge *fold = &f->made->edges[f->made->fold];
    size_t n = f->made->match.corner_count, on = (corner + n - fold->first) % n;
    return on > 0 && on < fold->spans;
}

static bool is_fold(const struct finder *f, size_t corner)
{
    return f->made->fold != LIFTING_NONE &&
           (corner == f->made->edges[f->made->fold].first || is_within_fold(f, corner));
}

static void meet_corner(struct finder *f, size_t corner)
{
    double height = height_of(f, f->made->curves[corner].points[0]), least = CORNER_OFF_MM;
    for (size_t i = 0; i < f->of->count && !is_within_fold(f, corner); i++) {
        double off = fabs(height - f->of->levels[i].mm);
        if (off > least)
            continue;
        least = off;
        f->corner[corner] = (int)i;
    }
    if (f->corner[corner] != LIFTING_NONE)
        f->is_met[f->corner[corner]] = true;
}

static bool is_at_corner(const struct finder *f, vec2 at, int level)
{
    for (size_t c = 0; c < f->made->match.corner_count; c++)
        if (f->corner[c] == level && vec2_length(vec2_sub(f->made->curves[c].points[0], at)) <= CORNER_NEAR_MM)
            return true;
    return false;
}

/* Above the highest level and below the lowest nothing changes any more. The fold, which has no points within, would
 * else carry the waist's size down to the hem. */
static void follow_beyond(struct finder *f, size_t corner)
{
    double height = height_of(f, f->made->curves[corner].points[0]);
    size_t low = 0, high = 0;
    for (size_t i = 1; i < f->of->count; i++) {
        low = f->of->levels[i].mm < f->of->levels[low].mm ? i : low;
        high = f->of->levels[i].mm > f->of->levels[high].mm ? i : high;
    }
    if (f->corner[corner] != LIFTING_NONE)
        return;
    if (height < f->of->levels[low].mm)
        f->corner[corner] = (int)low;
    else if (height > f->of->levels[high].mm)
        f->corner[corner] = (int)high;
}

/* ---- Crossings ---- */

static bool is_above(const struct finder *f, struct geometry_cubic c, double t, int level)
{
    return height_of(f, geometry_cubic_at(c, t)) >= f->of->levels[level].mm;
}

static double cross_between(const struct finder *f, struct geometry_cubic c, double from, double to, int level)
{
    bool above = is_above(f, c, from, level);
    for (int i = 0; i < HALVINGS; i++) {
        double middle = (from + to) / 2;
        if (is_above(f, c, middle, level) == above)
            from = middle;
        else
            to = middle;
    }
    return (from + to) / 2;
}

/* In their order along the curve. */
static void add_crossing(struct finder *f, struct crossing crossing)
{
    f->crossings = base_arena_grow(f->a, f->crossings, &f->cap, f->count + 1, sizeof *f->crossings);
    size_t i = f->count++;
    for (; i > 0 && f->crossings[i - 1].step == crossing.step && f->crossings[i - 1].t > crossing.t; i--)
        f->crossings[i] = f->crossings[i - 1];
    f->crossings[i] = crossing;
}

/* A step's end that is no corner follows a level that passes it; else the step is to be parted. */
static void meet_crossing(struct finder *f, const struct lifting_curve *curve, int *ends, struct crossing crossing)
{
    struct geometry_cubic c = step_of(curve, crossing.step, 0);
    vec2 at = geometry_cubic_at(c, crossing.t);
    if (is_at_corner(f, at, crossing.level))
        return;
    f->is_met[crossing.level] = true;
    if (crossing.step > 0 && vec2_length(vec2_sub(c.p[0], at)) < STEP_END_MM)
        ends[crossing.step - 1] = crossing.level;
    else if (crossing.step + 1 < curve->step_count && vec2_length(vec2_sub(c.p[3], at)) < STEP_END_MM)
        ends[crossing.step] = crossing.level;
    else
        add_crossing(f, crossing);
}

static void cross_step(struct finder *f, const struct lifting_curve *curve, int *ends, size_t step)
{
    struct geometry_cubic c = step_of(curve, step, 0);
    int looks = curve->is_line[step] ? 1 : LOOKS;
    for (int level = 0; level < (int)f->of->count; level++)
        for (int i = 0; i < looks; i++) {
            double from = (double)i / looks, to = (double)(i + 1) / looks;
            if (is_above(f, c, from, level) == is_above(f, c, to, level))
                continue;
            double t = cross_between(f, c, from, to, level);
            meet_crossing(f, curve, ends, (struct crossing){ step, t, level });
        }
}

/* ---- Parting ---- */

/* De Casteljau's construction: what is before `t` is written, what is behind stays. */
static void part_off(struct geometry_cubic *c, double t, vec2 *points, size_t every)
{
    vec2 a = vec2_lerp(c->p[0], c->p[1], t), b = vec2_lerp(c->p[1], c->p[2], t), d = vec2_lerp(c->p[2], c->p[3], t);
    vec2 ab = vec2_lerp(a, b, t), bd = vec2_lerp(b, d, t), at = vec2_lerp(ab, bd, t);
    points[0] = a;
    points[every] = ab;
    points[2 * every] = at;
    *c = (struct geometry_cubic){ { at, bd, d, c->p[3] } };
}

/* The points of one size, at `points` and `curve->size_count` apart. */
static void part_size(const struct finder *f, const struct lifting_curve *curve, size_t drawn, vec2 *points)
{
    size_t every = curve->size_count, next = 0;
    *points = curve->points[drawn];
    points += every;
    for (size_t s = 0; s < curve->step_count; s++) {
        struct geometry_cubic c = step_of(curve, s, drawn);
        double from = 0;
        for (; next < f->count && f->crossings[next].step == s; next++, points += 3 * every) {
            part_off(&c, (f->crossings[next].t - from) / (1 - from), points, every);
            from = f->crossings[next].t;
        }
        for (size_t i = 1; i < 4; i++, points += every)
            *points = c.p[i];
    }
}

static struct lifting_curve part(const struct finder *f, const struct lifting_curve *curve)
{
    size_t steps = curve->step_count + f->count, sizes = curve->size_count, k = 0, next = 0;
    bool *is_line = base_arena_alloc(f->a, steps, sizeof *is_line);
    vec2 *points = base_arena_alloc(f->a, (3 * steps + 1) * sizes, sizeof *points);
    for (size_t s = 0; s < curve->step_count; s++) {
        is_line[k++] = curve->is_line[s];
        for (; next < f->count && f->crossings[next].step == s; next++)
            is_line[k++] = curve->is_line[s];
    }
    for (size_t d = 0; d < sizes; d++)
        part_size(f, curve, d, points + d);
    return (struct lifting_curve){ steps, sizes, is_line, points };
}

static const int *ends_of(const struct finder *f, size_t steps, const int *ends)
{
    int *after = base_arena_alloc(f->a, steps + f->count, sizeof *after);
    size_t k = 0, next = 0;
    for (size_t s = 0; s < steps; s++) {
        for (; next < f->count && f->crossings[next].step == s; next++)
            after[k++] = f->crossings[next].level;
        after[k++] = ends[s];
    }
    return after;
}

/* The curve behind a corner, parted; and which of its steps' ends follow a level. */
static const int *cross_curve(struct finder *f, size_t corner, struct lifting_curve *curve)
{
    size_t steps = curve->step_count;
    int *ends = base_arena_alloc(f->a, steps, sizeof *ends);
    for (size_t s = 0; s < steps; s++)
        ends[s] = LIFTING_NONE;
    f->count = 0;
    for (size_t s = 0; s < steps && !is_fold(f, corner); s++)
        cross_step(f, curve, ends, s);
    const int *after = ends_of(f, steps, ends);
    if (f->count)
        *curve = part(f, curve);
    return after;
}

bool lifting_find_leveled(struct arena *a, struct lifting_made *made, const struct lifting_levels *levels,
                          struct lifting_leveled *out, struct err_list *errs)
{
    static const struct lifting_levels none = { 0 };
    size_t n = made->match.corner_count;
    struct finder f = { .a = a, .made = made, .of = levels ? levels : &none };
    struct lifting_curve *curves = base_arena_alloc(a, n, sizeof *curves);
    const int **after = base_arena_alloc(a, n, sizeof(const int *));
    int before = errs->faults;
    f.corner = base_arena_alloc(a, n, sizeof *f.corner);
    f.is_met = base_arena_alloc(a, f.of->count, sizeof *f.is_met);
    measure(&f);
    for (size_t c = 0; c < n; c++) {
        f.corner[c] = LIFTING_NONE;
        meet_corner(&f, c);
    }
    for (size_t c = 0; c < n; c++) {
        curves[c] = made->curves[c];
        after[c] = cross_curve(&f, c, &curves[c]);
    }
    for (size_t c = 0; c < n && f.of->count; c++)
        follow_beyond(&f, c);
    made->curves = curves;
    *out = (struct lifting_leveled){ f.corner, after };
    for (size_t i = 0; i < f.of->count; i++)
        if (!f.is_met[i])
            base_err(errs, &beyond, f.of->levels[i].place, ERR_MM(f.of->levels[i].mm), ERR_TEXT(f.of->piece),
                     ERR_MM(f.highest));
    return errs->faults == before;
}
