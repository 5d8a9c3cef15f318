#include "sheet_reader/picture.h"
#include "sheet_reader/picture_size.h"
#include "sheet_reader/scan.h"

enum { STORE_BYTES = 1 << 20 };

/* How large the picture is, turned as it is to be seen, and how its unit square comes to lie there. */
struct frame {
    double width_mm, height_mm, to_mm[6];
};

static struct frame frame_of(fz_context *ctx, fz_image *image, struct picture_dpi dpi)
{
    fz_matrix turn = fz_image_orientation_matrix(ctx, image); /* y down, into the unit square again */
    double own_w = image->w * 25.4 / dpi.x, own_h = image->h * 25.4 / dpi.y;
    bool upright = turn.a != 0;
    double w = upright ? own_w : own_h, h = upright ? own_h : own_w;
    return (struct frame){ w,
                           h,
                           { (double)turn.a * w, (double)-turn.b * h, (double)turn.c * w, (double)-turn.d * h,
                             (double)turn.e * w, h - (double)turn.f * h } };
}

static enum sheet_exit put_page(fz_context *ctx, struct collect *c, fz_image *image, struct picture_dpi dpi)
{
    struct frame f = frame_of(ctx, image, dpi);
    collect_page(c, f.width_mm, f.height_mm, NULL);
    collect_note(c, SHEET_NOTE_SCAN, NULL, 1, scan_dpi(image, f.to_mm));
    if (dpi.x != dpi.y)
        collect_note(c, SHEET_NOTE_STRETCHED, NULL, 1, 0);
    return scan_put(ctx, c, SHEET_NONE, image, f.to_mm);
}

/* What becomes of a picture once it is open. */
struct use {
    struct collect *c;
    struct picture_dpi dpi; /* of one that is the page */
    const double *to_mm;    /* of one within it: where, NULL: it is the page */
    uint32_t layer, found_dpi;
    bool mended;
};

static enum sheet_exit put(fz_context *ctx, fz_image *image, struct use *use)
{
    if (!use->to_mm)
        return put_page(ctx, use->c, image, use->dpi);
    use->found_dpi = scan_dpi(image, use->to_mm);
    return scan_put(ctx, use->c, use->layer, image, use->to_mm);
}

static enum sheet_exit use_caught(fz_context *ctx, const char *bytes, size_t count, struct use *use)
{
    fz_buffer *buffer = NULL;
    fz_image *image = NULL;
    enum sheet_exit exit = SHEET_EXIT_DONE;
    fz_var(buffer);
    fz_var(image);
    fz_var(exit);
    fz_try(ctx)
    {
        buffer = fz_new_buffer_from_shared_data(ctx, (const unsigned char *)bytes, count);
        image = fz_new_image_from_buffer(ctx, buffer);
        exit = put(ctx, image, use);
    }
    fz_always(ctx)
    {
        fz_drop_image(ctx, image);
        fz_drop_buffer(ctx, buffer);
    }
    fz_catch(ctx) exit = fz_caught(ctx) == FZ_ERROR_MEMORY ? SHEET_EXIT_TOO_LARGE : SHEET_EXIT_DAMAGED;
    return exit == SHEET_EXIT_DONE ? collect_exit(use->c) : exit;
}

/* MuPDF warns of pictures that it takes in part. */
static void on_warning(void *user, const char *message)
{
    (void)message;
    ((struct use *)user)->mended = true;
}

static enum sheet_exit use_picture(const char *bytes, size_t count, struct use *use)
{
    fz_context *ctx = mupdf_context(STORE_BYTES);
    if (!ctx)
        return SHEET_EXIT_TOO_LARGE;
    fz_set_warning_callback(ctx, on_warning, use);
    enum sheet_exit exit = use_caught(ctx, bytes, count, use);
    fz_flush_warnings(ctx);
    if (use->mended)
        collect_note(use->c, SHEET_NOTE_MENDED, NULL, 1, 0);
    fz_drop_context(ctx);
    return exit;
}

enum sheet_exit picture_read(struct collect *c, const char *bytes, size_t count, double dpi)
{
    struct use use = { .c = c, .dpi = { dpi, dpi } };
    if (dpi <= 0 && !picture_size(bytes, count, &use.dpi))
        return SHEET_EXIT_DPI_NEEDED;
    return use_picture(bytes, count, &use);
}

enum sheet_exit picture_put(struct collect *c, uint32_t layer, const char *bytes, size_t count, const double to_mm[6],
                            uint32_t *dpi)
{
    struct use use = { .c = c, .layer = layer, .to_mm = to_mm };
    enum sheet_exit exit = use_picture(bytes, count, &use);
    *dpi = use.found_dpi;
    return exit;
}
