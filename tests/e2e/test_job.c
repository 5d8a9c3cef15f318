/* A whole garment, from nothing to the last tick, in the program's own window and by keys alone: a ticket,
 * measurements, pattern, view, size, cloths, their layouts, a table set-up, placing, every piece cut and marked, and
 * "Done" says so. Ten times on the way, wherever chance has it, the program is killed and started again. What must hold
 * is read from the ticket and its journal: nothing that was kept is lost, no tick is lost or counts twice, pieces stay
 * where they lie.
 *
 * test_job CHALKLIGHT WORDS: the folder of catalogues that the program finds. */
#include "app/memory.h"
#include "app/progress.h"
#include "base/file.h"
#include "base/journal.h"
#include "base/words.h"
#include "base/xdg.h"
#include "bench/bench.h"
#include "calibration/table.h"
#include "e2e/watch.h"
#include "geometry/random.h"
#include "input/key.h"
#include "job/needs.h"
#include "screen/bench.h"
#include "settings/settings.h"
#include "support/room.h"
#include "table/rig.h"

#include <X11/Xutil.h>

#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* The display is the table's light; the bench's window, as large as it is at least, is in the middle of it. */
enum { WIDTH = 1280, HEIGHT = 800, LOOKS = 6000, LOOK_AGAIN_US = 5000, MOST_AT_TABLE = 1000 };
enum { BENCH_WIDTH = 1024, BENCH_HEIGHT = 600 };
enum { BENCH_MOMENTS = 11, BENCH_KILLS = 4, TABLE_KILLS = 6 };

/* Stages of the ticket, as Page Down comes to them. */
enum { MEASUREMENTS, PATTERN, CLOTHS, LAYOUT };

static const char *program, *words_folder;

/* A projector high enough for interfacing in its whole width. */
static const struct vt_setup setup = { .name = "desk",
                                       .width_px = WIDTH,
                                       .height_px = HEIGHT,
                                       .throw_ratio = 1.4,
                                       .height_mm = 1500,
                                       .tilt_deg = 3,
                                       .turn_deg = 1,
                                       .foot_x_mm = 600,
                                       .foot_y_mm = 300 };

/* What she writes, as people who measure in that unit do. */
struct person {
    enum units_length unit;
    const char *language;
    const char *upper_bust, *bust, *waist, *hip, *fabric, *interfacing;
    double bust_mm, fabric_mm; /* 1 in = 25.4 mm */
};

static const struct person people[] = {
    { UNITS_IN, "en", "36", "38 1/2", "31", "40 1/4", "45", "36", 977.9, 1143 },
    { UNITS_CM, "de", "91", "97,5", "78", "102", "115", "90", 975, 1150 },
};

struct here {
    struct room room;
    const struct person *she;
    struct watch watch;
    struct text_font *font;
    struct screen_letters *letters;
    struct bench *bench; /* twins of what runs; the layout, which goes on by itself, has none */
    struct app *app;
    struct job job; /* the app's */
    const char *ticket, *settings;
    uint64_t chance;
    int moments_left, kills_left;
};

/* --- what is kept --------------------------------------------------------------------------------------------------
 */

static const char *text_at(struct here *h, const char *path)
{
    struct base_bytes bytes;
    if (!base_file_exists(path))
        return "";
    assert_true(base_file_read(h->room.a, path, BASE_JOURNAL_MOST_BYTES, &bytes, h->room.errs));
    return bytes.data;
}

static const char *journal_path(struct here *h)
{
    return base_arena_print(h->room.a, "%s.journal", h->ticket);
}

static void read_kept(struct here *h, struct job *out)
{
    assert_true(job_read_begun(h->room.a, h->ticket, out, h->room.errs));
}

/* Until what stands there is that, or ends in it. */
static void wait_for_text(struct here *h, const char *path, const char *wanted, bool ending, const char *what)
{
    const char *there = "";
    for (int i = 0; i < LOOKS; i++) {
        there = text_at(h, path);
        size_t count = strlen(there), most = strlen(wanted);
        if (ending ? count >= most && strcmp(there + count - most, wanted) == 0 : strcmp(there, wanted) == 0)
            return;
        usleep(LOOK_AGAIN_US);
    }
    fail_msg("after %s there stands\n%s\nand not\n%s", what, there, wanted);
}

static bool chance_has_it(struct here *h)
{
    bool now = random_between(&h->chance, 0, h->moments_left) < h->kills_left;
    h->moments_left--;
    h->kills_left -= now;
    return now;
}

/* --- the bench -----------------------------------------------------------------------------------------------------
 */

