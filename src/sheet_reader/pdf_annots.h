/* What stands on a page beside its content: stamps, drawn lines and boxes, letters, fields of a form, by the appearance
 * that the file gives each (ISO 32000-2, 12.5.5). */
#ifndef SHEET_READER_PDF_ANNOTS_H
#define SHEET_READER_PDF_ANNOTS_H

#include "sheet_reader/mupdf.h"
#include "sheet_reader/pdf_walk.h"

/* Draws those that are shown on a screen, each on its layer. Returns how many are shown and were not drawn: notes that
 * are marks alone, sounds, fields without an appearance. Throws when memory runs out. */
uint32_t pdf_annots_draw(fz_context *ctx, const struct pdf_walk_with *with, pdf_obj *page);

#endif
