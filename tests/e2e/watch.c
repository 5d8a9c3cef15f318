#include "e2e/watch.h"

#include "support/cmocka_all.h"

#include <X11/Xutil.h>

#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define KEY_PACE_MS "12" /* from key to key: as quick as anybody types */

enum { PATIENCE_MS = 30000, LOOK_AGAIN_MS = 5, MOST_KEYS = 64 };

bool watch_open(struct watch *w)
{
    *w = (struct watch){ .x = x_client_open() };
    return w->x != NULL;
}

void watch_close(struct watch *w)
{
    if (w->child > 0) {
        kill(w->child, SIGKILL);
        waitpid(w->child, NULL, 0);
    }
    if (w->x)
        XCloseDisplay(w->x);
}

void watch_start(struct watch *w, const char *const *words)
{
    assert_int_equal(posix_spawn(&w->child, words[0], NULL, NULL, (char *const *)words, environ), 0);
}

static bool limit_files(pid_t pid, rlim_t bytes)
{
    const struct rlimit limit = { bytes, RLIM_INFINITY };
    return prlimit(pid, RLIMIT_FSIZE, &limit, NULL) == 0;
}

void watch_start_on_full_disk(struct watch *w, const char *const *words, rlim_t bytes)
{
    w->child = fork();
    assert_true(w->child >= 0);
    if (w->child == 0) {
        signal(SIGXFSZ, SIG_IGN);
        if (limit_files(0, bytes))
            execv(words[0], (char *const *)words);
        _exit(127);
    }
}

bool watch_limit_files(struct watch *w, rlim_t bytes)
{
    return limit_files(w->child, bytes);
}

void watch_for_end(struct watch *w)
{
    int status = -1;
    assert_int_equal(waitpid(w->child, &status, 0), w->child);
    w->child = 0;
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
}

void watch_kill(struct watch *w)
{
    assert_true(w->child > 0);
    assert_int_equal(kill(w->child, SIGKILL), 0);
    assert_int_equal(waitpid(w->child, NULL, 0), w->child);
    w->child = 0;
}

static long now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

static void wait_a_little(struct watch *w)
{
    struct pollfd connection = { ConnectionNumber(w->x), POLLIN, 0 };
    poll(&connection, 1, LOOK_AGAIN_MS);
}

static size_t differing_at(const XImage *seen, int left, int top, const struct paint_image *wanted)
{
    size_t count = 0;
    for (int y = 0; y < wanted->height; y++)
        for (int x = 0; x < wanted->width; x++)
            if (x_client_pixel(seen, left + x, top + y) != wanted->pixels[(size_t)y * wanted->stride + (size_t)x])
                count++;
    return count;
}

size_t watch_differing(const XImage *seen, const struct paint_image *wanted)
{
    return differing_at(seen, 0, 0, wanted);
}

bool watch_is(const XImage *seen, const struct paint_image *wanted)
{
    for (int y = 0; y < wanted->height; y++)
        for (int x = 0; x < wanted->width; x++)
            if (x_client_pixel(seen, x, y) != wanted->pixels[(size_t)y * wanted->stride + (size_t)x])
                return false;
    return true;
}

const char *watch_key_name(struct arena *a, const char *our_name)
{
    static const char *const names[][2] = {
        { "Enter", "Return" },
        { "Page Down", "Next" },
        { "Page Up", "Prior" },
        { "Ctrl Page Down", "ctrl+Next" },
        { "Ctrl Page Up", "ctrl+Prior" },
        { "Ctrl N", "ctrl+n" },
        { "Ctrl Z", "ctrl+z" },
        { "Ctrl Q", "ctrl+q" },
        { "Shift Tab", "shift+Tab" },
        { ".", "period" },
        { ",", "comma" },
        { "/", "slash" },
        { "+", "plus" },
        { "Space", "space" },
    };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strcmp(names[i][0], our_name) == 0)
            return names[i][1];
    return base_arena_copy_text(a, our_name);
}

void watch_press_on(struct watch *w, const char *const *keys)
{
    const char *words[MOST_KEYS + 5] = { "xdotool", "key", "--delay", KEY_PACE_MS };
    size_t count = 0;
    for (; keys[count]; count++) {
        assert_true(count < MOST_KEYS);
        words[4 + count] = keys[count];
    }
    assert_int_equal(posix_spawnp(&w->typist, words[0], NULL, NULL, (char *const *)words, environ), 0);
}

XImage *watch_kill_within(struct watch *w, double ms)
{
    double end = (double)now_ms() + ms;
    XImage *seen = x_client_look(w->x);
    while ((double)now_ms() < end) {
        XDestroyImage(seen);
        seen = x_client_look(w->x);
    }
    watch_kill(w);
    if (w->typist)
        assert_int_equal(waitpid(w->typist, NULL, 0), w->typist);
    w->typist = 0;
    return seen;
}

void watch_for_picture(struct watch *w, const struct paint_image *wanted, const char *what)
{
    watch_for_picture_at(w, 0, 0, wanted, what);
}

void watch_for_picture_at(struct watch *w, int x, int y, const struct paint_image *wanted, const char *what)
{
    long end = now_ms() + PATIENCE_MS;
    size_t off = 1;
    while (off && now_ms() < end) {
        XImage *seen = x_client_look(w->x);
        off = differing_at(seen, x, y, wanted);
        XDestroyImage(seen);
        if (off)
            wait_a_little(w);
    }
    if (off)
        fail_msg("after %s the window differs from what it should show in %zu pixels", what, off);
}

static bool is_lit(struct watch *w, int width, int height)
{
    bool lit = false;
    XImage *seen = x_client_look(w->x);
    for (int y = 0; y < height && !lit; y += 2)
        for (int x = 0; x < width && !lit; x += 2)
            lit = x_client_pixel(seen, x, y) != 0;
    XDestroyImage(seen);
    return lit;
}

void watch_for_light(struct watch *w, int width, int height)
{
    long end = now_ms() + PATIENCE_MS;
    bool lit = false;
    while (!lit && now_ms() < end) {
        wait_a_little(w);
        lit = x_client_find(w->x, "Chalklight") != None && is_lit(w, width, height);
    }
    assert_true(lit);
}

void watch_resize(struct watch *w, int width, int height)
{
    XResizeWindow(w->x, x_client_find(w->x, "Chalklight"), (unsigned)width, (unsigned)height);
    XFlush(w->x);
}