static void begin_bench(struct here *h, const char *recent)
{
    struct bench_start start = { .manner = { .unit = h->she->unit },
                                 .recent = recent,
                                 .example_pattern = "pinafore.json", /* offered, and never opened here */
                                 .tickets = room_path(&h->room, "data/chalklight/tickets") };
    bench_destroy(h->bench);
    h->bench = bench_create(&start);
    bench_fit(h->bench, BENCH_WIDTH, BENCH_HEIGHT,
              screen_letters_at(h->letters, bench_scale(h->bench, BENCH_WIDTH, BENCH_HEIGHT)));
}

/* SDL writes into the byte beside the colour as well. */
static void window_shows_the_bench(struct here *h, const char *what)
{
    struct arena *a = base_arena_create();
    struct paint_image image = paint_image_create(a, BENCH_WIDTH, BENCH_HEIGHT);
    screen_draw_bench(h->letters, bench_picture(h->bench), &image);
    for (size_t i = 0; i < (size_t)BENCH_HEIGHT * image.stride; i++)
        image.pixels[i] &= 0xffffff;
    watch_for_picture_at(&h->watch, (WIDTH - BENCH_WIDTH) / 2, (HEIGHT - BENCH_HEIGHT) / 2, &image, what);
    base_arena_destroy(a);
}

static void press_window(struct here *h, const char *our_name)
{
    x_client_press(watch_key_name(h->room.a, our_name));
}

/* Names with semicolons between, at the window and at its twin. */
static void press(struct here *h, const char *our_names)
{
    const char *all = "";
    while (*our_names) {
        struct input_event e = { .type = INPUT_KEY };
        size_t count = strcspn(our_names, ";");
        const char *name = base_arena_copy_bytes(h->room.a, our_names, count);
        assert_true(input_key_from_name(name, &e.key, &e.mods));
        bench_handle(h->bench, e);
        all = base_arena_print(h->room.a, "%s %s", all, watch_key_name(h->room.a, name));
        our_names += count + (our_names[count] == ';');
    }
    x_client_press(all);
}

static void write_field(struct here *h, const char *text)
{
    const char *names = "";
    for (; *text; text++)
        names = base_arena_print(h->room.a, *text == ' ' ? "%sSpace;" : "%s%c;", names, *text);
    press(h, base_arena_print(h->room.a, "%sTab", names));
}

static void start(struct here *h)
{
    const char *const words[] = { program, NULL };
    watch_start(&h->watch, words);
    watch_for_light(&h->watch, WIDTH, HEIGHT);
}

static void go_on(struct here *h)
{
    const char *kept = text_at(h, h->ticket);
    begin_bench(h, h->ticket);
    start(h);
    window_shows_the_bench(h, "starting again");
    press(h, "Enter");
    if (h->app) {
        struct app_progress progress = app_progress_of(h->app, h->room.a);
        bench_set_progress(h->bench, &progress);
    }
    window_shows_the_bench(h, "going on with the ticket");
    assert_string_equal(job_print(h->room.a, bench_job(h->bench)), kept);
    assert_string_equal(text_at(h, h->ticket), kept);
}

/* Where a step of the bench is kept; stands at the measurements after it was killed. */
static bool killed_at_the_bench(struct here *h)
{
    if (!chance_has_it(h))
        return false;
    watch_kill(&h->watch);
    go_on(h);
    return true;
}

static void step_is_kept(struct here *h, const char *what)
{
    wait_for_text(h, h->ticket, job_print(h->room.a, bench_job(h->bench)), false, what);
}

/* From any stage up to the set-up. */
static void go_to(struct here *h, int stage)
{
    press(h, "Ctrl Page Up;Ctrl Page Up;Ctrl Page Up;Ctrl Page Up");
    for (int i = 0; i < stage; i++)
        press(h, "Ctrl Page Down");
}

static void begin_ticket(struct here *h)
{
    begin_bench(h, NULL);
    start(h);
    if (h->she->unit == UNITS_IN)
        press_window(h, "F2");
    window_shows_the_bench(h, "starting with nothing");
    press(h, "Enter");
    write_field(h, "guide");
    step_is_kept(h, "a name");
    killed_at_the_bench(h);
}

static void write_measurements(struct here *h)
{
    const char *const texts[] = { h->she->upper_bust, h->she->bust, h->she->waist, h->she->hip };
    enum { BEFORE_THEM = 2 }; /* whose they are, and her height */
    for (int i = 0; i < 4; i++) {
        go_to(h, PATTERN);
        go_to(h, MEASUREMENTS);
        for (int k = 0; k < BEFORE_THEM + i; k++)
            press(h, "Tab");
        write_field(h, texts[i]);
        step_is_kept(h, texts[i]);
        killed_at_the_bench(h);
    }
    assert_near(sizing_body_find(bench_job(h->bench)->body, "bust")->mm, h->she->bust_mm, 1e-9);
}

