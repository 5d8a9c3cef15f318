/* Keys and their names, ours alone: no window system's. */
#ifndef INPUT_KEY_H
#define INPUT_KEY_H

#include <stdbool.h>
#include <stddef.h>

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
    KEY_DELETE,
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
    /* Buttons of a game controller, by where they lie to who holds it. Its cross of four is the four arrows. */
    KEY_BUTTON_NEAR,
    KEY_BUTTON_RIGHT,
    KEY_BUTTON_LEFT,
    KEY_BUTTON_FAR,
    KEY_SHOULDER_LEFT, /* at its far edge … */
    KEY_SHOULDER_RIGHT,
    KEY_TRIGGER_LEFT, /* … and beneath that */
    KEY_TRIGGER_RIGHT,
    KEY_STICK_LEFT, /* pressed */
    KEY_STICK_RIGHT,
    KEY_BUTTON_BACK, /* the two small ones between, left and right */
    KEY_BUTTON_START,
    /* Buttons of what is no game controller and no keyboard: foot switches. */
    KEY_SWITCH_1,
    KEY_SWITCH_2,
    KEY_SWITCH_3,
    KEY_SWITCH_4,
    KEY_SWITCH_5,
    KEY_SWITCH_6,
    KEY_SWITCH_7,
    KEY_SWITCH_8,
    /* Every other key is the character it prints in the person's own layout: KEY_CHAR + its code point. A letter is
     * the small one, and Shift is told by MOD_SHIFT. For any other character Shift is part of the printing and is not
     * told: plus is KEY_CHAR + '+' without MOD_SHIFT, whether the layout has it on a key of its own, on Shift = or on
     * the number pad. So a table of keys needs one row for it. (With Ctrl some keys print nothing: they are then told
     * by what they print alone, with MOD_SHIFT as it is.) */
    KEY_CHAR = 256,
};

enum { MOD_SHIFT = 1, MOD_CTRL = 2, MOD_ALT = 4 };

enum { INPUT_KEY_TEXT = 64 };

/* The key that prints a character, by code point; capitals (of ASCII and Latin-1) are their small letters' keys.
 * KEY_SPACE for a blank; KEY_NONE for what prints nothing. */
int input_key_printing(unsigned long character);

/* The character that a key prints, with Shift or without; 0: none, as with Ctrl or Alt. */
unsigned long input_key_printed(int key, int mods);

/* Whether a key prints a letter of ASCII or Latin-1: one that Shift makes a capital of. */
bool input_key_is_letter(int key);

/* "Shift Left", "Ctrl Q", "F1", "+": for help. Nothing for KEY_NONE. Returns `out`. */
const char *input_key_name(char out[INPUT_KEY_TEXT], int key, int mods);

/* The same in English, whatever is spoken: for files. */
const char *input_key_written(char out[INPUT_KEY_TEXT], int key, int mods);

/* The reverse of that, ignoring case, modifiers in any order: "left", "shift left", "ctrl q", "+". False when there is
 * no such key; *key and *mods are then left alone. */
bool input_key_from_name(const char *name, int *key, int *mods);

/* Where a key means nothing of its own it does what another one does: a presenter's start key, a game controller's
 * buttons, foot switches. */
struct input_stand_in {
    int key, mods, does;
};

/* All of them. */
const struct input_stand_in *input_stand_ins(size_t *count);

/* What that key does where it means nothing of its own; KEY_NONE when nothing. */
int input_key_does(int key, int mods);

/* The same of a number pad's keys with Num Lock, where no number is typed: what is printed beside the digits, and 0
 * rubs out. KEY_NONE of all others. */
int input_key_on_pad(int key, int mods);

/* The key under the other hand: a controller's left and right shoulder and trigger change places; others stay. */
int input_key_mirrored(int key);

#endif
