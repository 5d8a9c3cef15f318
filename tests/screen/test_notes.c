#include "input/key.h"
#include "screen/notes.h"
#include "screen/window.h"
#include "screen/x_client.h"
#include "support/room.h"

#include <X11/Xutil.h>

static const char table_title[] = "light on the table", notes_title[] = "notes";

/* The sheet's colours, after the project's page on its look, as in page.c. */
enum { SHEET = 0xfbfaf6, RED = 0xa22227 };

static const struct screen_note_line warning = { SCREEN_NOTE_WARNING, "Cross 4 looks one ruling off.", NULL };
static const struct screen_note_line line = { SCREEN_NOTE_LINE, "F1", "help" };

struct desk {
    struct room room;
    Display *x;
    struct screen_window *window;
    struct screen_notes *notes;
    int left, top; /* of the notes window on the screen */
};

static int open_desk(void **state)
{
    static struct desk desk;
    XWindowAttributes at;
    room_init(&desk.room);
    x_client_layout("us");
    desk.x = x_client_open();
    desk.window = screen_open(0, table_title, desk.room.errs);
    desk.notes = screen_notes_open(0, notes_title, desk.room.errs);
    *state = &desk;
    if (!desk.window || !desk.notes || !XGetWindowAttributes(desk.x, x_client_find(desk.x, notes_title), &at))
        return -1;
    desk.left = at.x;
    desk.top = at.y;
    return 0;
}

static int close_desk(void **state)
{
    struct desk *desk = *state;
    screen_notes_close(desk->notes);
    screen_close(desk->window);
    XCloseDisplay(desk->x);
    return room_close(state);
}

/* How many pixels of a colour the left edge of the notes has, where a warning's bar stands. */
static int count_colour(struct desk *desk, uint32_t colour)
{
    XImage *seen = x_client_look(desk->x);
    int count = 0;
    for (int y = desk->top; y < desk->top + 120; y++)
        for (int x = desk->left + 1; x < desk->left + 60; x++)
            count += x_client_pixel(seen, x, y) == colour;
    XDestroyImage(seen);
    return count;
}

static void notes_are_blank_until_lines_are_shown(void **state)
{
    struct desk *desk = *state;
    assert_int_equal(count_colour(desk, SHEET), 120 * 59);
    assert_true(screen_notes_show(desk->notes, &warning, 1));
    assert_true(count_colour(desk, RED) > 4 * 17);
    assert_true(screen_notes_show(desk->notes, &line, 1));
    assert_int_equal(count_colour(desk, RED), 0);
}

/* Blackens the window behind the program's back, as another window over it would: only drawing brings its lines back.
 */
static void blacken(struct desk *desk)
{
    Window window = x_client_find(desk->x, notes_title);
    GC black = XCreateGC(desk->x, window, 0, NULL);
    XSetForeground(desk->x, black, BlackPixel(desk->x, DefaultScreen(desk->x)));
    XFillRectangle(desk->x, window, black, 0, 0, 2000, 2000);
    XFreeGC(desk->x, black);
    XSync(desk->x, False);
    assert_int_equal(count_colour(desk, RED) + count_colour(desk, SHEET), 0);
}

static void notes_uncovered_are_drawn_again_and_nobody_is_told(void **state)
{
    struct desk *desk = *state;
    unsigned others = 0;
    assert_true(screen_notes_show(desk->notes, &warning, 1));
    int shown = count_colour(desk, RED);
    x_client_settle(desk->window);
    blacken(desk);
    XClearArea(desk->x, x_client_find(desk->x, notes_title), 0, 0, 100, 100, True);
    XSync(desk->x, False);
    x_client_press("F12");
    x_client_next_key(desk->window, &others);
    assert_int_equal(others, 0);
    assert_int_equal(count_colour(desk, RED), shown);
}

static void the_same_lines_again_draw_nothing(void **state)
{
    struct desk *desk = *state;
    assert_true(screen_notes_show(desk->notes, &warning, 1));
    x_client_settle(desk->window);
    blacken(desk);
    assert_true(screen_notes_show(desk->notes, &warning, 1));
    assert_int_equal(count_colour(desk, RED), 0);
    assert_true(screen_notes_show(desk->notes, &line, 1));
    assert_true(count_colour(desk, SHEET) > 0);
}

static void keys_pressed_in_the_notes_come_like_any(void **state)
{
    struct desk *desk = *state;
    x_client_settle(desk->window);
    XSetInputFocus(desk->x, x_client_find(desk->x, notes_title), RevertToParent, CurrentTime);
    XSync(desk->x, False);
    x_client_press("plus");
    struct input_event event = x_client_next_key(desk->window, NULL);
    assert_int_equal(event.key, KEY_CHAR + '+');
    assert_int_equal(event.mods, 0);
}

static void closing_the_notes_closes_only_them(void **state)
{
    struct desk *desk = *state;
    unsigned others = 0;
    x_client_settle(desk->window);
    assert_true(screen_notes_is_open(desk->notes));
    x_client_ask_to_close(desk->x, x_client_find(desk->x, notes_title));
    XSetInputFocus(desk->x, x_client_find(desk->x, table_title), RevertToParent, CurrentTime);
    XSync(desk->x, False);
    x_client_press("F12");
    x_client_next_key(desk->window, &others);
    assert_int_equal(others & 1u << INPUT_QUIT, 0);
    assert_false(screen_notes_is_open(desk->notes));
    assert_int_equal(x_client_find(desk->x, notes_title), None);
    assert_false(screen_notes_show(desk->notes, &line, 1));
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, open_desk, close_desk)
    const struct CMUnitTest tests[] = {
        TEST(notes_are_blank_until_lines_are_shown), TEST(notes_uncovered_are_drawn_again_and_nobody_is_told),
        TEST(the_same_lines_again_draw_nothing),     TEST(keys_pressed_in_the_notes_come_like_any),
        TEST(closing_the_notes_closes_only_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
