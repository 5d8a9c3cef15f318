/* The program in its window, full screen on a display nobody sees: keys are pressed by another X client, the window's
 * pixels are read back, compared with what the app says it shows, and measured on the virtual table.
 *
 * test_cut CHALKLIGHT KILLS PAD_HOST: the program under test, how often it is killed at a random moment, and the
 * program with a game controller in it. */
#include "app/memory.h"
#include "app/progress.h"
#include "base/file.h"
#include "base/journal.h"
#include "calibration/table.h"
#include "e2e/watch.h"
#include "geometry/random.h"
#include "input/key.h"
#include "paint/frame.h"
#include "screen/x_client.h"
#include "support/room.h"
#include "table/rig.h"
#include "json/tree.h"
#include "json/write.h"

#include <X11/Xutil.h>

#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define SQUARE_TOLERANCE_MM 0.1

extern char **environ;

static const char *program, *pad_host;
static int kills;

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
    const char *table, *job;
    struct app *app; /* what the window should show */
    struct watch watch;
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

static int make_job(struct here *h, const char *view, bool replace)
{
    const char *const words[] = { program,
                                  "job",
                                  DEMO_FOLDER "/pinafore.json",
                                  "--body",
                                  DEMO_FOLDER "/guide.json",
                                  "--view",
                                  view,
                                  "--table",
                                  h->table,
                                  "--out",
                                  h->job,
                                  replace ? "--replace" : NULL,
                                  NULL };
    return run_to_end((char *const *)words);
}

/* Readings, table and job by the program's own commands; the twin app on the same table and job. */
static void prepare(struct here *h)
{
    const char *readings = room_path(&h->room, "readings.json");
    struct calibration_table t;
    h->table = room_path(&h->room, "table.json");
    h->job = room_path(&h->room, "job.json");
    write_readings(h, readings);
    const char *const calibrate[] = { program, "calibrate", readings, "--out", h->table, NULL };
    assert_int_equal(run_to_end((char *const *)calibrate), 0);
    assert_int_equal(make_job(h, "A", false), 0);
    assert_true(calibration_table_read(h->room.a, h->table, &t, h->room.errs));
    h->app = rig_app(h->room.a, &t, h->font, h->room.errs);
    assert_non_null(h->app);
    app_doubt_scale(h->app, APP_DOUBT_START);
}

/* Past the cautions. */
static void start_cutting(struct here *h, const char *const *words)
{
    watch_start(&h->watch, words);
    watch_for_light(&h->watch, setup.width_px, setup.height_px);
    x_client_press("Return");
}

static void leave(struct here *h)
{
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
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
    watch_for_picture(&h->watch, &wanted, our_name);
    base_arena_destroy(frame);
}

/* The window's pixels, as they are now, measured on the table. */
static double measured_square(struct here *h)
{
    struct arena *frame = base_arena_create();
    struct vt_pt corner[4] = { 0 };
    rig_square(frame, h->app, corner);
    XImage *seen = x_client_look(h->watch.x);
    struct paint_image image = paint_image_create(frame, setup.width_px, setup.height_px);
    for (int y = 0; y < image.height; y++)
        for (int x = 0; x < image.width; x++)
            image.pixels[(size_t)y * image.stride + (size_t)x] = x_client_pixel(seen, x, y);
    XDestroyImage(seen);
    double error = rig_square_error(&setup, &image, corner, 100);
    base_arena_destroy(frame);
    return error;
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

        { "c", "c" },
        { "shift+c", "shift c" },
        { "3", "3" },
        { "Escape", "esc" },
        { "shift+b", "shift b" },
        { "x", "x" },
        { "g", "g" },
        { "i", "i" },
        { "Escape", "esc" },
        { "shift+Tab", "shift tab" },
        { "Tab", "tab" },
        { "F1", "f1" },
        { "Escape", "esc" },
        { "b", "b" },
        { "b", "b" },
        { "s", "s" },
    };
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    watch_start(&h->watch, words);

    /* It opens with the cautions; any key goes on. */
    watch_for_light(&h->watch, setup.width_px, setup.height_px);
    struct paint_image first = rig_paint(h->room.a, h->app);
    XImage *seen = x_client_look(h->watch.x);
    assert_true(watch_differing(seen, &first) > 0);
    XDestroyImage(seen);
    x_client_press("Return");
    watch_for_picture(&h->watch, &first, "the cautions");

    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        press(h, keys[i][0], keys[i][1]);
    double error = measured_square(h);
    if (!(error <= SQUARE_TOLERANCE_MM))
        fail_msg("the window's square is %.3f mm off", error);

    leave(h);
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
    start_cutting(h, words);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        press(h, keys[i][0], keys[i][1]);
    watch_kill(&h->watch);
    start_cutting(h, words);
    struct paint_image wanted = rig_paint(h->room.a, h->app);
    watch_for_picture(&h->watch, &wanted, "being killed");
    leave(h);
}

