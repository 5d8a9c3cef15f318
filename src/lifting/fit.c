/* A cubic is fitted to points by least squares with its ends held, its points' places on it then bettered by Newton's
 * step, after an idea of Schneider's ("An Algorithm for Automatically Fitting Digitized Curves", Graphics Gems, 1990).
 * Here both controls are free, since drawn chords tell no tangent well, and are bettered by distances square to the
 * curve, which comes to an end in a few rounds. A step counts only when it fits every size; else all are parted at one
 * share of their length. */
#include "lifting/fit.h"

#include "geometry/cubic.h"
#include "lifting/corners.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

#define NEAR_MM (LIFTING_FIT_MM - 0.003) /* leaves room for rounding, and for chords that are flattened to 0.002 */
#define SHORT_MM 0.02                    /* what is shorter is a line */
#define COARSE_MM 0.004                  /* chords that a curve lies so far beyond are parted at their ends */
#define SAME_MM 1e-9
#define HOPELESS 100.0 /* times too far off: nothing betters that */
#define HOLD 1e-6      /* keeps controls where the points do not tell where they belong */

enum {
    SAMPLES = 40, /* points that a cubic is fitted to; all are looked at when it is */
    ROUNDS = 6,   /* of better places */
    DEEPEST = 14, /* halvings: 1/16000 of an edge */
    FEW_STEPS = 8 /* of a short edge */
};

#define STEP_MM 20.0 /* a longer one has a step more for so many */

/* What takes more steps than that was drawn with points that tremble, rounded by whoever saved it: one step then may
 * stray so many times as far; at last as far as it must. */
static const double patience[] = { 1, 2.5, 6, 15 };
enum { PATIENCE = sizeof patience / sizeof patience[0] };

/* ---- Runs ---- */

const double *lifting_along(struct arena *a, struct geometry_path outline)
{
    double *along = base_arena_alloc(a, outline.count + 1, sizeof *along);
    for (size_t i = 0; i < outline.count; i++)
        along[i + 1] = along[i] + vec2_length(vec2_sub(outline.points[(i + 1) % outline.count], outline.points[i]));
    return along;
}

/* A run under construction. */
struct trace {
    vec2 *points;
    double *along_mm, *number;
    size_t count;
};

static void trace_to(struct trace *t, vec2 p, double number)
{
    double on = t->count ? vec2_length(vec2_sub(p, t->points[t->count - 1])) : 0;
    if (t->count && !(on > SAME_MM))
        return;
    t->points[t->count] = p;
    t->along_mm[t->count] = t->count ? t->along_mm[t->count - 1] + on : 0;
    t->number[t->count++] = number;
}

