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

/* What all that is painted of a file has in common. */
struct pdf_walk_with {
    pdf_document *doc;
    struct pdf_device *device;
    struct pdf_layers *layers;
    fz_cookie *cookie;
    struct pdf_walk_bounds *bounds;
};

/* Paints one page. Throws what MuPDF throws. */
void pdf_walk_page(fz_context *ctx, const struct pdf_walk_with *with, pdf_obj *page);

/* Paints a form by itself, placed on the page by `at`, where `oc` (or NULL) governs it. Throws what MuPDF throws. */
void pdf_walk_form(fz_context *ctx, const struct pdf_walk_with *with, pdf_obj *form, fz_matrix at, pdf_obj *oc);

#endif
