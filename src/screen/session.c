#include "screen/inside.h"

#include <stdlib.h>
#include <string.h>

static const struct err_kind no_display = {
    "screen.no_display", ERR_FAULT,
    BASE_TR("There is no display to show light on. Start Chalklight in a desktop session (X11 or Wayland).")
};

static const struct {
    const char *name, *value;
} hints[] = {
    { SDL_HINT_NO_SIGNAL_HANDLERS, "1" },
    { SDL_HINT_QUIT_ON_LAST_WINDOW_CLOSE, "0" }, /* window.c tells it, once */
    { SDL_HINT_VIDEO_MINIMIZE_ON_FOCUS_LOSS, "0" },
    { SDL_HINT_APP_NAME, "Chalklight" },
};

/* The video drivers that show something, and whether a window's surface goes through the graphics card. On X11 it must
 * not: the plain way is exact and wakes nothing. SDL's Wayland driver has only the other way, a copy at the same size.
 */
static const struct {
    const char *name, *accelerated;
} drivers[] = {
    { "x11", "0" },
    { "wayland", NULL },
};

static void give_hints(void)
{
    for (size_t i = 0; i < sizeof hints / sizeof hints[0]; i++)
        SDL_SetHint(hints[i].name, hints[i].value);
    /* Without this folder Wayland's library would write a complaint to the terminal instead of being silent. The hint
     * gives way to SDL_VIDEODRIVER in the environment. */
    SDL_SetHint(SDL_HINT_VIDEODRIVER, getenv("XDG_RUNTIME_DIR") ? "x11,wayland" : "x11");
}

static bool driver_shows_something(void)
{
    const char *name = SDL_GetCurrentVideoDriver();
    for (size_t i = 0; name && i < sizeof drivers / sizeof drivers[0]; i++)
        if (strcmp(name, drivers[i].name) == 0) {
            SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, drivers[i].accelerated);
            return true;
        }
    return false;
}

bool screen_shows_by_card(void)
{
    const char *name = SDL_GetCurrentVideoDriver();
    return name && strcmp(name, "wayland") == 0;
}

static bool start(void)
{
    give_hints();
    SDL_SetMainReady();
    screen_forgive_late_messages();
    if (SDL_InitSubSystem(SDL_INIT_VIDEO) != 0)
        return false;
    if (driver_shows_something())
        return true;
    SDL_QuitSubSystem(SDL_INIT_VIDEO);
    return false;
}

bool screen_session_start(struct err_list *errs)
{
    if (start())
        return true;
    if (errs)
        base_err(errs, &no_display, (struct err_place){ 0 }, ERR_NONE);
    return false;
}

void screen_session_end(void)
{
    SDL_QuitSubSystem(SDL_INIT_VIDEO);
}

void screen_complain(struct err_list *errs, const struct err_kind *kind)
{
    base_err(errs, kind, (struct err_place){ 0 }, ERR_TEXT(SDL_GetError()));
}
