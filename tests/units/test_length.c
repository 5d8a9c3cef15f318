#include "support/cmocka_all.h"
#include "units/length.h"

#include <math.h>
#include <string.h>

#define TINY_MM 1e-9 /* no more than rounding */

/* A yard is 0.9144 m, hence an inch 25.4 mm (agreement of 1959). */
static void a_length_is_read_in_its_own_unit(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double mm;
    } rows[] = {
        {"1 yd",           25.4 * 36},
        { "1 yard",        914.4    },
        { "2 YARDS",       1828.8   },
        { "3 1/4 yd",      2971.8   }, /* 3.25 x 914.4 */
        { "1 ft",          304.8    },
        { "1 foot",        304.8    },
        { "2 feet",        609.6    },
        { "1 in",          25.4     },
        { "1 in.",         25.4     },
        { "1 inch",        25.4     },
        { "37 inches",     939.8    },
        { "37 Zoll",       939.8    },
        { "37zoll",        939.8    },
        { "37in",          939.8    },
        { "37\"",          939.8    },
        { "37 \"",         939.8    },
        { "37″",         939.8    },
        { "37”",         939.8    },
        { "37''",          939.8    },
        { "37’’",      939.8    },
        { "37′′",      939.8    },
        { "940mm",         940      },
        { "940 MM",        940      },
        { "94 cm",         940      },
        { "10 Zentimeter", 100      },
        { "9 centimetres", 90       },
        { "1 centimeter",  10       },
        { "5 millimeters", 5        },
        { "94.5 cm",       945      },
        { "94,5 cm",       945      },
        { "1.2 m",         1200     },
        { "1.200 m",       1200     }, /* a dot never groups thousands */
        { "1,20 m",        1200     },
        { ".5 cm",         5        },
        { ",5 cm",         5        },
        { "007 mm",        7        },
        { "0 in",          0        },
        { "-3 mm",         -3       },
        { "\xe2\x88\x92"
          "3 mm", -3       },
        { "+3 mm",         3        },
        { "-37 1/2 in",    -952.5   }, /* -37.5 x 25.4 */
        { "  5 cm  ",      50       },
        { "5\xc2\xa0"
          "cm",   50       },
        { "5\xe2\x80\xaf"
          "cm",   50       },
        { "100 m",         100000   },
        { "-100 m",        -100000  },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double mm = NAN;
        if (!units_parse_length(rows[i].text, UNITS_CM, &mm) || !(fabs(mm - rows[i].mm) <= TINY_MM))
            fail_msg("%s gives %.17g mm, not %g", rows[i].text, mm, rows[i].mm);
    }
}

static void every_way_of_writing_a_fraction_is_read(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double inches;
    } rows[] = {
        {"37 1/2",        37.5     },
        { "37-1/2",       37.5     },
        { "37½",         37.5     },
        { "37 ½",        37.5     },
        { "37-½",        37.5     },
        { "37 1⁄2",     37.5     }, /* U+2044 */
        { "37\xc2\xa0"
          "1/2", 37.5     },
        { "37  1/2",      37.5     },
        { "½",           0.5      },
        { "¼",           0.25     },
        { "¾",           0.75     },
        { "⅛",          0.125    },
        { "⅜",          0.375    },
        { "⅝",          0.625    },
        { "⅞",          0.875    },
        { "1⅓",         4.0 / 3  },
        { "⅔",          2.0 / 3  },
        { "5/8",          0.625    },
        { "-5/8",         -0.625   },
        { "3/2",          1.5      },
        { "63/64",        63.0 / 64},
        { "0/1",          0        },
        { "12 0/8",       12       },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double mm = NAN;
        if (!units_parse_length(rows[i].text, UNITS_IN, &mm) || !(fabs(mm - rows[i].inches * 25.4) <= TINY_MM))
            fail_msg("%s gives %.17g mm", rows[i].text, mm);
    }
}

static void a_bare_number_is_in_the_unit_shown(void **state)
{
    (void)state;
    double mm;
    assert_true(units_parse_length("94", UNITS_MM, &mm));
    assert_near(mm, 94, 0);
    assert_true(units_parse_length("94", UNITS_CM, &mm));
    assert_near(mm, 940, 0);
    assert_true(units_parse_length(" 94 ", UNITS_IN, &mm));
    assert_near(mm, 2387.6, TINY_MM);
}