enum { BURST = 12 }; /* keys between two kills */

#define BURST_MS 300.0 /* a little more than they take */
#define START_MS 700.0 /* a little more than the program needs to show something */

/* The whole lines of the job's journal without its head. A line that is being written has no end yet. */
static struct base_journal_lines journal(struct here *h)
{
    struct base_bytes text;
    const char *path = base_arena_print(h->room.a, "%s.journal", h->job), *from, *end;
    if (!base_file_exists(path))
        return (struct base_journal_lines){ NULL, 0 };
    assert_true(base_file_read(h->room.a, path, BASE_JOURNAL_MOST_BYTES, &text, h->room.errs));
    const char **lines = base_arena_alloc(h->room.a, text.count + 1, sizeof *lines);
    size_t count = 0;
    for (from = text.data; (end = strchr(from, '\n')); from = end + 1)
        lines[count++] = base_arena_copy_bytes(h->room.a, from, (size_t)(end - from));
    return (struct base_journal_lines){ lines, count };
}

static void starts_where_it_was(struct here *h)
{
    const char *const words[] = { program, "cut", h->job, NULL };
    struct arena *frame = base_arena_create();
    start_cutting(h, words);
    struct paint_image wanted = rig_paint(frame, h->app);
    watch_for_picture(&h->watch, &wanted, "being killed");
    base_arena_destroy(frame);
}

/* The twin goes through the keys that the journal has. It must say the same after each; what was seen last must be a
 * picture of one of these states, or a key that was seen is lost. */
static void follow(struct here *h, const char *const names[], const XImage *seen, const struct base_journal_lines *is,
                   size_t from)
{
    bool kept = false;
    for (size_t i = 0; from + i <= is->count; i++) {
        struct arena *frame = base_arena_create();
        struct input_event event = { .type = INPUT_KEY };
        if (i) {
            assert_true(input_key_from_name(names[i - 1], &event.key, &event.mods));
            app_handle(h->app, event);
            assert_string_equal(is->items[from + i - 1], app_remember(h->app, frame));
        }
        if (!kept) {
            struct paint_image picture = rig_paint(frame, h->app);
            kept = watch_is(seen, &picture);
        }
        base_arena_destroy(frame);
    }
    if (!kept)
        fail_msg("what was seen is none of the states that the journal's %zu lines lead to", is->count);
}

