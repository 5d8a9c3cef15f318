/* Lays whose best length is worked by hand, and that the same search makes the same lay. */
#include "outlines.h"
#include "packing/packing.h"
#include "support/cmocka_all.h"

static const int first_shape[1] = { 0 };
static const int both_shapes[2] = { 0, 1 };

static struct packing_lay run(struct arena *a, const struct packing_problem *p, uint64_t seed, int threads,
                              size_t rounds)
{
    struct base_pool *pool = base_pool_create(threads);
    struct packing_search *s = packing_begin(p, seed, pool);
    for (size_t i = 0; i < rounds && packing_can_gain(s); i++)
        packing_round(s, NULL);
    struct packing_lay lay = *packing_best(s);
    struct packing_place *places = base_arena_alloc(a, lay.item_count, sizeof *places);
    for (size_t i = 0; i < lay.item_count; i++)
        places[i] = lay.places[i];
    lay.places = places;
    packing_end(s);
    base_pool_destroy(pool);
    return lay;
}

static void four_squares_fill_a_strip_of_two(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct packing_shape square = { .outline = UNIT_SQUARE, .half_turn = PACKING_NONE };
    struct packing_item items[4] = { { first_shape, 1 }, { first_shape, 1 }, { first_shape, 1 }, { first_shape, 1 } };
    struct packing_problem p = { .width = 2, .shapes = &square, .shape_count = 1, .items = items, .item_count = 4 };
    struct packing_lay lay = run(a, &p, 1, 1, 3);
    assert_near(lay.length, 2, 1e-8);
    assert_near(lay.density, 1, 1e-8);
    base_arena_destroy(a);
}

static void two_triangles_make_a_square(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct packing_shape shapes[2] = { { .outline = OUTLINE({ 0, 0 }, { 1, 0 }, { 0, 1 }), .half_turn = 1 },
                                       { .outline = OUTLINE({ 0, 0 }, { -1, 0 }, { 0, -1 }), .half_turn = 0 } };
    struct packing_item items[2] = { { both_shapes, 2 }, { both_shapes, 2 } };
    struct packing_problem p = { .width = 1, .shapes = shapes, .shape_count = 2, .items = items, .item_count = 2 };
    assert_near(run(a, &p, 1, 1, 3).length, 1, 1e-8);
    base_arena_destroy(a);
}

/* Two of them, one turned by half a turn, are a rectangle of 2 x 3. */
static void two_ells_interlock(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct packing_shape shapes[2] = {
        { .outline = ELL, .half_turn = 1 },
        { .outline = OUTLINE({ 0, 0 }, { -2, 0 }, { -2, -1 }, { -1, -1 }, { -1, -2 }, { 0, -2 }), .half_turn = 0 }
    };
    struct packing_item items[2] = { { both_shapes, 2 }, { both_shapes, 2 } };
    struct packing_problem p = { .width = 2, .shapes = shapes, .shape_count = 2, .items = items, .item_count = 2 };
    assert_near(run(a, &p, 1, 1, 3).length, 3, 1e-8);
    base_arena_destroy(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(four_squares_fill_a_strip_of_two),
        cmocka_unit_test(two_triangles_make_a_square),
        cmocka_unit_test(two_ells_interlock),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
