#include "geometry/map.h"

#include "geometry/lens.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

/* How far around the frame the map must hold, as a part of the frame's size. */
#define MARGIN 0.2

/* Nearest to the horizon that a valid map may come. At 0.05 a pixel there is some twenty times as long on the table as
 * one at the frame's centre, and its place already hangs on the last digits of h20 and h21. */
#define LEAST_DIVISOR 0.05

/* Smallest part of its median that the Jacobian determinant of a valid map may come down to. The lens terms of real
 * projectors move it by some hundredths and D <= 2 takes it to an eighth, so below this there is a fold close by. */
#define LEAST_DETERMINANT 1e-3

/* Places sampled along each side of the frame, ends included. All that is sampled is a low polynomial of the place
 * (over a power of D), far smoother than a frame's twenty-fourth. */
enum { GRID = 25 };

/* Newton steps at most; the weak lens terms that are met take four, the strongest that are valid about ten. */
enum { NEWTON_STEPS = 40 };

/* Newton ends at a step this short, in half diagonals (some 1e-9 px); the place is then far nearer still. */
#define NEWTON_END 1e-12

/* A place on the table, and how it moves with the place after the lens. */
struct projected {
    double x, y, divisor;
    double xx, xy, yx, yy; /* dX/dx', dX/dy', dY/dx', dY/dy' */
};

static vec2 normalise(const struct geometry_map *map, struct px_pt px)
{
    double rho = geometry_half_diagonal_px(map);
    return (vec2){ (px.x - 0.5 * map->width_px) / rho, (px.y - 0.5 * map->height_px) / rho };
}

static struct px_pt denormalise(const struct geometry_map *map, vec2 n)
{
    double rho = geometry_half_diagonal_px(map);
    return (struct px_pt){ n.x * rho + 0.5 * map->width_px, n.y * rho + 0.5 * map->height_px };
}

static struct projected project(const double *term, double x, double y)
{
    double d = term[GEOMETRY_H20] * x + term[GEOMETRY_H21] * y + 1;
    double at_x = (term[GEOMETRY_H00] * x + term[GEOMETRY_H01] * y + term[GEOMETRY_H02]) / d;
    double at_y = (term[GEOMETRY_H10] * x + term[GEOMETRY_H11] * y + term[GEOMETRY_H12]) / d;
    return (struct projected){
        .x = at_x,
        .y = at_y,
        .divisor = d,
        .xx = (term[GEOMETRY_H00] - at_x * term[GEOMETRY_H20]) / d,
        .xy = (term[GEOMETRY_H01] - at_x * term[GEOMETRY_H21]) / d,
        .yx = (term[GEOMETRY_H10] - at_y * term[GEOMETRY_H20]) / d,
        .yy = (term[GEOMETRY_H11] - at_y * term[GEOMETRY_H21]) / d,
    };
}

struct table_pt geometry_map_to_table(const struct geometry_map *map, struct px_pt px)
{
    struct geometry_lensed l = geometry_lens(map->term, normalise(map, px));
    struct projected p = project(map->term, l.x, l.y);
    return (struct table_pt){ p.x, p.y };
}

struct geometry_jacobian geometry_map_jacobian(const struct geometry_map *map, struct px_pt px)
{
    struct geometry_lensed l = geometry_lens(map->term, normalise(map, px));
    struct projected p = project(map->term, l.x, l.y);
    double rho = geometry_half_diagonal_px(map);
    return (struct geometry_jacobian){
        .xu = (p.xx * l.xx + p.xy * l.xy) / rho,
        .xv = (p.xx * l.xy + p.xy * l.yy) / rho,
        .yu = (p.yx * l.xx + p.yy * l.xy) / rho,
        .yv = (p.yx * l.xy + p.yy * l.yy) / rho,
    };
}

