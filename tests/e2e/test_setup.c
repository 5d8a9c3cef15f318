/* Setting up the table in the program's own window: another X client presses the keys, the window is compared with what
 * the walk says it shows, and the table that is written is measured on the virtual table.
 *
 * test_setup CHALKLIGHT KILLS: the program under test, and how often it is killed at a random moment. */
#include "app/walk.h"
#include "base/file.h"
#include "e2e/watch.h"
#include "geometry/random.h"
#include "input/key.h"
#include "paint/frame.h"
#include "support/room.h"
#include "table/rig.h"

#include <X11/Xutil.h>

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define SQUARE_TOLERANCE_MM 0.2 /* of places typed to 0.1 mm */

static const char *program;
static int kills;

/* A projector for the test's screen: tilted 8°, its axis at the picture's lower edge. */
static const struct vt_setup setup = { .name = "desk",
                                       .width_px = 1280,
                                       .height_px = 800,
                                       .throw_ratio = 1.4,
                                       .height_mm = 1500,
                                       .tilt_deg = 8,
                                       .turn_deg = -2,
                                       .foot_x_mm = 600,
                                       .foot_y_mm = 300,
                                       .shift = 1 };

struct here {
    struct room room;
    struct text_font *font;
    struct watch watch;
    const char *table, *readings;
    struct app_walk *walk; /* what the window should show */
};

static void begin_walk(struct here *h, const struct calibration_readings *before)
{
    struct app_walk_start start = { .width_px = setup.width_px,
                                    .height_px = setup.height_px,
                                    .name = "table",
                                    .unit = UNITS_MM,
                                    .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                    .font = h->font,
                                    .before = before };
    h->walk = app_walk_create(h->room.a, &start);
}

static struct paint_image paint(struct here *h, struct paint_scene scene, int width, int height)
{
    struct paint_image image = paint_image_create(h->room.a, width, height);
    paint_frame(h->room.a, &scene, NULL, &image);
    return image;
}

static void both_show_the_same(struct here *h, const char *what)
{
    struct paint_image wanted = paint(h, app_walk_scene(h->walk, h->room.a), setup.width_px, setup.height_px);
    watch_for_picture(&h->watch, &wanted, what);
}

static void press(struct here *h, const char *xdotool_name, const char *our_name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &event.key, &event.mods));
    app_walk_handle(h->walk, event);
    x_client_press(xdotool_name);
}

/* Digits and points of a length on the number pad, Num Lock or not: xdotool sends what they print. */
static void type(struct here *h, const char *text)
{
    for (; *text; text++) {
        const char one[2] = { *text, '\0' };
        press(h, *text == '.' ? "period" : one, one);
    }
    press(h, "KP_Enter", "enter");
}

static void answer(struct here *h, int number)
{
    struct px_pt px = scene_standard_cross(number, setup.width_px, setup.height_px);
    struct vt_noise noise = { 1 };
    double x, y;
    assert_true(vt_reading(&setup, px.x, px.y, 0, &noise, &x, &y));
    type(h, base_arena_print(h->room.a, "%.1f", x));
    type(h, base_arena_print(h->room.a, "%.1f", y));
}

/* Past cautions, choice and targets. */
static void go_to_the_crosses(struct here *h)
{
    watch_for_light(&h->watch, setup.width_px, setup.height_px);
    both_show_the_same(h, "the cautions");
    press(h, "Return", "enter");
    if (!base_file_exists(h->readings))
        x_client_press("7"); /* what lies on the table: other rulings */
    both_show_the_same(h, "the targets");
    press(h, "Return", "enter");
}

static void start_walk(struct here *h)
{
    const char *const words[] = { program, "setup", h->table, "--unit", "mm", NULL };
    watch_start(&h->watch, words);
    go_to_the_crosses(h);
}

static size_t saved(struct here *h)
{
    struct calibration_readings readings;
    assert_true(calibration_readings_read(h->room.a, h->readings, &readings, h->room.errs));
    return readings.count;
}

