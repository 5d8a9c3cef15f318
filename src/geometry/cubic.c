#include "geometry/cubic.h"

#include <assert.h>
#include <math.h>

vec2 geometry_cubic_at(struct geometry_cubic c, double t)
{
    /* Weights, not repeated halving: t = 0 and t = 1 give the ends to the last bit. */
    double s = 1 - t;
    const double weight[4] = { s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t };
    vec2 sum = { 0, 0 };
    for (int i = 0; i < 4; i++)
        sum = vec2_add(sum, vec2_scale(c.p[i], weight[i]));
    return sum;
}

vec2 geometry_cubic_direction(struct geometry_cubic c, double t)
{
    double s = 1 - t;
    const double weight[3] = { s * s, 2 * s * t, t * t };
    vec2 sum = { 0, 0 };
    for (int i = 0; i < 3; i++)
        sum = vec2_add(sum, vec2_scale(vec2_sub(c.p[i + 1], c.p[i]), weight[i]));
    return vec2_unit(sum);
}

/* Length of the second derivative at the end by whose points it is told. */
static double bend(vec2 end, vec2 next, vec2 after)
{
    return 6 * vec2_length(vec2_add(vec2_sub(end, vec2_scale(next, 2)), after));
}

size_t geometry_cubic_steps(struct geometry_cubic c, double tolerance_mm)
{
    assert(tolerance_mm > 0);
    double most = fmax(bend(c.p[0], c.p[1], c.p[2]), bend(c.p[1], c.p[2], c.p[3]));
    double steps = ceil(sqrt(most / (8 * tolerance_mm)));
    assert(steps < 1e9);
    return steps > 1 ? (size_t)steps : 1;
}
