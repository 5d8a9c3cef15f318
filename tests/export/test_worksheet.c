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

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(every_line_and_notion_has_a_box_to_tick),
        room_test(a_sketch_times_its_scale_is_the_piece),
        room_test(a_left_piece_is_sketched_mirrored),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
