/* Numbers against the C library's strtod, which rounds to the nearest double; lengths and colours by their standards.
 */
#include "sheet_reader/svg_colour.h"
#include "sheet_reader/svg_number.h"
#include "support/room.h"

#include <stdlib.h>

static uint64_t random_bits(uint64_t *state)
{
    uint64_t z = *state += 0x9e3779b97f4a7c15u; /* splitmix64 (Steele, Lea and Flood, 2014) */
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
    z = (z ^ z >> 27) * 0x94d049bb133111ebu;
    return z ^ z >> 31;
}

static void numbers_are_the_nearest_doubles(void **state)
{
    (void)state;
    uint64_t seed = 1;
    static const char *const formats[] = { "%.17g", "%.6f", "%.3e", "%.25f", "%.1f", "%.20e" };
    for (int i = 0; i < 100000; i++) {
        double value = ldexp((double)(int64_t)random_bits(&seed), (int)(random_bits(&seed) % 60) - 85);
        char text[400];
        snprintf(text, sizeof text, formats[random_bits(&seed) % 6], value);
        struct svg_scan s = { text };
        double got = 0;
        assert_true(svg_scan_number(&s, &got));
        if (got != strtod(text, NULL) || *s.at)
            fail_msg("%s is %.17g", text, got);
    }
}

static void what_is_no_number_is_none(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "", "-", "+", ".", "-.", "e5", ".e5", "inf", "nan", "--1", "+-1", "1e13", "x"
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct svg_scan s = { texts[i] };
        double got = 7;
        assert_false(svg_scan_number(&s, &got));
        assert_ptr_equal(s.at, texts[i]);
        assert_near(got, 7, 0);
    }
}

static void lengths_have_units(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double units;
    } rows[] = { { " 2in ", 192 }, { "2.54cm", 96 }, { "25.4MM", 96 }, { "72pt", 96 },
                 { "6pc", 96 },    { "101.6q", 96 }, { "1.5px", 1.5 }, { "2em", 20 },
                 { "2ex", 10 },    { "50%", 100 },   { "-3", -3 },     { "1e1mm", 9600 / 254.0 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double got = 0;
        assert_true(svg_length(rows[i].text, (struct svg_measure){ 10, 200 }, &got));
        assert_near(got, rows[i].units, 1e-9);
    }
    static const char *const wrong[] = { "", "mm", "5 mm", "5furlong", "5mmm", "5mm6", "auto" };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_false(svg_length(wrong[i], (struct svg_measure){ 10, 200 }, &(double){ 0 }));
}

static void colours_are_read(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        uint32_t rgb;
    } rows[] = { { "red", 0xff0000 },
                 { "aliceblue", 0xf0f8ff },
                 { "yellowgreen", 0x9acd32 },
                 { "ReBeL", 0 },
                 { "#abc", 0xaabbcc },
                 { "#ABCDEF", 0xabcdef },
                 { "#12345678", 0x123456 },
                 { "rgb(1,2,3)", 0x010203 },
                 { "rgb( 100% 0% 300% )", 0xff00ff },
                 { "rgba(1,2,3,0.5)", 0x010203 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        uint32_t rgb = 0;
        assert_int_equal(svg_colour_read(rows[i].text, &rgb), rows[i].rgb != 0);
        assert_int_equal(rgb, rows[i].rgb);
    }
    static const char *const wrong[] = { "", "#", "#12", "#12345", "#xyz", "rgb(1,2)", "rgb(1,2,3", "redd", "re" };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_false(svg_colour_read(wrong[i], &(uint32_t){ 0 }));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_the_nearest_doubles),
        cmocka_unit_test(what_is_no_number_is_none),
        cmocka_unit_test(lengths_have_units),
        cmocka_unit_test(colours_are_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
