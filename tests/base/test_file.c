#include "base/file.h"
#include "support/folder.h"
#include "support/room.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void what_was_saved_is_read_again(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "x");
    struct base_bytes got;
    assert_true(base_file_save(path, "old", 3, room->errs));
    assert_true(base_file_save(path, "n\0w!", 4, room->errs));
    assert_true(base_file_read(room->a, path, 4, &got, room->errs));
    assert_int_equal(got.count, 4);
    assert_memory_equal(got.data, "n\0w!", 5);
    assert_int_equal(support_folder_count(room_folder(room)), 1);
}

static void a_file_past_the_limit_is_refused(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "x");
    struct base_bytes got;
    assert_true(base_file_save(path, "12345", 5, room->errs));
    assert_false(base_file_read(room->a, path, 4, &got, room->errs));
    assert_true(base_err_list_has(room->errs, "file.too_large"));
    assert_string_equal(room->errs->items[0].args[0].text, "4 bytes");
    room_forget(room);
    assert_int_equal(truncate(path, 2 * 1024 * 1024 + 1), 0);
    assert_false(base_file_read(room->a, path, 2 * 1024 * 1024, &got, room->errs));
    assert_string_equal(room->errs->items[0].args[0].text, "2 MB");
}

static void folders_pipes_and_absent_files_are_refused(void **state)
{
    struct room *room = *state;
    struct base_bytes got;
    const char *pipe_path = room_path(room, "pipe");
    assert_int_equal(mkfifo(pipe_path, 0600), 0);
    assert_false(base_file_read(room->a, room_folder(room), 100, &got, room->errs));
    assert_false(base_file_read(room->a, pipe_path, 100, &got, room->errs));
    assert_false(base_file_read(room->a, room_path(room, "none"), 100, &got, room->errs));
    assert_int_equal(room->errs->faults, 3);
    assert_true(base_err_list_has(room->errs, "file.not_regular"));
    assert_true(base_err_list_has(room->errs, "file.cannot_open"));
}

static void a_failed_save_leaves_the_old_file_and_nothing_else(void **state)
{
    struct room *room = *state;
    const char *folder = room_path(room, "sub");
    assert_int_equal(mkdir(folder, 0700), 0);
    assert_false(base_file_save(folder, "x", 1, room->errs));
    assert_false(base_file_save(room_path(room, "none/x"), "x", 1, room->errs));
    assert_int_equal(room->errs->faults, 2);
    assert_int_equal(support_folder_count(room_folder(room)), 1);
}

static void saving_keeps_the_rights_and_the_link(void **state)
{
    struct room *room = *state;
    const char *file = room_path(room, "file");
    const char *link = room_path(room, "link");
    struct stat st;
    assert_true(base_file_save(file, "a", 1, room->errs));
    assert_int_equal(chmod(file, 0640), 0);
    assert_int_equal(symlink("file", link), 0);
    assert_true(base_file_save(link, "b", 1, room->errs));
    assert_int_equal(lstat(link, &st), 0);
    assert_true(S_ISLNK(st.st_mode));
    assert_int_equal(stat(file, &st), 0);
    assert_int_equal(st.st_mode & 0777, 0640);
}

static void the_whole_path_is_the_same_from_any_folder(void **state)
{
    struct room *room = *state;
    const char *file = room_path(room, "file");
    const char *link = room_path(room, "link");
    assert_true(base_file_save(file, "a", 1, room->errs));
    assert_int_equal(symlink("file", link), 0);
    const char *whole = base_file_whole_path(room->a, link);
    assert_int_equal(whole[0], '/');
    assert_string_equal(whole, base_file_whole_path(room->a, file));
    assert_string_equal(base_file_whole_path(room->a, "none/such"), "none/such");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(what_was_saved_is_read_again),
        room_test(a_file_past_the_limit_is_refused),
        room_test(folders_pipes_and_absent_files_are_refused),
        room_test(a_failed_save_leaves_the_old_file_and_nothing_else),
        room_test(saving_keeps_the_rights_and_the_link),
        room_test(the_whole_path_is_the_same_from_any_folder),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
