/* What an X server complains of late and does no harm.
 *
 * SDL ends a wait by a message to one of its windows, over a connection of its own (X11_SendWakeupEvent): one that
 * comes when the window is closed is complained of, at any later moment, and Xlib would end the program. */
#include "screen/inside.h"

#include <X11/Xlib.h>
#include <X11/Xproto.h>

/* Xlib's own handler is known by taking ours away for a moment. */
static int end_as_xlib_does(Display *display, XErrorEvent *error)
{
    XErrorHandler ours = XSetErrorHandler(NULL);
    XErrorHandler usual = XSetErrorHandler(ours);
    return usual(display, error);
}

static int judge(Display *display, XErrorEvent *error)
{
    bool late_message = error->error_code == BadWindow && error->request_code == X_SendEvent;
    return late_message ? 0 : end_as_xlib_does(display, error);
}

void screen_forgive_late_messages(void)
{
    XSetErrorHandler(judge);
}
