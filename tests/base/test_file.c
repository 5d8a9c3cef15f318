#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/folder.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct here {
    struct arena *a;
    struct err_list *errs;
    char *folder;
};

static int set_up(void **state)
{
    static struct here h;
    h.a = base_arena_create();
    h.errs = base_err_list_create();
    h.folder = support_folder_create();
    *state = &h;
    return 0;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    base_arena_destroy(h->a);
    base_err_list_destroy(h->errs);
    support_folder_remove(h->folder);
    return 0;
}

static void what_was_saved_is_read_again(void **state)
{
    struct here *h = *state;
    const char *path = base_arena_print(h->a, "%s/x", h->folder);
    struct base_bytes got;
    assert_true(base_file_save(path, "old", 3, h->errs));
    assert_true(base_file_save(path, "n\0w!", 4, h->errs));
    assert_true(base_file_read(h->a, path, 4, &got, h->errs));
    assert_int_equal(got.count, 4);
    assert_memory_equal(got.data, "n\0w!", 5);
    assert_int_equal(support_folder_count(h->folder), 1);
}

static void a_file_past_the_limit_is_refused(void **state)
{
    struct here *h = *state;
    const char *path = base_arena_print(h->a, "%s/x", h->folder);
    struct base_bytes got;
    assert_true(base_file_save(path, "12345", 5, h->errs));
    assert_false(base_file_read(h->a, path, 4, &got, h->errs));
    assert_true(base_err_list_has(h->errs, "file.too_large"));
}

static void folders_pipes_and_absent_files_are_refused(void **state)
{
    struct here *h = *state;
    struct base_bytes got;
    const char *pipe_path = base_arena_print(h->a, "%s/pipe", h->folder);
    assert_int_equal(mkfifo(pipe_path, 0600), 0);
    assert_false(base_file_read(h->a, h->folder, 100, &got, h->errs));
    assert_false(base_file_read(h->a, pipe_path, 100, &got, h->errs));
    assert_false(base_file_read(h->a, base_arena_print(h->a, "%s/none", h->folder), 100, &got, h->errs));
    assert_int_equal(h->errs->faults, 3);
    assert_true(base_err_list_has(h->errs, "file.not_regular"));
    assert_true(base_err_list_has(h->errs, "file.cannot_open"));
}

static void a_failed_save_leaves_the_old_file_and_nothing_else(void **state)
{
    struct here *h = *state;
    const char *folder = base_arena_print(h->a, "%s/sub", h->folder);
    assert_int_equal(mkdir(folder, 0700), 0);
    assert_false(base_file_save(folder, "x", 1, h->errs));
    assert_false(base_file_save(base_arena_print(h->a, "%s/none/x", h->folder), "x", 1, h->errs));
    assert_int_equal(h->errs->faults, 2);
    assert_int_equal(support_folder_count(h->folder), 1);
}

static void saving_keeps_the_rights_and_the_link(void **state)
{
    struct here *h = *state;
    const char *file = base_arena_print(h->a, "%s/file", h->folder);
    const char *link = base_arena_print(h->a, "%s/link", h->folder);
    struct stat st;
    assert_true(base_file_save(file, "a", 1, h->errs));
    assert_int_equal(chmod(file, 0640), 0);
    assert_int_equal(symlink("file", link), 0);
    assert_true(base_file_save(link, "b", 1, h->errs));
    assert_int_equal(lstat(link, &st), 0);
    assert_true(S_ISLNK(st.st_mode));
    assert_int_equal(stat(file, &st), 0);
    assert_int_equal(st.st_mode & 0777, 0640);
}

static void the_whole_path_is_the_same_from_any_folder(void **state)
{
    struct here *h = *state;
    const char *file = base_arena_print(h->a, "%s/file", h->folder);
    const char *link = base_arena_print(h->a, "%s/link", h->folder);
    assert_true(base_file_save(file, "a", 1, h->errs));
    assert_int_equal(symlink("file", link), 0);
    const char *whole = base_file_whole_path(h->a, link);
    assert_int_equal(whole[0], '/');
    assert_string_equal(whole, base_file_whole_path(h->a, file));
    assert_string_equal(base_file_whole_path(h->a, "none/such"), "none/such");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_was_saved_is_read_again, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_file_past_the_limit_is_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(folders_pipes_and_absent_files_are_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_failed_save_leaves_the_old_file_and_nothing_else, set_up, tear_down),
        cmocka_unit_test_setup_teardown(saving_keeps_the_rights_and_the_link, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_whole_path_is_the_same_from_any_folder, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
