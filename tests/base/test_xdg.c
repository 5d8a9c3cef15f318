/* Where a person's files are. Paths: XDG Base Directory Specification, version 0.8, sections 3 and 4. */
#include "base/xdg.h"

#include "base/file.h"
#include "support/room.h"

#include <stdlib.h>
#include <sys/stat.h>

static const struct row {
    const char *what, *variable, *value, *home;
    enum base_xdg place;
    const char *path; /* NULL: nowhere */
} rows[] = {
    { "usual", "XDG_CONFIG_HOME", NULL, "/home/some", BASE_XDG_CONFIG, "/home/some/.config/chalklight/a.json" },
    { "usual", "XDG_DATA_HOME", NULL, "/home/some", BASE_XDG_DATA, "/home/some/.local/share/chalklight/a.json" },
    { "usual", "XDG_STATE_HOME", NULL, "/home/some", BASE_XDG_STATE, "/home/some/.local/state/chalklight/a.json" },
    { "usual", "XDG_CACHE_HOME", NULL, "/home/some", BASE_XDG_CACHE, "/home/some/.cache/chalklight/a.json" },
    { "empty is not set", "XDG_CONFIG_HOME", "", "/h", BASE_XDG_CONFIG, "/h/.config/chalklight/a.json" },
    { "relative is ignored", "XDG_STATE_HOME", "state", "/h", BASE_XDG_STATE, "/h/.local/state/chalklight/a.json" },
    { "named", "XDG_DATA_HOME", "/data", "/h", BASE_XDG_DATA, "/data/chalklight/a.json" },
    { "named, no home", "XDG_CACHE_HOME", "/c", NULL, BASE_XDG_CACHE, "/c/chalklight/a.json" },
    { "no home", "XDG_CONFIG_HOME", NULL, NULL, BASE_XDG_CONFIG, NULL },
    { "relative home", "XDG_CONFIG_HOME", "some", "home", BASE_XDG_CONFIG, NULL },
};

static void set(const char *name, const char *value)
{
    assert_int_equal(value ? setenv(name, value, 1) : unsetenv(name), 0);
}

static void the_path_is_the_specification_s(void **state)
{
    struct arena *a = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        set(rows[i].variable, rows[i].value);
        set("HOME", rows[i].home);
        const char *path = base_xdg_path(a, rows[i].place, "a.json");
        if (rows[i].path ? !path || strcmp(path, rows[i].path) != 0 : path != NULL)
            fail_msg("%s: %s, not %s", rows[i].what, path ? path : "nowhere", rows[i].path ? rows[i].path : "nowhere");
    }
}

static void folders_are_made_for_the_person_alone(void **state)
{
    struct room *room = *state;
    struct stat st;
    const char *path = room_path(room, "some/where/a.json");
    assert_true(base_xdg_make_folders(path, room->errs));
    assert_true(base_xdg_make_folders(path, room->errs));
    room_nothing_told(room);
    assert_false(base_file_exists(path));
    assert_int_equal(stat(room_path(room, "some/where"), &st), 0);
    assert_int_equal(st.st_mode & 0777, 0700);
}

static void a_file_in_the_way_is_told(void **state)
{
    struct room *room = *state;
    room_put(room, "some", "a file");
    assert_false(base_xdg_make_folders(room_path(room, "some/where/a.json"), room->errs));
    room_only_told(room, "file.no_folder");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(the_path_is_the_specification_s),
        room_test(folders_are_made_for_the_person_alone),
        room_test(a_file_in_the_way_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
