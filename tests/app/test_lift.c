/* A drawn sheet goes to pieces at the table: keys in, the draw list and what was said out. The table is one whose
 * pixels are one millimetre; sheets are drawn here, and every length is worked out by hand. */
#include "app/import_keep.h"
#include "app/lift_state.h"
#include "app/sheet_report.h"
#include "drawing/drawn.h"
#include "input/key.h"
#include "scene/reading.h"
#include "support/room.h"
#include "text/run.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct table_here {
    struct room room;
    struct here scene; /* for finding words */
    struct app_lift *lift;
};

/* --- a sheet ----------------------------------------------------------------------------------------------------- */

static void draw_box(struct collect *c, uint32_t layer, double x, double y, double width, double height)
{
    drawn_line(c, layer, (const double[]){ x, y, x + width, y, x + width, y + height, x, y + height }, 4, true);
}

/* On A3: a test square of 10 cm and, size by size in a layer of its own, a piece from (150, 20) on: 80, 100 and 120 mm
 * wide, all 60 mm high. All lengths times `share`. */
static struct drawing nested(struct arena *a, double share)
{
    static const char *const names[] = { "Size 10", "Size 12", "Size 14" };
    struct collect *c = collect_create(-1);
    uint32_t layers[3], common = collect_layer(c, SHEET_NONE, "All sizes", SHEET_LAYER_ON);
    for (int i = 0; i < 3; i++)
        layers[i] = collect_layer(c, SHEET_NONE, names[i], SHEET_LAYER_ON);
    collect_page(c, 420, 297, NULL);
    draw_box(c, common, 20 * share, 150 * share, 100 * share, 100 * share);
    drawn_words(c, common, 60 * share, 200 * share, 6 * share, "10 cm");
    for (int i = 0; i < 3; i++)
        draw_box(c, layers[i], 150 * share, 20 * share, (80 + 20 * i) * share, 60 * share);
    drawn_words(c, common, 160 * share, 50 * share, 5 * share, "Pocket");
    drawn_words(c, common, 160 * share, 40 * share, 5 * share, "cut 2");
    return drawn_drawing(a, c);
}

/* --- at the table ------------------------------------------------------------------------------------------------ */

static int set_up(void **state)
{
    static struct table_here h;
    room_init(&h.room);
    h.scene.a = h.room.a;
    h.scene.errs = h.room.errs;
    h.scene.font = text_font_open(h.room.errs);
    h.lift = NULL;
    *state = &h;
    return h.scene.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct table_here *h = *state;
    app_lift_destroy(h->lift);
    text_font_close(h->scene.font);
    return room_close(state);
}

#define lift_test(f) cmocka_unit_test_setup_teardown((f), set_up, tear_down)

static struct app_lift_effects press(struct table_here *h, const char *name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(name, &event.key, &event.mods));
    return app_lift_handle(h->lift, event);
}

static void press_all(struct table_here *h, const char *const *names)
{
    for (; *names; names++)
        press(h, *names);
}

/* As keys come: letters small, with Shift. */
static void type(struct table_here *h, const char *text)
{
    for (; *text; text++) {
        struct input_event event = { .type = INPUT_KEY, .mods = isupper(*text) ? MOD_SHIFT : 0 };
        event.key = *text == ' ' ? KEY_SPACE : KEY_CHAR + tolower(*text);
        app_lift_handle(h->lift, event);
    }
}

static void start(struct table_here *h)
{
    struct app_lift_start start = { .table = { .map = map_of(&hangings[0]), .name = "table.json" },
                                    .font = h->scene.font,
                                    .unit = UNITS_CM,
                                    .file = "folder/skirt.pdf",
                                    .out = "folder/skirt.json" };
    h->lift = app_lift_create(&start);
}

/* Past the cautions, with a sheet read. */
static void begin(struct table_here *h, const struct drawing *flat)
{
    start(h);
    assert_true(press(h, "space").read);
    app_lift_take(h->lift, app_import_create(flat));
}

static struct paint_scene scene(struct table_here *h)
{
    return app_lift_scene(h->lift, h->room.a);
}

static struct geometry_box box_of(const struct geometry_path *paths, size_t count)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < count; i++)
        box = geometry_box_join(box, geometry_path_box(paths[i]));
    return box;
}

/* Whether contours of pixels, which run down, are those of a run of letters, however large. */
static bool are_letters(const struct geometry_path *paths, const struct text_run *run)
{
    struct geometry_box box = box_of(paths, run->count), letters = box_of(run->contours, run->count);
    double scale = (box.max.x - box.min.x) / (letters.max.x - letters.min.x);
    for (size_t i = 0; i < run->count; i++) {
        if (paths[i].count != run->contours[i].count)
            return false;
        for (size_t k = 0; k < paths[i].count; k++) {
            vec2 v = run->contours[i].points[k], at = paths[i].points[k];
            if (fabs(at.x - box.min.x - scale * (v.x - letters.min.x)) > 0.01 ||
                fabs(box.max.y - at.y - scale * (v.y - letters.min.y)) > 0.01)
                return false;
        }
    }
    return true;
}

