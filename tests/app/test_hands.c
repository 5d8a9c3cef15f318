/* The table worked without a keyboard at hand, and with things in the way: switches that bounce, held keys, cats. */
#include "app/hands.h"
#include "app/memory.h"
#include "app/place.h"
#include "app/walk.h"
#include "input/key.h"
#include "table/placing.h"

#include <math.h>
#include <string.h>

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

/* --- the lock ---------------------------------------------------------------------------------------------------- */

static const char *strip(struct placing *p)
{
    struct arena *a = p->room.a;
    return p->app->locked ? app_lock_text(a, &p->app->keys, APP_KEYS_CUT) : app_place_strip_left(p->app, a);
}

static void a_cat_on_the_keys_changes_nothing(void **state)
{
    struct placing *p = *state;
    static const char *const keys[] = { "enter", "page down", "tab", "b", "esc",     "f1", "backspace",
                                        "l",     "ctrl q",    "f5",  "7", "shift c", "w",  "button near" };
    placing_lay(p);
    placing_press(p, "shift enter");
    const char *before = app_remember(p->app, p->room.a);
    assert_true(placing_press(p, "ctrl l"));
    assert_string_equal(strip(p), "Locked: every key is dead until Ctrl L unlocks them");
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        struct app_effects effects = press_at(p, keys[i], 0, false);
        assert_false(effects.redraw || effects.quit);
    }
    assert_false(press_at(p, "ctrl l", 0, true).redraw); /* held down it does not unlock */
    struct input_event stick = { .type = INPUT_STICKS, .left = { 1, 1 }, .held_s = 0.05 };
    assert_false(app_handle(p->app, stick).redraw);
    assert_false(app_handle(p->app, (struct input_event){ .type = INPUT_QUIT }).quit);
    assert_true(app_handle(p->app, (struct input_event){ .type = INPUT_EXPOSE }).show);
    placing_press(p, "ctrl l");
    assert_string_equal(app_remember(p->app, p->room.a), before);
    placing_press(p, "shift enter");
    assert_int_equal(done(p), 2);
    assert_true(app_handle(p->app, (struct input_event){ .type = INPUT_QUIT }).quit);
}

/* A program that was started again is not locked: nobody is shut out for good. */
static void a_lock_is_not_remembered(void **state)
{
    struct placing *p = *state;
    placing_press(p, "ctrl l");
    const char *line = app_remember(p->app, p->room.a);
    struct app *again = placing_again(p);
    assert_true(app_recall(again, line, p->room.errs));
    assert_false(again->locked);
}

/* --- presenter, number pad, game controller ---------------------------------------------------------------------- */

/* What is remembered after keys that were pressed one after the other, from the beginning. */
static const char *after(struct placing *p, const char *const *keys)
{
    p->app = placing_again(p);
    placing_lay(p);
    for (; *keys; keys++)
        placing_press(p, *keys);
    return app_remember(p->app, p->room.a);
}

#define after_keys(p, ...) after((p), (const char *const[]){ __VA_ARGS__, NULL })

/* What presenters send differs by make (common practice, no source): all of them go on, step back and forth, and
 * darken. */
static void a_presenter_goes_on_steps_and_darkens(void **state)
{
    struct placing *p = *state;
    const char *thrice = after_keys(p, "enter", "enter", "enter");
    assert_string_not_equal(thrice, after_keys(p, "enter"));
    assert_string_equal(after_keys(p, "f5", "esc", "shift f5"), thrice);
    placing_press(p, "page down");
    assert_string_not_equal(app_remember(p->app, p->room.a), thrice);
    placing_press(p, "page up");
    assert_string_equal(app_remember(p->app, p->room.a), thrice);
    placing_press(p, ".");
    assert_int_equal(p->app->mode, SCENE_BLANK);
    placing_press(p, "b");
    assert_int_equal(p->app->mode, SCENE_PIECES);
    placing_press(p, "t"); /* a hand at the keyboard: Esc is Esc again */
    placing_press(p, "esc");
    assert_string_equal(app_remember(p->app, p->room.a), thrice);
}