static void what_is_no_length_is_refused_and_leaves_the_old_value(void **state)
{
    (void)state;
    static const char *const rows[] = {
        "1,000 mm", "1,200", /* a thousand to some, one to others */
        "",        " ",        "abc",     "cm",       "-",       "+",     "- 5",     "--5",
        "12 12",   "12 12 cm", "1/0",     "1/65",     "1/",      "/2",    "1 / 2",   "1/-2",
        "3 3/2",   "3 2/2",    "3.5 1/2", "3½½",      "1½ 1/2",  "½1",    "5 5/8 5", "5/8 5/8",
        "1/2/3",   "3 -1/2",   "3- 1/2",  "5-3 cm",   "5-",      "nan",   "inf",     "infinity",
        "0x10",    "0x10 mm",  "1e3",     "1e3 mm",   "1e400",   "5.",    ".",       ",",
        "1.2.3",   "1,234.5",  "1'000",   "1 000 mm", "5 cmm",   "5 c m", "5 mi",    "5 pt",
        "5 px",    "5 cm 3",   "cm 5",    "5 '",      "5 in in", "$5",    "5%",      "5°",
        "100.1 m", "-100.1 m", "110 yd",  "5 \xff",   "\xbd",    "5\xbd", "5\n",     "999999999999999999999",
        "٣ cm",
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double mm = 77;
        if (units_parse_length(rows[i], UNITS_CM, &mm) || mm != 77)
            fail_msg("“%s” gives %g mm", rows[i], mm);
    }
    char endless[5000];
    memset(endless, '0', sizeof endless);
    endless[sizeof endless - 1] = '\0';
    double mm = 77;
    assert_false(units_parse_length(endless, UNITS_CM, &mm));
    assert_near(mm, 77, 0);
}

static void lengths_are_printed_as_promised(void **state)
{
    (void)state;
    static const struct {
        double mm;
        enum units_length unit;
        const char *text;
    } rows[] = {
        {940,           UNITS_MM, "940 mm"    },
        { 940.25,       UNITS_MM, "940.2 mm"  }, /* the even one of two equally near */
        { 0.04,         UNITS_MM, "0 mm"      },
        { -0.04,        UNITS_MM, "0 mm"      },
        { -3,           UNITS_MM, "-3 mm"     },
        { 1000,         UNITS_MM, "1000 mm"   },
        { 945,          UNITS_CM, "94.5 cm"   },
        { 940,          UNITS_CM, "94 cm"     },
        { 15.875,       UNITS_CM, "1.59 cm"   },
        { 0,            UNITS_CM, "0 cm"      },
        { 952.5,        UNITS_IN, "37 1/2 in" },
        { 15.875,       UNITS_IN, "5/8 in"    },
        { -15.875,      UNITS_IN, "-5/8 in"   },
        { -952.5,       UNITS_IN, "-37 1/2 in"},
        { 25.4,         UNITS_IN, "1 in"      },
        { 254,          UNITS_IN, "10 in"     },
        { 0,            UNITS_IN, "0 in"      },
        { -0.04,        UNITS_IN, "0 in"      },
        { 1.5875,       UNITS_IN, "1/16 in"   },
        { 952.5 + 0.04, UNITS_IN, "37 1/2 in" }, /* within 0.05 mm of the sixteenth */
        { 952.5 + 0.06, UNITS_IN, "37.5 in"   }, /* 37.5024 in */
        { 100,          UNITS_IN, "3 15/16 in"}, /* 100.0125 mm */
        { 100.0125,     UNITS_IN, "3 15/16 in"},
        { 99.95,        UNITS_IN, "3.94 in"   },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char out[UNITS_TEXT];
        if (strcmp(units_print_length(out, rows[i].mm, rows[i].unit), rows[i].text) != 0)
            fail_msg("%.6g mm is “%s”, not “%s”", rows[i].mm, out, rows[i].text);
    }
}

static void the_longest_print_fits(void **state)
{
    (void)state;
    char out[UNITS_TEXT];
    for (int unit = UNITS_MM; unit <= UNITS_IN; unit++)
        assert_true(strlen(units_print_length(out, -9.9999999e11, (enum units_length)unit)) < UNITS_TEXT - 1);
}

/* What was printed is read as the length it stands for: within half of the last place printed, 0.05 mm in the metric
 * units and at a sixteenth, 0.005 in otherwise. */
static void a_printed_length_is_read_back_within_its_resolution(void **state)
{
    (void)state;
    for (int unit = UNITS_MM; unit <= UNITS_IN; unit++) {
        for (int i = -20000; i <= 20000; i++) {
            double mm = i * 0.317, back = NAN;
            char out[UNITS_TEXT];
            units_print_length(out, mm, (enum units_length)unit);
            double within = unit == UNITS_IN && !strchr(out, '/') ? 0.005 * 25.4 : 0.05;
            /* a bare number would be read in another unit: the printed name must do */
            bool good = units_parse_length(out, unit == UNITS_MM ? UNITS_IN : UNITS_MM, &back);
            if (!good || !(fabs(back - mm) <= within + TINY_MM))
                fail_msg("%.6g mm is printed as %s and read as %.6g mm", mm, out, back);
        }
    }
}

