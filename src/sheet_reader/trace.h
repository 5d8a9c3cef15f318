/* A picture of a drawing followed along its ink, which is what is darker than Otsu's threshold: lines along their
 * middle (centre.h), patches as filled outlines by potrace. */
#ifndef SHEET_READER_TRACE_H
#define SHEET_READER_TRACE_H

#include "sheet_reader/collect.h"

/* Puts both into the sheet as items on `layer`. `image` says where the picture lies and how large it is; `grey`
 * is width × height of it, rows from the top, 0 black. False without memory for it. A picture without contrast has no
 * ink. */
bool trace_put(struct collect *c, uint32_t layer, const struct sheet_image *image, const uint8_t *grey);

#endif
