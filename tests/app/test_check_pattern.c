/* A small pattern without a fault, and the same with one slip at a time. All hand-worked. */
#include "app/check.h"
#include "pattern/each.h"
#include "pattern/read.h"
#include "support/room.h"

#include <string.h>

/* A front whose side is 300 to 320 long and goes to a back's; both have a notch 100 up. */
static const char sound[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'p', 'unit': 'mm',\n"
    "  'sizes': ['1', '2', '3', '4', '5', '6'],\n"
    "  'chart': { 'bust': [800, 840, 880, 920, 960, 1000] }, 'main_measurement': 'bust',\n"
    "  'values': { 'rise': 5 },\n"
    "  'pieces': [\n"
    "  { 'name': 'front', 'allowance': 10, 'grain': ['a', 'd'], 'values': { 'drop': 'rise * 2' },\n"
    "    'points': { 'a': [0, 0],\n"
    "      'b': [[200, 210, 220, 230, 240, 250], 0],\n"
    "      'c': [[200, 210, 220, 230, 240, 250], [300, 304, 308, 312, 316, 320]],\n"
    "      'd': [0, 'y(c) - drop'] },\n"
    "    'outline': [ { 'name': 'hem', 'path': ['a', 'b'] },\n"
    "      { 'name': 'side', 'path': ['b', 'c'] },\n"
    "      { 'name': 'top', 'path': ['c', 'd'] },\n"
    "      { 'name': 'centre', 'path': ['d', 'a'] } ],\n"
    "    'notches': [ { 'edge': 'side', 'at': 100 } ] },\n"
    "  { 'name': 'back', 'allowance': 10, 'rectangle': { 'width': 180, 'height': [300, 304, 308, 312, 316, 320] },\n"
    "    'notches': [ { 'edge': 'right', 'at': 100 } ] } ],\n"
    "  'seams': [ { 'name': 'side', 'join': [['front.side'], ['back.right']] } ],\n"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'pairs': 1 }, { 'piece': 'back', 'pairs': 1 } ] } ] }\n";

static const char groups[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'p', 'unit': 'mm', 'sizes': ['s', 'l'],\n"
    "  'chart': { 'waist': [700, 740] }, 'main_measurement': 'waist', 'cup_groups': [\n"
    "    { 'name': 'A', 'bust': [900, 940] }, { 'name': 'B', 'bust': [930, 970] } ], 'pieces': [\n"
    "  { 'name': 'panel', 'allowance': 1, 'rectangle': { 'width': 'bust / 2', 'height': 40 } },\n"
    "  { 'name': 'band', 'allowance': 1, 'rectangle': { 'width': [465, 485], 'height': 40 } },\n"
    "  { 'name': 'bow', 'cup_group': 'B', 'allowance': 0, 'grain': ['a', 'd'], 'points': { 'a': [0, 0],\n"
    "      'b': [10, 10], 'c': [14, 2], 'd': [0, 10] },\n"
    "    'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'd', 'a'] } ] } ],\n"
    "  'seams': [ { 'name': 'top', 'join': [['panel.top'], ['band.top']] } ],\n"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'panel', 'count': 1 }, { 'piece': 'band', 'count': 1 },\n"
    "    { 'piece': 'bow', 'count': 1 } ] } ] }\n";

static const char *replaced(struct room *room, const char *text, const char *was, const char *is)
{
    const char *at = strstr(text, was);
    assert_non_null(at);
    return base_arena_print(room->a, "%.*s%s%s", (int)(at - text), text, is, at + strlen(was));
}

static const char *with_slip(struct room *room, const char *was, const char *is)
{
    return room_json(room, replaced(room, sound, was, is));
}

static bool check_json(struct room *room, const char *json, const char **report)
{
    return app_check(room->a, room_put(room, "file.json", json), NULL, report, NULL, room->errs);
}

static void a_sound_pattern_is_walked_and_nothing_is_told(void **state)
{
    struct room *room = *state;
    const char *report;
    assert_true(check_json(room, room_json(room, sound), &report));
    room_nothing_told(room);
    assert_string_equal(report,
                        "pattern “p”: 6 sizes, 2 pieces, 1 seam, 1 view\n"
                        "Outlines are the stitching line\n"
                        "Seams on the stitching line: lengths of size 3 (mm), the worst miss of all sizes in mm, what "
                        "is meant\n"
                        "                          first   second     off  size  meant\n"
                        "  side                    308.0    308.0    0.00  1     equal\n"
                        "    1 of 2                100.0    100.0    0.00  1     equal\n"
                        "    2 of 2                208.0    208.0    0.00  1     equal\n"
                        "Edges in no seam\n"
                        "  front: hem, top, centre\n"
                        "  back: bottom, top, left\n");
}

