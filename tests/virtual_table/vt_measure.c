#include "virtual_table.h"

#include <assert.h>
#include <math.h>

enum { FEWEST_PROBES = 8, MOST_PROBES = 48 };

static const double probe_half_width_mm = 2;
static const double probe_spacing_mm = 10;
static const double sharp_turn_rad = 20 * 3.14159265358979323846 / 180;

/* A direction and the length it goes. */
struct leg {
    double x, y, length;
};

static struct leg leg_between(struct vt_pt a, struct vt_pt b)
{
    double length = hypot(b.x - a.x, b.y - a.y);
    assert(length > 0);
    return (struct leg){ (b.x - a.x) / length, (b.y - a.y) / length, length };
}

static struct vt_pt along(struct vt_pt from, struct leg leg, double mm)
{
    return (struct vt_pt){ from.x + mm * leg.x, from.y + mm * leg.y };
}

/* Probe across a leg; offsets count to the left of its direction. */
static bool probe_across(const struct vt_setup *setup, const struct vt_frame *frame, struct vt_pt at, struct leg leg,
                         double search_mm, struct vt_glow *glow)
{
    struct vt_probe probe = { at, -leg.y, leg.x, search_mm, probe_half_width_mm };
    return vt_probe_light(setup, frame, &probe, glow);
}

/* Distances gathered one by one. */
struct spread {
    double max, sum, sum_of_squares;
    int count;
};

static void spread_add(struct spread *s, double distance)
{
    s->max = fmax(s->max, fabs(distance));
    s->sum += distance;
    s->sum_of_squares += distance * distance;
    s->count++;
}

static double spread_rms(const struct spread *s)
{
    return sqrt(s->sum_of_squares / s->count);
}

/* A straight line through points by total least squares: through their centroid, along the principal axis of their
 * scatter. */
struct fit {
    struct vt_pt centre;
    double x, y; /* unit direction */
};

static struct fit fit_line(const struct vt_pt *pts, int count)
{
    struct vt_pt c = { 0, 0 };
    for (int i = 0; i < count; i++) {
        c.x += pts[i].x / count;
        c.y += pts[i].y / count;
    }
    double xx = 0, xy = 0, yy = 0;
    for (int i = 0; i < count; i++) {
        double dx = pts[i].x - c.x, dy = pts[i].y - c.y;
        xx += dx * dx;
        xy += dx * dy;
        yy += dy * dy;
    }
    double angle = atan2(2 * xy, xx - yy) / 2;
    return (struct fit){ c, cos(angle), sin(angle) };
}

static struct vt_pt foot_on(const struct fit *f, struct vt_pt p)
{
    double t = (p.x - f->centre.x) * f->x + (p.y - f->centre.y) * f->y;
    return (struct vt_pt){ f->centre.x + t * f->x, f->centre.y + t * f->y };
}

static double distance_from(const struct fit *f, struct vt_pt p)
{
    return (p.y - f->centre.y) * f->x - (p.x - f->centre.x) * f->y;
}

bool vt_measure_line(const struct vt_setup *setup, const struct vt_frame *frame, double ax, double ay, double bx,
                     double by, double search_mm, struct vt_line *out)
{
    struct vt_pt a = { ax, ay }, b = { bx, by };
    struct leg leg = leg_between(a, b);
    double margin = fmin(2 * search_mm + 5, leg.length / 4), used = leg.length - 2 * margin;
    int count = (int)fmin(fmax(used / probe_spacing_mm + 1, FEWEST_PROBES), MOST_PROBES);

    struct vt_pt seen[MOST_PROBES];
    struct spread off_expected = { 0 }, off_fit = { 0 };
    double width = 0;
    *out = (struct vt_line){ 0 };
    for (int i = 0; i < count; i++) {
        struct vt_pt at = along(a, leg, margin + used * i / (count - 1));
        struct vt_glow glow;
        if (!probe_across(setup, frame, at, leg, search_mm, &glow)) {
            out->missed++;
            continue;
        }
        seen[out->found++] = (struct vt_pt){ at.x - glow.offset_mm * leg.y, at.y + glow.offset_mm * leg.x };
        spread_add(&off_expected, glow.offset_mm);
        width += glow.width_mm;
    }
    if (out->found < out->missed || out->found < 2)
        return false;

    struct fit fit = fit_line(seen, out->found);
    for (int i = 0; i < out->found; i++)
        spread_add(&off_fit, distance_from(&fit, seen[i]));
    out->a = foot_on(&fit, a);
    out->b = foot_on(&fit, b);
    out->max_off_fit_mm = off_fit.max;
    out->rms_off_fit_mm = spread_rms(&off_fit);
    out->max_off_expected_mm = off_expected.max;
    out->rms_off_expected_mm = spread_rms(&off_expected);
    out->width_mm = width / out->found;
    return true;
}

