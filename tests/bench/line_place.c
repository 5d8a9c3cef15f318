#include "bench/line_place.h"

#include <math.h>

#define WINDOW_PX 64.0
#define PI 3.14159265358979323846

static double light_of(uint32_t pixel)
{
    return (paint_decode((uint8_t)(pixel >> 16)) + paint_decode((uint8_t)(pixel >> 8)) + paint_decode((uint8_t)pixel)) /
           3;
}

/* How fast a distance on the table in some direction grows with u and v. */
static vec2 growth(struct geometry_jacobian j, vec2 direction)
{
    return (vec2){ direction.x * j.xu + direction.y * j.yu, direction.x * j.xv + direction.y * j.yv };
}

static struct px_pt middle_px(const struct geometry_map *map, struct table_pt at)
{
    struct px_pt px = { NAN, NAN };
    geometry_map_to_px(map, at, &px);
    return px;
}

struct px_pt line_place_off(const struct paint_image *image, const struct geometry_map *map, struct line_place line,
                            double reach_px)
{
    struct geometry_jacobian at_middle = geometry_map_jacobian(map, middle_px(map, line.middle));
    vec2 along = { line.along_x, line.along_y }, across = vec2_right(along), right = growth(at_middle, across);
    double across_mm_per_px = vec2_length(right), along_mm_per_px = vec2_length(growth(at_middle, along));
    double light = 0, moment = 0;
    for (int v = 0; v < image->height; v++) {
        for (int u = 0; u < image->width; u++) {
            uint32_t pixel = image->pixels[(size_t)v * image->stride + (size_t)u];
            if (!pixel)
                continue; /* dark: no weight */
            struct px_pt px = { u + 0.5, v + 0.5 };
            struct table_pt at = geometry_map_to_table(map, px);
            struct geometry_jacobian j = geometry_map_jacobian(map, px);
            vec2 from_middle = { at.x - line.middle.x, at.y - line.middle.y };
            double right_px = vec2_dot(from_middle, across) / across_mm_per_px;
            double along_px = vec2_dot(from_middle, along) / along_mm_per_px;
            if (fabs(right_px) > reach_px || fabs(along_px) > WINDOW_PX / 2)
                continue;
            double window = cos(PI * along_px / WINDOW_PX), area = fabs(j.xu * j.yv - j.xv * j.yu);
            double weight = window * window * area * light_of(pixel);
            light += weight;
            moment += weight * right_px;
        }
    }
    right = vec2_scale(right, 1 / across_mm_per_px);
    return (struct px_pt){ right.x * (moment / light), right.y * (moment / light) };
}
