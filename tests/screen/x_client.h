/* The desk's side of a window test: a second X client that looks at the screen and presses keys. */
#ifndef TESTS_SCREEN_X_CLIENT_H
#define TESTS_SCREEN_X_CLIENT_H

#include "screen/window.h"

#include <X11/Xlib.h>

#include <stdint.h>

/* A connection to the test's X server; the caller closes it with XCloseDisplay. */
Display *x_client_open(void);

/* The window of that title, or None. */
Window x_client_find(Display *x, const char *title);

/* What the screen shows, as XGetImage tells it; the caller frees it with XDestroyImage. */
XImage *x_client_look(Display *x);

/* The value of one pixel as 0x00RRGGBB; only of a screen of 8 bits a channel. */
uint32_t x_client_pixel(const XImage *image, int x, int y);

/* Presses and releases keys, named as xdotool does, such as "a Left ctrl+q". */
void x_client_press(const char *keys);

/* Presses a key and holds it, or lets it go. */
void x_client_hold(const char *key, bool down);

/* Makes another keyboard layout the server's, such as "de". */
void x_client_layout(const char *layout);

/* Asks a window to close, as a desktop's close button does. */
void x_client_ask_to_close(Display *x, Window window);

/* Takes events until the next pressed key, fails when none comes; *others, unless NULL, gets the kinds that came before
 * it as a set of bits 1 << type. */
struct input_event x_client_next_key(struct screen_window *w, unsigned *others);

/* Presses a key and takes all that came up to it, so that what comes next was caused later. */
void x_client_settle(struct screen_window *w);

#endif
