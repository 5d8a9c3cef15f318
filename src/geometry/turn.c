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

struct geometry_mover geometry_mover_of(struct geometry_motion m)
{
    double s, c, flip = m.mirror ? -1 : 1;
    geometry_sincos(m.turn_deg, &s, &c);
    return (struct geometry_mover){ .xx = flip * c, .xy = -s, .yx = flip * s, .yy = c, .shift = m.shift };
}

vec2 geometry_move(const struct geometry_mover *m, vec2 p)
{
    return (vec2){ m->xx * p.x + m->xy * p.y + m->shift.x, m->yx * p.x + m->yy * p.y + m->shift.y };
}