/* One burst of keys, and killed somewhere in it. */
static void press_and_kill(struct here *h, uint64_t *seed)
{
    static const char *const keys[][2] = {
        { "Right", "right" },
        { "Up", "up" },
        { "shift+Left", "shift left" },
        { "ctrl+Down", "ctrl down" },
        { "t", "t" },
        { "comma", "," },
        { "ctrl+period", "ctrl ." },
        { "o", "o" },
        { "plus", "+" },
        { "minus", "-" },
        { "Next", "page down" },
        { "Prior", "page up" },
        { "Home", "home" },
        { "a", "a" },
        { "u", "u" },
        { "e", "e" },
        { "c", "c" },
        { "Tab", "tab" },
        { "shift+Up", "shift up" },
    };
    enum { KEYS = sizeof keys / sizeof keys[0] };
    const char *pressed[BURST + 1] = { NULL }, *names[BURST];
    for (int i = 0; i < BURST; i++) {
        size_t k = (size_t)random_between(seed, 0, KEYS);
        pressed[i] = keys[k][0];
        names[i] = keys[k][1];
    }
    size_t from = journal(h).count;
    watch_press_on(&h->watch, pressed);
    XImage *seen = watch_kill_within(&h->watch, random_between(seed, 0, BURST_MS));
    struct base_journal_lines is = journal(h);
    assert_true(is.count >= from && is.count <= from + BURST);
    follow(h, names, seen, &is, from);
    XDestroyImage(seen);
}

/* Each time it comes back exactly where the keys led that it had taken, and it had taken all whose picture was seen.
 * One time in four it is killed while it starts, which changes nothing. */
static void killed_at_any_moment_it_has_kept_all_that_was_seen(void **state)
{
    struct here *h = *state;
    uint64_t seed = 20261125;
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    for (int i = 0; i < kills; i++) {
        if (i % 4 == 3) {
            watch_start(&h->watch, words);
            XImage *seen = watch_kill_within(&h->watch, random_between(&seed, 0, START_MS));
            XDestroyImage(seen); /* a macro that names it twice */
        } else {
            starts_where_it_was(h);
            press_and_kill(h, &seed);
        }
    }
    starts_where_it_was(h);
    leave(h);
}

/* A twin of the job as the program finds it: with what is remembered (NULL: nothing), without what was told. */
static void begin_twin(struct here *h, const struct app_start *start, const char *remembered)
{
    h->app = app_create(h->room.a, start, h->room.errs);
    assert_non_null(h->app);
    assert_true(app_section_count(h->app) > 1);
    assert_true(!remembered || app_recall(h->app, remembered, h->room.errs));
    app_doubt_scale(h->app, APP_DOUBT_START);
}

/* Its main fabric laid by the program's own command; the twin reads the job that came of it. */
static struct app_start prepare_layout(struct here *h)
{
    struct job *job = base_arena_alloc(h->room.a, 1, sizeof *job);
    prepare(h);
    const char *const lay[] = { program, "lay", h->job, "--for", "fabric", "--width", "115 cm", "--rounds", "2", NULL };
    assert_int_equal(run_to_end((char *const *)lay), 0);
    assert_true(job_read(h->room.a, h->job, job, h->room.errs));
    struct app_start start = { .job = job, .table = job->table, .font = h->font, .unit = job->body->unit };
    begin_twin(h, &start, NULL);
    return start;
}

/* Through first placing, a section and a slide, killed at every third key. */
static void a_layout_comes_back_where_it_was(void **state)
{
    struct here *h = *state;
    static const char *const keys[][2] = {
        { "f", "f" },
        { "Right", "right" },
        { "Return", "enter" },
        { "Return", "enter" },
        { "Escape", "esc" },
        { "Return", "enter" },
        { "5", "5" },
        { "BackSpace", "backspace" },
        { "Return", "enter" },
        { "Return", "enter" },
        { "Return", "enter" },
        { "w", "w" },
        { "shift+Up", "shift up" },
        { "Escape", "esc" },
        { "BackSpace", "backspace" },
        { "Next", "page down" },
    };
    struct app_start start = prepare_layout(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    start_cutting(h, words);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        press(h, keys[i][0], keys[i][1]);
        if (i % 3 != 2)
            continue;
        watch_kill(&h->watch);
        begin_twin(h, &start, app_remember(h->app, h->room.a));
        starts_where_it_was(h);
    }
    leave(h);
}

/* --- a game controller: which of SDL's buttons lies where is its documentation's ---------------------------------- */