/* One slip, the one complaint that names it, and at most one more that follows from it. */
struct slip {
    const char *was, *is, *code, *path;
    int line;
    const char *also;
};

static const struct slip slips[] = {
    { "220, 230, 240, 250], 0]", "220, 236, 240, 250], 0]", "check.number_off", "pieces[0].points.b", 8, NULL },
    { "920, 960, 1000]", "902, 960, 1000]", "check.number_off", "chart.bust", 3, NULL },
    { "920, 960, 1000]", "9200, 9300, 9400]", "check.number_off", "chart.bust", 3, NULL },
    { "800, 840, 880,", "80, 840, 880,", "check.number_off", "chart.bust", 3, NULL },
    { "'values': { 'rise'",
      "'cup_groups': [ { 'name': 'A', 'bust': [80, 84, 88, 920, 930, 940] } ], 'values': { 'rise'", "check.number_off",
      "cup_groups[0]", 4, NULL },
    { "'rise': 5", "'rise': [5, 6, 7, 18, 9, 10]", "check.number_off", "values.rise", 4, NULL },
    { "'width': 180", "'width': [180, 184, 188, 192, 196, 176]", "check.number_off", "pieces[1]", 16, NULL },
    { "'width': 180", "'width': [80, 184, 188, 192, 196, 200]", "check.number_off", "pieces[1]", 16, NULL },
    { "'width': 180", "'width': [180, 185, 181, 186, 182, 187]", "check.back_and_forth", "pieces[1]", 16, NULL },
    { "y(c) - drop", "y(c) - drop - 8 * floor(bust / 920)", "check.sizes_cross", "pieces[0].outline[2]", 13, NULL },
    { "'allowance': 10, 'grain'", "'grain'", "check.no_allowance", "pieces[0].outline[0]", 11, "check.no_snip" },
    { "['b', 'c'] }", "['b', 'c'], 'allowance': 0 }", "check.sewn_without_allowance", "pieces[0].outline[1]", 12,
      "check.no_snip" },
    { "'grain': ['a', 'd'], ", "", "check.no_grain", "pieces[0]", 6, NULL },
    { "'d': [0, 'y(c) - drop']", "'d': [100, '-drop']", "draft.crosses", "pieces[0]", 6, NULL },
    { "{ 'piece': 'front', 'pairs': 1 }, ", "", "check.never_cut", "pieces[0]", 6, NULL },
    { "'pairs': 1 }, {", "'pairs': 1 } ] }, { 'name': 'B', 'cut': [ {", "check.never_together", "seams[0]", 18, NULL },
    { "'a': [0, 0],", "'a': [0, 0], 'z': [1, 1],", "check.unused_point", "pieces[0].points.z", 7, NULL },
    { "'rise': 5", "'rise': 5, 'spare': 7", "check.unused_value", "values.spare", 4, NULL },
    { "'rise * 2'", "'rise * 2', 'spare': 'rise'", "check.unused_value", "pieces[0].values.spare", 6, NULL },
    { "{ 'edge': 'right', 'at': 100 }", "", "check.marks_differ", "seams[0]", 18, NULL },
    { "'right', 'at': 100", "'right', 'at': 100, 'double': true", "check.marks_unlike", "seams[0]", 18, NULL },
    { "'right', 'at': 100", "'right', 'at': 103", "check.seam_off", "seams[0]", 18, NULL },
};

static bool is_found(const struct room *room, const struct slip *slip)
{
    int own = 0, others = 0;
    for (int i = 0; i < room->errs->count; i++) {
        const struct err *e = &room->errs->items[i];
        if (strcmp(e->kind->code, slip->code) == 0 && e->place.line == slip->line &&
            strcmp(e->place.path, slip->path) == 0)
            own++;
        else
            others += slip->also && strcmp(e->kind->code, slip->also) == 0 ? 1 : 2;
    }
    return own == 1 && others == (slip->also ? 1 : 0);
}

static void a_slip_is_found_once_at_its_place(void **state)
{
    struct room *room = *state;
    const char *report;
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        room_forget(room);
        check_json(room, with_slip(room, slips[i].was, slips[i].is), &report);
        if (is_found(room, &slips[i]))
            continue;
        for (int e = 0; e < room->errs->count; e++)
            print_error("%s at %s, line %d\n", room->errs->items[e].kind->code, room->errs->items[e].place.path,
                        room->errs->items[e].place.line);
        fail_msg("%s is not told for %s", slips[i].code, slips[i].is);
    }
}

