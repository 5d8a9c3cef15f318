#include "input/key.h"

#include "base/text.h"
#include "base/words.h"

#include <assert.h>
#include <ctype.h>
#include <stdio.h>
#include <string.h>

static const struct {
    int key;
    const char *name;
} key_rows[] = {
    { KEY_LEFT, BASE_TR_IN("key", "Left") },
    { KEY_RIGHT, BASE_TR_IN("key", "Right") },
    { KEY_UP, BASE_TR_IN("key", "Up") },
    { KEY_DOWN, BASE_TR_IN("key", "Down") },
    { KEY_PAGE_UP, BASE_TR_IN("key", "Page Up") },
    { KEY_PAGE_DOWN, BASE_TR_IN("key", "Page Down") },
    { KEY_HOME, BASE_TR_IN("key", "Home") },
    { KEY_END, BASE_TR_IN("key", "End") },
    { KEY_ENTER, BASE_TR_IN("key", "Enter") },
    { KEY_SPACE, BASE_TR_IN("key", "Space") },
    { KEY_TAB, BASE_TR_IN("key", "Tab") },
    { KEY_BACKSPACE, BASE_TR_IN("key", "Backspace") },
    { KEY_DELETE, BASE_TR_IN("key", "Delete") },
    { KEY_ESC, BASE_TR_IN("key", "Esc") },
    { KEY_F1, "F1" },
    { KEY_F2, "F2" },
    { KEY_F3, "F3" },
    { KEY_F4, "F4" },
    { KEY_F5, "F5" },
    { KEY_F6, "F6" },
    { KEY_F7, "F7" },
    { KEY_F8, "F8" },
    { KEY_F9, "F9" },
    { KEY_F10, "F10" },
    { KEY_F11, "F11" },
    { KEY_F12, "F12" },
    { KEY_BUTTON_NEAR, BASE_TR_IN("key", "Button near") },
    { KEY_BUTTON_RIGHT, BASE_TR_IN("key", "Button right") },
    { KEY_BUTTON_LEFT, BASE_TR_IN("key", "Button left") },
    { KEY_BUTTON_FAR, BASE_TR_IN("key", "Button far") },
    { KEY_SHOULDER_LEFT, BASE_TR_IN("key", "Shoulder left") },
    { KEY_SHOULDER_RIGHT, BASE_TR_IN("key", "Shoulder right") },
    { KEY_TRIGGER_LEFT, BASE_TR_IN("key", "Trigger left") },
    { KEY_TRIGGER_RIGHT, BASE_TR_IN("key", "Trigger right") },
    { KEY_STICK_LEFT, BASE_TR_IN("key", "Stick left") },
    { KEY_STICK_RIGHT, BASE_TR_IN("key", "Stick right") },
    { KEY_BUTTON_BACK, BASE_TR_IN("key", "Button back") },
    { KEY_BUTTON_START, BASE_TR_IN("key", "Button start") },
    { KEY_SWITCH_1, BASE_TR_IN("key", "Switch 1") },
    { KEY_SWITCH_2, BASE_TR_IN("key", "Switch 2") },
    { KEY_SWITCH_3, BASE_TR_IN("key", "Switch 3") },
    { KEY_SWITCH_4, BASE_TR_IN("key", "Switch 4") },
    { KEY_SWITCH_5, BASE_TR_IN("key", "Switch 5") },
    { KEY_SWITCH_6, BASE_TR_IN("key", "Switch 6") },
    { KEY_SWITCH_7, BASE_TR_IN("key", "Switch 7") },
    { KEY_SWITCH_8, BASE_TR_IN("key", "Switch 8") },
};
enum { KEY_ROWS = sizeof key_rows / sizeof key_rows[0] };

/* In the order in which a name lists them. */
static const struct {
    int mod;
    const char *name;
} mod_rows[] = {
    { MOD_CTRL, BASE_TR_IN("key", "Ctrl") },
    { MOD_ALT, BASE_TR_IN("key", "Alt") },
    { MOD_SHIFT, BASE_TR_IN("key", "Shift") },
};
enum { MOD_ROWS = sizeof mod_rows / sizeof mod_rows[0] };

