/* Clips: what is seen of the things painted within them, as boxes in mm. The lines themselves are not cut. */
#include "sheet_reader/pdf_device_in.h"

#include <math.h>

enum { CLIPS_MOST = 10000, CORNERS = 4 };
#define ALIKE_MM 0.001 /* MuPDF reckons in single precision: 0.0002 mm on A0 */

struct sheet_clip pdf_clip_none(void)
{
    const double most = SHEET_COORDINATE_MOST;
    return (struct sheet_clip){ -most, -most, most, most, 0, 0 };
}

/* A box that grows, and the corners of the one outline that may be it. */
struct shape {
    struct to_mm t;
    struct sheet_clip box;
    double xs[CORNERS + 1], ys[CORNERS + 1];
    int corners;    /* CORNERS + 2: too many, or curves among them */
    int outlines;   /* of more than a point */
    float at[2];    /* the outline's first point */
    bool has_begun; /* it went on from there */
};

static struct shape shape_start(const struct pdf_device *d, fz_matrix ctm)
{
    const double most = SHEET_COORDINATE_MOST;
    return (struct shape){ .t = pdf_device_to_mm(d, ctm), .box = { most, most, -most, -most, 0, 0 } };
}

static void take_point(struct shape *s, float px, float py)
{
    const double *m = s->t.m;
    double x = m[0] * (double)px + m[2] * (double)py + m[4], y = m[1] * (double)px + m[3] * (double)py + m[5];
    s->box.x0 = fmin(s->box.x0, x);
    s->box.y0 = fmin(s->box.y0, y);
    s->box.x1 = fmax(s->box.x1, x);
    s->box.y1 = fmax(s->box.y1, y);
    if (s->corners > CORNERS) {
        s->corners = CORNERS + 2;
        return;
    }
    s->xs[s->corners] = x;
    s->ys[s->corners++] = y;
}

static void take_move(fz_context *ctx, void *arg, float x, float y)
{
    struct shape *s = arg;
    (void)ctx;
    s->at[0] = x;
    s->at[1] = y;
    s->has_begun = false;
}

/* The first point counts once something follows it. */
static void take_first(struct shape *s)
{
    if (s->has_begun)
        return;
    s->has_begun = true;
    s->outlines++;
    take_point(s, s->at[0], s->at[1]);
}

static void take_line(fz_context *ctx, void *arg, float x, float y)
{
    struct shape *s = arg;
    (void)ctx;
    take_first(s);
    take_point(s, x, y);
}

static void take_cubic(fz_context *ctx, void *arg, float x1, float y1, float x2, float y2, float x, float y)
{
    struct shape *s = arg;
    (void)ctx;
    take_first(s);
    take_point(s, x1, y1);
    take_point(s, x2, y2);
    take_point(s, x, y);
    s->corners = CORNERS + 2;
}

static void take_close(fz_context *ctx, void *arg)
{
    struct shape *s = arg;
    (void)ctx;
    s->has_begun = false; /* what follows without a move is another outline, from the same point */
}

static const fz_path_walker taker = { take_move, take_line, take_cubic, take_close, NULL, NULL, NULL, NULL };

static bool alike(double a, double b)
{
    return fabs(a - b) <= ALIKE_MM;
}

/* Its four sides run up and across in turn; the first corner may come again at the end. */
static bool is_box(const struct shape *s)
{
    const double *x = s->xs, *y = s->ys;
    if (s->outlines != 1 || s->corners < CORNERS || s->corners > CORNERS + 1 ||
        (s->corners > CORNERS && (!alike(x[0], x[CORNERS]) || !alike(y[0], y[CORNERS]))))
        return false;
    return (alike(x[0], x[1]) && alike(y[1], y[2]) && alike(x[2], x[3]) && alike(y[3], y[0])) ||
           (alike(y[0], y[1]) && alike(x[1], x[2]) && alike(y[2], y[3]) && alike(x[3], x[0]));
}

struct sheet_clip pdf_clip_of_path(fz_context *ctx, const struct pdf_device *d, const fz_path *path,
                                   const fz_stroke_state *stroke, fz_matrix ctm)
{
    if (stroke)
        return pdf_clip_of_rect(d, fz_bound_path(ctx, path, stroke, ctm), fz_identity);
    struct shape s = shape_start(d, ctm);
    fz_walk_path(ctx, path, &taker, &s);
    if (s.outlines && !is_box(&s))
        s.box.flags = SHEET_CLIP_SHAPED;
    return s.box;
}

struct sheet_clip pdf_clip_of_rect(const struct pdf_device *d, fz_rect rect, fz_matrix ctm)
{
    struct shape s = shape_start(d, ctm);
    if (fz_is_infinite_rect(rect))
        s.box = pdf_clip_none();
    for (int i = 0; i < CORNERS && fz_is_valid_rect(rect) && !fz_is_infinite_rect(rect); i++)
        take_point(&s, i & 1 ? rect.x1 : rect.x0, i & 2 ? rect.y1 : rect.y0);
    s.box.flags = SHEET_CLIP_SHAPED;
    return s.box;
}

/* What is seen through both; nothing at all stays without width and height. */
static struct sheet_clip both(const struct sheet_clip *a, const struct sheet_clip *b)
{
    struct sheet_clip seen = { fmax(a->x0, b->x0), fmax(a->y0, b->y0),  fmin(a->x1, b->x1),
                               fmin(a->y1, b->y1), a->flags | b->flags, 0 };
    if (seen.x0 < seen.x1 && seen.y0 < seen.y1)
        return seen;
    return (struct sheet_clip){ seen.x0, seen.y0, seen.x0, seen.y0, 0, 0 };
}

struct sheet_clip pdf_clip_seen(const struct pdf_device *d)
{
    return d->clip_count ? d->clips[d->clip_count - 1].seen : pdf_clip_none();
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
    clip.seen = both(&around, &own);
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