/* The centre goes 50 down past the hem and comes back 0.1 beside it: what cutting only notes, proof-reading refuses. */
static void an_outline_that_runs_back_along_itself_is_a_fault(void **state)
{
    struct room *room = *state;
    const char *report, *spurred = replaced(room, sound, "'a': [0, 0]", "'a': [0.1, 0], 'e': [0, -50]");
    assert_false(check_json(room, room_json(room, replaced(room, spurred, "['d', 'a']", "['d', 'e', 'a']")), &report));
    assert_int_equal(room_only_told_at(room, "draft.runs_back", "pieces[0]")->kind->severity, ERR_FAULT);
}

/* What is 54 000 mm² in every size is no smaller for its rounding; what loses 20 mm² from size to size is. */
static void a_piece_is_smaller_only_by_what_can_be_seen(void **state)
{
    struct room *room = *state;
    const char *report, *plain = replaced(room, sound, "'width': 180, 'height': [300, 304, 308, 312, 316, 320]",
                                          "'width': '54000 / (300 + bust / 100)', 'height': '300 + bust / 100'");
    const char *alone = replaced(room, plain, "{ 'name': 'side', 'join': [['front.side'], ['back.right']] }", "");
    assert_true(check_json(room, room_json(room, alone), &report));
    room_nothing_told(room);
    const char *less = replaced(room, alone, "'54000 / (", "'(54000 - bust / 2) / (");
    assert_true(check_json(room, room_json(room, less), &report));
    room_only_told_at(room, "check.shrinks", "pieces[1]");
}

static void a_value_is_used_where_only_a_count_reads_it(void **state)
{
    struct room *room = *state;
    const char *report, *plain = replaced(room, sound, "'rise * 2'", "10");
    const char *counted = replaced(room, plain, "'pairs': 1 }", "'pairs': 'ceil(rise / 10)' }");
    assert_true(check_json(room, room_json(room, counted), &report));
    room_nothing_told(room);
}

/* What a count comes to in the largest size alone, and in the smallest; a notion's length; each told once. Bust is 800
 * to 1000 mm, so that floor(bust / 1000) is 0 in all sizes but the last, and bust / 500 is 1.6 in the first. */
static void what_a_count_or_a_notion_comes_to_is_told_once(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *was, *is, *code, *path, *size;
    } rows[] = {
        { "{ 'piece': 'back', 'pairs': 1 }", "{ 'piece': 'back', 'pairs': 'floor(bust / 1000)' }", "draft.no_count",
          "views[0].cut[1].pairs", "1" },
        { "'pairs': 1 }, {", "'pairs': 'bust / 800' }, {", "draft.no_count", "views[0].cut[0].pairs", "2" },
        { "'pairs': 1 } ] } ]", "'pairs': 1 } ], 'notions': [ { 'name': 'button', 'count': 'bust / 500' } ] } ]",
          "draft.no_count", "views[0].notions[0].count", "1" },
        { "'pairs': 1 } ] } ]", "'pairs': 1 } ], 'notions': [ { 'name': 'tape', 'length': '950 - bust' } ] } ]",
          "pattern.formula_not_positive", "views[0].notions[0].length", "5" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *report;
        assert_false(check_json(room, with_slip(room, rows[i].was, rows[i].is), &report));
        assert_string_equal(room_only_told_at(room, rows[i].code, rows[i].path)->args[1].text, rows[i].size);
        room_forget(room);
    }
}

/* A back as high as a measurement that no chart has: noted without a body, read in one that has it, and refused in one
 * that has not. One of 320 leaves a height of 70, below its notch at 100. */
static void what_is_drafted_to_a_body_alone_is_read_in_one(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *measurements, *code;
    } rows[] = {
        { NULL, "check.body_alone" },
        { "'bust': 802, 'arm': 500", NULL },
        { "'bust': 802", "draft.not_measured" },
        { "'bust': 802, 'arm': 320", "draft.notch_off" },
    };
    const char *with = replaced(room, sound, "'values': { 'rise'", "'measurements': ['arm'], 'values': { 'rise'");
    const char *tall = replaced(room, with, "'height': [300, 304, 308, 312, 316, 320]", "'height': 'arm - 250'");
    const char *alone = replaced(room, tall, "{ 'name': 'side', 'join': [['front.side'], ['back.right']] }", "");
    const char *path = room_put(room, "file.json", room_json(room, alone)), *report;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *body = rows[i].measurements
                               ? room_put(room, "body.json",
                                          room_json(room, base_arena_print(room->a,
                                                                           "{ 'chalklight': 'body', 'version': 1, "
                                                                           "'name': 'b', 'unit': 'mm',"
                                                                           "  'measurements': { %s } }",
                                                                           rows[i].measurements)))
                               : NULL;
        bool ok = app_check(room->a, path, body, &report, NULL, room->errs);
        assert_int_equal(ok, !rows[i].code || i == 0);
        assert_int_equal(strstr(report, "\nDrafted to the measurements of “b”, too\n") != NULL, body != NULL);
        if (rows[i].code)
            room_only_told(room, rows[i].code);
        else
            room_nothing_told(room);
        room_forget(room);
    }
}

