#include "app/check.h"
#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/folder.h"

#include <string.h>

/* A square joined to a rectangle whose side is 5 mm longer, and a bow tie that crosses itself. */
static const char pattern[] =
    "{ \"chalklight\": \"pattern\", \"version\": 1, \"name\": \"p\", \"unit\": \"mm\", \"sizes\": [\"s\"],\n"
    "  \"chart\": { \"bust\": [900] }, \"main_measurement\": \"bust\",\n"
    "  \"pieces\": [ { \"name\": \"one\", \"rectangle\": { \"width\": 100, \"height\": 100 } },\n"
    "    { \"name\": \"two\", \"rectangle\": { \"width\": 100, \"height\": 105 } },\n"
    "    { \"name\": \"bow\", \"points\": { \"a\": [0, 0], \"b\": [10, 10], \"c\": [14, 2], \"d\": [0, 10] },\n"
    "      \"outline\": [ { \"name\": \"e\", \"path\": [\"a\", \"b\", \"c\", \"d\", \"a\"] } ] } ],\n"
    "  \"seams\": [ { \"name\": \"side\", \"join\": [[\"one.left\"], [\"two.left\"]] },\n"
    "    { \"name\": \"eased\", \"join\": [[\"two.left\"], [\"one.left\"]], \"difference\": 5 } ],\n"
    "  \"views\": [ { \"name\": \"A\", \"cut\": [ { \"piece\": \"one\", \"count\": 1 } ] } ] }\n";

struct here {
    struct arena *a;
    struct err_list *errs;
    char *folder;
    const char *file;
};

static int set_up(void **state)
{
    static struct here h;
    h.a = base_arena_create();
    h.errs = base_err_list_create();
    h.folder = support_folder_create();
    h.file = base_arena_print(h.a, "%s/file.json", h.folder);
    *state = &h;
    return 0;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    base_err_list_destroy(h->errs);
    base_arena_destroy(h->a);
    support_folder_remove(h->folder);
    return 0;
}

static bool check_text(struct here *h, const char *text, const char **report)
{
    assert_true(base_file_save(h->file, text, strlen(text), h->errs));
    return app_check(h->a, h->file, report, NULL, h->errs);
}

static void a_pattern_is_proof_read_whole(void **state)
{
    struct here *h = *state;
    const char *report;
    assert_false(check_text(h, pattern, &report));
    assert_true(base_err_list_has(h->errs, "check.seam_off"));
    assert_true(base_err_list_has(h->errs, "draft.crosses"));
    assert_true(base_err_list_has(h->errs, "check.never_cut"));
    assert_int_equal(h->errs->faults, 2); /* the crossing and one seam: the other's difference is intended */
    assert_non_null(strstr(report, "5.00 mm off"));
    assert_non_null(strstr(report, "0.00 mm off"));
}

static void a_file_of_no_kind_is_told(void **state)
{
    struct here *h = *state;
    const char *report;
    assert_false(check_text(h, "{ \"chalklight\": \"hat\", \"version\": 1 }", &report));
    assert_true(base_err_list_has(h->errs, "check.unknown_kind"));
    assert_false(check_text(h, "{ }", &report));
    assert_false(check_text(h, "[1, 2]", &report));
    assert_int_equal(h->errs->faults, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_pattern_is_proof_read_whole, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_file_of_no_kind_is_told, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
