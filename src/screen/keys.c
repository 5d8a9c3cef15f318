#include "base/text.h"
#include "input/key.h"
#include "screen/inside.h"

#include <string.h>

static const struct {
    SDL_Keycode sym;
    int key;
} named_rows[] = {
    { SDLK_LEFT, KEY_LEFT },      { SDLK_RIGHT, KEY_RIGHT },
    { SDLK_UP, KEY_UP },          { SDLK_DOWN, KEY_DOWN },
    { SDLK_PAGEUP, KEY_PAGE_UP }, { SDLK_PAGEDOWN, KEY_PAGE_DOWN },
    { SDLK_HOME, KEY_HOME },      { SDLK_END, KEY_END },
    { SDLK_RETURN, KEY_ENTER },   { SDLK_RETURN2, KEY_ENTER },
    { SDLK_KP_ENTER, KEY_ENTER }, { SDLK_SPACE, KEY_SPACE },
    { SDLK_TAB, KEY_TAB },        { SDLK_BACKSPACE, KEY_BACKSPACE },
    { SDLK_DELETE, KEY_DELETE },
    { SDLK_ESCAPE, KEY_ESC },     { SDLK_F1, KEY_F1 },
    { SDLK_F2, KEY_F2 },          { SDLK_F3, KEY_F3 },
    { SDLK_F4, KEY_F4 },          { SDLK_F5, KEY_F5 },
    { SDLK_F6, KEY_F6 },          { SDLK_F7, KEY_F7 },
    { SDLK_F8, KEY_F8 },          { SDLK_F9, KEY_F9 },
    { SDLK_F10, KEY_F10 },        { SDLK_F11, KEY_F11 },
    { SDLK_F12, KEY_F12 },
};

/* The number pad: what its keys are with Num Lock, and without it (or with Shift). */
static const struct {
    SDL_Keycode sym;
    int locked, free;
} pad_rows[] = {
    { SDLK_KP_0, KEY_CHAR + '0', KEY_NONE },
    { SDLK_KP_1, KEY_CHAR + '1', KEY_END },
    { SDLK_KP_2, KEY_CHAR + '2', KEY_DOWN },
    { SDLK_KP_3, KEY_CHAR + '3', KEY_PAGE_DOWN },
    { SDLK_KP_4, KEY_CHAR + '4', KEY_LEFT },
    { SDLK_KP_5, KEY_CHAR + '5', KEY_NONE },
    { SDLK_KP_6, KEY_CHAR + '6', KEY_RIGHT },
    { SDLK_KP_7, KEY_CHAR + '7', KEY_HOME },
    { SDLK_KP_8, KEY_CHAR + '8', KEY_UP },
    { SDLK_KP_9, KEY_CHAR + '9', KEY_PAGE_UP },
    { SDLK_KP_PERIOD, KEY_CHAR + '.', KEY_NONE },
    { SDLK_KP_PLUS, KEY_CHAR + '+', KEY_CHAR + '+' },
    { SDLK_KP_MINUS, KEY_CHAR + '-', KEY_CHAR + '-' },
    { SDLK_KP_MULTIPLY, KEY_CHAR + '*', KEY_CHAR + '*' },
    { SDLK_KP_DIVIDE, KEY_CHAR + '/', KEY_CHAR + '/' },
    { SDLK_KP_EQUALS, KEY_CHAR + '=', KEY_CHAR + '=' },
};

/* Where the Latin letters end, with their extensions A and B (The Unicode Standard, blocks 0000 to 0180). */
enum { LAST_LATIN = 0x24f };

static int our_mods(Uint16 mods)
{
    return (mods & KMOD_SHIFT ? MOD_SHIFT : 0) | (mods & KMOD_CTRL ? MOD_CTRL : 0) | (mods & KMOD_ALT ? MOD_ALT : 0);
}

static struct input_event key_event(int key, int mods)
{
    return (struct input_event){ .type = key == KEY_NONE ? INPUT_NONE : INPUT_KEY, .key = key, .mods = mods };
}

static int named_key(SDL_Keycode sym)
{
    for (size_t i = 0; i < sizeof named_rows / sizeof named_rows[0]; i++)
        if (named_rows[i].sym == sym)
            return named_rows[i].key;
    return KEY_NONE;
}

static bool find_pad_key(const SDL_Keysym *pressed, int *key)
{
    bool locked = (pressed->mod & KMOD_NUM) && !(pressed->mod & KMOD_SHIFT);
    for (size_t i = 0; i < sizeof pad_rows / sizeof pad_rows[0]; i++)
        if (pad_rows[i].sym == pressed->sym) {
            *key = locked ? pad_rows[i].locked : pad_rows[i].free;
            return true;
        }
    return false;
}

/* A key's code as a character: SDL's codes of keys that print nothing have this bit. */
static unsigned long character_of(SDL_Keycode sym)
{
    return sym & SDLK_SCANCODE_MASK ? 0 : (unsigned long)sym;
}

/* The one character of a text, 0 when it has none or more. */
static unsigned long only_character(const char *text)
{
    if (!base_text_is_utf8(text, strlen(text)))
        return 0;
    unsigned long c = base_text_next(&text);
    return *text ? 0 : c;
}

/* Greek, Cyrillic and other layouts have no a to z, which the app's keys are named by: take the letter that stands in
 * that place on a Latin keyboard. */
static unsigned long latin(unsigned long c, SDL_Scancode place)
{
    if (c > LAST_LATIN && place >= SDL_SCANCODE_A && place <= SDL_SCANCODE_Z)
        return 'a' + (unsigned long)(place - SDL_SCANCODE_A);
    return c;
}

/* What is printed depends on the layout and on Shift and AltGr, which only the printed text knows; those two then
 * belong to the character. Where a press prints nothing (with Ctrl often), the key's own character stands. */
static struct input_event printing_key(const SDL_Keysym *pressed, const char *printed)
{
    int mods = our_mods(pressed->mod);
    int own = input_key_printing(latin(character_of(pressed->sym), pressed->scancode));
    int key = input_key_printing(latin(only_character(printed), pressed->scancode));
    if (key == KEY_NONE)
        return key_event(own, mods);
    if (!input_key_is_letter(key))
        mods &= ~MOD_SHIFT;
    if (key != own && !(pressed->mod & KMOD_LALT))
        mods &= ~MOD_ALT;
    struct input_event event = key_event(key, mods);
    event.printed = mods & (MOD_CTRL | MOD_ALT) ? 0 : only_character(printed);
    return event;
}

struct input_event screen_key_event(const SDL_Keysym *pressed, const char *printed)
{
    int mods = our_mods(pressed->mod);
    int key = named_key(pressed->sym);
    if (key != KEY_NONE)
        return key_event(key, mods);
    if (find_pad_key(pressed, &key))
        return key_event(key, key > KEY_CHAR ? mods & ~MOD_SHIFT : mods);
    return printing_key(pressed, printed);
}
