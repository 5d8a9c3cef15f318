/* Optional content (ISO 32000-2, 8.11) as layers: the groups of the default configuration as a tree in its Order, those
 * that it does not name at the end; and, as they turn up on the pages, layers for what depends on several groups. Each
 * carries the state that the default configuration gives it (BaseState, ON, OFF); usage and events are left alone. */
#ifndef SHEET_READER_PDF_LAYERS_H
#define SHEET_READER_PDF_LAYERS_H

#include "sheet_reader/collect.h"
#include "sheet_reader/mupdf.h"

struct pdf_layers;

/* Puts the tree of the document's groups into `c`. The caller owns the result. Throws when memory runs out. */
struct pdf_layers *pdf_layers_read(fz_context *ctx, pdf_document *doc, struct collect *c);
void pdf_layers_drop(fz_context *ctx, struct pdf_layers *l);

/* The layer of content that `oc` (a group or a membership dictionary) governs and that stands within content of the
 * layer `outer` (or SHEET_NONE). What depends on one group lies on that group's layer; on several, on a layer of its
 * own, whose name tells the condition ("36 and not Lines"). `outer` when `oc` is no condition. */
uint32_t pdf_layers_find(fz_context *ctx, struct pdf_layers *l, uint32_t outer, pdf_obj *oc);

#endif
