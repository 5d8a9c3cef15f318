#include "support/cmocka_all.h"
#include "units/angle.h"

#include <math.h>

static void an_angle_is_read_in_degrees(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double deg;
    } rows[] = {
        {"90",          90   },
        { "-12.5",      -12.5},
        { "12,5°",     12.5 },
        { "12.5 °",    12.5 },
        { "45 deg",     45   },
        { "45DEG",      45   },
        { "1 degree",   1    },
        { "30 degrees", 30   },
        { "30 Grad",    30   },
        { " +.5° ",    0.5  },
        { "−45",      -45  },
        { "0",          0    },
        { "36000",      36000},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double deg = NAN;
        if (!units_parse_degrees(rows[i].text, &deg) || !(fabs(deg - rows[i].deg) <= 1e-12))
            fail_msg("%s gives %.17g", rows[i].text, deg);
    }
}

static void what_is_no_angle_is_refused_and_leaves_the_old_value(void **state)
{
    (void)state;
    static const char *const rows[] = {
        "",
        " ",
        "°",
        "deg",
        "abc",
        "90 rad",
        "90 cm",
        "1e3",
        "0x10",
        "nan",
        "inf",
        "5.",
        "1 2",
        "45°°",
        "45° 30",
        "1/2",
        "- 5",
        "36000.01",
        "000000000000000000000000000000000000000000000000000000000000000090",
        "-36001",
        "90\xb0",
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double deg = 77;
        if (units_parse_degrees(rows[i], &deg) || deg != 77)
            fail_msg("“%s” gives %g", rows[i], deg);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_angle_is_read_in_degrees),
        cmocka_unit_test(what_is_no_angle_is_refused_and_leaves_the_old_value),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
