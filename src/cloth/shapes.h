/* What the outlines of a scrap and of faults come to as the cloth lies, for this folder alone. */
#ifndef CLOTH_SHAPES_H
#define CLOTH_SHAPES_H

#include "cloth/cloth.h"

/* One layer of the spread: the part of the opened cloth it is, and how that comes to lie: (x, y) to (shift.x + turn_x
 * x, shift.y + turn_y y), turn_x and turn_y 1 or -1. */
struct cloth_layer {
    struct geometry_box of; /* opened out */
    double turn_x, turn_y;
    vec2 shift;
};

/* What is blocked: faults as they lie in each layer and, of a scrap, what is missing round it. Lives in `a`. Told: a
 * fault that lies outside `all`, the cloth opened out. */
void cloth_block(struct arena *a, const struct cloth *cloth, struct geometry_box all, const struct cloth_layer *layers,
                 size_t layer_count, struct cloth_spread *out, struct err_list *errs);

#endif
