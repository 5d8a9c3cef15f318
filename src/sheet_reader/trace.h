/* A picture of a drawing followed along its ink: what is darker than Otsu's threshold becomes filled outlines (by
 * potrace), so that a line comes as its two borders. */
#ifndef SHEET_READER_TRACE_H
#define SHEET_READER_TRACE_H

#include "sheet_reader/collect.h"

/* Puts the outlines into the sheet as items on `layer`. `image` says where the picture lies and how large it is; `grey`
 * is width × height of it, rows from the top, 0 black. False without memory for it. A picture without contrast has no
 * outlines. */
bool trace_put(struct collect *c, uint32_t layer, const struct sheet_image *image, const uint8_t *grey);

/* The grey below which a pixel is ink, 0 when there is none (exposed for tests): N. Otsu, A Threshold Selection Method
 * from Gray-Level Histograms, IEEE Transactions on Systems, Man, and Cybernetics 9 (1979), 62-66. `counts` says how
 * many pixels have each grey. */
unsigned trace_threshold(const uint64_t counts[256]);

#endif