static void every_sixteenth_of_an_inch_comes_back_to_the_letter(void **state)
{
    (void)state;
    for (int i = -1600; i <= 1600; i++) {
        char out[UNITS_TEXT];
        double back = NAN;
        units_print_length(out, i / 16.0 * 25.4, UNITS_IN);
        assert_null(strchr(out, '.'));
        assert_true(units_parse_length(out, UNITS_MM, &back));
        assert_near(back, i / 16.0 * 25.4, TINY_MM);
    }
}

/* A4 is 210 x 297 mm (ISO 216); its sides to the next eighth are 8 1/4 and 11 3/4 in, and so within a sixteenth. */
static void a_sheet_given_in_inches_is_its_iso_216_size_to_an_eighth(void **state)
{
    (void)state;
    double width, height;
    assert_true(units_parse_length("8 1/4 in", UNITS_MM, &width));
    assert_true(units_parse_length("11 3/4 in", UNITS_MM, &height));
    assert_near(width, 210, 25.4 / 16);
    assert_near(height, 297, 25.4 / 16);
    char out[UNITS_TEXT];
    assert_string_equal(units_print_length(out, 210, UNITS_IN), "8.27 in");         /* 210 / 25.4 = 8.2677 */
    assert_string_equal(units_print_length(out, 297, UNITS_IN), "11.69 in");        /* 297 / 25.4 = 11.6929 */
    assert_string_equal(units_print_length(out, 8.5 * 25.4, UNITS_IN), "8 1/2 in"); /* letter: 8.5 x 11 in */
}

/* A PDF unit is 1/72 in (ISO 32000-1, table 30): 10 cm are 283.464567 of them, 5/8 in are 15.875 mm. */
static void points_and_inches_agree(void **state)
{
    (void)state;
    double mm;
    assert_near(283.464567 * UNITS_MM_PER_IN / 72, 100, 1e-6);
    assert_true(units_parse_length("3.937007874 in", UNITS_MM, &mm)); /* 283.464567 / 72 */
    assert_near(mm, 100, 1e-6);
    assert_true(units_parse_length("5/8 in", UNITS_MM, &mm));
    assert_near(mm, 15.875, TINY_MM);
}

static void units_are_named_and_found_by_name(void **state)
{
    (void)state;
    static const double mm_per[] = { 1, 10, 25.4 };
    for (int unit = UNITS_MM; unit <= UNITS_IN; unit++) {
        enum units_length found;
        assert_true(units_from_name(units_name((enum units_length)unit), &found));
        assert_int_equal(found, unit);
        assert_near(units_mm_per(found), mm_per[unit], 0);
    }
    enum units_length found = UNITS_CM;
    assert_false(units_from_name("inch", &found));
    assert_false(units_from_name("", &found));
    assert_int_equal(found, UNITS_CM);
}

/* 33.27 in lies between 33 1/4 and 33 3/8; 76.84 cm between 76.8 and 76.9. */
static void a_tape_has_millimetres_or_eighths_of_an_inch(void **state)
{
    (void)state;
    assert_near(units_on_tape(33.27 * 25.4, UNITS_IN), 33.25 * 25.4, 1e-9);
    assert_near(units_on_tape(-33.32 * 25.4, UNITS_IN), -33.375 * 25.4, 1e-9);
    assert_near(units_on_tape(768.4, UNITS_CM), 768, 0);
    assert_near(units_on_tape(768.6, UNITS_MM), 769, 0);
}

/* 60.83 in lies between 60 13/16 (60.8125) and 60 7/8. */
static void in_inches_a_length_is_told_in_sixteenths(void **state)
{
    (void)state;
    assert_near(units_to_sixteenth(60.83 * 25.4, UNITS_IN), 60.8125 * 25.4, 1e-9);
    assert_near(units_to_sixteenth(-0.02 * 25.4, UNITS_IN), 0, 0);
    assert_near(units_to_sixteenth(768.44, UNITS_CM), 768.44, 0);
    assert_near(units_to_sixteenth(768.44, UNITS_MM), 768.44, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_length_is_read_in_its_own_unit),
        cmocka_unit_test(every_way_of_writing_a_fraction_is_read),
        cmocka_unit_test(a_bare_number_is_in_the_unit_shown),
        cmocka_unit_test(what_is_no_length_is_refused_and_leaves_the_old_value),
        cmocka_unit_test(lengths_are_printed_as_promised),
        cmocka_unit_test(the_longest_print_fits),
        cmocka_unit_test(a_printed_length_is_read_back_within_its_resolution),
        cmocka_unit_test(every_sixteenth_of_an_inch_comes_back_to_the_letter),
        cmocka_unit_test(a_sheet_given_in_inches_is_its_iso_216_size_to_an_eighth),
        cmocka_unit_test(points_and_inches_agree),
        cmocka_unit_test(units_are_named_and_found_by_name),
        cmocka_unit_test(a_tape_has_millimetres_or_eighths_of_an_inch),
        cmocka_unit_test(in_inches_a_length_is_told_in_sixteenths),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
