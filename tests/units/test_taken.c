/* What is taken from the head of a longer text, as formulas do. */
#include "support/cmocka_all.h"
#include "units/length.h"
#include "units/number.h"

#include <string.h>

/* What a reader makes of a text; `left`: what it leaves, NULL when it takes nothing. An inch is 25.4 mm (agreement of
 * 1959); numbers are as they are written. */
struct row {
    const char *text;
    double taken;
    const char *left;
};

static void assert_reads(bool (*read)(const char **at, double *out), const struct row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const char *at = rows[i].text;
        double taken = NAN;
        bool took = read(&at, &taken);
        if (took != (rows[i].left != NULL))
            fail_msg("%s is %s", rows[i].text, took ? "taken" : "not taken");
        if (strcmp(at, took ? rows[i].left : rows[i].text) != 0)
            fail_msg("%s leaves %s", rows[i].text, at);
        if (took)
            assert_near(taken, rows[i].taken, 1e-9);
    }
}

static void a_length_is_taken_with_its_unit(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "5/8 in", 15.875, "" },
        { "5/8in*2", 15.875, "*2" },
        { "1 1/2 in + 3", 38.1, " + 3" },
        { "1½ in", 38.1, "" },
        { "½\" - 1", 12.7, " - 1" },
        { "5 in. + 1", 127, " + 1" }, /* with its full stop */
        { "5 inches)", 127, ")" },
        { "3cm", 30, "" },
        { "3 CM,", 30, "," },
        { "3 mm", 3, "" }, /* not metres */
        { "3 m", 3000, "" },
        { "2 ft", 609.6, "" },
        { "1 yd", 914.4, "" },
        { ".5 cm", 5, "" },
        { "0 cm", 0, "" },
        { "100 m", 100000, "" },
        { "101 m", 0, NULL },     /* farther than any */
        { "3", 0, NULL },         /* no unit */
        { "5/8", 0, NULL },       /* a division */
        { "3 minus", 0, NULL },   /* a name that begins as a unit does */
        { "3 in_seam", 0, NULL }, /* so here */
        { "3 inä", 0, NULL },
        { "3 in2", 0, NULL },
        { "3 hip", 0, NULL },
        { "-3 cm", 0, NULL },     /* a sign is an operator */
        { "37-1/2 in", 0, NULL }, /* so is a hyphen */
        { "3,5 cm", 0, NULL },    /* a comma parts values */
        { "1 8/2 in", 0, NULL },  /* a whole and more than a whole */
        { "5/0 in", 0, NULL },
        { "5/65 in", 0, NULL },
        { "1 / 2 in", 0, NULL }, /* with spaces it divides */
        { "cm", 0, NULL },
        { "", 0, NULL },
    };
    assert_reads(units_read_length, rows, sizeof rows / sizeof rows[0]);
}

static void a_decimal_is_taken_up_to_what_is_none(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "94", 94, "" },
        { "94.5", 94.5, "" },
        { "94.5.6", 94.5, ".6" },
        { "94,5", 94, ",5" },
        { "94, 5", 94, ", 5" },
        { "1,200", 1, ",200" },
        { ".5", 0.5, "" },
        { "5.", 5, "." },
        { "5. + 1", 5, ". + 1" },
        { "007", 7, "" },
        { "0.1", 0.1, "" },
        { "1e5", 1, "e5" }, /* no exponents */
        { "0x10", 0, "x10" },
        { "3/4", 3, "/4" },
        { "3 4", 3, " 4" },
        { "9999999999999999999999", 1e22, "" },
        { "-3", 0, NULL },
        { "+3", 0, NULL },
        { " 3", 0, NULL },
        { ".", 0, NULL },
        { ",5", 0, NULL },
        { "inf", 0, NULL },
        { "nan", 0, NULL },
        { "", 0, NULL },
        { "00000000000000000000000000000000000000000000000000000000000000001", 0, NULL }, /* 65 digits */
    };
    assert_reads(units_read_point_decimal, rows, sizeof rows / sizeof rows[0]);
}

static void a_fraction_beyond_a_division_is_taken(void **state)
{
    (void)state;
    static const struct row rows[] = {
        { "1 1/2", 1.5, "" },   { "1½+2", 1.5, "+2" },  { "½ in", 0.5, " in" }, { "12  3/8)", 12.375, ")" },
        { "1/2", 0, NULL },     { "1 + 1/2", 0, NULL }, { "1-1/2", 0, NULL },   { "1 2/2", 0, NULL },
        { "1.5 1/2", 0, NULL }, { "1 1 / 2", 0, NULL }, { "hip", 0, NULL },     { "", 0, NULL },
    };
    assert_reads(units_read_mixed, rows, sizeof rows / sizeof rows[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_length_is_taken_with_its_unit),
        cmocka_unit_test(a_decimal_is_taken_up_to_what_is_none),
        cmocka_unit_test(a_fraction_beyond_a_division_is_taken),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
