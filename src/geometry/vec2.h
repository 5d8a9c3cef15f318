/* Plane vectors, for use inside the mathematics. */
#ifndef GEOMETRY_VEC2_H
#define GEOMETRY_VEC2_H

#include <math.h>

typedef struct {
    double x, y;
} vec2;

static inline vec2 vec2_add(vec2 a, vec2 b)
{
    return (vec2){ a.x + b.x, a.y + b.y };
}

static inline vec2 vec2_sub(vec2 a, vec2 b)
{
    return (vec2){ a.x - b.x, a.y - b.y };
}

static inline vec2 vec2_scale(vec2 a, double s)
{
    return (vec2){ a.x * s, a.y * s };
}

static inline vec2 vec2_lerp(vec2 a, vec2 b, double t)
{
    return (vec2){ a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };
}

static inline double vec2_dot(vec2 a, vec2 b)
{
    return a.x * b.x + a.y * b.y;
}

/* Positive when b lies to the left of a. */
static inline double vec2_cross(vec2 a, vec2 b)
{
    return a.x * b.y - a.y * b.x;
}

/* sqrt, not hypot: the same bits on every processor (hypot's last bit is the library's choice). */
static inline double vec2_length(vec2 a)
{
    return sqrt(a.x * a.x + a.y * a.y);
}

/* The vector at length 1; the null vector stays as it is. */
static inline vec2 vec2_unit(vec2 a)
{
    double length = vec2_length(a);
    return length > 0 ? vec2_scale(a, 1 / length) : a;
}

/* A quarter turn to the right: of a direction along a counter-clockwise outline, the outward normal. */
static inline vec2 vec2_right(vec2 a)
{
    return (vec2){ a.y, -a.x };
}

#endif
