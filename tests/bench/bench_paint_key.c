/* paint.key_to_frame_ms: from a key pressed at the program's window to its new picture there: 95 of 100 keys are at
 * least as quick. 300 keys that move all pieces, 10,000 segments of cutting line (and as many of stitching line), wall
 * time with the X server's own part in it. */
#include "bench/at_window.h"
#include "bench/figure.h"

#include <X11/keysym.h>

#include <stdlib.h>

enum { SEGMENTS = 10000, WARM_UP = 20, KEYS = 300 };

static int rising(const void *a, const void *b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

int main(int argc, char **argv)
{
    double took[KEYS];
    bool ok = argc == 2;
    struct at_window *w = ok ? at_window_start(argv[1], SEGMENTS) : NULL;
    if (!w)
        return 1;
    for (int i = -WARM_UP; ok && i < KEYS; i++) {
        double ms = at_window_press(w, i % 2 ? XK_Left : XK_Right);
        ok = ms >= 0;
        took[i < 0 ? 0 : i] = ms;
    }
    at_window_end(w);
    if (!ok)
        return 1;
    qsort(took, KEYS, sizeof *took, rising);
    figure("paint.key_to_frame_ms", took[KEYS * 95 / 100 - 1], "ms");
    figure("paint.key_to_frame_median_ms", took[KEYS / 2 - 1], "ms");
    return 0;
}