/* From a capital to its small letter, in ASCII and in Latin-1 (The Unicode Standard, blocks 0000 and 0080). */
enum { CAPITAL_TO_SMALL = 0x20, TIMES_SIGN = 0xd7, DIVISION_SIGN = 0xf7 };

static bool is_capital(unsigned long c)
{
    return (c >= 'A' && c <= 'Z') || (c >= 0xc0 && c <= 0xde && c != TIMES_SIGN);
}

static bool is_small(unsigned long c)
{
    return (c >= 'a' && c <= 'z') || (c >= 0xe0 && c <= 0xfe && c != DIVISION_SIGN);
}

/* ASCII's and Latin-1's control characters print nothing, nor does the no-break space. */
static bool prints(unsigned long c)
{
    return c > 0xa0 || (c > ' ' && c < 0x7f);
}

int input_key_printing(unsigned long character)
{
    if (character == ' ')
        return KEY_SPACE;
    if (!prints(character))
        return KEY_NONE;
    return KEY_CHAR + (int)(is_capital(character) ? character + CAPITAL_TO_SMALL : character);
}

bool input_key_is_letter(int key)
{
    return key > KEY_CHAR && is_small((unsigned long)(key - KEY_CHAR));
}

/* ß and ÿ have no capital in Latin-1. */
unsigned long input_key_printed(int key, int mods)
{
    if (key == KEY_SPACE)
        return ' ';
    if (key <= KEY_CHAR || (mods & (MOD_CTRL | MOD_ALT)))
        return 0;
    unsigned long point = (unsigned long)(key - KEY_CHAR);
    return (mods & MOD_SHIFT) && input_key_is_letter(key) && point != 0xdf && point != 0xff ? point - 0x20 : point;
}

/* Writes one code point as UTF-8 (RFC 3629, section 3) with its ending zero. */
static void write_utf8(char out[5], unsigned long c)
{
    int follow = c < 0x80 ? 0 : c < 0x800 ? 1 : c < 0x10000 ? 2 : 3;
    static const unsigned lead[] = { 0x00, 0xc0, 0xe0, 0xf0 };
    out[0] = (char)(unsigned char)(lead[follow] | c >> 6 * follow);
    for (int i = 1; i <= follow; i++)
        out[i] = (char)(unsigned char)(0x80 | (c >> 6 * (follow - i) & 0x3f));
    out[follow + 1] = '\0';
}

static void write_key(char *out, size_t size, int key, bool english)
{
    out[0] = '\0';
    for (int i = 0; i < KEY_ROWS; i++)
        if (key_rows[i].key == key)
            snprintf(out, size, "%s", english ? key_rows[i].name : base_tr_in("key", key_rows[i].name));
    if (key > KEY_CHAR) {
        unsigned long c = (unsigned long)(key - KEY_CHAR);
        write_utf8(out, is_small(c) ? c - CAPITAL_TO_SMALL : c);
    }
}

static const char *write_whole(char out[INPUT_KEY_TEXT], int key, int mods, bool english)
{
    size_t used = 0;
    out[0] = '\0';
    if (key == KEY_NONE)
        return out;
    for (int i = 0; i < MOD_ROWS; i++)
        if (mods & mod_rows[i].mod)
            used += (size_t)snprintf(out + used, INPUT_KEY_TEXT - used, "%s ",
                                     english ? mod_rows[i].name : base_tr_in("key", mod_rows[i].name));
    write_key(out + used, INPUT_KEY_TEXT - used, key, english);
    assert(out[used] != '\0');
    return out;
}

const char *input_key_name(char out[INPUT_KEY_TEXT], int key, int mods)
{
    return write_whole(out, key, mods, false);
}

const char *input_key_written(char out[INPUT_KEY_TEXT], int key, int mods)
{
    return write_whole(out, key, mods, true);
}

/* What follows `word` at the start of `text`, ignoring ASCII case, or NULL when it does not start so. */
static const char *after(const char *text, const char *word)
{
    assert(text);
    for (; *word; text++, word++)
        if (tolower((unsigned char)*text) != tolower((unsigned char)*word))
            return NULL;
    return text;
}

