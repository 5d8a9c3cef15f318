/* The program in its window, full screen on a display nobody sees: keys are pressed by another X client, the window's
 * pixels are read back, compared with what the app says it shows, and measured on the virtual table.
 *
 * test_cut CHALKLIGHT: the program under test. */
#include "base/file.h"
#include "calibration/table.h"
#include "input/key.h"
#include "paint/frame.h"
#include "screen/x_client.h"
#include "support/room.h"
#include "table/rig.h"
#include "json/tree.h"
#include "json/write.h"

#include <X11/Xutil.h>

#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { PATIENCE_MS = 30000, LOOK_AGAIN_MS = 5 };

#define SQUARE_TOLERANCE_MM 0.1

extern char **environ;

static const char *program;

/* A projector for the test's screen: tilted 10°, turned a little, its axis at the picture's lower edge. */
static const struct vt_setup setup = { .name = "desk",
                                       .width_px = 1280,
                                       .height_px = 800,
                                       .throw_ratio = 1.4,
                                       .height_mm = 1500,
                                       .tilt_deg = 10,
                                       .turn_deg = 3,
                                       .foot_x_mm = 400,
                                       .foot_y_mm = 250,
                                       .shift = 1 };

struct here {
    struct room room;
    struct text_font *font;
    const char *job;
    struct app *app; /* what the window should show */
    Display *x;
    pid_t child;
};

static int run_to_end(char *const *words)
{
    pid_t pid;
    int status = -1;
    if (posix_spawn(&pid, words[0], NULL, NULL, words, environ) != 0 || waitpid(pid, &status, 0) != pid)
        return -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* The readings file of a person without noise. */
static void write_readings(struct here *h, const char *path)
{
    struct vt_noise noise = { 1 };
    struct calibration_readings readings = rig_read(h->room.a, &setup, RIG_READINGS, 0, &noise);
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "readings");
    json_out_number(top, "version", 1);
    json_out_text(top, "name", "desk");
    json_out_text(top, "unit", "mm");
    struct json_out *frame = json_out_object(top, "frame");
    json_out_number(frame, "width", setup.width_px);
    json_out_number(frame, "height", setup.height_px);
    struct json_out *list = json_out_list(top, "readings");
    for (size_t i = 0; i < readings.count; i++) {
        struct json_out *reading = json_out_object(list, NULL);
        json_out_number(reading, "cross", readings.items[i].cross);
        struct json_out *pixel = json_out_list(reading, "pixel"), *at = json_out_list(reading, "at");
        json_out_number(pixel, NULL, readings.items[i].px.x);
        json_out_number(pixel, NULL, readings.items[i].px.y);
        json_out_number(at, NULL, readings.items[i].at.x);
        json_out_number(at, NULL, readings.items[i].at.y);
    }
    const char *text = json_out_print(h->room.a, top);
    assert_true(base_file_save(path, text, strlen(text), h->room.errs));
    json_out_destroy(top);
}

/* Readings, table and job by the program's own commands; the twin app on the same table and job. */
static void prepare(struct here *h)
{
    const char *readings = room_path(&h->room, "readings.json"), *table = room_path(&h->room, "table.json");
    struct calibration_table t;
    h->job = room_path(&h->room, "job.json");
    write_readings(h, readings);
    const char *const calibrate[] = { program, "calibrate", readings, "--out", table, NULL };
    const char *const make_job[] = { program,
                                     "job",
                                     DEMO_FOLDER "/pinafore.json",
                                     "--body",
                                     DEMO_FOLDER "/guide.json",
                                     "--view",
                                     "A",
                                     "--table",
                                     table,
                                     "--out",
                                     h->job,
                                     NULL };
    assert_int_equal(run_to_end((char *const *)calibrate), 0);
    assert_int_equal(run_to_end((char *const *)make_job), 0);
    assert_true(calibration_table_read(h->room.a, table, &t, h->room.errs));
    h->app = rig_app(h->room.a, &t, h->font, h->room.errs);
    assert_non_null(h->app);
}

static long now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

static size_t differing(const XImage *seen, const struct paint_image *wanted)
{
    size_t count = 0;
    for (int y = 0; y < wanted->height; y++)
        for (int x = 0; x < wanted->width; x++)
            if (x_client_pixel(seen, x, y) != wanted->pixels[(size_t)y * wanted->stride + (size_t)x])
                count++;
    return count;
}

/* Looks at the window until it shows exactly this picture; fails when it does not in time. */
static void wait_for_picture(struct here *h, const struct paint_image *wanted, const char *what)
{
    long end = now_ms() + PATIENCE_MS;
    size_t off = 1;
    while (off && now_ms() < end) {
        XImage *seen = x_client_look(h->x);
        off = differing(seen, wanted);
        XDestroyImage(seen);
        struct pollfd connection = { ConnectionNumber(h->x), POLLIN, 0 };
        if (off)
            poll(&connection, 1, LOOK_AGAIN_MS);
    }
    if (off)
        fail_msg("after %s the window differs from the app in %zu pixels", what, off);
}

