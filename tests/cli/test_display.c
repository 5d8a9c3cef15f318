/* Which display the light goes to. The rule is our own (cli/display.h). */
#include "cli/display.h"

#include "support/room.h"

static const struct screen_display desk[] = {
    { "laptop", 0, 0, 1920, 1080 },
    { "projector", 1920, 0, 1280, 800 },
    { "wall", 3200, 0, 1920, 1080 },
};

static const struct row {
    const char *what, *name;
    int width, height, display;
} rows[] = {
    { "a name, whatever the size", "projector", 1920, 1080, 1 },
    { "a name, no size", "laptop", 0, 0, 0 },
    { "a name that is not there", "Projector", 1280, 800, -1 },
};

static void the_light_goes_to_the_display_that_is_meant(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        int found = cli_find_display(desk, 3, rows[i].name, rows[i].width, rows[i].height);
        if (found != rows[i].display)
            fail_msg("%s: %d, not %d", rows[i].what, found, rows[i].display);
    }
}

/* Desktops give two displays of one make one name. */
static void of_one_name_the_size_decides(void **state)
{
    (void)state;
    const struct screen_display twins[] = { { "make", 0, 0, 1280, 800 }, { "make", 1280, 0, 1920, 1080 } };
    assert_int_equal(cli_find_display(twins, 2, "make", 1280, 800), 0);
    assert_int_equal(cli_find_display(twins, 2, "make", 800, 600), 1);
    assert_int_equal(cli_find_display(twins, 0, "make", 800, 600), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_light_goes_to_the_display_that_is_meant),
        cmocka_unit_test(of_one_name_the_size_decides),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
