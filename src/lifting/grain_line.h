/* Where the grain line of a piece is drawn. */
#ifndef LIFTING_GRAIN_LINE_H
#define LIFTING_GRAIN_LINE_H

#include "lifting/lifting.h"

/* The ends of the grain line found for a size, along the grain, on the sheet: its own, else that of all, else that of
 * another size. False when none lies in the piece as that size is drawn. */
bool lifting_grain_line(const struct lifting_piece *piece, int size, vec2 ends[2]);

#endif
