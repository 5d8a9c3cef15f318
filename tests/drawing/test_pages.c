#include "drawing/drawn.h"
#include "drawing/pages.h"
#include "support/room.h"

#include <stdio.h>

/* A sheet of its own, cut by hand into pages: x runs to 380, y to 260; two columns of 200 and two rows of 140 that
 * overlap by 10. Each page shows its part at (10, 10) of a page of 220 by 160. */
struct cell {
    int column, row;
};

static const double step[] = { 190, 130 };

/* A line of the sheet, with the parts that fall on the page drawn under a clip. */
static void sheet_line(struct collect *c, struct cell cell, const double *xy, size_t count, bool closed)
{
    double moved[32];
    double left = cell.column * step[0], low = (1 - cell.row) * step[1];
    for (size_t i = 0; i < count; i++) {
        moved[2 * i] = xy[2 * i] - left + 10;
        moved[2 * i + 1] = xy[2 * i + 1] - low + 10;
    }
    drawn_line(c, SHEET_NONE, moved, count, closed);
}

static void draw_page(struct collect *c, struct cell cell, const char *label)
{
    static const double piece[] = { 40, 50, 330, 40, 350, 210, 200, 235, 60, 190 };
    static const double inner[] = { 90, 90, 250, 160, 260, 100 };
    collect_page(c, 220, 160, NULL);
    drawn_words(c, SHEET_NONE, 4, 3, 4, label);
    drawn_line(c, SHEET_NONE, (const double[]){ 10, 10, 210, 10, 210, 150, 10, 150 }, 4, true);
    collect_clip(c, &(struct sheet_clip){ 10, 10, 210, 150, 0, 0 });
    sheet_line(c, cell, piece, 5, true);
    sheet_line(c, cell, inner, 3, false);
}

static struct drawing_pages find(struct arena *a, const struct drawing *d)
{
    struct drawing_pages pages;
    drawing_find_pages(a, d, (struct drawing_scale){ 1, 1 }, NULL, &pages);
    return pages;
}

static void pages_lie_by_their_labels_and_their_lines(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    draw_page(c, (struct cell){ 1, 1 }, "B2");
    draw_page(c, (struct cell){ 0, 0 }, "A1");
    draw_page(c, (struct cell){ 1, 0 }, "B1");
    draw_page(c, (struct cell){ 0, 1 }, "A2");
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    assert_int_equal(pages.how, DRAWING_BY_LABEL);
    assert_int_equal(pages.columns, 2);
    assert_int_equal(pages.rows, 2);
    assert_int_equal(pages.place_count, 4);
    static const int order[] = { 1, 2, 3, 0 };
    for (int k = 0; k < 4; k++) {
        assert_int_equal(pages.places[k].page, order[k]);
        assert_near(pages.places[k].shift.x - pages.places[2].shift.x, (k & 1) * step[0], 1e-6);
        assert_near(pages.places[k].shift.y - pages.places[2].shift.y, k < 2 ? step[1] : 0, 1e-6);
    }
    struct drawing joined = drawing_join(a, &d, (struct drawing_scale){ 1, 1 }, &pages);
    assert_int_equal(joined.line_count, 2);
    assert_int_equal(joined.text_count, 0);
    assert_true(joined.lines[0].path.path.closed);
    assert_int_equal(joined.lines[0].path.path.count, 5);
    assert_int_equal(joined.lines[1].path.path.count, 3);
}

/* A number 60 mm high in the middle of each page; on one, a piece is named within its height. */
static void words_of_a_piece_within_a_large_number_stay(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    static const char *const labels[] = { "A1", "B1", "A2", "B2" };
    for (int k = 0; k < 4; k++) {
        draw_page(c, (struct cell){ k % 2, k / 2 }, "");
        drawn_words(c, SHEET_NONE, 80, 50, 60, labels[k]);
        if (k == 2)
            drawn_words(c, SHEET_NONE, 100, 70, 4, "21 Godet");
    }
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    assert_int_equal(pages.how, DRAWING_BY_LABEL);
    struct drawing joined = drawing_join(a, &d, (struct drawing_scale){ 1, 1 }, &pages);
    assert_int_equal(joined.text_count, 1);
    assert_string_equal(joined.texts[0].words, "21 Godet");
}