static double square_error(struct here *h)
{
    struct calibration_table table;
    struct vt_pt corner[4];
    assert_true(calibration_table_read(h->room.a, h->table, &table, h->room.errs));
    struct app *app = rig_app(h->room.a, &table, NULL, h->room.errs);
    app_set_mode(app, SCENE_TEST_SQUARE);
    rig_square(h->room.a, app, corner);
    struct paint_image image = rig_paint(h->room.a, app);
    return rig_square_error(&setup, &image, corner, 100);
}

/* The table accepted, three marks of four are laid on stickers; the third is moved first. */
static void lay_stickers(struct here *h)
{
    press(h, "KP_Enter", "enter");
    both_show_the_same(h, "a line to be measured");
    press(h, "End", "end");
    both_show_the_same(h, "nothing measured");
    press(h, "KP_Enter", "enter");
    both_show_the_same(h, "the first mark");
    press(h, "KP_Enter", "enter");
    press(h, "0", "0");
    press(h, "shift+Left", "shift left");
    press(h, "ctrl+Up", "ctrl up");
    both_show_the_same(h, "a mark that is moved");
    press(h, "KP_Enter", "enter");
    x_client_press("KP_Enter");
}

static void stickers_are_kept(struct here *h)
{
    struct calibration_table table;
    assert_true(calibration_table_read(h->room.a, h->table, &table, h->room.errs));
    assert_int_equal(table.stickers.count, 3);
    assert_near(table.stickers.px[1].x, (int)(0.94 * setup.width_px) + 0.5 - 16, 0);
    assert_near(table.stickers.px[1].y, (int)(0.8 * setup.height_px) + 0.5 - 0.25, 0);
}

/* Thirteen crosses by keys, a nudge and help among them, killed once in the middle. */
static void a_walk_by_keys_writes_a_true_table(void **state)
{
    struct here *h = *state;
    begin_walk(h, NULL);
    start_walk(h);
    press(h, "F1", "f1");
    both_show_the_same(h, "F1");
    press(h, "Escape", "esc");
    for (int number = 1; number <= 6; number++)
        answer(h, number);
    press(h, "ctrl+Right", "ctrl right");
    press(h, "shift+Up", "shift up");
    both_show_the_same(h, "a nudge");
    watch_kill(&h->watch);

    assert_int_equal(saved(h), 6);
    struct calibration_readings before;
    assert_true(calibration_readings_read(h->room.a, h->readings, &before, h->room.errs));
    begin_walk(h, &before);
    start_walk(h);
    for (int number = 7; number <= APP_WALK_CROSSES; number++)
        answer(h, number);
    both_show_the_same(h, "the last cross");
    lay_stickers(h);
    watch_for_end(&h->watch);
    stickers_are_kept(h);
    double error = square_error(h);
    if (!(error <= SQUARE_TOLERANCE_MM))
        fail_msg("the square is %.3f mm off", error);
}

/* Two crosses typed in one go; a little more than that takes; from so many readings on a new walk is begun. */
enum { BURST = 2, BURST_MS = 450, ENOUGH = 9, MOST_KEYS = 40 };

/* The keys of some answers, by our names and xdotool's. */
struct keys {
    const char *names[MOST_KEYS], *pressed[MOST_KEYS + 1];
    size_t count;
};

static void add_key(struct keys *keys, const char *xdotool_name, const char *our_name)
{
    assert_true(keys->count < MOST_KEYS);
    keys->pressed[keys->count] = xdotool_name;
    keys->names[keys->count++] = our_name;
}

static void add_length(struct here *h, struct keys *keys, double mm)
{
    for (const char *p = base_arena_print(h->room.a, "%.1f", mm); *p; p++) {
        const char *one = base_arena_copy_bytes(h->room.a, p, 1);
        add_key(keys, *p == '.' ? "period" : one, one);
    }
    add_key(keys, "KP_Enter", "enter");
}

