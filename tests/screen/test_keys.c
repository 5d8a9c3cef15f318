#include "input/key.h"
#include "screen/inside.h"
#include "support/cmocka_all.h"

/* What SDL reports of a press, and what we make of it. Which key prints what is common knowledge of the layouts (X11's
 * xkeyboard-config: us, de, fr, gr); no other source. */
static const struct {
    const char *what;
    SDL_Keycode sym;
    SDL_Scancode place;
    int sdl_mods;
    const char *printed;
    int key, mods;
} rows[] = {
    { "a letter", SDLK_a, SDL_SCANCODE_A, 0, "a", KEY_CHAR + 'a', 0 },
    { "its capital", SDLK_a, SDL_SCANCODE_A, KMOD_LSHIFT, "A", KEY_CHAR + 'a', MOD_SHIFT },
    { "its capital by Caps Lock", SDLK_a, SDL_SCANCODE_A, KMOD_CAPS, "A", KEY_CHAR + 'a', 0 },
    { "with Ctrl, printing nothing", SDLK_q, SDL_SCANCODE_Q, KMOD_LCTRL, "", KEY_CHAR + 'q', MOD_CTRL },
    { "with Ctrl, printing all the same", SDLK_q, SDL_SCANCODE_Q, KMOD_RCTRL, "q", KEY_CHAR + 'q', MOD_CTRL },
    { "with Alt", SDLK_x, SDL_SCANCODE_X, KMOD_LALT, "x", KEY_CHAR + 'x', MOD_ALT },
    { "with the right Alt", SDLK_x, SDL_SCANCODE_X, KMOD_RALT, "x", KEY_CHAR + 'x', MOD_ALT },
    { "plus, us", SDLK_EQUALS, SDL_SCANCODE_EQUALS, KMOD_LSHIFT, "+", KEY_CHAR + '+', 0 },
    { "plus, de", SDLK_PLUS, SDL_SCANCODE_RIGHTBRACKET, 0, "+", KEY_CHAR + '+', 0 },
    { "Ctrl plus, us", SDLK_EQUALS, SDL_SCANCODE_EQUALS, KMOD_LSHIFT | KMOD_LCTRL, "+", KEY_CHAR + '+', MOD_CTRL },
    { "question mark, us", SDLK_SLASH, SDL_SCANCODE_SLASH, KMOD_RSHIFT, "?", KEY_CHAR + '?', 0 },
    { "question mark, de", 0xdf, SDL_SCANCODE_MINUS, KMOD_LSHIFT, "?", KEY_CHAR + '?', 0 },
    { "one, fr", SDLK_AMPERSAND, SDL_SCANCODE_1, KMOD_LSHIFT, "1", KEY_CHAR + '1', 0 },
    { "at, de", SDLK_q, SDL_SCANCODE_Q, KMOD_RALT, "@", KEY_CHAR + '@', 0 },
    { "a umlaut, de", 0xe4, SDL_SCANCODE_APOSTROPHE, 0, "\xc3\xa4", KEY_CHAR + 0xe4, 0 },
    { "A umlaut, de", 0xe4, SDL_SCANCODE_APOSTROPHE, KMOD_LSHIFT, "\xc3\x84", KEY_CHAR + 0xe4, MOD_SHIFT },
    { "alpha, gr", 0x3b1, SDL_SCANCODE_A, 0, "\xce\xb1", KEY_CHAR + 'a', 0 },
    { "Ctrl psi, gr", 0x3c8, SDL_SCANCODE_C, KMOD_LCTRL, "", KEY_CHAR + 'c', MOD_CTRL },
    { "Ctrl Shift 2, printing nothing", SDLK_2, SDL_SCANCODE_2, KMOD_LCTRL | KMOD_LSHIFT, "", KEY_CHAR + '2',
      MOD_CTRL | MOD_SHIFT },
    { "two characters at once", SDLK_a, SDL_SCANCODE_A, 0, "ab", KEY_CHAR + 'a', 0 },
    { "an arrow", SDLK_LEFT, SDL_SCANCODE_LEFT, 0, "", KEY_LEFT, 0 },
    { "an arrow with Shift", SDLK_RIGHT, SDL_SCANCODE_RIGHT, KMOD_LSHIFT, "", KEY_RIGHT, MOD_SHIFT },
    { "the blank", SDLK_SPACE, SDL_SCANCODE_SPACE, 0, " ", KEY_SPACE, 0 },
    { "Enter", SDLK_RETURN, SDL_SCANCODE_RETURN, KMOD_LCTRL, "", KEY_ENTER, MOD_CTRL },
    { "F12", SDLK_F12, SDL_SCANCODE_F12, 0, "", KEY_F12, 0 },
    { "the pad's Enter", SDLK_KP_ENTER, SDL_SCANCODE_KP_ENTER, 0, "", KEY_ENTER, 0 },
    { "the pad's plus", SDLK_KP_PLUS, SDL_SCANCODE_KP_PLUS, KMOD_NUM, "+", KEY_CHAR + '+', 0 },
    { "the pad's minus with Shift", SDLK_KP_MINUS, SDL_SCANCODE_KP_MINUS, KMOD_LSHIFT, "-", KEY_CHAR + '-', 0 },
    { "the pad's 8", SDLK_KP_8, SDL_SCANCODE_KP_8, KMOD_NUM, "8", KEY_CHAR + '8', 0 },
    { "the pad's 8 without Num Lock", SDLK_KP_8, SDL_SCANCODE_KP_8, 0, "", KEY_UP, 0 },
    { "the pad's 8 with Num Lock and Shift", SDLK_KP_8, SDL_SCANCODE_KP_8, KMOD_NUM | KMOD_LSHIFT, "", KEY_UP,
      MOD_SHIFT },
};

static void every_press_is_our_key(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const SDL_Keysym pressed = { rows[i].place, rows[i].sym, (Uint16)rows[i].sdl_mods, 0 };
        struct input_event event = screen_key_event(&pressed, rows[i].printed);
        if (event.type != INPUT_KEY || event.key != rows[i].key || event.mods != rows[i].mods)
            fail_msg("%s: type %d, key %d, modifiers %d", rows[i].what, event.type, event.key, event.mods);
    }
}

static void keys_that_we_have_no_name_for_are_no_events(void **state)
{
    (void)state;
    static const SDL_Keysym silent[] = {
        { SDL_SCANCODE_LSHIFT, SDLK_LSHIFT, KMOD_LSHIFT, 0 }, { SDL_SCANCODE_PRINTSCREEN, SDLK_PRINTSCREEN, 0, 0 },
        { SDL_SCANCODE_INSERT, SDLK_INSERT, 0, 0 },           { SDL_SCANCODE_KP_5, SDLK_KP_5, 0, 0 },
        { SDL_SCANCODE_UNKNOWN, SDLK_UNKNOWN, 0, 0 },
    };
    for (size_t i = 0; i < sizeof silent / sizeof silent[0]; i++)
        assert_int_equal(screen_key_event(&silent[i], "").type, INPUT_NONE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_press_is_our_key),
        cmocka_unit_test(keys_that_we_have_no_name_for_are_no_events),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
