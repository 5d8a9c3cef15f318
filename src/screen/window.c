#include "screen/window.h"

#include "base/arena.h"
#include "screen/inside.h"

#include <assert.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>

struct screen_window {
    struct arena *arena; /* owns this */
    SDL_Window *window;
    SDL_Renderer *card;     /* NULL: pictures go to the window's surface */
    SDL_Texture *shown;     /* what the card shows; NULL: nothing yet */
    bool bench;             /* with a frame and the mouse's arrow */
    char home[SCREEN_NAME]; /* the display that it was opened on */
    char *dropped;          /* the path that was dropped last, SDL's; or NULL */
    struct screen_sticks sticks;
};

static const struct err_kind no_such_display = {
    "screen.no_such_display", ERR_FAULT,
    BASE_TR("There is no display {0}: {1} can be seen, counted from 0. Plug the "
            "projector in, or name another.")
};
static const struct err_kind no_window = { "screen.no_window", ERR_FAULT,
                                           BASE_TR("The window on the table could not be opened: {0}.") };
static const struct err_kind no_surface = { "screen.no_surface", ERR_FAULT,
                                            BASE_TR("The window on the table takes no picture: {0}.") };
static const struct err_kind wrong_size = {
    "screen.wrong_size", ERR_FAULT, BASE_TR("A picture of {0} × {1} px does not fit the window of {2} × {3} px.")
};

bool screen_is_there(void)
{
    return screen_session_start(NULL);
}

void screen_leave(void)
{
    screen_session_end();
}

bool screen_tell(const char *title, const char *sentence)
{
    if (!screen_session_start(NULL))
        return false;
    bool shown = SDL_ShowSimpleMessageBox(SDL_MESSAGEBOX_INFORMATION, title, sentence, NULL) == 0;
    screen_session_end();
    return shown;
}

static struct screen_display display_at(int index)
{
    struct screen_display display = { 0 };
    SDL_Rect bounds = { 0 };
    const char *name = SDL_GetDisplayName(index);
    SDL_GetDisplayBounds(index, &bounds);
    snprintf(display.name, sizeof display.name, "%s", name ? name : "");
    display.x = bounds.x;
    display.y = bounds.y;
    display.width = bounds.w;
    display.height = bounds.h;
    return display;
}

int screen_list(struct screen_display out[SCREEN_MOST_DISPLAYS], struct err_list *errs)
{
    if (!screen_session_start(errs))
        return 0;
    int count = SDL_GetNumVideoDisplays();
    if (count > SCREEN_MOST_DISPLAYS)
        count = SCREEN_MOST_DISPLAYS;
    for (int i = 0; i < count; i++)
        out[i] = display_at(i);
    screen_session_end();
    return count;
}

/* With the text of a press told, a key is known by what it printed; asking for events, not for text entry, calls no
 * on-screen keyboard up. */
static void prepare(bool bench)
{
    SDL_EventState(SDL_TEXTINPUT, SDL_ENABLE);
    SDL_DisableScreenSaver();
    SDL_ShowCursor(bench ? SDL_ENABLE : SDL_DISABLE);
}

static SDL_Window *create_full_screen(int display, const char *title)
{
    struct screen_display at = display_at(display);
    return SDL_CreateWindow(title, at.x, at.y, at.width, at.height,
                            SDL_WINDOW_FULLSCREEN_DESKTOP | SDL_WINDOW_ALLOW_HIGHDPI);
}

static bool open_window(struct screen_window *w, int display, const char *title, struct err_list *errs)
{
    w->window = w->bench ? screen_open_beside(display, title) : create_full_screen(display, title);
    if (!w->window) {
        screen_complain(errs, &no_window);
        return false;
    }
    w->card = screen_shows_by_card() ? SDL_CreateRenderer(w->window, -1, 0) : NULL;
    if (!w->card && !SDL_GetWindowSurface(w->window)) {
        screen_complain(errs, &no_surface);
        return false;
    }
    prepare(w->bench);
    return true;
}

