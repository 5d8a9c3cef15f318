#include "app/check.h"
#include "support/room.h"

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

static bool check_text(struct room *room, const char *text, const char **report)
{
    return app_check(room->a, room_put(room, "file.json", text), report, NULL, room->errs);
}

static void a_pattern_is_proof_read_whole(void **state)
{
    struct room *room = *state;
    const char *report;
    assert_false(check_text(room, pattern, &report));
    assert_true(base_err_list_has(room->errs, "check.seam_off"));
    assert_true(base_err_list_has(room->errs, "draft.crosses"));
    assert_true(base_err_list_has(room->errs, "check.never_cut"));
    assert_int_equal(room->errs->faults, 2); /* the crossing and one seam: the other's difference is intended */
    assert_non_null(strstr(report, "5.00 mm off"));
    assert_non_null(strstr(report, "0.00 mm off"));
}

static void a_file_of_no_kind_is_told(void **state)
{
    struct room *room = *state;
    const char *report;
    assert_false(check_text(room, "{ \"chalklight\": \"hat\", \"version\": 1 }", &report));
    assert_true(base_err_list_has(room->errs, "check.unknown_kind"));
    assert_false(check_text(room, "{ }", &report));
    assert_false(check_text(room, "[1, 2]", &report));
    assert_int_equal(room->errs->faults, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_pattern_is_proof_read_whole),
        room_test(a_file_of_no_kind_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
