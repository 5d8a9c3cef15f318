/* A result as the reader would write it, for tests that spoil it: two pages, nested layers, a dashed line, a run of
 * text with an outline, an image, clips and a note. */
#ifndef TESTS_SHEET_DRAWN_H
#define TESTS_SHEET_DRAWN_H

#include "sheet_reader/collect.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static inline void draw_first_page(struct collect *c)
{
    static const double dashes[] = { 4, 2, 1 };
    struct collect_style dashed = { 0.5, 0xff0000, SHEET_STROKED, dashes, 3 };
    struct collect_style black = { 0, 0, SHEET_FILLED, NULL, 0 };
    static const uint8_t grey[] = { 0, 128, 255, 64, 32, 16 };
    collect_page(c, 210, 297, "A 1");
    uint32_t sizes = collect_layer(c, SHEET_NONE, "sizes", SHEET_LAYER_ON);
    uint32_t ten = collect_layer(c, sizes, "größe 10", SHEET_LAYER_ON | SHEET_LAYER_LOCKED);
    collect_clip(c, &(struct sheet_clip){ 0, 0, 100, 50, 0, 0 });
    collect_begin(c, ten, &dashed);
    collect_move(c, 10, 10);
    collect_line(c, 110, 10);
    collect_cubic(c, 120, 10, 130, 20, 130, 30);
    collect_close(c);
    collect_move(c, 5, 5);
    collect_line(c, 6, 7);
    collect_end(c);
    collect_clip(c, &(struct sheet_clip){ -1, -1, 211, 298, 0, 0 }); /* the whole page */
    collect_begin_run(c, SHEET_NONE, &black, "cut 2", 5, &(struct sheet_run){ 20, 30, 0, 2, 5 });
    collect_move(c, 20, 30);
    collect_line(c, 20, 35);
    collect_close(c);
    collect_end(c);
    collect_clip(c, &(struct sheet_clip){ 5, 5, 20, 1e9, SHEET_CLIP_SHAPED, 0 });
    collect_image(c, SHEET_NONE, &(struct sheet_image){ { 30, 0 }, { 0, 20 }, { 1, 2 }, 3, 2, 0 }, grey);
}

/* Draws it; the caller destroys it. */
static inline struct collect *draw_sheet(void)
{
    struct collect *c = collect_create(-1);
    struct collect_style thin = { 0, 0x0000ff, SHEET_STROKED, NULL, 0 };
    draw_first_page(c);
    collect_page(c, 100, 100, NULL);
    collect_clip(c, &(struct sheet_clip){ 0, 0, 100, 50, 0, 0 });
    collect_begin(c, 0, &thin);
    collect_move(c, 0, 0);
    collect_line(c, 100, 100);
    collect_end(c);
    collect_note(c, SHEET_NOTE_LEFT_OUT, "a gradient", 3, 0);
    return c;
}

/* The bytes of a result, from malloc; the caller frees them. NULL when it was not written. */
static inline void *drawn_bytes(struct collect *c, size_t *count)
{
    FILE *file = tmpfile();
    unsigned char *bytes = NULL;
    if (file && collect_write(c, fileno(file)) && fseek(file, 0, SEEK_END) == 0) {
        *count = (size_t)ftell(file);
        rewind(file);
        bytes = malloc(*count);
        if (bytes && fread(bytes, 1, *count, file) != *count) {
            free(bytes);
            bytes = NULL;
        }
    }
    if (file)
        fclose(file);
    return bytes;
}

#endif