static struct screen_window *open_any(bool bench, int display, const char *title, struct err_list *errs)
{
    struct arena *arena = base_arena_create();
    struct screen_window *w = base_arena_alloc(arena, 1, sizeof *w);
    w->arena = arena;
    w->bench = bench;
    if (!bench)
        memcpy(w->home, display_at(display).name, sizeof w->home);
    if (open_window(w, display, title, errs))
        return w;
    screen_close(w);
    return NULL;
}

struct screen_window *screen_open(int display, const char *title, struct err_list *errs)
{
    if (!screen_session_start(errs))
        return NULL;
    int count = SDL_GetNumVideoDisplays();
    if (display < 0 || display >= count) {
        base_err(errs, &no_such_display, (struct err_place){ 0 }, ERR_NUMBER(display), ERR_NUMBER(count));
        screen_session_end();
        return NULL;
    }
    return open_any(false, display, title, errs);
}

struct screen_window *screen_open_bench(int avoid_display, const char *title, struct err_list *errs)
{
    return screen_session_start(errs) ? open_any(true, avoid_display, title, errs) : NULL;
}

void screen_close(struct screen_window *w)
{
    if (!w)
        return;
    if (w->card)
        SDL_DestroyRenderer(w->card);
    if (w->window)
        SDL_DestroyWindow(w->window);
    SDL_free(w->dropped);
    screen_sticks_stop(&w->sticks);
    screen_session_end();
    base_arena_destroy(w->arena);
}

void screen_come_forward(struct screen_window *w)
{
    SDL_RaiseWindow(w->window);
    SDL_SetWindowInputFocus(w->window); /* where no window manager does it */
}

bool screen_share_a_display(const struct screen_window *one, const struct screen_window *other)
{
    return SDL_GetWindowDisplayIndex(one->window) == SDL_GetWindowDisplayIndex(other->window);
}

void screen_keep_off(struct screen_window *bench, int display)
{
    if (SDL_GetWindowDisplayIndex(bench->window) == display && SDL_GetNumVideoDisplays() > 1)
        screen_place_beside(bench->window, display);
}

void screen_size(const struct screen_window *w, int *width, int *height)
{
    SDL_GetWindowSizeInPixels(w->window, width, height);
}

const char *screen_display_name(const struct screen_window *w)
{
    return w->home;
}

/* The display of that name, from 0; -1 when it is away. */
static int find_display(const char *name)
{
    for (int i = SDL_GetNumVideoDisplays() - 1; i >= 0; i--)
        if (strcmp(display_at(i).name, name) == 0)
            return i;
    return -1;
}

static bool is_at_home(const struct screen_window *w)
{
    int here = SDL_GetWindowDisplayIndex(w->window);
    return here >= 0 && strcmp(display_at(here).name, w->home) == 0;
}

bool screen_is_home(struct screen_window *w)
{
    if (is_at_home(w))
        return true;
    int home = find_display(w->home);
    if (home < 0)
        return false;
    struct screen_display at = display_at(home);
    SDL_SetWindowFullscreen(w->window, 0);
    SDL_SetWindowPosition(w->window, at.x, at.y);
    SDL_SetWindowSize(w->window, at.width, at.height);
    SDL_SetWindowFullscreen(w->window, SDL_WINDOW_FULLSCREEN_DESKTOP);
    return is_at_home(w);
}

/* The picture in the surface's own format, whatever it is. */
static bool fill(SDL_Surface *surface, const struct paint_image *image)
{
    if (SDL_LockSurface(surface) != 0)
        return false;
    int row_bytes = (int)(image->stride * sizeof *image->pixels);
    bool good = SDL_ConvertPixels(surface->w, surface->h, SDL_PIXELFORMAT_XRGB8888, image->pixels, row_bytes,
                                  surface->format->format, surface->pixels, surface->pitch) == 0;
    SDL_UnlockSurface(surface);
    return good;
}

static bool show(SDL_Window *window, SDL_Surface *surface, const struct paint_image *image)
{
    const SDL_Rect whole = { 0, 0, image->width, image->height };
    return fill(surface, image) && SDL_UpdateWindowSurfaceRects(window, &whole, 1) == 0;
}

