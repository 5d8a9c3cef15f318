#include "export/worksheet.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

/* Thirteen lines (seven rows of cards) and eight notions (two rows): nine rows, three sheets of four. */
static const char pattern_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Skirt <½> & more', 'unit': 'cm', 'sizes': ['S'],"
    "  'chart': { 'hip': [90] }, 'main_measurement': 'hip',"
    "  'pieces': [ { 'name': 'panel', 'rectangle': { 'width': 112, 'height': 60 }, 'fold': 'left', 'allowance': 1.5 },"
    "    { 'name': 'tie', 'rectangle': { 'width': 8, 'height': 120 } },"
    "    { 'name': 'corner', 'points': { 'a': [0, 0], 'b': [30, 0], 'c': [0, 40] },"
    "      'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'a'] } ] },"
    "    { 'name': 'tent', 'rectangle': { 'width': 6000, 'height': 2000 } } ],"
    "  'views': [ { 'name': 'A', 'notions': [ %s ], 'cut': [ { 'piece': 'panel', 'count': 1 },"
    "      { 'piece': 'tie', 'count': 2 }, { 'piece': 'corner', 'pairs': 1 },"
    "      { 'piece': 'corner', 'count': 1, 'hand': 'left' }, { 'piece': 'tent', 'count': 1 }, %s"
    "      { 'piece': 'tie', 'count': 1 } ] } ] }";

#define SEVEN_MORE                                                                                                     \
    "{ 'piece': 'tie', 'count': 1 }, { 'piece': 'tie', 'count': 1 }, { 'piece': 'tie', 'count': 1 },"                  \
    "{ 'piece': 'tie', 'count': 1 }, { 'piece': 'tie', 'count': 1 }, { 'piece': 'tie', 'count': 1 },"                  \
    "{ 'piece': 'tie', 'count': 1 },"
#define EIGHT_NOTIONS                                                                                                  \
    "{ 'name': 'n1' }, { 'name': 'n2' }, { 'name': 'n3' }, { 'name': 'n4' }, { 'name': 'n5' }, { 'name': 'n6' },"      \
    "{ 'name': 'n7' }, { 'name': 'n8' }"

struct made {
    struct export_words w;
    struct export_list list;
    struct draft draft;
};

static struct made make(struct room *room)
{
    struct made made = { .w = { .a = room->a, .unit = UNITS_CM, .fraction = 8 } };
    const char *json = room_json(room, base_arena_print(room->a, pattern_text, EIGHT_NOTIONS, SEVEN_MORE));
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_true(make_at_size(room->a, p, 0, PATTERN_NONE, 0, &made.draft, room->errs));
    made.list = export_list_of(room->a, p, 0, &made.draft);
    return made;
}

static size_t times(const char *text, const char *part)
{
    size_t count = 0;
    for (const char *at = strstr(text, part); at; at = strstr(at + 1, part))
        count++;
    return count;
}

static const char *all_pages(struct room *room, const struct made *made)
{
    const char *all = "";
    for (size_t i = 0; i < export_worksheet_pages(&made->list); i++)
        all = base_arena_print(room->a, "%s%s", all, export_worksheet_page(&made->w, &made->list, i));
    return all;
}

static void every_line_and_notion_has_a_box_to_tick(void **state)
{
    struct room *room = *state;
    struct made made = make(room);
    assert_int_equal(export_worksheet_pages(&made.list), 3);
    const char *all = all_pages(room, &made);
    assert_int_equal(times(all, "<g class=\"sketch\">"), 13);
    assert_int_equal(times(all, "<rect class=\"tick\""), 13 + 8);
    assert_int_equal(times(all, ">Cut 1 pair<"), 1);
    assert_int_equal(times(all, ">Cut 1 left<"), 1);
    assert_int_equal(times(all, ">Cut 1 on the fold<"), 1);
    assert_int_equal(times(all, ">half, finished 112 × 60 cm<"), 1);
    assert_int_equal(times(all, ">n7<"), 1);
    assert_int_equal(times(all, "Skirt &lt;½&gt; &amp; more"), 3);
    assert_int_equal(times(all, ">sheet 2 of 3<"), 1);
}

/* What is drawn at the n-th sketch with a cut line: its box on paper, mm. */
static void sketch_box(const char *text, size_t n, double min[2], double max[2])
{
    const char *at = text;
    for (size_t i = 0; i <= n; i++)
        at = strstr(at + 1, "<path class=\"cut\" d=\"M");
    assert_non_null(at);
    char *end = strchr(at, 'M') + 1;
    min[0] = min[1] = INFINITY;
    max[0] = max[1] = -INFINITY;
    while (*end != '"' && *end != 'Z')
        for (int axis = 0; axis < 2; axis++) {
            double v = strtod(end, &end);
            min[axis] = fmin(min[axis], v);
            max[axis] = fmax(max[axis], v);
        }
}

static double scale_of(const char *text, const char *piece)
{
    const char *title = strstr(text, piece);
    double scale = 0;
    assert_non_null(title);
    assert_int_equal(sscanf(title + strlen(piece), "1 : %lf</title>", &scale), 1);
    return scale;
}

