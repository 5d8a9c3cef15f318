/* Transforms: the six numbers of SVG's matrix(a b c d e f), x' = a x + c y + e, y' = b x + d y + f. */
#ifndef SHEET_READER_SVG_MATRIX_H
#define SHEET_READER_SVG_MATRIX_H

#include "geometry/vec2.h"

#include <stdbool.h>

struct svg_matrix {
    double a, b, c, d, e, f;
};

struct svg_matrix svg_matrix_none(void);

/* First `inner`, then `outer`. */
struct svg_matrix svg_matrix_then(struct svg_matrix inner, struct svg_matrix outer);

vec2 svg_matrix_apply(const struct svg_matrix *m, double x, double y);

/* By how much it enlarges lengths, as the root of what it does to areas. */
double svg_matrix_scale(const struct svg_matrix *m);

/* The value of a transform attribute: matrix, translate, scale, rotate, skewX, skewY, one after the other. False, and
 * *out as it was, when it is not one. */
bool svg_matrix_read(const char *text, struct svg_matrix *out);

struct svg_box {
    double x, y, width, height;
};

/* The value of a viewBox attribute; false when it is none or has no size. */
bool svg_box_read(const char *text, struct svg_box *out);

/* What brings a viewBox into a viewport, by the value of preserveAspectRatio (NULL: xMidYMid meet). */
struct svg_matrix svg_box_fit(struct svg_box view, struct svg_box port, const char *preserve);

#endif