static void a_missing_page_is_named_and_instructions_are_left_out(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 220, 160, NULL);
    for (int k = 0; k < 8; k++)
        drawn_words(c, SHEET_NONE, 20, 20 + 10.0 * k, 4, "Cut, and sew with a seam of one inch.");
    draw_page(c, (struct cell){ 0, 0 }, "row 1, column 1");
    draw_page(c, (struct cell){ 1, 0 }, "row 1, column 2");
    draw_page(c, (struct cell){ 1, 1 }, "row 2, column 2");
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    assert_int_equal(pages.how, DRAWING_BY_LABEL);
    assert_int_equal(pages.place_count, 3);
    assert_int_equal(pages.left_out_count, 1);
    assert_int_equal(pages.left_out[0], 0);
    assert_int_equal(pages.missing_count, 1);
    assert_string_equal(drawing_cell_text(a, &pages, pages.missing[0]), "row 2, column 1");
}

/* A page without its number goes where its lines do; numbers of joins, at one place of each page, are no words of the
 * sheet. */
static void a_page_without_its_label_fills_the_hole(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    static const char *const labels[] = { "A1", "B1", "", "B2" };
    static const char *const joins[] = { "1a", "2a", "1b", "2b" };
    for (int k = 0; k < 4; k++) {
        draw_page(c, (struct cell){ k % 2, k / 2 }, labels[k]);
        drawn_words(c, SHEET_NONE, 195, 80, 5, joins[k]);
    }
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    assert_int_equal(pages.place_count, 4);
    assert_int_equal(pages.left_out_count + pages.missing_count, 0);
    assert_int_equal(pages.places[2].page, 2);
    struct drawing joined = drawing_join(a, &d, (struct drawing_scale){ 1, 1 }, &pages);
    for (size_t i = 0; i < joined.text_count; i++)
        assert_string_equal(joined.texts[i].words, ""); /* no number is left */
    assert_int_equal(joined.line_count, 2);
}

static void what_the_person_says_goes_first(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    draw_page(c, (struct cell){ 0, 0 }, "A1");
    draw_page(c, (struct cell){ 1, 0 }, "B1");
    draw_page(c, (struct cell){ 0, 1 }, "A2");
    draw_page(c, (struct cell){ 1, 1 }, "B2");
    struct drawing d = drawn_drawing(a, c);
    struct drawing_scale same = { 1, 1 };
    struct drawing_pages pages;
    const vec2 moved[4] = { { 0, 0 }, { 3, -2 } };
    drawing_find_pages(a, &d, same, &(struct drawing_pages_choice){ .moved = moved }, &pages);
    assert_int_equal(pages.how, DRAWING_BY_HAND);
    assert_near(pages.places[1].shift.x - pages.places[0].shift.x, step[0] + 3, 1e-6);
    assert_near(pages.places[1].shift.y - pages.places[0].shift.y, -2, 1e-6);
    drawing_find_pages(a, &d, same, &(struct drawing_pages_choice){ .columns = 2, .by_columns = true }, &pages);
    assert_int_equal(pages.how, DRAWING_BY_ORDER);
    assert_int_equal(pages.place_count, 4);
    assert_int_equal(pages.places[1].page, 2); /* the second column begins with the third page */
    assert_true(pages.doubtful);
    const int cells[] = { 0, 1, 2, DRAWING_NONE };
    drawing_find_pages(a, &d, same, &(struct drawing_pages_choice){ .columns = 2, .cells = cells }, &pages);
    assert_int_equal(pages.how, DRAWING_BY_HAND);
    assert_int_equal(pages.place_count, 3);
    assert_int_equal(pages.left_out[0], 3);
    assert_int_equal(pages.missing_count, 1);
}

/* The sheet is cut by hand: two columns. Told as one, lines break off below pages; told rightly and moved by hand, the
 * misfit has the move in, and lines break off beside the page that was moved. */
static void lines_that_break_off_are_told(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    for (int k = 0; k < 4; k++)
        draw_page(c, (struct cell){ k % 2, k / 2 }, "");
    struct drawing d = drawn_drawing(a, c);
    struct drawing_scale same = { 1, 1 };
    struct drawing_pages pages;
    drawing_find_pages(a, &d, same, &(struct drawing_pages_choice){ .columns = 2 }, &pages);
    assert_int_equal(pages.broken_count, 0);
    assert_false(pages.doubtful);
    drawing_find_pages(a, &d, same, &(struct drawing_pages_choice){ .columns = 1 }, &pages);
    assert_true(pages.broken_count >= 1);
    assert_true(pages.doubtful);
    const vec2 moved[4] = { { 0, 0 }, { 0, 8 } };
    drawing_find_pages(a, &d, same, &(struct drawing_pages_choice){ .columns = 2, .moved = moved }, &pages);
    assert_true(pages.misfit_mm > 1);
    assert_true(pages.doubtful);
    assert_true(pages.broken_count >= 1);
    assert_int_equal(pages.broken[0].pages[0], 0);
    assert_int_equal(pages.broken[0].pages[1], 1);
}