static void a_figure_is_read_where_only_a_curve_or_a_count_reads_it(void **state)
{
    struct room *room = *state;
    const char *curved =
        replaced(room, sound, "['c', 'd'] }", "['c', { 'leave': 'neck', 'arrive': 180, 'end': 'd' }] }");
    const char *counted = replaced(room, curved, "'pairs': 1 }", "'pairs': 'ceil(wrist)' }");
    const char *json = room_json(room, replaced(room, counted, "'values': { 'rise'",
                                                "'measurements': ['neck', 'wrist', 'knee'], 'values': { 'rise'"));
    const struct pattern *p = pattern_parse(room->a, "p", json, strlen(json), room->errs);
    const bool *read = pattern_figures_read(room->a, p);
    assert_true(read[pattern_find_figure(p, "neck")]);
    assert_true(read[pattern_find_figure(p, "wrist")]);
    assert_false(read[pattern_find_figure(p, "knee")]);
    assert_false(read[pattern_find_figure(p, "bust")]);
}

/* 800, 840, 880, 902, 960: the parabola through 840, 880 and 960 has (960 + 3 * 880 - 840) / 3 = 920 there. */
static void five_sizes_are_enough_for_a_slip_in_the_chart(void **state)
{
    struct room *room = *state;
    const char *report;
    const char *rows = replaced(room, groups, "'sizes': ['s', 'l']", "'sizes': ['1', '2', '3', '4', '5']");
    rows = replaced(room, rows, "'waist': [700, 740]", "'waist': [800, 840, 880, 902, 960]");
    rows = replaced(room, rows, "'bust': [900, 940]", "'bust': 900");
    rows = replaced(room, rows, "'bust': [930, 970]", "'bust': 930");
    rows = replaced(room, rows, "'width': [465, 485]", "'width': 465");
    check_json(room, room_json(room, rows), &report);
    const struct err *e = &room->errs->items[0];
    assert_string_equal(e->kind->code, "check.number_off");
    assert_string_equal(e->args[0].text, "row “waist” of the chart");
    assert_near(e->args[3].number, 920, 1e-9);
}

/* 236 among 210, 220, 240, 250: the cubic through those four has 230 there. */
static void a_number_out_of_line_is_told_with_what_its_neighbours_suggest(void **state)
{
    struct room *room = *state;
    const char *report;
    assert_true(check_json(room, with_slip(room, slips[0].was, slips[0].is), &report));
    const struct err *e = room_only_told(room, "check.number_off");
    assert_string_equal(e->args[0].text, "point “b” of piece “front”, across");
    assert_near(e->args[1].number, 236, 1e-9);
    assert_string_equal(e->args[2].text, "4");
    assert_near(e->args[3].number, 230, 1e-9);
}

/* Lists that grade as lists do: a step that widens, a stair, one wide step, a bend, a list rounded to whole mm. */
static void a_grade_that_bends_is_no_slip(void **state)
{
    struct room *room = *state;
    static const char *const lists[] = {
        "[180, 190, 200, 210, 225, 240]", "[180, 180, 186, 186, 192, 192]",
        "[180, 184, 188, 200, 204, 208]", "[180, 190, 200, 204, 208, 212]",
        "[180, 183, 187, 190, 193, 197]", "[180, 180, 180, 184, 188, 192]",
        "[180, 180, 180, 180, 180, 190]", "['7 in', '7 1/4 in', '7 3/8 in', '7 5/8 in', '7 3/4 in', '8 in']",
    };
    const char *report;
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        const char *is = base_arena_print(room->a, "'width': %s", lists[i]);
        assert_true(check_json(room, with_slip(room, "'width': 180", is), &report));
        room_nothing_told(room);
    }
}

/* In cm: 3-4-5 triangles, one 15 and one 20 long, gathered to a band of 25 at 1.4 : 1, and with 0.5 cm of ease to a
 * band of 34.5, of which the intervals take 0.2 and 0.3. */
