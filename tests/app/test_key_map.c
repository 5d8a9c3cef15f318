/* Keys that a person gives to actions: what can be written, what is told, and what the keys then do. */
#include "app/arrange_state.h"
#include "app/hands.h"
#include "app/key_map.h"
#include "app/memory.h"
#include "app/place.h"
#include "app/walk_state.h"
#include "input/key.h"
#include "table/placing.h"

#include <string.h>

static int set_up(void **state)
{
    static struct placing p;
    bool open = placing_open(&p, NULL);
    *state = &p;
    room_forget(&p.room);
    return open ? 0 : -1;
}

#define key_map_test(f) cmocka_unit_test_setup_teardown(f, set_up, placing_tear_down)

static struct app_key_map read_all(struct placing *p, const char *const *texts)
{
    size_t count = 0;
    while (texts[count])
        count++;
    return app_key_map_read(p->room.a, texts, count, p->room.errs);
}

#define map_of(p, ...) read_all((p), (const char *const[]){ __VA_ARGS__, NULL })

/* --- the names --------------------------------------------------------------------------------------------------- */

static bool has_name(int key, int mods, unsigned of)
{
    size_t count, found = 0;
    const struct app_key_name *names = app_key_names(&count);
    for (size_t i = 0; i < count; i++)
        found += names[i].key == key && names[i].mods == mods && (names[i].of & of);
    return found == 1;
}

static void every_key_of_cutting_has_one_name(void **state)
{
    (void)state;
    size_t count;
    const struct app_key_row *rows = app_key_rows(&count);
    for (size_t i = 0; i < count; i++)
        if (!has_name(rows[i].key, rows[i].mods, APP_KEYS_CUT))
            fail_msg("row %zu of cutting has no name, or two", i);
    const struct app_place_key *place_rows = app_place_key_rows(&count);
    for (size_t i = 0; i < count; i++)
        if (!has_name(place_rows[i].key.key, place_rows[i].key.mods, APP_KEYS_CUT))
            fail_msg("row %zu of layouts has no name, or two", i);
}

static const struct app_key *row_of(const struct app_key_table *table, size_t row)
{
    return (const void *)((const char *)table->rows + row * table->row_size);
}

/* What stands for another key, and the number pad's keys, are no one's to give away. */
static bool is_fixed(const struct app_key *row)
{
    unsigned long point = input_key_printed(row->key, row->mods);
    return input_key_does(row->key, row->mods) != KEY_NONE ||
           (point && point < 128 && strchr("0123456789.+*/", (int)point));
}

static void every_key_of_set_up_and_of_arranging_has_one_name(void **state)
{
    (void)state;
    const struct app_key_table *tables[] = { app_walk_key_table(), app_arrange_key_table() };
    for (size_t t = 0; t < 2; t++)
        for (size_t i = 0; i < tables[t]->count; i++) {
            const struct app_key *row = row_of(tables[t], i);
            if (!has_name(row->key, row->mods, tables[t]->of) && !(t == 0 && is_fixed(row)))
                fail_msg("row %zu of table %zu has no name, or two", i, t);
        }
}

static bool has_row(const struct app_key_name *name)
{
    size_t count;
    const struct app_place_key *rows = app_place_key_rows(&count);
    bool found = name->of & APP_KEYS_CUT && app_find_key(name->key, name->mods);
    for (size_t i = 0; name->of & APP_KEYS_CUT && i < count; i++)
        found = found || (rows[i].key.key == name->key && rows[i].key.mods == name->mods);
    found = found || !(name->of & APP_KEYS_CUT);
    if (name->of & APP_KEYS_SET_UP)
        found = found && app_find_row(app_walk_key_table(), ~0u, name->key, name->mods);
    if (name->of & APP_KEYS_ARRANGE)
        found = found && app_find_row(app_arrange_key_table(), ~0u, name->key, name->mods);
    return found;
}

static void every_name_is_of_a_key_that_does_something(void **state)
{
    (void)state;
    size_t count;
    const struct app_key_name *names = app_key_names(&count);
    for (size_t i = 0; i < count; i++)
        if (!has_row(&names[i]))
            fail_msg("“%s” names a key that does nothing", names[i].name);
}

/* --- what is written --------------------------------------------------------------------------------------------- */

