#include "base/folder.h"
#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/folder.h"

#include <string.h>
#include <sys/stat.h>

static void make(struct arena *a, const char *folder, const char *name)
{
    struct err_list *errs = base_err_list_create();
    assert_true(base_file_save(base_arena_print(a, "%s/%s", folder, name), "x", 1, errs));
    base_err_list_destroy(errs);
}

static void folders_come_first_and_hidden_names_do_not_come(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    char *folder = support_folder_create();
    make(a, folder, "b.json");
    make(a, folder, "a.json");
    make(a, folder, ".hidden");
    make(a, folder, "not \xff text");
    assert_int_equal(mkdir(base_arena_print(a, "%s/patterns", folder), 0700), 0);
    const struct base_entry *entries;
    size_t count;
    assert_true(base_folder_list(a, folder, &entries, &count, errs));
    assert_int_equal(count, 3);
    assert_string_equal(entries[0].name, "patterns");
    assert_true(entries[0].is_folder);
    assert_string_equal(entries[1].name, "a.json");
    assert_string_equal(entries[2].name, "b.json");
    assert_false(entries[2].is_folder);
    support_folder_remove(folder);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

static void a_folder_that_is_not_there_is_told(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const struct base_entry *entries = NULL;
    size_t count = 0;
    assert_false(base_folder_list(a, "/no/such/folder", &entries, &count, errs));
    assert_int_equal(errs->faults, 1);
    assert_string_equal(errs->items[0].place.file, "/no/such/folder");
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(folders_come_first_and_hidden_names_do_not_come),
        cmocka_unit_test(a_folder_that_is_not_there_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
