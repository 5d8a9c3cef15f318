#include "outlines.h"

#include "random.h"

#include <math.h>

enum { MOST = 400 };

static const double pi = 3.14159265358979323846;
static const double widths_mm[] = { 0, 0, 6, 10, 10, 15, 15, 25, 40 };

struct maker {
    struct outline_case c;
    uint64_t *seed;
    enum outline_kind kind;
    double even;
};

static double any(struct maker *m, double low, double high)
{
    return random_between(m->seed, low, high);
}

static int one_of(struct maker *m, int count)
{
    return (int)any(m, 0, count);
}

static void put(struct maker *m, vec2 p, double dist)
{
    size_t i = m->c.path.count++;
    m->c.path.points[i] = p;
    m->c.dist[i] = dist;
}

/* A curve of the second degree from a towards b, the middle `rise` to its right, in chords. */
static void put_curve(struct maker *m, vec2 a, vec2 b, double rise, double dist)
{
    vec2 side = vec2_sub(b, a);
    vec2 pull = vec2_add(vec2_lerp(a, b, any(m, 0.3, 0.7)), vec2_scale(vec2_unit(vec2_right(side)), 2 * rise));
    int steps = 3 + one_of(m, 28);
    for (int i = 1; i < steps; i++) {
        double t = (double)i / steps;
        put(m, vec2_lerp(vec2_lerp(a, pull, t), vec2_lerp(pull, b, t), t), dist);
    }
}

static void put_tooth(struct maker *m, vec2 a, vec2 b, double dist)
{
    vec2 side = vec2_unit(vec2_sub(b, a)), middle = vec2_lerp(a, b, any(m, 0.2, 0.8));
    double half = any(m, 0.5, 12), deep = any(m, -25, 25);
    put(m, vec2_sub(middle, vec2_scale(side, half)), dist);
    put(m, vec2_add(middle, vec2_scale(vec2_right(side), deep)), dist);
    put(m, vec2_add(middle, vec2_scale(side, half)), dist);
}

static void put_edge(struct maker *m, vec2 a, vec2 b)
{
    double dist = m->even >= 0 ? m->even : widths_mm[one_of(m, sizeof widths_mm / sizeof widths_mm[0])];
    double length = vec2_length(vec2_sub(b, a));
    m->c.corners[m->c.path.count].kind = (enum geometry_corner_kind)one_of(m, GEOMETRY_CORNER_CLIPPED + 1);
    put(m, a, dist);
    if (m->kind == OUTLINE_CONVEX || m->kind == OUTLINE_SPIKY || length < 40)
        return;
    if (m->kind == OUTLINE_NOTCHED && one_of(m, 3) == 0)
        put_tooth(m, a, b, dist);
    else if (one_of(m, 3) > 0)
        put_curve(m, a, b, length * any(m, -0.25, 0.25), dist);
}

static void draw(struct maker *m)
{
    int corners = m->kind == OUTLINE_SPIKY ? 5 + one_of(m, 20) : 3 + one_of(m, 6);
    double least = m->kind == OUTLINE_CONVEX ? 300 : m->kind == OUTLINE_SPIKY ? 60 : 150, spread = any(m, 0, 0.9);
    vec2 at[32];
    for (int i = 0; i < corners; i++) {
        double turn = 2 * pi * (i + any(m, 0, spread)) / corners,
               r = any(m, least, m->kind == OUTLINE_CONVEX ? 300 : 400);
        at[i] = (vec2){ r * cos(turn), r * sin(turn) };
    }
    m->c.path.count = 0;
    for (int i = 0; i < MOST; i++)
        m->c.corners[i].kind = GEOMETRY_CORNER_MITRE;
    for (int i = 0; i < corners; i++)
        put_edge(m, at[i], at[(i + 1) % corners]);
}

struct outline_case outline_random(struct arena *a, uint64_t *seed, enum outline_kind kind, double even)
{
    struct maker m = { .seed = seed, .kind = kind, .even = even };
    m.c.path = (struct geometry_path){ base_arena_alloc(a, MOST, sizeof(vec2)), 0, true };
    m.c.dist = base_arena_alloc(a, MOST, sizeof(double));
    m.c.corners = base_arena_alloc(a, MOST, sizeof *m.c.corners);
    vec2 where;
    do
        draw(&m);
    while (geometry_path_area(m.c.path) <= 0 || geometry_path_crosses_itself(m.c.path, &where));
    return m.c;
}

double outline_distance(struct geometry_path p, vec2 at)
{
    double least = INFINITY;
    for (size_t i = 0; i < p.count; i++) {
        vec2 a = p.points[i], side = vec2_sub(p.points[(i + 1) % p.count], a), to = vec2_sub(at, a);
        double t = fmax(0, fmin(1, vec2_dot(to, side) / vec2_dot(side, side)));
        least = fmin(least, vec2_length(vec2_sub(to, vec2_scale(side, t))));
    }
    return least;
}