static bool has_size(int width, int height, const struct paint_image *image, struct err_list *errs)
{
    if (image->width == width && image->height == height)
        return true;
    base_err(errs, &wrong_size, (struct err_place){ 0 }, ERR_NUMBER(image->width), ERR_NUMBER(image->height),
             ERR_NUMBER(width), ERR_NUMBER(height));
    return false;
}

/* A pixel of the picture is a pixel of the display. */
static bool show_by_card(struct screen_window *w, const struct paint_image *image, struct err_list *errs)
{
    int width = 0, height = 0, was_width = 0, was_height = 0;
    SDL_GetRendererOutputSize(w->card, &width, &height);
    if (!has_size(width, height, image, errs))
        return false;
    if (w->shown)
        SDL_QueryTexture(w->shown, NULL, NULL, &was_width, &was_height);
    if (w->shown && (was_width != width || was_height != height)) {
        SDL_DestroyTexture(w->shown);
        w->shown = NULL;
    }
    if (!w->shown)
        w->shown = SDL_CreateTexture(w->card, SDL_PIXELFORMAT_XRGB8888, SDL_TEXTUREACCESS_STREAMING, width, height);
    int row_bytes = (int)(image->stride * sizeof *image->pixels);
    if (!w->shown || SDL_UpdateTexture(w->shown, NULL, image->pixels, row_bytes) != 0 ||
        SDL_RenderCopy(w->card, w->shown, NULL, NULL) != 0) {
        screen_complain(errs, &no_surface);
        return false;
    }
    SDL_RenderPresent(w->card);
    return true;
}

bool screen_show(struct screen_window *w, const struct paint_image *image, struct err_list *errs)
{
    if (w->card)
        return show_by_card(w, image, errs);
    /* Asked for each time: after a change of size the one of before is gone. */
    SDL_Surface *surface = SDL_GetWindowSurface(w->window);
    if (surface && !has_size(surface->w, surface->h, image, errs))
        return false;
    if (surface && show(w->window, surface, image))
        return true;
    screen_complain(errs, &no_surface);
    return false;
}

/* SDL queues the text of a press right after the press. */
static struct input_event pressed_event(const SDL_KeyboardEvent *pressed)
{
    SDL_Event next = { 0 };
    bool printed =
        SDL_PeepEvents(&next, 1, SDL_PEEKEVENT, SDL_FIRSTEVENT, SDL_LASTEVENT) == 1 && next.type == SDL_TEXTINPUT;
    struct input_event ours = screen_key_event(&pressed->keysym, printed ? next.text.text : "");
    ours.is_repeat = pressed->repeat != 0;
    return ours;
}

static struct input_event window_event(struct screen_window *w, const SDL_WindowEvent *event)
{
    struct input_event ours = { 0 };
    switch (event->event) {
    case SDL_WINDOWEVENT_EXPOSED:
        ours.type = INPUT_EXPOSE;
        break;
    case SDL_WINDOWEVENT_SIZE_CHANGED:
        ours.type = INPUT_SIZE;
        screen_size(w, &ours.width, &ours.height);
        break;
    case SDL_WINDOWEVENT_DISPLAY_CHANGED:
        ours.type = INPUT_MOVED;
        break;
    case SDL_WINDOWEVENT_CLOSE:
        ours.type = INPUT_QUIT;
        break;
    case SDL_WINDOWEVENT_ENTER:
        SDL_ShowCursor(w->bench ? SDL_ENABLE : SDL_DISABLE);
        break;
    default: /* focus, place and the like change nothing in a picture */
        break;
    }
    return ours;
}

/* The window's own px: the mouse is told in the desktop's units. */
static struct input_event point_event(struct screen_window *w, const SDL_MouseButtonEvent *pressed)
{
    int width, height, wide, high;
    SDL_GetWindowSize(w->window, &width, &height);
    screen_size(w, &wide, &high);
    if (pressed->button != SDL_BUTTON_LEFT || width <= 0 || height <= 0)
        return (struct input_event){ 0 };
    return (struct input_event){ .type = INPUT_POINT, .x = pressed->x * wide / width, .y = pressed->y * high / height };
}