static void what_is_wrong_is_told_in_one_sentence_and_left_out(void **state)
{
    struct placing *p = *state;
    static const struct {
        const char *text, *code, *arg;
    } rows[] = {
        { "tik = F6", "app.key_no_action", "tik" },
        { "fly = F6", "app.key_no_action", "fly" },
        { "", "app.key_no_action", "" },
        { "tick", "app.key_no_key", "" },
        { "tick = ", "app.key_no_key", "" },
        { "tick = F13", "app.key_no_key", "F13" },
        { "tick = Meta Q", "app.key_no_key", "Meta Q" },
        { "tick = Space", "app.key_taken", "Space" },
        { "dark = ctrl q", "app.key_taken", "Ctrl Q" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        room_forget(&p->room);
        assert_int_equal(map_of(p, rows[i].text).count, 0);
        assert_string_equal(room_only_told(&p->room, rows[i].code)->args[0].text, rows[i].arg);
        assert_int_equal(p->room.errs->faults, 0); /* she can cut all the same */
    }
}

static void keys_may_change_places(void **state)
{
    struct placing *p = *state;
    assert_int_equal(map_of(p, "tick = Space", "other edge = Enter").count, 2);
    assert_int_equal(map_of(p, "TICK=space", "Other Edge = F6", "lock = =").count, 3);
    assert_int_equal(map_of(p, "tick = Enter", "tick = F6", "tick = Switch 3").count, 3);
    room_nothing_told(&p->room);
    /* The second one gives Space back to the other edge, which then is in the first one's way, too. */
    assert_int_equal(map_of(p, "tick = Space", "other edge = Tab").count, 0);
    assert_int_equal(p->room.errs->count, 2);
}

static void one_key_for_two_actions_is_the_first_ones(void **state)
{
    struct placing *p = *state;
    struct app_key_map map = map_of(p, "dark = F6", "help = F6");
    assert_int_equal(map.count, 1);
    assert_string_equal(map.given[0].does->name, "dark");
    assert_string_equal(room_only_told(&p->room, "app.key_taken")->args[2].text, "help");
}

/* B darkens while cutting and butts while arranging: each may be given away alone, and one key may do both. */
static void pages_do_not_stand_in_each_others_way(void **state)
{
    struct placing *p = *state;
    struct app_key_map map = map_of(p, "butt = F6", "dark = F6", "beside the mat = F6");
    room_nothing_told(&p->room);
    assert_int_equal(map.count, 3);
    int key = KEY_F6, mods = 0;
    assert_true(app_key_map_usual(&map, APP_KEYS_ARRANGE, &key, &mods));
    assert_int_equal(key, KEY_CHAR + 'b');
    map = map_of(p, "butt = B", "dark = F7");
    key = KEY_CHAR + 'b';
    assert_true(app_key_map_usual(&map, APP_KEYS_SET_UP, &key, &mods));
    assert_false(app_key_map_usual(&map, APP_KEYS_CUT, &key, &mods));
    room_forget(&p->room);
    assert_int_equal(map_of(p, "hold in place = X").count, 0);
    room_only_told(&p->room, "app.key_taken");
}

/* --- what they do ------------------------------------------------------------------------------------------------ */

static size_t done(const struct placing *p)
{
    size_t count = 0;
    for (size_t i = 0; i < placing_cloth(p)->step_count; i++)
        count += placing_cloth(p)->steps[i].done;
    return count;
}

static bool help_has(struct placing *p, const char *key)
{
    const struct scene_help_line *lines;
    size_t count = app_place_help(p->app, p->room.a, &lines);
    for (size_t i = 0; i < count; i++)
        if (strcmp(lines[i].key, key) == 0)
            return true;
    return false;
}

static void a_given_key_does_it_and_the_usual_one_no_more(void **state)
{
    struct placing *p = *state;
    struct app_key_map map = map_of(p, "tick all of it = F6", "tick all of it = J", "dark = F7");
    placing_lay(p);
    assert_true(help_has(p, "Shift Enter"));
    app_set_keys(p->app, &map);
    assert_false(help_has(p, "Shift Enter"));
    assert_true(help_has(p, "F6"));
    placing_press(p, "f6");
    assert_int_equal(done(p), 1);
    assert_false(placing_press(p, "shift enter"));
    assert_int_equal(done(p), 1);
    placing_press(p, "j");
    assert_int_equal(done(p), 2);
    assert_false(placing_press(p, "b"));
    placing_press(p, "f7");
    assert_int_equal(p->app->mode, SCENE_BLANK);
}

/* A presenter and a foot switch go on doing what they did. */
static void what_stands_for_a_key_goes_on_doing_so(void **state)
{
    struct placing *p = *state;
    struct app_key_map map = map_of(p, "tick = F6");
    placing_lay(p);
    placing_press(p, "enter");
    const char *once = app_remember(p->app, p->room.a);
    p->app = placing_again(p);
    placing_lay(p);
    app_set_keys(p->app, &map);
    placing_press(p, "enter");
    assert_string_not_equal(app_remember(p->app, p->room.a), once);
    placing_press(p, "switch 1");
    assert_string_equal(app_remember(p->app, p->room.a), once);
}

static void a_digit_that_was_given_is_still_typed(void **state)
{
    struct placing *p = *state;
    struct app_key_map map = map_of(p, "dark = 5");
    room_forget(&p->room);
    map = map_of(p, "colour 5 = F8", "dark = 5");
    room_nothing_told(&p->room);
    app_set_keys(p->app, &map);
    placing_press(p, "enter");
    placing_type(p, "655");
    assert_string_equal(placing_cloth(p)->typed[0], "655");
}

static void the_lock_says_the_key_that_unlocks(void **state)
{
    struct placing *p = *state;
    struct app_key_map map = map_of(p, "lock = Ctrl Alt U");
    app_set_keys(p->app, &map);
    placing_press(p, "ctrl alt u");
    assert_non_null(strstr(app_lock_text(p->room.a, &p->app->keys, APP_KEYS_CUT), "Ctrl Alt U"));
    assert_false(placing_press(p, "ctrl l"));
    assert_true(placing_press(p, "ctrl alt u"));
    assert_false(p->app->locked);
}

/* What is expected is hand-worked from the map. */
static void what_is_told_of_keys_names_the_given_ones(void **state)
{
    struct placing *p = *state;
    struct app_key_map map = map_of(p, "help = F9", "tick = F8", "move away = Alt W", "take off = J");
    static const struct {
        unsigned of;
        const char *usual, *said;
    } told[] = {
        { APP_KEYS_CUT, "7 of 9 · F1: keys", "7 of 9 · F9: keys" },
        { APP_KEYS_CUT, "Enter: it lies there · F: bring the light", "F8: it lies there · F: bring the light" },
        { APP_KEYS_CUT, "Up, Down: choose", "Alt W, Down: choose" },
        { APP_KEYS_SET_UP, "Enter or F5: begin afresh · any other key: back",
          "F8 or F5: begin afresh · any other key: back" },
        { APP_KEYS_ARRANGE, "X: lay it · Enter: arrange again", "J: lay it · Enter: arrange again" },
        { APP_KEYS_CUT, "X: leave it out", "X: leave it out" },
        { APP_KEYS_CUT, "not checked: M", "not checked: M" },
        { APP_KEYS_CUT, "", "" },
    };
    room_nothing_told(&p->room);
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++)
        assert_string_equal(app_key_map_said(&map, told[i].of, p->room.a, told[i].usual), told[i].said);
    assert_null(app_key_map_said(&map, APP_KEYS_CUT, p->room.a, NULL));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        key_map_test(every_key_of_cutting_has_one_name),
        key_map_test(every_key_of_set_up_and_of_arranging_has_one_name),
        key_map_test(every_name_is_of_a_key_that_does_something),
        key_map_test(what_is_wrong_is_told_in_one_sentence_and_left_out),
        key_map_test(keys_may_change_places),
        key_map_test(one_key_for_two_actions_is_the_first_ones),
        key_map_test(pages_do_not_stand_in_each_others_way),
        key_map_test(a_given_key_does_it_and_the_usual_one_no_more),
        key_map_test(what_stands_for_a_key_goes_on_doing_so),
        key_map_test(a_digit_that_was_given_is_still_typed),
        key_map_test(the_lock_says_the_key_that_unlocks),
        key_map_test(what_is_told_of_keys_names_the_given_ones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
