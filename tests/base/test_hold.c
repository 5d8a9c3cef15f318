/* A folder held by one opening is not by another, of the same program or of another. */
#include "base/hold.h"

#include "support/room.h"

static void a_folder_is_held_once(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "settings.json");
    int hold = base_hold_folder(path, 0);
    assert_true(hold >= 0);
    assert_int_equal(base_hold_folder(path, 10), -1);
    base_hold_end(hold);
    hold = base_hold_folder(path, 0);
    assert_true(hold >= 0);
    base_hold_end(hold);
}

static void no_folder_is_not_held(void **state)
{
    struct room *room = *state;
    assert_int_equal(base_hold_folder(room_path(room, "not there/settings.json"), 10), -1);
    base_hold_end(-1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_folder_is_held_once),
        room_test(no_folder_is_not_held),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