/* Whether these words stand on the page. The shapes of the letters are the font's. */
static bool says(struct table_here *h, const char *capitals)
{
    struct paint_scene s = scene(h);
    struct text_run run = text_run_outline(h->room.a, h->scene.font, capitals, CAP_MM);
    size_t kept = 0;
    for (size_t i = 0; i < run.count; i++)
        if (run.contours[i].count >= 3) /* fonts have contours of single points */
            run.contours[kept++] = run.contours[i];
    run.count = kept;
    for (size_t i = 0; i < s.px.in.count; i++) {
        const struct paint_item *item = &s.px.in.items[i];
        if (item->kind == PAINT_FILL && item->paths == run.count && are_letters(s.px.in.paths + item->first_path, &run))
            return true;
    }
    return false;
}

/* How many closed strokes of four corners that are so wide and high lie on the table, of that pen or (0) any. */
static size_t boxes(struct table_here *h, double width, double height, double pen)
{
    struct paint_scene s = scene(h);
    size_t count = 0;
    for (size_t i = 0; i < s.table.in.count; i++) {
        const struct paint_item *item = &s.table.in.items[i];
        struct geometry_path path = s.table.in.paths[item->first_path];
        struct geometry_box box = geometry_path_box(path);
        count += item->kind == PAINT_STROKE && path.closed && path.count == 4 &&
                 fabs(box.max.x - box.min.x - width) < EXACT_MM && fabs(box.max.y - box.min.y - height) < EXACT_MM &&
                 (pen == 0 || fabs(item->pen.width - pen) < EXACT_MM);
    }
    return count;
}

/* The middle of the one box of that size. */
static vec2 middle_of_box(struct table_here *h, double width, double height)
{
    struct paint_scene s = scene(h);
    for (size_t i = 0; i < s.table.in.path_count; i++) {
        struct geometry_path path = s.table.in.paths[i];
        struct geometry_box box = geometry_path_box(path);
        if (path.count == 4 && fabs(box.max.x - box.min.x - width) < EXACT_MM &&
            fabs(box.max.y - box.min.y - height) < EXACT_MM)
            return vec2_lerp(box.min, box.max, 0.5);
    }
    fail_msg("no box of %g × %g", width, height);
    return (vec2){ 0, 0 };
}

/* --- scale ------------------------------------------------------------------------------------------------------- */

/* 94 mm / 0.94 = 100 mm. */
static void a_sheet_saved_at_94_percent_is_corrected_by_its_square(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 0.94);
    begin(h, &flat);
    assert_true(says(h, "10 CM SQUARE ON PAGE 1: 9.4 CM: SAVED AT 94 %, CORRECTED"));
    assert_true(press(h, "enter").keep);
    assert_int_equal(boxes(h, 100, 100, 0), 1);
    press(h, "esc");
    press(h, "down");
    press(h, "enter"); /* as it is drawn */
    assert_int_equal(boxes(h, 94, 94, 0), 1);
    assert_int_equal(boxes(h, 100, 100, 0), 0);
}

static void the_report_says_what_became_of_lengths(void **state)
{
    static const struct {
        double share;
        enum app_import_scale scale;
        const char *first;
    } rows[] = {
        { 0.94, APP_IMPORT_AS_FOUND, "saved at 94 %. All lengths are put right.\n" },
        { 0.94, APP_IMPORT_AS_DRAWN, "saved at 94 %. Left as it is drawn.\n" },
        { 1, APP_IMPORT_AS_FOUND, "this sheet is at true size.\n" },
        { 1, APP_IMPORT_AS_DRAWN, "this sheet is at true size.\n" },
    };
    struct table_here *h = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct drawing flat = nested(h->room.a, rows[i].share);
        struct app_import *im = app_import_create(&flat);
        im->choices.scale = rows[i].scale;
        app_import_make(im, APP_IMPORT_PIECES);
        assert_non_null(strstr(app_sheet_report(h->room.a, im, UNITS_CM), rows[i].first));
        app_import_destroy(im);
    }
}

static void a_sheet_without_a_line_asks_for_no_points(void **state)
{
    struct table_here *h = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 420, 297, NULL);
    struct drawing flat = drawn_drawing(h->room.a, c);
    begin(h, &flat);
    assert_true(says(h, "NOTHING IS DRAWN ON THIS SHEET."));
    assert_false(says(h, "MARK TWO POINTS, AND TYPE HOW FAR APART THEY TRULY ARE"));
    app_import_make(h->lift->im, APP_IMPORT_PIECES);
    const char *report = app_sheet_report(h->room.a, h->lift->im, UNITS_CM);
    assert_non_null(strstr(report, "Nothing is drawn on this sheet."));
    assert_null(strstr(report, "Mark two points"));
}

/* The page's middle is (210, 148.5). The piece of 80 × 60 at (150, 20): from its lower left to its lower right corner
 * it is 80 mm, which she types as 16 cm: all is to be twice as large. */
