/* A layout is arranged in the program's own window, by keys alone; every picture is compared with what the program's
 * own twin shows, and the job's file with what the twin would keep. Then the program is ended without warning, and goes
 * on where it was.
 *
 * test_arrange CHALKLIGHT */
#include "app/arrange_state.h"
#include "app/memory.h"
#include "base/digest.h"
#include "base/file.h"
#include "base/journal.h"
#include "base/text.h"
#include "e2e/desk.h"
#include "e2e/watch.h"
#include "export/png.h"
#include "input/key.h"
#include "job/cloth.h"
#include "paint/frame.h"
#include "support/room.h"
#include "table/rig.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { PIECES = 3, MOST_BYTES = 1 << 20 };

/* Two boxes of 200 × 300 mm and one of 100 × 100. */
#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 2, 'name': 'Boxes', 'unit': 'mm', 'outline': 'cutting line', "              \
    "'sizes': ['one'], 'pieces': [ "                                                                                   \
    "{ 'name': 'Front', 'rectangle': { 'width': 200, 'height': 300 } }, "                                              \
    "{ 'name': 'Back', 'rectangle': { 'width': 200, 'height': 300 } }, "                                               \
    "{ 'name': 'Pocket', 'rectangle': { 'width': 100, 'height': 100 } } ], "                                           \
    "'views': [ { 'name': 'Plain', 'cut': [ { 'piece': 'Front', 'count': 1 }, { 'piece': 'Back', 'count': 1 }, "       \
    "{ 'piece': 'Pocket', 'count': 1 } ] } ] }"

static const char *program;

struct here {
    struct room room;
    struct text_font *font;
    struct watch watch;
    const char *path, *note;
    struct app_progress cut; /* what is cut of it, as its journal says */
    struct job job;
    struct app_arrange *twin; /* what the window should show */
};

/* --- the job ----------------------------------------------------------------------------------------------------- */

static const char *job_text(struct here *h)
{
    struct base_bytes bytes;
    assert_true(base_file_read(h->room.a, h->path, MOST_BYTES, &bytes, h->room.errs));
    return base_arena_copy_bytes(h->room.a, bytes.data, bytes.count);
}

/* On 500 mm of cloth in a single layer; Back over Front by 10 mm, or nothing laid. A piece turned by -90° lies from its
 * shift on along the cloth, and below it by its width. */
static void make_job(struct here *h, bool laid)
{
    static const struct job_laid places[PIECES] = {
        { .piece = "Front", .motion = { .turn_deg = -90, .shift = { 0, 200 } } },
        { .piece = "Back", .motion = { .turn_deg = -90, .shift = { 290, 200 } } },
        { .piece = "Pocket", .motion = { .turn_deg = -90, .shift = { 0, 350 } } },
    };
    struct calibration_table table;
    assert_true(rig_exact_table(h->room.a, &desk, &table, h->room.errs));
    const char *table_path = room_put(&h->room, "table.json", calibration_table_print(h->room.a, &table));
    const char *pattern = room_put(&h->room, "boxes.json", room_json(&h->room, PATTERN));
    struct job_choices choices = { .pattern = pattern, .table = table_path, .size = "one" };
    struct job_cloth cloth = {
        .material = PATTERN_FABRIC, .cloth = cloth_plain(500), .laid = places, .laid_count = laid ? PIECES : 0
    };
    cloth.cloth.selvedge_mm = cloth.cloth.gap_mm = 0;
    cloth.cloth.spread = CLOTH_SINGLE;
    struct job job;
    assert_true(job_make(h->room.a, &choices, &job, NULL, h->room.errs));
    job_put_cloth(h->room.a, &job, &cloth);
    h->path = room_put(&h->room, "boxes.job", job_print(h->room.a, &job));
}

/* --- keys, at the window and at the twin ------------------------------------------------------------------------- */

static struct paint_image twin_picture(struct here *h, struct arena *a)
{
    struct paint_scene scene = app_arrange_scene(h->twin, a);
    struct paint_image image = paint_image_create(a, desk.width_px, desk.height_px);
    paint_frame(a, &scene, app_arrange_map(h->twin), &image);
    return image;
}

static void window_shows(struct here *h, const char *what)
{
    struct arena *frame = base_arena_create();
    struct paint_image image = twin_picture(h, frame);
    watch_for_picture(&h->watch, &image, what);
    base_arena_destroy(frame);
}

static void press_twin(struct here *h, const char *our_name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &event.key, &event.mods));
    app_arrange_handle(h->twin, event);
}

static void press(struct here *h, const char *xdotool_name, const char *our_name)
{
    press_twin(h, our_name);
    x_client_press(xdotool_name);
    window_shows(h, our_name);
}

static void start(struct here *h)
{
    const char *const words[] = { program, "arrange", h->path, NULL };
    watch_start_on_full_disk(&h->watch, words, RLIM_INFINITY); /* it may become full later */
    watch_for_light(&h->watch, desk.width_px, desk.height_px);
}

