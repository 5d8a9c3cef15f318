/* Contours put together to what is inked in one: a letter, or a dot of one. Inside lettering alone. */
#ifndef LETTERING_INK_H
#define LETTERING_INK_H

#include "lettering/lettering.h"

enum { INK_SAMPLES = 20 };

/* An outer contour with its holes. */
struct lettering_ink {
    struct geometry_path *contours; /* outer ones counter-clockwise, holes clockwise */
    size_t *shapes;                 /* which they are */
    size_t count;
    size_t kind;
    struct geometry_box box;
    vec2 samples[INK_SAMPLES]; /* along the outer contour */
};

/* Of shapes that are as large as letters, kind by kind. How many; in `a`. */
size_t lettering_find_inks(struct arena *a, const struct lettering_shape *shapes, size_t count,
                           const struct lettering_ink **out);

/* The greater of an ink's width and height. */
double lettering_ink_size(const struct lettering_ink *ink);

#endif