static void two_points_and_their_true_distance_correct_a_sheet(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press(h, "up"); /* the last row: two points */
    press(h, "enter");
    assert_int_equal(h->lift->page, APP_LIFT_POINTS);
    for (int i = 0; i < 6; i++)
        press(h, "right"); /* 60 mm: the corner at 150 comes to the middle */
    for (int i = 0; i < 13; i++)
        press(h, "up"); /* 130 mm … */
    for (int i = 0; i < 3; i++)
        press(h, "shift down"); /* … and back: 127 */
    for (int i = 0; i < 5; i++)
        press(h, "ctrl up"); /* 128 */
    press(h, "enter");
    for (int i = 0; i < 8; i++)
        press(h, "left");
    press(h, "enter");
    assert_int_equal(h->lift->page, APP_LIFT_TYPE);
    type(h, "none");
    press(h, "enter");
    assert_true(says(h, "THAT IS NOT A LENGTH: WRITE 10 CM, 100 MM OR 4 IN"));
    for (int i = 0; i < 4; i++)
        press(h, "backspace");
    type(h, "16");
    assert_true(press(h, "enter").keep);
    assert_near(h->lift->im->scale.across, 2, 1e-12);
    assert_int_equal(boxes(h, 200, 200, 0), 1);
    struct paint_scene marked = scene(h);
    h->lift->im->choices.scale = APP_IMPORT_AS_DRAWN; /* no points to be shown: the same without their marks */
    assert_true(marked.table.in.count > scene(h).table.in.count);
    h->lift->im->choices.scale = APP_IMPORT_BY_POINTS;
}

/* --- pages ------------------------------------------------------------------------------------------------------- */

/* Four pages of 100 × 80 mm; a line runs from each to the page beside it, and one down from each upper to the lower. */
static struct drawing paged(struct arena *a)
{
    struct collect *c = collect_create(-1);
    for (int page = 0; page < 4; page++) {
        int column = page % 2, row = page / 2;
        double y = row ? 50 : 35, x = column ? 70 : 55;
        collect_page(c, 100, 80, NULL);
        drawn_line(c, SHEET_NONE, (const double[]){ column ? 0 : 30, y, column ? 60 : 100, y }, 2, false);
        drawn_line(c, SHEET_NONE, (const double[]){ x, row ? 20 : 0, x, row ? 80 : 60 }, 2, false);
    }
    return drawn_drawing(a, c);
}

/* Where a page lies: 10 × row + column; -1: nowhere. */
static int cell_of(const struct table_here *h, int page)
{
    const struct drawing_pages *pages = &h->lift->im->pages;
    for (size_t i = 0; i < pages->place_count; i++)
        if (pages->places[i].page == page)
            return 10 * pages->places[i].row + pages->places[i].column;
    return -1;
}

static void pages_are_laid_by_keys(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = paged(h->room.a);
    begin(h, &flat);
    press(h, "f3");
    for (int i = 0; i < 4; i++)
        press(h, "-");
    press(h, "+");
    const int across[] = { 0, 1, 10, 11 }, down[] = { 0, 10, 1, 11 };
    for (int page = 0; page < 4; page++)
        assert_int_equal(cell_of(h, page), across[page]);
    assert_true(press(h, "r").keep);
    for (int page = 0; page < 4; page++)
        assert_int_equal(cell_of(h, page), down[page]);
    press(h, "r");
    press_all(h, (const char *const[]){ "page down", "left", NULL }); /* the second page and the first change places */
    assert_int_equal(cell_of(h, 1), 0);
    assert_int_equal(cell_of(h, 0), 1);
    press(h, "x");
    assert_int_equal(cell_of(h, 1), -1);
    assert_true(says(h, "IN HAND: PAGE 2, LEFT OUT. X: TAKE IT IN"));
    press(h, "x");
    assert_int_equal(cell_of(h, 1), 0);
}

static void a_page_is_moved_by_tenths_of_a_millimetre(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = paged(h->room.a);
    begin(h, &flat);
    press(h, "f3");
    press_all(h, (const char *const[]){ "shift right", "shift right", "ctrl left", "ctrl up", NULL });
    const vec2 *moved = h->lift->im->choices.pages.moved;
    assert_near(moved[0].x, 1.9, 1e-12);
    assert_near(moved[0].y, 0.1, 1e-12);
    press(h, "home");
    assert_null(h->lift->im->choices.pages.moved);
}

/* No line of the table is on it, and none of its pixels' lines is as thick as a cut line of 3 mm. */
static void the_small_picture_of_pages_says_that_it_is_not_true(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = paged(h->room.a);
    begin(h, &flat);
    press(h, "f3");
    assert_true(says(h, "NOT TRUE TO SCALE HERE: FOR LOOKING, NOT FOR CUTTING"));
    struct paint_scene s = scene(h);
    assert_int_equal(s.table.in.count, 0);
    size_t thin = 0;
    for (size_t i = 0; i < s.px.in.count; i++)
        thin += s.px.in.items[i].kind == PAINT_STROKE && s.px.in.items[i].pen.width == SCENE_LEAST_STROKE_PX &&
                s.px.in.items[i].ink.level < 0.5;
    assert_int_equal(thin, h->lift->im->joined.line_count);
}

/* --- sizes ------------------------------------------------------------------------------------------------------- */

