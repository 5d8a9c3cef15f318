#include "bench/at_window.h"

#include <X11/Xlib.h>
#include <X11/Xutil.h>
#include <X11/extensions/XTest.h>
#include <X11/extensions/Xdamage.h>
#include <X11/keysym.h>

#include <dirent.h>
#include <ftw.h>
#include <math.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char **environ;

enum { CORNERS = 100, PATIENCE_MS = 20000, LOOK_AGAIN_MS = 2, SETTLE_MS = 500 };

struct at_window {
    Display *x;
    Damage damage;
    int damage_event;
    pid_t child;
    char folder[32];
};

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

/* A wavy ring of CORNERS corners, one of many alike; its stitching line and its cutting line have as many each. */
static void write_piece(FILE *f, int number)
{
    fprintf(f, "%s{\"name\": \"ring %d\", \"allowance\": 10, \"points\": {", number ? ", " : "", number);
    for (int i = 0; i < CORNERS; i++) {
        double angle = 2 * acos(-1) * i / CORNERS, radius = 50 + 3 * sin(5 * angle);
        fprintf(f, "%s\"p%d\": [%.6f, %.6f]", i ? ", " : "", i, radius * cos(angle), radius * sin(angle));
    }
    fprintf(f, "}, \"outline\": [{\"name\": \"all\", \"path\": [");
    for (int i = 0; i <= CORNERS; i++)
        fprintf(f, "%s\"p%d\"", i ? ", " : "", i % CORNERS);
    fprintf(f, "]}]}");
}

static void write_pattern(FILE *f, int pieces)
{
    fprintf(f,
            "{\"chalklight\": \"pattern\", \"version\": 1, \"name\": \"Rings\", \"unit\": \"mm\", \"sizes\": [\"1\"], "
            "\"chart\": {\"bust\": [900]}, \"main_measurement\": \"bust\", \"pieces\": [");
    for (int i = 0; i < pieces; i++)
        write_piece(f, i);
    fprintf(f, "], \"views\": [{\"name\": \"A\", \"label\": \"All\", \"cut\": [");
    for (int i = 0; i < pieces; i++)
        fprintf(f, "%s{\"piece\": \"ring %d\", \"count\": 1}", i ? ", " : "", i);
    fprintf(f, "]}]}\n");
}

static void write_body(FILE *f, int unused)
{
    (void)unused;
    fprintf(f, "{\"chalklight\": \"body\", \"version\": 1, \"name\": \"Bench\", \"unit\": \"mm\", "
               "\"measurements\": {\"bust\": 900}}\n");
}

static bool write_file(const struct at_window *w, const char *name, void (*write)(FILE *, int), int number,
                       char path[64])
{
    snprintf(path, 64, "%s/%s", w->folder, name);
    FILE *f = fopen(path, "w");
    if (!f)
        return false;
    write(f, number);
    return fclose(f) == 0;
}

/* What it says is not for the standard output: only figures go there. */
static pid_t run(const char *const *words)
{
    pid_t pid = -1;
    posix_spawn_file_actions_t silent;
    if (posix_spawn_file_actions_init(&silent) != 0)
        return -1;
    if (posix_spawn_file_actions_adddup2(&silent, STDERR_FILENO, STDOUT_FILENO) != 0 ||
        posix_spawn(&pid, words[0], &silent, NULL, (char *const *)words, environ) != 0)
        pid = -1;
    posix_spawn_file_actions_destroy(&silent);
    return pid;
}

