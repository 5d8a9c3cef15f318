/* Game controllers and foot switches by SDL's own virtual joystick, in a window of a screen that nobody sees. */
#include "input/key.h"
#include "screen/window.h"
#include "screen/x_client.h"
#include "support/room.h"

#define SDL_MAIN_HANDLED
#include <SDL.h>

#include <math.h>

enum { PATIENCE_MS = 20000, BUTTONS = SDL_CONTROLLER_BUTTON_DPAD_RIGHT + 1, SWITCHES = 3 };

struct desk {
    struct room room;
    struct screen_window *window;
    SDL_Joystick *controller, *pedal;
    int devices[2];
};

static struct input_event next_of(struct desk *desk, enum input_type type)
{
    for (;;) {
        struct input_event event = screen_wait(desk->window, PATIENCE_MS);
        assert_int_not_equal(event.type, INPUT_NONE);
        if (event.type == type)
            return event;
    }
}

/* The first event starts the looking for controllers. */
static int open_desk(void **state)
{
    static struct desk desk;
    room_init(&desk.room);
    desk.window = screen_open(0, "light on the table", desk.room.errs);
    *state = &desk;
    if (!desk.window)
        return -1;
    screen_wait(desk.window, 0);
    desk.devices[0] = SDL_JoystickAttachVirtual(SDL_JOYSTICK_TYPE_GAMECONTROLLER, SDL_CONTROLLER_AXIS_MAX, BUTTONS, 0);
    desk.devices[1] = SDL_JoystickAttachVirtual(SDL_JOYSTICK_TYPE_UNKNOWN, 0, SWITCHES, 0);
    desk.controller = SDL_JoystickOpen(desk.devices[0]);
    desk.pedal = SDL_JoystickOpen(desk.devices[1]);
    if (!desk.controller || !desk.pedal)
        return -1;
    for (int axis = SDL_CONTROLLER_AXIS_TRIGGERLEFT; axis <= SDL_CONTROLLER_AXIS_TRIGGERRIGHT; axis++)
        SDL_JoystickSetVirtualAxis(desk.controller, axis, SDL_JOYSTICK_AXIS_MIN);
    while (screen_wait(desk.window, 100).type != INPUT_NONE)
        ;
    return 0;
}

static int close_desk(void **state)
{
    struct desk *desk = *state;
    SDL_JoystickClose(desk->pedal);
    SDL_JoystickClose(desk->controller);
    SDL_JoystickDetachVirtual(desk->devices[1]);
    SDL_JoystickDetachVirtual(desk->devices[0]);
    screen_close(desk->window);
    return room_close(state);
}

static void press(SDL_Joystick *device, int button)
{
    SDL_JoystickSetVirtualButton(device, button, 1);
    SDL_JoystickUpdate();
    SDL_JoystickSetVirtualButton(device, button, 0);
}

/* Where a button lies by SDL's documentation of SDL_GameControllerButton: A near, B right, X left, Y far, as on a
 * controller whose letters stand so. */
static void buttons_are_keys(void **state)
{
    static const struct {
        SDL_GameControllerButton button;
        int key;
    } rows[] = { { SDL_CONTROLLER_BUTTON_A, KEY_BUTTON_NEAR },
                 { SDL_CONTROLLER_BUTTON_B, KEY_BUTTON_RIGHT },
                 { SDL_CONTROLLER_BUTTON_X, KEY_BUTTON_LEFT },
                 { SDL_CONTROLLER_BUTTON_Y, KEY_BUTTON_FAR },
                 { SDL_CONTROLLER_BUTTON_BACK, KEY_BUTTON_BACK },
                 { SDL_CONTROLLER_BUTTON_START, KEY_BUTTON_START },
                 { SDL_CONTROLLER_BUTTON_LEFTSHOULDER, KEY_SHOULDER_LEFT },
                 { SDL_CONTROLLER_BUTTON_RIGHTSHOULDER, KEY_SHOULDER_RIGHT },
                 { SDL_CONTROLLER_BUTTON_DPAD_UP, KEY_UP },
                 { SDL_CONTROLLER_BUTTON_DPAD_DOWN, KEY_DOWN },
                 { SDL_CONTROLLER_BUTTON_DPAD_LEFT, KEY_LEFT },
                 { SDL_CONTROLLER_BUTTON_DPAD_RIGHT, KEY_RIGHT } };
    struct desk *desk = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        press(desk->controller, rows[i].button);
        struct input_event event = next_of(desk, INPUT_KEY);
        assert_int_equal(event.key, rows[i].key);
        assert_int_equal(event.mods, 0);
    }
    assert_int_equal(screen_wait(desk->window, 50).type, INPUT_NONE); /* each was told once */
}

static void a_foot_switch_is_a_key(void **state)
{
    struct desk *desk = *state;
    for (int i = 0; i < SWITCHES; i++) {
        press(desk->pedal, i);
        assert_int_equal(next_of(desk, INPUT_KEY).key, KEY_SWITCH_1 + i);
    }
    assert_int_equal(screen_wait(desk->window, 50).type, INPUT_NONE);
}

