/* Game controllers, and switches for a foot that call themselves joysticks. SDL polls them only when it is asked: of
 * its own it would look a thousand times a second while one is plugged in. */
#include "screen/inside.h"

#include "input/key.h"

#include <math.h>

/* A stick that is let go rests within that much of its middle, one held all the way comes within that much of its end
 * (common practice, no source). */
#define DEAD 0.15
#define FULL 0.95

enum { FRAME_MS = 16, LOOK_MS = 4, FIND_MS = 2000, HALF_PULLED = SDL_JOYSTICK_AXIS_MAX / 2 };

/* A controller's buttons as SDL names them: A lies near whatever is printed on it. */
static const int button_keys[SDL_CONTROLLER_BUTTON_MAX] = {
    [SDL_CONTROLLER_BUTTON_A] = KEY_BUTTON_NEAR,
    [SDL_CONTROLLER_BUTTON_B] = KEY_BUTTON_RIGHT,
    [SDL_CONTROLLER_BUTTON_X] = KEY_BUTTON_LEFT,
    [SDL_CONTROLLER_BUTTON_Y] = KEY_BUTTON_FAR,
    [SDL_CONTROLLER_BUTTON_BACK] = KEY_BUTTON_BACK,
    [SDL_CONTROLLER_BUTTON_START] = KEY_BUTTON_START,
    [SDL_CONTROLLER_BUTTON_LEFTSTICK] = KEY_STICK_LEFT,
    [SDL_CONTROLLER_BUTTON_RIGHTSTICK] = KEY_STICK_RIGHT,
    [SDL_CONTROLLER_BUTTON_LEFTSHOULDER] = KEY_SHOULDER_LEFT,
    [SDL_CONTROLLER_BUTTON_RIGHTSHOULDER] = KEY_SHOULDER_RIGHT,
    [SDL_CONTROLLER_BUTTON_DPAD_UP] = KEY_UP,
    [SDL_CONTROLLER_BUTTON_DPAD_DOWN] = KEY_DOWN,
    [SDL_CONTROLLER_BUTTON_DPAD_LEFT] = KEY_LEFT,
    [SDL_CONTROLLER_BUTTON_DPAD_RIGHT] = KEY_RIGHT,
};

/* --- what is plugged in ------------------------------------------------------------------------------------------ */

static bool start(void)
{
    static const struct {
        const char *name, *value;
    } hints[] = {
        { SDL_HINT_AUTO_UPDATE_JOYSTICKS, "0" },
        { SDL_HINT_JOYSTICK_ALLOW_BACKGROUND_EVENTS, "1" }, /* whoever has the keyboard, it is held at the table */
        { SDL_HINT_JOYSTICK_HIDAPI, "0" },                  /* Linux has drivers of its own */
        { SDL_HINT_ACCELEROMETER_AS_JOYSTICK, "0" },
    };
    for (size_t i = 0; i < sizeof hints / sizeof hints[0]; i++)
        SDL_SetHint(hints[i].name, hints[i].value);
    return SDL_InitSubSystem(SDL_INIT_GAMECONTROLLER) == 0;
}

void screen_sticks_look(struct screen_sticks *sticks)
{
    Uint64 now = SDL_GetTicks64();
    if (!sticks->started)
        sticks->started = start();
    else if (now - sticks->looked_ms < (Uint64)screen_sticks_patience())
        return;
    sticks->looked_ms = now;
    SDL_JoystickUpdate();
}

void screen_sticks_stop(struct screen_sticks *sticks)
{
    if (sticks->started)
        SDL_QuitSubSystem(SDL_INIT_GAMECONTROLLER);
    sticks->started = false;
}

/* What is opened stays open until it is pulled out: SDL counts how often it was. */
static void open_device(int index)
{
    if (SDL_IsGameController(index))
        SDL_GameControllerOpen(index);
    else
        SDL_JoystickOpen(index);
}

static void close_device(SDL_JoystickID id)
{
    SDL_GameController *controller = SDL_GameControllerFromInstanceID(id);
    SDL_Joystick *other = controller ? NULL : SDL_JoystickFromInstanceID(id);
    if (controller)
        SDL_GameControllerClose(controller);
    if (other)
        SDL_JoystickClose(other);
}

/* --- sticks ------------------------------------------------------------------------------------------------------ */

