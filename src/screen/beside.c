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

static SDL_Rect place_beside(int avoid)
{
    SDL_Rect room = { 0 };
    SDL_GetDisplayUsableBounds(display_beside(avoid), &room);
    int width = opening_length(room.w, SCREEN_PAGE_WIDTH), height = opening_length(room.h, SCREEN_PAGE_HEIGHT);
    return (SDL_Rect){ room.x + (room.w - width) / 2, room.y + (room.h - height) / 2, width, height };
}

SDL_Window *screen_open_beside(int avoid_display, const char *title)
{
    SDL_Rect at = place_beside(avoid_display);
    return SDL_CreateWindow(title, at.x, at.y, at.w, at.h, SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
}

void screen_place_beside(SDL_Window *window, int avoid_display)
{
    SDL_Rect at = place_beside(avoid_display);
    SDL_SetWindowPosition(window, at.x, at.y);
    SDL_SetWindowSize(window, at.w, at.h);
}
