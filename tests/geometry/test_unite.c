#include "geometry/unite.h"
#include "support/room.h"

/* Areas worked out by hand. */

static struct geometry_path path_of(struct arena *a, const double *xy, size_t count)
{
    struct geometry_path path = { base_arena_alloc(a, count, sizeof(vec2)), count, true };
    for (size_t i = 0; i < count; i++)
        path.points[i] = (vec2){ xy[2 * i], xy[2 * i + 1] };
    return path;
}

static struct geometry_path square(struct arena *a, double x, double y, double side)
{
    return path_of(a, (const double[]){ x, y, x + side, y, x + side, y + side, x, y + side }, 4);
}

static void squares_that_share_an_edge_are_one(void **state)
{
    struct arena *a = *state;
    struct geometry_path out;
    assert_true(geometry_unite(a, square(a, 0, 0, 10), square(a, 10, 0, 10), 0.5, &out));
    assert_near(geometry_path_area(out), 200, 1e-9);
    assert_true(geometry_unite(a, square(a, 0, 0, 10), square(a, 5, 5, 10), 0.5, &out));
    assert_near(geometry_path_area(out), 175, 1e-9);
}

static void a_small_gap_is_closed_and_a_wide_one_is_not(void **state)
{
    struct arena *a = *state;
    struct geometry_path out;
    assert_true(geometry_unite(a, square(a, 0, 0, 10), square(a, 10.4, 0, 10), 0.5, &out));
    assert_near(geometry_path_area(out), 202, 2.1);
    assert_false(geometry_unite(a, square(a, 0, 0, 10), square(a, 10.6, 0, 10), 0.5, &out));
    assert_int_equal(out.count, 0);
}

static void an_outline_that_crosses_itself_is_refused(void **state)
{
    struct arena *a = *state;
    struct geometry_path bow = path_of(a, (const double[]){ 0, 0, 10, 10, 10, 0, 0, 10 }, 4), out;
    assert_false(geometry_unite(a, bow, square(a, 5, 0, 10), 0.5, &out));
}

static void a_cut_makes_two_that_are_as_large_together(void **state)
{
    struct arena *a = *state;
    struct geometry_path out[2];
    assert_true(geometry_part(a, square(a, 0, 0, 10), (vec2){ 3, -1 }, (vec2){ 3, 11 }, out));
    assert_near(geometry_path_area(out[0]), 30, 1e-9); /* left of the way up */
    assert_near(geometry_path_area(out[1]), 70, 1e-9);
    assert_true(geometry_part(a, square(a, 0, 0, 10), (vec2){ 0, 0 }, (vec2){ 10, 10 }, out));
    assert_near(geometry_path_area(out[0]), 50, 1e-9);
    assert_near(geometry_path_area(out[1]), 50, 1e-9);
}

/* A U is cut through one arm only, the one between the points. */
static void only_the_arm_between_the_points_is_cut(void **state)
{
    struct arena *a = *state;
    struct geometry_path out[2];
    struct geometry_path u =
        path_of(a, (const double[]){ 0, 0, 30, 0, 30, 30, 20, 30, 20, 10, 10, 10, 10, 30, 0, 30 }, 8);
    assert_true(geometry_part(a, u, (vec2){ 19, 20 }, (vec2){ 31, 20 }, out));
    assert_near(geometry_path_area(out[0]), 100, 1e-9);
    assert_near(geometry_path_area(out[1]), 600, 1e-9);
}

static void a_line_that_misses_cuts_nothing(void **state)
{
    struct arena *a = *state;
    struct geometry_path out[2];
    assert_false(geometry_part(a, square(a, 0, 0, 10), (vec2){ -5, 20 }, (vec2){ 5, 20 }, out));
    assert_false(geometry_part(a, square(a, 0, 0, 10), (vec2){ 5, 5 }, (vec2){ 5, 5 }, out));
    assert_false(geometry_part(a, square(a, 0, 0, 10), (vec2){ 0, 0 }, (vec2){ 10, 0 }, out));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(squares_that_share_an_edge_are_one),
        room_arena_test(a_small_gap_is_closed_and_a_wide_one_is_not),
        room_arena_test(an_outline_that_crosses_itself_is_refused),
        room_arena_test(a_cut_makes_two_that_are_as_large_together),
        room_arena_test(only_the_arm_between_the_points_is_cut),
        room_arena_test(a_line_that_misses_cuts_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
