/* What pdf_layers.c and pdf_condition.c share. */
#ifndef SHEET_READER_PDF_LAYERS_IN_H
#define SHEET_READER_PDF_LAYERS_IN_H

#include "sheet_reader/collect.h"
#include "sheet_reader/mupdf.h"

#include <stdbool.h>

#define NO_ROW UINT32_MAX

/* A group, a heading of Order, or a condition on several groups. */
struct layer_row {
    const char *name;
    const char *key; /* tells conditions apart: a group's is its object number; a heading's is "" */
    uint32_t layer;  /* in the sheet; SHEET_NONE: not handed over yet */
    uint32_t parent; /* a row or NO_ROW */
    unsigned flags;  /* SHEET_LAYER_ON … */
    bool several;    /* its name holds "and" or "or" */
};

struct pdf_layers {
    pdf_document *doc;
    struct collect *collect;
    fz_pool *pool; /* names and keys */
    struct layer_row *rows;
    size_t count, cap;
    uint32_t *slots; /* by object number: its row or NO_ROW */
    int slot_count;
    int order_left; /* entries of Order that are still read: it may name itself */
    bool base_on;
};

/* The row of a group, a new one when it was not seen before. */
uint32_t layer_group(fz_context *ctx, struct pdf_layers *l, pdf_obj *group);

#endif
