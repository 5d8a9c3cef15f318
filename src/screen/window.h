/* The window on the projector: its size, a picture up, events down. Only this folder sees SDL.
 *
 * Pictures go up pixel for pixel: nothing here scales, smooths or draws. All functions belong to one thread.
 * SDL takes no signals: Ctrl-C in a terminal ends the program at once, as it does any other. */
#ifndef SCREEN_WINDOW_H
#define SCREEN_WINDOW_H

#include "base/err_list.h"
#include "input/event.h"
#include "paint/image.h"

#include <stdbool.h>

enum { SCREEN_MOST_DISPLAYS = 8, SCREEN_NAME = 64 };

struct screen_display {
    char name[SCREEN_NAME];
    int x, y, width, height; /* bounds on the desktop, in the desktop's units (px on X11) */
};

/* Whether a display can be opened at all: an X11 or a Wayland desktop answers. Says nothing when it does not. When it
 * does, the connection stays until screen_leave: a bare X server starts afresh when its last client goes, and what
 * comes at that moment is turned away. */
bool screen_is_there(void);

/* Lets go of the display; once for each time that one was there. */
void screen_leave(void);

/* Shows a sentence in a small window of its own until it is closed; false when that cannot be. */
bool screen_tell(const char *title, const char *sentence);

/* Lists displays; returns how many, 0 with the reason when there is none. */
int screen_list(struct screen_display out[SCREEN_MOST_DISPLAYS], struct err_list *errs);

struct screen_window;

/* Opens a full-screen window without border at the display's bounds, cursor hidden, screen saver off; it stays up when
 * another window has the keyboard. `display` is from 0. The caller owns it. NULL, with the reason, when it cannot. */
struct screen_window *screen_open(int display, const char *title, struct err_list *errs);

/* Opens a window with a frame, the mouse's arrow in it, on a display other than `avoid_display` (from 0; -1: none is
 * avoided) when there is one: the bench. As screen_open else. */
struct screen_window *screen_open_bench(int avoid_display, const char *title, struct err_list *errs);

/* NULL is allowed. */
void screen_close(struct screen_window *w);

/* Brings a window before all others, its keys too. */
void screen_come_forward(struct screen_window *w);

/* Whether two windows are on one display. */
bool screen_share_a_display(const struct screen_window *one, const struct screen_window *other);

/* Moves a bench to another display when it is on that one (from 0) and there is another. */
void screen_keep_off(struct screen_window *bench, int display);

/* The window's own size in px: what a picture must have. */
void screen_size(const struct screen_window *w, int *width, int *height);

/* Whether the window is on the display that it was opened on, by name. When that display is there again after it was
 * away, the window goes back to it. */
bool screen_is_home(struct screen_window *w);

/* The name of the display that it was opened on, as the desktop gives it; may be empty. Lives as long as the window. */
const char *screen_display_name(const struct screen_window *w);

/* Shows a picture of the window's size. False, with the reason, when the picture has another size (the window's may
 * have just changed: an INPUT_SIZE is then on its way) or the window's surface is gone. What was shown stays. */
bool screen_show(struct screen_window *w, const struct paint_image *image, struct err_list *errs);

/* Waits up to wait_ms (below 0: for ever) for the next event; INPUT_NONE when none came, or screen_wake was called.
 * Keys pressed in a notes window (screen/notes.h) come too; what else happens to one is seen to inside. */
struct input_event screen_wait(struct screen_window *w, int wait_ms);

/* The same of several windows: `window` of the event says which. One that has no window is told of the first. */
struct input_event screen_wait_any(struct screen_window *const *windows, int count, int wait_ms);

/* Ends a wait, or the next one. Any thread may call it while a window is open; `unused` is for those who call back. */
void screen_wake(void *unused);

#endif