/* One key pressed at the window and given to the twin; then both show the same. */
static void press(struct here *h, const char *xdotool_name, const char *our_name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &event.key, &event.mods));
    app_handle(h->app, event);
    x_client_press(xdotool_name);
    struct arena *frame = base_arena_create();
    struct paint_image wanted = rig_paint(frame, h->app);
    wait_for_picture(h, &wanted, our_name);
    base_arena_destroy(frame);
}

/* The window's pixels, as they are now, measured on the table. */
static double measured_square(struct here *h)
{
    struct arena *frame = base_arena_create();
    struct vt_pt corner[4] = { 0 };
    rig_square(frame, h->app, corner);
    XImage *seen = x_client_look(h->x);
    struct paint_image image = paint_image_create(frame, setup.width_px, setup.height_px);
    for (int y = 0; y < image.height; y++)
        for (int x = 0; x < image.width; x++)
            image.pixels[(size_t)y * image.stride + (size_t)x] = x_client_pixel(seen, x, y);
    XDestroyImage(seen);
    double error = rig_square_error(&setup, &image, corner, 100);
    base_arena_destroy(frame);
    return error;
}

/* Waits until the window is there and shows something. */
static void wait_for_light(struct here *h)
{
    long end = now_ms() + PATIENCE_MS;
    bool lit = false;
    while (!lit && now_ms() < end) {
        struct pollfd connection = { ConnectionNumber(h->x), POLLIN, 0 };
        poll(&connection, 1, LOOK_AGAIN_MS);
        if (x_client_find(h->x, "Chalklight") == None)
            continue;
        XImage *seen = x_client_look(h->x);
        for (int y = 0; y < setup.height_px && !lit; y += 2)
            for (int x = 0; x < setup.width_px && !lit; x += 2)
                lit = x_client_pixel(seen, x, y) != 0;
        XDestroyImage(seen);
    }
    assert_true(lit);
}

static void start(struct here *h, const char *const *words)
{
    assert_int_equal(posix_spawn(&h->child, program, NULL, NULL, (char *const *)words, environ), 0);
}

static void wait_for_end(struct here *h)
{
    int status = -1;
    assert_int_equal(waitpid(h->child, &status, 0), h->child);
    h->child = 0;
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
}

static void the_window_shows_true_scale_whatever_key_is_pressed(void **state)
{
    struct here *h = *state;
    static const char *const keys[][2] = {
        { "Right", "right" },
        { "shift+Up", "shift up" },
        { "t", "t" },
        { "comma", "," },
        { "ctrl+period", "ctrl ." },
        { "o", "o" },
        { "plus", "+" },
        { "minus", "-" },
        { "Next", "page down" },
        { "Prior", "page up" },
        { "a", "a" },
        { "Home", "home" },
        { "r", "r" },
        { "c", "c" },
        { "Tab", "tab" },
        { "F1", "f1" },
        { "Escape", "esc" },
        { "b", "b" },
        { "b", "b" },
        { "s", "s" },
    };
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    start(h, words);

    /* It opens with the cautions; any key goes on. */
    wait_for_light(h);
    struct paint_image first = rig_paint(h->room.a, h->app);
    XImage *seen = x_client_look(h->x);
    assert_true(differing(seen, &first) > 0);
    XDestroyImage(seen);
    x_client_press("Return");
    wait_for_picture(h, &first, "the cautions");

    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        press(h, keys[i][0], keys[i][1]);
    double error = measured_square(h);
    if (!(error <= SQUARE_TOLERANCE_MM))
        fail_msg("the window's square is %.3f mm off", error);

    x_client_press("ctrl+q");
    wait_for_end(h);
}

/* Killed without warning in the middle of the work; started again it stands where it was. */
static void a_killed_program_comes_back_where_it_was(void **state)
{
    struct here *h = *state;
    static const char *const keys[][2] = {
        { "Next", "page down" }, { "Right", "right" }, { "comma", "," }, { "o", "o" }, { "plus", "+" }, { "c", "c" },
    };
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    start(h, words);
    wait_for_light(h);
    x_client_press("Return");
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        press(h, keys[i][0], keys[i][1]);
    assert_int_equal(kill(h->child, SIGKILL), 0);
    assert_int_equal(waitpid(h->child, NULL, 0), h->child);
    start(h, words);
    wait_for_light(h);
    x_client_press("Return");
    struct paint_image wanted = rig_paint(h->room.a, h->app);
    wait_for_picture(h, &wanted, "being killed");
    x_client_press("ctrl+q");
    wait_for_end(h);
}

static void press_only(struct here *h, const char *xdotool_name, const char *our_name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &event.key, &event.mods));
    app_handle(h->app, event);
    x_client_press(xdotool_name);
}

static void resize(struct here *h, int width, int height)
{
    XResizeWindow(h->x, x_client_find(h->x, "Chalklight"), (unsigned)width, (unsigned)height);
    XFlush(h->x);
}

/* In a window of another size no piece is shown, only why; the size back, the pieces are, with a notice until the test
 * square was looked at. */
