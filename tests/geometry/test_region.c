#include "geometry/region.h"

#include "support/room.h"

static struct geometry_path box(struct arena *a, double x, double y, double width, double height)
{
    struct geometry_path path = { base_arena_alloc(a, 4, sizeof(vec2)), 4, true };
    path.points[0] = (vec2){ x, y };
    path.points[1] = (vec2){ x + width, y };
    path.points[2] = (vec2){ x + width, y + height };
    path.points[3] = (vec2){ x, y + height };
    return path;
}

/* By hand: boxes of 40 by 20 and of 10 by 40 that cross share 10 by 20, and leave 40 by 20 less that in two parts. */
static void two_boxes_that_cross_have_parts(void **state)
{
    struct arena *a = *state;
    struct geometry_path lying = box(a, 0, 0, 40, 20), standing = box(a, 10, -10, 10, 40), *parts;
    assert_int_equal(geometry_common(a, lying, standing, &parts), 1);
    assert_near(geometry_path_area(parts[0]), 200, 1e-9);
    assert_near(geometry_common_area(lying, standing), 200, 1e-9);
    assert_int_equal(geometry_beyond(a, lying, standing, &parts), 2);
    double first = geometry_path_area(parts[0]), second = geometry_path_area(parts[1]);
    assert_near(first + second, 600, 1e-9);
    assert_near(fmin(first, second), 200, 1e-9);
}

static void boxes_that_touch_have_nothing_in_common(void **state)
{
    struct arena *a = *state;
    struct geometry_path one = box(a, 0, 0, 10, 10), *parts;
    assert_int_equal(geometry_common(a, one, box(a, 10, 0, 10, 10), &parts), 0);
    assert_int_equal(geometry_common(a, one, box(a, 20, 0, 10, 10), &parts), 0);
    assert_near(geometry_common_area(one, box(a, 10, 10, 10, 10)), 0, 0);
    assert_int_equal(geometry_beyond(a, one, one, &parts), 0);
    assert_int_equal(geometry_beyond(a, one, (struct geometry_path){ NULL, 0, true }, &parts), 0);
}

/* Two triangles on either side of a line, one end of it off by the last bit: they have nothing in common (by hand),
 * whatever GEOS says without a grid. */
static void outlines_that_touch_to_the_last_bit_have_nothing_in_common(void **state)
{
    struct arena *a = *state;
    vec2 below[] = { { 75.582999999999998, 380.02462163882802 },
                     { 167.36599999999999, 456.49362163882802 },
                     { 0, 451.57062163882802 } };
    vec2 above[] = { { -1.4210854715202004e-14, 451.57062163882802 },
                     { 167.36599999999999, 456.49362163882802 },
                     { 91.782999999999987, 528.03962163882795 } };
    struct geometry_path p = { below, 3, true }, q = { above, 3, true }, *parts;
    assert_near(geometry_common_area(p, q), 0, 1e-6);
    assert_near(geometry_common_area(q, p), 0, 1e-6);
    assert_int_equal(geometry_beyond(a, p, q, &parts), 1);
    assert_near(geometry_path_area(parts[0]), geometry_path_area(p), 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(two_boxes_that_cross_have_parts),
        room_arena_test(boxes_that_touch_have_nothing_in_common),
        room_arena_test(outlines_that_touch_to_the_last_bit_have_nothing_in_common),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
