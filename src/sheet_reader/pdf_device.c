#include "sheet_reader/pdf_device.h"
#include "sheet_reader/pdf_device_in.h"

#include <math.h>
#include <string.h>

enum { PATTERN_GREY = 0x808080 };

struct to_mm pdf_device_to_mm(const struct pdf_device *d, fz_matrix m)
{
    const double *f = d->frame.to_mm;
    double a = m.a, b = m.b, c = m.c, e = m.d, x = m.e, y = m.f;
    return (struct to_mm){ { f[0] * a + f[2] * b, f[1] * a + f[3] * b, f[0] * c + f[2] * e, f[1] * c + f[3] * e,
                             f[0] * x + f[2] * y + f[4], f[1] * x + f[3] * y + f[5] } };
}

double pdf_device_scale(const struct to_mm *t)
{
    return sqrt(fabs(t->m[0] * t->m[3] - t->m[1] * t->m[2]));
}

bool pdf_device_has(const struct to_mm *t)
{
    for (int i = 0; i < 6; i++)
        if (!(fabs(t->m[i]) <= SHEET_COORDINATE_MOST / 4))
            return false;
    return true;
}

static uint32_t byte_of(float part)
{
    return part > 0 ? part < 1 ? (uint32_t)(part * 255 + 0.5f) : 255 : 0;
}

uint32_t pdf_device_rgb(fz_context *ctx, fz_colorspace *space, const float *color, fz_color_params params)
{
    float rgb[3] = { 0, 0, 0 };
    if (space)
        fz_convert_color(ctx, space, color, fz_device_rgb(ctx), rgb, NULL, params);
    return byte_of(rgb[0]) << 16 | byte_of(rgb[1]) << 8 | byte_of(rgb[2]);
}

void pdf_device_check(struct pdf_device *d)
{
    if (collect_failed(d->collect))
        d->cookie->abort = 1;
}

/* A path on its way into the sheet. */
struct tracing {
    struct collect *collect;
    struct to_mm t;
};

/* A number that no sheet holds is brought to its bound: what lies so far out is of no use, but the rest is. */
static double bounded(double mm)
{
    return !(mm > -SHEET_COORDINATE_MOST) ? -SHEET_COORDINATE_MOST
           : mm < SHEET_COORDINATE_MOST   ? mm
                                          : SHEET_COORDINATE_MOST;
}

static double across(const struct tracing *s, float x, float y)
{
    return bounded(s->t.m[0] * (double)x + s->t.m[2] * (double)y + s->t.m[4]);
}

static double up(const struct tracing *s, float x, float y)
{
    return bounded(s->t.m[1] * (double)x + s->t.m[3] * (double)y + s->t.m[5]);
}

static void trace_move(fz_context *ctx, void *arg, float x, float y)
{
    const struct tracing *s = arg;
    (void)ctx;
    collect_move(s->collect, across(s, x, y), up(s, x, y));
}

static void trace_line(fz_context *ctx, void *arg, float x, float y)
{
    const struct tracing *s = arg;
    (void)ctx;
    collect_line(s->collect, across(s, x, y), up(s, x, y));
}

static void trace_cubic(fz_context *ctx, void *arg, float x1, float y1, float x2, float y2, float x, float y)
{
    const struct tracing *s = arg;
    (void)ctx;
    collect_cubic(s->collect, across(s, x1, y1), up(s, x1, y1), across(s, x2, y2), up(s, x2, y2), across(s, x, y),
                  up(s, x, y));
}

static void trace_close(fz_context *ctx, void *arg)
{
    const struct tracing *s = arg;
    (void)ctx;
    collect_close(s->collect);
}

static const fz_path_walker tracer = { trace_move, trace_line, trace_cubic, trace_close, NULL, NULL, NULL, NULL };

void pdf_device_parts(fz_context *ctx, struct pdf_device *d, const fz_path *path, const struct to_mm *t)
{
    struct tracing s = { d->collect, *t };
    fz_walk_path(ctx, path, &tracer, &s);
}

void pdf_device_drawing(fz_context *ctx, struct pdf_device *d)
{
    if (d->held_count)
        pdf_image_flush(ctx, d);
    d->only_images = false;
}

static void put_path(fz_context *ctx, struct pdf_device *d, const fz_path *path, fz_matrix ctm,
                     const struct collect_style *style)
{
    struct to_mm t = pdf_device_to_mm(d, ctm);
    pdf_device_drawing(ctx, d);
    collect_begin(d->collect, d->layer, style);
    pdf_device_parts(ctx, d, path, &t);
    collect_end(d->collect);
    pdf_device_check(d);
}

