/* Lengths as they are typed, in English and in German. */
#include "base/words.h"
#include "support/cmocka_all.h"
#include "units/typed.h"

#include <math.h>
#include <string.h>

/* What is typed, in cm; NAN: refused. `small` and `large`: it can be read in two ways. */
struct row {
    const char *typed;
    double mm;
    const char *small, *large;
};

static void assert_typed(const struct row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double mm = NAN;
        char small[UNITS_TEXT], large[UNITS_TEXT];
        bool good = units_typed_length(rows[i].typed, UNITS_CM, &mm);
        if (good != !isnan(rows[i].mm) || (good && fabs(mm - rows[i].mm) > 1e-9))
            fail_msg("“%s” is %g mm", rows[i].typed, mm);
        if (units_two_ways(rows[i].typed, small, large) != (rows[i].small != NULL))
            fail_msg("“%s” can %sbe read in two ways", rows[i].typed, rows[i].small ? "not " : "");
        if (rows[i].small) {
            assert_string_equal(small, rows[i].small);
            assert_string_equal(large, rows[i].large);
        }
    }
}

/* In English a comma may part thousands, and a point never does (common practice, no source). */
static void in_english_a_comma_before_three_digits_is_asked_about(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "1.200", 12, NULL, NULL },
        { "1,200", NAN, "1.2", "1200" },
        { "-12,345 mm", NAN, "-12.345 mm", "-12345 mm" },
        { "94,5", 945, NULL, NULL },
        { "0,125", 1.25, NULL, NULL },
        { "1,2000", 12, NULL, NULL },
        { "37 1/2 in", 952.5, NULL, NULL },
        { "1,200,000", NAN, NULL, NULL },
        { "x", NAN, NULL, NULL },
        { "", NAN, NULL, NULL },
    };
    assert_true(base_words_speak("en", CHALK_WORDS));
    assert_typed(rows, sizeof rows / sizeof rows[0]);
}

/* In German a point may (seen, though DIN 1333 allows it for money alone), and a comma never does. */
static void in_german_a_point_before_three_digits_is(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "1.200", NAN, "1,2", "1200" }, { "1.200 Zoll", NAN, "1,2 Zoll", "1200 Zoll" },
        { "1,200", 12, NULL, NULL },     { "1.20", 12, NULL, NULL },
        { "0.125", 1.25, NULL, NULL },   { "1234.500", 12345, NULL, NULL },
    };
    assert_true(base_words_speak("de", CHALK_WORDS));
    assert_typed(rows, sizeof rows / sizeof rows[0]);
    assert_true(base_words_speak("en", CHALK_WORDS));
}

static void a_number_has_no_unit(void **state)
{
    (void)state;
    double number = NAN;
    assert_true(units_typed_number(" 3,5 ", &number));
    assert_near(number, 3.5, 1e-12);
    assert_false(units_typed_number("3 m", &number));
    assert_false(units_typed_number("1,200", &number));
    assert_false(units_typed_number("1 1/2", &number));
    assert_near(number, 3.5, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_english_a_comma_before_three_digits_is_asked_about),
        cmocka_unit_test(in_german_a_point_before_three_digits_is),
        cmocka_unit_test(a_number_has_no_unit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