/* The pages overlap from 190 to 200, so they are cut at 195: a line there, drawn by itself as outlines in many files
 * are, is on both pages and stays once; one 0.01 mm beside it, too. */
static void a_line_along_the_cut_stays_once(void **state)
{
    static const double beside[] = { 0, 0.01, -0.01 };
    for (size_t n = 0; n < sizeof beside / sizeof beside[0]; n++) {
        struct arena *a = *state;
        struct collect *c = collect_create(-1);
        static const char *const labels[] = { "A1", "B1", "A2", "B2" };
        for (int k = 0; k < 4; k++) {
            double off = k % 2 ? beside[n] : -beside[n];
            draw_page(c, (struct cell){ k % 2, k / 2 }, labels[k]);
            sheet_line(c, (struct cell){ k % 2, k / 2 }, (const double[]){ 195 + off, 60, 195 + off, 180 }, 2, false);
        }
        struct drawing d = drawn_drawing(a, c);
        struct drawing_pages pages = find(a, &d);
        struct drawing joined = drawing_join(a, &d, (struct drawing_scale){ 1, 1 }, &pages);
        assert_int_equal(joined.line_count, 3);
        struct geometry_box box = geometry_path_box(joined.lines[2].path.path);
        assert_near(box.max.y - box.min.y, 120, 0.001);
        assert_near(box.max.x - box.min.x, 0, 0.05);
    }
}

/* Two pages of one size without a number, whose lines end at their sides at other places on each. */
static void pages_that_were_cut_and_not_joined_are_doubtful(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    for (int k = 0; k < 2; k++) {
        collect_page(c, 220, 160, NULL);
        for (int line = 0; line < 3; line++) {
            double at = 30 + 10 * line * line + 7 * k;
            drawn_line(c, SHEET_NONE, (const double[]){ k ? 0 : 60, at, k ? 90 : 220, at + 20.0 * k }, 2, false);
        }
    }
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    assert_int_equal(pages.how, DRAWING_ALONE);
    assert_true(pages.doubtful);
}

static void large_sheets_lie_beside_each_other(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    for (int k = 0; k < 2; k++) {
        collect_page(c, 841, 1189, NULL);
        drawn_words(c, SHEET_NONE, 20, 20, 8, k ? "Sheet 2 of 2" : "Sheet 1 of 2");
        drawn_line(c, SHEET_NONE, (const double[]){ 100, 100, 600, 150 + 40 * k, 500, 900 - 30 * k }, 3, true);
    }
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    assert_int_equal(pages.how, DRAWING_ALONE);
    assert_int_equal(pages.place_count, 2);
    assert_true(pages.places[1].shift.x >= 841);
    struct drawing joined = drawing_join(a, &d, (struct drawing_scale){ 1, 1 }, &pages);
    assert_int_equal(joined.page_count, 1);
    assert_int_equal(joined.line_count, 2);
    assert_int_equal(joined.text_count, 2);
    assert_true(joined.pages[0].width_mm >= 2 * 841);
}

static void pages_of_words_are_not_joined(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    static const char *const labels[] = { "A1", "A2", "B1", "B2" };
    for (int k = 0; k < 4; k++) {
        collect_page(c, 210, 297, NULL);
        drawn_words(c, SHEET_NONE, 100, 10, 4, labels[k]);
        for (int row = 0; row < 30; row++)
            drawn_words(c, SHEET_NONE, 20, 270 - 8.0 * row, 4, "Press the seam open and trim it.");
    }
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    assert_int_equal(pages.how, DRAWING_ALONE);
    assert_int_equal(pages.place_count, 4);
    assert_false(pages.doubtful);
}

static void a_page_alone_is_scaled(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 500, 600, NULL);
    drawn_line(c, SHEET_NONE, (const double[]){ 100, 100, 200, 100, 200, 300 }, 3, true);
    struct drawing d = drawn_drawing(a, c);
    struct drawing_scale twice = { 2, 3 };
    struct drawing_pages pages;
    drawing_find_pages(a, &d, twice, NULL, &pages);
    struct drawing joined = drawing_join(a, &d, twice, &pages);
    assert_int_equal(pages.how, DRAWING_ALONE);
    assert_near(joined.pages[0].width_mm, 1000, 1e-9);
    assert_near(joined.pages[0].height_mm, 1800, 1e-9);
    assert_near(joined.lines[0].path.path.points[2].x, 400, 1e-9);
    assert_near(joined.lines[0].path.path.points[2].y, 900, 1e-9);
}

/* Three pages in a row, cut by hand, with frames of four lines: two straight lines run level through all of them, at
 * the same place on each, and stay; the frames go. Slanted lines hold the pages. */
