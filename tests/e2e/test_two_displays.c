/* Bench and table on two displays: the projector is asked for by a number on each and remembered; both windows live at
 * once, and keys go to the one that has them. What is ticked at the table the bench counts, what is written at the
 * bench is kept. Each window is compared with a twin that is told the same.
 *
 * test_two_displays CHALKLIGHT */
#include "app/memory.h"
#include "app/progress.h"
#include "base/file.h"
#include "base/xdg.h"
#include "bench/bench.h"
#include "calibration/table.h"
#include "e2e/desk.h"
#include "e2e/watch.h"
#include "input/key.h"
#include "paint/frame.h"
#include "scene/number.h"
#include "screen/bench.h"
#include "settings/settings.h"
#include "support/room.h"
#include "table/rig.h"

#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

/* The laptop's display, at the left of the projector's (tests/e2e/CMakeLists.txt). */
enum { BENCH_WIDTH = 1024, BENCH_HEIGHT = 600, MOST_STEPS = 12, LOOKS = 3000, LOOK_AGAIN_US = 10000 };

static const char *program;

struct here {
    struct room room;
    struct watch watch;
    struct text_font *font;
    struct screen_letters *letters;
    const char *ticket;
    struct job job;
    struct bench *bench; /* twins */
    struct app *app;
};

/* --- what both windows should show ------------------------------------------------------------------------------- */

/* SDL writes into the byte beside the colour as well. */
static void bench_shows(struct here *h, const char *what)
{
    struct arena *a = base_arena_create();
    struct paint_image image = paint_image_create(a, BENCH_WIDTH, BENCH_HEIGHT);
    screen_draw_bench(h->letters, bench_picture(h->bench), &image);
    for (size_t i = 0; i < (size_t)BENCH_HEIGHT * image.stride; i++)
        image.pixels[i] &= 0xffffff;
    watch_for_picture_at(&h->watch, 0, 0, &image, what);
    base_arena_destroy(a);
}

static void table_shows(struct here *h, const char *what)
{
    struct arena *a = base_arena_create();
    struct paint_image image = rig_paint(a, h->app);
    watch_for_picture_at(&h->watch, BENCH_WIDTH, 0, &image, what);
    base_arena_destroy(a);
}

static void numbers_are_shown(struct here *h)
{
    static const int left[] = { 0, BENCH_WIDTH }, width[] = { BENCH_WIDTH, 1280 }, height[] = { BENCH_HEIGHT, 800 };
    for (int i = 0; i < 2; i++) {
        struct arena *a = base_arena_create();
        struct scene_number_view view = {
            .width_px = width[i],
            .height_px = height[i],
            .font = h->font,
            .number = i + 1,
            .lines = { "Which number is on your cutting table? Type it.", "It is remembered. Esc: leave it open.",
                       base_arena_print(a, "DUMMY%d, %d × %d", i, width[i], height[i]) }
        };
        struct paint_scene scene = scene_number(a, &view);
        struct paint_image image = paint_image_create(a, width[i], height[i]);
        paint_frame(a, &scene, NULL, &image);
        watch_for_picture_at(&h->watch, left[i], 0, &image, "going to the table");
        base_arena_destroy(a);
    }
}

/* The bench draws what the table shows and ticks off. */
static void tell_bench(struct here *h)
{
    struct arena *a = base_arena_create();
    const struct geometry_map *map = app_map(h->app);
    struct app_progress progress = app_progress_of(h->app, a);
    struct paint_scene scene = app_scene(h->app, a);
    bench_set_progress(h->bench, &progress);
    bench_set_glance(h->bench, &scene, map, map->width_px, map->height_px);
    base_arena_destroy(a);
}

/* --- keys -------------------------------------------------------------------------------------------------------- */

/* Keys are the window's that has the focus: it is waited for, by where that window stands. */
static void go_over(struct here *h, int left)
{
    XWindowAttributes at = { .x = -1 };
    Window focus;
    int revert;
    x_client_press("F12");
    for (int i = 0; i < LOOKS && at.x != left; i++) {
        usleep(LOOK_AGAIN_US);
        XGetInputFocus(h->watch.x, &focus, &revert);
        XGetWindowAttributes(h->watch.x, focus, &at);
    }
    assert_int_equal(at.x, left);
}

static struct input_event event_of(const char *our_name)
{
    struct input_event e = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &e.key, &e.mods));
    return e;
}

