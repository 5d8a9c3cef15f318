/* Sides of test squares as people write them in running text. */
#ifndef DRAWING_WRITTEN_H
#define DRAWING_WRITTEN_H

#include "base/arena.h"

#include <stddef.h>

enum { DRAWING_WRITTEN_MOST = 8 };

/* The different lengths in a text that may be sides of a square, mm, in the order in which they stand: 10 cm, 4",
 * 4-inch, 2,54 cm, 1 1/2 in, 5 x 5 cm. Of "5 x 10 cm" neither, for that is no square; nor "2 in" of "2 in lining".
 * Returns how many; `a` is for work. */
size_t drawing_written_sides(struct arena *a, const char *words, double sides_mm[DRAWING_WRITTEN_MOST]);

#endif
