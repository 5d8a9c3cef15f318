#include "vt_trace.h"

#include <assert.h>
#include <math.h>

static const double rad_per_deg = 3.14159265358979323846 / 180;

bool vt_setup_is_valid(const struct vt_setup *s)
{
    return s->width_px > 0 && s->height_px > 0 && s->throw_ratio > 0 && s->height_mm > 0 && isfinite(s->throw_ratio) &&
           isfinite(s->height_mm) && isfinite(s->tilt_deg) && isfinite(s->roll_deg) && isfinite(s->turn_deg) &&
           isfinite(s->foot_x_mm) && isfinite(s->foot_y_mm) && isfinite(s->shift) && isfinite(s->k1);
}

/* Right-handed rotations about the mat axes. */

static struct vt_vec about_x(struct vt_vec v, double deg)
{
    double c = cos(deg * rad_per_deg), s = sin(deg * rad_per_deg);
    return (struct vt_vec){ v.x, c * v.y - s * v.z, s * v.y + c * v.z };
}

static struct vt_vec about_y(struct vt_vec v, double deg)
{
    double c = cos(deg * rad_per_deg), s = sin(deg * rad_per_deg);
    return (struct vt_vec){ c * v.x + s * v.z, v.y, c * v.z - s * v.x };
}

static struct vt_vec about_z(struct vt_vec v, double deg)
{
    double c = cos(deg * rad_per_deg), s = sin(deg * rad_per_deg);
    return (struct vt_vec){ c * v.x - s * v.y, s * v.x + c * v.y, v.z };
}

static struct vt_vec swung(const struct vt_setup *s, struct vt_vec v)
{
    return about_z(about_y(about_x(v, s->tilt_deg), s->roll_deg), s->turn_deg);
}

struct vt_aim vt_aim_at(const struct vt_setup *s)
{
    assert(vt_setup_is_valid(s));
    double slope_per_px = 1 / (s->throw_ratio * s->width_px);
    double half_diagonal = slope_per_px * hypot(s->width_px, s->height_px) / 2;
    return (struct vt_aim){
        .lens = {s->foot_x_mm, s->foot_y_mm, s->height_mm},
        .right = swung(s, (struct vt_vec){ 1,           0,            0           }
          ),
        .up = swung(s, (struct vt_vec){ 0,           1,            0           }
          ),
        .ahead = swung(s, (struct vt_vec){ 0,           0,            -1          }
          ),
        .centre_x_px = s->width_px / 2.0,
        .centre_y_px = s->height_px / 2.0,
        .slope_per_px = slope_per_px,
        .shift_slope = s->shift * slope_per_px * s->height_px / 2,
        .k1_slope = s->k1 / (half_diagonal * half_diagonal),
    };
}

/* The ray that leaves the lens for a place of the frame; unit travel along the optical axis. */
static struct vt_vec ray(const struct vt_aim *a, double px_x, double px_y)
{
    double u = (px_x - a->centre_x_px) * a->slope_per_px;
    double v = (a->centre_y_px - px_y) * a->slope_per_px + a->shift_slope;
    double stretch = 1 + a->k1_slope * (u * u + v * v);
    u *= stretch;
    v *= stretch;
    return (struct vt_vec){ a->ahead.x + u * a->right.x + v * a->up.x, a->ahead.y + u * a->right.y + v * a->up.y,
                            a->ahead.z + u * a->right.z + v * a->up.z };
}

bool vt_aim_hit(const struct vt_aim *a, double px_x, double px_y, double *x, double *y)
{
    struct vt_vec d = ray(a, px_x, px_y);
    if (!(d.z < -1e-9)) /* level or rising, or not a number */
        return false;
    double travel = a->lens.z / -d.z;
    *x = a->lens.x + travel * d.x;
    *y = a->lens.y + travel * d.y;
    return true;
}

/* Newton's step at a place, from differences one pixel wide. */
static bool newton_step(const struct vt_aim *a, double u, double v, double miss_x, double miss_y, double *du,
                        double *dv)
{
    double lx, ly, rx, ry, tx, ty, bx, by;
    if (!vt_aim_hit(a, u - 0.5, v, &lx, &ly) || !vt_aim_hit(a, u + 0.5, v, &rx, &ry) ||
        !vt_aim_hit(a, u, v - 0.5, &tx, &ty) || !vt_aim_hit(a, u, v + 0.5, &bx, &by))
        return false;
    double xu = rx - lx, yu = ry - ly, xv = bx - tx, yv = by - ty;
    double det = xu * yv - xv * yu;
    if (det == 0)
        return false;
    *du = (xv * miss_y - yv * miss_x) / det;
    *dv = (yu * miss_x - xu * miss_y) / det;
    return true;
}

bool vt_aim_find(const struct vt_aim *a, double x, double y, double *px_x, double *px_y)
{
    double u = a->centre_x_px, v = a->centre_y_px, hit_x, hit_y;
    if (!vt_aim_hit(a, u, v, &hit_x, &hit_y))
        return false;
    for (int round = 0; round < 60; round++) {
        double miss_x = hit_x - x, miss_y = hit_y - y, miss = hypot(miss_x, miss_y), du, dv;
        if (miss < 1e-9) {
            *px_x = u;
            *px_y = v;
            return true;
        }
        if (!newton_step(a, u, v, miss_x, miss_y, &du, &dv))
            return false;
        /* Take as much of the step as brings the light nearer; a whole one may shoot beyond the horizon. */
        double part = 1;
        while (!vt_aim_hit(a, u + part * du, v + part * dv, &hit_x, &hit_y) || !(hypot(hit_x - x, hit_y - y) < miss)) {
            part /= 2;
            if (part < 1e-9)
                return false;
        }
        u += part * du;
        v += part * dv;
    }
    return false;
}

bool vt_px_to_mat(const struct vt_setup *setup, double px_x, double px_y, double *x, double *y)
{
    struct vt_aim aim = vt_aim_at(setup);
    return vt_aim_hit(&aim, px_x, px_y, x, y);
}

bool vt_mat_to_px(const struct vt_setup *setup, double x, double y, double *px_x, double *px_y)
{
    struct vt_aim aim = vt_aim_at(setup);
    return vt_aim_find(&aim, x, y, px_x, px_y);
}

double vt_mm_per_px(const struct vt_setup *setup, double px_x, double px_y)
{
    struct vt_aim aim = vt_aim_at(setup);
    double lx, ly, rx, ry, tx, ty, bx, by;
    if (!vt_aim_hit(&aim, px_x - 0.5, px_y, &lx, &ly) || !vt_aim_hit(&aim, px_x + 0.5, px_y, &rx, &ry) ||
        !vt_aim_hit(&aim, px_x, px_y - 0.5, &tx, &ty) || !vt_aim_hit(&aim, px_x, px_y + 0.5, &bx, &by))
        return INFINITY;
    return fmax(hypot(rx - lx, ry - ly), hypot(bx - tx, by - ty));
}
