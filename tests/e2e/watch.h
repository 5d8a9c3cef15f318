/* The program in its window, watched by a second X client: started and ended, its picture waited for. Fails the test
 * when something does not come in time. */
#ifndef TESTS_E2E_WATCH_H
#define TESTS_E2E_WATCH_H

#include "base/arena.h"
#include "paint/image.h"
#include "screen/x_client.h"

#include <sys/resource.h>
#include <sys/types.h>

struct watch {
    Display *x;
    pid_t child;  /* 0: none runs */
    pid_t typist; /* who presses keys meanwhile; 0: nobody */
};

/* False when there is no X server. */
bool watch_open(struct watch *w);

/* Ends the program if it still runs. */
void watch_close(struct watch *w);

/* Starts words[0]; a NULL ends the words. */
void watch_start(struct watch *w, const char *const *words);

/* The same with files allowed to grow to so many bytes only: a disk that is full (EFBIG for ENOSPC). */
void watch_start_on_full_disk(struct watch *w, const char *const *words, rlim_t bytes);

/* Changes that limit while it runs. */
bool watch_limit_files(struct watch *w, rlim_t bytes);

/* Waits until it ends by itself, with exit code 0. */
void watch_for_end(struct watch *w);

/* Ends it without warning. */
void watch_kill(struct watch *w);

/* Our name of a key on the bench ("Ctrl Page Down") as xdotool has it; itself where both are the same. */
const char *watch_key_name(struct arena *a, const char *our_name);

/* Presses keys (named as xdotool does, a NULL ends them) one shortly after the other, and does not wait for them. */
void watch_press_on(struct watch *w, const char *const *keys);

/* Ends the program without warning after that many ms, and looks at the screen on and on until then; then waits until
 * the keys are pressed, which reach nobody any more. What was seen last; the caller frees it with XDestroyImage. */
XImage *watch_kill_within(struct watch *w, double ms);

/* Waits until the window is there and shows something in its first so many pixels. */
void watch_for_light(struct watch *w, int width, int height);

/* Looks at the window until it shows exactly this picture; `what` it comes after, for the message. */
void watch_for_picture(struct watch *w, const struct paint_image *wanted, const char *what);

/* The same of a window whose upper left corner is there on the screen. */
void watch_for_picture_at(struct watch *w, int x, int y, const struct paint_image *wanted, const char *what);

/* How many pixels differ, and whether any does. */
size_t watch_differing(const XImage *seen, const struct paint_image *wanted);
bool watch_is(const XImage *seen, const struct paint_image *wanted);

void watch_resize(struct watch *w, int width, int height);

#endif
