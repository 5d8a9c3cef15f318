#include "sheet_reader/scan.h"
#include "sheet_reader/trace.h"

#include <math.h>

#define PIXELS_MOST ((int64_t)600 << 20) /* of a picture that is looked at: A0 at 600 dots per inch */
#define PIXELS_KEPT                                                                                                    \
    ((int64_t)36 << 20)  /* of one that is halved no more, for the jail's memory: A4 at 600 dots per inch */
#define DPI_ENOUGH 450.0 /* common practice, no source: at half of it a drawn line is two dots wide */

/* A picture as grey on white paper. */
struct grey {
    uint32_t width, height;
    uint8_t *pixels; /* rows from the top, 0 black; fz_free */
};

/* Grey of a mask: painted is black. */
static void of_mask(const fz_pixmap *from, uint8_t *grey)
{
    for (int y = 0; y < from->h; y++)
        for (int x = 0; x < from->w; x++)
            *grey++ = (uint8_t)(255 - from->samples[y * from->stride + x * from->n]);
}

/* from->n is 1, or 2 with how much it covers, by which the grey is multiplied already. */
static void of_gray(const fz_pixmap *from, uint8_t *grey)
{
    for (int y = 0; y < from->h; y++)
        for (int x = 0; x < from->w; x++) {
            const unsigned char *at = from->samples + y * from->stride + x * from->n;
            *grey++ = (uint8_t)(from->alpha ? at[0] + 255 - at[1] : at[0]);
        }
}

static bool too_many(int wide, int high, double width_mm, double height_mm)
{
    return (int64_t)wide * high > PIXELS_KEPT ||
           (wide * 25.4 > DPI_ENOUGH * width_mm && high * 25.4 > DPI_ENOUGH * height_mm);
}

/* The pixels of a picture that is so many mm large, each two by two of them as one (and each two by two of those) while
 * it has more dots than drawings need or memory holds. */
static fz_pixmap *pixels_of(fz_context *ctx, fz_image *image, double width_mm, double height_mm)
{
    int wide = image->w, high = image->h;
    while (wide > 1 && high > 1 && too_many(wide, high, width_mm, height_mm)) {
        wide = (wide + 1) / 2;
        high = (high + 1) / 2;
    }
    /* MuPDF halves once more only when the half is larger than what is asked for by two */
    fz_matrix size = fz_scale((float)(wide - 3), (float)(high - 3));
    return fz_get_pixmap_from_image(ctx, image, NULL, wide == image->w ? NULL : &size, NULL, NULL);
}

static struct grey copy_of(fz_context *ctx, const fz_pixmap *from)
{
    struct grey g = { (uint32_t)from->w, (uint32_t)from->h, NULL };
    g.pixels = fz_malloc(ctx, (size_t)from->w * (size_t)from->h);
    if (from->colorspace)
        of_gray(from, g.pixels);
    else
        of_mask(from, g.pixels);
    return g;
}

/* Throws when it is damaged, or too large. */
static struct grey grey_of(fz_context *ctx, fz_image *image, double width_mm, double height_mm)
{
    fz_pixmap *all = NULL, *gray = NULL;
    struct grey g = { 0 };
    fz_var(all);
    fz_var(gray);
    if (image->w <= 0 || image->h <= 0 || image->w > SHEET_IMAGE_SIDE_MOST || image->h > SHEET_IMAGE_SIDE_MOST ||
        (int64_t)image->w * image->h > PIXELS_MOST)
        fz_throw(ctx, FZ_ERROR_MEMORY, "too large an image");
    fz_try(ctx)
    {
        all = pixels_of(ctx, image, width_mm, height_mm);
        if (all->colorspace && !fz_colorspace_is_gray(ctx, all->colorspace)) {
            gray = fz_convert_pixmap(ctx, all, fz_device_gray(ctx), NULL, NULL, fz_default_color_params, 1);
            fz_drop_pixmap(ctx, all);
            all = gray;
            gray = NULL;
        }
        g = copy_of(ctx, all);
    }
    fz_always(ctx)
    {
        fz_drop_pixmap(ctx, gray);
        fz_drop_pixmap(ctx, all);
    }
    fz_catch(ctx) fz_rethrow(ctx);
    return g;
}

static struct sheet_image place_of(const double m[6])
{
    return (
        struct sheet_image){ .across = { m[0], m[1] }, .up = { -m[2], -m[3] }, .origin = { m[4] + m[2], m[5] + m[3] } };
}

void scan_put_place(struct collect *c, uint32_t layer, const double to_mm[6])
{
    struct sheet_image image = place_of(to_mm);
    const uint8_t grey = 128;
    image.width = image.height = 1;
    collect_image(c, layer, &image, &grey);
}

static double length(const double v[2])
{
    return sqrt(v[0] * v[0] + v[1] * v[1]);
}

static bool trace(fz_context *ctx, struct collect *c, uint32_t layer, fz_image *image, const double to_mm[6])
{
    struct sheet_image at = place_of(to_mm);
    struct grey g = grey_of(ctx, image, length(at.across), length(at.up));
    at.width = g.width;
    at.height = g.height;
    bool whole = trace_put(c, layer, &at, g.pixels);
    fz_free(ctx, g.pixels);
    return whole;
}

enum sheet_exit scan_put(fz_context *ctx, struct collect *c, uint32_t layer, fz_image *image, const double to_mm[6])
{
    bool whole = false;
    fz_var(whole);
    scan_put_place(c, layer, to_mm);
    fz_try(ctx) whole = trace(ctx, c, layer, image, to_mm);
    fz_catch(ctx) return fz_caught(ctx) == FZ_ERROR_MEMORY ? SHEET_EXIT_TOO_LARGE : SHEET_EXIT_DAMAGED;
    return whole ? SHEET_EXIT_DONE : SHEET_EXIT_TOO_LARGE;
}

uint32_t scan_dpi(const fz_image *image, const double to_mm[6])
{
    double dpi = image->w * 25.4 / length(to_mm);
    return dpi < 1 ? 1 : dpi < 1e6 ? (uint32_t)(dpi + 0.5) : 1000000;
}
