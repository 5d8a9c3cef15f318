/* How true painted lines and joins are, and how fast they are painted (bench/joins.h, bench/pace.h).
 *
 * Straight white lines 1.5 to 6 px wide at every third degree all around (upright and level ones among them), and a
 * quarter of a degree beside the eight main directions, at sixteen places within a pixel, full and dim, are painted
 * through two maps: one that is level with 1 mm a pixel, one tilted and with a bent lens. The place of each line is the
 * middle of its light as bench/line_place.h measures it.
 *
 * paint.worst_centroid_px: the largest distance of any line from its true place.
 * paint.bias_px: the largest mean of the signed distances, over the lines nearer to level (down counts up) and over
 * those nearer to upright (right counts up), for each map. */
#include "base/arena.h"
#include "bench/figure.h"
#include "bench/joins.h"
#include "bench/line_place.h"
#include "bench/pace.h"
#include "paint/frame.h"

#include <math.h>
#include <stdbool.h>

enum { SIDE = 96, PLACES = 16 };

#define PI 3.14159265358979323846
#define REACH_PX 8.0

static const double widths_px[] = { 1.5, 1.75, 2, 2.25, 3, 4.5, 6 };

static const struct geometry_map maps[] = {
    { SIDE, SIDE, { 67.882250993908563, 0, 48, 0, 67.882250993908563, 48, 0, 0, 0, 0, 0 } },
    { SIDE, SIDE, { 74, 9, 300, -7, -81, 500, 0.06, -0.04, -0.05, 0.002, -0.001 } },
};

struct means {
    double sum[2]; /* lines nearer to level, lines nearer to upright */
    int count[2];
};

struct worst {
    double bias, centroid;
};

static struct table_pt far_along(struct line_place line, double mm)
{
    return (struct table_pt){ line.middle.x + mm * line.along_x, line.middle.y + mm * line.along_y };
}

static void paint_line(struct arena *a, const struct geometry_map *map, struct line_place line, double width_mm,
                       double level, struct paint_image *image)
{
    struct paint_scene scene = paint_scene_create(a);
    struct table_pt from = far_along(line, -500), to = far_along(line, 500);
    vec2 ends[] = { { from.x, from.y }, { to.x, to.y } };
    paint_table_stroke(&scene.table, (struct table_path){ { ends, 2, false } }, (struct paint_pen){ .width = width_mm },
                       (struct paint_ink){ 0xffffff, level });
    paint_frame(a, &scene, map, image);
}

/* The line that leaves a place of the picture at an angle, straight on the table. */
static struct line_place line_through(const struct geometry_map *map, double angle_deg, double across_px, double *scale)
{
    double c = cos(angle_deg * PI / 180), s = sin(angle_deg * PI / 180);
    struct px_pt middle = { SIDE / 2.0 - s * across_px, SIDE / 2.0 + c * across_px };
    struct geometry_jacobian j = geometry_map_jacobian(map, middle);
    double x = j.xu * c + j.xv * s, y = j.yu * c + j.yv * s, length = sqrt(x * x + y * y);
    /* A step across in px is this much across the line on the table. */
    *scale = fabs(j.xu * j.yv - j.xv * j.yu) / length;
    return (struct line_place){ geometry_map_to_table(map, middle), x / length, y / length };
}

static void measure(const struct geometry_map *map, double angle_deg, struct means *means, struct worst *worst)
{
    struct arena *a = base_arena_create();
    bool upright = fabs(cos(angle_deg * PI / 180)) < sqrt(0.5);
    for (size_t w = 0; w < sizeof widths_px / sizeof widths_px[0]; w++) {
        for (int place = 0; place < PLACES; place++) {
            double scale, level = place % 2 ? 1 : 0.35;
            struct paint_image image = paint_image_create(a, SIDE, SIDE);
            struct line_place line = line_through(map, angle_deg, (double)place / PLACES, &scale);
            paint_line(a, map, line, widths_px[w] * scale, level, &image);
            struct px_pt off = line_place_off(&image, map, line, REACH_PX);
            means->sum[upright] += upright ? off.x : off.y;
            means->count[upright]++;
            worst->centroid = fmax(worst->centroid, sqrt(off.x * off.x + off.y * off.y));
            base_arena_reset(a);
        }
    }
    base_arena_destroy(a);
}

static void measure_map(const struct geometry_map *map, struct worst *worst)
{
    struct means means = { { 0 }, { 0 } };
    for (int degree = 0; degree < 360; degree += 3)
        measure(map, degree, &means, worst);
    for (int degree = 0; degree < 360; degree += 45) {
        measure(map, degree - 0.25, &means, worst);
        measure(map, degree + 0.25, &means, worst);
    }
    for (int i = 0; i < 2; i++)
        worst->bias = fmax(worst->bias, fabs(means.sum[i] / means.count[i]));
}

static bool places_of_lines(void)
{
    struct worst worst = { 0, 0 };
    for (size_t i = 0; i < sizeof maps / sizeof maps[0]; i++) {
        if (!geometry_map_is_valid(&maps[i]))
            return false;
        measure_map(&maps[i], &worst);
    }
    figure("paint.bias_px", worst.bias, "px");
    figure("paint.worst_centroid_px", worst.centroid, "px");
    return true;
}

int main(void)
{
    if (!places_of_lines() || !joins_figures() || !pace_figures())
        return 1;
    return 0;
}
