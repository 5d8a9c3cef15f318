/* What a lay has to keep: places across and along, pins, what is blocked, the most length. Overlaps are measured with
 * packing_depth, which test_hand.c holds against values by hand; all bounds here are the problem's own. */
#include "outlines.h"
#include "packing/packing.h"
#include "support/cmocka_all.h"

enum { MOST_ITEMS = 16 };

static const int shape_0[1] = { 0 }, shape_1[1] = { 1 }, shapes_01[2] = { 0, 1 };

struct found {
    struct packing_place places[MOST_ITEMS];
    struct packing_lay lay;
};

static void assert_no_overlap(struct arena *a, const struct packing_problem *p, const struct packing_lay *lay)
{
    for (size_t i = 0; i < lay->item_count; i++) {
        struct packing_place at = lay->places[i];
        if (at.shape == PACKING_NONE)
            continue;
        struct geometry_path outline = p->shapes[at.shape].outline;
        struct geometry_box box = geometry_path_box(outline);
        assert_true(box.min.x + at.shift.x >= -1e-8 && box.max.x + at.shift.x <= lay->length + 1e-8);
        assert_true(box.min.y + at.shift.y >= -1e-8 && box.max.y + at.shift.y <= p->width + 1e-8);
        for (size_t k = 0; k < p->blocked_count; k++)
            assert_near(packing_depth(a, p->blocked[k], (vec2){ 0, 0 }, outline, at.shift, NULL), 0, 0);
        for (size_t k = 0; k < i; k++) {
            struct packing_place other = lay->places[k];
            if (other.shape != PACKING_NONE)
                assert_near(packing_depth(a, p->shapes[other.shape].outline, other.shift, outline, at.shift, NULL), 0,
                            0);
        }
    }
}

static struct found run(const struct packing_problem *p, size_t rounds)
{
    struct found found;
    int item, other;
    struct arena *a = base_arena_create();
    assert_int_equal(packing_check(p, &item, &other), PACKING_CAN_BE_LAID);
    struct packing_search *s = packing_begin(p, 3, NULL);
    for (size_t i = 0; i < rounds; i++)
        packing_round(s, NULL);
    found.lay = *packing_best(s);
    for (size_t i = 0; i < p->item_count; i++)
        found.places[i] = found.lay.places[i];
    assert_no_overlap(a, p, &found.lay);
    packing_end(s);
    base_arena_destroy(a);
    found.lay.places = NULL;
    return found;
}

static void fold_pieces_stay_on_the_fold(void **state)
{
    (void)state;
    struct packing_range fold = { 0, 0, 0 };
    struct packing_shape shapes[2] = {
        { .outline = ELL, .half_turn = PACKING_NONE, .across = &fold, .across_count = 1 },
        { .outline = UNIT_SQUARE, .half_turn = PACKING_NONE }
    };
    struct packing_item items[6] = { { shape_0, 1 }, { shape_0, 1 }, { shape_1, 1 },
                                     { shape_1, 1 }, { shape_1, 1 }, { shape_1, 1 } };
    struct packing_problem p = { .width = 3, .shapes = shapes, .shape_count = 2, .items = items, .item_count = 6 };
    struct found found = run(&p, 4);
    assert_near(found.places[0].shift.y, 0, 1e-12);
    assert_near(found.places[1].shift.y, 0, 1e-12);
    assert_near(found.lay.length, 4, 1e-8); /* two of length 2 side by side; the squares find room above */
}

static void bands_are_kept(void **state)
{
    (void)state;
    struct packing_range bands[2] = { { 0, 0.5, 0 }, { 3, 3.25, 0 } };
    struct packing_shape shape = {
        .outline = UNIT_SQUARE, .half_turn = PACKING_NONE, .across = bands, .across_count = 2
    };
    struct packing_item items[6];
    for (size_t i = 0; i < 6; i++)
        items[i] = (struct packing_item){ shape_0, 1 };
    struct packing_problem p = { .width = 5, .shapes = &shape, .shape_count = 1, .items = items, .item_count = 6 };
    struct found found = run(&p, 4);
    for (size_t i = 0; i < 6; i++) {
        double y = found.places[i].shift.y;
        assert_true((y >= -1e-9 && y <= 0.5 + 1e-9) || (y >= 3 - 1e-9 && y <= 3.25 + 1e-9));
    }
    assert_near(found.lay.length, 3, 1e-8); /* three in each band */
}

static void assert_multiple(double value, double first, double step)
{
    double steps = (value - first) / step;
    assert_near(steps, floor(steps + 0.5), 1e-9);
}

static void lattices_are_kept(void **state)
{
    (void)state;
    struct packing_range across = { 0.25, 10, 1.5 };
    struct packing_shape shape = { .outline = UNIT_SQUARE,
                                   .half_turn = PACKING_NONE,
                                   .across = &across,
                                   .across_count = 1,
                                   .along = { .first = 0.5, .step = 0.75 } };
    struct packing_item items[4];
    for (size_t i = 0; i < 4; i++)
        items[i] = (struct packing_item){ shape_0, 1 };
    struct packing_problem p = { .width = 3, .shapes = &shape, .shape_count = 1, .items = items, .item_count = 4 };
    struct found found = run(&p, 4);
    for (size_t i = 0; i < 4; i++) {
        assert_multiple(found.places[i].shift.y, 0.25, 1.5);
        assert_multiple(found.places[i].shift.x, 0.5, 0.75);
    }
    /* Rows at 0.25 and 1.75; columns at 0.5 and, since 1.25 is too near, at 2: the second ends at 3. */
    assert_near(found.lay.length, 3, 1e-9);
}