static void a_trigger_is_a_key_once_it_is_pulled(void **state)
{
    struct desk *desk = *state;
    for (int times = 0; times < 2; times++) {
        for (int pull = SDL_JOYSTICK_AXIS_MIN; pull <= SDL_JOYSTICK_AXIS_MAX; pull += 8191) {
            SDL_JoystickSetVirtualAxis(desk->controller, SDL_CONTROLLER_AXIS_TRIGGERRIGHT, (Sint16)pull);
            SDL_JoystickUpdate();
        }
        assert_int_equal(next_of(desk, INPUT_KEY).key, KEY_TRIGGER_RIGHT);
        assert_int_equal(screen_wait(desk->window, 50).type, INPUT_NONE);
        SDL_JoystickSetVirtualAxis(desk->controller, SDL_CONTROLLER_AXIS_TRIGGERRIGHT, SDL_JOYSTICK_AXIS_MIN);
        assert_int_equal(screen_wait(desk->window, 50).type, INPUT_NONE);
    }
}

static void hold(struct desk *desk, SDL_GameControllerAxis axis, int value)
{
    SDL_JoystickSetVirtualAxis(desk->controller, axis, (Sint16)value);
}

/* Away from her is above zero here, below it to SDL. */
static void a_held_stick_is_told_again_and_again_with_its_time(void **state)
{
    struct desk *desk = *state;
    hold(desk, SDL_CONTROLLER_AXIS_LEFTX, SDL_JOYSTICK_AXIS_MAX);
    hold(desk, SDL_CONTROLLER_AXIS_LEFTY, SDL_JOYSTICK_AXIS_MIN);
    struct input_event first = next_of(desk, INPUT_STICKS);
    assert_near(first.held_s, 0, 0);
    double total = 0;
    struct input_event event = first;
    for (int i = 0; i < 20; i++) {
        double before = event.at_s;
        event = next_of(desk, INPUT_STICKS);
        assert_near(event.left.right, 1, 0);
        assert_near(event.left.away, 1, 0);
        assert_near(event.right.right, 0, 0);
        assert_near(event.held_s, event.at_s - before, 1e-9);
        assert_true(event.held_s >= 0.015);
        total += event.held_s;
    }
    assert_near(total, event.at_s - first.at_s, 1e-9);
    hold(desk, SDL_CONTROLLER_AXIS_LEFTX, 0);
    hold(desk, SDL_CONTROLLER_AXIS_LEFTY, 0);
    do
        event = next_of(desk, INPUT_STICKS);
    while (event.left.right != 0 || event.left.away != 0);
    assert_int_equal(screen_wait(desk->window, 100).type, INPUT_NONE); /* at rest it is told once */
}

/* Below 15 % a stick is at rest; from there on it begins at nothing, and past 95 % it is held all the way
 * (hand-worked: at half the way (0.5 - 0.15) / 0.8). */
static void a_stick_that_trembles_is_at_rest(void **state)
{
    static const struct {
        double share, held;
    } rows[] = { { 0.1, 0 }, { -0.149, 0 }, { 0.5, 0.4375 }, { -0.5, -0.4375 }, { 0.96, 1 }, { -1, -1 } };
    struct desk *desk = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        hold(desk, SDL_CONTROLLER_AXIS_RIGHTX, (int)(rows[i].share * SDL_JOYSTICK_AXIS_MAX));
        SDL_JoystickUpdate();
        if (rows[i].held == 0) {
            assert_int_equal(screen_wait(desk->window, 60).type, INPUT_NONE);
            continue;
        }
        next_of(desk, INPUT_STICKS);
        assert_near(next_of(desk, INPUT_STICKS).right.right, rows[i].held, 1e-3);
    }
}

/* What was pulled out and plugged in again works. */
static void a_controller_may_come_and_go(void **state)
{
    struct desk *desk = *state;
    SDL_JoystickClose(desk->controller);
    SDL_JoystickDetachVirtual(0);
    while (screen_wait(desk->window, 100).type != INPUT_NONE)
        ;
    assert_int_equal(SDL_NumJoysticks(), 1);
    desk->devices[0] = SDL_JoystickAttachVirtual(SDL_JOYSTICK_TYPE_GAMECONTROLLER, SDL_CONTROLLER_AXIS_MAX, BUTTONS, 0);
    desk->controller = SDL_JoystickOpen(desk->devices[0]);
    desk->devices[1] = 0;
    while (screen_wait(desk->window, 100).type != INPUT_NONE)
        ;
    press(desk->controller, SDL_CONTROLLER_BUTTON_A);
    assert_int_equal(next_of(desk, INPUT_KEY).key, KEY_BUTTON_NEAR);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, open_desk, close_desk)
    const struct CMUnitTest tests[] = {
        TEST(buttons_are_keys),
        TEST(a_foot_switch_is_a_key),
        TEST(a_trigger_is_a_key_once_it_is_pulled),
        TEST(a_held_stick_is_told_again_and_again_with_its_time),
        TEST(a_stick_that_trembles_is_at_rest),
        TEST(a_controller_may_come_and_go),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
