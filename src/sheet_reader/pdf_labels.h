/* Page labels (ISO 32000-2, 12.4.2): what the pages are called, "A 1", "iv", "12". */
#ifndef SHEET_READER_PDF_LABELS_H
#define SHEET_READER_PDF_LABELS_H

#include "sheet_reader/mupdf.h"

struct pdf_labels;

/* Those of a document; the caller owns them. A list that is broken has no labels. Throws when memory runs out. */
struct pdf_labels *pdf_labels_read(fz_context *ctx, pdf_document *doc);
void pdf_labels_drop(fz_context *ctx, struct pdf_labels *l);

/* The label of a page by its index from 0: UTF-8, which the caller frees with fz_free, or NULL. */
char *pdf_labels_find(fz_context *ctx, const struct pdf_labels *l, int page);

#endif