enum { PAD_NEAR = 0, PAD_SHOULDER_RIGHT = 10, PAD_LEFT_X = 0, PAD_HELD = 32767, MOST_DONE = 60, MOST_LOOKS = 600 };

/* Plugged in when the window is there, as a person does. */
static int start_with_a_pad(struct here *h)
{
    const char *pipe = room_path(&h->room, "pad"), *settings = "{\"chalklight\": \"settings\", \"version\": 1, "
                                                               "\"lockout_ms\": 0}\n";
    const char *const words[] = { pad_host, pipe, "cut", h->job, NULL };
    assert_int_equal(mkdir(room_path(&h->room, "chalklight"), 0700), 0);
    room_put(&h->room, "chalklight/settings.json", settings);
    setenv("XDG_CONFIG_HOME", room_folder(&h->room), 1);
    assert_int_equal(mkfifo(pipe, 0600), 0);
    start_cutting(h, words);
    int pad = open(pipe, O_WRONLY | O_CLOEXEC);
    assert_true(pad >= 0);
    dprintf(pad, "plug\n");
    return pad;
}

static void press_pad(struct here *h, int pad, int button, const char *our_name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &event.key, &event.mods));
    app_handle(h->app, event);
    dprintf(pad, "down %d\n", button);
    struct arena *frame = base_arena_create();
    struct paint_image wanted = rig_paint(frame, h->app);
    watch_for_picture(&h->watch, &wanted, our_name);
    base_arena_destroy(frame);
    dprintf(pad, "up %d\n", button);
}

/* A number of the journal's last line: what a stick moves is kept once it is let go. */
static double kept(struct here *h, const char *name)
{
    struct base_journal_lines lines = journal(h);
    const char *key = base_arena_print(h->room.a, "\"%s\": ", name);
    const char *at = lines.count ? strstr(lines.items[lines.count - 1], key) : NULL;
    assert_non_null(at);
    return at ? strtod(at + strlen(key), NULL) : 0;
}

/* Until the window shows something else than the twin does. */
static void wait_for_another_picture(struct here *h)
{
    struct arena *frame = base_arena_create();
    struct paint_image now = rig_paint(frame, h->app);
    bool same = true;
    for (int i = 0; same && i < MOST_LOOKS; i++) {
        XImage *seen = x_client_look(h->watch.x);
        same = watch_is(seen, &now);
        XDestroyImage(seen);
    }
    base_arena_destroy(frame);
    assert_false(same);
}

/* How long a stick is held no clock of ours tells: the piece has to lie where the journal says that it does. */
static void window_shows_what_is_kept(struct here *h)
{
    bool shows = false;
    for (int i = 0; !shows && i < MOST_LOOKS; i++) {
        struct base_journal_lines lines = journal(h);
        struct arena *frame = base_arena_create();
        XImage *seen = x_client_look(h->watch.x);
        assert_true(app_recall(h->app, lines.items[lines.count - 1], h->room.errs));
        struct paint_image wanted = rig_paint(frame, h->app);
        shows = watch_is(seen, &wanted);
        XDestroyImage(seen);
        base_arena_destroy(frame);
    }
    assert_true(shows);
}

static void a_game_controller_steps_and_pans_a_piece(void **state)
{
    struct here *h = *state;
    prepare(h);
    int pad = start_with_a_pad(h);
    press_pad(h, pad, PAD_SHOULDER_RIGHT, "shoulder right");
    dprintf(pad, "axis %d %d\n", PAD_LEFT_X, PAD_HELD);
    wait_for_another_picture(h);
    dprintf(pad, "axis %d 0\n", PAD_LEFT_X);
    for (int i = 0; kept(h, "right") == 0 && i < MOST_LOOKS; i++) {
        XImage *seen = x_client_look(h->watch.x); /* as a breath between two looks into the file */
        XDestroyImage(seen);
    }
    assert_true(kept(h, "right") > 0);
    assert_near(kept(h, "away"), 0, 0);
    window_shows_what_is_kept(h);
    close(pad);
    leave(h);
}

