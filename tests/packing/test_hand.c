/* Depths and slides: all values worked by hand. */
#include "outlines.h"
#include "packing/packing.h"
#include "support/cmocka_all.h"

static struct arena *arena;

static int set_up(void **state)
{
    (void)state;
    arena = base_arena_create();
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    base_arena_destroy(arena);
    return 0;
}

static double depth(struct geometry_path a, struct geometry_path b, double x, double y)
{
    vec2 apart;
    double d = packing_depth(arena, a, (vec2){ 0, 0 }, b, (vec2){ x, y }, &apart);
    assert_near(vec2_length(apart), d, 1e-12);
    if (d > 0)
        assert_near(packing_depth(arena, a, (vec2){ 0, 0 }, b, (vec2){ x + apart.x, y + apart.y }, NULL), 0, 0);
    return d;
}

static void squares_are_as_deep_as_the_shortest_way_out(void **state)
{
    (void)state;
    assert_near(depth(UNIT_SQUARE, UNIT_SQUARE, 0, 0), 1, 1e-12);
    assert_near(depth(UNIT_SQUARE, UNIT_SQUARE, 0.75, 0.5), 0.25, 1e-12);
    assert_near(depth(UNIT_SQUARE, UNIT_SQUARE, -0.3, 0.9), 0.1, 1e-12);
}

static void touching_is_no_depth(void **state)
{
    (void)state;
    assert_near(depth(UNIT_SQUARE, UNIT_SQUARE, 1, 0), 0, 0);
    assert_near(depth(UNIT_SQUARE, UNIT_SQUARE, 1, 1), 0, 0);
    assert_near(depth(UNIT_SQUARE, UNIT_SQUARE, 0.3, -1), 0, 0);
    assert_near(depth(UNIT_SQUARE, UNIT_SQUARE, 5, 5), 0, 0);
}

/* The small square (side 0.5) stands in the notch (side 1): free at (1, 1), and 0.1 over both sides of the corner it
 * has to go 0.1 right or up, but 0.1 over only one of them just that. */
static void a_notch_is_room(void **state)
{
    (void)state;
    struct geometry_path half = OUTLINE({ 0, 0 }, { 0.5, 0 }, { 0.5, 0.5 }, { 0, 0.5 });
    assert_near(depth(ELL, half, 1, 1), 0, 0);
    assert_near(depth(ELL, half, 1.2, 1.3), 0, 0);
    assert_near(depth(ELL, half, 0.9, 1.3), 0.1, 1e-12);
    assert_near(depth(ELL, half, 0.9, 0.9), sqrt(0.02), 1e-12);
}

static void a_slide_ends_where_they_touch(void **state)
{
    (void)state;
    struct geometry_path others[2] = { UNIT_SQUARE, ELL };
    vec2 at[2] = { { 3, 0 }, { 6, -1.5 } };
    struct geometry_path square = UNIT_SQUARE;
    vec2 right = { 1, 0 };
    assert_near(packing_slide(arena, square, (vec2){ 0, 0 }, right, 100, others, at, 2), 2, 1e-12);
    assert_near(packing_slide(arena, square, (vec2){ 0, 1 }, right, 100, others, at, 2), 100, 0);
    assert_near(packing_slide(arena, square, (vec2){ 0, -1.1 }, right, 100, others, at, 2), 5, 1e-12);
    assert_near(packing_slide(arena, square, (vec2){ 4.5, 0 }, right, 100, others, at, 2), 0.5, 1e-12);
    assert_near(packing_slide(arena, square, (vec2){ 2, 0.5 }, right, 100, others, at, 2), 0, 0);
    assert_near(packing_slide(arena, square, (vec2){ 0, 0 }, right, 1.5, others, at, 2), 1.5, 0);
    vec2 slant = { 0.6, 0.8 };
    assert_near(packing_slide(arena, square, (vec2){ 1.4, -2 }, slant, 100, others, at, 1), 1.25, 1e-12);
}

/* Along the upper side of another square, which it touches. */
static void it_slides_along_what_it_touches(void **state)
{
    (void)state;
    struct geometry_path other = UNIT_SQUARE, square = UNIT_SQUARE;
    vec2 at = { 1, 0 };
    assert_near(packing_slide(arena, square, (vec2){ 0, 1 }, (vec2){ 1, 0 }, 10, &other, &at, 1), 10, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(squares_are_as_deep_as_the_shortest_way_out, set_up, tear_down),
        cmocka_unit_test_setup_teardown(touching_is_no_depth, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_notch_is_room, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_slide_ends_where_they_touch, set_up, tear_down),
        cmocka_unit_test_setup_teardown(it_slides_along_what_it_touches, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
