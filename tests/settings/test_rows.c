/* The table itself, and values set and asked for without a file. Ranges and defaults: as they are specified, no source
 * but common practice. */
#include "settings/settings.h"

#include "support/room.h"

static struct settings *none(struct room *room)
{
    return settings_open(room->a, NULL, room->errs);
}

static void every_row_is_whole(void **state)
{
    struct room *room = *state;
    size_t count;
    const struct settings_row *rows = settings_rows(&count);
    assert_int_equal(count, SETTINGS_COUNT);
    for (size_t i = 0; i < count; i++) {
        enum settings_name name;
        assert_true(settings_find(rows[i].name, &name) && name == (enum settings_name)i);
        assert_true(rows[i].help && *rows[i].help && *settings_allowed(room->a, name));
        assert_true((rows[i].type == SETTINGS_WORD) == (rows[i].words != NULL));
        assert_true(rows[i].usual >= rows[i].least && rows[i].usual <= rows[i].most);
    }
}

static void an_unknown_name_is_not_found(void **state)
{
    (void)state;
    enum settings_name name;
    assert_false(settings_find("units", &name));
    assert_false(settings_find("", &name));
}

static void nothing_said_is_the_usual(void **state)
{
    struct room *room = *state;
    struct settings *s = none(room);
    const char *const *texts;
    assert_int_equal(settings_word(s, SETTINGS_UNIT), SETTINGS_UNIT_AS_WRITTEN);
    assert_int_equal(settings_word(s, SETTINGS_CHALK), SETTINGS_CHALK_AUTOMATIC);
    assert_int_equal(settings_number(s, SETTINGS_LOCKOUT_MS), 400);
    assert_int_equal(settings_number(s, SETTINGS_BENCH_SIZE), 0);
    assert_null(settings_text(s, SETTINGS_PROJECTOR));
    assert_null(settings_text(s, SETTINGS_CAUTIONED));
    assert_int_equal(settings_texts(s, SETTINGS_RECENT, &texts), 0);
    for (int i = 0; i < SETTINGS_COUNT; i++)
        assert_true(settings_is_usual(s, (enum settings_name)i));
    room_nothing_told(room);
}

static const struct typed_row {
    enum settings_name name;
    const char *typed, *shown; /* NULL: no value */
} typed_rows[] = {
    { SETTINGS_UNIT, "inches", "inches" },
    { SETTINGS_UNIT, "CM", "cm" },
    { SETTINGS_UNIT, "As Written", "as written" },
    { SETTINGS_UNIT, "furlongs", NULL },
    { SETTINGS_UNIT, "", NULL },
    { SETTINGS_WAY, "chalk all", "chalk all" },
    { SETTINGS_LOCKOUT_MS, "0", "0" },
    { SETTINGS_LOCKOUT_MS, "2000", "2000" },
    { SETTINGS_LOCKOUT_MS, "2001", NULL },
    { SETTINGS_LOCKOUT_MS, "-1", NULL },
    { SETTINGS_LOCKOUT_MS, "400 ms", NULL },
    { SETTINGS_LOCKOUT_MS, "4e2", NULL },
    { SETTINGS_LOCKOUT_MS, "99999999999999999999", NULL },
    { SETTINGS_LOCKOUT_MS, "", NULL },
    { SETTINGS_BENCH_SIZE, "-2", "-2" },
    { SETTINGS_BENCH_SIZE, "-3", NULL },
    { SETTINGS_PROJECTOR, "Beamer 3″", "Beamer 3″" },
    { SETTINGS_PROJECTOR, "", NULL },
    { SETTINGS_PROJECTOR, "\xff", NULL },
    { SETTINGS_KEYS, "tick = space; next=n", "tick = space; next=n" },
    { SETTINGS_KEYS, "  tick = space ;", "tick = space" },
    { SETTINGS_KEYS, "tick = space;;next = n", NULL },
    { SETTINGS_KEYS, "", NULL },
    /* the Gregorian calendar: 2028 and 2000 are leap years, 2027 and 2100 are not */
    { SETTINGS_CAUTIONED, "2028-02-29", "2028-02-29" },
    { SETTINGS_CAUTIONED, "2000-02-29", "2000-02-29" },
    { SETTINGS_CAUTIONED, "2027-02-29", NULL },
    { SETTINGS_CAUTIONED, "2100-02-29", NULL },
    { SETTINGS_CAUTIONED, "2026-11-31", NULL },
    { SETTINGS_CAUTIONED, "2026-13-01", NULL },
    { SETTINGS_CAUTIONED, "2026-00-10", NULL },
    { SETTINGS_CAUTIONED, "2026-1-10", NULL },
    { SETTINGS_CAUTIONED, "26.11.2026", NULL },
};