static struct input_event drop_event(struct screen_window *w, char *path)
{
    SDL_free(w->dropped);
    w->dropped = path;
    return (struct input_event){ .type = path ? INPUT_DROP : INPUT_NONE, .path = path };
}

/* The window that an event names; the first where it names none of ours. */
static int window_of(struct screen_window *const *windows, int count, Uint32 id)
{
    for (int i = 0; i < count; i++)
        if (SDL_GetWindowID(windows[i]->window) == id)
            return i;
    return -1;
}

static Uint32 window_id(const SDL_Event *event)
{
    switch (event->type) {
    case SDL_KEYDOWN:
        return event->key.windowID;
    case SDL_MOUSEBUTTONDOWN:
        return event->button.windowID;
    case SDL_MOUSEWHEEL:
        return event->wheel.windowID;
    case SDL_DROPFILE:
        return event->drop.windowID;
    case SDL_WINDOWEVENT:
        return event->window.windowID;
    default:
        return 0;
    }
}

static struct input_event event_in(struct screen_window *w, const SDL_Event *event)
{
    switch (event->type) {
    case SDL_QUIT:
        return (struct input_event){ .type = INPUT_QUIT };
    case SDL_DISPLAYEVENT:
        return (struct input_event){ .type = INPUT_MOVED };
    case SDL_KEYDOWN:
        return pressed_event(&event->key);
    case SDL_MOUSEBUTTONDOWN:
        return point_event(w, &event->button);
    case SDL_MOUSEWHEEL:
        return (struct input_event){ .type = INPUT_WHEEL, .steps = event->wheel.y };
    case SDL_DROPFILE:
        return drop_event(w, event->drop.file);
    default: /* fingers and the like are not asked for */
        return screen_sticks_event(&w->sticks, event);
    }
}

static struct input_event our_event(struct screen_window *const *windows, int count, const SDL_Event *event)
{
    int which = window_of(windows, count, window_id(event));
    struct input_event ours = { 0 };
    if (event->type != SDL_WINDOWEVENT)
        ours = event_in(windows[which < 0 ? 0 : which], event);
    else if (which >= 0)
        ours = window_event(windows[which], &event->window);
    else
        screen_notes_event(SDL_GetWindowFromID(event->window.windowID), &event->window);
    ours.window = which < 0 ? 0 : which;
    ours.at_s = event->common.timestamp / 1000.0;
    return ours;
}

static int time_left(Uint64 end)
{
    Uint64 now = SDL_GetTicks64();
    return now < end ? (int)(end - now) : 0;
}

/* The first of ours that waits already; *woken: screen_wake was called before it. */
static struct input_event waiting_event(struct screen_window *const *windows, int count, bool *woken)
{
    SDL_Event event;
    while (SDL_PollEvent(&event)) {
        if (event.type == SDL_USEREVENT) {
            *woken = true;
            break;
        }
        struct input_event ours = our_event(windows, count, &event);
        if (ours.type != INPUT_NONE)
            return ours;
    }
    return (struct input_event){ 0 };
}

struct input_event screen_wait_any(struct screen_window *const *windows, int count, int wait_ms)
{
    assert(count > 0);
    struct screen_sticks *sticks = &windows[0]->sticks;
    Uint64 end = SDL_GetTicks64() + (Uint64)(wait_ms > 0 ? wait_ms : 0);
    for (;;) {
        screen_sticks_look(sticks);
        bool woken = false;
        struct input_event ours = waiting_event(windows, count, &woken);
        if (ours.type == INPUT_NONE)
            ours = screen_sticks_held(sticks);
        int left_ms = wait_ms < 0 ? INT_MAX : time_left(end);
        if (ours.type != INPUT_NONE || woken || left_ms == 0)
            return ours;
        SDL_WaitEventTimeout(NULL, SDL_min(left_ms, screen_sticks_patience()));
    }
}

void screen_wake(void *unused)
{
    (void)unused;
    SDL_Event event = { .type = SDL_USEREVENT };
    SDL_PushEvent(&event);
}

struct input_event screen_wait(struct screen_window *w, int wait_ms)
{
    return screen_wait_any(&w, 1, wait_ms);
}
