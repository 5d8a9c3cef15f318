/* The bench in its window, with nothing open and then with the example, at 1920 x 1080.
 * app.first_frame_ms: from the program's start to the window's first picture; the median of 5 starts.
 * app.key_to_frame_ms: from a key to its picture: 95 of 100 keys are at least as quick. 100 keys on the page of pattern
 *   and size, each a quarter of a size, so that all sizes of the nest are drafted and drawn anew; wall time.
 * app.idle_cpu_pct: processor time of the program over a minute in which nothing happens, in per cent of one. */
#include "bench/at_window.h"
#include "bench/clock.h"
#include "bench/figure.h"

#include <X11/keysym.h>

#include <stdbool.h>

enum { STARTS = 5, WARM_UP = 5, KEYS = 100, MINUTE_S = 60 };

/* Tab to the example, open it, one page on, the first view, and on to the size. */
static const unsigned long to_the_size[] = { XK_Tab, XK_Tab, XK_Return, XK_Next, XK_Right, XK_Tab };

static bool time_keys(struct at_window *w, double took[KEYS])
{
    for (size_t i = 0; i < sizeof to_the_size / sizeof to_the_size[0]; i++)
        if (at_window_press(w, to_the_size[i]) < 0)
            return false;
    for (int i = -WARM_UP; i < KEYS; i++) {
        double ms = at_window_press(w, i % 2 ? XK_Left : XK_Right);
        if (ms < 0)
            return false;
        took[i < 0 ? 0 : i] = ms;
    }
    qsort(took, KEYS, sizeof *took, by_size);
    return true;
}

int main(int argc, char **argv)
{
    double first[STARTS], took[KEYS];
    struct at_window *w = NULL;
    for (int i = 0; argc == 2 && i < STARTS; i++) {
        if (w)
            at_window_end(w);
        w = at_window_start_bench(argv[1], &first[i]);
        if (!w)
            return 1;
    }
    bool ok = w && time_keys(w, took);
    double before = ok ? at_window_cpu_s(w) : -1;
    const struct timespec minute = { MINUTE_S, 0 };
    ok = ok && before >= 0 && nanosleep(&minute, NULL) == 0;
    double after = ok ? at_window_cpu_s(w) : -1;
    if (w)
        at_window_end(w);
    if (!ok || after < 0)
        return 1;
    qsort(first, STARTS, sizeof *first, by_size);
    figure("app.first_frame_ms", first[STARTS / 2], "ms");
    figure("app.key_to_frame_ms", took[KEYS * 95 / 100 - 1], "ms");
    figure("app.key_to_frame_median_ms", took[KEYS / 2 - 1], "ms");
    figure("app.idle_cpu_pct", (after - before) / MINUTE_S * 100, "%");
    return 0;
}
