/* Rigid motions of the plane and the trigonometry they need, the same bits on every processor. */
#ifndef GEOMETRY_TURN_H
#define GEOMETRY_TURN_H

#include "geometry/vec2.h"

#include <stdbool.h>

/* Sine and cosine of an angle in degrees: + - * / only, exact at multiples of 90°, within 2e-15 elsewhere. */
void geometry_sincos(double degrees, double *sine, double *cosine);

/* The direction from the origin to (x, y) in degrees, counter-clockwise from +x, in (-180, 180]; of the origin itself 0.
 * + - * / only, within 1e-13. */
double geometry_direction(double y, double x);

/* Mirror first (x to -x, when set), then turn counter-clockwise, then shift. */
struct geometry_motion {
    bool mirror;
    double turn_deg;
    vec2 shift;
};

/* The motion with its trigonometry done, for many points. */
struct geometry_mover {
    double xx, xy, yx, yy;
    vec2 shift;
};

struct geometry_mover geometry_mover_of(struct geometry_motion m);
/* The inner one first, then the outer one. */
struct geometry_mover geometry_mover_after(const struct geometry_mover *outer, const struct geometry_mover *inner);

vec2 geometry_move(const struct geometry_mover *m, vec2 p);

#endif
