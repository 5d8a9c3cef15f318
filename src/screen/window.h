/* The window on the projector: its size, a picture up, events down. The only place that sees SDL. */
#ifndef SCREEN_WINDOW_H
#define SCREEN_WINDOW_H

#include "base/err_list.h"
#include "input/event.h"
#include "paint/image.h"

#include <stdbool.h>

struct screen_display {
    char name[64];
    int x, y, width, height; /* bounds on the desktop, px */
};

enum { SCREEN_MOST_DISPLAYS = 8 };

/* Whether a display can be opened at all (a video driver that shows something). */
bool screen_is_there(void);

/* Lists displays; returns how many, 0 with the reason when there is none. */
int screen_list(struct screen_display out[SCREEN_MOST_DISPLAYS], struct err_list *errs);

struct screen_window;

/* Opens a full-screen window without border at the display's bounds, cursor hidden, screen saver off. `display` is
 * from 0. The caller owns it. NULL, with the reason, when it cannot. */
struct screen_window *screen_open(int display, const char *title, struct err_list *errs);
void screen_close(struct screen_window *w);

/* The window's own size in px: what a picture must have. */
void screen_size(const struct screen_window *w, int *width, int *height);

/* Shows a picture of the window's size. False, with the reason, when the window's surface is gone. */
bool screen_show(struct screen_window *w, const struct paint_image *image, struct err_list *errs);

/* Waits up to wait_ms (below 0: for ever) for the next event; INPUT_NONE when none came. */
struct input_event screen_wait(struct screen_window *w, int wait_ms);

#endif
