/* Pictures by MuPDF: where they lie, and drawings that are pictures alone, followed along their ink. */
#ifndef SHEET_READER_SCAN_H
#define SHEET_READER_SCAN_H

#include "sheet_reader/collect.h"
#include "sheet_reader/mupdf.h"

/* A picture of which the place alone is kept: one pixel of middle grey stands for the rest. `to_mm` brings its unit
 * square, origin at the top left and the second axis down, to the page, as in struct pdf_frame. */
void scan_put_place(struct collect *c, uint32_t layer, const double to_mm[6]);

/* The same, and the lines and patches of its ink; of a picture that is damaged or too large the place alone, and that
 * is what is returned. Never throws. */
enum sheet_exit scan_put(fz_context *ctx, struct collect *c, uint32_t layer, fz_image *image, const double to_mm[6]);

/* Its dots per inch there, as a whole number above 0. */
uint32_t scan_dpi(const fz_image *image, const double to_mm[6]);

#endif
