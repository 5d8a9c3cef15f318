/* Closed outlines that are no pieces but stand beside them: test squares, and boxes with the pattern's title or a
 * legend. For this folder alone. */
#ifndef LIFTING_FURNITURE_H
#define LIFTING_FURNITURE_H

#include "lifting/within.h"

/* Whether a shape, its lines and texts known, is one. Only what is the same in all sizes, and a rectangle along the
 * page, can be: a square of a round side in which no line is drawn and no word can be read; or a box with several lines
 * of text that say nothing of cutting, grain or fold, and no grain line. */
bool furniture_is(struct arena *a, const struct one_size_sheet *sheet, const struct within_shape *shape);

#endif