/* The twin on the job as it is kept. */
static void make_twin(struct here *h, enum scene_side side, bool cautions)
{
    app_arrange_destroy(h->twin);
    assert_true(job_read(h->room.a, h->path, &h->job, h->room.errs));
    struct app_arrange_start twin = { .job = &h->job,
                                      .table = h->job.table,
                                      .font = h->font,
                                      .unit = UNITS_MM,
                                      .side = side,
                                      .cautions = cautions,
                                      .cut = &h->cut,
                                      .note = h->note };
    h->twin = app_arrange_create(&twin, h->room.errs);
    assert_non_null(h->twin);
}

/* Past the cautions. */
static void begin(struct here *h)
{
    make_twin(h, SCENE_NEAR, true);
    start(h);
    window_shows(h, "the cautions");
    press(h, "Return", "enter");
}

static void leave(struct here *h)
{
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

/* What the window has kept is what the twin would keep. */
static void is_kept(struct here *h)
{
    struct job job = app_arrange_job(h->twin, h->room.a);
    assert_string_equal(job_text(h), job_print(h->room.a, &job));
}

/* --- the way ----------------------------------------------------------------------------------------------------- */

static const char *const hand_keys[][2] = {
    { "Next", "page down" },
    { "Next", "page down" },
    { "b", "b" },
    { "Up", "up" },
    { "shift+Up", "shift up" },
    { "ctrl+Right", "ctrl right" },
    { "t", "t" },
    { "comma", "," },
    { "ctrl+period", "ctrl ." },
    { "z", "z" },
    { "p", "p" },
    { "Next", "page down" },
    { "x", "x" },
    { "c", "c" },
    { "Tab", "tab" },
};

/* Killed in the middle of the work it has everything as it was; and the job as it was at first is kept beside. */
static void what_is_moved_by_hand_outlives_a_power_cut(void **state)
{
    struct here *h = *state;
    make_job(h, true);
    const char *before = job_text(h);
    begin(h);
    for (size_t i = 0; i < sizeof hand_keys / sizeof hand_keys[0]; i++)
        press(h, hand_keys[i][0], hand_keys[i][1]);
    is_kept(h);
    watch_kill(&h->watch);
    begin(h);
    assert_true(app_arrange_places(app_arrange_now(h->twin))[1].is_pinned);
    assert_false(app_arrange_places(app_arrange_now(h->twin))[2].is_laid);
    leave(h);
    is_kept(h);
    h->path = room_path(&h->room, "boxes.job.old");
    assert_string_equal(job_text(h), before);
}

/* EFBIG stands for ENOSPC, as in test_setup.c. */
static void a_full_disk_is_told_on_the_table_and_tried_again(void **state)
{
    struct here *h = *state;
    make_job(h, true);
    begin(h);
    press(h, "Next", "page down");
    press(h, "Up", "up");
    assert_true(watch_limit_files(&h->watch, 100));
    app_arrange_set_trouble(h->twin, "Nothing is kept: File too large. Every key tries again");
    press(h, "Up", "up");
    assert_true(watch_limit_files(&h->watch, RLIM_INFINITY));
    app_arrange_set_trouble(h->twin, NULL);
    press(h, "Next", "page down");
    leave(h);
    is_kept(h);
}

/* Whether two boxes as they are kept lie over each other. All are turned by a quarter or three of them, mirrored or
 * not, so that along the cloth a piece is as long as it is high. */
static struct geometry_box box_of(const struct job_laid *laid)
{
    static const struct {
        const char *name;
        double width, height;
    } sizes[PIECES] = { { "Front", 200, 300 }, { "Back", 200, 300 }, { "Pocket", 100, 100 } };
    size_t i = 0;
    while (strcmp(sizes[i].name, laid->piece) != 0)
        i++;
    struct geometry_mover mover = geometry_mover_of(laid->motion);
    vec2 a = geometry_move(&mover, (vec2){ 0, 0 }),
         b = geometry_move(&mover, (vec2){ sizes[i].width, sizes[i].height });
    return (struct geometry_box){ { fmin(a.x, b.x), fmin(a.y, b.y) }, { fmax(a.x, b.x), fmax(a.y, b.y) } };
}

/* With nothing laid it begins at once. A key is heard while it searches; stopped, its best is kept: all three on the
 * cloth, none over another, in at most the 400 mm that anybody finds. */
static void a_search_is_stopped_by_a_key_and_its_best_is_kept(void **state)
{
    struct here *h = *state;
    make_job(h, false);
    start(h);
    x_client_press("Return");
    x_client_press("space");
    leave(h);
    assert_true(job_read(h->room.a, h->path, &h->job, h->room.errs));
    const struct job_cloth *cloth = job_find_cloth(&h->job, PATTERN_FABRIC);
    assert_int_equal(cloth->laid_count, PIECES);
    for (size_t i = 0; i < PIECES; i++) {
        struct geometry_box a = box_of(&cloth->laid[i]);
        assert_true(a.min.x >= -1e-3 && a.min.y >= -1e-3 && a.max.y <= 500 + 1e-3 && a.max.x <= 400 + 1e-3);
        for (size_t k = 0; k < i; k++) {
            struct geometry_box b = box_of(&cloth->laid[k]);
            assert_true(a.min.x >= b.max.x - 1e-3 || b.min.x >= a.max.x - 1e-3 || a.min.y >= b.max.y - 1e-3 ||
                        b.min.y >= a.max.y - 1e-3);
        }
    }
}

/* The journal of the job with its first piece cut: the cloth laid along the lines, two marks chalked, Enter. */
static void cut_one(struct here *h)
{
    static const char *const keys[] = { "enter", "enter", "enter", "enter", "enter" };
    assert_true(job_read(h->room.a, h->path, &h->job, h->room.errs));
    struct app_start start = { .job = &h->job, .table = h->job.table, .font = h->font, .unit = UNITS_MM };
    struct app *app = app_create(h->room.a, &start, h->room.errs);
    assert_non_null(app);
    struct app_progress progress = app_progress_of(app, h->room.a);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0] && !app_progress_find(&progress, PATTERN_FABRIC); i++) {
        struct input_event event = { .type = INPUT_KEY };
        assert_true(input_key_from_name(keys[i], &event.key, &event.mods));
        app_handle(app, event);
        progress = app_progress_of(app, h->room.a);
    }
    assert_int_equal(app_progress_find(&progress, PATTERN_FABRIC)->cut, 1);
    h->cut = progress;
    room_put(&h->room, "boxes.job.journal",
             base_arena_print(h->room.a, "chalklight journal 1\n{\"pieces\": \"%016" PRIx64 "\"}\n%s\n",
                              base_digest_text(job_print_pieces(h->room.a, &h->job)), app_remember(app, h->room.a)));
}