static void a_number_pad_moves_and_ticks_and_still_types(void **state)
{
    struct placing *p = *state;
    placing_press(p, "f"); /* points are nudged onto the edge */
    vec2 before = placing_light_in_hand(p);
    placing_press(p, "6");
    assert_near(placing_light_in_hand(p).x - before.x, 10, 0.05);
    placing_press(p, "8");
    assert_near(placing_light_in_hand(p).y - before.y, 10, 0.05);
    placing_press(p, "esc");
    placing_press(p, "enter");
    assert_int_equal(placing_cloth(p)->stage, APP_PLACE_GRAIN);
    placing_type(p, "680");
    assert_string_equal(placing_cloth(p)->typed[0], "680");
}

static void buttons_do_what_keys_do(void **state)
{
    struct placing *p = *state;
    const char *twice = after_keys(p, "enter", "enter"), *other = after_keys(p, "enter", "page down");
    assert_string_not_equal(twice, other);
    assert_string_equal(after_keys(p, "button near", "trigger right"), twice);
    assert_string_equal(after_keys(p, "switch 1", "button near", "button near", "button left"), twice);
    assert_string_equal(after_keys(p, "switch 1", "switch 2"), other);
    assert_string_equal(after_keys(p, "button near", "shoulder right"), other);
    p->app = placing_again(p);
    placing_lay(p);
    app_set_left_handed(p->app, true);
    placing_press(p, "trigger left");
    placing_press(p, "shoulder left");
    assert_string_equal(app_remember(p->app, p->room.a), other);
}

/* --- sticks ------------------------------------------------------------------------------------------------------ */

static struct app_effects hold(struct app *app, struct input_stick left, struct input_stick right, double s)
{
    return app_handle(app, (struct input_event){ .type = INPUT_STICKS, .left = left, .right = right, .held_s = s });
}

/* Held all the way for a second a stick moves 250 mm, however many pictures that took; half the way an eighth of it
 * (hand-worked: the cube). */
static void a_stick_moves_by_speed_and_time(void **state)
{
    struct placing *p = *state;
    struct app *app = p->app;
    placing_press(p, "l"); /* pieces one by one */
    static const int pictures[] = { 10, 60, 240 };
    for (size_t i = 0; i < sizeof pictures / sizeof pictures[0]; i++) {
        *app_motion(app) = (struct geometry_motion){ 0 };
        for (int n = 0; n < pictures[i]; n++)
            assert_true(
                hold(app, (struct input_stick){ 1, -0.5 }, (struct input_stick){ 0 }, 1.0 / pictures[i]).redraw);
        assert_near(app_motion(app)->shift.x, 250, 1e-6);
        assert_near(app_motion(app)->shift.y, -31.25, 1e-6);
    }
    assert_false(hold(app, (struct input_stick){ 0 }, (struct input_stick){ 0 }, 0.02).redraw);
    *app_motion(app) = (struct geometry_motion){ 0 };
    hold(app, (struct input_stick){ 1, 0 }, (struct input_stick){ 0 }, 60); /* the computer had slept: no leap */
    assert_true(app_motion(app)->shift.x <= 25);
}

/* A quarter of the way turns by less than a tenth of a degree a picture, and turns all the same: 60° × 1/64 × 8 s =
 * 7.5° (hand-worked), clockwise to the right. */
static void the_other_stick_turns_however_slowly(void **state)
{
    struct placing *p = *state;
    placing_press(p, "l");
    for (int n = 0; n < 800; n++)
        hold(p->app, (struct input_stick){ 0 }, (struct input_stick){ 0.25, 0 }, 0.01);
    assert_near(app_motion(p->app)->turn_deg, -7.5, 0.11);
    app_set_left_handed(p->app, true);
    for (int n = 0; n < 800; n++)
        hold(p->app, (struct input_stick){ -0.25, 0 }, (struct input_stick){ 0 }, 0.01);
    assert_near(app_motion(p->app)->turn_deg, 0, 0.11);
}