/* Whether a path is part of a mask (nothing to see) or of a letter (then it went into the letter's run). */
static bool taken(fz_context *ctx, struct pdf_device *d, const fz_path *path, fz_matrix ctm)
{
    if (d->masks)
        return true;
    if (!d->in_glyph)
        return false;
    struct to_mm t = pdf_device_to_mm(d, ctm);
    pdf_device_parts(ctx, d, path, &t);
    return true;
}

/* The fill that waited and was not stroked. */
static void put_fill(fz_context *ctx, struct pdf_device *d)
{
    if (!d->fill)
        return;
    fz_path *path = d->fill;
    d->fill = NULL;
    fz_try(ctx) put_path(ctx, d, path, d->fill_ctm, &d->fill_style);
    fz_always(ctx) fz_drop_path(ctx, path);
    fz_catch(ctx) fz_rethrow(ctx);
}

static void on_fill(fz_context *ctx, fz_device *dev, const fz_path *path, int even_odd, fz_matrix ctm,
                    fz_colorspace *space, const float *color, float alpha, fz_color_params params)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    (void)alpha;
    if (taken(ctx, d, path, ctm))
        return;
    struct collect_style style = { .rgb = pdf_device_rgb(ctx, space, color, params),
                                   .flags = SHEET_FILLED | (even_odd ? SHEET_EVEN_ODD : 0) };
    if (!d->both) {
        put_path(ctx, d, path, ctm, &style);
        return;
    }
    put_fill(ctx, d);
    d->fill = fz_keep_path(ctx, path);
    d->fill_ctm = ctm;
    d->fill_style = style;
}

enum { DASHES = 32 };

/* The dash pattern in mm, 0 when the line is whole. */
static size_t dash_of(const fz_stroke_state *stroke, double scale, double dash_mm[DASHES])
{
    size_t n = stroke->dash_len > 0 ? (size_t)stroke->dash_len : 0;
    double sum = 0;
    if (n > DASHES)
        n = DASHES;
    for (size_t i = 0; i < n; i++) {
        dash_mm[i] = (double)stroke->dash_list[i] * scale;
        if (!(dash_mm[i] >= 0))
            return 0;
        sum += dash_mm[i];
    }
    return sum > 0 ? n : 0;
}

static void on_stroke(fz_context *ctx, fz_device *dev, const fz_path *path, const fz_stroke_state *stroke,
                      fz_matrix ctm, fz_colorspace *space, const float *color, float alpha, fz_color_params params)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    struct to_mm t = pdf_device_to_mm(d, ctm);
    double scale = pdf_device_scale(&t), dash_mm[DASHES];
    (void)alpha;
    if (taken(ctx, d, path, ctm))
        return;
    struct collect_style style = { .width_mm = fabs((double)stroke->linewidth) * scale,
                                   .rgb = pdf_device_rgb(ctx, space, color, params),
                                   .flags = SHEET_STROKED,
                                   .dash_mm = dash_mm,
                                   .dash_count = dash_of(stroke, scale, dash_mm) };
    if (d->fill)
        style.flags |= d->fill_style.flags;
    fz_drop_path(ctx, d->fill);
    d->fill = NULL;
    put_path(ctx, d, path, ctm, &style);
}

/* A pattern or a run of colours fills the innermost clip: that is the path that is painted. */
static void put_clip(fz_context *ctx, struct pdf_device *d)
{
    struct clip *clip = d->clip_count ? &d->clips[d->clip_count - 1] : NULL;
    if (!clip || clip->told || d->masks || d->in_glyph)
        return;
    clip->told = true;
    struct collect_style style = { .rgb = PATTERN_GREY,
                                   .flags = SHEET_FILLED | SHEET_CLIP_PATTERN | (clip->even_odd ? SHEET_EVEN_ODD : 0) };
    pdf_clip_use(d, 1);
    put_path(ctx, d, clip->path, clip->ctm, &style);
    pdf_clip_use(d, 0);
}

/* A fill that waited was painted before. */
static void enter_clip(fz_context *ctx, struct pdf_device *d, const fz_path *path, const fz_stroke_state *stroke,
                       bool even_odd, fz_matrix ctm)
{
    put_fill(ctx, d);
    struct clip clip = { .path = (fz_path *)path, .ctm = ctm, .even_odd = even_odd, .told = d->in_glyph };
    pdf_clip_push(ctx, d, clip, pdf_clip_of_path(ctx, d, path, stroke, ctm));
}

