#include "app/memory.h"
#include "app/state.h"
#include "input/key.h"
#include "support/cmocka_all.h"
#include "table/rig.h"

#include <string.h>

struct here {
    struct arena *a;
    struct err_list *errs;
    struct calibration_table table;
};

static int set_up(void **state)
{
    static struct here h;
    size_t count;
    struct vt_noise noise = { 3 };
    h.a = base_arena_create();
    h.errs = base_err_list_create();
    struct calibration_readings readings = rig_read(h.a, &vt_standard_setups(&count)[0], RIG_READINGS, 0, &noise);
    *state = &h;
    return rig_calibrate(h.a, &readings, &h.table, h.errs) ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    base_err_list_destroy(h->errs);
    base_arena_destroy(h->a);
    return 0;
}

/* The draw lists of two apps, point by point. */
static void assert_shows_the_same(struct here *h, struct app *one, struct app *other)
{
    struct paint_items a = app_scene(one, h->a).table.in, b = app_scene(other, h->a).table.in;
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
    static const char *const keys[] = { "left",      "shift up", "t", ",",   "o",    "+",
                                        "page down", "a",        "c", "tab", "home", "page up" };
    struct app *app = rig_app(h->a, &h->table, NULL, h->errs), *again = rig_app(h->a, &h->table, NULL, h->errs);
    unsigned seed = 1;
    for (int i = 0; i < 200; i++) {
        struct input_event event = { .type = INPUT_KEY };
        seed = seed * 1664525u + 1013904223u;
        assert_true(input_key_from_name(keys[(seed >> 16) % 12], &event.key, &event.mods));
        app_handle(app, event);
        assert_true(app_recall(again, app_remember(app, h->a), h->errs));
        if (i % 10 == 0)
            assert_shows_the_same(h, app, again);
    }
    assert_shows_the_same(h, app, again);
    assert_null(strchr(app_remember(app, h->a), '\n'));
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
    struct app *app = rig_app(h->a, &h->table, NULL, h->errs), *fresh = rig_app(h->a, &h->table, NULL, h->errs);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        if (app_recall(app, lines[i], h->errs))
            fail_msg("taken: %s", lines[i]);
        assert_shows_the_same(h, app, fresh);
    }
    assert_true(base_err_list_has(h->errs, "app.memory"));
    assert_int_equal(h->errs->faults, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(lines_bring_everything_back_after_any_action, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_line_that_does_not_fit_changes_nothing, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
