/* A layered sheet on tiled pages goes from its file to pieces on the virtual table, in the program's own window and by
 * keys alone; every page is compared with what the program's own twin shows. The light of a lifted piece is measured on
 * the virtual table against what the sheet's maker says of it. Then the program is ended without warning, and goes on
 * where it was.
 *
 * test_lift CHALKLIGHT CHALKLIGHT_SHEET PYTHON PATTERN_SHEETS */
#include "app/import_keep.h"
#include "app/lift_state.h"
#include "base/file.h"
#include "e2e/desk.h"
#include "e2e/watch.h"
#include "input/key.h"
#include "paint/frame.h"
#include "support/room.h"
#include "table/rig.h"

#include "json/want.h"
#include <X11/Xutil.h>

#include <math.h>
#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

extern char **environ;

#define SHEET "small_lap" /* A4 pages with overlap, a layer for each size (tests/lifting/pattern_sheets.py) */
#define SIZE "40"
#define PIECE "Under cuff" /* four straight sides */
#define LIFTED_MM 0.2

enum { CORNERS = 4 };

static const char *program, *python, *sheets_script;

struct here {
    struct room room;
    struct text_font *font;
    struct watch watch;
    struct calibration_table table;
    const char *sheet, *table_path, *out;
    struct app_lift *lift;
};

/* --- keys, at the window and at the twin ------------------------------------------------------------------------- */

/* Our name of a key as xdotool has it. */
static const char *xdotool_name(const char *our_name)
{
    static const char *const names[][2] = { { "enter", "Return" }, { "esc", "Escape" },     { "down", "Down" },
                                            { "left", "Left" },    { "page down", "Next" }, { ".", "period" },
                                            { "f4", "F4" },        { "f6", "F6" },          { "f7", "F7" },
                                            { "up", "Up" } };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strcmp(our_name, names[i][0]) == 0)
            return names[i][1];
    return our_name;
}

static void press_twin(struct here *h, const char *our_name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &event.key, &event.mods));
    app_lift_handle(h->lift, event);
}

static void press(struct here *h, const char *our_name)
{
    press_twin(h, our_name);
    x_client_press(xdotool_name(our_name));
}

static struct paint_image twin_picture(struct here *h, struct arena *a)
{
    struct paint_scene scene = app_lift_scene(h->lift, a);
    struct paint_image image = paint_image_create(a, desk.width_px, desk.height_px);
    paint_frame(a, &scene, app_lift_map(h->lift), &image);
    return image;
}

static void window_shows(struct here *h, const char *what)
{
    struct arena *frame = base_arena_create();
    struct paint_image image = twin_picture(h, frame);
    watch_for_picture(&h->watch, &image, what);
    base_arena_destroy(frame);
}

/* --- beginning --------------------------------------------------------------------------------------------------- */

static void make_sheet(struct here *h)
{
    const char *const words[] = { python, sheets_script, room_folder(&h->room), SHEET, NULL };
    pid_t pid;
    int status = -1;
    assert_int_equal(posix_spawn(&pid, words[0], NULL, NULL, (char *const *)words, environ), 0);
    assert_int_equal(waitpid(pid, &status, 0), pid);
    assert_int_equal(status, 0);
}

static void make_table(struct here *h)
{
    assert_true(rig_exact_table(h->room.a, &desk, &h->table, h->room.errs));
    const char *text = calibration_table_print(h->room.a, &h->table);
    h->table_path = room_put(&h->room, "table.json", text);
    assert_true(calibration_table_read(h->room.a, h->table_path, &h->table, h->room.errs));
}

/* Starts the program and the twin; both have read the sheet, and the twin knows what was said before. */
static void begin(struct here *h)
{
    const char *const words[] = { program,  "lift", h->sheet, "--table", h->table_path,
                                  "--unit", "cm",   "--out",  h->out,    NULL };
    struct app_lift_start start = { .table = h->table,
                                    .table_path = h->table_path,
                                    .font = h->font,
                                    .unit = UNITS_CM,
                                    .file = h->sheet,
                                    .out = h->out,
                                    .out_is_there = base_file_exists(h->out),
                                    .may_cut = true };
    const char *keep = base_arena_print(h->room.a, "%s.lift", h->out);
    app_lift_destroy(h->lift);
    h->lift = app_lift_create(&start);
    app_lift_doubt_scale(h->lift, APP_DOUBT_START);
    watch_start_on_full_disk(&h->watch, words, RLIM_INFINITY); /* it may become full later */
    watch_for_light(&h->watch, desk.width_px, desk.height_px);
    window_shows(h, "the cautions");
    x_client_press("space");
    press_twin(h, "space");
    struct app_import *im = app_import_read(h->sheet, NULL, h->room.errs);
    if (!im)
        room_print_told(&h->room);
    assert_non_null(im);
    if (base_file_exists(keep))
        assert_true(app_import_go_on(im, keep, h->room.errs));
    app_lift_take(h->lift, im);
    window_shows(h, "what the square says");
}

