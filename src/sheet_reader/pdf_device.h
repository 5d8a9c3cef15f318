/* What the interpreter paints, put into the sheet: paths, text, images. It paints nothing itself. */
#ifndef SHEET_READER_PDF_DEVICE_H
#define SHEET_READER_PDF_DEVICE_H

#include "sheet_reader/collect.h"
#include "sheet_reader/mupdf.h"
#include "sheet_reader/pdf_page.h"

struct pdf_device;

/* A device that puts what it is given into `c`. `cookie` is told to stop once `c` has failed. The caller drops it with
 * fz_drop_device. */
struct pdf_device *pdf_device_create(fz_context *ctx, struct collect *c, fz_cookie *cookie);
fz_device *pdf_device_base(struct pdf_device *d);

/* Starts a page, which was put into the sheet already. */
void pdf_device_page(fz_context *ctx, struct pdf_device *d, const struct pdf_frame *frame);

/* Ends its content. Returns the dots per inch when an image is all that it shows, else 0. What comes after lies on top. */
uint32_t pdf_device_page_end(fz_context *ctx, struct pdf_device *d);

/* The layer of what is painted from now on. */
void pdf_device_layer(struct pdf_device *d, uint32_t layer);

/* Between these two, a fill and a stroke of one path are one item. */
void pdf_device_both_begin(fz_context *ctx, struct pdf_device *d);
void pdf_device_both_end(fz_context *ctx, struct pdf_device *d);

#endif
