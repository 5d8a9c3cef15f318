/* Light in 65536 steps, so that pictures are mixed in integers. */
#ifndef PAINT_LIGHT_H
#define PAINT_LIGHT_H

#include "base/arena.h"
#include "paint/draw_list.h"

enum { PAINT_LIGHT_FULL = 65535, PAINT_COVERED = 65536 };

struct paint_light {
    uint16_t decode[256];                 /* light of an sRGB byte */
    uint8_t encode[PAINT_LIGHT_FULL + 1]; /* nearest sRGB byte of a light */
};

struct paint_light_ink {
    uint32_t channel[3]; /* light of red, green and blue */
    uint32_t pixel;      /* where it covers all: 0x00RRGGBB */
};

struct paint_light *paint_light_create(struct arena *a);

struct paint_light_ink paint_light_ink(const struct paint_light *light, struct paint_ink ink);

/* A pixel with ink over it, covered by 0 to PAINT_COVERED: each channel mixed in linear light. */
uint32_t paint_light_mix(const struct paint_light *light, const struct paint_light_ink *ink, uint32_t under,
                         uint32_t covered);

#endif
