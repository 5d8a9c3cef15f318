/* Keys and their names, ours alone: no window system's. */
#ifndef INPUT_KEY_H
#define INPUT_KEY_H

#include <stdbool.h>

enum input_key {
    KEY_NONE,
    KEY_LEFT,
    KEY_RIGHT,
    KEY_UP,
    KEY_DOWN,
    KEY_PAGE_UP,
    KEY_PAGE_DOWN,
    KEY_HOME,
    KEY_END,
    KEY_ENTER,
    KEY_SPACE,
    KEY_TAB,
    KEY_BACKSPACE,
    KEY_ESC,
    KEY_F1,
    KEY_F2,
    KEY_F3,
    KEY_F4,
    KEY_F5,
    KEY_F6,
    KEY_F7,
    KEY_F8,
    KEY_F9,
    KEY_F10,
    KEY_F11,
    KEY_F12,
    /* what the key prints in the person's own layout, lower case: KEY_CHAR + 'a' */
    KEY_CHAR = 256,
};

enum { MOD_SHIFT = 1, MOD_CTRL = 2, MOD_ALT = 4 };

enum { INPUT_KEY_TEXT = 32 };

/* "Shift Left", "Ctrl Q", "F1", "+": for help. Returns `out`. */
const char *input_key_name(char out[INPUT_KEY_TEXT], int key, int mods);

/* The reverse, ignoring case: "left", "shift left", "ctrl q", "+"; false when there is no such key. */
bool input_key_from_name(const char *name, int *key, int *mods);

#endif
