#include "json/kind.h"
#include "base/err_list.h"
#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/folder.h"

#include <string.h>

static void the_kind_is_what_a_file_of_ours_opens_with(void **state)
{
    (void)state;
    static const struct {
        const char *text, *kind;
    } rows[] = {
        { "{ \"chalklight\": \"pattern\", \"version\": 2 }", "pattern" },
        { "{\n\t\"chalklight\"\n:\t\"job\"}", "job" },
        { "{ \"chalklight\" \"job\" }", NULL },
        { "{ \"chalklight\": 3 }", NULL },
        { "{ \"chalklight\": \"jo", NULL },
        { "{ \"name\": \"Mara\" }", NULL },
        { "", NULL },
    };
    struct arena *a = base_arena_create();
    char *folder = support_folder_create();
    const char *path = base_arena_print(a, "%s/one.json", folder);
    struct err_list *errs = base_err_list_create();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_true(base_file_save(path, rows[i].text, strlen(rows[i].text), errs));
        const char *kind = json_kind(a, path);
        if (rows[i].kind)
            assert_string_equal(kind, rows[i].kind);
        else
            assert_null(kind);
    }
    assert_null(json_kind(a, folder));
    assert_null(json_kind(a, "/no/such/file"));
    base_err_list_destroy(errs);
    support_folder_remove(folder);
    base_arena_destroy(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = { cmocka_unit_test(the_kind_is_what_a_file_of_ours_opens_with) };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
