#include "clear.h"

#include "support/cmocka_all.h"

#include <math.h>

/* Whether the box around an outline comes nearer to a place than that. */
static bool is_box_near(struct cloth_path outline, struct cloth_pt at, double near_mm)
{
    struct geometry_box box = geometry_path_box(outline.path);
    return at.x >= box.min.x - near_mm && at.x <= box.max.x + near_mm && at.y >= box.min.y - near_mm &&
           at.y <= box.max.y + near_mm;
}

int clear_winding(struct cloth_path outline, struct cloth_pt at)
{
    double sum = 0;
    if (!is_box_near(outline, at, 0))
        return 0;
    for (size_t i = 0; i < outline.path.count; i++) {
        vec2 p = outline.path.points[i], q = outline.path.points[(i + 1) % outline.path.count];
        vec2 u = { p.x - at.x, p.y - at.y }, v = { q.x - at.x, q.y - at.y };
        sum += atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y);
    }
    return (int)lround(sum / 6.283185307179586);
}

double clear_distance(struct cloth_path outline, struct cloth_pt at, double most)
{
    double nearest = most;
    if (!is_box_near(outline, at, most))
        return most;
    for (size_t i = 0; i < outline.path.count; i++) {
        vec2 p = outline.path.points[i], q = outline.path.points[(i + 1) % outline.path.count];
        int steps = (int)ceil(hypot(q.x - p.x, q.y - p.y) * 10) + 1;
        for (int s = 0; s <= steps; s++) {
            double share = (double)s / steps;
            nearest = fmin(nearest, hypot(p.x + share * (q.x - p.x) - at.x, p.y + share * (q.y - p.y) - at.y));
        }
    }
    return nearest;
}

void clear_check(const struct spans_cloth *cloth, struct spans_reach light, struct cloth_pt at, double from, double to,
                 double clear_mm)
{
    for (size_t i = 0; i < cloth->count; i++) {
        assert_int_equal(clear_winding(cloth->outlines[i], at), 0);
        assert_true(clear_distance(cloth->outlines[i], at, 20) > clear_mm - 0.01);
    }
    for (size_t i = 0; i < cloth->blocked_count; i++)
        assert_int_equal(clear_winding(cloth->blocked[i], at), 0);
    double right = fmin(to, cloth->length_mm), top = fmin(cloth->width_mm, light.across_mm);
    assert_true(at.x > fmax(from, 0) + clear_mm - 1e-6 && at.x < right - clear_mm + 1e-6);
    assert_true(at.y > clear_mm - 1e-6 && at.y < top - clear_mm + 1e-6);
}
