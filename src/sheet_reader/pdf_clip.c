/* Clips: what is seen of the things painted within them, as boxes in mm. The lines themselves are not cut. */
#include "sheet_reader/pdf_device_in.h"

enum { CLIPS_MOST = 10000 };

/* A clip's path on its way into a box. */
struct boxing {
    struct to_mm t;
    struct clip_shape shape;
};

static double across(const struct boxing *b, float x, float y)
{
    return b->t.m[0] * (double)x + b->t.m[2] * (double)y + b->t.m[4];
}

static double up(const struct boxing *b, float x, float y)
{
    return b->t.m[1] * (double)x + b->t.m[3] * (double)y + b->t.m[5];
}

static void box_move(fz_context *ctx, void *arg, float x, float y)
{
    struct boxing *b = arg;
    (void)ctx;
    clip_shape_move(&b->shape, across(b, x, y), up(b, x, y));
}

static void box_line(fz_context *ctx, void *arg, float x, float y)
{
    struct boxing *b = arg;
    (void)ctx;
    clip_shape_line(&b->shape, across(b, x, y), up(b, x, y));
}

static void box_cubic(fz_context *ctx, void *arg, float x1, float y1, float x2, float y2, float x, float y)
{
    struct boxing *b = arg;
    (void)ctx;
    clip_shape_cubic(&b->shape, across(b, x1, y1), up(b, x1, y1), across(b, x2, y2), up(b, x2, y2), across(b, x, y),
                     up(b, x, y));
}

static void box_close(fz_context *ctx, void *arg)
{
    struct boxing *b = arg;
    (void)ctx;
    clip_shape_close(&b->shape);
}

static const fz_path_walker boxer = { box_move, box_line, box_cubic, box_close, NULL, NULL, NULL, NULL };

struct sheet_clip pdf_clip_of_path(fz_context *ctx, const struct pdf_device *d, const fz_path *path,
                                   const fz_stroke_state *stroke, fz_matrix ctm)
{
    if (stroke)
        return pdf_clip_of_rect(d, fz_bound_path(ctx, path, stroke, ctm), fz_identity);
    struct boxing b = { pdf_device_to_mm(d, ctm), clip_shape_begin() };
    fz_walk_path(ctx, path, &boxer, &b);
    return clip_shape_box(&b.shape);
}

struct sheet_clip pdf_clip_of_rect(const struct pdf_device *d, fz_rect rect, fz_matrix ctm)
{
    struct boxing b = { pdf_device_to_mm(d, ctm), clip_shape_begin() };
    if (fz_is_infinite_rect(rect))
        return clip_unknown();
    if (fz_is_valid_rect(rect)) {
        box_move(NULL, &b, rect.x0, rect.y0);
        box_line(NULL, &b, rect.x1, rect.y0);
        box_line(NULL, &b, rect.x1, rect.y1);
        box_line(NULL, &b, rect.x0, rect.y1);
    }
    b.shape.box.flags = SHEET_CLIP_SHAPED;
    return b.shape.box;
}

struct sheet_clip pdf_clip_seen(const struct pdf_device *d)
{
    return d->clip_count ? d->clips[d->clip_count - 1].seen : clip_none();
}

void pdf_clip_use(struct pdf_device *d, size_t without)
{
    collect_clip(d->collect, d->clip_count > without ? &d->clips[d->clip_count - without - 1].seen : NULL);
}

void pdf_clip_push(fz_context *ctx, struct pdf_device *d, struct clip clip, struct sheet_clip own)
{
    if (d->clip_count >= CLIPS_MOST)
        fz_throw(ctx, FZ_ERROR_GENERIC, "too many clips within clips");
    if (d->clip_count == d->clip_cap) {
        size_t cap = d->clip_cap ? d->clip_cap * 2 : 16;
        d->clips = fz_realloc(ctx, d->clips, cap * sizeof *d->clips);
        d->clip_cap = cap;
    }
    struct sheet_clip around = pdf_clip_seen(d);
    clip.seen = clip_both(&around, &own);
    clip.path = fz_keep_path(ctx, clip.path);
    d->clips[d->clip_count++] = clip;
    pdf_clip_use(d, 0);
}

void pdf_clip_pop(fz_context *ctx, struct pdf_device *d)
{
    if (d->clip_count)
        fz_drop_path(ctx, d->clips[--d->clip_count].path);
    pdf_clip_use(d, 0);
}
