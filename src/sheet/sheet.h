/* A read sheet: drawn pages with their layers, as the reader gave them and validate.c found them sound. All indices in
 * it hold; see form.h for what each thing is. It knows nothing of pieces. */
#ifndef SHEET_SHEET_H
#define SHEET_SHEET_H

#include "sheet/form.h"

#include <stdbool.h>
#include <stddef.h>

struct sheet {
    const void *bytes; /* what all else points into */
    size_t byte_count;
    const struct sheet_page *pages;
    const struct sheet_layer *layers;
    const struct sheet_style *styles;
    const struct sheet_clip *clips;
    const struct sheet_item *items;
    const struct sheet_part *parts;
    const struct sheet_run *runs;
    const struct sheet_image *images;
    const struct sheet_text *texts;
    const struct sheet_note *notes;
    const struct sheet_point *points;
    const double *numbers;
    const uint8_t *kinds;
    const char *text_bytes;
    const uint8_t *pixels;
    size_t counts[SHEET_SECTIONS]; /* how many of each */
};

/* Looks at every number of a result at an address that is a multiple of 8, and makes the view of it. False, with *flaw
 * saying what is wrong with it (a static text) and *out empty, when anything is. The view is good as long as the bytes
 * are. */
bool sheet_validate(const void *bytes, size_t count, struct sheet *out, const char **flaw);

/* A text of the sheet by its index; "" for SHEET_NONE. Good as long as the sheet. */
const char *sheet_text_at(const struct sheet *s, uint32_t text);

#endif