static struct keys keys_of_answers(struct here *h, size_t first)
{
    struct keys keys = { .count = 0 };
    for (size_t i = 0; i < BURST; i++) {
        struct px_pt px = scene_standard_cross((int)(first + i), setup.width_px, setup.height_px);
        struct vt_noise noise = { 1 };
        double x, y;
        assert_true(vt_reading(&setup, px.x, px.y, 0, &noise, &x, &y));
        add_length(h, &keys, x);
        add_length(h, &keys, y);
    }
    return keys;
}

static const char *readings_text(struct here *h)
{
    struct base_bytes text;
    assert_true(base_file_read(h->room.a, h->readings, 100000, &text, h->room.errs));
    return text.data;
}

static size_t count_saved(struct here *h)
{
    return base_file_exists(h->readings) ? saved(h) : 0;
}

/* The twin goes through all keys. What was seen last must be a picture of a state with no more readings than are saved,
 * and the file just what the walk had to save when it had made as many. */
static void follow(struct here *h, const struct keys *keys, const XImage *seen, size_t count)
{
    const char *text = count_saved(h) ? readings_text(h) : NULL;
    bool kept = false, same = !text;
    for (size_t i = 0; i <= keys->count && !(kept && same); i++) {
        struct arena *frame = base_arena_create();
        struct input_event event = { .type = INPUT_KEY };
        if (i) {
            assert_true(input_key_from_name(keys->names[i - 1], &event.key, &event.mods));
            app_walk_handle(h->walk, event);
        }
        struct calibration_readings readings = app_walk_readings(h->walk, frame);
        same = same || (readings.count == count && strcmp(calibration_readings_print(frame, &readings), text) == 0);
        if (!kept && readings.count <= count) {
            struct paint_scene scene = app_walk_scene(h->walk, frame);
            struct paint_image picture = paint_image_create(frame, setup.width_px, setup.height_px);
            paint_frame(frame, &scene, NULL, &picture);
            kept = watch_is(seen, &picture);
        }
        base_arena_destroy(frame);
    }
    if (!kept)
        fail_msg("what was seen is no state of %zu readings, as are saved", count);
    if (!same)
        fail_msg("what is saved is not what was read");
}

static void walk_goes_on(struct here *h)
{
    struct calibration_readings *before = base_arena_alloc(h->room.a, 1, sizeof *before);
    bool any = base_file_exists(h->readings);
    if (any)
        assert_true(calibration_readings_read(h->room.a, h->readings, before, h->room.errs));
    begin_walk(h, any ? before : NULL);
    start_walk(h);
    both_show_the_same(h, "the start");
}

