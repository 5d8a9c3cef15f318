/* Pages of rows and small pictures, and a sheet's lines on the table, read from the draw list of a frame whose pixels
 * are one millimetre. All lengths are worked out by hand. */
#include "scene/board.h"
#include "scene/reading.h"
#include "scene/sheet.h"
#include "text/run.h"

#include <math.h>

static struct scene_view view_of(const struct here *h, const struct geometry_map *map)
{
    return (struct scene_view){
        .map = map, .font = h->font, .look = { 1, SCENE_CUT_WIDTH_MM, &scene_chalks[0] }, .strip_left = "Enter"
    };
}

/* The level strokes of two points in the pixels' list that are so long, but for the last of a row of them. */
static size_t dashes(const struct paint_scene *s, double length, double width)
{
    size_t count = 0;
    for (size_t i = 0; i < s->px.in.count; i++) {
        const struct paint_item *item = &s->px.in.items[i];
        struct geometry_path path = s->px.in.paths[item->first_path];
        count += item->kind == PAINT_STROKE && path.count == 2 &&
                 fabs(fabs(path.points[1].x - path.points[0].x) - length) < EXACT_MM &&
                 fabs(item->pen.width - width) < EXACT_MM;
    }
    return count;
}

/* A sample is nine capitals of 14.2 px long: 127.8. Dashes of 12 and gaps of 6 mm go into it seven times whole (to
 * 120), and the eighth is cut short; dashes of 1 mm with gaps of 2 grow to the least that pixels carry, 4 px, their
 * gaps with them to 8: eleven (the last to 124). */
static void a_sample_has_the_lines_own_dashes_and_weight(void **state)
{
    struct here *h = *state;
    static const double long_dash[] = { 12, 6 }, short_dash[] = { 1, 2 };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    struct scene_board_row rows[] = { { .sample = { true, 0.3, long_dash, 2 }, .texts = { "36" } },
                                      { .sample = { true, 2.5, short_dash, 2 }, .texts = { "38" } } };
    struct scene_board board = { .title = "Sizes", .rows = rows, .row_count = 2 };
    struct paint_scene s = scene_board(h->a, &view, &board);
    assert_int_equal(dashes(&s, 12, SCENE_LEAST_STROKE_PX), 7);
    assert_int_equal(dashes(&s, 4, 2.5), 11);
    assert_int_equal(s.table.in.count, 0);
}

/* Of a hundred rows those about the marked one are shown, and how many there are beyond. */
static void of_many_rows_the_marked_one_is_shown(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    struct scene_board_row rows[100] = { { .marked = false } };
    for (int i = 0; i < 100; i++)
        rows[i].texts[0] = base_arena_print(h->a, "row %d", i);
    rows[60].marked = true;
    struct scene_board board = { .title = "Rows", .rows = rows, .row_count = 100 };
    struct paint_scene s = scene_board(h->a, &view, &board);
    size_t lit_bands = 0;
    for (size_t i = 0; i < s.px.in.count; i++) {
        const struct paint_item *item = &s.px.in.items[i];
        struct geometry_box box = geometry_path_box(s.px.in.paths[item->first_path]);
        lit_bands += item->kind == PAINT_FILL && item->ink.level == 1 && item->paths == 1 &&
                     box.max.x - box.min.x > 900 && box.min.y > 0 && box.max.y < HEIGHT;
    }
    assert_int_equal(lit_bands, 1);
}

/* 200 × 100 mm in a room of more than twice that shape: the picture is as high as its room, and twice as wide. A
 * missing part is crossed out from corner to corner. */
