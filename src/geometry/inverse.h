/* Many table places into pixels at once: geometry_map_to_px without a branch for each place, for whole drawings. */
#ifndef GEOMETRY_INVERSE_H
#define GEOMETRY_INVERSE_H

#include "geometry/map.h"

#include <stddef.h>

struct geometry_inverse {
    const struct geometry_map *map;
    int steps;        /* Newton steps that settle everywhere in and a twentieth around the frame; 0 without a lens */
    double curvature; /* at most, 1/px, that of a straight line's picture there */
};

/* The map is valid and outlives the inverse. */
struct geometry_inverse geometry_inverse_create(const struct geometry_map *map);

/* Pixel places (u, v) of `count` table places (x, y), within 1e-6 px in the frame and a twentieth around it. Farther
 * places may have any answer that lies outside of this, or none: NaN. A place's answer depends on nothing else. */
void geometry_inverse_px(const struct geometry_inverse *inverse, size_t count, const double *x, const double *y,
                         double *u, double *v);

#endif
