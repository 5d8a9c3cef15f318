#include "export/csv.h"
#include "export/worksheet.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

#include <math.h>
#include <stdlib.h>

/* A skirt: a panel on the fold gathered to half a band at 1.6 (112 to 70), a band cut as a left one, a pocket as a
 * pair, and interfacing. Names with all that CSV and XML stumble over. */
static const char pattern_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Skirt <\\u00bd> & more', 'unit': 'cm', 'sizes': ['S', 'M'],"
    "  'chart': { 'hip': [90, 94] }, 'main_measurement': 'hip',"
    "  'notions': [ { 'name': 'button', 'count': 5, 'size': 1.8 } ],"
    "  'pieces': [ { 'name': 'panel', 'label': 'Panel, \\'front\\'', 'rectangle': { 'width': [112, 116], 'height': 60 "
    "},"
    "      'fold': 'left', 'allowance': 1.5, 'allowances': { 'bottom': 4 } },"
    "    { 'name': 'band', 'rectangle': { 'width': [70, 72.5], 'height': '3 3/16 in' }, 'allowance': '5/8 in' },"
    "    { 'name': 'pocket', 'points': { 'a': [0, 0], 'b': [30, 0], 'c': [0, 40] },"
    "      'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'a'] } ] } ],"
    "  'seams': [ { 'name': 'waist', 'join': [ ['panel.top'], ['band.bottom'] ], 'ratio': 1.6 } ],"
    "  'views': [ { 'name': 'A', 'label': 'A skirt', 'notions': [ { 'name': 'elastic', 'length': [60, 64] } ],"
    "    'cut': [ { 'piece': 'panel', 'count': 1 }, { 'piece': 'band', 'count': 1, 'hand': 'left' },"
    "      { 'piece': 'pocket', 'pairs': 2, 'cloth': 'lining' },"
    "      { 'piece': 'band', 'count': 3, 'cloth': 'interfacing', 'fuse': 'right side' } ] } ] }";

struct made {
    struct export_words w;
    struct export_list list;
    struct draft draft;
};

static struct made make(struct room *room, enum units_length unit, int fraction, double position)
{
    struct made made = { .w = { .a = room->a, .unit = unit, .fraction = fraction } };
    const char *json = room_json(room, pattern_text);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_true(make_at_size(room->a, p, position, PATTERN_NONE, 0, &made.draft, room->errs));
    made.list = export_list_of(room->a, p, 0, &made.draft);
    return made;
}

static void extent_is(struct export_extent e, double width_mm, double height_mm)
{
    assert_near(e.width_mm, width_mm, 1e-6);
    assert_near(e.height_mm, height_mm, 1e-6);
}

/* By hand: the fold has no allowance, so 1120 + 15 wide, 600 + 15 + 40 high, opened out 2 x 1135. The band is 700 by
 * 3.1875 x 25.4 = 80.9625, and 15.875 on each side. */
static void rectangles_have_their_sizes_finished_and_as_cut(void **state)
{
    struct made made = make(*state, UNITS_CM, 8, 0);
    const struct export_line *panel = &made.list.lines[0], *band = &made.list.lines[1], *pocket = &made.list.lines[2];
    assert_int_equal(made.list.line_count, 4);
    assert_true(panel->is_rectangle);
    extent_is(panel->finished, 1120, 600);
    extent_is(panel->as_cut, 1135, 655);
    extent_is(panel->opened, 2270, 655);
    extent_is(band->finished, 700, 80.9625);
    extent_is(band->as_cut, 731.75, 112.7125);
    extent_is(band->opened, 731.75, 112.7125);
    assert_false(pocket->is_rectangle);
    extent_is(pocket->as_cut, 300, 400);
    assert_string_equal(made.list.size, "S");
    assert_null(made.list.cup_group);
    assert_string_equal(make(*state, UNITS_CM, 8, 0.5).list.size, "S to M");
    extent_is(make(*state, UNITS_CM, 8, 0.5).list.lines[1].finished, 712.5, 80.9625);
}