static int cut_so_far(struct here *h)
{
    struct app_progress progress = app_progress_of(h->app, h->room.a);
    return progress.cloth_count ? progress.cloths[0].cut : 0;
}

/* From the first line of light to the first piece that is done: one button, again and again. */
static void a_game_controller_ticks_pieces(void **state)
{
    struct here *h = *state;
    prepare_layout(h);
    int pad = start_with_a_pad(h);
    for (int i = 0; !cut_so_far(h) && i < MOST_DONE; i++)
        press_pad(h, pad, PAD_NEAR, "button near");
    assert_int_equal(cut_so_far(h), 1);
    close(pad);
    leave(h);
    struct base_journal_lines lines = journal(h);
    assert_string_equal(lines.items[lines.count - 1], app_remember(h->app, h->room.a));
}

/* A job that is open is not made anew under her hands; made anew later, the old one is kept and goes on where it was.
 */
static void a_job_made_anew_keeps_the_old_one(void **state)
{
    struct here *h = *state;
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    const char *const old[] = { program, "cut", room_path(&h->room, "job.json.old"), NULL };
    start_cutting(h, words);
    press(h, "Right", "right");
    assert_int_equal(make_job(h, "B", false), 1);
    assert_int_equal(make_job(h, "B", true), 1);
    assert_false(base_file_exists(old[2]));
    press(h, "t", "t");
    leave(h);

    assert_int_equal(make_job(h, "B", false), 1);
    assert_int_equal(make_job(h, "B", true), 0);
    start_cutting(h, old);
    struct paint_image wanted = rig_paint(h->room.a, h->app);
    watch_for_picture(&h->watch, &wanted, "the old job");
    leave(h);
}

/* Put in the place of another job, it finds a journal that is not its own: that is kept. */
static void a_journal_of_another_job_is_kept(void **state)
{
    struct here *h = *state;
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    const char *journal = base_arena_print(h->room.a, "%s.journal", h->job);
    static const char other[] = "chalklight journal 1\n{\"job\": \"0\"}\n{\"cut\": 1}\n";
    assert_true(base_file_save(journal, other, sizeof other - 1, h->room.errs));
    start_cutting(h, words);
    press(h, "Right", "right");
    leave(h);
    struct base_bytes kept;
    assert_true(base_file_read(h->room.a, base_arena_print(h->room.a, "%s.old", journal), 1000, &kept, h->room.errs));
    assert_string_equal(kept.data, other);
}

static void press_only(struct here *h, const char *xdotool_name, const char *our_name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &event.key, &event.mods));
    app_handle(h->app, event);
    x_client_press(xdotool_name);
}

/* In a window of another size no piece is shown, only why; the size back, the pieces are, with a notice until the test
 * square was looked at. */
static void a_window_of_another_size_waits_for_its_own(void **state)
{
    struct here *h = *state;
    enum { WIDTH = 1000, HEIGHT = 700 };
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    start_cutting(h, words);
    press(h, "Next", "page down");

    watch_resize(&h->watch, WIDTH, HEIGHT);
    struct paint_scene away = app_away_scene(h->app, h->room.a, WIDTH, HEIGHT, true);
    struct paint_image why = paint_image_create(h->room.a, WIDTH, HEIGHT);
    paint_frame(h->room.a, &away, NULL, &why);
    watch_for_picture(&h->watch, &why, "another size");
    x_client_press("Right"); /* moves no piece that she does not see */

    watch_resize(&h->watch, setup.width_px, setup.height_px);
    app_doubt_scale(h->app, APP_DOUBT_AWAY);
    struct paint_image doubted = rig_paint(h->room.a, h->app);
    watch_for_picture(&h->watch, &doubted, "its own size");
    press(h, "s", "s");
    press(h, "Escape", "esc");
    leave(h);
}

