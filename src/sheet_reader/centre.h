/* The middles of drawn lines, followed from dot to dot. */
#ifndef SHEET_READER_CENTRE_H
#define SHEET_READER_CENTRE_H

#include "sheet_reader/collect.h"
#include "sheet_reader/thin.h"

/* Puts them into the sheet as strokes as wide as their ink, each as far as it goes straight on where lines meet. Taken
 * within half a dot. */
void centre_put(struct collect *c, uint32_t layer, const struct sheet_image *image, struct thin_map *m);

#endif
