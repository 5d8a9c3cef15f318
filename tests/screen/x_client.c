#include "screen/x_client.h"

#include "input/key.h"
#include "support/cmocka_all.h"

#include <X11/Xutil.h>

#include <stdlib.h>
#include <string.h>

/* Only to end a test that would hang: the events awaited are already on their way. */
enum { PATIENCE_MS = 20000 };

Display *x_client_open(void)
{
    Display *x = XOpenDisplay(NULL);
    assert_non_null(x);
    return x;
}

static int has_title(Display *x, Window window, const char *title)
{
    char *name = NULL;
    int same = XFetchName(x, window, &name) && name && strcmp(name, title) == 0;
    if (name)
        XFree(name);
    return same;
}

Window x_client_find(Display *x, const char *title)
{
    Window root, parent, *children = NULL, found = None;
    unsigned count = 0;
    XQueryTree(x, DefaultRootWindow(x), &root, &parent, &children, &count);
    for (unsigned i = 0; i < count; i++)
        if (has_title(x, children[i], title))
            found = children[i];
    if (children)
        XFree(children);
    return found;
}

XImage *x_client_look(Display *x)
{
    int screen = DefaultScreen(x);
    unsigned width = (unsigned)DisplayWidth(x, screen), height = (unsigned)DisplayHeight(x, screen);
    XImage *image = XGetImage(x, RootWindow(x, screen), 0, 0, width, height, AllPlanes, ZPixmap);
    assert_non_null(image);
    return image;
}

uint32_t x_client_pixel(const XImage *image, int x, int y)
{
    /* XGetPixel is a macro that wants a pointer to what it will not change. */
    return (uint32_t)image->f.get_pixel((XImage *)(uintptr_t)image, x, y) & 0xffffff;
}

static void run(const char *command, const char *arguments)
{
    char line[256];
    snprintf(line, sizeof line, "%s %s", command, arguments);
    if (system(line) != 0)
        fail_msg("%s did not work", line);
}

void x_client_press(const char *keys)
{
    run("xdotool key --delay 0", keys);
}

void x_client_hold(const char *key, bool down)
{
    run(down ? "xdotool keydown" : "xdotool keyup", key);
}

void x_client_layout(const char *layout)
{
    run("setxkbmap", layout);
}

void x_client_ask_to_close(Display *x, Window window)
{
    XEvent event = { 0 };
    event.xclient.type = ClientMessage;
    event.xclient.window = window;
    event.xclient.message_type = XInternAtom(x, "WM_PROTOCOLS", False);
    event.xclient.format = 32;
    event.xclient.data.l[0] = (long)XInternAtom(x, "WM_DELETE_WINDOW", False);
    XSendEvent(x, window, False, NoEventMask, &event);
    XSync(x, False);
}

struct input_event x_client_next_key(struct screen_window *w, unsigned *others)
{
    if (others)
        *others = 0;
    for (;;) {
        struct input_event event = screen_wait(w, PATIENCE_MS);
        assert_int_not_equal(event.type, INPUT_NONE);
        if (event.type == INPUT_KEY)
            return event;
        if (others)
            *others |= 1u << event.type;
    }
}

void x_client_settle(struct screen_window *w)
{
    x_client_press("F12");
    assert_int_equal(x_client_next_key(w, NULL).key, KEY_F12);
}
