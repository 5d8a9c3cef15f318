#include "geometry/turn.h"

#include <assert.h>
#include <math.h>

static const double radians_per_degree = 0x1.1df46a2529d39p-6; /* pi / 180 to the last bit */

/* Taylor series for |x| <= pi/4. The first term left out is below 1e-19 in the sine and 3e-18 in the cosine. */
static double sine_of(double x)
{
    static const double over_factorial[] = {
        1.0 / 355687428096000, 1.0 / 1307674368000, 1.0 / 6227020800, 1.0 / 39916800,
        1.0 / 362880,          1.0 / 5040,          1.0 / 120,        1.0 / 6
    };
    double xx = x * x, sum = 0;
    for (int i = 0; i < 8; i++)
        sum = over_factorial[i] - xx * sum;
    return x - x * xx * sum;
}

static double cosine_of(double x)
{
    static const double over_factorial[] = { 1.0 / 20922789888000, 1.0 / 87178291200, 1.0 / 479001600, 1.0 / 3628800,
                                             1.0 / 40320,          1.0 / 720,         1.0 / 24,        1.0 / 2 };
    double xx = x * x, sum = 0;
    for (int i = 0; i < 8; i++)
        sum = over_factorial[i] - xx * sum;
    return 1 - xx * sum;
}

void geometry_sincos(double degrees, double *sine, double *cosine)
{
    assert(isfinite(degrees));
    /* Whole turns and quarter turns come off in degrees, where taking them off is exact. */
    double in_turn = fmod(degrees, 360);
    double quarters = round(in_turn / 90); /* halves away from zero: opposite angles stay opposite */
    double x = (in_turn - 90 * quarters) * radians_per_degree;
    double s = sine_of(x), c = cosine_of(x);
    const double by_quarter[4][2] = { { s, c }, { c, -s }, { -s, -c }, { -c, s } };
    int quarter = ((int)quarters + 4) % 4;
    *sine = by_quarter[quarter][0] + 0.0; /* no negative zeros: they print as -0 */
    *cosine = by_quarter[quarter][1] + 0.0;
}

/* Arc tangent in degrees for 0 <= t <= 1. Above tan(22.5°) it is taken from 45°: atan t = 45° + atan((t - 1) / (t + 1)).
 * Gregory's series; the first term left out is below 1e-17. */
static double arc_tangent(double t)
{
    const double half_way = 0x1.a827999fcef32p-2; /* sqrt 2 - 1 */
    double from = t > half_way ? 45 : 0, z = t > half_way ? (t - 1) / (t + 1) : t, zz = z * z, sum = 0;
    for (int i = 20; i >= 1; i--)
        sum = zz * (1.0 / (2 * i + 1) - sum);
    return from + (z - z * sum) / radians_per_degree;
}

double geometry_direction(double y, double x)
{
    double ax = fabs(x), ay = fabs(y);
    if (ax == 0 && ay == 0)
        return 0;
    double degrees = ay <= ax ? arc_tangent(ay / ax) : 90 - arc_tangent(ax / ay);
    if (x < 0)
        degrees = 180 - degrees;
    return y < 0 ? -degrees : degrees;
}

struct geometry_mover geometry_mover_of(struct geometry_motion m)
{
    double s, c, flip = m.mirror ? -1 : 1;
    geometry_sincos(m.turn_deg, &s, &c);
    return (struct geometry_mover){ .xx = flip * c, .xy = -s, .yx = flip * s, .yy = c, .shift = m.shift };
}

struct geometry_mover geometry_mover_after(const struct geometry_mover *outer, const struct geometry_mover *inner)
{
    return (struct geometry_mover){ .xx = outer->xx * inner->xx + outer->xy * inner->yx,
                                    .xy = outer->xx * inner->xy + outer->xy * inner->yy,
                                    .yx = outer->yx * inner->xx + outer->yy * inner->yx,
                                    .yy = outer->yx * inner->xy + outer->yy * inner->yy,
                                    .shift = geometry_move(outer, inner->shift) };
}

vec2 geometry_move(const struct geometry_mover *m, vec2 p)
{
    return (vec2){ m->xx * p.x + m->xy * p.y + m->shift.x, m->yx * p.x + m->yy * p.y + m->shift.y };
}