void geometry_map_term_gradient(const struct geometry_map *map, struct px_pt px, double dx[GEOMETRY_MAP_TERMS],
                                double dy[GEOMETRY_MAP_TERMS])
{
    vec2 n = normalise(map, px);
    struct geometry_lensed l = geometry_lens(map->term, n);
    struct projected p = project(map->term, l.x, l.y);
    vec2 over = { l.x / p.divisor, l.y / p.divisor };

    dx[GEOMETRY_H00] = dy[GEOMETRY_H10] = over.x;
    dx[GEOMETRY_H01] = dy[GEOMETRY_H11] = over.y;
    dx[GEOMETRY_H02] = dy[GEOMETRY_H12] = 1 / p.divisor;
    dx[GEOMETRY_H10] = dx[GEOMETRY_H11] = dx[GEOMETRY_H12] = 0;
    dy[GEOMETRY_H00] = dy[GEOMETRY_H01] = dy[GEOMETRY_H02] = 0;
    dx[GEOMETRY_H20] = -p.x * over.x;
    dx[GEOMETRY_H21] = -p.x * over.y;
    dy[GEOMETRY_H20] = -p.y * over.x;
    dy[GEOMETRY_H21] = -p.y * over.y;

    /* How each lens term moves the place after the lens; k1, p1, p2 in order. */
    double xx = n.x * n.x, xy = n.x * n.y, yy = n.y * n.y;
    vec2 by_lens[3] = { { n.x * (xx + yy), n.y * (xx + yy) }, { 3 * xx + yy, 2 * xy }, { 2 * xy, xx + 3 * yy } };
    for (int i = 0; i < 3; i++) {
        dx[GEOMETRY_K1 + i] = p.xx * by_lens[i].x + p.xy * by_lens[i].y;
        dy[GEOMETRY_K1 + i] = p.yx * by_lens[i].x + p.yy * by_lens[i].y;
    }
}

struct geometry_map geometry_map_changed(const struct geometry_map *map, const struct geometry_change *change)
{
    const double *t = map->term, before[3][3] = { { t[GEOMETRY_H00], t[GEOMETRY_H01], t[GEOMETRY_H02] },
                                                  { t[GEOMETRY_H10], t[GEOMETRY_H11], t[GEOMETRY_H12] },
                                                  { t[GEOMETRY_H20], t[GEOMETRY_H21], 1 } };
    double after[9] = { 0 };
    for (int row = 0; row < 3; row++)
        for (int col = 0; col < 3; col++)
            for (int i = 0; i < 3; i++)
                after[3 * row + col] += change->m[row][i] * before[i][col];
    struct geometry_map out = *map;
    for (int i = 0; i < GEOMETRY_K1; i++)
        out.term[i] = after[i] / after[GEOMETRY_K1]; /* so that the last is 1 again */
    return out;
}

/* The inverse of the projective part alone. False at and behind the horizon. */
static bool unproject(const double *term, struct table_pt at, vec2 *out)
{
    double xx = term[GEOMETRY_H00] - at.x * term[GEOMETRY_H20], xy = term[GEOMETRY_H01] - at.x * term[GEOMETRY_H21];
    double yx = term[GEOMETRY_H10] - at.y * term[GEOMETRY_H20], yy = term[GEOMETRY_H11] - at.y * term[GEOMETRY_H21];
    vec2 right = { at.x - term[GEOMETRY_H02], at.y - term[GEOMETRY_H12] };
    double det = xx * yy - xy * yx;
    *out = (vec2){ (right.x * yy - xy * right.y) / det, (xx * right.y - right.x * yx) / det };
    /* Written so that what is not finite fails, too. */
    return term[GEOMETRY_H20] * out->x + term[GEOMETRY_H21] * out->y + 1 > 0 && isfinite(out->x) && isfinite(out->y);
}

/* The inverse of the lens alone. Starting at the place after the lens, radial terms of either sign bring it nearer from
 * the side on which Newton does not overshoot. False when it does not settle: the place lies beyond a fold. */
static bool unlens(const double *term, vec2 after, vec2 *out)
{
    vec2 n = after;
    for (int i = 0; i < NEWTON_STEPS; i++) {
        struct geometry_lensed l = geometry_lens(term, n);
        vec2 off = { after.x - l.x, after.y - l.y };
        double det = l.xx * l.yy - l.xy * l.xy;
        vec2 step = { (off.x * l.yy - l.xy * off.y) / det, (l.xx * off.y - off.x * l.xy) / det };
        n = vec2_add(n, step);
        if (vec2_length(step) <= NEWTON_END) {
            *out = n;
            return true;
        }
    }
    return false;
}