/* By hand, an inch 25.4 mm: an eighth 3.175, a sixteenth 1.5875 mm. */
static void lengths_are_rounded_to_a_mark_and_say_so(void **state)
{
    struct room *room = *state;
    static const struct {
        double mm;
        enum units_length unit;
        int fraction;
        const char *text;
    } rows[] = {
        { 254, UNITS_IN, 8, "10 in" },
        { 15.875, UNITS_IN, 8, "5/8 in" },
        { 80.9625, UNITS_IN, 16, "3 3/16 in" },
        { 80.9625, UNITS_IN, 8, "≈3 1/4 in" }, /* 3.1875 lies half way to 3 1/8: up */
        { 100, UNITS_IN, 8, "≈3 7/8 in" },     /* 3.937: 3 7/8 is 0.062, 4 is 0.063 away */
        { 100, UNITS_IN, 16, "≈3 15/16 in" },
        { 1, UNITS_IN, 8, "≈0 in" },
        { 308.25, UNITS_CM, 8, "≈30.8 cm" },
        { 308.0, UNITS_CM, 16, "30.8 cm" },
        { 1120, UNITS_CM, 8, "112 cm" },
        { 80.9625, UNITS_MM, 8, "≈81 mm" },
        { 80.004, UNITS_MM, 8, "80 mm" }, /* less than a tape or an eye shows */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct export_words w = { .a = room->a, .unit = rows[i].unit, .fraction = rows[i].fraction };
        assert_string_equal(export_length_text(&w, rows[i].mm), rows[i].text);
    }
    struct export_words w = { .a = room->a, .unit = UNITS_IN, .fraction = 16, .joined = true };
    assert_string_equal(export_length_text(&w, 100), "≈3\xc2\xa0"
                                                     "15/16\xc2\xa0"
                                                     "in");
}

static void the_words_of_a_line_say_count_cloth_and_fullness(void **state)
{
    struct made made = make(*state, UNITS_CM, 8, 0);
    const struct export_line *lines = made.list.lines;
    assert_string_equal(export_piece_text(&made.w, lines[0].piece), "Panel, \"front\" (panel)");
    assert_string_equal(export_piece_text(&made.w, lines[1].piece), "band");
    const struct draft_piece numbered = { .name = "Front", .label = "1 Front" },
                             other = { .name = "panel", .label = "Front panel" };
    assert_string_equal(export_piece_text(&made.w, &numbered), "1 Front");
    assert_string_equal(export_piece_text(&made.w, &other), "Front panel (panel)");
    assert_string_equal(export_count_text(&made.w, &lines[0].cut), "1");
    assert_string_equal(export_count_text(&made.w, &lines[1].cut), "1 left");
    assert_string_equal(export_count_text(&made.w, &lines[2].cut), "2 pairs");
    assert_string_equal(export_count_text(&made.w, &lines[3].cut), "3");
    assert_string_equal(export_cloth_text(made.w.a, &lines[2].cut), "lining");
    assert_string_equal(export_cloth_text(made.w.a, &lines[3].cut), "interfacing, fused on the right side");
    assert_string_equal(export_extent_text(&made.w, lines[1].finished), "70 × ≈8.1 cm");
    assert_int_equal(lines[0].fullness_count, 1);
    assert_string_equal(export_fullness_text(&made.w, &made.list, &lines[0], &lines[0].fullness[0]),
                        "each half of “top” gathered from 112 cm to 70 cm, seam “waist”");
    assert_string_equal(export_notion_text(&made.w, &made.list.notions[0]), "5 × button, 1.8 cm");
    assert_string_equal(export_notion_text(&made.w, &made.list.notions[1]), "elastic, 60 cm long");
    assert_string_equal(made.list.whom, "Size S");
}

