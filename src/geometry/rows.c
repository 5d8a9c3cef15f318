#include "geometry/rows.h"

struct geometry_box geometry_rows(const struct geometry_box *boxes, size_t count, double width, double gap,
                                  vec2 *shifts)
{
    struct geometry_box all = geometry_box_empty();
    double across = 0, top = 0, row_height = 0;
    for (size_t i = 0; i < count; i++) {
        vec2 size = vec2_sub(boxes[i].max, boxes[i].min);
        if (across > 0 && across + size.x > width) {
            top -= row_height + gap;
            across = 0;
            row_height = 0;
        }
        shifts[i] = (vec2){ across - boxes[i].min.x, top - boxes[i].max.y };
        struct geometry_box moved = { vec2_add(boxes[i].min, shifts[i]), vec2_add(boxes[i].max, shifts[i]) };
        all = geometry_box_join(all, moved);
        across += size.x + gap;
        row_height = size.y > row_height ? size.y : row_height;
    }
    return all;
}
