#include "calibration/doubt.h"

#include "support/room.h"

/* A pixel is a millimetre, rows running away from the person's end; only where the whole lies is in doubt, by 0.1 mm
 * along and 0.3 mm away. */
static const struct geometry_map plain = { 800, 600, { 500, 0, 400, 0, -500, 300, 0, 0, 0, 0, 0 } };

static struct calibration_doubt shifting(void)
{
    struct calibration_doubt d = { .hull_count = 0 };
    d.covariance[GEOMETRY_H02][GEOMETRY_H02] = 0.1 * 0.1;
    d.covariance[GEOMETRY_H12][GEOMETRY_H12] = 0.3 * 0.3;
    return d;
}

static void a_shift_in_doubt_is_in_doubt_everywhere_and_no_length_is(void **state)
{
    (void)state;
    struct calibration_doubt d = shifting();
    struct px_pt worst;
    assert_near(calibration_doubt_place_mm(&plain, &d, (struct px_pt){ 10, 20 }), 0.3 * 2.4477, 1e-4);
    assert_near(calibration_doubt_worst_mm(&plain, &d, &worst), 0.3 * 2.4477, 1e-4);
    assert_near(calibration_doubt_line_mm(&plain, &d, (struct px_pt){ 10, 20 }, (struct px_pt){ 700, 500 }), 0, 1e-9);
    assert_near(calibration_doubt_hundred_mm(&plain, &d, (struct px_pt){ 400, 300 }), 0, 1e-9);
}

/* A bent map whose terms are all in doubt together: where it lies and how it is turned goes, every length stays as it
 * was; doubt of nothing but a motion goes altogether. */
static void released_doubt_is_of_size_and_shape_alone(void **state)
{
    (void)state;
    static const struct geometry_map bent = { 1280,
                                              800,
                                              { 700, 8, 650, 12, -715, 420, 0.1, -0.07, -0.01, 0.004, 0.003 } };
    struct calibration_doubt all = { .hull_count = 0 }, motion = shifting();
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++) {
        double size = i < GEOMETRY_H20 ? 0.5 : 0.001;
        all.covariance[i][i] = size * size;
    }
    all.covariance[0][5] = all.covariance[5][0] = 0.2;
    struct calibration_doubt released = all;
    calibration_doubt_release(&bent, &released);
    for (int i = 0; i < 20; i++) {
        struct px_pt a = { 64.0 * i, 40.0 * (i % 7) }, b = { 1280 - 50.0 * i, 800 - 33.0 * (i % 5) };
        assert_near(calibration_doubt_line_mm(&bent, &released, a, b), calibration_doubt_line_mm(&bent, &all, a, b),
                    1e-9);
    }
    assert_true(calibration_doubt_worst_mm(&bent, &released, NULL) < calibration_doubt_worst_mm(&bent, &all, NULL));
    calibration_doubt_release(&plain, &motion);
    assert_near(calibration_doubt_worst_mm(&plain, &motion, NULL), 0, 1e-6);
}

/* h00 moves x by x / rho: a line along is in doubt by its length over rho (500 px), one across not at all. */
static void a_scale_in_doubt_is_in_doubt_by_length(void **state)
{
    (void)state;
    struct calibration_doubt d = { .hull_count = 0 };
    struct px_pt a = { 100, 300 }, along = { 350, 300 }, across = { 100, 550 }, worst;
    d.covariance[GEOMETRY_H00][GEOMETRY_H00] = 1;
    assert_near(calibration_doubt_line_mm(&plain, &d, a, along), 1.95996 * 250 / 500, 1e-4);
    assert_near(calibration_doubt_line_mm(&plain, &d, a, across), 0, 1e-9);
    assert_near(calibration_doubt_hundred_mm(&plain, &d, a), 1.95996 * 100 / 500, 1e-4);
    assert_near(calibration_doubt_worst_mm(&plain, &d, &worst), 2.4477 * 400 / 500, 1e-4);
    assert_true(worst.x == 0 || worst.x == 800);
}

/* The best next reading is where the doubt is: at the left or right edge. There x is off by 0.752 mm sigma (376 of 500
 * px, 3 % in); with a reading of 0.3 mm there, variance 1 becomes 1 / (1 + (0.752 / 0.3)²). */
static void the_next_reading_is_asked_for_where_it_helps_most(void **state)
{
    (void)state;
    struct calibration_doubt d = { .hull_count = 0 };
    double then_mm;
    d.covariance[GEOMETRY_H00][GEOMETRY_H00] = 1;
    struct px_pt next = calibration_doubt_next(&plain, &d, 0.3, &then_mm);
    assert_true(next.x == 24 || next.x == 776);
    assert_near(then_mm, 2.4477 * 0.8 / sqrt(1 + 0.752 * 0.752 / 0.09), 1e-4);
}

static void what_lies_within_the_crosses_is_measured(void **state)
{
    struct arena *a = *state;
    struct calibration_doubt d = shifting();
    static const struct px_pt crosses[] = {
        { 100, 100 }, { 700, 100 }, { 400, 300 }, { 700, 500 }, { 100, 500 }, { 100, 100 }, { 400, 100 },
    };
    static const struct {
        struct px_pt px;
        bool measured;
    } rows[] = {
        { { 400, 300 }, true },  { { 100, 300 }, true }, /* on its edge */
        { { 99, 300 }, false },  { { 701, 300 }, false }, { { 400, 99 }, false },
        { { 690, 501 }, false }, { { 690, 490 }, true },
    };
    calibration_doubt_measure(a, &d, crosses, sizeof crosses / sizeof crosses[0]);
    assert_int_equal(d.hull_count, 4);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_int_equal(calibration_doubt_is_measured(&d, rows[i].px), rows[i].measured);
    calibration_doubt_measure(a, &d, crosses, 2);
    assert_false(calibration_doubt_is_measured(&d, (struct px_pt){ 400, 100 }));
    calibration_doubt_measure(a, &d, crosses, 0);
    assert_false(calibration_doubt_is_measured(&d, (struct px_pt){ 400, 100 }));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_shift_in_doubt_is_in_doubt_everywhere_and_no_length_is),
        room_arena_test(released_doubt_is_of_size_and_shape_alone),
        room_arena_test(a_scale_in_doubt_is_in_doubt_by_length),
        room_arena_test(the_next_reading_is_asked_for_where_it_helps_most),
        room_arena_test(what_lies_within_the_crosses_is_measured),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
