/* Inside geometry: the lens term of a map alone (formula: geometry/map.h). */
#ifndef GEOMETRY_LENS_H
#define GEOMETRY_LENS_H

#include "geometry/map.h"
#include "geometry/vec2.h"

#include <math.h>

/* A place after the lens, and how it moves with the place before. The lens is the gradient of a potential,
 * r²/2 + k1 r⁴/4 + r² (p1 x + p2 y), so dx'/dy and dy'/dx are one number, and where the determinant stays positive the
 * potential is convex: no two places of a convex region share an image. */
struct geometry_lensed {
    double x, y;
    double xx, xy, yy; /* dx'/dx, dx'/dy = dy'/dx, dy'/dy */
};

static inline double geometry_half_diagonal_px(const struct geometry_map *map)
{
    double w = map->width_px, h = map->height_px;
    return 0.5 * sqrt(w * w + h * h);
}

static inline struct geometry_lensed geometry_lens(const double *term, vec2 n)
{
    double k1 = term[GEOMETRY_K1], p1 = term[GEOMETRY_P1], p2 = term[GEOMETRY_P2];
    double xx = n.x * n.x, yy = n.y * n.y, r2 = xx + yy, tilt = p1 * n.x + p2 * n.y;
    return (struct geometry_lensed){
        .x = n.x * (1 + k1 * r2) + p1 * r2 + 2 * n.x * tilt,
        .y = n.y * (1 + k1 * r2) + p2 * r2 + 2 * n.y * tilt,
        .xx = 1 + k1 * (r2 + 2 * xx) + 4 * p1 * n.x + 2 * tilt,
        .xy = 2 * (k1 * n.x * n.y + p1 * n.y + p2 * n.x),
        .yy = 1 + k1 * (r2 + 2 * yy) + 4 * p2 * n.y + 2 * tilt,
    };
}

#endif
