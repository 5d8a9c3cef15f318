/* What pdf_device.c, pdf_clip.c, pdf_text.c and pdf_image.c share. */
#ifndef SHEET_READER_PDF_DEVICE_IN_H
#define SHEET_READER_PDF_DEVICE_IN_H

#include "sheet_reader/clip_shape.h"
#include "sheet_reader/collect.h"
#include "sheet_reader/mupdf.h"
#include "sheet_reader/pdf_page.h"

#include <stdbool.h>

enum { HELD_IMAGES = 8, GLYPHS = 1024 };

/* A matrix in double, as struct pdf_frame has it. */
struct to_mm {
    double m[6];
};

/* An image that was painted before anything else on its page. */
struct held_image {
    fz_image *image;
    struct to_mm at;
    uint32_t layer;
    struct sheet_clip seen;
};

/* An outline of a letter, one em high, in a slot by font and number. */
struct glyph_slot {
    fz_font *font;
    int glyph;
    fz_path *outline; /* NULL: has none */
};

/* The innermost clips, outermost first. */
struct clip {
    fz_path *path; /* NULL: no path */
    fz_matrix ctm;
    bool even_odd, told;    /* told: stands in the sheet as something painted through it */
    struct sheet_clip seen; /* through it and all around it */
};

struct pdf_device {
    fz_device base; /* first: MuPDF makes and frees it */
    struct collect *collect;
    fz_cookie *cookie;
    struct pdf_frame frame;
    uint32_t layer;
    int masks;     /* within so many masks, whose content is no drawing */
    bool in_glyph; /* within a letter that is drawn by operators: its paths are parts of the run */

    struct clip *clips;
    size_t clip_count, clip_cap;

    bool both;     /* a fill and a stroke belong together */
    fz_path *fill; /* the fill that waits for its stroke */
    fz_matrix fill_ctm;
    struct collect_style fill_style;

    fz_text *told_text; /* filled last: its stroke and clip are the same text again */
    struct glyph_slot glyphs[GLYPHS];

    struct held_image held[HELD_IMAGES];
    int held_count;
    bool only_images; /* so far, on this page */
};

struct to_mm pdf_device_to_mm(const struct pdf_device *d, fz_matrix ctm);

/* Whether a unit square there lies where a sheet can hold it. */
bool pdf_device_has(const struct to_mm *t);

/* How many mm a unit is long, on average of all directions. */
double pdf_device_scale(const struct to_mm *t);

uint32_t pdf_device_rgb(fz_context *ctx, fz_colorspace *space, const float *color, fz_color_params params);

/* Puts the subpaths of `path` into the item that was begun. */
void pdf_device_parts(fz_context *ctx, struct pdf_device *d, const fz_path *path, const struct to_mm *t);

/* Something other than an image comes: held images are put down, and the page is not one that is an image alone. */
void pdf_device_drawing(fz_context *ctx, struct pdf_device *d);

/* After each item. */
void pdf_device_check(struct pdf_device *d);

/* The box of a path, one that only holds it unless it is a rectangle along the page. A line's `stroke` may be NULL. */
struct sheet_clip pdf_clip_of_path(fz_context *ctx, const struct pdf_device *d, const fz_path *path,
                                   const fz_stroke_state *stroke, fz_matrix ctm);

/* One that holds all within a rectangle. */
struct sheet_clip pdf_clip_of_rect(const struct pdf_device *d, fz_rect rect, fz_matrix ctm);

/* What is seen through all clips that are in force. */
struct sheet_clip pdf_clip_seen(const struct pdf_device *d);

/* What comes now is painted through `clip` as well, where only `own` of it shows; back to what it was before. */
void pdf_clip_push(fz_context *ctx, struct pdf_device *d, struct clip clip, struct sheet_clip own);
void pdf_clip_pop(fz_context *ctx, struct pdf_device *d);

/* The sheet takes what comes as seen through the clips without the innermost `without` ones. */
void pdf_clip_use(struct pdf_device *d, size_t without);

void pdf_text_put(fz_context *ctx, struct pdf_device *d, const fz_text *text, fz_matrix ctm,
                  const struct collect_style *style);
void pdf_text_forget(fz_context *ctx, struct pdf_device *d); /* the outlines that are kept */

void pdf_image_put(fz_context *ctx, struct pdf_device *d, fz_image *image, fz_matrix ctm);
void pdf_image_flush(fz_context *ctx, struct pdf_device *d);        /* held ones, their places alone */
uint32_t pdf_image_page_end(fz_context *ctx, struct pdf_device *d); /* held ones with their ink; the dots per inch of
                                                                       the finest, 0 without any */
void pdf_image_forget(fz_context *ctx, struct pdf_device *d);

#endif
