#include "input/key.h"
#include "screen/window.h"
#include "screen/x_client.h"
#include "support/room.h"

#include <X11/Xutil.h>

#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

static const char title[] = "light on the table";

struct desk {
    struct room room;
    Display *x;
    struct screen_window *window;
};

static int open_desk(void **state)
{
    static struct desk desk;
    room_init(&desk.room);
    x_client_layout("us");
    desk.x = x_client_open();
    desk.window = screen_open(0, title, desk.room.errs);
    *state = &desk;
    return desk.window ? 0 : -1;
}

static int close_desk(void **state)
{
    struct desk *desk = *state;
    screen_close(desk->window);
    XCloseDisplay(desk->x);
    return room_close(state);
}

/* A colour of its own for nearly every pixel: the low 24 bits of a product by Knuth's multiplier (2^32 / golden ratio).
 */
static uint32_t colour_at(int x, int y)
{
    return ((uint32_t)(y * 4096 + x) * 2654435769u) >> 8;
}

/* Rows are a little longer than the picture is wide, and what lies past its edge is white. */
static struct paint_image picture(struct arena *a, int width, int height)
{
    struct paint_image image = { .width = width, .height = height, .stride = (size_t)width + 5 };
    image.pixels = base_arena_alloc(a, image.stride * (size_t)height, sizeof *image.pixels);
    for (size_t i = 0; i < image.stride * (size_t)height; i++)
        image.pixels[i] = 0xffffff;
    for (int y = 0; y < height; y++)
        for (int x = 0; x < width; x++)
            image.pixels[(size_t)y * image.stride + (size_t)x] = colour_at(x, y);
    return image;
}

/* One channel of what the screen has, and the highest bits of the byte that it was to be. */
static int channel_differs(unsigned long pixel, unsigned long mask, unsigned wanted)
{
    unsigned long lowest = mask & (~mask + 1), most = mask / lowest, has = (pixel & mask) / lowest;
    unsigned long want = most > 255 ? (wanted * most + 127) / 255 : wanted * (most + 1) / 256;
    return has != want;
}

static int pixel_differs(const XImage *seen, int x, int y)
{
    unsigned long pixel = seen->f.get_pixel((XImage *)(uintptr_t)seen, x, y);
    uint32_t want = colour_at(x, y);
    return channel_differs(pixel, seen->red_mask, want >> 16 & 255) ||
           channel_differs(pixel, seen->green_mask, want >> 8 & 255) ||
           channel_differs(pixel, seen->blue_mask, want & 255);
}

static void assert_shown(Display *x, int width, int height)
{
    XImage *seen = x_client_look(x);
    long wrong = 0;
    for (int y = 0; y < height; y++)
        for (int i = 0; i < width; i++)
            wrong += pixel_differs(seen, i, y);
    XDestroyImage(seen);
    if (wrong)
        fail_msg("%ld of %d pixels differ", wrong, width * height);
}

static void a_display_is_listed_with_its_size(void **state)
{
    struct desk *desk = *state;
    struct screen_display displays[SCREEN_MOST_DISPLAYS];
    assert_true(screen_is_there());
    screen_leave();
    assert_int_equal(screen_list(displays, desk->room.errs), 1);
    assert_int_equal(displays[0].x, 0);
    assert_int_equal(displays[0].y, 0);
    assert_int_equal(displays[0].width, 1280);
    assert_int_equal(displays[0].height, 800);
    assert_int_equal(desk->room.errs->count, 0);
}

static void a_display_that_is_not_there_is_refused(void **state)
{
    struct desk *desk = *state;
    assert_null(screen_open(1, title, desk->room.errs));
    assert_null(screen_open(-1, title, desk->room.errs));
    assert_int_equal(desk->room.errs->faults, 2);
    assert_true(base_err_list_has(desk->room.errs, "screen.no_such_display"));
}

static void the_window_covers_the_display(void **state)
{
    struct desk *desk = *state;
    XWindowAttributes at;
    int width, height;
    screen_size(desk->window, &width, &height);
    assert_int_equal(width, 1280);
    assert_int_equal(height, 800);
    assert_true(XGetWindowAttributes(desk->x, x_client_find(desk->x, title), &at));
    assert_int_equal(at.map_state, IsViewable);
    assert_int_equal(at.x, 0);
    assert_int_equal(at.y, 0);
    assert_int_equal(at.width, 1280);
    assert_int_equal(at.height, 800);
}

static void the_window_is_at_home_on_its_display(void **state)
{
    struct desk *desk = *state;
    assert_true(screen_is_home(desk->window));
}

static void every_pixel_of_a_picture_is_on_the_screen(void **state)
{
    struct desk *desk = *state;
    struct paint_image image = picture(desk->room.a, 1280, 800);
    assert_true(screen_show(desk->window, &image, desk->room.errs));
    assert_shown(desk->x, 1280, 800);
}

