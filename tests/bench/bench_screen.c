/* screen.idle_pct: processor time of the program, all threads, over a minute in which nothing happens, in per cent of
 * one processor. Pieces are shown, the journal has a step to bring to the disk. */
#include "bench/at_window.h"
#include "bench/figure.h"

#include <X11/keysym.h>

#include <time.h>

enum { SEGMENTS = 10000, MINUTE_S = 60 };

int main(int argc, char **argv)
{
    struct at_window *w = argc == 2 ? at_window_start(argv[1], SEGMENTS) : NULL;
    if (!w)
        return 1;
    bool ok = at_window_press(w, XK_Right) >= 0;
    double before = at_window_cpu_s(w);
    struct timespec minute = { MINUTE_S, 0 };
    ok = ok && before >= 0 && nanosleep(&minute, NULL) == 0;
    double after = at_window_cpu_s(w);
    at_window_end(w);
    if (!ok || after < 0)
        return 1;
    figure("screen.idle_pct", (after - before) / MINUTE_S * 100, "%");
    return 0;
}
