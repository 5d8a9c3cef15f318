/* Images: where they lie, and their pixels when a page is made of nothing else. */
#include "sheet_reader/pdf_device_in.h"

#include <string.h>

#define PIXELS_MOST ((int64_t)1 << 30)  /* of an image that is looked at */
#define PIXELS_KEPT ((int64_t)24 << 20) /* beyond, it is halved: an A3 at 400 dots per inch, for the jail's memory */

/* MuPDF's unit square of an image has its origin at the top left and the second axis down; the sheet's goes up. */
static struct sheet_image image_at(const struct to_mm *t)
{
    const double *m = t->m;
    return (
        struct sheet_image){ .across = { m[0], m[1] }, .up = { -m[2], -m[3] }, .origin = { m[4] + m[2], m[5] + m[3] } };
}

/* One pixel of middle grey stands for the rest. */
static void put_without_pixels(struct pdf_device *d, uint32_t layer, const struct to_mm *at)
{
    struct sheet_image image = image_at(at);
    const uint8_t grey = 128;
    image.width = image.height = 1;
    collect_image(d->collect, layer, &image, &grey);
}

void pdf_image_put(fz_context *ctx, struct pdf_device *d, fz_image *image, fz_matrix ctm)
{
    struct to_mm at = pdf_device_to_mm(d, ctm);
    if (!pdf_device_has(&at))
        return;
    if (d->only_images && d->held_count < HELD_IMAGES) {
        d->held[d->held_count++] = (struct held_image){ fz_keep_image(ctx, image), at, d->layer, pdf_clip_seen(d) };
        return;
    }
    pdf_device_drawing(ctx, d);
    put_without_pixels(d, d->layer, &at);
}

void pdf_image_forget(fz_context *ctx, struct pdf_device *d)
{
    for (int i = 0; i < d->held_count; i++)
        fz_drop_image(ctx, d->held[i].image);
    d->held_count = 0;
}

void pdf_image_flush(fz_context *ctx, struct pdf_device *d)
{
    for (int i = 0; i < d->held_count; i++) {
        collect_clip(d->collect, &d->held[i].seen);
        put_without_pixels(d, d->held[i].layer, &d->held[i].at);
    }
    pdf_clip_use(d, 0);
    pdf_image_forget(ctx, d);
}

/* Grey of a mask: painted is black. */
static void grey_of_mask(const fz_pixmap *from, uint8_t *grey)
{
    for (int y = 0; y < from->h; y++)
        for (int x = 0; x < from->w; x++)
            *grey++ = (uint8_t)(255 - from->samples[y * from->stride + x * from->n]);
}

/* Grey on white paper; from->n is 1, or 2 with how much it covers, by which the grey is multiplied already. */
static void grey_of_gray(const fz_pixmap *from, uint8_t *grey)
{
    for (int y = 0; y < from->h; y++)
        for (int x = 0; x < from->w; x++) {
            const unsigned char *at = from->samples + y * from->stride + x * from->n;
            *grey++ = (uint8_t)(from->alpha ? at[0] + 255 - at[1] : at[0]);
        }
}

static void put_pixels(fz_context *ctx, struct pdf_device *d, const struct held_image *held, const fz_pixmap *from)
{
    struct sheet_image image = image_at(&held->at);
    image.width = (uint32_t)from->w;
    image.height = (uint32_t)from->h;
    uint8_t *grey = fz_malloc(ctx, (size_t)from->w * (size_t)from->h);
    if (from->colorspace)
        grey_of_gray(from, grey);
    else
        grey_of_mask(from, grey);
    collect_image(d->collect, held->layer, &image, grey);
    fz_free(ctx, grey);
}

static bool of_size(const fz_image *image)
{
    return image->w > 0 && image->h > 0 && image->w <= SHEET_IMAGE_SIDE_MOST && image->h <= SHEET_IMAGE_SIDE_MOST &&
           (int64_t)image->w * image->h <= PIXELS_MOST;
}

/* The pixels, each two by two of a large image (and each two by two of those) as one. */
static fz_pixmap *pixels_of(fz_context *ctx, fz_image *image)
{
    int wide = image->w, high = image->h;
    while ((int64_t)wide * high > PIXELS_KEPT) {
        wide = (wide + 1) / 2;
        high = (high + 1) / 2;
    }
    /* MuPDF halves once more only when the half is larger than what is asked for by two */
    fz_matrix size = fz_scale((float)(wide - 3), (float)(high - 3));
    return fz_get_pixmap_from_image(ctx, image, NULL, wide == image->w ? NULL : &size, NULL, NULL);
}

static void put_with_pixels(fz_context *ctx, struct pdf_device *d, const struct held_image *held)
{
    fz_pixmap *all = NULL, *gray = NULL;
    fz_var(all);
    fz_var(gray);
    fz_try(ctx)
    {
        all = pixels_of(ctx, held->image);
        if (all->colorspace)
            gray = fz_convert_pixmap(ctx, all, fz_device_gray(ctx), NULL, NULL, fz_default_color_params, 1);
        put_pixels(ctx, d, held, gray ? gray : all);
    }
    fz_always(ctx)
    {
        fz_drop_pixmap(ctx, gray);
        fz_drop_pixmap(ctx, all);
    }
    fz_catch(ctx)
    {
        collect_note(d->collect, SHEET_NOTE_LEFT_OUT, "an image that is too large or damaged", 1, 0);
        put_without_pixels(d, held->layer, &held->at);
    }
}

bool pdf_image_page_end(fz_context *ctx, struct pdf_device *d)
{
    bool any = d->held_count > 0;
    for (int i = 0; i < d->held_count; i++) {
        collect_clip(d->collect, &d->held[i].seen);
        if (of_size(d->held[i].image))
            put_with_pixels(ctx, d, &d->held[i]);
        else
            put_without_pixels(d, d->held[i].layer, &d->held[i].at);
    }
    pdf_image_forget(ctx, d);
    return any;
}
