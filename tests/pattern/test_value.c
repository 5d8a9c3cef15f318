#include "pattern/value.h"
#include "support/cmocka_all.h"

/* 0.1, 0.7 and 1e-3 are no sums of powers of two: rounding would show. */
static const double graded_mm[] = { 0.1, 0.7, 240.001, 240.001, 233 };
static const struct pattern_value graded = { .mm = graded_mm, .count = sizeof graded_mm / sizeof graded_mm[0] };

static void a_number_is_the_same_in_every_size(void **state)
{
    (void)state;
    static const double mm = 15.875;
    struct pattern_value v = { .mm = &mm, .count = 1 };
    static const double positions[] = { -1, 0, 0.5, 7, 99 };
    for (size_t i = 0; i < sizeof positions / sizeof positions[0]; i++)
        assert_near(pattern_value_at(v, positions[i]), 15.875, 0);
}

static void what_was_not_given_is_nought(void **state)
{
    (void)state;
    assert_near(pattern_value_at((struct pattern_value){ .mm = NULL, .count = 0 }, 3.5), 0, 0);
}

static void a_list_gives_exactly_its_numbers_at_whole_positions(void **state)
{
    (void)state;
    for (size_t i = 0; i < graded.count; i++)
        assert_near(pattern_value_at(graded, (double)i), graded_mm[i], 0);
}

/* P(t) = A + t (B - A), by hand. */
static void between_two_sizes_a_list_is_interpolated(void **state)
{
    (void)state;
    static const double mm[] = { 760, 800, 840, 880, 920 };
    static const struct pattern_value bust = { .mm = mm, .count = 5 };
    assert_near(pattern_value_at(bust, 3.5), 900, 0);
    assert_near(pattern_value_at(bust, 0.25), 770, 0);
    assert_near(pattern_value_at(graded, 3.5), 236.5005, 1e-12);
    assert_near(pattern_value_at(graded, 2.75), 240.001, 0);
}

static void beyond_the_chart_the_end_sizes_hold(void **state)
{
    (void)state;
    assert_near(pattern_value_at(graded, -0.001), 0.1, 0);
    assert_near(pattern_value_at(graded, -1e300), 0.1, 0);
    assert_near(pattern_value_at(graded, 4.001), 233, 0);
    assert_near(pattern_value_at(graded, 1e300), 233, 0);
}

static void just_off_a_whole_position_nothing_jumps(void **state)
{
    (void)state;
    for (size_t i = 0; i < graded.count; i++) {
        assert_near(pattern_value_at(graded, (double)i + 1e-12), graded_mm[i], 1e-9);
        assert_near(pattern_value_at(graded, (double)i - 1e-12), graded_mm[i], 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_is_the_same_in_every_size),
        cmocka_unit_test(what_was_not_given_is_nought),
        cmocka_unit_test(a_list_gives_exactly_its_numbers_at_whole_positions),
        cmocka_unit_test(between_two_sizes_a_list_is_interpolated),
        cmocka_unit_test(beyond_the_chart_the_end_sizes_hold),
        cmocka_unit_test(just_off_a_whole_position_nothing_jumps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
