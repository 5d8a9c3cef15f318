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
    assert_true(base_err_list_has(room->errs, "check.no_grain")); /* the bow's; a rectangle's is its height */
    assert_false(base_err_list_has(room->errs, "check.shrinks"));
}

/* Both sides are 100 long and so is the sum, but the notches stand at 40 and at 42: 2 mm off either way. Only one side
 * of the third seam has a notch. In size l one piece is smaller. */
static const char notched[] =
    "{ \"chalklight\": \"pattern\", \"version\": 1, \"name\": \"p\", \"unit\": \"mm\", \"sizes\": [\"s\", \"l\"],\n"
    "  \"chart\": { \"bust\": [900, 940] }, \"main_measurement\": \"bust\",\n"
    "  \"pieces\": [ { \"name\": \"one\", \"rectangle\": { \"width\": 100, \"height\": [50, 45] },\n"
    "      \"notches\": [ { \"edge\": \"top\", \"at\": 40 } ] },\n"
    "    { \"name\": \"two\", \"rectangle\": { \"width\": 100, \"height\": 50 },\n"
    "      \"notches\": [ { \"edge\": \"top\", \"at\": [40, 42] } ] } ],\n"
    "  \"seams\": [ { \"name\": \"walked\", \"join\": [[\"one.top\"], [\"two.top\"]] },\n"
    "    { \"name\": \"meant\", \"join\": [[\"one.top\"], [\"two.top\"]], \"intervals\": [-1, 1] },\n"
    "    { \"name\": \"unequal\", \"join\": [[\"one.top\"], [\"two.bottom\"]] } ],\n"
    "  \"views\": [ { \"name\": \"A\", \"cut\": [ { \"piece\": \"one\", \"pairs\": 1 }, { \"piece\": \"two\", "
    "\"count\": 1 }"
    " ] } ] }\n";

static void seams_are_told_by_their_worst_interval_and_size(void **state)
{
    struct room *room = *state;
    const char *report;
    assert_false(check_text(room, notched, &report));
    assert_non_null(strstr(report, "at most 2.00 mm off, in size l, interval 1 of 2\n"));
    assert_non_null(strstr(report, "at most 1.00 mm off, in size s, interval 1 of 2\n"));
    assert_int_equal(room->errs->faults, 2); /* the first seam, and the notches of the third */
    assert_true(base_err_list_has(room->errs, "check.seam_off"));
    assert_true(base_err_list_has(room->errs, "check.marks_differ"));
    assert_true(base_err_list_has(room->errs, "check.shrinks"));
    assert_false(base_err_list_has(room->errs, "check.no_grain"));
}

/* One piece, in both cup groups and both sizes, crosses itself: told once, with the first size, not four times. */
static void a_fault_in_every_size_and_cup_group_is_told_once(void **state)
{
    struct room *room = *state;
    const char *report;
    assert_false(
        check_text(room,
                   "{ \"chalklight\": \"pattern\", \"version\": 1, \"name\": \"p\", \"unit\": \"mm\",\n"
                   "  \"sizes\": [\"s\", \"l\"], \"chart\": { \"bust\": [900, 940] },\n"
                   "  \"main_measurement\": \"bust\", \"cup_groups\": [ { \"name\": \"A\", \"bust\": 900 },\n"
                   "    { \"name\": \"B\", \"bust\": 950 } ],\n"
                   "  \"pieces\": [ { \"name\": \"bow\", \"grain\": [\"a\", \"d\"], \"points\": { \"a\": [0, 0],\n"
                   "      \"b\": [10, 10], \"c\": [14, 2], \"d\": [0, 10] },\n"
                   "      \"outline\": [ { \"name\": \"e\", \"path\": [\"a\", \"b\", \"c\", \"d\", \"a\"] } ] } ],\n"
                   "  \"views\": [ { \"name\": \"A\", \"cut\": [ { \"piece\": \"bow\", \"count\": 1 } ] } ] }",
                   &report));
    assert_int_equal(room->errs->count, 1);
    assert_string_equal(room->errs->items[0].args[1].text, "s");
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
        room_test(seams_are_told_by_their_worst_interval_and_size),
        room_test(a_fault_in_every_size_and_cup_group_is_told_once),
        room_test(a_file_of_no_kind_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
