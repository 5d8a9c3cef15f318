#include "app/memory.h"
#include "app/state.h"
#include "input/key.h"
#include "support/room.h"
#include "table/rig.h"

#include <string.h>

struct here {
    struct room room;
    struct calibration_table table;
};

static int set_up(void **state)
{
    static struct here h;
    size_t count;
    room_init(&h.room);
    *state = &h;
    return rig_exact_table(h.room.a, &vt_standard_setups(&count)[0], &h.table, h.room.errs) ? 0 : -1;
}

/* The draw lists of two apps, point by point. */
static void assert_shows_the_same(struct here *h, struct app *one, struct app *other)
{
    struct paint_items a = app_scene(one, h->room.a).table.in, b = app_scene(other, h->room.a).table.in;
    assert_int_equal(a.path_count, b.path_count);
    for (size_t i = 0; i < a.path_count; i++) {
        assert_int_equal(a.paths[i].count, b.paths[i].count);
        assert_memory_equal(a.paths[i].points, b.paths[i].points, a.paths[i].count * sizeof(vec2));
    }
    for (size_t i = 0; i < a.count; i++) {
        assert_near(a.items[i].pen.width, b.items[i].pen.width, 0);
        assert_int_equal(a.items[i].ink.chalk, b.items[i].ink.chalk);
    }
}

/* Keys by a fixed seed; after each a line is kept. Another app that is told the lines shows the same, wherever it
 * breaks off. */
static void lines_bring_everything_back_after_any_action(void **state)
{
    struct here *h = *state;
    static const char *const keys[] = { "left", "shift up", "t",    ",", "o", "+",       "page down", "a",
                                        "c",    "tab",      "home", "u", "e", "page up", "shift tab" };
    struct app *app = rig_app(h->room.a, &h->table, NULL, h->room.errs),
               *again = rig_app(h->room.a, &h->table, NULL, h->room.errs);
    unsigned seed = 1;
    for (int i = 0; i < 200; i++) {
        struct input_event event = { .type = INPUT_KEY };
        seed = seed * 1664525u + 1013904223u;
        assert_true(input_key_from_name(keys[(seed >> 16) % (sizeof keys / sizeof keys[0])], &event.key, &event.mods));
        app_handle(app, event);
        assert_true(app_recall(again, app_remember(app, h->room.a), h->room.errs));
        if (i % 10 == 0)
            assert_shows_the_same(h, app, again);
    }
    assert_shows_the_same(h, app, again);
    assert_null(strchr(app_remember(app, h->room.a), '\n'));
}

/* A few lines say the same as the two hundred: all places of all pieces. */
static void the_short_form_brings_back_every_place(void **state)
{
    struct here *h = *state;
    struct app *app = rig_app(h->room.a, &h->table, NULL, h->room.errs),
               *again = rig_app(h->room.a, &h->table, NULL, h->room.errs);
    struct input_event events[4] = { 0 };
    static const char *const names[] = { "left", "t", "page down", "a" };
    for (int i = 0; i < 4; i++) {
        events[i].type = INPUT_KEY;
        assert_true(input_key_from_name(names[i], &events[i].key, &events[i].mods));
    }
    for (int i = 0; i < 23; i++)
        app_handle(app, events[i * i % 4 == 1 ? i / 2 % 2 : i % 3]);
    app_handle(app, events[3]);
    app_handle(app, events[0]);
    size_t count;
    const char *const *lines = app_remember_all(app, h->room.a, &count);
    for (size_t i = 0; i < count; i++)
        assert_true(app_recall(again, lines[i], h->room.errs));
    assert_shows_the_same(h, app, again);
    app_handle(app, events[3]);
    app_handle(again, events[3]);
    for (int i = 0; i < 20; i++) {
        assert_shows_the_same(h, app, again);
        app_handle(app, events[2]);
        app_handle(again, events[2]);
    }
}

/* Turned over, which would make it -0, and then by four quarters of a whole turn. */
static void no_turn_at_all_is_kept_as_nought(void **state)
{
    struct here *h = *state;
    static const char *const keys[] = { "o", "shift t", "shift t", "shift t", "shift t" };
    struct app *app = rig_app(h->room.a, &h->table, NULL, h->room.errs);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        struct input_event event = { .type = INPUT_KEY };
        assert_true(input_key_from_name(keys[i], &event.key, &event.mods));
        app_handle(app, event);
        if (i == 0 || i == 4)
            assert_non_null(strstr(app_remember(app, h->room.a), "\"turn\": 0,"));
    }
}

static void a_line_that_does_not_fit_changes_nothing(void **state)
{
    struct here *h = *state;
    static const char *const lines[] = {
        "",
        "{",
        "[]",
        "{}",
        "{ \"cut\": 99 }",
        "{\"cut\": 0, \"all\": false, \"mirror\": false, \"turn\": 1e9, \"right\": 0, \"away\": 0, \"weight\": 3, "
        "\"chalk\": \"white\", \"side\": \"near\"}",
        "{\"cut\": 0.5, \"all\": false, \"mirror\": false, \"turn\": 0, \"right\": 0, \"away\": 0, \"weight\": 3, "
        "\"chalk\": \"white\", \"side\": \"near\"}",
        "{\"cut\": 1, \"all\": true, \"mirror\": true, \"turn\": 5, \"right\": 0, \"away\": 0, \"weight\": 3, "
        "\"chalk\": \"tartan\", \"side\": \"near\"}",
    };
    struct app *app = rig_app(h->room.a, &h->table, NULL, h->room.errs),
               *fresh = rig_app(h->room.a, &h->table, NULL, h->room.errs);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        if (app_recall(app, lines[i], h->room.errs))
            fail_msg("taken: %s", lines[i]);
        assert_shows_the_same(h, app, fresh);
    }
    assert_true(base_err_list_has(h->room.errs, "app.memory"));
    assert_int_equal(h->room.errs->faults, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(lines_bring_everything_back_after_any_action, set_up, room_close),
        cmocka_unit_test_setup_teardown(the_short_form_brings_back_every_place, set_up, room_close),
        cmocka_unit_test_setup_teardown(no_turn_at_all_is_kept_as_nought, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_line_that_does_not_fit_changes_nothing, set_up, room_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