/* Told on the table as soon as a step cannot be kept; with room again the next key keeps all, and nothing is lost. */
static void a_full_disk_is_told_and_loses_nothing(void **state)
{
    struct here *h = *state;
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    start_cutting(h, words);
    press(h, "Right", "right");
    leave(h);

    watch_start_on_full_disk(&h->watch, words, 100); /* less than the journal has already */
    watch_for_light(&h->watch, setup.width_px, setup.height_px);
    x_client_press("Return");
    press_only(h, "Up", "up");
    app_set_trouble(h->app, "Your last steps are not kept (File too large). Make room: the next key keeps them all");
    press(h, "Next", "page down");
    press(h, "comma", ",");
    assert_true(watch_limit_files(&h->watch, RLIM_INFINITY));
    app_set_trouble(h->app, NULL);
    press(h, "t", "t");
    watch_kill(&h->watch);

    start_cutting(h, words);
    press(h, "Prior", "page up"); /* the first piece has its two moves, too */
    press(h, "Next", "page down");
    leave(h);
}

/* Whether the window comes to show something else than that, without a key. */
static bool changes(struct here *h, const struct paint_image *rest)
{
    enum { LOOKS = 2000 };
    bool differs = false;
    for (int i = 0; i < LOOKS && !differs; i++) {
        XImage *seen = x_client_look(h->watch.x);
        differs = watch_differing(seen, rest) > 0;
        XDestroyImage(seen);
    }
    return differs;
}

/* No key ends it: the window is drawn by time, and then as it was before. */
static void lines_pulse_and_come_to_rest(void **state)
{
    struct here *h = *state;
    prepare(h);
    const char *const words[] = { program, "cut", h->job, NULL };
    start_cutting(h, words);
    press(h, "Next", "page down");
    struct paint_image rest = rig_paint(h->room.a, h->app);
    x_client_press("p");
    assert_true(changes(h, &rest));
    watch_for_picture(&h->watch, &rest, "lines at rest");
    leave(h);
}

/* Whether the crosses that the readings file names are where the window shows them: the middle is dark, the arms begin
 * some pixels from it, level and upright. */
static void the_crosses_stand_where_the_readings_file_says(void **state)
{
    struct here *h = *state;
    const char *readings = room_path(&h->room, "mine.json");
    const char *const words[] = { program, "crosses", "--readings", readings, NULL };
    watch_start(&h->watch, words);
    watch_for_light(&h->watch, setup.width_px, setup.height_px);
    const struct json_node *list = json_find(json_read_file(h->room.a, readings, h->room.errs), "readings");
    assert_non_null(list);
    assert_true(list->count >= 13);
    XImage *seen = x_client_look(h->watch.x);
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
    watch_for_end(&h->watch);
}

static int set_up(void **state)
{
    static struct here h;
    h = (struct here){ .job = NULL };
    room_init(&h.room);
    h.font = text_font_open(h.room.errs);
    *state = &h;
    return watch_open(&h.watch) && h.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    watch_close(&h->watch);
    text_font_close(h->font);
    return room_close(state);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_crosses_stand_where_the_readings_file_says, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_killed_program_comes_back_where_it_was, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_layout_comes_back_where_it_was, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_game_controller_steps_and_pans_a_piece, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_game_controller_ticks_pieces, set_up, tear_down),
        cmocka_unit_test_setup_teardown(killed_at_any_moment_it_has_kept_all_that_was_seen, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_job_made_anew_keeps_the_old_one, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_journal_of_another_job_is_kept, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_window_of_another_size_waits_for_its_own, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_full_disk_is_told_and_loses_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lines_pulse_and_come_to_rest, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_window_shows_true_scale_whatever_key_is_pressed, set_up, tear_down),
    };
    if (argc != 4)
        return 2;
    program = argv[1];
    kills = atoi(argv[2]);
    pad_host = argv[3];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