static void a_picture_of_another_size_is_refused_and_the_one_before_stays(void **state)
{
    struct desk *desk = *state;
    struct paint_image image = picture(desk->room.a, 1280, 800), small = picture(desk->room.a, 1279, 800);
    assert_true(screen_show(desk->window, &image, desk->room.errs));
    assert_false(screen_show(desk->window, &small, desk->room.errs));
    assert_int_equal(desk->room.errs->faults, 1);
    assert_true(base_err_list_has(desk->room.errs, "screen.wrong_size"));
    assert_shown(desk->x, 1280, 800);
}

static void a_new_size_is_told_and_takes_a_picture_of_that_size(void **state)
{
    struct desk *desk = *state;
    struct paint_image image = picture(desk->room.a, 1280, 800), small = picture(desk->room.a, 640, 480);
    x_client_settle(desk->window);
    XResizeWindow(desk->x, x_client_find(desk->x, title), 640, 480);
    XSync(desk->x, False);
    struct input_event event;
    do {
        event = screen_wait(desk->window, 20000);
        assert_int_not_equal(event.type, INPUT_NONE);
    } while (event.type != INPUT_SIZE);
    assert_int_equal(event.width, 640);
    assert_int_equal(event.height, 480);
    assert_false(screen_show(desk->window, &image, desk->room.errs));
    assert_true(screen_show(desk->window, &small, desk->room.errs));
    assert_shown(desk->x, 640, 480);
}

static void a_window_uncovered_asks_to_be_drawn_again(void **state)
{
    struct desk *desk = *state;
    unsigned others = 0;
    x_client_settle(desk->window);
    XSetWindowAttributes plain = { .override_redirect = True };
    Window cover = XCreateWindow(desk->x, DefaultRootWindow(desk->x), 100, 100, 50, 50, 0, CopyFromParent, InputOutput,
                                 CopyFromParent, CWOverrideRedirect, &plain);
    XMapRaised(desk->x, cover);
    XDestroyWindow(desk->x, cover);
    XSync(desk->x, False);
    x_client_press("F12");
    assert_int_equal(x_client_next_key(desk->window, &others).key, KEY_F12);
    assert_int_equal(others, 1u << INPUT_EXPOSE);
}

static void nothing_comes_when_nothing_happens(void **state)
{
    struct desk *desk = *state;
    x_client_settle(desk->window);
    assert_int_equal(screen_wait(desk->window, 0).type, INPUT_NONE);
    x_client_press("a b");
    assert_int_equal(screen_wait(desk->window, 20000).key, KEY_CHAR + 'a');
    assert_int_equal(screen_wait(desk->window, 20000).key, KEY_CHAR + 'b');
    assert_int_equal(screen_wait(desk->window, 20).type, INPUT_NONE);
}

/* The X server repeats a held key by itself, as a person's does (X Keyboard Extension, chapter 4.1). */
static void a_held_key_repeats_and_says_so(void **state)
{
    struct desk *desk = *state;
    x_client_settle(desk->window);
    x_client_hold("n", true);
    struct input_event first = x_client_next_key(desk->window, NULL), next = x_client_next_key(desk->window, NULL);
    x_client_hold("n", false);
    assert_int_equal(first.key, KEY_CHAR + 'n');
    assert_false(first.is_repeat);
    assert_int_equal(next.key, KEY_CHAR + 'n');
    assert_true(next.is_repeat);
    assert_true(next.at_s > first.at_s);
    x_client_press("F12 n");
    do
        next = x_client_next_key(desk->window, NULL);
    while (next.key != KEY_F12);
    assert_false(x_client_next_key(desk->window, NULL).is_repeat);
}

/* Keys by their names in X11 (keysymdef.h), or by X key code where a name would press Shift as well (the number pad:
 * 79 is 7 or Home, 86 is plus). */
struct press {
    const char *xdotool;
    int key, mods;
};

static void assert_presses(struct desk *desk, const struct press *presses, size_t count)
{
    x_client_settle(desk->window);
    for (size_t i = 0; i < count; i++) {
        x_client_press(presses[i].xdotool);
        struct input_event event = x_client_next_key(desk->window, NULL);
        if (event.key != presses[i].key || event.mods != presses[i].mods)
            fail_msg("%s gave key %d, modifiers %d", presses[i].xdotool, event.key, event.mods);
    }
}

static void keys_come_as_they_are_printed(void **state)
{
    static const struct press presses[] = {
        { "a", KEY_CHAR + 'a', 0 },
        { "A", KEY_CHAR + 'a', MOD_SHIFT },
        { "plus", KEY_CHAR + '+', 0 },
        { "minus", KEY_CHAR + '-', 0 },
        { "question", KEY_CHAR + '?', 0 },
        { "7", KEY_CHAR + '7', 0 },
        { "ctrl+q", KEY_CHAR + 'q', MOD_CTRL },
        { "ctrl+plus", KEY_CHAR + '+', MOD_CTRL },
        { "alt+x", KEY_CHAR + 'x', MOD_ALT },
        { "Left", KEY_LEFT, 0 },
        { "shift+Left", KEY_LEFT, MOD_SHIFT },
        { "ctrl+shift+Up", KEY_UP, MOD_CTRL | MOD_SHIFT },
        { "Page_Down", KEY_PAGE_DOWN, 0 },
        { "Home", KEY_HOME, 0 },
        { "Return", KEY_ENTER, 0 },
        { "KP_Enter", KEY_ENTER, 0 },
        { "space", KEY_SPACE, 0 },
        { "Tab", KEY_TAB, 0 },
        { "shift+Tab", KEY_TAB, MOD_SHIFT },
        { "BackSpace", KEY_BACKSPACE, 0 },
        { "Escape", KEY_ESC, 0 },
        { "F1", KEY_F1, 0 },
        { "86", KEY_CHAR + '+', 0 },
        { "79", KEY_HOME, 0 },
        { "Num_Lock 79", KEY_CHAR + '7', 0 },
        { "Num_Lock 79", KEY_HOME, 0 },
    };
    assert_presses(*state, presses, sizeof presses / sizeof presses[0]);
}