/* What is cut is told of, stays where it lies, and is still cut once others were moved. */
static void what_is_cut_stays_where_it_lies(void **state)
{
    struct here *h = *state;
    make_job(h, true);
    cut_one(h);
    h->note = "One piece is cut already and stays where it lies";
    begin(h);
    assert_string_equal(h->twin->told, h->note);
    const struct app_arranged *cloth = app_arrange_now(h->twin);
    size_t moved = PIECES;
    for (size_t i = 0; i < PIECES; i++) {
        struct lay_place before = app_arrange_places(cloth)[i];
        press(h, "Next", "page down");
        press(h, "Up", "up");
        bool stays = memcmp(&before, &app_arrange_places(cloth)[i], sizeof before) == 0;
        assert_int_equal(stays, cloth->begun[i]);
        moved = stays ? moved : i;
    }
    assert_true(moved < PIECES);
    leave(h);
    is_kept(h);
    assert_true(job_read(h->room.a, h->path, &h->job, h->room.errs));
    struct app_start start = { .job = &h->job, .table = h->job.table, .unit = UNITS_MM };
    struct app *app = app_create(h->room.a, &start, h->room.errs);
    struct base_journal_lines lines;
    assert_true(base_journal_look(h->room.a, room_path(&h->room, "boxes.job.journal"), &lines));
    assert_int_equal(lines.count, 2);
    assert_true(app_recall(app, lines.items[1], h->room.errs));
    struct app_progress progress = app_progress_of(app, h->room.a);
    assert_int_equal(app_progress_find(&progress, PATTERN_FABRIC)->cut, 1);
}

/* The same page without a display, to the byte what the twin would save; the job stays as it is. */
static void a_picture_is_made_without_a_display(void **state)
{
    struct here *h = *state;
    make_job(h, true);
    const char *before = job_text(h), *got = room_path(&h->room, "got.png"), *want = room_path(&h->room, "want.png");
    make_twin(h, SCENE_FAR, false);
    struct paint_image image = twin_picture(h, h->room.a);
    assert_true(export_png(want, &image, h->room.errs));
    const char *const words[] = { program, "arrange", h->path, "--out", got, "--side", "far", NULL };
    watch_start(&h->watch, words);
    watch_for_end(&h->watch);
    struct base_bytes a, b;
    assert_true(base_file_read(h->room.a, got, MOST_BYTES, &a, h->room.errs));
    assert_true(base_file_read(h->room.a, want, MOST_BYTES, &b, h->room.errs));
    assert_int_equal(a.count, b.count);
    assert_memory_equal(a.data, b.data, b.count);
    assert_string_equal(job_text(h), before);
}

static int set_up(void **state)
{
    static struct here h;
    h = (struct here){ 0 };
    room_init(&h.room);
    h.font = text_font_open(h.room.errs);
    *state = &h;
    return watch_open(&h.watch) && h.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    watch_close(&h->watch);
    app_arrange_destroy(h->twin);
    text_font_close(h->font);
    return room_close(state);
}

#define e2e_test(f) cmocka_unit_test_setup_teardown((f), set_up, tear_down)

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        e2e_test(what_is_moved_by_hand_outlives_a_power_cut),
        e2e_test(a_full_disk_is_told_on_the_table_and_tried_again),
        e2e_test(what_is_cut_stays_where_it_lies),
        e2e_test(a_picture_is_made_without_a_display),
        e2e_test(a_search_is_stopped_by_a_key_and_its_best_is_kept),
    };
    if (argc != 2)
        return EXIT_FAILURE;
    program = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
