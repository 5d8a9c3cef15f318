#include "lying.h"

#include <math.h>

enum { SIDE = 5 };

bool lying_read(const struct lying *l, const struct vt_setup *setup, struct px_pt px, double sigma_mm,
                struct vt_noise *noise, double *x, double *y)
{
    double at_x = 0, at_y = 0, s, c;
    if (!vt_reading(setup, px.x, px.y, sigma_mm, noise, &at_x, &at_y))
        return false;
    geometry_sincos(l->turn_deg, &s, &c);
    vec2 off = { at_x - l->corner.x, at_y - l->corner.y };
    *x = c * off.x + s * off.y;
    *y = c * off.y - s * off.x;
    return *x >= 0 && *y >= 0 && *x <= l->mat->width_mm && *y <= l->mat->height_mm;
}

struct lying lying_around(const struct app_walk *walk, const struct vt_setup *setup, const struct calibration_mat *mat,
                          double turn_deg)
{
    vec2 least = { INFINITY, INFINITY }, most = { -INFINITY, -INFINITY };
    const int *numbers;
    size_t count = app_walk_around(walk, &numbers);
    for (size_t i = 0; i < count; i++) {
        struct px_pt px = walk->items[app_walk_find(walk, numbers[i])].home;
        vec2 at = { 0, 0 };
        vt_px_to_mat(setup, px.x, px.y, &at.x, &at.y);
        least = (vec2){ fmin(least.x, at.x), fmin(least.y, at.y) };
        most = (vec2){ fmax(most.x, at.x), fmax(most.y, at.y) };
    }
    double s, c;
    geometry_sincos(turn_deg, &s, &c);
    vec2 half = { mat->width_mm / 2, mat->height_mm / 2 }, middle = vec2_lerp(least, most, 0.5);
    return (struct lying){ mat, { middle.x - c * half.x + s * half.y, middle.y - s * half.x - c * half.y }, turn_deg };
}

double lying_worst_shape(const struct geometry_map *map, const struct vt_setup *setup)
{
    vec2 says[SIDE * SIDE], is[SIDE * SIDE];
    struct px_pt px[SIDE * SIDE];
    for (int i = 0; i < SIDE * SIDE; i++) {
        px[i] = (struct px_pt){ i % SIDE * setup->width_px / (SIDE - 1.0), i / SIDE * setup->height_px / (SIDE - 1.0) };
        struct table_pt at = geometry_map_to_table(map, px[i]);
        says[i] = (vec2){ at.x, at.y };
        vt_px_to_mat(setup, px[i].x, px[i].y, &is[i].x, &is[i].y);
    }
    struct geometry_map moved = calibration_move_map(map, calibration_move_fitting(says, is, SIDE * SIDE));
    double worst = 0;
    for (int i = 0; i < SIDE * SIDE; i++) {
        struct table_pt at = geometry_map_to_table(&moved, px[i]);
        worst = fmax(worst, hypot(at.x - is[i].x, at.y - is[i].y));
    }
    return worst;
}
