/* A sheet drawn in a test, as the program would get it from the reader: it is collected, written, validated and
 * flattened. */
#ifndef TESTS_DRAWING_DRAWN_H
#define TESTS_DRAWING_DRAWN_H

#include "drawing/drawing.h"
#include "sheet_reader/collect.h"

/* Draws a line through points; closed: back to the first. `xy` are so many pairs. */
void drawn_line(struct collect *c, uint32_t layer, const double *xy, size_t count, bool closed);

/* Writes words there, so large, to the right. */
void drawn_words(struct collect *c, uint32_t layer, double x, double y, double size_mm, const char *words);

/* What was collected, flattened, in `a`; destroys `c`. Fails the test when anything of it is refused. */
struct drawing drawn_drawing(struct arena *a, struct collect *c);

#endif