/* The last point that does not lie past a place; `along` has one more. */
static size_t point_before(const double *along, size_t count, double mm)
{
    size_t low = 0, high = count - 1;
    while (low < high) {
        size_t middle = (low + high + 1) / 2;
        if (along[middle] <= mm)
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

/* A place on the outline, `around` the times that it has been gone around. */
static void trace_place(struct trace *t, struct geometry_path p, const double *along, double mm, size_t around)
{
    size_t i = point_before(along, p.count, mm);
    double side = along[i + 1] - along[i], part = side > 0 ? fmin(1, (mm - along[i]) / side) : 0;
    trace_to(t, vec2_lerp(p.points[i], p.points[(i + 1) % p.count], part), (double)(i + around * p.count) + part);
}

struct lifting_run lifting_run_of(struct arena *a, struct geometry_path outline, const double *along, double from_mm,
                                  double to_mm)
{
    assert(outline.count > 0);
    size_t n = outline.count, around = to_mm > from_mm ? 0 : 1;
    size_t first = point_before(along, n, from_mm) + 1, last = point_before(along, n, to_mm) + around * n;
    size_t most = (last + 1 > first ? last + 1 - first : 0) + 2;
    struct trace t = { base_arena_alloc(a, most, sizeof(vec2)), base_arena_alloc(a, most, sizeof(double)),
                       base_arena_alloc(a, most, sizeof(double)), 0 };
    trace_place(&t, outline, along, from_mm, 0);
    for (size_t i = first; i <= last; i++)
        trace_to(&t, outline.points[i % n], (double)i);
    trace_place(&t, outline, along, to_mm, around);
    if (t.count == 1) /* two places at one point */
        t.points[t.count++] = t.points[0];
    double *beyond = base_arena_alloc(a, t.count, sizeof *beyond);
    for (size_t i = 0; i + 1 < t.count; i++)
        beyond[i] = lifting_beyond_chord(t.points, t.count, i);
    return (struct lifting_run){ t.points, t.along_mm, t.number, beyond, t.count };
}

/* A place on a run. */
struct spot {
    vec2 at;
    double along_mm, number;
    size_t next; /* the first point past it */
};

static struct spot spot_at(const struct lifting_run *r, double along)
{
    size_t low = 1, high = r->count - 1;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (r->along_mm[middle] > along)
            high = middle;
        else
            low = middle + 1;
    }
    double side = r->along_mm[low] - r->along_mm[low - 1];
    double part = side > 0 ? fmin(1, fmax(0, (along - r->along_mm[low - 1]) / side)) : 0;
    return (struct spot){ vec2_lerp(r->points[low - 1], r->points[low], part), along,
                          r->number[low - 1] + part * (r->number[low] - r->number[low - 1]), low };
}

static double length_of(const struct lifting_run *r)
{
    return r->along_mm[r->count - 1];
}

/* Of curves in coarse chords the nearest point that is on the curve. */
static struct spot spot_of_share(const struct lifting_run *r, double share)
{
    struct spot s = spot_at(r, share * length_of(r));
    size_t before = s.next - 1;
    if (share <= 0 || share >= 1 || r->beyond_mm[before] <= COARSE_MM)
        return s;
    bool is_past = s.along_mm - r->along_mm[before] > r->along_mm[s.next] - s.along_mm;
    size_t near = is_past ? s.next : before;
    if (near == 0 || near == r->count - 1)
        return s;
    return (struct spot){ r->points[near], r->along_mm[near], r->number[near], near + 1 };
}

/* ---- One step in one size ---- */

/* A part of a run, and the points of it that a cubic is fitted to. */
struct part {
    const struct lifting_run *run;
    struct spot from, to;
    struct {
        vec2 at;
        double number, along_mm, t;
    } samples[SAMPLES + 2];
    size_t count;
    double near_mm; /* how far it may stray */
};

static size_t inner_count(const struct part *p)
{
    size_t end = p->to.next - 1; /* the last point before the end, or at it */
    if (p->run->along_mm[end] >= p->to.along_mm - 1e-9 && end > 0)
        end--;
    return end + 1 > p->from.next ? end + 1 - p->from.next : 0;
}

static void put_sample(struct part *p, struct spot s)
{
    p->samples[p->count].at = s.at;
    p->samples[p->count].number = s.number;
    p->samples[p->count++].along_mm = s.along_mm;
}

static struct spot spot_of_point(const struct lifting_run *r, size_t i)
{
    return (struct spot){ r->points[i], r->along_mm[i], r->number[i], i + 1 };
}

static void take_samples(struct part *p)
{
    size_t inner = inner_count(p), taken = inner < SAMPLES ? inner : SAMPLES;
    p->count = 0;
    put_sample(p, p->from);
    for (size_t i = 0; i < taken; i++)
        put_sample(p, spot_of_point(p->run, p->from.next + (2 * i + 1) * inner / (2 * taken)));
    put_sample(p, p->to);
}

/* How far points lie from a line between the ends. */
static bool is_straight(const struct part *p)
{
    vec2 way = vec2_sub(p->to.at, p->from.at);
    double length = vec2_length(way);
    size_t inner = inner_count(p);
    if (p->to.along_mm - p->from.along_mm <= SHORT_MM)
        return true;
    for (size_t i = p->from.next; i < p->from.next + inner; i++) {
        vec2 off = vec2_sub(p->run->points[i], p->from.at);
        double on = vec2_dot(off, way);
        if (on < 0 || on > length * length || fabs(vec2_cross(way, off)) > p->near_mm * length)
            return false;
    }
    return length > SHORT_MM;
}

/* The parabola through three points, the middle one at its place, as a cubic. */
static void lead_through(const struct part *p, struct geometry_cubic *c)
{
    double t = p->samples[1].t, s = 1 - t;
    vec2 rest = vec2_sub(p->samples[1].at, vec2_add(vec2_scale(p->from.at, s * s), vec2_scale(p->to.at, t * t)));
    vec2 control = vec2_scale(rest, 1 / (2 * s * t));
    *c = (struct geometry_cubic){ { p->from.at, vec2_lerp(p->from.at, control, 2.0 / 3),
                                    vec2_lerp(p->to.at, control, 2.0 / 3), p->to.at } };
}

/* Solves for both controls, the ends held and each sample's place given. False where they tell nothing. */
static bool solve_controls(const struct part *p, struct geometry_cubic *c)
{
    if (p->count == 3) {
        lead_through(p, c);
        return true;
    }
    double aa = 0, ab = 0, bb = 0;
    vec2 ra = { 0, 0 }, rb = { 0, 0 };
    c->p[0] = p->from.at;
    c->p[3] = p->to.at;
    for (size_t i = 1; i + 1 < p->count; i++) {
        double t = p->samples[i].t, s = 1 - t, wa = 3 * s * s * t, wb = 3 * s * t * t;
        vec2 rest = vec2_add(vec2_scale(c->p[0], s * s * s), vec2_scale(c->p[3], t * t * t));
        rest = vec2_sub(p->samples[i].at, rest);
        aa += wa * wa;
        ab += wa * wb;
        bb += wb * wb;
        ra = vec2_add(ra, vec2_scale(rest, wa));
        rb = vec2_add(rb, vec2_scale(rest, wb));
    }
    double det = aa * bb - ab * ab;
    if (!(det > 1e-9 * aa * bb))
        return false;
    c->p[1] = vec2_scale(vec2_sub(vec2_scale(ra, bb), vec2_scale(rb, ab)), 1 / det);
    c->p[2] = vec2_scale(vec2_sub(vec2_scale(rb, aa), vec2_scale(ra, ab)), 1 / det);
    return true;
}

/* A cubic by its powers: c[0] + t (c[1] + t (c[2] + t c[3])). */
struct powers {
    vec2 c[4];
};

static struct powers powers_of(struct geometry_cubic b)
{
    vec2 first = vec2_sub(b.p[1], b.p[0]), second = vec2_sub(b.p[2], b.p[1]);
    struct powers p = { { b.p[0], vec2_scale(first, 3), vec2_scale(vec2_sub(second, first), 3) } };
    p.c[3] = vec2_sub(vec2_sub(vec2_sub(b.p[3], b.p[0]), p.c[1]), p.c[2]);
    return p;
}

static vec2 at_power(const struct powers *p, double t)
{
    return vec2_add(p->c[0],
                    vec2_scale(vec2_add(p->c[1], vec2_scale(vec2_add(p->c[2], vec2_scale(p->c[3], t)), t)), t));
}

/* A place on it nearer to a point: one of Newton's steps towards the foot of the perpendicular. */
static double nearer(const struct powers *p, vec2 q, double t, double *off_mm)
{
    vec2 off = vec2_sub(at_power(p, t), q);
    vec2 first = vec2_add(p->c[1], vec2_scale(vec2_add(vec2_scale(p->c[2], 2), vec2_scale(p->c[3], 3 * t)), t));
    vec2 second = vec2_add(vec2_scale(p->c[2], 2), vec2_scale(p->c[3], 6 * t));
    double slope = vec2_dot(first, first) + vec2_dot(off, second);
    double to = slope > 0 ? t - vec2_dot(off, first) / slope : t;
    to = fmin(1, fmax(0, to));
    *off_mm = vec2_length(vec2_sub(at_power(p, to), q));
    return to;
}

/* Gives every sample its place: by the points' numbers, as a cubic is flattened, or by length. */
static void begin_places(struct part *p, bool by_number)
{
    double from = by_number ? p->from.number : p->from.along_mm, to = by_number ? p->to.number : p->to.along_mm;
    for (size_t i = 0; i < p->count; i++)
        p->samples[i].t = ((by_number ? p->samples[i].number : p->samples[i].along_mm) - from) / (to - from);
}

/* Solves m x = r for four unknowns, m symmetric and positive (Cholesky's method); x in r. */
static bool solve_four(double m[4][4], double r[4])
{
    for (int i = 0; i < 4; i++)
        for (int j = 0; j <= i; j++) {
            double rest = m[i][j];
            for (int k = 0; k < j; k++)
                rest -= m[i][k] * m[j][k];
            if (i == j && !(rest > 0))
                return false;
            m[i][j] = i == j ? sqrt(rest) : rest / m[j][j];
        }
    for (int i = 0; i < 4; i++) {
        for (int k = 0; k < i; k++)
            r[i] -= m[i][k] * r[k];
        r[i] /= m[i][i];
    }
    for (int i = 3; i >= 0; i--) {
        for (int k = i + 1; k < 4; k++)
            r[i] -= m[k][i] * r[k];
        r[i] /= m[i][i];
    }
    return true;
}

/* Moves the controls so that the samples lie near the curve square to it, wherever along it (Gauss and Newton's step
 * for the distances from its tangents): the curve's course is fitted then, not its speed. */
static bool better_controls(const struct part *p, struct geometry_cubic *c)
{
    double m[4][4] = { { 0 } }, r[4] = { 0 };
    for (size_t i = 1; i + 1 < p->count; i++) {
        double t = p->samples[i].t, s = 1 - t, wa = 3 * s * s * t, wb = 3 * s * t * t;
        vec2 n = vec2_right(geometry_cubic_direction(*c, t));
        double off = vec2_dot(n, vec2_sub(p->samples[i].at, geometry_cubic_at(*c, t)));
        const double row[4] = { wa * n.x, wa * n.y, wb * n.x, wb * n.y };
        for (int j = 0; j < 4; j++) {
            r[j] += row[j] * off;
            for (int k = 0; k <= j; k++)
                m[j][k] += row[j] * row[k];
        }
    }
    double hold = HOLD * (m[0][0] + m[1][1] + m[2][2] + m[3][3]);
    for (int j = 0; j < 4; j++)
        m[j][j] += hold;
    if (!(hold > 0) || !solve_four(m, r))
        return false;
    c->p[1] = vec2_add(c->p[1], (vec2){ r[0], r[1] });
    c->p[2] = vec2_add(c->p[2], (vec2){ r[2], r[3] });
    return true;
}

/* Betters the places; how far the farthest sample lies off. */
static double better_places(struct part *p, const struct geometry_cubic *c)
{
    struct powers powers = powers_of(*c);
    double most = 0;
    for (size_t i = 1; i + 1 < p->count; i++) {
        double off;
        p->samples[i].t = nearer(&powers, p->samples[i].at, p->samples[i].t, &off);
        most = fmax(most, off);
        if (p->samples[i].t <= p->samples[i - 1].t)
            return INFINITY; /* it runs back */
    }
    return most;
}

/* Whether the curve from one place to the next keeps to the chord beneath it. */
static bool keeps_to_chord(const struct powers *p, double t, double u, vec2 from, vec2 to, double slack)
{
    vec2 chord = vec2_sub(to, from), off = vec2_sub(at_power(p, (t + u) / 2), from);
    return fabs(vec2_cross(chord, off)) <= slack * vec2_length(chord);
}

/* Whether it sets out towards its points and comes in from them: it else turns round beyond its ends. */
static bool leads_on(const struct part *p, const struct geometry_cubic *c)
{
    vec2 out = vec2_sub(p->samples[1].at, c->p[0]), in = vec2_sub(c->p[3], p->samples[p->count - 2].at);
    return vec2_dot(vec2_sub(c->p[1], c->p[0]), out) > 0 && vec2_dot(vec2_sub(c->p[3], c->p[2]), in) > 0;
}

/* Whether all points of the part lie near the curve, and the curve near them. */
static bool holds_all(const struct part *p, const struct geometry_cubic *c)
{
    const struct lifting_run *r = p->run;
    struct powers powers = powers_of(*c);
    size_t inner = inner_count(p), sample = 1;
    double t = 0;
    vec2 before = p->from.at;
    for (size_t i = p->from.next; i <= p->from.next + inner; i++) {
        bool is_end = i == p->from.next + inner;
        vec2 q = is_end ? p->to.at : r->points[i];
        double along = is_end ? p->to.along_mm : r->along_mm[i], off = 0, u = 1;
        while (sample + 1 < p->count && p->samples[sample].along_mm < along)
            sample++;
        double low = p->samples[sample - 1].along_mm, high = p->samples[sample].along_mm;
        double share = high > low ? (along - low) / (high - low) : 0;
        if (!is_end)
            u = nearer(&powers, q, p->samples[sample - 1].t + share * (p->samples[sample].t - p->samples[sample - 1].t),
                       &off);
        if (off > p->near_mm || u < t || !keeps_to_chord(&powers, t, u, before, q, p->near_mm + r->beyond_mm[i - 1]))
            return false;
        t = u;
        before = q;
    }
    return true;
}

static bool fits_cubic(struct part *p, bool by_number, struct geometry_cubic *c)
{
    begin_places(p, by_number);
    for (int round = 0; round < ROUNDS; round++) {
        if (!(round ? better_controls(p, c) : solve_controls(p, c)))
            return false;
        double off = better_places(p, c);
        if (off <= p->near_mm)
            return leads_on(p, c) && holds_all(p, c);
        if (off > HOPELESS * p->near_mm)
            return false;
    }
    return false;
}

/* ---- All sizes ---- */

struct step {
    bool is_line;
    double from;    /* share of the edge at which it begins */
    vec2 *controls; /* two of each size */
};

struct fit {
    const struct lifting_run *runs;
    size_t count;
    struct part *parts;           /* of the step at hand, one a size */
    struct geometry_cubic *found; /* likewise */
    size_t hardest;               /* the size that did not fit last */
    struct step *steps;
    size_t step_count, cap, most; /* how many steps are tried for */
    double near_mm;
    struct arena *work;
};

static void part_at(struct fit *f, double from, double to)
{
    for (size_t k = 0; k < f->count; k++) {
        struct part *p = &f->parts[k];
        p->run = &f->runs[k];
        p->near_mm = f->near_mm;
        p->from = spot_of_share(p->run, from);
        p->to = spot_of_share(p->run, to);
        p->count = 0;
    }
}

static bool are_lines(struct fit *f)
{
    for (size_t i = 0; i < f->count; i++) {
        size_t k = (f->hardest + i) % f->count;
        if (!is_straight(&f->parts[k])) {
            f->hardest = k;
            return false;
        }
    }
    return true;
}

static bool are_cubics(struct fit *f, bool by_number)
{
    for (size_t i = 0; i < f->count; i++) {
        size_t k = (f->hardest + i) % f->count;
        if (f->parts[k].count == 0)
            take_samples(&f->parts[k]);
        if (!fits_cubic(&f->parts[k], by_number, &f->found[k])) {
            f->hardest = k;
            return false;
        }
    }
    return true;
}

/* Whether one step does from share to share; which is then in *is_line and f->found. */
static bool does_one(struct fit *f, double from, double to, bool *is_line)
{
    part_at(f, from, to);
    *is_line = are_lines(f);
    return *is_line || are_cubics(f, true) || are_cubics(f, false);
}

static void set_step(struct fit *f, struct step *step, double from, bool is_line)
{
    step->is_line = is_line;
    step->from = from;
    for (size_t k = 0; k < 2 * f->count; k++)
        step->controls[k] = is_line ? f->parts[k / 2].from.at : f->found[k / 2].p[1 + k % 2];
}

static void add_step(struct fit *f, double from, bool is_line)
{
    f->steps = base_arena_grow(f->work, f->steps, &f->cap, f->step_count + 1, sizeof *f->steps);
    struct step *step = &f->steps[f->step_count++];
    step->controls = base_arena_alloc(f->work, 2 * f->count, sizeof *step->controls);
    set_step(f, step, from, is_line);
}

static bool is_short(const struct fit *f)
{
    for (size_t k = 0; k < f->count; k++)
        if (f->parts[k].to.along_mm - f->parts[k].from.along_mm > SHORT_MM)
            return false;
    return true;
}

/* Recursion is bounded by DEEPEST. */
static void fit_between(struct fit *f, double from, double to, int depth)
{
    bool is_line;
    if (f->step_count >= f->most)
        return; /* in vain */
    bool done = does_one(f, from, to, &is_line);
    if (!done && (depth == DEEPEST || is_short(f)))
        done = is_line = true;
    if (done) {
        add_step(f, from, is_line);
        return;
    }
    double middle = (from + to) / 2;
    fit_between(f, from, middle, depth + 1);
    fit_between(f, middle, to, depth + 1);
}

/* Halving parts curves where one step would do across: those are put together again. */
static void join_steps(struct fit *f)
{
    size_t kept = 0;
    for (size_t i = 1; i < f->step_count; i++) {
        double to = i + 1 < f->step_count ? f->steps[i + 1].from : 1;
        bool is_line;
        if (does_one(f, f->steps[kept].from, to, &is_line))
            set_step(f, &f->steps[kept], f->steps[kept].from, is_line);
        else
            f->steps[++kept] = f->steps[i];
    }
    f->step_count = kept + 1;
}

static struct lifting_curve outcome(struct arena *a, const struct fit *f)
{
    size_t n = f->count;
    bool *is_line = base_arena_alloc(a, f->step_count, sizeof *is_line);
    vec2 *points = base_arena_alloc(a, (3 * f->step_count + 1) * n, sizeof *points);
    for (size_t k = 0; k < n; k++)
        points[k] = f->runs[k].points[0];
    for (size_t s = 0; s < f->step_count; s++) {
        double end = s + 1 < f->step_count ? f->steps[s + 1].from : 1;
        is_line[s] = f->steps[s].is_line;
        for (size_t k = 0; k < n; k++) {
            points[(3 * s + 1) * n + k] = f->steps[s].controls[2 * k];
            points[(3 * s + 2) * n + k] = f->steps[s].controls[2 * k + 1];
            points[(3 * s + 3) * n + k] = spot_of_share(&f->runs[k], end).at;
        }
    }
    return (struct lifting_curve){ f->step_count, n, is_line, points };
}

struct lifting_curve lifting_fit(struct arena *a, const struct lifting_run *runs, size_t count)
{
    struct arena *work = base_arena_create();
    struct fit f = { .runs = runs,
                     .count = count,
                     .parts = base_arena_alloc(work, count, sizeof(struct part)),
                     .found = base_arena_alloc(work, count, sizeof(struct geometry_cubic)),
                     .work = work };
    size_t few = FEW_STEPS;
    for (size_t k = 0; k < count; k++)
        few = (size_t)fmax((double)few, FEW_STEPS + length_of(&runs[k]) / STEP_MM);
    for (int i = 0; i < PATIENCE; i++) {
        f.near_mm = NEAR_MM * patience[i];
        f.most = i + 1 < PATIENCE ? few : SIZE_MAX;
        f.step_count = 0;
        fit_between(&f, 0, 1, 0);
        if (f.step_count < f.most)
            break;
    }
    join_steps(&f);
    struct lifting_curve out = outcome(a, &f);
    base_arena_destroy(work);
    return out;
}