static void choose_pattern(struct here *h)
{
    go_to(h, PATTERN);
    press(h, "Enter;Down;Down;Enter"); /* past the folder above and her own */
    step_is_kept(h, "a pattern");
    killed_at_the_bench(h);
    go_to(h, PATTERN);
    press(h, "Right");
    step_is_kept(h, "a view");
    killed_at_the_bench(h);
    go_to(h, PATTERN);
    press(h, "Shift Tab;Enter");
    step_is_kept(h, "the size");
    assert_true(bench_job(h->bench)->ticket.size_confirmed);
    killed_at_the_bench(h);
}

static void tell_cloths(struct here *h)
{
    const char *const widths[] = { h->she->fabric, h->she->interfacing };
    for (int i = 0; i < 2; i++) {
        go_to(h, CLOTHS);
        press(h, i ? "Right;Tab;Tab;Tab" : "Tab;Tab;Tab");
        write_field(h, widths[i]);
        if (i == 0) /* folded, it is no wider than the light */
            press(h, "Tab;Tab;Tab;Tab;Tab;Tab;Right");
        step_is_kept(h, "a cloth's width");
        assert_int_equal(bench_job(h->bench)->cloth_count, (size_t)i + 1);
        if (killed_at_the_bench(h))
            go_to(h, CLOTHS);
    }
    assert_int_equal(bench_job(h->bench)->cloths[0].cloth.spread, CLOTH_FOLDED);
    assert_near(bench_job(h->bench)->cloths[0].cloth.width_mm, h->she->fabric_mm, 1e-9);
}

static bool is_laid(struct here *h)
{
    struct job job;
    const struct job_lacking *lacks;
    read_kept(h, &job);
    size_t count = job_lacks(h->room.a, &job, &lacks), open = 0;
    for (size_t i = 0; i < count; i++)
        open += lacks[i].stage == JOB_STAGE_LAYOUT;
    return open == 0;
}

/* Better layouts are found while it is looked at: the twin is begun anew afterwards. */
static void lay_out(struct here *h)
{
    press_window(h, "Ctrl Page Down");
    for (int i = 0; i < LOOKS && !is_laid(h); i++)
        usleep(LOOK_AGAIN_US);
    assert_true(is_laid(h));
    if (killed_at_the_bench(h)) { /* it goes on where something lacks */
        for (int i = 0; i < 8; i++)
            press_window(h, "Ctrl Page Up");
        for (int i = 0; i < LAYOUT; i++)
            press_window(h, "Ctrl Page Down");
    }
}

static void open_table(struct here *h)
{
    struct job job = { .has_table = false };
    press_window(h, "Ctrl Page Down");
    press_window(h, "Tab");
    press_window(h, "Enter");
    x_client_press("Down Down Down Return"); /* past those folders and the pattern */
    for (int i = 0; i < LOOKS && !job.has_table; i++) {
        usleep(LOOK_AGAIN_US);
        read_kept(h, &job);
    }
    assert_true(job.has_table);
    assert_true(is_laid(h));
    press_window(h, "Ctrl Page Down"); /* on from the set-up: placing is at the table */
}

/* --- the table -----------------------------------------------------------------------------------------------------
 */

struct ticks {
    int cut, laid;
};

static struct ticks ticks_of(struct here *h)
{
    struct app_progress progress = app_progress_of(h->app, h->room.a);
    struct ticks ticks = { 0, 0 };
    for (size_t i = 0; i < progress.line_count; i++) {
        assert_true(progress.lines[i].cut <= progress.lines[i].laid);
        ticks.cut += progress.lines[i].cut;
        ticks.laid += progress.lines[i].laid;
    }
    return ticks;
}

/* As the program begins it, with what its journal has. */
static void begin_app(struct here *h)
{
    struct app_start start = { .font = h->font, .unit = h->she->unit };
    assert_true(job_read(h->room.a, h->ticket, &h->job, h->room.errs));
    start.job = &h->job;
    start.table = h->job.table;
    h->app = app_create(h->room.a, &start, h->room.errs);
    assert_non_null(h->app);
    struct base_journal_lines lines;
    if (base_journal_look(h->room.a, journal_path(h), &lines))
        for (size_t i = 1; i < lines.count; i++)
            assert_true(app_recall(h->app, lines.items[i], h->room.errs));
    app_doubt_scale(h->app, APP_DOUBT_START);
}