static double held(SDL_GameController *controller, SDL_GameControllerAxis axis)
{
    double share = SDL_GameControllerGetAxis(controller, axis) / (double)SDL_JOYSTICK_AXIS_MAX;
    double past = (fabs(share) - DEAD) / (FULL - DEAD);
    return past <= 0 ? 0 : copysign(fmin(past, 1), share);
}

/* The one that is held farther, of all controllers. */
static void take_farther(double *held_most, double now)
{
    if (fabs(now) > fabs(*held_most))
        *held_most = now;
}

static bool read_sticks(struct input_event *out)
{
    for (int i = 0; i < SDL_NumJoysticks(); i++) {
        SDL_GameController *controller = SDL_GameControllerFromInstanceID(SDL_JoystickGetDeviceInstanceID(i));
        if (!controller)
            continue;
        take_farther(&out->left.right, held(controller, SDL_CONTROLLER_AXIS_LEFTX));
        take_farther(&out->left.away, -held(controller, SDL_CONTROLLER_AXIS_LEFTY));
        take_farther(&out->right.right, held(controller, SDL_CONTROLLER_AXIS_RIGHTX));
        take_farther(&out->right.away, -held(controller, SDL_CONTROLLER_AXIS_RIGHTY));
    }
    return out->left.right != 0 || out->left.away != 0 || out->right.right != 0 || out->right.away != 0;
}

struct input_event screen_sticks_held(struct screen_sticks *sticks)
{
    Uint64 now = SDL_GetTicks64();
    struct input_event event = { .type = INPUT_STICKS, .at_s = (double)now / 1000 };
    if (sticks->held && now - sticks->told_ms < FRAME_MS)
        return (struct input_event){ 0 };
    bool held_before = sticks->held;
    sticks->held = read_sticks(&event);
    if (held_before)
        event.held_s = (double)(now - sticks->told_ms) / 1000;
    sticks->told_ms = now;
    return sticks->held || held_before ? event : (struct input_event){ 0 };
}

int screen_sticks_patience(void)
{
    return SDL_NumJoysticks() > 0 ? LOOK_MS : FIND_MS;
}

/* --- buttons ----------------------------------------------------------------------------------------------------- */

static struct input_event key_event(int key)
{
    return (struct input_event){ .type = key == KEY_NONE ? INPUT_NONE : INPUT_KEY, .key = key };
}

/* A trigger is a key when it is pulled past its half, and again when it was let go. */
static struct input_event trigger_event(struct screen_sticks *sticks, const SDL_ControllerAxisEvent *moved)
{
    bool right = moved->axis == SDL_CONTROLLER_AXIS_TRIGGERRIGHT, pulled = moved->value > HALF_PULLED;
    if (!right && moved->axis != SDL_CONTROLLER_AXIS_TRIGGERLEFT)
        return (struct input_event){ 0 };
    bool before = sticks->pulled[right];
    sticks->pulled[right] = pulled;
    return key_event(!pulled || before ? KEY_NONE : right ? KEY_TRIGGER_RIGHT : KEY_TRIGGER_LEFT);
}

/* A controller's buttons are told as a joystick's as well. */
static struct input_event switch_event(const SDL_JoyButtonEvent *pressed)
{
    bool known = SDL_GameControllerFromInstanceID(pressed->which) || pressed->button > KEY_SWITCH_8 - KEY_SWITCH_1;
    return key_event(known ? KEY_NONE : KEY_SWITCH_1 + pressed->button);
}

struct input_event screen_sticks_event(struct screen_sticks *sticks, const SDL_Event *event)
{
    switch (event->type) {
    case SDL_JOYDEVICEADDED:
        open_device(event->jdevice.which);
        break;
    case SDL_JOYDEVICEREMOVED:
        close_device(event->jdevice.which);
        break;
    case SDL_CONTROLLERBUTTONDOWN:
        return key_event(event->cbutton.button < SDL_CONTROLLER_BUTTON_MAX ? button_keys[event->cbutton.button]
                                                                           : KEY_NONE);
    case SDL_CONTROLLERAXISMOTION:
        return trigger_event(sticks, &event->caxis);
    case SDL_JOYBUTTONDOWN:
        return switch_event(&event->jbutton);
    default:
        break;
    }
    return (struct input_event){ 0 };
}
