#include "screen/notes.h"
#include "screen/window.h"
#include "support/room.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static int no_desktop(void **state)
{
    unsetenv("DISPLAY");
    unsetenv("WAYLAND_DISPLAY");
    unsetenv("XDG_RUNTIME_DIR");
    unsetenv("SDL_VIDEODRIVER");
    return room_open(state);
}

static void without_a_desktop_no_display_is_there(void **state)
{
    (void)state;
    assert_false(screen_is_there());
}

static void a_desktop_whose_server_is_gone_is_no_display(void **state)
{
    struct room *room = *state;
    setenv("DISPLAY", ":2147483", 1);
    setenv("WAYLAND_DISPLAY", "wayland-0", 1);
    setenv("XDG_RUNTIME_DIR", room_folder(room), 1);
    assert_false(screen_is_there());
}

static void drivers_that_show_nothing_are_no_display(void **state)
{
    (void)state;
    static const char *const names[] = { "dummy", "offscreen", "evdev", "KMSDRM", "nonsense" };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        setenv("SDL_VIDEODRIVER", names[i], 1);
        if (screen_is_there())
            fail_msg("%s is taken for a display", names[i]);
    }
}

static void asking_writes_nothing_to_the_terminal(void **state)
{
    (void)state;
    FILE *caught = tmpfile();
    assert_non_null(caught);
    int terminal = dup(STDERR_FILENO);
    fflush(stderr);
    dup2(fileno(caught), STDERR_FILENO);
    bool there = screen_is_there();
    fflush(stderr);
    dup2(terminal, STDERR_FILENO);
    close(terminal);
    assert_false(there);
    assert_int_equal(lseek(fileno(caught), 0, SEEK_END), 0);
    fclose(caught);
}

static void listing_and_opening_say_that_there_is_no_display(void **state)
{
    struct room *room = *state;
    struct screen_display displays[SCREEN_MOST_DISPLAYS];
    struct err_list *errs = room->errs;
    assert_int_equal(screen_list(displays, errs), 0);
    assert_int_equal(errs->faults, 1);
    assert_null(screen_open(0, "table", errs));
    assert_int_equal(errs->faults, 2);
    assert_null(screen_notes_open(0, "notes", errs));
    assert_int_equal(errs->faults, 3);
    for (int i = 0; i < errs->count; i++)
        assert_string_equal(errs->items[i].kind->code, "screen.no_display");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(without_a_desktop_no_display_is_there, no_desktop, room_close),
        cmocka_unit_test_setup_teardown(a_desktop_whose_server_is_gone_is_no_display, no_desktop, room_close),
        cmocka_unit_test_setup_teardown(drivers_that_show_nothing_are_no_display, no_desktop, room_close),
        cmocka_unit_test_setup_teardown(asking_writes_nothing_to_the_terminal, no_desktop, room_close),
        cmocka_unit_test_setup_teardown(listing_and_opening_say_that_there_is_no_display, no_desktop, room_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