static void her_size_alone_is_a_cut_line_on_the_whole_sheet(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press(h, "f5");
    assert_int_equal(boxes(h, 80, 60, SCENE_CUT_WIDTH_MM), 1); /* before she says which, all */
    assert_int_equal(boxes(h, 120, 60, SCENE_CUT_WIDTH_MM), 1);
    press(h, "f4");
    assert_true(says(h, "SIZE 12"));
    press(h, "down");
    press(h, "down");
    assert_true(press(h, "d").keep);
    assert_true(says(h, "DRAWN"));
    press(h, "enter");
    assert_int_equal(h->lift->page, APP_LIFT_WHOLE);
    assert_int_equal(boxes(h, 100, 60, SCENE_CUT_WIDTH_MM), 1);
    assert_int_equal(boxes(h, 80, 60, 0) + boxes(h, 120, 60, 0), 0);
    assert_int_equal(boxes(h, 100, 100, 1.5), 1); /* the test square is of all sizes */
    press(h, "l");
    assert_true(says(h, "SHOWN"));
    assert_true(says(h, "NOT DRAWN: OF NO SIZE THAT YOU CUT"));
    press(h, "enter");
    press(h, "a");
    assert_int_equal(boxes(h, 80, 60, SCENE_LEAST_STROKE_PX), 1); /* the others, thin */
    assert_int_equal(boxes(h, 80, 60, SCENE_CUT_WIDTH_MM), 0);
}

/* Two alike in all but their width say it; one that nothing is like does not. */
static void lines_that_look_alike_are_told_by_their_width(void **state)
{
    struct table_here *h = *state;
    static const struct lifting_strand strands[] = {
        { .layer = LIFTING_NONE, .width_mm = 0.35 },
        { .layer = LIFTING_NONE, .width_mm = 0.5 },
        { .layer = LIFTING_NONE, .rgb = 0xff0000, .width_mm = 0.5 },
    };
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press(h, "f4");
    h->lift->im->division.strands = strands;
    h->lift->im->division.strand_count = 3;
    assert_string_equal(app_lift_strand_name(h->lift, h->room.a, &strands[0]), "black, whole, 0.35 mm");
    assert_string_equal(app_lift_strand_name(h->lift, h->room.a, &strands[1]), "black, whole, 0.5 mm");
    assert_string_equal(app_lift_strand_name(h->lift, h->room.a, &strands[2]), "red, whole");
}

static void a_line_becomes_another_size_by_keys(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press(h, "f4");
    const struct lifting_division *d = &h->lift->im->division;
    assert_int_equal(d->strand_count, 4);
    assert_int_equal(d->strands[0].role, LIFTING_COMMON);
    press(h, "left");
    assert_int_equal(d->strands[0].role, LIFTING_UNUSED);
    press(h, "down");
    assert_int_equal(d->strands[1].role, LIFTING_SIZE);
    press(h, "right");
    assert_string_equal(d->sizes[d->strands[1].size], d->sizes[d->strands[2].size]);
    press(h, "n");
    type(h, "Tall 10");
    press(h, "enter");
    assert_int_equal(h->lift->page, APP_LIFT_SIZES);
    assert_string_equal(d->sizes[d->strands[1].size], "Tall 10");
    assert_int_equal(h->lift->im->choices.say_count, 2);
}

static void what_is_to_be_cut_is_asked_before_pieces_are_shown(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press(h, "f6");
    assert_int_equal(h->lift->page, APP_LIFT_SIZES);
    assert_true(says(h, "WHICH SIZE IS YOURS? D ON ITS LINE, THEN ENTER"));
}

/* --- the whole sheet --------------------------------------------------------------------------------------------- */

static void the_whole_sheet_is_moved_turned_and_turned_over(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press(h, "f5");
    vec2 before = middle_of_box(h, 80, 60);
    press_all(h, (const char *const[]){ "right", "up", "shift left", "ctrl down", NULL });
    vec2 after = middle_of_box(h, 80, 60);
    assert_near(after.x - before.x, 49, EXACT_MM);
    assert_near(after.y - before.y, 49.8, EXACT_MM);
    press(h, "home");
    press(h, "t");
    assert_int_equal(boxes(h, 60, 80, SCENE_CUT_WIDTH_MM), 1);
    press(h, "shift t");
    press(h, "o");
    vec2 over = middle_of_box(h, 80, 60), square = middle_of_box(h, 100, 100);
    assert_true(over.x < square.x); /* the square lay to the left of the piece */
    assert_near(over.y, before.y, EXACT_MM);
    press_all(h, (const char *const[]){ "+", "+", NULL });
    assert_int_equal(boxes(h, 80, 60, SCENE_CUT_WIDTH_MM + 1), 1);
}

/* The words of the sheet that is drawn here have no outlines, as those of an SVG; each is one filled item. */
static void words_without_outlines_stand_on_the_whole_sheet(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press(h, "f5");
    size_t fills = 0;
    struct paint_scene s = scene(h);
    for (size_t i = 0; i < s.table.in.count; i++)
        fills += s.table.in.items[i].kind == PAINT_FILL;
    assert_int_equal(fills, 3); /* 10 cm, Pocket, cut 2 */
}

