#include "virtual_table.h"

#include <assert.h>
#include <math.h>

/* SplitMix64: Steele, Lea and Flood, Fast splittable pseudorandom number generators, OOPSLA 2014. */
static uint64_t next(struct vt_noise *noise)
{
    uint64_t z = noise->state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ z >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ z >> 27) * UINT64_C(0x94d049bb133111eb);
    return z ^ z >> 31;
}

/* Evenly spread over (0, 1]; never 0, so that its logarithm is finite. */
static double uniform(struct vt_noise *noise)
{
    return ((double)(next(noise) >> 11) + 1) * 0x1p-53;
}

/* Box and Muller, A note on the generation of random normal deviates, 1958. Only the cosine is used: a generator
 * without a deviate in store has nothing but its seed as state. */
double vt_noise_draw(struct vt_noise *noise)
{
    double radius = sqrt(-2 * log(uniform(noise)));
    return radius * cos(2 * 3.14159265358979323846 * uniform(noise));
}

bool vt_reading(const struct vt_setup *setup, double px_x, double px_y, double sigma_mm, struct vt_noise *noise,
                double *x, double *y)
{
    assert(sigma_mm >= 0);
    if (!vt_px_to_mat(setup, px_x, px_y, x, y))
        return false;
    *x += sigma_mm * vt_noise_draw(noise);
    *y += sigma_mm * vt_noise_draw(noise);
    return true;
}
