#include "bump.h"

#include <math.h>

enum { SIDE = 5, DOT_CORNERS = 24 };

struct px_pt bump_mark_shown(struct arena *a, struct app *app, int sticker)
{
    struct paint_items in = app_scene(app, a).px.in;
    int count = 0;
    for (size_t i = 0; i < in.count; i++) {
        struct geometry_path path = in.paths[in.items[i].first_path];
        if (in.items[i].kind != PAINT_FILL || path.count != DOT_CORNERS || count++ != sticker)
            continue;
        struct geometry_box box = geometry_path_box(path);
        return (struct px_pt){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
    }
    return (struct px_pt){ NAN, NAN };
}

const char *bump_key_toward(vec2 to)
{
    static const struct {
        const char *left, *right, *up, *down;
        double step_mm;
    } hands[] = { { "left", "right", "up", "down", 10 },
                  { "shift left", "shift right", "shift up", "shift down", 1 },
                  { "ctrl left", "ctrl right", "ctrl up", "ctrl down", 0.2 } };
    for (size_t i = 0; i < 3; i++) {
        if (fabs(to.x) > hands[i].step_mm / 2)
            return to.x > 0 ? hands[i].right : hands[i].left;
        if (fabs(to.y) > hands[i].step_mm / 2)
            return to.y > 0 ? hands[i].up : hands[i].down;
    }
    return NULL;
}

const char *bump_next_key(struct arena *a, struct app *app, const struct bump *bump, int sticker)
{
    struct px_pt px = bump_mark_shown(a, app, sticker), was = bump->laid.px[sticker];
    vec2 light = { 0, 0 }, at = { 0, 0 };
    vt_px_to_mat(&bump->now, px.x, px.y, &light.x, &light.y);
    vt_px_to_mat(&bump->before, was.x, was.y, &at.x, &at.y);
    return bump_key_toward(vec2_sub(at, light));
}

double bump_worst_off(const struct geometry_map *map, const struct vt_setup *setup)
{
    double worst = 0;
    for (int i = 0; i < SIDE * SIDE; i++) {
        struct px_pt px = { i % SIDE / (SIDE - 1.0) * map->width_px, i / SIDE / (SIDE - 1.0) * map->height_px };
        struct table_pt says = geometry_map_to_table(map, px);
        struct vt_pt is = { NAN, NAN };
        vt_px_to_mat(setup, px.x, px.y, &is.x, &is.y);
        worst = fmax(worst, hypot(says.x - is.x, says.y - is.y));
    }
    return worst;
}