static const char lengths[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'p', 'unit': 'cm', 'sizes': ['s', 'l'],\n"
    "  'chart': { 'bust': [90, 94] }, 'main_measurement': 'bust', 'pieces': [\n"
    "  { 'name': 'roof', 'allowance': 1, 'grain': ['a', 'b'],\n"
    "    'points': { 'a': [-9, 0], 'b': [16, 0], 'c': [0, 12] },\n"
    "    'outline': [ { 'name': 'base', 'path': ['a', 'b'] }, { 'name': 'right', 'path': ['b', 'c'] },\n"
    "      { 'name': 'left', 'path': ['c', 'a'] } ] },\n"
    "  { 'name': 'band', 'allowance': 1, 'rectangle': { 'width': 25, 'height': 4 } },\n"
    "  { 'name': 'long', 'allowance': 1, 'rectangle': { 'width': [34.5, 34.6], 'height': 4 },\n"
    "    'notches': [ { 'edge': 'bottom', 'at': [19.8, 19.9] } ] } ],\n"
    "  'seams': [ { 'name': 'gathered', 'join': [['roof.right', 'roof.left'], ['band.bottom']], 'ratio': 1.4 },\n"
    "    { 'name': 'eased', 'join': [['roof.right', '|', 'roof.left'], ['long.bottom']], 'intervals': [0.2, 0.3] } ],\n"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'roof', 'count': 1 }, { 'piece': 'band', 'count': 1 },\n"
    "    { 'piece': 'long', 'count': 1 } ] } ] }\n";

static void what_is_meant_is_said_with_both_lengths(void **state)
{
    struct room *room = *state;
    const char *report;
    assert_true(check_json(room, room_json(room, lengths), &report)); /* 1 mm off in size l: as much as may be */
    assert_non_null(strstr(report,
                           "\n  gathered                35.00    25.00    0.00  s     gathered or folded 1.4 : 1\n"
                           "  eased                   35.00    34.50    1.00  l     first eased by 0.50 cm\n"
                           "    1 of 2                20.00    19.80    1.00  l     first eased by 0.20 cm\n"
                           "    2 of 2                15.00    14.70    0.00  s     first eased by 0.30 cm\n"));
}

/* A panel of no cup group is as wide as half the bust of the group that is cut: 450 and 465 mm in size s; the band is
 * 465. The bow of group B crosses itself, which is found though group A is drafted first. */
static void cup_groups_are_walked_apart_where_they_differ(void **state)
{
    struct room *room = *state;
    const char *report;
    assert_false(check_json(room, room_json(room, groups), &report));
    assert_int_equal(room->errs->count, 2);
    assert_string_equal(room->errs->items[0].kind->code, "draft.crosses");
    assert_string_equal(room->errs->items[1].kind->code, "check.seam_off");
    assert_string_equal(room->errs->items[1].args[3].text, ", cup group A");
    assert_non_null(strstr(report, "\n  top                     450.0    465.0   15.00  s     equal, cup group A\n"
                                   "  top                     465.0    465.0    0.00  s     equal, cup group B\n"));
}

static void json_holds_every_interval_in_every_size(void **state)
{
    struct room *room = *state;
    const char *report;
    struct json_out *to = json_out_create();
    app_check(room->a, room_put(room, "file.json", room_json(room, sound)), NULL, &report, to, room->errs);
    const char *text = json_out_print_line(room->a, to);
    json_out_destroy(to);
    static const char *const parts[] = {
        "\"first_mm\": [300, 304, 308, 312, 316, 320]",
        "\"second_mm\": [200, 204, 208, 212, 216, 220]",
        "\"meant_mm\": [0, 0, 0, 0, 0, 0]",
        "\"free_edges\": {\"front\": \"hem, top, centre\", \"back\": \"bottom, top, left\"}",
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (!strstr(text, parts[i]))
            fail_msg("no %s in %s", parts[i], text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_sound_pattern_is_walked_and_nothing_is_told),
        room_test(a_slip_is_found_once_at_its_place),
        room_test(an_outline_that_runs_back_along_itself_is_a_fault),
        room_test(a_piece_is_smaller_only_by_what_can_be_seen),
        room_test(a_value_is_used_where_only_a_count_reads_it),
        room_test(what_a_count_or_a_notion_comes_to_is_told_once),
        room_test(what_is_drafted_to_a_body_alone_is_read_in_one),
        room_test(a_figure_is_read_where_only_a_curve_or_a_count_reads_it),
        room_test(five_sizes_are_enough_for_a_slip_in_the_chart),
        room_test(a_number_out_of_line_is_told_with_what_its_neighbours_suggest),
        room_test(a_grade_that_bends_is_no_slip),
        room_test(what_is_meant_is_said_with_both_lengths),
        room_test(cup_groups_are_walked_apart_where_they_differ),
        room_test(json_holds_every_interval_in_every_size),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