static void pins_and_faults_stay(void **state)
{
    (void)state;
    struct packing_shape shape = { .outline = UNIT_SQUARE, .half_turn = PACKING_NONE };
    struct packing_item items[4];
    struct packing_place pinned[4];
    for (size_t i = 0; i < 4; i++) {
        items[i] = (struct packing_item){ shape_0, 1 };
        pinned[i] = (struct packing_place){ .shape = PACKING_NONE };
    }
    pinned[2] = (struct packing_place){ 0, { 1.25, 0.5 } };
    /* The strip's upper left, and what lies beyond. */
    struct geometry_path fault = OUTLINE({ -1, 2.5 }, { -1, 1 }, { 1, 1 }, { 1, 2.5 });
    struct packing_problem p = { .width = 2,
                                 .shapes = &shape,
                                 .shape_count = 1,
                                 .items = items,
                                 .item_count = 4,
                                 .blocked = &fault,
                                 .blocked_count = 1,
                                 .pinned = pinned };
    struct found found = run(&p, 4);
    assert_int_equal(found.places[2].shape, 0);
    assert_near(found.places[2].shift.x, 1.25, 0);
    assert_near(found.places[2].shift.y, 0.5, 0);
    assert_near(found.lay.length, 3.25, 1e-8); /* one at the lower left, two right of the pinned one */
}

static void what_does_not_fit_is_left_out(void **state)
{
    (void)state;
    struct packing_shape shapes[2] = { { .outline = UNIT_SQUARE, .half_turn = PACKING_NONE },
                                       { .outline = OUTLINE({ 0, 0 }, { 2, 0 }, { 2, 1 }, { 0, 1 }),
                                         .half_turn = PACKING_NONE } };
    struct packing_item items[5] = { { shape_0, 1 }, { shape_1, 1 }, { shape_1, 1 }, { shape_0, 1 }, { shape_0, 1 } };
    struct packing_problem p = {
        .width = 2, .most_length = 3, .shapes = shapes, .shape_count = 2, .items = items, .item_count = 5
    };
    struct found found = run(&p, 4);
    /* Areas 1 1 1 2 2 on an area of 6: a square has to stay out, and no more has to. */
    assert_int_equal(found.lay.left_out, 1);
    assert_near(found.lay.density, 1, 1e-8);
    assert_true(found.places[1].shape == 1 && found.places[2].shape == 1);
}

static void what_is_refused_is_named(void **state)
{
    (void)state;
    struct packing_shape shapes[2] = { { .outline = UNIT_SQUARE, .half_turn = PACKING_NONE },
                                       { .outline = ELL, .half_turn = PACKING_NONE } };
    struct packing_item items[2] = { { shape_0, 1 }, { shapes_01, 2 } };
    struct packing_place pinned[2] = { { 0, { 0, 0 } }, { 0, { 0.5, 0.5 } } };
    struct packing_problem p = { .width = 2, .shapes = shapes, .shape_count = 2, .items = items, .item_count = 2 };
    int item, other;
    assert_int_equal(packing_check(&p, &item, &other), PACKING_CAN_BE_LAID);
    p.pinned = pinned;
    assert_int_equal(packing_check(&p, &item, &other), PACKING_PINNED_OVERLAP);
    assert_true(item == 0 && other == 1);
    pinned[1].shift.y = 1.5;
    assert_int_equal(packing_check(&p, &item, &other), PACKING_PINNED_OUTSIDE);
    assert_int_equal(item, 1);
    p.pinned = NULL;
    p.width = 0.75;
    assert_int_equal(packing_check(&p, &item, &other), PACKING_TOO_WIDE);
    assert_int_equal(item, 0);
    p.width = 2;
    p.most_length = 0.5;
    assert_int_equal(packing_check(&p, &item, &other), PACKING_TOO_LONG);
    p.most_length = 2;
    struct geometry_path fault = OUTLINE({ 0.5, 0.5 }, { 1.5, 0.5 }, { 1.5, 1.5 }, { 0.5, 1.5 });
    p.blocked = &fault;
    p.blocked_count = 1;
    assert_int_equal(packing_check(&p, &item, &other), PACKING_NO_ROOM);
    p.most_length = 2.5; /* right of the fault */
    assert_int_equal(packing_check(&p, &item, &other), PACKING_CAN_BE_LAID);
}

static void a_round_that_is_stopped_keeps_the_best(void **state)
{
    (void)state;
    struct packing_shape shape = { .outline = ELL, .half_turn = PACKING_NONE };
    struct packing_item items[3] = { { shape_0, 1 }, { shape_0, 1 }, { shape_0, 1 } };
    struct packing_problem p = { .width = 3.5, .shapes = &shape, .shape_count = 1, .items = items, .item_count = 3 };
    struct packing_search *s = packing_begin(&p, 1, NULL);
    double length = packing_best(s)->length;
    atomic_bool stop = true;
    assert_false(packing_round(s, &stop));
    assert_near(packing_best(s)->length, length, 0);
    packing_end(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fold_pieces_stay_on_the_fold),
        cmocka_unit_test(bands_are_kept),
        cmocka_unit_test(lattices_are_kept),
        cmocka_unit_test(pins_and_faults_stay),
        cmocka_unit_test(what_does_not_fit_is_left_out),
        cmocka_unit_test(what_is_refused_is_named),
        cmocka_unit_test(a_round_that_is_stopped_keeps_the_best),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