static void a_layer_is_hidden_and_shown_by_keys(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press(h, "f5");
    press_all(h, (const char *const[]){ "l", "down", "space", NULL });
    assert_true(says(h, "NOT SHOWN"));
    press(h, "enter");
    assert_int_equal(boxes(h, 80, 60, 0), 0);
    assert_int_equal(boxes(h, 100, 60, 0), 1);
    press_all(h, (const char *const[]){ "l", "down", "space", "enter", NULL });
    assert_int_equal(boxes(h, 80, 60, 0), 1);
}

/* --- pieces ------------------------------------------------------------------------------------------------------ */

static const struct lifting_piece *piece(const struct table_here *h)
{
    return &h->lift->im->lifting.pieces[h->lift->piece];
}

/* At the piece of `nested`, in the size of 100 × 60 mm. */
static void begin_pieces(struct table_here *h, const struct drawing *flat)
{
    begin(h, flat);
    press_all(h, (const char *const[]){ "f4", "down", "down", "d", "f6", NULL });
    assert_int_equal(h->lift->page, APP_LIFT_PIECES);
    for (size_t i = 0; i < h->lift->im->lifting.piece_count && boxes(h, 100, 60, SCENE_CUT_WIDTH_MM) == 0; i++)
        press(h, "page down");
    assert_int_equal(boxes(h, 100, 60, SCENE_CUT_WIDTH_MM), 1);
}

static void a_piece_is_drawn_to_be_cut_in_her_size_with_what_is_written_on_it(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    assert_string_equal(piece(h)->words.name, "Pocket");
    assert_int_equal(piece(h)->words.count, 2);
    assert_int_equal(boxes(h, 80, 60, 0) + boxes(h, 120, 60, 0), 0);
    vec2 before = middle_of_box(h, 100, 60);
    press(h, "left");
    assert_near(middle_of_box(h, 100, 60).x - before.x, -10, EXACT_MM);
}

static void a_piece_is_named_and_counted_by_keys_and_each_step_taken_back(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    press(h, "n");
    type(h, "Back Pocket");
    assert_true(press(h, "enter").keep);
    assert_string_equal(piece(h)->words.name, "Back Pocket");
    press(h, "x");
    assert_true(says(h, base_arena_print(h->room.a, "PIECE %zu OF %zu: “BACK POCKET”, CUT 2", h->lift->piece + 1,
                                         h->lift->im->lifting.piece_count)));
    type(h, "many");
    press(h, "enter");
    assert_true(says(h, "THAT IS NO COUNT: WRITE 2, 1 PAIR, 1 ON THE FOLD, OR 2 OF FABRIC, 1 OF INTERFACING"));
    press_all(h, (const char *const[]){ "backspace", "backspace", "backspace", "backspace", "4", "enter", NULL });
    assert_int_equal(piece(h)->words.count, 4);
    press(h, "u");
    press(h, "x");
    type(h, "1 pair of interfacing");
    assert_true(press(h, "enter").keep);
    assert_int_equal(piece(h)->words.count, 1);
    assert_true(piece(h)->words.pairs);
    assert_int_equal(piece(h)->words.cloths, 1U << LIFTING_INTERFACING);
    press(h, "u");
    assert_int_equal(piece(h)->words.count, 2);
    press(h, "u");
    assert_string_equal(piece(h)->words.name, "Pocket");
    press(h, "u");
    assert_true(says(h, "NOTHING WAS MENDED YET"));
}

static void the_last_piece_that_is_taken_away_can_be_taken_back(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    assert_true(says(h, base_arena_print(h->room.a, "PIECE %zu OF %zu · STEP 5 OF 7 · F1: KEYS", h->lift->piece + 1,
                                         h->lift->im->lifting.piece_count)));
    while (h->lift->im->lifting.piece_count)
        press(h, "backspace");
    assert_true(says(h, "NO PIECE IS LEFT: U TAKES THAT BACK"));
    press(h, "u");
    assert_int_equal(h->lift->im->lifting.piece_count, 1);
}

static void a_size_without_a_name_is_not_called_size_twice(void **state)
{
    struct table_here *h = *state;
    assert_string_equal(app_size_said(h->room.a, "14"), "size 14");
    assert_string_equal(app_size_said(h->room.a, "one size"), "one size");
    assert_string_equal(app_size_said(h->room.a, "Size L"), "Size L");
}

/* 5° counter-clockwise of straight up. */
static void the_grain_is_turned_by_keys(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    press(h, "g");
    for (int i = 0; i < 5; i++)
        press(h, ",");
    assert_true(press(h, "enter").keep);
    assert_near(fabs(vec2_cross(piece(h)->grain, (vec2){ -sin(5 * M_PI / 180), cos(5 * M_PI / 180) })), 0, 1e-9);
    assert_false(piece(h)->doubts & LIFTING_DOUBT_GRAIN);
}

/* The cross stands on the middle of the piece; moved 50 mm to the right and 30 mm up, its lower left corner comes
 * there, and 60 mm down from there the upper left one. */
