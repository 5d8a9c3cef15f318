#include "paint/clip.h"
#include "paint/polygon.h"
#include "support/room.h"

static struct geometry_path box(struct arena *a, double x0, double y0, double x1, double y1)
{
    return polygon_of(a, (double[]){ x0, y0, x1, y0, x1, y1, x0, y1 }, 4);
}

static void a_polygon_inside_is_the_polygon_itself(void **state)
{
    struct geometry_path inside = box(*state, 1, 1, 2, 2);
    struct geometry_path out = paint_clip(*state, inside, box(*state, 0, 0, 9, 9));
    assert_ptr_equal(out.points, inside.points);
    assert_int_equal(out.count, 4);
}

static void a_polygon_outside_leaves_nothing(void **state)
{
    assert_int_equal(paint_clip(*state, box(*state, 20, 1, 22, 2), box(*state, 0, 0, 9, 9)).count, 0);
    assert_int_equal(paint_clip(*state, (struct geometry_path){ NULL, 0, true }, box(*state, 0, 0, 9, 9)).count, 0);
}

/* Hand-worked: the triangle (0,0) (8,0) (0,8) cuts the square 3..7 to the triangle (3,3) (5,3) (3,5), area 2. */
static void a_square_cut_by_a_slanted_side_is_worked_by_hand(void **state)
{
    struct geometry_path region = polygon_of(*state, (double[]){ 0, 0, 8, 0, 0, 8 }, 3);
    struct geometry_path out = paint_clip(*state, box(*state, 3, 3, 7, 7), region);
    assert_int_equal(out.count, 3);
    assert_near(geometry_path_area(out), 2, 1e-12);
    assert_near(geometry_path_box(out).max.x, 5, 1e-12);
    assert_near(geometry_path_box(out).max.y, 5, 1e-12);
}

/* A comb of two teeth whose back lies outside falls into two parts, which the zero-width way between them joins: what
 * counts is how the result winds around places inside the region, and that is as before. */
static void winding_inside_the_region_stays_as_it_was(void **state)
{
    struct arena *a = *state;
    uint64_t random = 5;
    struct geometry_path region = polygon_of(a, (double[]){ 1, 1, 9, 2, 10, 8, 4, 11, 0, 6 }, 5);
    for (int round = 0; round < 200; round++) {
        struct geometry_path wild = { base_arena_alloc(a, 9, sizeof(vec2)), 9, true };
        for (int i = 0; i < 9; i++)
            wild.points[i] =
                (vec2){ polygon_random(&random, -20, 30) + 0.0011, polygon_random(&random, -20, 30) + 0.0007 };
        struct geometry_path out = paint_clip(a, wild, region);
        for (int i = 0; i < 100; i++) {
            vec2 at = { polygon_random(&random, -5, 15), polygon_random(&random, -5, 15) };
            bool inside = polygon_winding(&region, 1, at) != 0;
            assert_int_equal(polygon_winding(&out, 1, at), inside ? polygon_winding(&wild, 1, at) : 0);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_polygon_inside_is_the_polygon_itself),
        room_arena_test(a_polygon_outside_leaves_nothing),
        room_arena_test(a_square_cut_by_a_slanted_side_is_worked_by_hand),
        room_arena_test(winding_inside_the_region_stays_as_it_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