static void press_at_table(struct here *h, const char *name, const char *our_name)
{
    app_handle(h->app, event_of(our_name));
    tell_bench(h);
    x_client_press(name);
    table_shows(h, our_name);
    bench_shows(h, our_name);
}

static void press_at_bench(struct here *h, const char *name, const char *our_name)
{
    bench_handle(h->bench, event_of(our_name));
    x_client_press(name);
    bench_shows(h, our_name);
}

static int ticked(struct here *h)
{
    struct app_progress progress = app_progress_of(h->app, h->room.a);
    int count = 0;
    for (size_t i = 0; i < progress.line_count; i++)
        count += progress.lines[i].cut;
    return count;
}

static void tick_the_next(struct here *h)
{
    int before = ticked(h);
    for (int i = 0; i < MOST_STEPS && ticked(h) == before; i++)
        press_at_table(h, "Return", "enter");
    assert_true(ticked(h) > before);
}

/* --- before it begins -------------------------------------------------------------------------------------------- */

static void run_to_end(const char *const *words)
{
    pid_t pid;
    int status = -1;
    assert_int_equal(posix_spawn(&pid, words[0], NULL, NULL, (char *const *)words, environ), 0);
    assert_int_equal(waitpid(pid, &status, 0), pid);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
}

/* The cautions were shown, but not today; keys may come as fast as the test presses them. */
static void bring_settings(struct here *h)
{
    time_t then = time(NULL) - 86400;
    struct tm day;
    char date[sizeof "2026-11-30"];
    assert_true(localtime_r(&then, &day) && strftime(date, sizeof date, "%Y-%m-%d", &day));
    const char *text = base_arena_print(
        h->room.a, "{\"chalklight\": \"settings\", \"version\": 1, \"lockout_ms\": 0, \"cautioned\": \"%s\"}\n", date);
    const char *path = room_path(&h->room, "config/chalklight/settings.json");
    assert_true(base_xdg_make_folders(path, h->room.errs));
    assert_true(base_file_save(path, text, strlen(text), h->room.errs));
}

/* A ticket with a table and its main fabric laid out, by the program's own commands. */
static void prepare(struct here *h)
{
    bring_settings(h);
    struct calibration_table table;
    const char *path = room_path(&h->room, "table.json");
    assert_true(rig_exact_table(h->room.a, &desk, &table, h->room.errs));
    const char *text = calibration_table_print(h->room.a, &table);
    assert_true(base_file_save(path, text, strlen(text), h->room.errs));
    const char *const job[] = { program,
                                "job",
                                DEMO_FOLDER "/pinafore.json",
                                "--body",
                                DEMO_FOLDER "/guide.json",
                                "--view",
                                "A",
                                "--table",
                                path,
                                "--out",
                                h->ticket,
                                NULL };
    run_to_end(job);
    const char *const lay[] = {
        program, "lay", h->ticket, "--for", "fabric", "--width", "115 cm", "--rounds", "2", NULL
    };
    run_to_end(lay);
    assert_true(job_read(h->room.a, h->ticket, &h->job, h->room.errs));
    assert_int_equal(h->job.ticket.notes.count, 0);
}

static void begin_bench(struct here *h)
{
    struct bench_start start = { .manner = { .unit = UNITS_CM } };
    h->bench = bench_create(&start);
    bench_fit(h->bench, BENCH_WIDTH, BENCH_HEIGHT,
              screen_letters_at(h->letters, bench_scale(h->bench, BENCH_WIDTH, BENCH_HEIGHT)));
    bench_handle(h->bench, (struct input_event){ .type = INPUT_DROP, .path = h->ticket });
}

/* As it is begun, with what the one before has done; the cautions are shown once a day. */
static void begin_app(struct here *h)
{
    struct app_start start = {
        .job = &h->job, .table = h->job.table, .font = h->font, .cautions = !h->app, .unit = UNITS_CM
    };
    size_t count = 0;
    const char *const *lines = h->app ? app_remember_all(h->app, h->room.a, &count) : NULL;
    h->app = app_create(h->room.a, &start, h->room.errs);
    assert_non_null(h->app);
    for (size_t i = 0; i < count; i++)
        assert_true(app_recall(h->app, lines[i], h->room.errs));
    app_doubt_scale(h->app, APP_DOUBT_START);
}

