/* What the table shows now, as a small drawing of its lines on the bench: what is in hand is bright. Letters are left
 * out, and nothing of it is true to scale. */
#ifndef BENCH_GLANCE_H
#define BENCH_GLANCE_H

#include "form/picture.h"
#include "geometry/map.h"
#include "paint/draw_list.h"

struct bench_glance_line {
    struct geometry_path path; /* across and down; the light's width is 1 */
    bool bright;
};

struct bench_glance {
    struct bench_glance_line *lines;
    size_t count;
    double height; /* of the light */
};

/* Of a scene in a light of so many px, in `a`; `map` as it is drawn through, NULL: nothing is in table mm. `in_hand`:
 * the outline that is; of no points: the brightest strokes are. */
struct bench_glance bench_glance_of(struct arena *a, const struct paint_scene *scene, const struct geometry_map *map,
                                    int width_px, int height_px, struct table_path in_hand);

bool bench_glance_same(const struct bench_glance *one, const struct bench_glance *other);

/* Into a box, as large as it fits, in the middle of its width; returns how high. */
double bench_draw_glance(struct form_picture *p, struct bench_box box, const struct bench_glance *glance);

#endif