/* Started again it shows just the readings that were saved, and all were whose picture was seen. */
static void killed_at_any_moment_it_loses_no_reading_that_was_seen(void **state)
{
    struct here *h = *state;
    uint64_t seed = 20261125;
    for (int i = 0; i < kills; i++) {
        if (count_saved(h) >= ENOUGH)
            assert_int_equal(unlink(h->readings), 0);
        walk_goes_on(h);
        size_t before = count_saved(h);
        struct keys keys = keys_of_answers(h, before + 1);
        watch_press_on(&h->watch, keys.pressed);
        XImage *seen = watch_kill_within(&h->watch, random_between(&seed, 0, BURST_MS));
        size_t now = count_saved(h);
        assert_true(now >= before && now <= before + BURST);
        follow(h, &keys, seen, now);
        XDestroyImage(seen);
    }
    walk_goes_on(h);
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

/* Told on the table; the reading is kept in the walk, and the first key with room again saves it. */
static void a_full_disk_is_told_on_the_table_and_loses_no_reading(void **state)
{
    struct here *h = *state;
    begin_walk(h, NULL);
    const char *const words[] = { program, "setup", h->table, "--unit", "mm", NULL };
    watch_start_on_full_disk(&h->watch, words, 100);
    go_to_the_crosses(h);
    answer(h, 1);
    app_walk_set_trouble(h->walk,
                         "The readings are not saved: File too large. Mend that; it is kept here, and every key "
                         "tries again");
    both_show_the_same(h, "a full disk");
    answer(h, 2);
    both_show_the_same(h, "a second reading");
    assert_true(watch_limit_files(&h->watch, RLIM_INFINITY));
    press(h, "Tab", "tab");
    app_walk_set_trouble(h->walk, NULL);
    both_show_the_same(h, "room again");
    assert_int_equal(saved(h), 2);
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

/* In a window of another size no cross is shown, only why, and keys judge none; the size back, the walk goes on. */
static void a_window_of_another_size_waits_for_its_own(void **state)
{
    struct here *h = *state;
    enum { WIDTH = 1000, HEIGHT = 700 };
    begin_walk(h, NULL);
    start_walk(h);
    answer(h, 1);
    both_show_the_same(h, "a reading");
    watch_resize(&h->watch, WIDTH, HEIGHT);
    struct paint_image why = paint(h, app_walk_away_scene(h->walk, h->room.a, WIDTH, HEIGHT, true), WIDTH, HEIGHT);
    watch_for_picture(&h->watch, &why, "another size");
    x_client_press("b");
    watch_resize(&h->watch, setup.width_px, setup.height_px);
    both_show_the_same(h, "its own size");
    answer(h, 2);
    both_show_the_same(h, "a second reading");
    assert_int_equal(saved(h), 2);
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

/* Readings made on one mat are not gone on with on another: the first one holds, and she is told on the table. */
static void the_mat_of_the_readings_holds(void **state)
{
    struct here *h = *state;
    struct calibration_mat first = {
        .name = "first", .unit = UNITS_MM, .width_mm = 600, .height_mm = 450, .ruling_mm = 10
    };
    struct px_pt px = scene_standard_cross(1, setup.width_px, setup.height_px);
    struct calibration_reading one = calibration_position(1, px, (struct table_pt){ 20, 30 });
    struct calibration_readings before = { .name = "table",
                                           .unit = UNITS_MM,
                                           .width_px = setup.width_px,
                                           .height_px = setup.height_px,
                                           .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                           .mat = first,
                                           .items = &one,
                                           .count = 1 };
    room_put(&h->room, "table.json.readings", calibration_readings_print(h->room.a, &before));
    const char *mat = room_put(&h->room, "mat.json",
                               "{ \"chalklight\": \"mat\", \"version\": 1, \"name\": \"second\", \"unit\": \"mm\", "
                               "\"field\": { \"width\": 900, \"height\": 600 }, \"margin\": { \"left\": 0, "
                               "\"right\": 0, \"near\": 0, \"far\": 0 }, \"ruling\": 10 }");
    const char *const words[] = { program, "setup", h->table, "--mat", mat, NULL };
    struct app_walk_start start = { .width_px = setup.width_px,
                                    .height_px = setup.height_px,
                                    .name = "table",
                                    .unit = UNITS_MM,
                                    .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                    .mat = first,
                                    .font = h->font,
                                    .before = &before,
                                    .notice = "Begun on the mat “first”: that one holds, not “second”" };
    h->walk = app_walk_create(h->room.a, &start);
    watch_start(&h->watch, words);
    watch_for_light(&h->watch, setup.width_px, setup.height_px);
    both_show_the_same(h, "another mat");
    press(h, "Return", "enter");
    type(h, "700"); /* beside the first mat's rulings */
    both_show_the_same(h, "a place beside the first mat");
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

static int set_up(void **state)
{
    static struct here h;
    h = (struct here){ .walk = NULL };
    room_init(&h.room);
    h.font = text_font_open(h.room.errs);
    h.table = room_path(&h.room, "table.json");
    h.readings = room_path(&h.room, "table.json.readings");
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
        cmocka_unit_test_setup_teardown(a_walk_by_keys_writes_a_true_table, set_up, tear_down),
        cmocka_unit_test_setup_teardown(killed_at_any_moment_it_loses_no_reading_that_was_seen, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_full_disk_is_told_on_the_table_and_loses_no_reading, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_window_of_another_size_waits_for_its_own, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_mat_of_the_readings_holds, set_up, tear_down),
    };
    if (argc != 3)
        return 2;
    program = argv[1];
    kills = atoi(argv[2]);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
