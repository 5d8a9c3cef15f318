/* Inside paint: what a content is made of. */
#ifndef PAINT_OUTLINE_H
#define PAINT_OUTLINE_H

#include "paint/content.h"
#include "paint/shade.h"

/* One closed outline: so many corners from `first` on. Outlines come in the order of their layers. */
struct paint_outline {
    size_t first, count;
    uint32_t layer;
};

/* Corners of all outlines, x and y apart, so that many are warped together. */
struct paint_corners {
    double *x, *y;
    size_t count, x_cap, y_cap;
};

/* A raster and the pixel that its ink is. */
struct paint_rastered {
    struct paint_raster raster;
    uint32_t pixel;
};

struct paint_content {
    struct paint_corners corners; /* mm, then px */
    struct paint_outline *outlines;
    size_t count, cap;
    size_t in_mm;                      /* the first so many outlines are in table mm, the others in px */
    const struct paint_shade **layers; /* later ones cover earlier ones */
    size_t layer_count, layer_cap;
    const struct paint_rastered *rasters;
    size_t raster_count;
};

#endif
