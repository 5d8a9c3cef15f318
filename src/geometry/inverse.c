#include "geometry/inverse.h"

#include "base/wide.h"
#include "geometry/lens.h"

/* Newton gains twice the digits a step: after a last step of SETTLED half diagonals, what is left is under 1e-9. Steps
 * are counted to a tenth of it, as the count is taken on a grid of places. */
#define SETTLED 1e-5
#define AROUND 0.05 /* share of the frame beyond each side */
#define SLACK 1.25  /* for what the grid misses of the lens's bend */

/* Places in one round: enough to fill the processor's pipes, few enough to stay in its first cache. */
enum { GRID = 25, ROUND = 128, MOST_STEPS = 40 };

struct round {
    double after_x[ROUND], after_y[ROUND]; /* places after the lens */
    double x[ROUND], y[ROUND];             /* before it, in half diagonals; nearer with every step */
    double last[ROUND];                    /* square of the last step */
};

static BASE_WITHIN vec2 newton_step(const double *term, vec2 n, vec2 after)
{
    struct geometry_lensed l = geometry_lens(term, n);
    double off_x = after.x - l.x, off_y = after.y - l.y, scale = 1 / (l.xx * l.yy - l.xy * l.xy);
    return (vec2){ (off_x * l.yy - l.xy * off_y) * scale, (l.xx * off_y - off_x * l.xy) * scale };
}

static int steps_to(const double *term, vec2 place)
{
    struct geometry_lensed image = geometry_lens(term, place);
    vec2 after = { image.x, image.y }, n = after;
    for (int steps = 1; steps < MOST_STEPS; steps++) {
        vec2 step = newton_step(term, n, after);
        n = vec2_add(n, step);
        if (vec2_length(step) <= SETTLED / 10)
            return steps;
    }
    return MOST_STEPS;
}

/* The smaller stretch of the lens at a place: the lower eigenvalue of its symmetric derivative. */
static double least_stretch(struct geometry_lensed l)
{
    double half = (l.xx - l.yy) / 2;
    return (l.xx + l.yy) / 2 - sqrt(half * half + l.xy * l.xy);
}

/* A straight line p(t) after the lens comes from n(t) with J n' = p', so J n'' = -H(n', n'), and its curvature is at
 * most |H| / least stretch. The lens is the gradient of k1 r⁴/4 + r² (p1 x + p2 y) + r²/2, whose third derivative in
 * any direction is at most 6 (|k1| r + |p|). */
struct geometry_inverse geometry_inverse_create(const struct geometry_map *map)
{
    const double *term = map->term;
    struct geometry_inverse inverse = { map, 0, 0 };
    vec2 decentring = { term[GEOMETRY_P1], term[GEOMETRY_P2] };
    double bend = fabs(term[GEOMETRY_K1]) * (1 + 2 * AROUND) + vec2_length(decentring), stretch = 1;
    if (bend <= 0)
        return inverse;
    double rho = geometry_half_diagonal_px(map), reach = 1 + 2 * AROUND;
    for (int i = 0; i < GRID * GRID; i++) {
        int column = i % GRID, row = i / GRID;
        double across = 2.0 * column / (GRID - 1) - 1, down = 2.0 * row / (GRID - 1) - 1;
        vec2 n = { across * reach * map->width_px / 2 / rho, down * reach * map->height_px / 2 / rho };
        int steps = steps_to(term, n);
        inverse.steps = steps > inverse.steps ? steps : inverse.steps;
        stretch = fmin(stretch, least_stretch(geometry_lens(term, n)));
    }
    inverse.curvature = SLACK * 6 * bend / stretch / rho;
    return inverse;
}

/* The projective part backwards. What lies behind the horizon is no number. */
static BASE_WITHIN void unproject(const double *h, size_t count, const double *x, const double *y, struct round *r)
{
    for (size_t i = 0; i < count; i++) {
        double xx = h[GEOMETRY_H00] - x[i] * h[GEOMETRY_H20], xy = h[GEOMETRY_H01] - x[i] * h[GEOMETRY_H21];
        double yx = h[GEOMETRY_H10] - y[i] * h[GEOMETRY_H20], yy = h[GEOMETRY_H11] - y[i] * h[GEOMETRY_H21];
        double right_x = x[i] - h[GEOMETRY_H02], right_y = y[i] - h[GEOMETRY_H12];
        double scale = 1 / (xx * yy - xy * yx);
        double at_x = (right_x * yy - xy * right_y) * scale, at_y = (xx * right_y - right_x * yx) * scale;
        double divisor = h[GEOMETRY_H20] * at_x + h[GEOMETRY_H21] * at_y + 1;
        r->after_x[i] = r->x[i] = divisor > 0 ? at_x : NAN;
        r->after_y[i] = r->y[i] = at_y;
        r->last[i] = 0;
    }
}

static BASE_WITHIN void step_all(const double *term, size_t count, struct round *r)
{
    for (size_t i = 0; i < count; i++) {
        vec2 step = newton_step(term, (vec2){ r->x[i], r->y[i] }, (vec2){ r->after_x[i], r->after_y[i] });
        r->x[i] += step.x;
        r->y[i] += step.y;
        r->last[i] = vec2_dot(step, step);
    }
}

BASE_WIDE void geometry_inverse_px(const struct geometry_inverse *inverse, size_t count, const double *x,
                                   const double *y, double *u, double *v)
{
    const struct geometry_map *map = inverse->map;
    double rho = geometry_half_diagonal_px(map), half_width = map->width_px / 2.0, half_height = map->height_px / 2.0;
    struct round r;
    for (size_t first = 0; first < count; first += ROUND) {
        size_t some = count - first < ROUND ? count - first : ROUND;
        unproject(map->term, some, x + first, y + first, &r);
        for (int step = 0; step < inverse->steps; step++)
            step_all(map->term, some, &r);
        for (size_t i = 0; i < some; i++) {
            u[first + i] = r.last[i] <= SETTLED * SETTLED ? r.x[i] * rho + half_width : NAN;
            v[first + i] = r.y[i] * rho + half_height;
        }
    }
}