static void a_window_of_another_size_waits_for_its_own(void **state)
{
    struct here *h = *state;
    enum { WIDTH = 1000, HEIGHT = 700 };
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    start(h, words);
    wait_for_light(h);
    x_client_press("Return");
    press(h, "Next", "page down");

    resize(h, WIDTH, HEIGHT);
    struct paint_scene away = app_away_scene(h->app, h->room.a, WIDTH, HEIGHT, true);
    struct paint_image why = paint_image_create(h->room.a, WIDTH, HEIGHT);
    paint_frame(h->room.a, &away, NULL, &why);
    wait_for_picture(h, &why, "another size");
    press_only(h, "Right", "right");

    resize(h, setup.width_px, setup.height_px);
    app_doubt_scale(h->app);
    struct paint_image doubted = rig_paint(h->room.a, h->app);
    wait_for_picture(h, &doubted, "its own size");
    press(h, "s", "s");
    press(h, "Escape", "esc");
    x_client_press("ctrl+q");
    wait_for_end(h);
}

static bool set_file_limit(pid_t pid, rlim_t bytes)
{
    const struct rlimit limit = { bytes, RLIM_INFINITY };
    return prlimit(pid, RLIMIT_FSIZE, &limit, NULL) == 0;
}

/* Starts the program with files allowed to grow to so many bytes only: a disk that is full (EFBIG for ENOSPC). */
static void start_on_full_disk(struct here *h, const char *const *words, rlim_t bytes)
{
    h->child = fork();
    assert_true(h->child >= 0);
    if (h->child == 0) {
        signal(SIGXFSZ, SIG_IGN);
        if (set_file_limit(0, bytes))
            execv(program, (char *const *)words);
        _exit(127);
    }
}

/* Told on the table as soon as a step cannot be kept; with room again the next key keeps all, and nothing is lost. */
static void a_full_disk_is_told_and_loses_nothing(void **state)
{
    struct here *h = *state;
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    start(h, words);
    wait_for_light(h);
    x_client_press("Return");
    press(h, "Right", "right");
    x_client_press("ctrl+q");
    wait_for_end(h);

    start_on_full_disk(h, words, 100); /* less than the journal has already */
    wait_for_light(h);
    x_client_press("Return");
    press_only(h, "Up", "up");
    app_set_trouble(h->app, "Your last steps are not kept (File too large). Make room: the next key keeps them all");
    press(h, "Next", "page down");
    press(h, "comma", ",");
    assert_true(set_file_limit(h->child, RLIM_INFINITY));
    app_set_trouble(h->app, NULL);
    press(h, "t", "t");
    assert_int_equal(kill(h->child, SIGKILL), 0);
    assert_int_equal(waitpid(h->child, NULL, 0), h->child);

    start(h, words);
    wait_for_light(h);
    x_client_press("Return");
    press(h, "Prior", "page up"); /* the first piece has its two moves, too */
    press(h, "Next", "page down");
    x_client_press("ctrl+q");
    wait_for_end(h);
}

/* Whether the crosses that the readings file names are where the window shows them: the middle is dark, the arms begin
 * some pixels from it, level and upright. */
static void the_crosses_stand_where_the_readings_file_says(void **state)
{
    struct here *h = *state;
    const char *readings = room_path(&h->room, "mine.json");
    const char *const words[] = { program, "crosses", "--readings", readings, NULL };
    start(h, words);
    wait_for_light(h);
    const struct json_node *list = json_find(json_read_file(h->room.a, readings, h->room.errs), "readings");
    assert_non_null(list);
    assert_true(list->count >= 13);
    XImage *seen = x_client_look(h->x);
    for (const struct json_node *n = list->first; n; n = n->next) {
        const struct json_node *pixel = json_find(n, "pixel");
        int x = (int)pixel->first->number, y = (int)pixel->first->next->number;
        assert_int_equal(x_client_pixel(seen, x, y), 0);
        assert_true(vt_luminance(x_client_pixel(seen, x + 20, y)) > 0.5);
        assert_true(vt_luminance(x_client_pixel(seen, x - 20, y)) > 0.5);
        assert_true(vt_luminance(x_client_pixel(seen, x, y + 20)) > 0.5);
        assert_true(vt_luminance(x_client_pixel(seen, x, y - 20)) > 0.5);
    }
    XDestroyImage(seen);
    x_client_press("Escape");
    wait_for_end(h);
}

static int set_up(void **state)
{
    static struct here h;
    h = (struct here){ .child = 0 };
    room_init(&h.room);
    h.font = text_font_open(h.room.errs);
    h.x = x_client_open();
    *state = &h;
    return h.font && h.x ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    if (h->child > 0) {
        kill(h->child, SIGKILL);
        waitpid(h->child, NULL, 0);
    }
    XCloseDisplay(h->x);
    text_font_close(h->font);
    return room_close(state);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_crosses_stand_where_the_readings_file_says, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_killed_program_comes_back_where_it_was, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_window_of_another_size_waits_for_its_own, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_full_disk_is_told_and_loses_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_window_shows_true_scale_whatever_key_is_pressed, set_up, tear_down),
    };
    if (argc != 2)
        return 2;
    program = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