/* Sizes by hand from the pattern (the panel with allowances on three sides); scales by hand from a room of 37 by 33 mm:
 * 1135 / 37 = 30.7, 1200 / 33 = 36.4, 400 / 33 = 12.1 and 60000 / 37 = 1622 go up to these. */
static void a_sketch_times_its_scale_is_the_piece(void **state)
{
    struct room *room = *state;
    struct made made = make(room);
    const char *page = export_worksheet_page(&made.w, &made.list, 0);
    static const struct {
        const char *title;
        size_t sketch;
        double width_mm, height_mm, scale;
    } rows[] = {
        { "<title>panel, ", 0, 1135, 630, 40 },
        { "<title>tie, ", 1, 80, 1200, 40 },
        { "<title>corner, ", 2, 300, 400, 15 },
        { "<title>tent, ", 4, 60000, 20000, 3200 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double min[2], max[2], scale = scale_of(page, rows[i].title);
        sketch_box(page, rows[i].sketch, min, max);
        assert_near(scale, rows[i].scale, 0);
        double tolerance = scale > 1000 ? 1 : 0.1; /* the file's four decimals, enlarged */
        assert_near((max[0] - min[0]) * scale, rows[i].width_mm, tolerance);
        assert_near((max[1] - min[1]) * scale, rows[i].height_mm, tolerance);
        assert_true(min[0] > 12 && max[0] < 198 && min[1] > 36 && max[1] < 280);
    }
}

/* The corner's upright side is its left one as drawn, and its right one when it is cut as the left. */
static void a_left_piece_is_sketched_mirrored(void **state)
{
    struct room *room = *state;
    struct made made = make(room);
    const char *page = export_worksheet_page(&made.w, &made.list, 0), *at = page;
    for (size_t sketch = 0; sketch < 4; sketch++) {
        at = strstr(at + 1, "<path class=\"cut\" d=\"M");
        if (sketch < 2)
            continue;
        double min[2], max[2], top_x = 0, top = INFINITY;
        sketch_box(page, sketch, min, max);
        for (char *p = strchr(at, 'M') + 1; *p != '"' && *p != 'Z';) {
            double x = strtod(p, &p), y = strtod(p, &p);
            if (y < top) {
                top = y;
                top_x = x;
            }
        }
        assert_near(top_x, sketch == 2 ? min[0] : max[0], 1e-3);
    }
}

/* A band folded in its middle, 8 cm on a belt of 4; a frill of 112 cm gathered to 70; a label of 200 letters. */
static const char full_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['S'],"
    "  'chart': { 'hip': [90] }, 'main_measurement': 'hip', 'pieces': ["
    "    { 'name': 'band', 'rectangle': { 'width': 8, 'height': 70 }, 'points': { 'm': [4, 0], 'n': [4, 70] },"
    "      'lines': [ { 'kind': 'fold', 'from': 'm', 'to': 'n' } ] },"
    "    { 'name': 'belt', 'label': 'Belt of the\\nsecond row', 'rectangle': { 'width': 4, 'height': 70 } },"
    "    { 'name': 'frill', 'label': '%s', 'rectangle': { 'width': 112, 'height': 10.33 } } ],"
    "  'seams': [ { 'name': 'end', 'join': [ ['band.bottom'], ['belt.bottom'] ], 'ratio': 2 },"
    "    { 'name': 'hem', 'join': [ ['frill.top'], ['band.left'] ], 'ratio': 1.6 } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'band', 'count': 1 }, { 'piece': 'belt', 'count': 1 },"
    "    { 'piece': 'frill', 'count': 1 } ] } ] }";

enum { LONG_LABEL = 200 };

static const char *full_page(struct room *room, const char *wearer)
{
    char label[LONG_LABEL + 1] = "";
    struct made made = { .w = { .a = room->a, .unit = UNITS_CM, .fraction = 8 } };
    memset(label, 'f', LONG_LABEL);
    const char *json = room_json(room, base_arena_print(room->a, full_text, label));
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_true(make_at_size(room->a, p, 0, PATTERN_NONE, 0, &made.draft, room->errs));
    made.list = export_list_of(room->a, p, 0, &made.draft);
    made.list.wearer = wearer;
    return export_worksheet_page(&made.w, &made.list, 0);
}

/* The text element whose text begins like that: its size of letters, and its text. */
static double letters_of(const char *page, const char *begins, const char **text)
{
    const char *at = strstr(page, begins), *size = at;
    assert_non_null(at);
    while (strncmp(size, "font-size=\"", strlen("font-size=\"")) != 0)
        assert_true(--size > page);
    *text = at + 1;
    return strtod(size + strlen("font-size=\""), NULL);
}

/* Wrapped at blanks; lengths from the pattern. */
static void what_is_folded_or_gathered_is_said_on_its_card(void **state)
{
    const char *page = full_page(*state, NULL);
    assert_int_equal(times(page, ">“bottom” folded from 8\u00a0cm to<"), 1);
    assert_int_equal(times(page, ">4\u00a0cm, seam “end”<"), 1);
    assert_int_equal(times(page, ">“top” gathered from 112\u00a0cm to<"), 1);
    assert_int_equal(times(page, ">70\u00a0cm, seam “hem”<"), 1);
}

static void the_sheet_says_for_whom_when_that_is_known(void **state)
{
    assert_int_equal(times(full_page(*state, "Form <1>"), ">Form &lt;1&gt;<"), 1);
    const char *page = full_page(*state, NULL), *word = strstr(page, ">For</text>\n");
    assert_non_null(word); /* the line to write on follows */
    assert_int_equal(strncmp(word + strlen(">For</text>\n"), "<path class=\"rule\"", 10), 0);
}

/* Names have 91 - 14 = 77 mm of their card, facts 91 - 42 - 3 = 46; 0.7 and 0.56 of a size are a letter's mean widths
 * in wide faces (our own, no source). */
static void letters_of_a_kind_are_of_one_size_and_stay_in_their_box(void **state)
{
    const char *page = full_page(*state, NULL), *text;
    double name = letters_of(page, ">band<", &text), fact = letters_of(page, ">fabric<", &text);
    assert_near(letters_of(page, ">ffff", &text), name, 0);
    size_t letters = strspn(text, "f");
    assert_int_equal(strncmp(text + letters, "…</text>", strlen("…</text>")), 0);
    assert_true(0.7 * name * (double)(letters + 1) <= 77 && 0.7 * name * (double)(letters + 2) > 77);
    assert_near(letters_of(page, ">finished 112 ×", &text), fact, 0);
    assert_near(letters_of(page, ">“bottom” folded", &text), fact, 0);
    assert_true(0.56 * fact * (double)strlen("finished 112 × ≈10.3 cm") <= 46 + 1);
    assert_int_equal(times(page, ">Belt of the second row (belt)<"), 1);
}

/* A frill gathered at all four sides to belts, by seams named like that and "1" to "4". */
static const char *frill_page(struct room *room, const char *seam)
{
    static const char *const sides[] = { "bottom", "right", "top", "left" };
    struct made made = { .w = { .a = room->a, .unit = UNITS_CM, .fraction = 8 } };
    const char *seams = "";
    for (int i = 0; i < 4; i++)
        seams = base_arena_print(room->a,
                                 "%s%s{ 'name': '%s %d', 'join': [ ['frill.%s'], ['belt.left'] ], 'ratio': 2 }", seams,
                                 i ? ", " : "", seam, i + 1, sides[i]);
    const char *text = base_arena_print(
        room->a,
        "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['S'], 'chart': { 'hip': [90] },"
        "  'main_measurement': 'hip', 'pieces': [ { 'name': 'frill', 'rectangle': { 'width': 80, 'height': 80 } },"
        "    { 'name': 'belt', 'rectangle': { 'width': 4, 'height': 40 } } ], 'seams': [ %s ],"
        "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'frill', 'count': 1 },"
        "    { 'piece': 'belt', 'count': 1 } ] } ] }",
        seams);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    assert_non_null(p);
    assert_true(make_at_size(room->a, p, 0, PATTERN_NONE, 0, &made.draft, room->errs));
    made.list = export_list_of(room->a, p, 0, &made.draft);
    return export_worksheet_page(&made.w, &made.list, 0);
}

/* Cloth, two extents and four seams of two lines each are 11 lines, of three each 15: all of them stand. Of four each, 19,
 * as many whole ones as leave a line for the hint. The card ends at 36 + 58 mm, its last line above that. */
static void facts_go_before_rules_and_are_never_cut(void **state)
{
    static const struct {
        const char *seam;
        size_t facts, hints;
    } rows[] = {
        { "gathered", 4, 0 },
        { "gathered to the belt of the dress, side", 4, 0 },
        { "gathered to the belt of the dress, on the side of the front, half", 2, 1 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *page = frill_page(*state, rows[i].seam);
        size_t begun = times(page, " gathered from ");
        assert_int_equal(begun, rows[i].facts);
        assert_int_equal(times(page, "”</text>"), begun);
        assert_int_equal(times(page, ">… more in the list on screen<"), rows[i].hints);
        for (const char *at = strstr(page, "<text x=\"54\" y=\""); at; at = strstr(at + 1, "<text x=\"54\" y=\""))
            assert_true(strtod(at + strlen("<text x=\"54\" y=\""), NULL) < 36 + 58 - 2);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(every_line_and_notion_has_a_box_to_tick),
        room_test(a_sketch_times_its_scale_is_the_piece),
        room_test(a_left_piece_is_sketched_mirrored),
        room_test(what_is_folded_or_gathered_is_said_on_its_card),
        room_test(the_sheet_says_for_whom_when_that_is_known),
        room_test(facts_go_before_rules_and_are_never_cut),
        room_test(letters_of_a_kind_are_of_one_size_and_stay_in_their_box),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
