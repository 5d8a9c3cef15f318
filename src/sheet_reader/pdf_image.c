/* Images: where they lie, and their ink when a page is made of nothing else. */
#include "sheet_reader/pdf_device_in.h"
#include "sheet_reader/scan.h"

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
    scan_put_place(d->collect, d->layer, at.m);
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
        scan_put_place(d->collect, d->held[i].layer, d->held[i].at.m);
    }
    pdf_clip_use(d, 0);
    pdf_image_forget(ctx, d);
}

uint32_t pdf_image_page_end(fz_context *ctx, struct pdf_device *d)
{
    uint32_t finest = 0;
    for (int i = 0; i < d->held_count; i++) {
        const struct held_image *held = &d->held[i];
        uint32_t dpi = scan_dpi(held->image, held->at.m);
        collect_clip(d->collect, &held->seen);
        if (scan_put(ctx, d->collect, held->layer, held->image, held->at.m) != SHEET_EXIT_DONE)
            collect_note(d->collect, SHEET_NOTE_LEFT_OUT, "an image that is too large or damaged", 1, 0);
        finest = dpi > finest ? dpi : finest;
    }
    pdf_image_forget(ctx, d);
    return finest;
}