/* Something that is no path. */
static void enter_other_clip(fz_context *ctx, struct pdf_device *d, struct sheet_clip own)
{
    pdf_clip_push(ctx, d, (struct clip){ .told = true }, own);
}

static void on_clip(fz_context *ctx, fz_device *dev, const fz_path *path, int even_odd, fz_matrix ctm, fz_rect scissor)
{
    (void)scissor;
    enter_clip(ctx, (struct pdf_device *)dev, path, NULL, even_odd != 0, ctm);
}

static void on_clip_stroke(fz_context *ctx, fz_device *dev, const fz_path *path, const fz_stroke_state *stroke,
                           fz_matrix ctm, fz_rect scissor)
{
    (void)scissor;
    enter_clip(ctx, (struct pdf_device *)dev, path, stroke, false, ctm);
}

static void on_pop_clip(fz_context *ctx, fz_device *dev)
{
    pdf_clip_pop(ctx, (struct pdf_device *)dev);
}

static void on_shade(fz_context *ctx, fz_device *dev, fz_shade *shade, fz_matrix ctm, float alpha,
                     fz_color_params params)
{
    (void)shade, (void)ctm, (void)alpha, (void)params;
    put_clip(ctx, (struct pdf_device *)dev);
}

/* The tile itself is not wanted: saying that it is known already leaves it out. */
static int on_tile(fz_context *ctx, fz_device *dev, fz_rect area, fz_rect view, float xstep, float ystep, fz_matrix ctm,
                   int id)
{
    (void)area, (void)view, (void)xstep, (void)ystep, (void)ctm, (void)id;
    put_clip(ctx, (struct pdf_device *)dev);
    return 1;
}

static void on_tile_end(fz_context *ctx, fz_device *dev)
{
    (void)ctx, (void)dev;
}

static void on_mask(fz_context *ctx, fz_device *dev, fz_rect area, int luminosity, fz_colorspace *space,
                    const float *color, fz_color_params params)
{
    (void)ctx, (void)area, (void)luminosity, (void)space, (void)color, (void)params;
    ((struct pdf_device *)dev)->masks++;
}

/* A finished mask is a clip until it is popped; what shows through is not looked at. */
static void on_mask_end(fz_context *ctx, fz_device *dev)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    if (d->masks)
        d->masks--;
    enter_other_clip(ctx, d, clip_unknown());
}

static void on_text(fz_context *ctx, struct pdf_device *d, const fz_text *text, fz_matrix ctm,
                    const struct collect_style *style)
{
    if (d->masks || d->in_glyph || text == d->told_text)
        return;
    fz_drop_text(ctx, d->told_text);
    d->told_text = fz_keep_text(ctx, text); /* kept, so that no other text can have its address */
    pdf_device_drawing(ctx, d);
    pdf_text_put(ctx, d, text, ctm, style);
    pdf_device_check(d);
}

static void on_fill_text(fz_context *ctx, fz_device *dev, const fz_text *text, fz_matrix ctm, fz_colorspace *space,
                         const float *color, float alpha, fz_color_params params)
{
    struct collect_style style = { .rgb = pdf_device_rgb(ctx, space, color, params),
                                   .flags = SHEET_FILLED | SHEET_TEXT };
    (void)alpha;
    on_text(ctx, (struct pdf_device *)dev, text, ctm, &style);
}

static void on_stroke_text(fz_context *ctx, fz_device *dev, const fz_text *text, const fz_stroke_state *stroke,
                           fz_matrix ctm, fz_colorspace *space, const float *color, float alpha, fz_color_params params)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    struct to_mm t = pdf_device_to_mm(d, ctm);
    struct collect_style style = { .width_mm = fabs((double)stroke->linewidth) * pdf_device_scale(&t),
                                   .rgb = pdf_device_rgb(ctx, space, color, params),
                                   .flags = SHEET_STROKED | SHEET_TEXT };
    (void)alpha;
    on_text(ctx, d, text, ctm, &style);
}

static const struct collect_style clip_text_style = { .rgb = PATTERN_GREY,
                                                      .flags = SHEET_FILLED | SHEET_CLIP_PATTERN | SHEET_TEXT };

static void on_clip_text(fz_context *ctx, fz_device *dev, const fz_text *text, fz_matrix ctm, fz_rect scissor)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    (void)scissor;
    on_text(ctx, d, text, ctm, &clip_text_style);
    enter_other_clip(ctx, d, pdf_clip_of_rect(d, fz_bound_text(ctx, text, NULL, ctm), fz_identity));
}

