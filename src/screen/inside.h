/* What the files of this folder share, SDL's types among it; no other folder includes it. */
#ifndef SCREEN_INSIDE_H
#define SCREEN_INSIDE_H

#include "base/err_list.h"
#include "base/file.h"
#include "input/event.h"
#include "screen/notes.h"
#include "text/find.h"

#define SDL_MAIN_HANDLED
#include <SDL.h>
#include <SDL_ttf.h>

#include <stdbool.h>

/* Starts SDL's video on X11 or Wayland; each start that gave true wants one end. False when neither answers, with the
 * reason unless `errs` is NULL. */
bool screen_session_start(struct err_list *errs);
void screen_session_end(void);

/* Whether a window's picture goes through the graphics card, as SDL's Wayland driver has no other way; its window
 * surface there has points in place of pixels where a display is scaled. */
bool screen_shows_by_card(void);

/* From now on a message of SDL to a window that is closed does not end the program. Before SDL starts: it hands back
 * what it finds when it ends. */
void screen_forgive_late_messages(void);

/* A fault whose only argument is SDL's own reason. */
void screen_complain(struct err_list *errs, const struct err_kind *kind);

/* A pressed key as our event; `printed` is the text that the press printed, "" when none. INPUT_NONE for keys that we
 * have no name for. */
struct input_event screen_key_event(const SDL_Keysym *pressed, const char *printed);

/* What is known of game controllers between two events; a window has it. */
struct screen_sticks {
    bool started, held;
    bool pulled[2];            /* the triggers, left and right */
    Uint64 told_ms, looked_ms; /* when sticks were told last, and the devices asked */
};

/* Looks for controllers and at them, as often as is needed; starts with the first look, for it takes its time. */
void screen_sticks_look(struct screen_sticks *sticks);
void screen_sticks_stop(struct screen_sticks *sticks);

/* A button, or that a controller came or went; INPUT_NONE of all else. */
struct input_event screen_sticks_event(struct screen_sticks *sticks, const SDL_Event *event);

/* INPUT_STICKS where one is held, or no more, and it is time to tell; else INPUT_NONE. */
struct input_event screen_sticks_held(struct screen_sticks *sticks);

/* After how many ms it wants to look again, at the latest. */
int screen_sticks_patience(void);

/* Sees to what happened to a notes window; nothing when `window` is none. */
void screen_notes_event(SDL_Window *window, const SDL_WindowEvent *event);

struct screen_page_fonts {
    TTF_Font *regular, *semibold;
};

/* Regular and semibold. */
enum { SCREEN_WEIGHTS = 2 };

/* A face of a font, all of its file in memory. */
struct screen_face {
    struct text_face_file file;
    struct base_bytes bytes;
};

/* Finds and reads the fonts of both weights, which is slow; they live in `a`. False with the reason. */
bool screen_faces_read(struct arena *a, struct screen_face out[SCREEN_WEIGHTS], struct err_list *errs);

/* Opens one in any size; SDL_ttf has been started. The face outlives it. NULL with the reason. */
TTF_Font *screen_font_open(const struct screen_face *face, struct err_list *errs);

/* Opens both in any size; SDL_ttf has been started, and `a` outlives them. False, with the reason and none left open,
 * when there is none. */
bool screen_fonts_open(struct arena *a, struct screen_page_fonts *out, struct err_list *errs);
void screen_fonts_close(struct screen_page_fonts *fonts);

/* A window with a frame on a display other than that one (from 0; -1: none is avoided) where there is another; three
 * quarters of its room, at least the least page. NULL when it cannot be opened. */
SDL_Window *screen_open_beside(int avoid_display, const char *title);

/* Moves one that is there likewise. */
void screen_place_beside(SDL_Window *window, int avoid_display);

/* Draws lines over a whole surface; returns how many found room. The fonts are set to other sizes. */
int screen_page_draw(SDL_Surface *to, const struct screen_page_fonts *fonts, const struct screen_note_line *lines,
                     int count);

/* The least page, in u. */
enum { SCREEN_PAGE_WIDTH = 1024, SCREEN_PAGE_HEIGHT = 600 };

/* How many px one u is: the largest of 1, 1.25, 1.5 … that leaves the least page; 1 where none does. */
double screen_page_scale(int width, int height);

#endif