/* Her right and away from her, on the mat, standing at the near, right, far and left side. */
static const vec2 her_right[] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
static const vec2 her_away[] = { { 0, 1 }, { -1, 0 }, { 0, -1 }, { 1, 0 } };

static void assert_light_moved(struct placing *p, vec2 before, vec2 way, double mm)
{
    vec2 by = vec2_sub(placing_light_in_hand(p), before);
    assert_near(by.x, way.x * mm, 0.05);
    assert_near(by.y, way.y * mm, 0.05);
}

static void points_are_nudged_to_her_own_right_and_away_on_every_side(void **state)
{
    struct placing *p = *state;
    placing_press(p, "f");
    for (int side = 0; side < SCENE_SIDES; side++, placing_press(p, "tab")) {
        vec2 before = placing_light_in_hand(p);
        placing_press(p, "right");
        assert_light_moved(p, before, her_right[side], 10);
        placing_press(p, "left");
        placing_press(p, "up");
        assert_light_moved(p, before, her_away[side], 10);
        placing_press(p, "down");
        hold(p->app, (struct input_stick){ 0, 1 }, (struct input_stick){ 0 }, 0.08);
        assert_light_moved(p, before, her_away[side], 20);
        hold(p->app, (struct input_stick){ 0, -1 }, (struct input_stick){ 0 }, 0.08);
        assert_light_moved(p, before, her_away[side], 0);
    }
}

/* Setting up, too: no cross is moved or taken, and a stick that is held moves one to her right once it is unlocked. */
static void a_cat_takes_no_cross(void **state)
{
    struct placing *p = *state;
    struct app_walk_start start = {
        .width_px = 1280, .height_px = 800, .name = "walked", .unit = UNITS_MM, .sigma_mm = CALIBRATION_TYPED_SIGMA_MM
    };
    struct app_walk *walk = app_walk_create(p->room.a, &start);
    static const int begin[] = { KEY_SPACE, KEY_BUTTON_NEAR };
    const struct input_event lock = { .type = INPUT_KEY, .key = KEY_CHAR + 'l', .mods = MOD_CTRL };
    const struct input_event stick = { .type = INPUT_STICKS, .left = { 1, 0 }, .held_s = 0.05 };
    for (size_t i = 0; i < 2; i++)
        app_walk_handle(walk, (struct input_event){ .type = INPUT_KEY, .key = begin[i] });
    app_walk_handle(walk, lock);
    for (int key = KEY_LEFT; key <= KEY_SWITCH_8; key++) {
        struct app_walk_effects effects = app_walk_handle(walk, (struct input_event){ .type = INPUT_KEY, .key = key });
        assert_false(effects.redraw || effects.save || effects.quit);
    }
    assert_false(app_walk_handle(walk, stick).redraw);
    assert_int_equal(app_walk_readings(walk, p->room.a).count, 0);
    app_walk_handle(walk, lock);
    assert_true(app_walk_handle(walk, stick).redraw);
    app_walk_handle(walk, (struct input_event){ .type = INPUT_KEY, .key = KEY_BUTTON_NEAR });
    assert_int_equal(app_walk_readings(walk, p->room.a).count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_switch_that_bounces_ticks_once, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(a_held_key_ticks_once_however_long, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(other_keys_are_not_locked_out, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(a_clock_that_began_anew_locks_nothing_out, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(a_cross_is_taken_once, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(a_cat_on_the_keys_changes_nothing, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(a_lock_is_not_remembered, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(a_presenter_goes_on_steps_and_darkens, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(a_number_pad_moves_and_ticks_and_still_types, placing_set_up,
                                        placing_tear_down),
        cmocka_unit_test_setup_teardown(buttons_do_what_keys_do, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(a_stick_moves_by_speed_and_time, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(the_other_stick_turns_however_slowly, placing_set_up, placing_tear_down),
        cmocka_unit_test_setup_teardown(points_are_nudged_to_her_own_right_and_away_on_every_side, placing_set_up,
                                        placing_tear_down),
        cmocka_unit_test_setup_teardown(a_cat_takes_no_cross, placing_set_up, placing_tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
