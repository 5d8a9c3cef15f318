/* A drawing saved as SVG and read again by the program's own reader. */
#ifndef TESTS_EXPORT_READ_BACK_H
#define TESTS_EXPORT_READ_BACK_H

#include "drawing/drawing.h"

/* Whether a page comes back: as large, its layers with their names, state and parents, and on each the same lines with
 * the same looks and clips and the same words, in the same order, every point within `near_mm`. NULL: it does; else
 * what does not, in `a`. Letters' outlines are left out where their words are there. */
const char *read_back(struct arena *a, const struct drawing *d, size_t page, double near_mm);

#endif
