#include "paint/light.h"

#include "paint/image.h"

#include <assert.h>
#include <math.h>

/* Fifth root of 0 < x <= 1 by Newton's rule, which comes down from 1 until it stands: + * / only, so that the tables
 * built from it have the same bits everywhere (pow has not). */
static double fifth_root(double x)
{
    double root = 1, next = (4 + x) / 5;
    while (next < root) {
        root = next;
        next = (4 * root + x / (root * root * root * root)) / 5;
    }
    return root;
}

/* Linear light of an encoded value 0..1, by the standard's two pieces; u^2.4 is u² times the fifth root of u². */
static double decode_share(double encoded)
{
    if (encoded <= 0.04045)
        return encoded / 12.92;
    double u = (encoded + 0.055) / 1.055;
    return u * u * fifth_root(u * u);
}

double paint_decode(uint8_t byte)
{
    return decode_share(byte / 255.0);
}

/* The byte whose encoded value is nearest: halves the bytes by the light that lies half a step above the middle. */
uint8_t paint_encode(double linear)
{
    assert(linear >= 0 && linear <= 1);
    int low = 0, high = 255;
    while (low < high) {
        int middle = (low + high) / 2;
        if (linear < decode_share((middle + 0.5) / 255))
            high = middle;
        else
            low = middle + 1;
    }
    return (uint8_t)low;
}

static const int shift_of[3] = { 16, 8, 0 };

static uint32_t to_steps(double linear)
{
    return (uint32_t)(linear * PAINT_LIGHT_FULL + 0.5);
}

struct paint_light *paint_light_create(struct arena *a)
{
    struct paint_light *light = base_arena_alloc(a, 1, sizeof *light);
    for (int byte = 0; byte < 256; byte++)
        light->decode[byte] = (uint16_t)to_steps(paint_decode((uint8_t)byte));
    uint32_t step = 0;
    for (int byte = 0; byte < 256; byte++) {
        double end = byte < 255 ? ceil(decode_share((byte + 0.5) / 255) * PAINT_LIGHT_FULL) : PAINT_LIGHT_FULL + 1;
        while (step < end)
            light->encode[step++] = (uint8_t)byte;
    }
    return light;
}

struct paint_light_ink paint_light_ink(const struct paint_light *light, struct paint_ink ink)
{
    assert(ink.level >= 0 && ink.level <= 1);
    struct paint_light_ink out = { 0 };
    for (int i = 0; i < 3; i++) {
        out.channel[i] = to_steps(paint_decode((uint8_t)(ink.chalk >> shift_of[i])) * ink.level);
        out.pixel |= (uint32_t)light->encode[out.channel[i]] << shift_of[i];
    }
    return out;
}

uint32_t paint_light_mix(const struct paint_light *light, const struct paint_light_ink *ink, uint32_t under,
                         uint32_t covered)
{
    if (covered == PAINT_COVERED)
        return ink->pixel;
    uint32_t out = 0;
    for (int i = 0; i < 3; i++) {
        uint64_t below = light->decode[under >> shift_of[i] & 0xff];
        uint64_t mixed = below * (PAINT_COVERED - covered) + (uint64_t)ink->channel[i] * covered;
        out |= (uint32_t)light->encode[(mixed + PAINT_COVERED / 2) / PAINT_COVERED] << shift_of[i];
    }
    return out;
}
