/* Simpler outlines hold the outline they came from and are no larger than they may be: a circle by hand, a scalloped
 * one by its own points. */
#include "packing/simplify.h"
#include "support/cmocka_all.h"

static struct geometry_path ring(struct arena *a, size_t count, double scallop)
{
    struct geometry_path p = { base_arena_alloc(a, count, sizeof(vec2)), count, true };
    for (size_t i = 0; i < count; i++) {
        double turn = 2 * acos(-1) * (double)i / (double)count;
        double r = 250 + scallop * cos(30 * turn);
        p.points[i] = (vec2){ r * cos(turn), r * sin(turn) };
    }
    return p;
}

static void assert_holds(struct geometry_path outer, struct geometry_path inner, double tol)
{
    double along;
    for (size_t i = 0; i < inner.count; i++)
        if (!geometry_path_holds(outer, inner.points[i]) &&
            geometry_path_distance(outer, inner.points[i], &along) > tol)
            fail_msg("point %zu is outside", i);
}

static void a_circle_keeps_its_size(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct geometry_path p = ring(a, 2000, 0), simple = simplify_outwards(a, p);
    assert_true(simple.count <= SIMPLIFY_MOST_POINTS);
    assert_holds(simple, p, 1e-9);
    double share = geometry_path_area(simple) / geometry_path_area(p);
    /* The bound is 3e-4 of 443; twice that on a radius of 250 is 2.2e-3 of the area. */
    assert_true(share >= 1 && share < 1 + 2.2e-3);
    base_arena_destroy(a);
}

static void few_points_stay(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct geometry_path p = ring(a, 60, 0);
    assert_ptr_equal(simplify_outwards(a, p).points, p.points);
    base_arena_destroy(a);
}

static void a_scalloped_edge_is_held(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct geometry_path p = ring(a, 2000, 8), simple = simplify_outwards(a, p);
    vec2 where;
    assert_true(simple.count < 200);
    assert_false(geometry_path_crosses_itself(simple, &where));
    assert_holds(simple, p, 1e-9);
    base_arena_destroy(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_circle_keeps_its_size),
        cmocka_unit_test(few_points_stay),
        cmocka_unit_test(a_scalloped_edge_is_held),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
