/* Pages of keys: what each key does, keys that do the same on one line. */
#ifndef APP_KEY_LINES_H
#define APP_KEY_LINES_H

#include "scene/scene.h"

/* A key for a page; `what` NULL: it does the same as the one before it. */
struct app_key {
    int key, mods;
    const char *what;
};

/* The lines of a page: "Enter or F5", and, where four arrows do the same, "Shift arrows", or three
 * function keys in a row and more, "F2 to F8". The first key has a `what`.
 * Returns how many; keys are written in `a`, what they do is kept by reference. */
size_t app_key_lines(struct arena *a, const struct app_key *keys, size_t count, const struct scene_help_line **out);

#endif
