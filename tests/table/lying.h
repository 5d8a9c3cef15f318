/* A mat that is smaller than the light, and what a person reads of a cross on it as it lies; and how true the picture's
 * size and shape are, wherever the mat's first place was. */
#ifndef TESTS_TABLE_LYING_H
#define TESTS_TABLE_LYING_H

#include "app/walk_state.h"
#include "virtual_table.h"

struct lying {
    const struct calibration_mat *mat;
    vec2 corner; /* its near left one, on the virtual table */
    double turn_deg;
};

/* What she reads of a place of the frame, with errors of that size; false when it falls beside the rulings. */
bool lying_read(const struct lying *l, const struct vt_setup *setup, struct px_pt px, double sigma_mm,
                struct vt_noise *noise, double *x, double *y);

/* Laid as the walk asks: the middle of the crosses that are to fall on it is its own middle; so far askew. */
struct lying lying_around(const struct app_walk *walk, const struct vt_setup *setup, const struct calibration_mat *mat,
                          double turn_deg);

/* By how much a map is off at most, over five by five places of the frame, after the best turn and shift. */
double lying_worst_shape(const struct geometry_map *map, const struct vt_setup *setup);

#endif
