#include "screen/notes.h"

#include "base/arena.h"
#include "screen/inside.h"

#include <string.h>

struct screen_notes {
    struct arena *arena;   /* owns this */
    struct arena *content; /* owns the lines */
    SDL_Window *window;    /* NULL once the person has closed it */
    struct screen_page_fonts fonts;
    struct screen_note_line *lines;
    int count, drawn; /* lines, and how many of them found room */
};

static const struct err_kind no_notes = { "screen.no_notes", ERR_FAULT,
                                          BASE_TR("The window of notes could not be opened: {0}.") };

/* The name under which an SDL window keeps its notes. */
static const char kept_as[] = "notes";

static bool open_window(struct screen_notes *notes, int avoid_display, const char *title, struct err_list *errs)
{
    notes->window = screen_open_beside(avoid_display, title);
    if (!notes->window) {
        screen_complain(errs, &no_notes);
        return false;
    }
    SDL_SetWindowData(notes->window, kept_as, notes);
    return true;
}

static void draw(struct screen_notes *notes)
{
    SDL_Surface *surface = SDL_GetWindowSurface(notes->window);
    notes->drawn = 0;
    if (!surface)
        return;
    notes->drawn = screen_page_draw(surface, &notes->fonts, notes->lines, notes->count);
    SDL_UpdateWindowSurface(notes->window);
}

static bool open_all(struct screen_notes *notes, int avoid_display, const char *title, struct err_list *errs)
{
    if (TTF_Init() != 0) {
        screen_complain(errs, &no_notes);
        return false;
    }
    if (screen_fonts_open(notes->arena, &notes->fonts, errs) && open_window(notes, avoid_display, title, errs))
        return true;
    screen_fonts_close(&notes->fonts);
    TTF_Quit();
    return false;
}

struct screen_notes *screen_notes_open(int avoid_display, const char *title, struct err_list *errs)
{
    if (!screen_session_start(errs))
        return NULL;
    struct arena *arena = base_arena_create();
    struct screen_notes *notes = base_arena_alloc(arena, 1, sizeof *notes);
    notes->arena = arena;
    if (!open_all(notes, avoid_display, title, errs)) {
        base_arena_destroy(arena);
        screen_session_end();
        return NULL;
    }
    notes->content = base_arena_create();
    draw(notes);
    return notes;
}

static void close_window(struct screen_notes *notes)
{
    if (notes->window)
        SDL_DestroyWindow(notes->window);
    notes->window = NULL;
}

void screen_notes_close(struct screen_notes *notes)
{
    if (!notes)
        return;
    close_window(notes);
    screen_fonts_close(&notes->fonts);
    TTF_Quit();
    screen_session_end();
    base_arena_destroy(notes->content);
    base_arena_destroy(notes->arena);
}

bool screen_notes_is_open(const struct screen_notes *notes)
{
    return notes->window != NULL;
}

static bool same_text(const char *a, const char *b)
{
    return strcmp(a ? a : "", b ? b : "") == 0 && !a == !b;
}

static bool same_lines(const struct screen_notes *notes, const struct screen_note_line *lines, int count)
{
    if (count != notes->count)
        return false;
    for (int i = 0; i < count; i++)
        if (lines[i].style != notes->lines[i].style || !same_text(lines[i].text, notes->lines[i].text) ||
            !same_text(lines[i].second, notes->lines[i].second))
            return false;
    return true;
}

static const char *copied(struct arena *a, const char *text)
{
    return text ? base_arena_copy_text(a, text) : NULL;
}

static void keep(struct screen_notes *notes, const struct screen_note_line *lines, int count)
{
    struct arena *content = base_arena_create(); /* a new one: the new lines may quote the old */
    notes->lines = base_arena_alloc(content, (size_t)count, sizeof *notes->lines);
    notes->count = count;
    for (int i = 0; i < count; i++)
        notes->lines[i] = (struct screen_note_line){ lines[i].style, copied(content, lines[i].text),
                                                     copied(content, lines[i].second) };
    base_arena_destroy(notes->content);
    notes->content = content;
}

bool screen_notes_show(struct screen_notes *notes, const struct screen_note_line *lines, int count)
{
    if (!notes->window)
        return false;
    if (!same_lines(notes, lines, count)) {
        keep(notes, lines, count);
        draw(notes);
    }
    return notes->drawn == count;
}

void screen_notes_event(SDL_Window *window, const SDL_WindowEvent *event)
{
    struct screen_notes *notes = window ? SDL_GetWindowData(window, kept_as) : NULL;
    if (!notes)
        return;
    if (event->event == SDL_WINDOWEVENT_EXPOSED || event->event == SDL_WINDOWEVENT_SIZE_CHANGED)
        draw(notes);
    else if (event->event == SDL_WINDOWEVENT_CLOSE)
        close_window(notes);
    else if (event->event == SDL_WINDOWEVENT_ENTER)
        SDL_ShowCursor(SDL_ENABLE);
}