static void the_fold_is_the_edge_between_two_marked_places(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    press(h, "f");
    for (int i = 0; i < 5; i++)
        press(h, "right");
    for (int i = 0; i < 3; i++)
        press(h, "up");
    press(h, "enter");
    for (int i = 0; i < 6; i++)
        press(h, "down");
    assert_true(press(h, "enter").keep);
    struct draft_piece drafted;
    assert_true(app_lift_draft(h->room.a, piece(h), app_lift_shown_size(h->lift), &drafted));
    assert_true(drafted.has_fold);
    assert_near(drafted.fold[0].x, 150, 1e-6); /* the left edge, down as the outline runs */
    assert_near(drafted.fold[0].y, 80, 1e-6);
    assert_near(drafted.fold[1].x, 150, 1e-6);
    assert_near(drafted.fold[1].y, 20, 1e-6);
    assert_near(geometry_path_length(drafted.cut_line.path), 260, 1e-6); /* 320 about, without the fold */
}

/* The middle is (200, 50): 20 mm to its left, and 20 mm up from there. */
static void the_grain_arrow_lies_where_it_was_marked(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    press(h, "g");
    for (int i = 0; i < 2; i++)
        press(h, "right");
    press(h, "enter");
    for (int i = 0; i < 2; i++)
        press(h, "down");
    assert_true(press(h, "enter").keep);
    struct draft_piece drafted;
    assert_true(app_lift_draft(h->room.a, piece(h), app_lift_shown_size(h->lift), &drafted));
    assert_near(drafted.grain[0].x, 180, 1e-6);
    assert_near(drafted.grain[0].y, 50, 1e-6);
    assert_near(drafted.grain[1].x, 180, 1e-6);
    assert_near(drafted.grain[1].y, 70, 1e-6);
}

static void a_piece_is_parted_and_its_parts_joined_by_keys(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    size_t count = h->lift->im->lifting.piece_count;
    press(h, "p");
    for (int i = 0; i < 4; i++)
        press(h, "up");
    press(h, "enter");
    for (int i = 0; i < 8; i++)
        press(h, "down");
    assert_true(press(h, "enter").keep);
    assert_int_equal(h->lift->im->lifting.piece_count, count + 1);
    assert_int_equal(boxes(h, 50, 60, SCENE_CUT_WIDTH_MM), 1);
    press(h, "j");
    for (size_t i = 0; i < count && boxes(h, 50, 60, SCENE_CUT_WIDTH_MM) < 2; i++)
        press(h, "page down");
    assert_int_equal(boxes(h, 50, 60, SCENE_CUT_WIDTH_MM), 2);
    assert_true(press(h, "enter").keep);
    assert_int_equal(h->lift->im->lifting.piece_count, count);
    struct geometry_box box = geometry_path_box(piece(h)->outlines[app_lift_shown_size(h->lift)].path.path);
    assert_near(box.max.x - box.min.x, 100, 1e-6);
    press(h, "backspace");
    assert_int_equal(h->lift->im->lifting.piece_count, count - 1);
    assert_int_equal(h->lift->im->choices.mend_count, 3);
}

/* Told in lifting/mend.c: two pieces that touch nowhere, and points that are one. */
static void what_cannot_be_mended_is_told_and_no_step(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    press(h, "p");
    for (int i = 0; i < 20; i++)
        press(h, "up");
    press(h, "enter");
    press(h, "left");
    press(h, "enter"); /* both far below the piece, one beside the other */
    assert_int_equal(h->lift->im->choices.mend_count, 0);
    assert_non_null(h->lift->told);
    assert_non_null(strstr(h->lift->told, "does not cut “Pocket” in two"));
}

static void mends_wait_while_the_pieces_are_others_and_come_back(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    press(h, "n");
    type(h, "Patch");
    press(h, "enter");
    press_all(h, (const char *const[]){ "f4", "down", "left", "left", "f6", NULL }); /* size 10 is not used any more */
    assert_false(h->lift->im->mended);
    press_all(h, (const char *const[]){ "f4", "down", "right", "right", "f6", NULL });
    assert_true(h->lift->im->mended);
    assert_string_equal(piece(h)->words.name, "Patch");
}

/* --- the end ----------------------------------------------------------------------------------------------------- */

static void where_the_allowance_is_is_always_asked(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    press_all(h, (const char *const[]){ "f4", "down", "d", "f8", NULL });
    assert_int_equal(h->lift->page, APP_LIFT_ALLOWANCE);
    press(h, "enter"); /* neither answer is marked */
    assert_true(says(h, "YES OR NO? UP OR DOWN MARKS IT"));
    press(h, "down"); /* yes */
    assert_true(says(h, "HOW WIDE, IN CM? _"));
    press(h, "enter");
    assert_true(says(h, "TYPE HOW WIDE THE ALLOWANCE IS, THEN ENTER"));
    press(h, "down"); /* no: it is sewn on the outline */
    type(h, "1.5 cm");
    assert_true(press(h, "enter").keep);
    assert_int_equal(h->lift->page, APP_LIFT_SAVE);
    struct lifting_wish wish = app_lift_wish(h->lift, h->room.a);
    assert_false(wish.cutting_line);
    assert_near(wish.allowance_mm, 15, 1e-12);
    assert_string_equal(wish.name, "skirt");
}