static bool within(double at, double size)
{
    double slack = MARGIN * size + 1e-6; /* places on the very edge come back, too */
    return at >= -slack && at <= size + slack;
}

bool geometry_map_to_px(const struct geometry_map *map, struct table_pt at, struct px_pt *px)
{
    vec2 n;
    if (!unproject(map->term, at, &n) || !unlens(map->term, n, &n))
        return false;
    *px = denormalise(map, n);
    return within(px->x, map->width_px) && within(px->y, map->height_px);
}

/* Place `i`, `j` of the grid over the frame and `margin` of its size around it. */
static struct px_pt grid_place(const struct geometry_map *map, double margin, int i, int j)
{
    double s = (double)i / (GRID - 1), t = (double)j / (GRID - 1);
    return (struct px_pt){ map->width_px * (s + (2 * s - 1) * margin), map->height_px * (t + (2 * t - 1) * margin) };
}

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static bool terms_are_finite(const struct geometry_map *map)
{
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++)
        if (!isfinite(map->term[i]))
            return false;
    return true;
}

static double divisor_at(const struct geometry_map *map, struct px_pt px)
{
    struct geometry_lensed l = geometry_lens(map->term, normalise(map, px));
    return project(map->term, l.x, l.y).divisor;
}

static double determinant_at(const struct geometry_map *map, struct px_pt px)
{
    struct geometry_jacobian j = geometry_map_jacobian(map, px);
    return j.xu * j.yv - j.xv * j.yu;
}

bool geometry_map_is_valid(const struct geometry_map *map)
{
    double size[GRID * GRID];
    if (map->width_px <= 0 || map->height_px <= 0 || !terms_are_finite(map))
        return false;
    double sign = determinant_at(map, grid_place(map, MARGIN, GRID / 2, GRID / 2)) < 0 ? -1 : 1;
    for (int j = 0; j < GRID; j++)
        for (int i = 0; i < GRID; i++) {
            struct px_pt px = grid_place(map, MARGIN, i, j);
            double determinant = sign * determinant_at(map, px);
            if (!(divisor_at(map, px) >= LEAST_DIVISOR) || !(determinant > 0) || !isfinite(determinant))
                return false;
            size[j * GRID + i] = determinant;
        }
    qsort(size, GRID * GRID, sizeof size[0], by_size);
    return size[0] >= LEAST_DETERMINANT * size[GRID * GRID / 2];
}

/* Largest singular value of a 2 x 2 matrix: the matrix is a turn with scale plus a mirroring with scale, and in some
 * direction the two add up. */
static double greatest_stretch(struct geometry_jacobian j)
{
    vec2 turning = { j.xu + j.yv, j.yu - j.xv }, mirroring = { j.xu - j.yv, j.yu + j.xv };
    return 0.5 * (vec2_length(turning) + vec2_length(mirroring));
}

double geometry_map_mm_per_px(const struct geometry_map *map)
{
    double most = 0;
    for (int j = 0; j < GRID; j++)
        for (int i = 0; i < GRID; i++) {
            double here = greatest_stretch(geometry_map_jacobian(map, grid_place(map, 0, i, j)));
            most = here > most ? here : most;
        }
    return most;
}

struct table_path geometry_map_frame(struct arena *a, const struct geometry_map *map, int steps)
{
    assert(steps > 0);
    /* Pixel y runs down: from the lower left corner along the lower edge is counter-clockwise seen from above. */
    double w = map->width_px, h = map->height_px;
    const vec2 corner[5] = { { 0, h }, { w, h }, { w, 0 }, { 0, 0 }, { 0, h } };
    struct geometry_path path = { base_arena_alloc(a, 4 * (size_t)steps, sizeof(vec2)), 0, true };
    for (int side = 0; side < 4; side++)
        for (int i = 0; i < steps; i++) {
            vec2 px = vec2_lerp(corner[side], corner[side + 1], (double)i / steps);
            struct table_pt at = geometry_map_to_table(map, (struct px_pt){ px.x, px.y });
            path.points[path.count++] = (vec2){ at.x, at.y };
        }
    return (struct table_path){ path };
}