static void lines_right_through_pages_are_no_furniture(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    for (int k = 0; k < 3; k++) {
        char label[32];
        snprintf(label, sizeof label, "%d of 3", k + 1);
        collect_page(c, 220, 160, NULL);
        drawn_words(c, SHEET_NONE, 20, 3, 4, label);
        for (int side = 0; side < 2; side++) {
            drawn_line(c, SHEET_NONE, (const double[]){ 10, 10 + 140.0 * side, 210, 10 + 140.0 * side }, 2, false);
            drawn_line(c, SHEET_NONE, (const double[]){ 10 + 200.0 * side, 10, 10 + 200.0 * side, 150 }, 2, false);
            drawn_line(c, SHEET_NONE, (const double[]){ 10, 60 + 30.0 * side, 210, 60 + 30.0 * side }, 2, false);
        }
        for (int line = 0; line < 3; line++) { /* each rises by 30 on 200, over all pages */
            double y = 15 + 20.0 * line + 30 * k;
            drawn_line(c, SHEET_NONE, (const double[]){ 10, y, 210, y + 30 }, 2, false);
        }
    }
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    assert_int_equal(pages.columns, 3);
    assert_int_equal(pages.rows, 1);
    struct drawing joined = drawing_join(a, &d, (struct drawing_scale){ 1, 1 }, &pages);
    assert_int_equal(joined.line_count, 5);
    for (size_t i = 0; i < joined.line_count; i++) {
        struct geometry_box box = geometry_path_box(joined.lines[i].path.path);
        assert_near(box.max.x - box.min.x, 600, 1e-6);
    }
}

/* Neither crashes nor takes long; what it finds there does not matter. */
static void try_all(struct arena *a, struct collect *c)
{
    struct drawing d = drawn_drawing(a, c);
    struct drawing_pages pages = find(a, &d);
    struct drawing joined = drawing_join(a, &d, (struct drawing_scale){ 1, 1 }, &pages);
    assert_int_equal(joined.page_count, 1);
    assert_true(pages.place_count + pages.left_out_count + pages.empty_count >= d.page_count);
}

static void nothing_is_too_odd(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    for (int k = 0; k < 40; k++) /* all alike */
        draw_page(c, (struct cell){ 0, 0 }, "A1");
    try_all(a, c);
    static const char *const absurd[] = {
        "column ZZ row 99999", "ZZ1", "99999/99999", "A99999", "0", "row 0 column 0"
    };
    c = collect_create(-1);
    for (int k = 0; k < 6; k++)
        draw_page(c, (struct cell){ k % 2, k / 3 }, absurd[k]);
    try_all(a, c);
    c = collect_create(-1);
    for (int k = 0; k < 4; k++) { /* windows of no size, dots, lines far outside */
        collect_page(c, 200, 100, NULL);
        collect_clip(c, &(struct sheet_clip){ 50, 50, 50, 50, 0, 0 });
        drawn_line(c, SHEET_NONE, (const double[]){ 0, 0, 1e7, 1e7, -1e7, 5 }, 3, k == 1);
        collect_clip(c, NULL);
        drawn_line(c, SHEET_NONE, (const double[]){ 20, 20 }, 1, true);
    }
    try_all(a, c);
    c = collect_create(-1);
    for (int k = 0; k < 5; k++)
        collect_page(c, 0.001, 1e7, NULL);
    try_all(a, c);
    c = collect_create(-1);
    collect_page(c, 10, 10, NULL);
    try_all(a, c);
}

static void ten_thousand_pages_take_no_time(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    for (int k = 0; k < 10000; k++) {
        char label[32];
        snprintf(label, sizeof label, "%d/10000", k + 1);
        draw_page(c, (struct cell){ k % 100, k / 100 }, label);
    }
    try_all(a, c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(pages_lie_by_their_labels_and_their_lines),
        room_arena_test(words_of_a_piece_within_a_large_number_stay),
        room_arena_test(a_missing_page_is_named_and_instructions_are_left_out),
        room_arena_test(a_page_without_its_label_fills_the_hole),
        room_arena_test(what_the_person_says_goes_first),
        room_arena_test(lines_that_break_off_are_told),
        room_arena_test(a_line_along_the_cut_stays_once),
        room_arena_test(pages_that_were_cut_and_not_joined_are_doubtful),
        room_arena_test(large_sheets_lie_beside_each_other),
        room_arena_test(pages_of_words_are_not_joined),
        room_arena_test(a_page_alone_is_scaled),
        room_arena_test(lines_right_through_pages_are_no_furniture),
        room_arena_test(nothing_is_too_odd),
        room_arena_test(ten_thousand_pages_take_no_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
