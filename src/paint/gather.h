/* Inside paint: coverage of half pixels gathered into light on pixels, so that light keeps its place.
 *
 * A pixel shines from its own middle, wherever in it the line lay: with plain coverage of pixels the middle of an
 * upright line of 1.5 px is up to 0.125 / 1.5 = 0.083 px off. A weight that falls evenly to nothing one pixel from a
 * pixel's middle shares every bit of light between the pixels beside it in such parts that their common middle is its
 * place (a tent keeps first moments, as linear interpolation does). Measured on half pixels the tent is 1 3 3 1 of 8
 * each way, and what is left of the error is a quarter: at most 0.031 / width. A whole pixel of light and more stays
 * full. */
#ifndef PAINT_GATHER_H
#define PAINT_GATHER_H

#include "base/arena.h"
#include "geometry/vec2.h"
#include "paint/image.h"
#include "paint/light.h"

/* Half pixels of a picture's side, and where a place in px lies among them: they begin one half pixel before the
 * picture and end one behind it, as the light of these reaches in. */
static inline int paint_gather_side(int pixels)
{
    return 2 * pixels + 2;
}

static inline vec2 paint_gather_place(vec2 px)
{
    return (vec2){ 2 * px.x + 1, 2 * px.y + 1 };
}

struct paint_gather_row {
    int32_t *sums;  /* one for each pixel, and one beyond either end of the row */
    int first, end; /* pixels in which light may be */
};

struct paint_gather {
    const struct paint_light *light;
    struct paint_light_ink ink;
    struct paint_image *image;
    struct paint_gather_row rows[2]; /* picture rows `top` and `top` + 1, by their parity */
    int top;
};

struct paint_gather paint_gather_create(struct arena *a, const struct paint_light *light, struct paint_image *image);

/* Starts a layer. */
void paint_gather_begin(struct paint_gather *g, struct paint_ink ink);

/* Takes one run of half pixels: a paint_coverage_run. */
void paint_gather_run(void *gather, int half_y, int first, int count, const int32_t *covered);

/* Paints what is still held. */
void paint_gather_end(struct paint_gather *g);

#endif