/* What is shown can be typed: small letters, straight quotes, the table's file as it was given. */
static void the_saved_page_shows_commands_that_can_be_typed(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin(h, &flat);
    h->lift->start.table_path = "my tables/small.json";
    press_all(h, (const char *const[]){ "f4", "down", "d", NULL });
    app_lift_saved(h->lift, NULL);
    assert_true(says(h, "chalklight check folder/skirt.json"));
    assert_true(says(h, base_arena_print(h->room.a,
                                         "chalklight job folder/skirt.json --size %s --table \"my tables/small.json\"",
                                         app_lift_size(h->lift))));
}

/* --- passwords --------------------------------------------------------------------------------------------------- */

static void a_password_is_typed_and_not_shown(void **state)
{
    struct table_here *h = *state;
    start(h);
    press(h, "space");
    assert_null(app_lift_password(h->lift));
    app_lift_refuse(h->lift, "It is locked", APP_LIFT_LACKS_PASSWORD);
    assert_true(says(h, "THE FILE IS LOCKED: TYPE ITS PASSWORD"));
    type(h, "Open 7");
    assert_true(says(h, "PASSWORD: ••••••_"));
    assert_true(press(h, "enter").read);
    assert_string_equal(app_lift_password(h->lift), "Open 7");
    app_lift_refuse(h->lift, "It is locked", APP_LIFT_LACKS_PASSWORD);
    assert_string_equal(app_lift_password(h->lift), ""); /* forgotten at once */
    assert_true(says(h, "THAT IS NOT ITS PASSWORD: TYPE IT AGAIN, CAPITALS AS THEY WERE GIVEN"));
}

static void how_many_dots_a_picture_has_to_the_inch_is_typed(void **state)
{
    struct table_here *h = *state;
    start(h);
    press(h, "space");
    app_lift_refuse(h->lift, "It does not say its size", APP_LIFT_LACKS_DPI);
    type(h, "many");
    assert_false(press(h, "enter").read);
    for (int i = 0; i < 4; i++)
        press(h, "backspace");
    type(h, "300");
    assert_true(press(h, "enter").read);
    assert_near(app_lift_dpi(h->lift), 300, 0);
    assert_null(app_lift_password(h->lift));
}

static void reading_is_given_up_by_a_key(void **state)
{
    struct table_here *h = *state;
    start(h);
    press(h, "space");
    assert_true(app_lift_progress(h->lift, 40).redraw);
    assert_true(says(h, "READING: 40 %"));
    assert_true(press(h, "esc").cancel);
}

/* --- keeping ----------------------------------------------------------------------------------------------------- */

static void what_she_said_is_kept_and_taken_up_again(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 0.94);
    begin(h, &flat);
    press_all(h, (const char *const[]){ "enter", "f4", "left", "down", "down", "d", "f7", "down", NULL });
    type(h, "1");
    press(h, "enter");
    const char *kept = app_import_keep(h->room.a, h->lift->im);
    struct app_import *again = app_import_create(&flat);
    assert_true(app_import_go_on(again, room_put(&h->room, "skirt.json.lift", kept), h->room.errs));
    room_nothing_told(&h->room);
    assert_string_equal(app_import_keep(h->room.a, again), kept);
    app_import_make(again, APP_IMPORT_SIZES);
    assert_int_equal(again->division.strands[0].role, LIFTING_UNUSED);
    assert_true(app_import_draws(again, h->lift->im->division.sizes[1]));
    assert_near(again->scale.across, 1 / 0.94, 1e-9);
    assert_true(again->choices.allowance.said);
    app_import_destroy(again);
}

static void what_was_kept_of_another_sheet_is_refused(void **state)
{
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1), other = { 0 };
    struct collect *c = collect_create(-1);
    collect_page(c, 100, 100, NULL);
    draw_box(c, SHEET_NONE, 10, 10, 20, 20);
    other = drawn_drawing(h->room.a, c);
    begin(h, &flat);
    const char *path = room_put(&h->room, "kept", app_import_keep(h->room.a, h->lift->im));
    struct app_import *im = app_import_create(&other);
    assert_false(app_import_go_on(im, path, h->room.errs));
    room_only_told(&h->room, "import.other_sheet");
    app_import_destroy(im);
}

/* A file that was kept, with one thing in it replaced by another. */
static const char *spoilt(struct table_here *h, const char *kept, const char *from, const char *to)
{
    const char *at = strstr(kept, from);
    assert_non_null(at);
    return base_arena_print(h->room.a, "%.*s%s%s", (int)(at - kept), kept, to, at + strlen(from));
}