/* Where the whole lines through two measured ones meet. */
static bool meet(const struct vt_line *p, const struct vt_line *q, struct vt_pt *out)
{
    double px = p->b.x - p->a.x, py = p->b.y - p->a.y, qx = q->b.x - q->a.x, qy = q->b.y - q->a.y;
    double det = px * qy - py * qx;
    if (fabs(det) < 1e-9 * hypot(px, py) * hypot(qx, qy)) /* parallel */
        return false;
    double t = ((q->a.x - p->a.x) * qy - (q->a.y - p->a.y) * qx) / det;
    *out = (struct vt_pt){ p->a.x + t * px, p->a.y + t * py };
    return true;
}

static double distance(struct vt_pt a, struct vt_pt b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

bool vt_measure_quad(const struct vt_setup *setup, const struct vt_frame *frame, const struct vt_pt corner[4],
                     double search_mm, struct vt_quad *out)
{
    *out = (struct vt_quad){ 0 };
    bool whole = true;
    for (int i = 0; i < 4; i++) {
        struct vt_pt a = corner[i], b = corner[(i + 1) % 4];
        whole &= vt_measure_line(setup, frame, a.x, a.y, b.x, b.y, search_mm, &out->side[i]);
    }
    if (!whole)
        return false;
    for (int i = 0; i < 4; i++)
        if (!meet(&out->side[(i + 3) % 4], &out->side[i], &out->corner[i]))
            return false;
    for (int i = 0; i < 4; i++)
        out->side_mm[i] = distance(out->corner[i], out->corner[(i + 1) % 4]);
    out->diagonal_mm[0] = distance(out->corner[0], out->corner[2]);
    out->diagonal_mm[1] = distance(out->corner[1], out->corner[3]);
    return true;
}

/* Legs are numbered by the point they start at; leg i of a closed path may be asked for with any i from -count. */

static int leg_count(const struct vt_path *path)
{
    return path->closed ? path->count : path->count - 1;
}

static struct leg path_leg(const struct vt_path *path, int i)
{
    int n = path->count;
    return leg_between(path->pts[(i + n) % n], path->pts[(i + n + 1) % n]);
}

/* Whether the path turns sharply where leg i starts, or ends there. */
static bool sharp_at(const struct vt_path *path, int i)
{
    if (!path->closed && (i == 0 || i == path->count - 1))
        return true;
    struct leg p = path_leg(path, i - 1), q = path_leg(path, i);
    return fabs(atan2(p.x * q.y - p.y * q.x, p.x * q.x + p.y * q.y)) > sharp_turn_rad;
}

static bool near_corner(const struct vt_path *path, int i, double into_mm, double corner_mm)
{
    double back = into_mm, ahead = path_leg(path, i).length - into_mm;
    for (int k = i; back < corner_mm; k--) {
        if (k <= i - path->count)
            break; /* once round */
        if (sharp_at(path, k))
            return true;
        back += path_leg(path, k - 1).length;
    }
    for (int k = i + 1; ahead < corner_mm; k++) {
        if (k > i + path->count)
            break;
        if (sharp_at(path, k % path->count))
            return true;
        ahead += path_leg(path, k % path->count).length;
    }
    return false;
}

bool vt_measure_path(const struct vt_setup *setup, const struct vt_frame *frame, const struct vt_path *path,
                     const struct vt_walk *walk, struct vt_path_report *out)
{
    assert(path->count >= (path->closed ? 3 : 2) && walk->step_mm > 0);
    struct spread off = { 0 };
    double into = walk->step_mm / 2; /* how far into the leg the next place lies */
    *out = (struct vt_path_report){ 0 };
    for (int i = 0; i < leg_count(path); i++) {
        struct leg leg = path_leg(path, i);
        for (; into < leg.length; into += walk->step_mm) {
            struct vt_pt at = along(path->pts[i], leg, into);
            struct vt_glow glow;
            if (near_corner(path, i, into, walk->corner_mm))
                continue;
            if (!probe_across(setup, frame, at, leg, walk->search_mm, &glow)) {
                out->missed++;
                continue;
            }
            if (fabs(glow.offset_mm) > off.max)
                out->worst = at;
            spread_add(&off, glow.offset_mm);
        }
        into -= leg.length;
    }
    out->found = off.count;
    if (out->found < out->missed || out->found < 1)
        return false;
    out->max_off_mm = off.max;
    out->rms_off_mm = spread_rms(&off);
    out->mean_off_mm = off.sum / off.count;
    return true;
}