static void table_is_begun(struct here *h)
{
    begin_app(h);
    bench_set_at_table(h->bench, BENCH_TO_CUT);
    tell_bench(h);
    table_shows(h, "going to the table");
    bench_shows(h, "going to the table");
}

static const char *kept_note(struct here *h)
{
    struct job job;
    assert_true(job_read(h->room.a, h->ticket, &job, h->room.errs));
    return job.ticket.notes.count ? job.ticket.notes.items[0].text : "";
}

/* On the bench's page of settings: the tag before the last one asks by a number on each display. */
static void another_projector_is_chosen(struct here *h)
{
    press_at_bench(h, "F5", "f5");
    press_at_bench(h, "shift+Tab", "shift tab");
    press_at_bench(h, "shift+Tab", "shift tab");
    x_client_press("Return");
    bench_handle(h->bench, event_of("enter"));
    numbers_are_shown(h);
    x_client_press("1");
    bench_tell(h->bench, "The projector is “DUMMY0” from now on.");
    bench_shows(h, "choosing the projector");
}

/* --- the story --------------------------------------------------------------------------------------------------- */

static void bench_and_table_live_side_by_side(void **state)
{
    struct here *h = *state;
    prepare(h);
    begin_bench(h);
    const char *const words[] = { program, h->ticket, NULL };
    watch_start(&h->watch, words);
    bench_shows(h, "starting");

    x_client_press("F12");
    numbers_are_shown(h);
    x_client_press("2");
    table_is_begun(h);
    press_at_table(h, "Return", "enter");
    tick_the_next(h);

    /* Keys go to the bench until she goes back, and a note is not lost. */
    go_over(h, 0);
    press_at_bench(h, "Tab", "tab");
    press_at_bench(h, "s", "s");
    press_at_bench(h, "Tab", "tab");
    assert_string_equal(kept_note(h), "s");
    table_shows(h, "a note");
    go_over(h, BENCH_WIDTH);
    tick_the_next(h);

    /* The bench's own button leaves the table; what was ticked is known by its journal then. */
    go_over(h, 0);
    press_at_bench(h, "Tab", "tab");
    x_client_press("shift+Tab");
    bench_handle(h->bench, event_of("shift tab"));
    bench_shows(h, "shift tab");
    x_client_press("Return");
    bench_handle(h->bench, event_of("enter"));
    bench_set_at_table(h->bench, BENCH_STAY);
    bench_shows(h, "leaving the table");
    assert_string_equal(kept_note(h), "s");

    /* The projector is remembered: it is not asked for again. */
    x_client_press("F12");
    table_is_begun(h);
    press_at_table(h, "Return", "enter");
    x_client_press("ctrl+q");
    bench_set_at_table(h->bench, BENCH_STAY);
    bench_shows(h, "leaving the table again");
    another_projector_is_chosen(h);
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

static void a_projector_that_is_not_there_is_asked_for_again(void **state)
{
    struct here *h = *state;
    prepare(h);
    begin_app(h);
    const char *const remember[] = { program, "settings", "projector", "another", NULL };
    run_to_end(remember);
    const char *const words[] = { program, "cut", h->ticket, NULL };
    watch_start(&h->watch, words);
    numbers_are_shown(h);
    x_client_press("2");
    table_shows(h, "the number");
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
    const char *const again[] = { program, "cut", h->ticket, "--display", "2", NULL };
    watch_start(&h->watch, again);
    table_shows(h, "starting on a display that is named");
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

static int set_up(void **state)
{
    static struct here h;
    h = (struct here){ .bench = NULL };
    room_init(&h.room);
    h.letters = screen_letters_open(h.room.errs);
    h.font = text_font_open(h.room.errs);
    h.ticket = room_path(&h.room, "ticket.json");
    setenv("XDG_DATA_HOME", room_path(&h.room, "data"), 1);
    setenv("XDG_CONFIG_HOME", room_path(&h.room, "config"), 1);
    *state = &h;
    return watch_open(&h.watch) && h.letters && h.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    watch_close(&h->watch);
    bench_destroy(h->bench);
    screen_letters_close(h->letters);
    text_font_close(h->font);
    return room_close(state);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(bench_and_table_live_side_by_side, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_projector_that_is_not_there_is_asked_for_again, set_up, tear_down),
    };
    if (argc != 2)
        return 2;
    program = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
