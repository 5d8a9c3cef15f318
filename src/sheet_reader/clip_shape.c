#include "sheet_reader/clip_shape.h"

#include <math.h>

#define ALIKE_MM 0.001 /* MuPDF reckons in single precision: 0.0002 mm on A0 */

struct sheet_clip clip_none(void)
{
    const double most = SHEET_COORDINATE_MOST;
    return (struct sheet_clip){ -most, -most, most, most, 0, 0 };
}

struct sheet_clip clip_unknown(void)
{
    struct sheet_clip clip = clip_none();
    clip.flags = SHEET_CLIP_SHAPED;
    return clip;
}

struct sheet_clip clip_both(const struct sheet_clip *a, const struct sheet_clip *b)
{
    struct sheet_clip seen = { fmax(a->x0, b->x0), fmax(a->y0, b->y0),  fmin(a->x1, b->x1),
                               fmin(a->y1, b->y1), a->flags | b->flags, 0 };
    if (seen.x0 < seen.x1 && seen.y0 < seen.y1)
        return seen;
    return (struct sheet_clip){ seen.x0, seen.y0, seen.x0, seen.y0, 0, 0 };
}

struct clip_shape clip_shape_begin(void)
{
    const double most = SHEET_COORDINATE_MOST;
    return (struct clip_shape){ .box = { most, most, -most, -most, 0, 0 } };
}

static void take_point(struct clip_shape *s, double x, double y)
{
    s->box.x0 = fmin(s->box.x0, x);
    s->box.y0 = fmin(s->box.y0, y);
    s->box.x1 = fmax(s->box.x1, x);
    s->box.y1 = fmax(s->box.y1, y);
    if (s->corners > CLIP_CORNERS) {
        s->corners = CLIP_CORNERS + 2;
        return;
    }
    s->xs[s->corners] = x;
    s->ys[s->corners++] = y;
}

void clip_shape_move(struct clip_shape *s, double x, double y)
{
    s->at[0] = x;
    s->at[1] = y;
    s->has_part = false;
}

/* The first point counts once something follows it. */
static void take_first(struct clip_shape *s)
{
    if (s->has_part)
        return;
    s->has_part = true;
    s->outlines++;
    take_point(s, s->at[0], s->at[1]);
}

void clip_shape_line(struct clip_shape *s, double x, double y)
{
    take_first(s);
    take_point(s, x, y);
}

void clip_shape_cubic(struct clip_shape *s, double x1, double y1, double x2, double y2, double x, double y)
{
    take_first(s);
    take_point(s, x1, y1);
    take_point(s, x2, y2);
    take_point(s, x, y);
    s->corners = CLIP_CORNERS + 2;
}

/* What follows without a move is another outline, from the same point. */
void clip_shape_close(struct clip_shape *s)
{
    s->has_part = false;
}

static bool alike(double a, double b)
{
    return fabs(a - b) <= ALIKE_MM;
}

/* Its four sides run up and across in turn; the first corner may come again at the end. */
static bool is_box(const struct clip_shape *s)
{
    const double *x = s->xs, *y = s->ys;
    if (s->outlines != 1 || s->corners < CLIP_CORNERS || s->corners > CLIP_CORNERS + 1 ||
        (s->corners > CLIP_CORNERS && (!alike(x[0], x[CLIP_CORNERS]) || !alike(y[0], y[CLIP_CORNERS]))))
        return false;
    return (alike(x[0], x[1]) && alike(y[1], y[2]) && alike(x[2], x[3]) && alike(y[3], y[0])) ||
           (alike(y[0], y[1]) && alike(x[1], x[2]) && alike(y[2], y[3]) && alike(x[3], x[0]));
}

struct sheet_clip clip_shape_box(const struct clip_shape *s)
{
    struct sheet_clip box = s->box;
    if (s->outlines && !is_box(s))
        box.flags = SHEET_CLIP_SHAPED;
    return box;
}
