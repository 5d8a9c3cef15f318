/* The program with a game controller in it: SDL's virtual joystick lives in the process that reads it, so the program's
 * own main loop runs here, and a second thread is the hand on the pad.
 *
 * pad_host PIPE WORD …: what the program would do with these words; the hand does what is written into the pipe:
 * "plug", "down BUTTON", "up BUTTON", "axis AXIS VALUE", by SDL's numbers. */
#include "cli/cli.h"

#define SDL_MAIN_HANDLED
#include <SDL.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BUTTONS = SDL_CONTROLLER_BUTTON_DPAD_RIGHT + 1, PACE_MS = 20 /* no finger is quicker */ };

/* Triggers rest at the end of their way. Nobody presses before the program has seen the pad. */
static SDL_Joystick *plug(void)
{
    SDL_Joystick *pad = SDL_JoystickOpen(
        SDL_JoystickAttachVirtual(SDL_JOYSTICK_TYPE_GAMECONTROLLER, SDL_CONTROLLER_AXIS_MAX, BUTTONS, 0));
    for (int axis = SDL_CONTROLLER_AXIS_TRIGGERLEFT; pad && axis <= SDL_CONTROLLER_AXIS_TRIGGERRIGHT; axis++)
        SDL_JoystickSetVirtualAxis(pad, axis, SDL_JOYSTICK_AXIS_MIN);
    while (pad && !SDL_GameControllerFromInstanceID(SDL_JoystickInstanceID(pad)))
        SDL_Delay(PACE_MS);
    return pad;
}

static int be_the_hand(void *path)
{
    FILE *pipe = fopen(path, "r");
    SDL_Joystick *pad = NULL;
    char line[64];
    while (pipe && fgets(line, sizeof line, pipe)) {
        int what, value;
        if (strcmp(line, "plug\n") == 0)
            pad = plug();
        else if (sscanf(line, "down %d", &what) == 1)
            SDL_JoystickSetVirtualButton(pad, what, 1);
        else if (sscanf(line, "up %d", &what) == 1)
            SDL_JoystickSetVirtualButton(pad, what, 0);
        else if (sscanf(line, "axis %d %d", &what, &value) == 2)
            SDL_JoystickSetVirtualAxis(pad, what, (Sint16)value);
        SDL_Delay(PACE_MS);
    }
    return 0;
}

int main(int argc, char **argv)
{
    if (argc < 3 || SDL_InitSubSystem(SDL_INIT_GAMECONTROLLER) != 0)
        return EXIT_FAILURE;
    SDL_DetachThread(SDL_CreateThread(be_the_hand, "hand", argv[1]));
    argv[1] = argv[0];
    return cli_main(argc - 1, argv + 1);
}