static void window_shows_the_table(struct here *h, const char *what)
{
    struct arena *a = base_arena_create();
    struct paint_image image = rig_paint(a, h->app);
    watch_for_picture(&h->watch, &image, what);
    base_arena_destroy(a);
}

static struct app_effects tell_app(struct here *h, const char *our_name)
{
    struct input_event e = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &e.key, &e.mods));
    return app_handle(h->app, e);
}

static void line_is_kept(struct here *h)
{
    const char *line = base_arena_print(h->room.a, "\n%s\n", app_remember(h->app, h->room.a));
    wait_for_text(h, journal_path(h), line, true, "a key at the table");
}

static void go_to_table(struct here *h)
{
    press_window(h, "F12");
    begin_app(h);
    window_shows_the_table(h, "going to the table");
}

/* Killed with a key on its way: it is taken or it is not, and nothing else is other than before. */
static void kill_at_the_table(struct here *h, const char *before)
{
    const char *after = app_remember(h->app, h->room.a);
    struct ticks most = ticks_of(h);
    watch_kill(&h->watch);
    const char *ticket = text_at(h, h->ticket);
    begin_app(h);
    go_on(h);
    const char *now = app_remember(h->app, h->room.a);
    if (strcmp(now, before) != 0 && strcmp(now, after) != 0)
        fail_msg("killed between\n%s\nand\n%s\nit goes on with\n%s", before, after, now);
    assert_true(ticks_of(h).cut <= most.cut);
    go_to_table(h);
    assert_string_equal(text_at(h, h->ticket), ticket);
}

/* What is done next: Enter says that it is; where nothing is left of a cloth, the next one. */
static const char *next_key(bool enter_does)
{
    return enter_does ? "Enter" : "n";
}

static bool is_all_cut(struct here *h)
{
    struct ticks ticks = ticks_of(h);
    return ticks.laid && ticks.cut == ticks.laid;
}

/* By the twin alone. */
static int count_steps(struct here *h)
{
    bool enter_does = true;
    int count = 0;
    begin_app(h);
    for (; !is_all_cut(h) && count < MOST_AT_TABLE; count++)
        enter_does = tell_app(h, next_key(enter_does)).redraw;
    assert_true(is_all_cut(h));
    return count;
}

static void cut_all(struct here *h)
{
    bool enter_does = true;
    h->moments_left = count_steps(h) - 1;
    h->kills_left = TABLE_KILLS;
    go_to_table(h);
    int cut = 0;
    for (int i = 0; !is_all_cut(h) && i < MOST_AT_TABLE; i++) {
        const char *before = app_remember(h->app, h->room.a), *key = next_key(enter_does);
        press_window(h, key);
        enter_does = tell_app(h, key).redraw;
        if (h->moments_left > 0 && chance_has_it(h))
            kill_at_the_table(h, before);
        else if (enter_does)
            line_is_kept(h);
        assert_true(ticks_of(h).cut >= cut);
        cut = ticks_of(h).cut;
    }
    assert_true(is_all_cut(h));
    assert_int_equal(h->kills_left, 0);
}

/* --- the end -------------------------------------------------------------------------------------------------------
 */

static bool bench_says(struct here *h, const char *text)
{
    const struct form_picture *p = bench_picture(h->bench);
    bool found = false;
    for (size_t i = 0; i < p->count; i++)
        found = found || (p->marks[i].text && strcmp(p->marks[i].text, text) == 0);
    return found;
}

/* Keys are the window's that has the focus: the bench's is as wide. */
static void wait_for_the_bench(struct here *h)
{
    XWindowAttributes at = { .width = -1 };
    Window focus;
    int revert;
    for (int i = 0; i < LOOKS && at.width != BENCH_WIDTH; i++) {
        usleep(LOOK_AGAIN_US);
        XGetInputFocus(h->watch.x, &focus, &revert);
        if (focus != None && focus != PointerRoot)
            XGetWindowAttributes(h->watch.x, focus, &at);
    }
    assert_int_equal(at.width, BENCH_WIDTH);
}

/* The twin of the bench is told what the journal says. */
static void come_back_to_done(struct here *h)
{
    struct app_progress progress = app_progress_of(h->app, h->room.a);
    press_window(h, "F12");
    begin_bench(h, h->ticket);
    bench_handle(h->bench, (struct input_event){ .type = INPUT_DROP, .path = h->ticket });
    bench_set_progress(h->bench, &progress);
    bench_set_at_table(h->bench, BENCH_TO_CUT);
    bench_set_at_table(h->bench, BENCH_STAY);
    wait_for_the_bench(h);
    press(h, "Ctrl Page Down");
    assert_true(bench_says(h, base_tr("Everything on this ticket is cut and marked.")));
    window_shows_the_bench(h, "the end of the ticket");
    const char *journal = text_at(h, journal_path(h)), *ticket = text_at(h, h->ticket);
    press_window(h, "Ctrl Q");
    watch_for_end(&h->watch);
    assert_string_equal(text_at(h, journal_path(h)), journal);
    assert_string_equal(text_at(h, h->ticket), ticket);
}

