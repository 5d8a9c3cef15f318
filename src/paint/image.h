/* A plain picture: 0x00RRGGBB a pixel, sRGB-encoded (IEC 61966-2-1). */
#ifndef PAINT_IMAGE_H
#define PAINT_IMAGE_H

#include "base/arena.h"

#include <stddef.h>
#include <stdint.h>

struct paint_image {
    int width, height;
    size_t stride; /* in pixels */
    uint32_t *pixels;
};

/* A black picture in `a`. */
struct paint_image paint_image_create(struct arena *a, int width, int height);

/* Linear light 0..1 to an sRGB byte and back (IEC 61966-2-1:1999). */
uint8_t paint_encode(double linear);
double paint_decode(uint8_t byte);

#endif