/* --- what the sheet's maker says --------------------------------------------------------------------------------- */

static const struct json_node *named(const struct json_node *list, const char *name)
{
    for (const struct json_node *n = list->first; n; n = n->next)
        if (strcmp(json_find(n, "name")->text, name) == 0)
            return n;
    fail_msg("the truth has no “%s”", name);
    return NULL;
}

/* The corners of the piece in the size, mm on the sheet: each edge begins at one. */
static void true_corners(struct here *h, vec2 corners[CORNERS])
{
    const struct json_node *top = json_read_file(h->room.a, room_path(&h->room, SHEET ".truth.json"), h->room.errs);
    assert_non_null(top);
    const struct json_node *piece = named(json_find(top, "pieces"), PIECE);
    const struct json_node *edge = json_find(json_find(json_find(piece, "sizes"), SIZE), "outline")->first;
    for (int i = 0; i < CORNERS; i++, edge = edge->next) {
        const struct json_node *start = json_find(edge, "points")->first;
        corners[i] = (vec2){ start->first->number, start->first->next->number };
    }
    assert_null(edge);
}

/* --- measuring --------------------------------------------------------------------------------------------------- */

static struct paint_image seen_picture(struct here *h)
{
    XImage *seen = x_client_look(h->watch.x);
    struct paint_image image = paint_image_create(h->room.a, desk.width_px, desk.height_px);
    for (int y = 0; y < image.height; y++)
        for (int x = 0; x < image.width; x++)
            image.pixels[(size_t)y * image.stride + (size_t)x] = x_client_pixel(seen, x, y);
    XDestroyImage(seen);
    return image;
}

/* Where the piece's corners should fall, to look for its light there: its true shape, brought to where the twin's cut
 * line has its middle. */
static void expected_corners(struct here *h, const vec2 true_corner[CORNERS], struct vt_pt corner[CORNERS])
{
    struct arena *a = h->room.a;
    struct paint_scene scene = app_lift_scene(h->lift, a);
    struct geometry_box box = geometry_box_empty(), own = geometry_box_empty();
    for (size_t i = 0; i < scene.table.in.count; i++)
        if (scene.table.in.items[i].kind == PAINT_STROKE && scene.table.in.items[i].pen.width == SCENE_CUT_WIDTH_MM)
            box = geometry_path_box(scene.table.in.paths[scene.table.in.items[i].first_path]);
    for (int i = 0; i < CORNERS; i++)
        own = geometry_box_join(own, (struct geometry_box){ true_corner[i], true_corner[i] });
    vec2 shift = vec2_sub(vec2_lerp(box.min, box.max, 0.5), vec2_lerp(own.min, own.max, 0.5));
    for (int i = 0; i < CORNERS; i++)
        corner[i] = (struct vt_pt){ true_corner[i].x + shift.x, true_corner[i].y + shift.y };
}

/* How far sides and diagonals of the light are off, at most. */
static double measured_error(struct here *h)
{
    vec2 t[CORNERS];
    struct vt_pt corner[CORNERS];
    struct vt_quad quad;
    true_corners(h, t);
    expected_corners(h, t, corner);
    struct paint_image image = seen_picture(h);
    struct vt_frame frame = rig_frame(&image);
    assert_true(vt_measure_quad(&desk, &frame, corner, 6, &quad));
    double worst = 0;
    for (int i = 0; i < CORNERS; i++)
        worst = fmax(worst, fabs(quad.side_mm[i] - vec2_length(vec2_sub(t[(i + 1) % CORNERS], t[i]))));
    for (int i = 0; i < 2; i++)
        worst = fmax(worst, fabs(quad.diagonal_mm[i] - vec2_length(vec2_sub(t[i + 2], t[i]))));
    return worst;
}

/* --- the way ----------------------------------------------------------------------------------------------------- */

/* Her size is marked and drawn. */
static void choose_size(struct here *h)
{
    const struct lifting_division *d = &h->lift->im->division;
    assert_int_equal(h->lift->page, APP_LIFT_SIZES);
    for (size_t i = 0; i < d->strand_count; i++) {
        const struct lifting_strand *s = &d->strands[h->lift->row];
        if (s->role == LIFTING_SIZE && strcmp(d->sizes[s->size], SIZE) == 0)
            break;
        press(h, "down");
    }
    press(h, "d");
    window_shows(h, "her size");
    assert_string_equal(app_lift_size(h->lift), SIZE);
}