static void a_change_of_layout_changes_what_is_printed(void **state)
{
    static const struct press german[] = {
        { "plus", KEY_CHAR + '+', 0 },
        { "question", KEY_CHAR + '?', 0 },
        { "slash", KEY_CHAR + '/', 0 },
        { "adiaeresis", KEY_CHAR + 0xe4, 0 },
        { "Adiaeresis", KEY_CHAR + 0xe4, MOD_SHIFT },
        { "29", KEY_CHAR + 'z', 0 }, /* y on a us keyboard */
        { "ctrl+z", KEY_CHAR + 'z', MOD_CTRL },
    };
    static const struct press french[] = {
        { "1", KEY_CHAR + '1', 0 }, /* with Shift there */
        { "ampersand", KEY_CHAR + '&', 0 },
        { "plus", KEY_CHAR + '+', 0 },
    };
    static const struct press greek[] = {
        { "Greek_alpha", KEY_CHAR + 'a', 0 },
        { "plus", KEY_CHAR + '+', 0 },
    };
    x_client_layout("de");
    assert_presses(*state, german, sizeof german / sizeof german[0]);
    x_client_layout("fr");
    assert_presses(*state, french, sizeof french / sizeof french[0]);
    x_client_layout("gr");
    assert_presses(*state, greek, sizeof greek / sizeof greek[0]);
}

static void a_close_button_asks_once_to_end(void **state)
{
    struct desk *desk = *state;
    x_client_settle(desk->window);
    x_client_ask_to_close(desk->x, x_client_find(desk->x, title));
    assert_int_equal(screen_wait(desk->window, 20000).type, INPUT_QUIT);
    assert_int_equal(screen_wait(desk->window, 0).type, INPUT_NONE);
}

static void signals_keep_their_usual_effect(void **state)
{
    (void)state;
    static const int signals[] = { SIGINT, SIGTERM };
    for (size_t i = 0; i < sizeof signals / sizeof signals[0]; i++) {
        struct sigaction now;
        assert_int_equal(sigaction(signals[i], NULL, &now), 0);
        assert_true(now.sa_handler == SIG_DFL);
    }
}

/* SDL's own messages to a window come late then; they must not end the program. Without what screen/x_errors.c does it
 * ends in nearly every run. */
static void windows_close_while_keys_are_pressed(void **state)
{
    enum { WINDOWS = 16 };
    struct desk *desk = *state;
    char *const words[] = { (char[]){ "xdotool" },
                            (char[]){ "key" },
                            (char[]){ "--repeat-delay" },
                            (char[]){ "1" },
                            (char[]){ "--repeat" },
                            (char[]){ "20000" },
                            (char[]){ "a" },
                            NULL };
    pid_t typist;
    assert_int_equal(posix_spawnp(&typist, words[0], NULL, NULL, words, environ), 0);
    for (int i = 0; i < WINDOWS; i++) {
        struct screen_window *w = screen_open(0, "another", desk->room.errs);
        assert_non_null(w);
        for (int key = 0; key < 3; key++)
            assert_int_equal(x_client_next_key(w, NULL).key, KEY_CHAR + 'a');
        screen_close(w);
    }
    kill(typist, SIGKILL);
    assert_int_equal(waitpid(typist, NULL, 0), typist);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, open_desk, close_desk)
    const struct CMUnitTest tests[] = {
        TEST(a_display_is_listed_with_its_size),
        TEST(a_display_that_is_not_there_is_refused),
        TEST(the_window_covers_the_display),
        TEST(the_window_is_at_home_on_its_display),
        TEST(every_pixel_of_a_picture_is_on_the_screen),
        TEST(a_picture_of_another_size_is_refused_and_the_one_before_stays),
        TEST(a_new_size_is_told_and_takes_a_picture_of_that_size),
        TEST(a_window_uncovered_asks_to_be_drawn_again),
        TEST(nothing_comes_when_nothing_happens),
        TEST(keys_come_as_they_are_printed),
        TEST(a_held_key_repeats_and_says_so),
        TEST(a_change_of_layout_changes_what_is_printed),
        TEST(a_close_button_asks_once_to_end),
        TEST(signals_keep_their_usual_effect),
        TEST(windows_close_while_keys_are_pressed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