/* The names of the job's files are the folder's own. */
static bool make_job(const struct at_window *w, const char *program, int segments, char job[64])
{
    char pattern[64], body[64];
    int status = -1;
    snprintf(job, 64, "%s/job.json", w->folder);
    if (!write_file(w, "pattern.json", write_pattern, (segments + CORNERS - 1) / CORNERS, pattern) ||
        !write_file(w, "body.json", write_body, 0, body))
        return false;
    const char *const words[] = { program, "job", pattern, "--body", body, "--view", "A", "--out", job, NULL };
    pid_t pid = run(words);
    return pid > 0 && waitpid(pid, &status, 0) == pid && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

/* The next event of that type, or false when none comes in time. */
static bool wait_for_event(Display *x, int type, double end_ms, XEvent *event)
{
    for (;;) {
        while (XPending(x)) {
            XNextEvent(x, event);
            if (event->type == type)
                return true;
        }
        double left = end_ms - now_ms();
        struct pollfd connection = { ConnectionNumber(x), POLLIN, 0 };
        if (left <= 0 || poll(&connection, 1, (int)left + 1) < 0)
            return false;
    }
}

static Window find_window(Display *x)
{
    Window root, parent, *children = NULL, found = None;
    unsigned count = 0;
    XQueryTree(x, DefaultRootWindow(x), &root, &parent, &children, &count);
    for (unsigned i = 0; i < count; i++) {
        char *name = NULL;
        XWindowAttributes is;
        if (XFetchName(x, children[i], &name) && strcmp(name, "Chalklight") == 0 &&
            XGetWindowAttributes(x, children[i], &is) && is.map_state == IsViewable)
            found = children[i];
        if (name)
            XFree(name);
    }
    if (children)
        XFree(children);
    return found;
}

/* One that is another one than before. */
static Window wait_for_window(Display *x, Window before)
{
    double end = now_ms() + PATIENCE_MS;
    Window window = before;
    while (window == before && now_ms() < end) {
        struct pollfd connection = { ConnectionNumber(x), POLLIN, 0 };
        poll(&connection, 1, LOOK_AGAIN_MS);
        window = find_window(x);
    }
    return window == before ? None : window;
}

/* Takes what was put meanwhile as seen: the next word is of a new picture. */
static void look(struct at_window *w)
{
    XDamageSubtract(w->x, w->damage, None, None);
    XSync(w->x, False);
    XEvent event;
    while (XPending(w->x))
        XNextEvent(w->x, &event);
}

static bool watch(struct at_window *w, Window before)
{
    Window window = wait_for_window(w->x, before);
    if (window == None)
        return false;
    w->damage = XDamageCreate(w->x, window, XDamageReportNonEmpty);
    return true;
}

/* A window may close while it is asked about. */
static int go_on(Display *x, XErrorEvent *error)
{
    (void)x;
    (void)error;
    return 0;
}

static bool open_window(struct at_window *w)
{
    int error_base, major, minor;
    XSetErrorHandler(go_on);
    w->x = XOpenDisplay(NULL);
    if (!w->x || !XDamageQueryExtension(w->x, &w->damage_event, &error_base) ||
        !XDamageQueryVersion(w->x, &major, &minor))
        return false;
    w->damage_event += XDamageNotify;
    return watch(w, None);
}

struct at_window *at_window_start(const char *program, int segments)
{
    struct at_window *w = calloc(1, sizeof *w);
    char job[64];
    if (!w)
        return NULL;
    strcpy(w->folder, "/tmp/chalklight-bench-XXXXXX");
    const char *const words[] = { program, "cut", job, NULL };
    bool made = mkdtemp(w->folder) && make_job(w, program, segments, job);
    w->child = made ? run(words) : -1;
    /* The first key takes the cautions away, the second shows all pieces. */
    if (w->child > 0 && open_window(w) && at_window_press(w, XK_Return) >= 0 && at_window_press(w, XK_a) >= 0)
        return w;
    fprintf(stderr, "the program did not come up in a window\n");
    at_window_end(w);
    return NULL;
}

/* Whether the window shows something: the bench is light all over, a window without a picture is black. */
static bool is_lit(struct at_window *w, Window window)
{
    XWindowAttributes is;
    if (!XGetWindowAttributes(w->x, window, &is))
        return false;
    XImage *image = XGetImage(w->x, window, is.width / 2, 8, 1, 1, AllPlanes, ZPixmap);
    bool lit = image && (XGetPixel(image, 0, 0) & 0xffffff) != 0;
    if (image)
        XDestroyImage(image);
    return lit;
}

struct at_window *at_window_start_bench(const char *program, double *first_frame_ms)
{
    struct at_window *w = calloc(1, sizeof *w);
    if (!w)
        return NULL;
    strcpy(w->folder, "/tmp/chalklight-bench-XXXXXX");
    bool made = mkdtemp(w->folder) && setenv("HOME", w->folder, 1) == 0 && setenv("XDG_DATA_HOME", w->folder, 1) == 0 &&
                setenv("XDG_CONFIG_HOME", w->folder, 1) == 0;
    const char *const words[] = { program, NULL };
    double from = now_ms();
    w->child = made ? run(words) : -1;
    bool up = w->child > 0 && open_window(w);
    Window window = up ? find_window(w->x) : None;
    while (up && !is_lit(w, window) && now_ms() - from < PATIENCE_MS)
        poll(NULL, 0, 1);
    *first_frame_ms = now_ms() - from;
    if (up && at_window_press(w, XK_space) >= 0) /* past the cautions */
        return w;
    fprintf(stderr, "the bench did not come up in a window\n");
    at_window_end(w);
    return NULL;
}

/* Removes what stands in a folder, and the folder. */
static int remove_one(const char *path, const struct stat *is, int type, struct FTW *at)
{
    (void)is, (void)type, (void)at;
    return remove(path);
}

void at_window_end(struct at_window *w)
{
    if (w->child > 0) {
        kill(w->child, SIGKILL);
        waitpid(w->child, NULL, 0);
    }
    if (w->x)
        XCloseDisplay(w->x);
    nftw(w->folder, remove_one, 8, FTW_DEPTH | FTW_PHYS);
    free(w);
}

double at_window_press(struct at_window *w, unsigned long keysym)
{
    XEvent event;
    unsigned code = XKeysymToKeycode(w->x, keysym);
    look(w);
    double from = now_ms();
    XTestFakeKeyEvent(w->x, code, True, CurrentTime);
    XFlush(w->x);
    bool shown = wait_for_event(w->x, w->damage_event, from + PATIENCE_MS, &event);
    double took = now_ms() - from;
    XTestFakeKeyEvent(w->x, code, False, CurrentTime);
    XSync(w->x, False);
    return shown ? took : -1;
}

double at_window_press_over(struct at_window *w, unsigned long keysym)
{
    Window before = find_window(w->x);
    double from = now_ms();
    XTestFakeKeyEvent(w->x, XKeysymToKeycode(w->x, keysym), True, CurrentTime);
    XTestFakeKeyEvent(w->x, XKeysymToKeycode(w->x, keysym), False, CurrentTime);
    XSync(w->x, False);
    XDamageDestroy(w->x, w->damage);
    if (!watch(w, before))
        return -1;
    /* Its first picture may have been there before it was watched. */
    XEvent event;
    wait_for_event(w->x, w->damage_event, now_ms() + SETTLE_MS, &event);
    return now_ms() - from;
}

/* Of a process or a thread; only if it is nice to others, where that is wanted. */
static bool read_cpu(const char *path, bool low, double *cpu_s)
{
    unsigned long user, system;
    long nice;
    FILE *f = fopen(path, "r");
    /* The name of the program, second, is in brackets and has no blank (proc(5)). */
    bool read = f && fscanf(f, "%*d %*s %*c %*d %*d %*d %*d %*d %*u %*u %*u %*u %*u %lu %lu %*d %*d %*d %ld", &user,
                            &system, &nice) == 3;
    if (f)
        fclose(f);
    if (read)
        *cpu_s += low && nice <= 0 ? 0 : (double)(user + system) / (double)sysconf(_SC_CLK_TCK);
    return read;
}

double at_window_cpu_s(const struct at_window *w)
{
    char path[32];
    double cpu_s = 0;
    snprintf(path, sizeof path, "/proc/%d/stat", (int)w->child);
    return read_cpu(path, false, &cpu_s) ? cpu_s : -1;
}

double at_window_low_cpu_s(const struct at_window *w)
{
    char path[300];
    double cpu_s = 0;
    snprintf(path, sizeof path, "/proc/%d/task", (int)w->child);
    DIR *tasks = opendir(path);
    if (!tasks)
        return -1;
    for (struct dirent *task = readdir(tasks); task; task = readdir(tasks)) {
        snprintf(path, sizeof path, "/proc/%d/task/%s/stat", (int)w->child, task->d_name);
        if (task->d_name[0] != '.')
            read_cpu(path, true, &cpu_s);
    }
    closedir(tasks);
    return cpu_s;
}