static void go_to_piece(struct here *h)
{
    const struct lifting *found = &h->lift->im->lifting;
    assert_int_equal(h->lift->page, APP_LIFT_PIECES);
    for (size_t i = 0; i < found->piece_count; i++) {
        const char *name = found->pieces[h->lift->piece].words.name;
        if (name && strcmp(name, PIECE) == 0)
            break;
        press(h, "page down");
    }
    assert_string_equal(found->pieces[h->lift->piece].words.name, PIECE);
    window_shows(h, "a lifted piece");
}

static void save_and_cut(struct here *h)
{
    struct job_choices choices = { .pattern = h->out, .table = h->table_path, .all_pieces = true, .size = SIZE };
    press(h, "f7");
    press(h, "up");
    static const char *const width[] = { "0", ".", "5" };
    for (size_t i = 0; i < sizeof width / sizeof width[0]; i++)
        press(h, width[i]);
    press(h, "enter");
    window_shows(h, "what is to be saved");
    x_client_press("Return");
    app_lift_saved(h->lift, NULL);
    window_shows(h, "that it is saved");
    struct job job;
    struct app_start start = { .job = &job, .table = h->table, .font = h->font, .cautions = true, .unit = UNITS_CM };
    bool ok = job_make(h->room.a, &choices, &job, NULL, h->room.errs);
    struct app *app = ok ? app_create(h->room.a, &start, h->room.errs) : NULL;
    if (!app)
        room_print_told(&h->room);
    assert_non_null(app);
    app_doubt_scale(app, APP_DOUBT_START);
    x_client_press("c");
    struct paint_image cautions = rig_paint(h->room.a, app);
    watch_for_picture(&h->watch, &cautions, "the cautions before cutting");
    app_handle(app, (struct input_event){ .type = INPUT_KEY, .key = KEY_SPACE });
    x_client_press("space");
    struct paint_image image = rig_paint(h->room.a, app);
    watch_for_picture(&h->watch, &image, "the first piece to be cut");
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

static void a_tiled_sheet_comes_to_pieces_that_are_true(void **state)
{
    struct here *h = *state;
    begin(h);
    press(h, "enter");
    window_shows(h, "the square, to be measured");
    press(h, "enter");
    window_shows(h, "the pages");
    assert_int_equal(h->lift->page, APP_LIFT_PAGES);
    press(h, "enter");
    choose_size(h);
    press(h, "enter");
    window_shows(h, "the whole sheet");
    press(h, "enter");
    go_to_piece(h);
    double error = measured_error(h);
    if (!(error <= LIFTED_MM))
        fail_msg("the lifted piece is %.3f mm off", error);
    print_message("the lifted piece is %.3f mm off at most\n", error);
    save_and_cut(h);
}

static void what_she_said_outlives_a_power_cut(void **state)
{
    struct here *h = *state;
    begin(h);
    press(h, "f4");
    choose_size(h);
    watch_kill(&h->watch);
    begin(h);
    press(h, "f6");
    go_to_piece(h);
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
    assert_false(base_file_exists(h->out));
}

/* EFBIG stands for ENOSPC, as in test_setup.c. */
static void a_full_disk_is_told_on_the_table_and_tried_again(void **state)
{
    struct here *h = *state;
    const char *keep = base_arena_print(h->room.a, "%s.lift", h->out);
    begin(h);
    press(h, "f4");
    window_shows(h, "the sizes");
    assert_true(watch_limit_files(&h->watch, 16));
    app_lift_set_trouble(h->lift, "What you say is not kept: File too large. Every key tries again");
    press(h, "left");
    window_shows(h, "that it is not kept");
    assert_false(base_file_exists(keep));
    assert_true(watch_limit_files(&h->watch, RLIM_INFINITY));
    app_lift_set_trouble(h->lift, NULL);
    press(h, "down");
    window_shows(h, "that it is kept");
    assert_true(base_file_exists(keep));
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

static int set_up(void **state)
{
    static struct here h;
    h = (struct here){ 0 };
    room_init(&h.room);
    h.font = text_font_open(h.room.errs);
    h.sheet = room_path(&h.room, SHEET ".pdf");
    h.out = room_path(&h.room, "lifted.json");
    make_sheet(&h);
    make_table(&h);
    *state = &h;
    return watch_open(&h.watch) && h.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    watch_close(&h->watch);
    app_lift_destroy(h->lift);
    text_font_close(h->font);
    return room_close(state);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_tiled_sheet_comes_to_pieces_that_are_true, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_full_disk_is_told_on_the_table_and_tried_again, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_she_said_outlives_a_power_cut, set_up, tear_down),
    };
    if (argc != 5)
        return 2;
    program = argv[1];
    setenv("CHALKLIGHT_SHEET", argv[2], 1);
    python = argv[3];
    sheets_script = argv[4];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
