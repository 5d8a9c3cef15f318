/* The table worked without a keyboard at hand, and with things in the way: switches that bounce, held keys, cats. */
#include "app/walk.h"
#include "input/key.h"
#include "table/placing.h"

#include <math.h>
#include <string.h>

static int set_up(void **state)
{
    static struct placing p;
    *state = &p;
    return placing_open(&p, NULL) ? 0 : -1;
}

static int tear_down(void **state)
{
    struct placing *p = *state;
    room_finish(&p->room);
    return 0;
}

/* --- the lock-out ------------------------------------------------------------------------------------------------ */

static struct app_effects press_at(struct placing *p, const char *name, double at_s, bool is_repeat)
{
    struct input_event event = { .type = INPUT_KEY, .at_s = at_s, .is_repeat = is_repeat };
    assert_true(input_key_from_name(name, &event.key, &event.mods));
    return app_handle(p->app, event);
}

static size_t done(const struct placing *p)
{
    size_t count = 0;
    for (size_t i = 0; i < placing_cloth(p)->step_count; i++)
        count += placing_cloth(p)->steps[i].done;
    return count;
}

/* The rule that was asked for: 400 ms, to the event. */
static void a_switch_that_bounces_ticks_once(void **state)
{
    struct placing *p = *state;
    static const struct {
        double at_s;
        size_t done;
    } rows[] = { { 100, 1 }, { 100.02, 1 }, { 100.399, 1 }, { 100.401, 2 }, { 100.7, 2 }, { 100.802, 3 } };
    placing_lay(p);
    app_set_lockout(p->app, 0.4);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct app_effects effects = press_at(p, "shift enter", rows[i].at_s, false);
        assert_int_equal(done(p), rows[i].done);
        assert_int_equal(effects.redraw, i == 0 || rows[i].done > rows[i - 1].done); /* nothing is kept of the others */
    }
}

static void a_held_key_ticks_once_however_long(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    app_set_lockout(p->app, 0.4);
    press_at(p, "shift enter", 10, false);
    for (int i = 1; i < 100; i++)
        press_at(p, "shift enter", 10 + 0.1 * i, true);
    assert_int_equal(done(p), 1);
    app_set_lockout(p->app, 0);
    press_at(p, "shift enter", 30, true);
    assert_int_equal(done(p), 1);
    press_at(p, "shift enter", 30, false);
    press_at(p, "shift enter", 30, false);
    assert_int_equal(done(p), 3);
}

/* What goes to another piece is no tick and waits for nothing; what takes a tick back is one. */
static void other_keys_are_not_locked_out(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    app_set_lockout(p->app, 0.4);
    press_at(p, "shift enter", 10, false);
    size_t now = placing_cloth(p)->now;
    press_at(p, "page down", 10.01, true);
    assert_int_not_equal(placing_cloth(p)->now, now);
    press_at(p, "backspace", 10.1, false);
    assert_int_equal(done(p), 1);
    press_at(p, "backspace", 10.5, false);
    assert_int_equal(done(p), 0);
}

/* A computer that was restarted, or a clock that ran over, counts from the beginning again. */
static void a_clock_that_began_anew_locks_nothing_out(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    app_set_lockout(p->app, 0.4);
    press_at(p, "shift enter", 5e6, false);
    press_at(p, "shift enter", 1, false);
    assert_int_equal(done(p), 2);
}

static void a_cross_is_taken_once(void **state)
{
    struct placing *p = *state;
    struct app_walk_start start = { .width_px = 1280,
                                    .height_px = 800,
                                    .name = "walked",
                                    .unit = UNITS_MM,
                                    .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                    .lockout_s = 0.4 };
    struct app_walk *walk = app_walk_create(p->room.a, &start);
    static const struct {
        int key;
        double at_s;
        bool is_repeat;
        size_t read;
    } rows[] = { { KEY_SPACE, 1, false, 0 },   { KEY_CHAR + '*', 2, false, 0 }, { KEY_ENTER, 3, false, 1 },
                 { KEY_ENTER, 3.3, false, 1 }, { KEY_ENTER, 3.5, true, 1 },     { KEY_ENTER, 3.5, false, 2 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        app_walk_handle(
            walk, (struct input_event){
                      .type = INPUT_KEY, .key = rows[i].key, .at_s = rows[i].at_s, .is_repeat = rows[i].is_repeat });
        assert_int_equal(app_walk_readings(walk, p->room.a).count, rows[i].read);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_switch_that_bounces_ticks_once, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_held_key_ticks_once_however_long, set_up, tear_down),
        cmocka_unit_test_setup_teardown(other_keys_are_not_locked_out, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_clock_that_began_anew_locks_nothing_out, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_cross_is_taken_once, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