/* RFC 4180, section 2: CR LF, quotes where a comma, a quote or a line end is, a quote doubled. */
static void csv_is_quoted_as_rfc_4180_says(void **state)
{
    struct room *room = *state;
    assert_string_equal(export_csv_field(room->a, "plain Möwe"), "plain Möwe");
    assert_string_equal(export_csv_field(room->a, "a, \"b\""), "\"a, \"\"b\"\"\"");
    assert_string_equal(export_csv_field(room->a, "a\nb\x1b"), "\"a\nb?\"");
    assert_string_equal(export_csv_field(room->a, ""), "");
    struct made made = make(room, UNITS_IN, 16, 0);
    static const char want[] =
        "kind,name,label,count,pairs,hand,material,fused on,on the fold,finished width,finished height,cut width,cut "
        "height,opened width,opened height,size,length,unit,rounded,fullness,block\r\n"
        /* 112 cm is 44.094 in: 44 1/16 is 0.0317, 44 1/8 0.0308 away */
        "rectangle,panel,\"Panel, "
        "\"\"front\"\"\",1,,,fabric,,yes,44.125,23.625,44.6875,25.8125,89.375,25.8125,,,in,yes,"
        "\"each half of “top” gathered from ≈44 1/8 in to ≈27 9/16 in, seam “waist”\",\r\n"
        "rectangle,band,band,1,,left,fabric,,no,27.5625,3.1875,28.8125,4.4375,,,,,in,yes,,\r\n"
        "drawn,pocket,pocket,4,2,both,lining,,no,,,11.8125,15.75,,,,,in,yes,,\r\n"
        "rectangle,band,band,3,,,interfacing,right side,no,27.5625,3.1875,28.8125,4.4375,,,,,in,yes,,\r\n"
        "notion,button,,5,,,,,,,,,,,,0.6875,,in,yes,,\r\n"
        "notion,elastic,,1,,,,,,,,,,,,,23.625,in,yes,,\r\n";
    assert_string_equal(export_csv_list(&made.w, &made.list), want);
}

/* Two of the three bands are cut out of a block for either layer, 205 wide and 305 long: it comes before them. */
static void a_block_is_a_rectangle_of_interfacing_of_its_own(void **state)
{
    struct room *room = *state;
    struct made made = make(room, UNITS_CM, 8, 0);
    const struct lay_block block = { .length_mm = 305, .width_mm = 205, .count = 2 }, none = { .count = 0 };
    const struct lay_hands within[] = { { 0, 0 }, { 0, 0 }, { 0, 0 }, { 2, 0 } };
    export_list_put_block(room->a, &made.list, &none, NULL);
    assert_int_equal(made.list.line_count, 4);
    export_list_put_block(room->a, &made.list, &block, within);
    assert_int_equal(made.list.line_count, 5);
    const struct export_line *line = &made.list.lines[3], *band = &made.list.lines[4];
    assert_string_equal(export_piece_text(&made.w, line->piece), "Block");
    assert_string_equal(export_cloth_text(room->a, &line->cut), "interfacing, fused on the wrong side");
    assert_string_equal(export_block_text(&made.w, &made.list, line),
                        "fuse it on the fabric first, then cut out of both: 2 × band");
    assert_string_equal(export_block_text(&made.w, &made.list, band),
                        "2 of these cut out of the block with their fabric");
    assert_null(export_block_text(&made.w, &made.list, &made.list.lines[0]));
    extent_is(line->as_cut, 205, 305);
    const char *csv = export_csv_list(&made.w, &made.list);
    assert_non_null(strstr(csv, "\r\nblock,block.fused,Block,2,,,interfacing,wrong side,no,,,20.5,30.5,,,,,cm,no,,"
                                "\"fuse it on the fabric first, then cut out of both: 2 × band\"\r\n"));
    assert_non_null(strstr(export_worksheet_page(&made.w, &made.list, 0), "as cut 20.5 × 30.5 cm"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(rectangles_have_their_sizes_finished_and_as_cut),
        room_test(lengths_are_rounded_to_a_mark_and_say_so),
        room_test(the_words_of_a_line_say_count_cloth_and_fullness),
        room_test(csv_is_quoted_as_rfc_4180_says),
        room_test(a_block_is_a_rectangle_of_interfacing_of_its_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