/* Takes one modifier and the blank after it off the front of *name; 0 when there is none. */
static int take_mod(const char **name)
{
    for (int i = 0; i < MOD_ROWS; i++) {
        const char *rest = after(*name, mod_rows[i].name);
        if (rest && *rest == ' ') {
            *name = rest + 1;
            return mod_rows[i].mod;
        }
    }
    return 0;
}

static int named_key(const char *name)
{
    for (int i = 0; i < KEY_ROWS; i++) {
        const char *rest = after(name, key_rows[i].name);
        if (rest && !*rest)
            return key_rows[i].key;
    }
    return KEY_NONE;
}

static int single_character_key(const char *name)
{
    if (!base_text_is_utf8(name, strlen(name)))
        return KEY_NONE;
    unsigned long c = base_text_next(&name);
    return *name || c == ' ' ? KEY_NONE : input_key_printing(c);
}

bool input_key_from_name(const char *name, int *key, int *mods)
{
    int found_mods = 0, mod;
    while ((mod = take_mod(&name)) != 0)
        found_mods |= mod;
    int found = named_key(name);
    if (found == KEY_NONE)
        found = single_character_key(name);
    if (found == KEY_NONE)
        return false;
    *key = found;
    *mods = found_mods;
    return true;
}

/* --- keys that do what others do --------------------------------------------------------------------------------- */

/* A presenter's start key sends F5, or Shift F5 (common practice, no source); the rest is our own choice. */
static const struct input_stand_in stand_ins[] = {
    { KEY_F5, 0, KEY_ENTER },
    { KEY_F5, MOD_SHIFT, KEY_ENTER },
    { KEY_BUTTON_NEAR, 0, KEY_ENTER },
    { KEY_TRIGGER_RIGHT, 0, KEY_ENTER },
    { KEY_SWITCH_1, 0, KEY_ENTER },
    { KEY_SHOULDER_RIGHT, 0, KEY_PAGE_DOWN },
    { KEY_SWITCH_2, 0, KEY_PAGE_DOWN },
    { KEY_SHOULDER_LEFT, 0, KEY_PAGE_UP },
    { KEY_SWITCH_3, 0, KEY_PAGE_UP },
    { KEY_BUTTON_LEFT, 0, KEY_BACKSPACE },
    { KEY_TRIGGER_LEFT, 0, KEY_BACKSPACE },
    { KEY_BUTTON_RIGHT, 0, KEY_ESC },
    { KEY_SWITCH_4, 0, KEY_ESC },
    { KEY_BUTTON_FAR, 0, KEY_CHAR + 'b' },
    { KEY_BUTTON_BACK, 0, KEY_TAB },
    { KEY_BUTTON_START, 0, KEY_F1 },
};
enum { STAND_INS = sizeof stand_ins / sizeof stand_ins[0] };

const struct input_stand_in *input_stand_ins(size_t *count)
{
    *count = STAND_INS;
    return stand_ins;
}

int input_key_does(int key, int mods)
{
    for (int i = 0; i < STAND_INS; i++)
        if (stand_ins[i].key == key && stand_ins[i].mods == mods)
            return stand_ins[i].does;
    return KEY_NONE;
}

int input_key_on_pad(int key, int mods)
{
    static const int digits[] = { KEY_BACKSPACE, KEY_END,   KEY_DOWN, KEY_PAGE_DOWN, KEY_LEFT,
                                  KEY_NONE,      KEY_RIGHT, KEY_HOME, KEY_UP,        KEY_PAGE_UP };
    bool is_digit = !mods && key >= KEY_CHAR + '0' && key <= KEY_CHAR + '9';
    return is_digit ? digits[key - KEY_CHAR - '0'] : KEY_NONE;
}

int input_key_mirrored(int key)
{
    switch (key) {
    case KEY_SHOULDER_LEFT:
        return KEY_SHOULDER_RIGHT;
    case KEY_SHOULDER_RIGHT:
        return KEY_SHOULDER_LEFT;
    case KEY_TRIGGER_LEFT:
        return KEY_TRIGGER_RIGHT;
    case KEY_TRIGGER_RIGHT:
        return KEY_TRIGGER_LEFT;
    default:
        return key;
    }
}