static void typed_values_are_taken_or_refused(void **state)
{
    struct room *room = *state;
    for (size_t i = 0; i < sizeof typed_rows / sizeof typed_rows[0]; i++) {
        const struct typed_row *row = &typed_rows[i];
        struct settings *s = none(room);
        bool taken = settings_set_typed(s, row->name, row->typed);
        if (taken != (row->shown != NULL) || taken == settings_is_usual(s, row->name))
            fail_msg("“%s” is %s", row->typed, taken ? "taken" : "refused");
        if (taken)
            assert_string_equal(settings_shown(room->a, s, row->name), row->shown);
    }
}

static void what_can_be_said_is_told(void **state)
{
    struct room *room = *state;
    assert_string_equal(settings_allowed(room->a, SETTINGS_SIDE), "near, right, far or left");
    assert_string_equal(settings_allowed(room->a, SETTINGS_HAND), "right or left");
    assert_string_equal(settings_allowed(room->a, SETTINGS_LOCKOUT_MS), "a whole number from 0 to 2000");
}

static void a_refused_value_leaves_the_one_before(void **state)
{
    struct room *room = *state;
    struct settings *s = none(room);
    assert_true(settings_set_typed(s, SETTINGS_LOCKOUT_MS, "250"));
    assert_false(settings_set_typed(s, SETTINGS_LOCKOUT_MS, "many"));
    assert_int_equal(settings_number(s, SETTINGS_LOCKOUT_MS), 250);
    settings_forget(s, SETTINGS_LOCKOUT_MS);
    assert_int_equal(settings_number(s, SETTINGS_LOCKOUT_MS), 400);
}

static void the_newest_ten_are_kept_each_once(void **state)
{
    struct room *room = *state;
    struct settings *s = none(room);
    const char *const *jobs;
    for (int i = 1; i <= 12; i++)
        assert_true(settings_put_first(s, SETTINGS_RECENT, base_arena_print(room->a, "/jobs/%d.json", i)));
    assert_true(settings_put_first(s, SETTINGS_RECENT, "/jobs/5.json"));
    assert_int_equal(settings_texts(s, SETTINGS_RECENT, &jobs), 10);
    assert_string_equal(settings_shown(room->a, s, SETTINGS_RECENT),
                        "/jobs/5.json; /jobs/12.json; /jobs/11.json; /jobs/10.json; /jobs/9.json; /jobs/8.json; "
                        "/jobs/7.json; /jobs/6.json; /jobs/4.json; /jobs/3.json");
    assert_false(settings_put_first(s, SETTINGS_RECENT, "/jobs/\xe4.json")); /* Latin-1, as no file of ours can hold */
    assert_string_equal(jobs[0], "/jobs/5.json");
}

static void texts_are_copied(void **state)
{
    struct room *room = *state;
    struct settings *s = none(room);
    char name[] = "HDMI-1";
    const char *keys[] = { name };
    assert_true(settings_set_text(s, SETTINGS_PROJECTOR, name));
    assert_true(settings_set_texts(s, SETTINGS_KEYS, keys, 1));
    name[0] = 'x';
    assert_string_equal(settings_text(s, SETTINGS_PROJECTOR), "HDMI-1");
    assert_string_equal(settings_shown(room->a, s, SETTINGS_KEYS), "HDMI-1");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(every_row_is_whole),
        room_test(an_unknown_name_is_not_found),
        room_test(nothing_said_is_the_usual),
        room_test(typed_values_are_taken_or_refused),
        room_test(what_can_be_said_is_told),
        room_test(a_refused_value_leaves_the_one_before),
        room_test(the_newest_ten_are_kept_each_once),
        room_test(texts_are_copied),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