static void speaks_and_measures_as_she_does(struct here *h)
{
    struct settings *s = settings_open(h->room.a, h->settings, h->room.errs);
    assert_int_equal(settings_word(s, SETTINGS_UNIT),
                     h->she->unit == UNITS_IN ? SETTINGS_UNIT_INCHES : SETTINGS_UNIT_AS_WRITTEN);
}

static void a_garment(struct here *h)
{
    h->moments_left = BENCH_MOMENTS;
    h->kills_left = BENCH_KILLS;
    begin_ticket(h);
    write_measurements(h);
    choose_pattern(h);
    tell_cloths(h);
    lay_out(h);
    assert_int_equal(h->kills_left, 0);
    open_table(h);
    cut_all(h);
    come_back_to_done(h);
    speaks_and_measures_as_she_does(h);
}

static void in_inches_and_english(void **state)
{
    a_garment(*state);
}

static void in_centimetres_and_german(void **state)
{
    a_garment(*state);
}

/* Files of hers in a folder where nothing else is: a pattern and a table set-up, in that order. */
static void bring_files(struct here *h)
{
    struct calibration_table table;
    struct base_bytes pattern;
    assert_true(rig_exact_table(h->room.a, &setup, &table, h->room.errs));
    const char *text = calibration_table_print(h->room.a, &table);
    const char *path = room_path(&h->room, "hers/table.json");
    assert_true(base_xdg_make_folders(path, h->room.errs));
    assert_true(base_file_save(path, text, strlen(text), h->room.errs));
    assert_true(base_file_read(h->room.a, DEMO_FOLDER "/pinafore.json", 1 << 24, &pattern, h->room.errs));
    assert_true(base_file_save(room_path(&h->room, "hers/pinafore.json"), pattern.data, pattern.count, h->room.errs));
}

/* Keys may come as fast as the test presses them; the cautions were shown today. */
static void bring_settings(struct here *h)
{
    time_t now = time(NULL);
    struct tm day;
    char date[sizeof "2026-11-30"];
    assert_true(localtime_r(&now, &day) && strftime(date, sizeof date, "%Y-%m-%d", &day));
    const char *text = base_arena_print(
        h->room.a, "{\"chalklight\": \"settings\", \"version\": 1, \"lockout_ms\": 0, \"cautioned\": \"%s\"}\n", date);
    assert_true(base_xdg_make_folders(h->settings, h->room.errs));
    assert_true(base_file_save(h->settings, text, strlen(text), h->room.errs));
}

static int set_up(void **state, const struct person *she)
{
    static struct here h;
    h = (struct here){ .she = she, .chance = 8 };
    room_init(&h.room);
    h.letters = screen_letters_open(h.room.errs);
    h.font = text_font_open(h.room.errs);
    h.ticket = room_path(&h.room, "data/chalklight/tickets/ticket-1.json");
    setenv("HOME", "/tmp", 0); /* the list of files has it */
    setenv("XDG_DATA_HOME", room_path(&h.room, "data"), 1);
    h.settings = room_path(&h.room, "config/chalklight/settings.json");
    setenv("XDG_CONFIG_HOME", room_path(&h.room, "config"), 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    setenv("LANGUAGE", she->language, 1);
    base_words_speak(she->language, words_folder);
    bring_files(&h);
    bring_settings(&h);
    *state = &h;
    return watch_open(&h.watch) && h.letters && h.font && chdir(room_path(&h.room, "hers")) == 0 &&
                   strcmp(base_words_language(), she->language) == 0
               ? 0
               : -1;
}

static int set_up_english(void **state)
{
    return set_up(state, &people[0]);
}

static int set_up_german(void **state)
{
    return set_up(state, &people[1]);
}

static int tear_down(void **state)
{
    struct here *h = *state;
    watch_close(&h->watch);
    bench_destroy(h->bench);
    screen_letters_close(h->letters);
    text_font_close(h->font);
    return chdir("/") == 0 ? room_close(state) : -1;
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(in_centimetres_and_german, set_up_german, tear_down),
        cmocka_unit_test_setup_teardown(in_inches_and_english, set_up_english, tear_down),
    };
    if (argc != 3)
        return 2;
    program = argv[1];
    words_folder = argv[2];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
