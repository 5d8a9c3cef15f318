#include "vt_light.h"
#include "vt_trace.h"

#include <assert.h>
#include <math.h>

enum { CELLS = 8 }; /* a pixel's patch is integrated in CELLS x CELLS cells */

static const double dark_peak = 0.01;       /* share of full light */
static const double thinnest_mm = 0.2;      /* less line than this is a speck */
static const double end_zone = 0.9;         /* share of the reach where its outer part begins */
static const double end_light_most = 0.005; /* share of the light that may lie there */

/* IEC 61966-2-1. */
double vt_linear(uint32_t xrgb, int shift)
{
    double v = (xrgb >> shift & 0xff) / 255.0;
    return v <= 0.04045 ? v / 12.92 : pow((v + 0.055) / 1.055, 2.4);
}

uint32_t vt_encoded(double linear, int shift)
{
    double c = fmin(fmax(linear, 0), 1);
    double v = c <= 0.0031308 ? 12.92 * c : 1.055 * pow(c, 1 / 2.4) - 0.055;
    return (uint32_t)lround(255 * v) << shift;
}

double vt_luminance(uint32_t xrgb)
{
    if ((xrgb & 0xffffff) == 0) /* most of a frame is dark */
        return 0;
    return 0.2126 * vt_linear(xrgb, 16) + 0.7152 * vt_linear(xrgb, 8) + 0.0722 * vt_linear(xrgb, 0);
}

struct tally {
    double light, moment, end_light, peak;
};

/* The traced corners of a pixel's cells. */
struct patch {
    struct vt_pt node[CELLS + 1][CELLS + 1];
};

static bool trace_patch(const struct vt_aim *aim, int col, int row, struct patch *patch)
{
    for (int j = 0; j <= CELLS; j++)
        for (int i = 0; i <= CELLS; i++) {
            struct vt_pt *node = &patch->node[j][i];
            if (!vt_aim_hit(aim, col + (double)i / CELLS, row + (double)j / CELLS, &node->x, &node->y))
                return false;
        }
    return true;
}

/* Add one cell, given its corners in order, as a point of light in the middle with the cell's area. */
static void tally_cell(const struct vt_probe *p, const struct vt_pt *a, const struct vt_pt *b, const struct vt_pt *c,
                       const struct vt_pt *d, double luminance, struct tally *t)
{
    double dx = (a->x + b->x + c->x + d->x) / 4 - p->centre.x;
    double dy = (a->y + b->y + c->y + d->y) / 4 - p->centre.y;
    double across = dx * p->nx + dy * p->ny;
    double along = dy * p->nx - dx * p->ny;
    double weight = 1 - fabs(along) / p->half_width_mm;
    if (weight <= 0 || fabs(across) > p->reach_mm)
        return;
    double area = fabs((c->x - a->x) * (d->y - b->y) - (c->y - a->y) * (d->x - b->x)) / 2;
    double light = area * luminance * weight;
    t->light += light;
    t->moment += light * across;
    t->peak = fmax(t->peak, luminance);
    if (fabs(across) > end_zone * p->reach_mm)
        t->end_light += light;
}

static void tally_pixel(const struct vt_aim *aim, const struct vt_probe *p, int col, int row, double luminance,
                        struct tally *t)
{
    struct patch patch;
    if (!trace_patch(aim, col, row, &patch))
        return;
    for (int j = 0; j < CELLS; j++)
        for (int i = 0; i < CELLS; i++)
            tally_cell(p, &patch.node[j][i], &patch.node[j][i + 1], &patch.node[j + 1][i + 1], &patch.node[j + 1][i],
                       luminance, t);
}

/* Pixels from (left, top) up to but without (right, bottom). */
struct box {
    int left, top, right, bottom;
};

static int clamped(double v, int most)
{
    return (int)fmin(fmax(v, 0), most);
}

/* The pixels that may light a window, with some to spare: a window's sides are not quite straight in pixels. */
static bool window_box(const struct vt_aim *aim, const struct vt_frame *f, const struct vt_probe *p, struct box *box)
{
    double lo_x = INFINITY, lo_y = INFINITY, hi_x = -INFINITY, hi_y = -INFINITY;
    for (int i = 0; i < 4; i++) {
        double s = i & 1 ? p->reach_mm : -p->reach_mm, t = i & 2 ? p->half_width_mm : -p->half_width_mm, u, v;
        if (!vt_aim_find(aim, p->centre.x + s * p->nx - t * p->ny, p->centre.y + s * p->ny + t * p->nx, &u, &v))
            return false;
        lo_x = fmin(lo_x, u);
        hi_x = fmax(hi_x, u);
        lo_y = fmin(lo_y, v);
        hi_y = fmax(hi_y, v);
    }
    *box = (struct box){ clamped(floor(lo_x) - 2, f->width), clamped(floor(lo_y) - 2, f->height),
                         clamped(ceil(hi_x) + 2, f->width), clamped(ceil(hi_y) + 2, f->height) };
    return true;
}

static struct tally tally_box(const struct vt_aim *aim, const struct vt_frame *f, const struct vt_probe *p,
                              struct box box)
{
    struct tally t = { 0 };
    for (int row = box.top; row < box.bottom; row++)
        for (int col = box.left; col < box.right; col++) {
            double luminance = vt_luminance(f->xrgb[(size_t)row * (size_t)f->stride + (size_t)col]);
            if (luminance > 0)
                tally_pixel(aim, p, col, row, luminance, &t);
        }
    return t;
}

bool vt_probe_light(const struct vt_setup *setup, const struct vt_frame *frame, const struct vt_probe *probe,
                    struct vt_glow *out)
{
    assert(frame->width == setup->width_px && frame->height == setup->height_px && frame->stride >= frame->width);
    assert(probe->reach_mm > 0 && probe->half_width_mm > 0 && fabs(hypot(probe->nx, probe->ny) - 1) < 1e-6);
    *out = (struct vt_glow){ 0 };
    struct vt_aim aim = vt_aim_at(setup);
    struct box box;
    if (!window_box(&aim, frame, probe, &box))
        return false;
    struct tally t = tally_box(&aim, frame, probe, box);
    if (t.light <= 0)
        return false;
    out->offset_mm = t.moment / t.light;
    out->light = t.light / probe->half_width_mm; /* the weights along the line add up to half the window's width */
    out->peak = t.peak;
    out->width_mm = out->light / out->peak;
    return out->peak >= dark_peak && out->width_mm >= thinnest_mm && t.end_light <= end_light_most * t.light;
}
