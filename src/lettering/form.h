/* The form of a letter as numbers that can be held against another's: which way its outline runs, where, whatever its
 * size. Inside lettering alone. */
#ifndef LETTERING_FORM_H
#define LETTERING_FORM_H

#include "geometry/path.h"

#include <stdint.h>

enum { FORM_CELLS = 6, FORM_WAYS = 8, FORM_VALUES = FORM_CELLS * FORM_CELLS * FORM_WAYS, FORM_SUMS = 4 * FORM_WAYS };

/* values: for each cell of a grid over the letter's box and each of eight directions the root of the share of the
 * outline that runs so there; their squares have the sum FORM_ONE², rounding apart. */
#define FORM_ONE 1000
struct lettering_form {
    int16_t values[FORM_VALUES];
    int16_t sums[FORM_SUMS]; /* for each quarter of the grid and each direction the root of its values' squares */
    double width, height;    /* of its box, in the caller's unit */
    int parts, holes;        /* contours that run counter-clockwise, and clockwise */
};

/* Of contours whose outer ones run counter-clockwise and whose holes clockwise. Direction features in a box whose
 * narrower side is the root of its share of the wider: so of a narrow letter something is left to compare, and a
 * condensed one is like a wide one. (Known from the reading of handwriting: Cheng-Lin Liu et al., "Handwritten digit
 * recognition: investigation of normalization and feature extraction techniques", Pattern Recognition 37, 2004.) */
struct lettering_form lettering_form_of(const struct geometry_path *contours, size_t count);

/* How far two forms are apart: 0 alike, up to 2 nothing in common. Farther than `most` any distance beyond it. */
double lettering_forms_apart(const struct lettering_form *a, const struct lettering_form *b, double most);

#endif
