/* A file saved by a thread: what base_file_save would have done is there once it is ended. */
#include "base/file.h"
#include "base/saving.h"
#include "support/room.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void what_was_begun_is_there_at_the_end(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "x");
    static const char *const texts[] = { "a new file", "again, longer than before", "" };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        char text[64];
        strcpy(text, texts[i]);
        struct base_saving *s = base_saving_begin(path, text);
        memset(text, '?', sizeof text); /* it has a copy */
        assert_string_equal(base_saving_text(s), texts[i]);
        assert_true(base_saving_end(s, room->errs));
        struct base_bytes got;
        assert_true(base_file_read(room->a, path, 64, &got, room->errs));
        assert_string_equal(got.data, texts[i]);
    }
    assert_int_equal(room->errs->count, 0);
}

static void a_fault_is_told_at_the_end_and_the_old_file_stays(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "x"), *folder = room_path(room, "sub");
    assert_int_equal(mkdir(folder, 0700), 0);
    assert_true(base_file_save(path, "old", 3, room->errs));
    struct base_saving *good = base_saving_begin(path, "new"), *bad = base_saving_begin(folder, "new");
    assert_false(base_saving_end(bad, room->errs));
    assert_true(base_saving_end(good, room->errs));
    assert_int_equal(room->errs->faults, 1);
    assert_true(base_err_list_has(room->errs, "file.cannot_save"));
    assert_string_equal(room->errs->items[0].place.file, folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(what_was_begun_is_there_at_the_end),
        room_test(a_fault_is_told_at_the_end_and_the_old_file_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