static void what_is_not_as_it_was_kept_is_told_and_nothing_taken(void **state)
{
    static const struct {
        const char *from, *to, *code;
    } rows[] = {
        { "\"by\": \"points\"", "\"by\": \"guess\"", "import.not_so" },
        { "\"page\": 0", "\"page\": 7", "json.not_whole" },
        { "\"do\": \"rename\"", "\"do\": \"sew\"", "import.not_so" },
        { "\"role\": \"unused\"", "\"role\": 3", "json.wrong_type" },
        { "\"true_mm\": 160", "\"true_mm\": \"long\"", "json.wrong_type" },
        { "\"version\": 1", "\"version\": 99", "json.newer" },
    };
    struct table_here *h = *state;
    struct drawing flat = nested(h->room.a, 1);
    begin_pieces(h, &flat);
    press(h, "n");
    type(h, "Patch");
    press(h, "enter");
    press_all(h, (const char *const[]){ "f4", "left", NULL });
    struct app_import_choices *c = &h->lift->im->choices;
    c->scale = APP_IMPORT_BY_POINTS;
    c->points[1] = (vec2){ 80, 0 };
    c->true_mm = 160;
    const char *kept = app_import_keep(h->room.a, h->lift->im);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct app_import *im = app_import_create(&flat);
        const char *path = room_put(&h->room, "kept", spoilt(h, kept, rows[i].from, rows[i].to));
        assert_false(app_import_go_on(im, path, h->room.errs));
        assert_int_equal(im->choices.scale, APP_IMPORT_AS_FOUND);
        assert_int_equal(im->choices.mend_count, 0);
        assert_true(base_err_list_has(h->room.errs, rows[i].code));
        room_forget(&h->room);
        app_import_destroy(im);
    }
}

/* --- keys -------------------------------------------------------------------------------------------------------- */

/* Each key of a page stands on one of its lines: they are parted by " or ". */
static void every_key_of_a_page_does_one_thing(void **state)
{
    struct table_here *h = *state;
    for (enum app_lift_page page = 0; page < APP_LIFT_PAGE_COUNT; page++) {
        const struct scene_help_line *lines;
        const char *names[200];
        size_t count = app_lift_page_keys(h->room.a, page, &lines), known = 0;
        for (size_t i = 0; i < count; i++) {
            assert_true(strlen(lines[i].what) > 3);
            for (const char *at = lines[i].key; at;) {
                const char *end = strstr(at, " or ");
                names[known++] = end ? base_arena_copy_bytes(h->room.a, at, (size_t)(end - at)) : at;
                at = end ? end + 4 : NULL;
            }
        }
        for (size_t i = 0; i < known; i++)
            for (size_t k = i + 1; k < known; k++)
                if (strcmp(names[i], names[k]) == 0)
                    fail_msg("%s stands twice on page %d", names[i], (int)page);
    }
}

static void every_list_of_keys_has_lines(void **state)
{
    struct table_here *h = *state;
    for (int list = 0; list < APP_LIFT_KEY_LISTS; list++) {
        const char *title, *name;
        const struct scene_help_line *lines;
        assert_true(app_lift_help_lines(h->room.a, list, &title, &name, &lines) > 3);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        lift_test(a_sheet_saved_at_94_percent_is_corrected_by_its_square),
        lift_test(a_sheet_without_a_line_asks_for_no_points),
        lift_test(the_report_says_what_became_of_lengths),
        lift_test(two_points_and_their_true_distance_correct_a_sheet),
        lift_test(pages_are_laid_by_keys),
        lift_test(a_page_is_moved_by_tenths_of_a_millimetre),
        lift_test(the_small_picture_of_pages_says_that_it_is_not_true),
        lift_test(her_size_alone_is_a_cut_line_on_the_whole_sheet),
        lift_test(lines_that_look_alike_are_told_by_their_width),
        lift_test(a_line_becomes_another_size_by_keys),
        lift_test(what_is_to_be_cut_is_asked_before_pieces_are_shown),
        lift_test(the_whole_sheet_is_moved_turned_and_turned_over),
        lift_test(words_without_outlines_stand_on_the_whole_sheet),
        lift_test(a_layer_is_hidden_and_shown_by_keys),
        lift_test(a_piece_is_drawn_to_be_cut_in_her_size_with_what_is_written_on_it),
        lift_test(a_piece_is_named_and_counted_by_keys_and_each_step_taken_back),
        lift_test(the_last_piece_that_is_taken_away_can_be_taken_back),
        lift_test(a_size_without_a_name_is_not_called_size_twice),
        lift_test(the_grain_is_turned_by_keys),
        lift_test(the_fold_is_the_edge_between_two_marked_places),
        lift_test(the_grain_arrow_lies_where_it_was_marked),
        lift_test(a_piece_is_parted_and_its_parts_joined_by_keys),
        lift_test(what_cannot_be_mended_is_told_and_no_step),
        lift_test(mends_wait_while_the_pieces_are_others_and_come_back),
        lift_test(where_the_allowance_is_is_always_asked),
        lift_test(the_saved_page_shows_commands_that_can_be_typed),
        lift_test(a_password_is_typed_and_not_shown),
        lift_test(how_many_dots_a_picture_has_to_the_inch_is_typed),
        lift_test(reading_is_given_up_by_a_key),
        lift_test(what_she_said_is_kept_and_taken_up_again),
        lift_test(what_was_kept_of_another_sheet_is_refused),
        lift_test(what_is_not_as_it_was_kept_is_told_and_nothing_taken),
        lift_test(every_key_of_a_page_does_one_thing),
        lift_test(every_list_of_keys_has_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
