/* Inside paint: one ink over rows of pixels. */
#ifndef PAINT_SHADE_H
#define PAINT_SHADE_H

#include "paint/cells.h"
#include "paint/light.h"

struct paint_shade {
    const struct paint_light *light;
    struct paint_light_ink ink;
    uint32_t on_black[PAINT_WHOLE + 1]; /* the pixel of each share where nothing was lit before */
};

/* Lives in `a`; the light outlives it. */
struct paint_shade *paint_shade_create(struct arena *a, const struct paint_light *light, struct paint_ink ink);

/* Mixes the ink into the runs of one row of pixels, in linear light. */
void paint_shade_row(const struct paint_shade *shade, const struct paint_row *row, uint32_t *pixels);

#endif