static void on_clip_stroke_text(fz_context *ctx, fz_device *dev, const fz_text *text, const fz_stroke_state *stroke,
                                fz_matrix ctm, fz_rect scissor)
{
    (void)stroke;
    on_clip_text(ctx, dev, text, ctm, scissor);
}

/* Letters that are not painted, as a scan that was read by machine carries them. */
static void on_hidden_text(fz_context *ctx, fz_device *dev, const fz_text *text, fz_matrix ctm)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    struct collect_style style = { .flags = SHEET_TEXT };
    if (d->only_images)
        return;
    on_text(ctx, d, text, ctm, &style);
}

static void on_image(fz_context *ctx, fz_device *dev, fz_image *image, fz_matrix ctm, float alpha,
                     fz_color_params params)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    (void)alpha, (void)params;
    if (d->masks || d->in_glyph)
        return;
    pdf_image_put(ctx, d, image, ctm);
    pdf_device_check(d);
}

static void on_image_mask(fz_context *ctx, fz_device *dev, fz_image *image, fz_matrix ctm, fz_colorspace *space,
                          const float *color, float alpha, fz_color_params params)
{
    (void)space, (void)color;
    on_image(ctx, dev, image, ctm, alpha, params);
}

static void on_clip_image(fz_context *ctx, fz_device *dev, fz_image *image, fz_matrix ctm, fz_rect scissor)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    (void)image, (void)scissor;
    enter_other_clip(ctx, d, pdf_clip_of_rect(d, fz_unit_rect, ctm));
}

/* What a page that broke off left behind. */
static void clear(fz_context *ctx, struct pdf_device *d)
{
    while (d->clip_count)
        pdf_clip_pop(ctx, d);
    fz_drop_path(ctx, d->fill);
    d->fill = NULL;
    fz_drop_text(ctx, d->told_text);
    d->told_text = NULL;
    pdf_image_forget(ctx, d);
    d->masks = 0;
    d->in_glyph = d->both = false;
}

static void on_drop(fz_context *ctx, fz_device *dev)
{
    struct pdf_device *d = (struct pdf_device *)dev;
    clear(ctx, d);
    pdf_text_forget(ctx, d);
    fz_free(ctx, d->clips);
}

static void set_functions(fz_device *base)
{
    base->drop_device = on_drop;
    base->fill_path = on_fill;
    base->stroke_path = on_stroke;
    base->clip_path = on_clip;
    base->clip_stroke_path = on_clip_stroke;
    base->fill_text = on_fill_text;
    base->stroke_text = on_stroke_text;
    base->clip_text = on_clip_text;
    base->clip_stroke_text = on_clip_stroke_text;
    base->ignore_text = on_hidden_text;
    base->fill_shade = on_shade;
    base->fill_image = on_image;
    base->fill_image_mask = on_image_mask;
    base->clip_image_mask = on_clip_image;
    base->pop_clip = on_pop_clip;
    base->begin_mask = on_mask;
    base->end_mask = on_mask_end;
    base->begin_tile = on_tile;
    base->end_tile = on_tile_end;
}

struct pdf_device *pdf_device_create(fz_context *ctx, struct collect *c, fz_cookie *cookie)
{
    struct pdf_device *d = fz_new_derived_device(ctx, struct pdf_device);
    set_functions(&d->base);
    d->collect = c;
    d->cookie = cookie;
    d->layer = SHEET_NONE;
    return d;
}

fz_device *pdf_device_base(struct pdf_device *d)
{
    return &d->base;
}

void pdf_device_page(fz_context *ctx, struct pdf_device *d, const struct pdf_frame *frame)
{
    clear(ctx, d);
    d->frame = *frame;
    d->layer = SHEET_NONE;
    d->only_images = true;
}

uint32_t pdf_device_page_end(fz_context *ctx, struct pdf_device *d)
{
    uint32_t dpi = d->only_images ? pdf_image_page_end(ctx, d) : 0;
    clear(ctx, d);
    d->only_images = false;
    return dpi;
}

void pdf_device_layer(struct pdf_device *d, uint32_t layer)
{
    d->layer = layer;
}

void pdf_device_both_begin(fz_context *ctx, struct pdf_device *d)
{
    put_fill(ctx, d);
    d->both = true;
}

void pdf_device_both_end(fz_context *ctx, struct pdf_device *d)
{
    d->both = false;
    put_fill(ctx, d);
}