static void a_small_picture_keeps_its_shape(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    vec2 points[] = { { 0, 0 }, { 200, 100 } };
    struct geometry_path line = { points, 2, false };
    struct scene_board_frame frame = { .box = { { 100, 0 }, { 200, 100 } }, .missing = true };
    struct scene_board_picture picture = { &line, 1, &frame, 1 };
    struct scene_board board = { .title = "Pages", .picture = &picture };
    struct paint_scene s = scene_board(h->a, &view, &board);
    struct geometry_box drawn = geometry_box_empty();
    size_t slanted = 0;
    for (size_t i = 0; i < s.px.in.count; i++) {
        struct geometry_path path = s.px.in.paths[s.px.in.items[i].first_path];
        if (s.px.in.items[i].kind != PAINT_STROKE)
            continue;
        drawn = geometry_box_join(drawn, geometry_path_box(path));
        struct geometry_box box = geometry_path_box(path);
        slanted += fabs((box.max.x - box.min.x) - (box.max.y - box.min.y)) < EXACT_MM;
    }
    assert_near((drawn.max.x - drawn.min.x) / (drawn.max.y - drawn.min.y), 2, 1e-9);
    assert_int_equal(slanted, 2);
}

/* A sheet's own dashes, an odd number of them twice through, none shorter than 4 px; of two lines one lies outside. */
static void a_sheets_lines_have_their_own_dashes_on_the_table(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    static const double dash[] = { 20, 6, 2 };
    vec2 here[] = { { 100, 100 }, { 300, 100 } }, far[] = { { 5000, 0 }, { 5200, 0 } };
    struct scene_sheet_line lines[] = { { SCENE_SHEET_CUT, { here, 2, false }, dash, 3, 0 },
                                        { SCENE_SHEET_CUT, { far, 2, false }, dash, 3, 1 } };
    struct scene_sheet sheet = { .lines = lines, .count = 2, .middle = { 200, 100 } };
    struct paint_scene s = scene_sheet(h->a, &view, &sheet);
    assert_int_equal(s.table.in.count, 1);
    const struct paint_item *item = &s.table.in.items[0];
    static const double want[] = { 20, 6, 4, 20 };
    for (int i = 0; i < PAINT_DASHES; i++)
        assert_near(item->pen.dash[i], want[i], EXACT_MM);
    assert_near(item->pen.width, SCENE_CUT_WIDTH_MM, EXACT_MM);
    struct geometry_path path = s.table.in.paths[item->first_path];
    assert_near(geometry_path_length(path), 200, EXACT_MM);
    assert_near(vec2_lerp(path.points[0], path.points[1], 0.5).x, 0,
                EXACT_MM); /* the middle of the light is the table's zero */
}

/* Up the sheet from (250, 80), about (200, 100), where a line begins: they do 50 mm right of it and 20 mm below it. */
static void a_sheets_words_without_outlines_are_written_where_they_stand(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    static const struct scene_sheet_words words[] = { { "Sleeve", { 250, 80 }, { 0, 1 }, 20 },
                                                      { "Sleeve", { 9000, 80 }, { 0, 1 }, 20 } };
    vec2 here[] = { { 200, 100 }, { 300, 100 } };
    struct scene_sheet_line line = { .kind = SCENE_SHEET_PLAIN, .path = { here, 2, false } };
    struct scene_sheet sheet = { &line, 1, { 200, 100 }, words, 2 };
    struct paint_scene s = scene_sheet(h->a, &view, &sheet);
    struct found_words found = find_words(h, &s.table.in, "Sleeve", 20, (vec2){ 0, 1 });
    double width = text_run_width(h->font, "Sleeve", 20);
    assert_int_equal(found.count, 1);
    assert_int_equal(s.table.in.count, 2);
    vec2 from = s.table.in.paths[s.table.in.items[0].first_path].points[0];
    assert_near(found.middle.x, from.x + 50 - 10, 1e-3); /* half a capital up is to the left */
    assert_near(found.middle.y, from.y - 20 + width / 2, 1e-3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        scene_test(a_sample_has_the_lines_own_dashes_and_weight),
        scene_test(of_many_rows_the_marked_one_is_shown),
        scene_test(a_small_picture_keeps_its_shape),
        scene_test(a_sheets_lines_have_their_own_dashes_on_the_table),
        scene_test(a_sheets_words_without_outlines_are_written_where_they_stand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
