#include "export/drafted.h"

static struct geometry_box moved(const struct drafted *d, const struct export_sheet *sheet, size_t piece)
{
    struct geometry_box box = geometry_path_box(d->draft.pieces[piece].cut.path);
    return (struct geometry_box){ vec2_add(box.min, sheet->shifts[piece]), vec2_add(box.max, sheet->shifts[piece]) };
}

/* Worked by hand: margins of 10, gaps of 20, the square 100 wide, the pieces 220, 210 (the fold has no allowance) and
 * 220 wide; all are 320 high. */
static void square_and_pieces_stand_in_a_row(void **state)
{
    struct room *room = *state;
    struct drafted d = draft_small(room);
    struct export_sheet sheet = export_sheet_of(room->a, &d.draft);
    static const double left[] = { 130, 370, 600 };
    assert_near(sheet.width, 10 + 100 + 20 + 220 + 20 + 210 + 20 + 220 + 10, 1e-9);
    assert_near(sheet.height, 340, 1e-9);
    assert_near(sheet.square.x, 10, 1e-9);
    assert_near(sheet.square.y, 230, 1e-9);
    for (size_t i = 0; i < DRAFTED_PIECES; i++) {
        struct geometry_box box = moved(&d, &sheet, i);
        assert_near(box.min.x, left[i], 1e-9);
        assert_near(box.min.y, 10, 1e-9);
        assert_near(box.max.y, 330, 1e-9);
    }
}

/* Lengths by hand; those of a kind stand in a row. */
static void every_line_of_a_piece_is_there(void **state)
{
    struct room *room = *state;
    struct drafted d = draft_small(room);
    static const struct {
        enum export_kind kind;
        double mm;
    } want[] = { { EXPORT_CUT, 1080 },
                 { EXPORT_STITCHING, 1000 },
                 { EXPORT_GRAIN, 210 },
                 { EXPORT_NOTCH, 3 },
                 { EXPORT_NOTCH, 8.485281374238570 }, /* a V 3 deep and 6 wide: 2 √18 */
                 { EXPORT_DRILL, 0 },
                 { EXPORT_DART, 92.195444572928871 }, /* √8500 */
                 { EXPORT_DART, 92.195444572928871 },
                 { EXPORT_FOLD_LINE, 200 },
                 { EXPORT_LENGTHEN, 200 },
                 { EXPORT_MATCH, 200 },
                 { EXPORT_BUTTONHOLE, 20 },
                 { EXPORT_BUTTONHOLE, 20 },
                 { EXPORT_BUTTON, 0 } };
    const struct export_stroke *lines;
    size_t count = export_strokes(room->a, &d.draft.pieces[DRAFTED_POCKET], &lines);
    assert_int_equal(count, sizeof want / sizeof want[0]);
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(lines[i].kind, want[i].kind);
        assert_near(geometry_path_length(lines[i].path), want[i].mm, 1e-9);
    }
}

/* On the fold: 210 + 320 + 210 are cut, 200 + 300 + 200 sewn, and the fold is 320 long. */
static void a_fold_is_neither_cut_nor_sewn(void **state)
{
    struct room *room = *state;
    struct drafted d = draft_small(room);
    const struct export_stroke *lines;
    size_t count = export_strokes(room->a, &d.draft.pieces[DRAFTED_FRONT], &lines);
    assert_int_equal(count, 4);
    assert_near(geometry_path_length(lines[0].path), 740, 1e-9);
    assert_near(geometry_path_length(lines[1].path), 700, 1e-9);
    assert_int_equal(lines[2].kind, EXPORT_FOLD);
    assert_near(geometry_path_length(lines[2].path), 320, 1e-9);
}

/* The strap's words: within the stitching line, clear of the grain, which runs up its middle. */
static void words_keep_clear_of_lines(void **state)
{
    struct room *room = *state;
    struct drafted d = draft_small(room);
    const struct export_stroke *lines;
    const char *const words[] = { "Strap", "Size M", "Cut 2" };
    size_t count = export_strokes(room->a, &d.draft.pieces[DRAFTED_STRAP], &lines);
    struct export_lettering place = export_lettering_place(&d.draft.pieces[DRAFTED_STRAP], lines, count, words, 3, 1);
    assert_near(place.size_mm, 10, 0);
    assert_near(place.along.x, 1, 0);
    double right = place.at.x + 6 * 0.6 * 10, base = export_lettering_line(&place, 2).y;
    assert_true((place.at.x > 0 && right < 100) || (place.at.x > 100 && right < 200));
    assert_true(base > 0 && place.at.y + 10 < 300);
    assert_near(base, place.at.y - 26, 1e-9); /* two lines further down, 13 mm each */
}

/* In a piece 20 mm wide three lines of 40 letters can only stand turned, and small: 3 × 1.3 × 4 mm are 15.6. */
static void words_turn_where_a_piece_is_narrow(void **state)
{
    struct room *room = *state;
    struct drafted d = draft_small(room);
    struct draft_piece piece = d.draft.pieces[DRAFTED_STRAP];
    vec2 corners[] = { { 90, 0 }, { 110, 0 }, { 110, 300 }, { 90, 300 } };
    piece.cut.path = (struct geometry_path){ corners, 4, true };
    const struct export_stroke cut = { .kind = EXPORT_CUT, .path = piece.cut.path };
    const char *const words[] = { "0123456789012345678901234567890123456789", "", "" };
    struct export_lettering place = export_lettering_place(&piece, &cut, 1, words, 3, 1);
    assert_near(place.along.y, 1, 0);
    assert_near(place.size_mm, 4, 0);
    assert_true(place.at.x - 4 > 90 && export_lettering_line(&place, 2).x < 110);
}

static void a_rounded_nought_has_no_sign(void **state)
{
    (void)state;
    assert_false(signbit(export_mm(-0.00004)));
    assert_near(export_mm(-0.00006), -0.00006, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(square_and_pieces_stand_in_a_row),   room_test(every_line_of_a_piece_is_there),
        room_test(a_fold_is_neither_cut_nor_sewn),     room_test(words_keep_clear_of_lines),
        room_test(words_turn_where_a_piece_is_narrow), cmocka_unit_test(a_rounded_nought_has_no_sign),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
