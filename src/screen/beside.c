/* Windows with a frame, beside the light. */
#include "screen/inside.h"

static int display_beside(int avoid)
{
    for (int i = 0; i < SDL_GetNumVideoDisplays(); i++)
        if (i != avoid)
            return i;
    return 0;
}

/* Three quarters of the room, which leaves the desk in reach, but at least what the page is made for. */
static int opening_length(int room, int least)
{
    return SDL_min(room, SDL_max(room * 3 / 4, least));
}

SDL_Window *screen_open_beside(int avoid_display, const char *title)
{
    SDL_Rect room = { 0 };
    SDL_GetDisplayUsableBounds(display_beside(avoid_display), &room);
    int width = opening_length(room.w, SCREEN_PAGE_WIDTH), height = opening_length(room.h, SCREEN_PAGE_HEIGHT);
    return SDL_CreateWindow(title, room.x + (room.w - width) / 2, room.y + (room.h - height) / 2, width, height,
                            SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
}
