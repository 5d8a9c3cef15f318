/* The bench in its window, with nothing open and then with the example, and the table, at 1920 x 1080.
 * app.first_frame_ms: from the program's start to the window's first picture; the median of 5 starts.
 * app.key_to_frame_ms: from a key to its picture: 95 of 100 keys are at least as quick. 100 keys on the page of pattern
 *   and size, each a quarter of a size, so that its pieces are drafted and drawn anew; wall time.
 * app.layout_key_to_frame_ms: the same on the page of the layout while two threads look for better ones: each key takes
 *   another piece in hand. app.layout_search_s: the processor time that these threads had meanwhile.
 * app.arrange_key_to_frame_ms: the same with the layout at the table.
 * app.cut_key_to_frame_ms: the same at the table, all pieces of the example moved, beside two threads of as low
 *   priority that never rest.
 * app.idle_cpu_pct: processor time of the program over a minute in which nothing happens, in per cent of one. */
#include "bench/at_window.h"
#include "bench/clock.h"
#include "bench/figure.h"

#include <X11/keysym.h>

#include <signal.h>
#include <stdbool.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

enum { STARTS = 5, WARM_UP = 5, KEYS = 100, MINUTE_S = 60, THREADS = 2, LOWEST = 19 };

/* Each ended by 0. Tab to the example, open it, one page on, the first view, and on to the size. */
static const unsigned long to_the_size[] = { XK_Tab, XK_Tab, XK_Return, XK_Next, XK_Right, XK_Tab, 0 };
/* The page of the cloth, to its width, 150 cm of it, and on to the layout. */
static const unsigned long to_the_layout[] = { XK_Next, XK_Tab, XK_Tab, XK_Tab, XK_1, XK_5, XK_0, XK_Next, 0 };

static bool press_all(struct at_window *w, const unsigned long *keys)
{
    bool ok = true;
    for (; ok && *keys; keys++)
        ok = at_window_press(w, *keys) >= 0;
    return ok;
}

/* Two keys in turn; prints 95 of 100, and the median. */
static bool time_keys(struct at_window *w, unsigned long one, unsigned long other, const char *name,
                      const char *median_name)
{
    double took[KEYS];
    for (int i = -WARM_UP; i < KEYS; i++) {
        double ms = at_window_press(w, i % 2 ? one : other);
        if (ms < 0)
            return false;
        took[i < 0 ? 0 : i] = ms;
    }
    qsort(took, KEYS, sizeof *took, by_size);
    figure(name, took[KEYS * 95 / 100 - 1], "ms");
    figure(median_name, took[KEYS / 2 - 1], "ms");
    return true;
}

static struct at_window *time_starts(const char *program)
{
    double first[STARTS];
    struct at_window *w = NULL;
    for (int i = 0; i < STARTS; i++) {
        if (w)
            at_window_end(w);
        w = at_window_start_bench(program, &first[i]);
        if (!w)
            return NULL;
    }
    qsort(first, STARTS, sizeof *first, by_size);
    figure("app.first_frame_ms", first[STARTS / 2], "ms");
    return w;
}

/* The layout's search goes on in threads of the program's own. */
static bool time_layout(struct at_window *w)
{
    double before = at_window_low_cpu_s(w);
    bool ok = press_all(w, to_the_layout) &&
              time_keys(w, XK_Next, XK_Next, "app.layout_key_to_frame_ms", "app.layout_key_to_frame_median_ms");
    double took = at_window_low_cpu_s(w) - before;
    figure("app.layout_search_s", took, "s");
    return ok && before >= 0 && took > 0;
}

static bool time_idle(struct at_window *w)
{
    double before = at_window_cpu_s(w);
    const struct timespec minute = { MINUTE_S, 0 };
    bool ok = before >= 0 && nanosleep(&minute, NULL) == 0;
    double after = at_window_cpu_s(w);
    figure("app.idle_cpu_pct", (after - before) / MINUTE_S * 100, "%");
    return ok && after >= 0;
}

static pid_t never_rest(void)
{
    pid_t pid = fork();
    if (pid != 0)
        return pid;
    setpriority(PRIO_PROCESS, 0, LOWEST);
    for (volatile unsigned long turn = 0;; turn++)
        continue;
}

/* All pieces, the cautions read. */
static const unsigned long to_all_pieces[] = { XK_Return, XK_a, 0 };

/* At the table. */
static bool time_cut(struct at_window *w)
{
    pid_t busy[THREADS];
    for (int i = 0; i < THREADS; i++)
        busy[i] = never_rest();
    bool ok = at_window_press_over(w, XK_F12) >= 0 && press_all(w, to_all_pieces) &&
              time_keys(w, XK_Left, XK_Right, "app.cut_key_to_frame_ms", "app.cut_key_to_frame_median_ms");
    for (int i = 0; i < THREADS; i++) {
        ok = ok && busy[i] > 0;
        if (busy[i] > 0 && kill(busy[i], SIGKILL) == 0)
            waitpid(busy[i], NULL, 0);
    }
    return ok;
}

static bool time_arranging(struct at_window *w)
{
    return at_window_press_over(w, XK_F12) >= 0 && at_window_press(w, XK_Return) >= 0 &&
           at_window_press(w, XK_r) >= 0 &&
           time_keys(w, XK_Next, XK_Next, "app.arrange_key_to_frame_ms", "app.arrange_key_to_frame_median_ms");
}

static bool time_bench(const char *program)
{
    struct at_window *w = time_starts(program);
    bool ok = w && press_all(w, to_the_size) &&
              time_keys(w, XK_Left, XK_Right, "app.key_to_frame_ms", "app.key_to_frame_median_ms") && time_idle(w) &&
              time_layout(w) && time_arranging(w);
    if (w)
        at_window_end(w);
    return ok;
}

static bool time_table(const char *program)
{
    double unused;
    struct at_window *w = at_window_start_bench(program, &unused);
    bool ok = w && press_all(w, to_the_size) && at_window_press(w, XK_Right) >= 0 && time_cut(w);
    if (w)
        at_window_end(w);
    return ok;
}

int main(int argc, char **argv)
{
    return argc == 2 && time_bench(argv[1]) && time_table(argv[1]) ? 0 : 1;
}
