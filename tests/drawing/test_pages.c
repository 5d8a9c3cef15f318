#include "drawing/drawn.h"
#include "drawing/pages.h"
#include "support/room.h"

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

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(pages_lie_by_their_labels_and_their_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
