/* A page's content put through MuPDF's interpreter, with our own eyes on marked content and on forms: they tell which
 * layer is painted on. (MuPDF's own layers know only names, and miss those of forms.) */
#ifndef SHEET_READER_PDF_WALK_H
#define SHEET_READER_PDF_WALK_H

#include "sheet_reader/mupdf.h"
#include "sheet_reader/pdf_device.h"
#include "sheet_reader/pdf_layers.h"

struct pdf_walk_bounds {
    long forms_left; /* how many more forms are drawn, in the whole file: forms of forms of forms multiply */
    long left_out;   /* how many were left out */
};

/* Paints one page. Throws what MuPDF throws. */
void pdf_walk_page(fz_context *ctx, pdf_document *doc, pdf_obj *page, struct pdf_device *device,
                   struct pdf_layers *layers, fz_cookie *cookie, struct pdf_walk_bounds *bounds);

#endif
