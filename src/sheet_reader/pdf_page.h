/* Where a page's own units lie: what of it is visible, how it is turned, and the way to mm. */
#ifndef SHEET_READER_PDF_PAGE_H
#define SHEET_READER_PDF_PAGE_H

#include "sheet_reader/mupdf.h"

struct pdf_frame {
    double width_mm, height_mm;
    double to_mm[6]; /* x mm = [0] x + [2] y + [4], y mm = [1] x + [3] y + [5]; origin lower left of the turned page, y
                        up */
};

/* The frame of a page by its MediaBox, CropBox, Rotate and UserUnit (ISO 32000-2, 7.7.3.3, 8.3.2.3 and 14.11.2). A box
 * that is missing or has no area counts as absent; without any, the page is 8.5 by 11 in. */
struct pdf_frame pdf_frame_of(fz_context *ctx, pdf_obj *page);

#endif
