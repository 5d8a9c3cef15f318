#include "app/size_report.h"
#include "pattern/read.h"
#include "support/room.h"

/* Sizes 12 to 16 in even steps of 4 cm; finished waist 2 cm less than the chart's: a garment closer than the body. */
#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Report', 'unit': 'cm', 'sizes': ['12', '14', '16'],"            \
    "  'chart': { 'upper bust': [80, 84, 88], 'waist': [64, 68, 72], 'hip': [90, 94, 98] },"                           \
    "  'main_measurement': 'upper bust',"                                                                              \
    "  'cup_groups': [ { 'name': 'A-B', 'bust': [84, 88, 92] }, { 'name': 'C-D', 'bust': [89, 93, 97] } ],"            \
    "  'finished': { 'bust': { 'A-B': [92, 96, 100], 'C-D': [97, 101, 105] }, 'waist': [62, 66, 70] },"                \
    "  'ease': { %s },"                                                                                                \
    "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"                                       \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"

struct told {
    const char *text, *json;
};

/* `whom`: NULL for the size that is chosen. */
static struct told report_for(struct room *room, const char *ease, const char *unit, enum units_length shown,
                              const char *measurements, double position, int group, const struct draft_figure *whom)
{
    struct sizing_choice c = { .position = 0 };
    const char *pattern = room_json(room, base_arena_print(room->a, PATTERN, ease));
    const char *body = room_json(room, base_arena_print(room->a,
                                                        "{ 'chalklight': 'body', 'version': 1, 'name': 'G',"
                                                        "  'unit': '%s', 'measurements': { %s } }",
                                                        unit, measurements));
    const struct pattern *p = pattern_parse(room->a, "p", pattern, strlen(pattern), room->errs);
    const struct sizing_body *b = sizing_body_parse(room->a, "b", body, strlen(body), room->errs);
    assert_true(p && b && sizing_choose_named(room->a, p, b, position, group, &c, room->errs));
    struct json_out *top = json_out_create();
    struct draft_figure figure = whom ? *whom : draft_figure_at(c.position, c.cup_group);
    struct app_measured measured = app_measure(room->a, p, &c, &figure);
    app_size_json(room->a, top, p, &c, &measured);
    struct told told = { app_size_report(room->a, p, &c, &measured, shown), json_out_print(room->a, top) };
    json_out_destroy(top);
    return told;
}

static struct told report_of_ease(struct room *room, const char *ease, const char *unit, enum units_length shown,
                                  const char *measurements, double position, int group)
{
    return report_for(room, ease, unit, shown, measurements, position, group, NULL);
}

static struct told report_in(struct room *room, const char *unit, enum units_length shown, const char *measurements)
{
    return report_of_ease(room, "'bust': 8", unit, shown, measurements, PATTERN_NONE, PATTERN_NONE);
}

static struct told report_with(struct room *room, const char *ease, const char *measurements)
{
    return report_of_ease(room, ease, "cm", UNITS_CM, measurements, PATTERN_NONE, PATTERN_NONE);
}

static struct told report(struct room *room, const char *measurements, double position, int group)
{
    return report_of_ease(room, "'bust': 8", "cm", UNITS_CM, measurements, position, group);
}

static struct told report_of(struct room *room, const char *measurements)
{
    return report(room, measurements, PATTERN_NONE, PATTERN_NONE);
}

static void has(const char *text, const char *part)
{
    if (!strstr(text, part))
        fail_msg("“%s” is not in:\n%s", part, text);
}

static void has_not(const char *text, const char *part)
{
    if (strstr(text, part))
        fail_msg("“%s” is in:\n%s", part, text);
}

/* The line of a measurement, with single spaces between its columns. */
static const char *row(struct room *room, const char *text, const char *name)
{
    const char *at = strstr(text, base_arena_print(room->a, "\n  %s ", name));
    assert_non_null(at);
    char *line = base_arena_copy_bytes(room->a, at + 3, strcspn(at + 1, "\n") - 2);
    char *to = line;
    for (const char *from = line; *from; from++)
        if (*from != ' ' || from[1] != ' ')
            *to++ = *from;
    *to = 0;
    return line;
}

/* By hand: 93.5 less 93, 101 less 93.5, which is 0.5 less than the 8 that are meant; 67 less 68, 66 less 67 (and a
 * quarter of a step from the middle, 66); no finished hip. */
static void a_row_shows_body_chart_difference_finished_and_ease(void **state)
{
    struct room *room = *state;
    struct told told = report_of(room, "'upper bust': 84, 'bust': 93.5, 'waist': 67, 'hip': 94");
    has(told.text, "Size 14: your upper bust is 84 cm, the chart has 84 cm.\n");
    has(told.text, "Cup group C-D: your bust is 93.5 cm, the group is drawn for 93 cm in size 14.\n");
    assert_string_equal(row(room, told.text, "bust"),
                        "bust 93.5 cm 93 cm +0.5 cm 14 101 cm 7.5 cm 8 cm tighter than intended by 0.5 cm");
    assert_string_equal(row(room, told.text, "waist"),
                        "waist 67 cm 68 cm -1 cm 12 or 14 66 cm -1 cm closer than the body");
    assert_string_equal(row(room, told.text, "hip"), "hip 94 cm 94 cm 0 cm 14");
    has_not(told.text, "Side by side");
    has(told.json, "\"difference_mm\": -10,");
    has(told.json, "\"ease_mm\": -10");
    has(told.json, "\"ease_mm\": 75,\n      \"closer_than_body\": false,\n      \"intended_ease_mm\": 80,\n"
                   "      \"tighter_than_intended_mm\": 5,");
}

/* The line behind the row of that name, likewise. */
static const char *row_behind(struct room *room, const char *text, const char *name, const char *behind)
{
    return row(room, strstr(text, base_arena_print(room->a, "\n  %s ", name)), behind);
}

/* By hand: 81.5 lies 1.5 from 80 and 2.5 from 84, within a quarter of the step from the middle, and 0.375 of the way,
 * 0.4 to a tenth. Bust 87.2 is nearest to C-D in size 12 (89; A-B 84), to A-B in 14 (88), and at 0.4 to A-B (85.6;
 * C-D 90.6). Finished bust 97, 92 + 0.4 * 4 = 93.6, and 96; finished waist 62, 63.6, 66 around a waist of 65. */
static void between_two_sizes_all_three_are_shown_with_their_finished_measurements(void **state)
{
    struct room *room = *state;
    struct told told = report_of(room, "'upper bust': 81.5, 'bust': 87.2, 'waist': 65");
    has(told.text,
        "You are between size 12 (80 cm) and size 14 (84 cm). Size 12 is a little nearer and is taken; to cut "
        "the other: --size \"14\", or the one in between: --size \"12 to 14 at 40%\"\n");
    assert_string_equal(row(room, told.text, "bust"), "bust 87.2 cm 89 cm -1.8 cm 12 97 cm 9.8 cm 8 cm");
    const char *sides = strstr(told.text, "Side by side:\n");
    assert_non_null(sides);
    has(sides, "you     size 12 size 12 to 14 at 40%     size 14\n");
    assert_string_equal(row(room, sides, "cup group"), "cup group C-D A-B A-B");
    assert_string_equal(row(room, sides, "upper bust"), "upper bust 81.5 cm 80 cm 81.6 cm 84 cm");
    assert_string_equal(row(room, sides, "bust"), "bust 87.2 cm 89 cm 85.6 cm 88 cm");
    assert_string_equal(row_behind(room, sides, "bust", "  finished"), " finished 97 cm 93.6 cm 96 cm");
    assert_string_equal(row_behind(room, sides, "bust", "  ease"), " ease 9.8 cm 6.4 cm 8.8 cm");
    assert_string_equal(row_behind(room, sides, "bust", "  intended"), " intended 8 cm 8 cm 8 cm");
    assert_string_equal(row_behind(room, sides, "waist", "  finished"), " finished 62 cm 63.6 cm 66 cm");
    assert_string_equal(row_behind(room, sides, "waist", "  ease"), " ease -3 cm -1.4 cm 1 cm");
    has(told.json, "\"between_this_and\": {\n    \"size\": \"14\",");
    has(told.json, "\"between_the_two\": {\n    \"size\": \"12 to 14 at 40%\",\n    \"size_position\": 0.4,");
    has(told.json, "\"finished_mm\": 936,\n        \"ease_mm\": 64,");
    has(told.json, "\"equally_near\": null");
    told = report_of(room, "'upper bust': 82, 'bust': 87");
    has(told.text,
        "You are halfway between size 12 (80 cm) and size 14 (84 cm). The larger is taken, as it can be taken "
        "in; to cut the other: --size \"12\", or the one in between: --size \"12 to 14\"\n");
    has(told.json, "\"equally_near\": \"12\"");
}

/* By hand: a waist of 65 is 3 more than the finished 62, where 4 are meant. */
static void a_garment_smaller_than_the_body_is_called_so_where_it_is_not_meant_to_be(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *ease, *remark;
    } rows[] = {
        { "'bust': 8, 'waist': 4", "-3 cm 4 cm smaller than the body, tighter than intended by 7 cm" },
        { "'bust': 8, 'waist': 0", "-3 cm 0 cm smaller than the body, tighter than intended by 3 cm" },
        { "'bust': 8, 'waist': -2", "-3 cm -2 cm closer than the body, tighter than intended by 1 cm" },
        { "'bust': 8, 'waist': -3", "-3 cm -3 cm closer than the body" },
        { "'bust': 8, 'waist': [-4, -4, 9]", "-3 cm -4 cm closer than the body" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct told told = report_with(room, rows[i].ease, "'upper bust': 80, 'bust': 84, 'waist': 65");
        assert_string_equal(row(room, told.text, "waist"),
                            base_arena_print(room->a, "waist 65 cm 64 cm +1 cm 12 or 14 62 cm %s", rows[i].remark));
        has(told.json, "\"closer_than_body\": true");
        assert_int_equal(strstr(told.json, "\"smaller_than_body\": true") != NULL, i < 2);
        assert_int_equal(strstr(told.json, "\"meant_closer_than_body\": true") != NULL, i >= 2);
    }
}

static void what_rests_on_an_estimate_or_a_question_says_so(void **state)
{
    struct room *room = *state;
    struct told told = report_of(room, "'upper bust': 84");
    has(told.text, "Cup group A-B, an estimate: your bust may be 89.1 cm");
    /* By hand: 84 and 5.08 cm; 1.1 more than the group's 88, 6.9 less than the finished 96, 1.1 less than meant. */
    assert_string_equal(row(room, told.text, "bust"),
                        "bust 89.1 cm 88 cm +1.1 cm an estimate 96 cm 6.9 cm 8 cm tighter than intended by "
                        "1.1 cm");
    has(told.json, "\"estimated\": true,\n      \"chart_mm\": 880,");
    has(told.json, "\"cup_group_estimated\": true");
    has(told.json, "\"size_estimated\": false");
    told = report_of(room, "'bust': 89");
    has(told.text, "Size 14, an estimate: your upper bust may be 83.9 cm");
    has(told.text, "Cup group A-B, an estimate: your bust is 89 cm");
    has(told.json, "\"size_estimated\": true");
    told = report_of(room, "'upper bust': 33, 'bust': 37");
    has(told.text,
        "Size 12: your upper bust is 33 cm, the chart has 80 cm.\n  It rests on a number that is hardly right.");
    has(row(room, told.text, "bust"), "hardly right");
    has(told.json, "\"questioned\": true,\n  \"size_estimated\"");
    has(told.json, "\"perhaps_mm\": 939.8");
}

static void what_she_chose_herself_is_called_so(void **state)
{
    struct room *room = *state;
    struct told told = report(room, "'upper bust': 82, 'bust': 87", 2, 1);
    has(told.text, "Size 16, as you chose: your upper bust is 82 cm, the chart has 88 cm.\n");
    has(told.text, "Cup group C-D, as you chose: drawn for a bust of 97 cm in size 16.\n");
    has_not(told.text, "Side by side");
    told = report(room, "'upper bust': 82, 'bust': 87", 0.4, 1);
    has(told.text, "Size 12 to 14 at 40%, as you chose: your upper bust is 82 cm, the chart has 81.6 cm.\n");
    has(told.text, "drawn for a bust of 90.6 cm in size 12 to 14 at 40%.\n");
    has_not(told.text, "Side by side");
    told = report(room, "'hip': 120", 2, 1);
    has(told.text, "Size 16, as you chose.\n");
    has(row(room, told.text, "hip"), "above the chart");
}

/* By hand, to the nearest eighth of an inch as a tape has it: 84 cm is 33.07 in, 33 1/8; 88 and 89 cm are 34.65 and
 * 35.04 in, 34 5/8 and 35; 96 cm is 37.80 in, 37 3/4; 68 and 66 cm are 26.77 and 25.98 in, 26 3/4 and 26. A body may
 * be written finer. Whoever subtracts what is shown comes to what is shown. */
static void in_inches_every_number_is_one_that_a_tape_has(void **state)
{
    struct room *room = *state;
    const char *body = "'upper bust': '32 15/16 in', 'bust': 34.3, 'waist': 26.5";
    struct told told = report_in(room, "in", UNITS_IN, body);
    has(told.text, "Size 14: your upper bust is 32 15/16 in, the chart has 33 1/8 in.\n");
    has(told.text, "your bust is 34 5/16 in, the group is drawn for 34 5/8 in in size 14.\n");
    assert_string_equal(row(room, told.text, "upper bust"), "upper bust 32 15/16 in 33 1/8 in -3/16 in 14");
    assert_string_equal(row(room, told.text, "bust"),
                        "bust 34 5/16 in 34 5/8 in -5/16 in 14 37 3/4 in 3 7/16 in 3 1/8 in");
    assert_string_equal(row(room, told.text, "waist"), "waist 26 1/2 in 26 3/4 in -1/4 in 14 26 in -1/2 in closer "
                                                       "than the body");
    told = report_in(room, "in", UNITS_IN, "'upper bust': 33");
    has(told.text, "an estimate: your bust may be 35 in"); /* 33 in and the usual 2 in */
    has_not(told.text, ".0");
    told = report_in(room, "in", UNITS_IN, "'upper bust': '32 15/16 in'");
    has(told.text, "an estimate: your bust may be 34 15/16 in"); /* written finer, so estimated finer */
    has(row(room, told.text, "bust"), "bust 34 15/16 in ");
}

/* By hand: 84 and 93.5 cm are 33.07 and 36.81 in, nearest 33 1/16 and 36 13/16; the chart's 93 cm is 36.61 in, 36 5/8
 * on a tape, and 101 cm 39.76 in, 39 3/4. */
static void a_body_in_centimetres_is_reported_in_inches_where_they_are_asked_for(void **state)
{
    struct room *room = *state;
    struct told told = report_in(room, "cm", UNITS_IN, "'upper bust': 84, 'bust': 93.5");
    has(told.text, "Size 14: your upper bust is 33 1/16 in, the chart has 33 1/8 in.\n");
    assert_string_equal(row(room, told.text, "bust"),
                        "bust 36 13/16 in 36 5/8 in +3/16 in 14 39 3/4 in 2 15/16 in 3 1/8 in "
                        "tighter than intended by 3/16 in");
    has_not(told.text, "cm");
}

/* Neither is impossible; together they are nobody's. */
static void an_upper_bust_far_above_the_bust_is_questioned(void **state)
{
    struct room *room = *state;
    struct told told = report_of(room, "'upper bust': 98, 'bust': 80");
    has(told.text, "It rests on a number that is hardly right.");
    has(row(room, told.text, "bust"), "hardly right");
    has(told.json, "\"questioned\": true,\n  \"size_estimated\"");
}

/* A hip of (hip + 6) on four fronts, as finished, a waist with 2 of ease that only the pieces tell, and a neck without
 * a row of the chart. */
static const char girths[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Girths', 'unit': 'cm', 'sizes': ['12', '14'],"
    "  'chart': { 'waist': [64, 68], 'hip': [90, 94] }, 'main_measurement': 'waist', 'measurements': ['neck'],"
    "  'finished': { 'hip': [96, 100] }, 'ease': { 'hip': 6, 'waist': 2 },"
    "  'girths': { 'hip': [ { 'piece': 'front', 'level': 'far left', 'times': 4 } ],"
    "    'waist': [ { 'edge': 'band.left', 'times': 1 } ], 'neck': [ { 'edge': 'front.left', 'times': 2 } ] },"
    "  'pieces': [ { 'name': 'front', 'rectangle': { 'width': '(hip + %s) / 4', 'height': 20 } },"
    "    { 'name': 'band', 'rectangle': { 'width': 4, 'height': 'waist + 2' } } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'count': 1 } ] } ] }";

static struct told report_on_pieces(struct room *room, const char *hip_ease, double waist, bool to_body)
{
    struct sizing_choice c = { .position = 0 };
    const char *hole = strstr(girths, "%s");
    const char *pattern = room_json(
        room, base_arena_print(room->a, "%.*s%s%s", (int)(hole - girths), girths, hip_ease, hole + strlen("%s")));
    const char *body = room_json(room, base_arena_print(room->a,
                                                        "{ 'chalklight': 'body', 'version': 1, 'name': 'G', 'unit': "
                                                        "'cm', 'measurements': { 'waist': %g, 'hip': 95 } }",
                                                        waist));
    const struct pattern *p = pattern_parse(room->a, "p", pattern, strlen(pattern), room->errs);
    const struct sizing_body *b = sizing_body_parse(room->a, "b", body, strlen(body), room->errs);
    assert_true(p && b && sizing_choose(room->a, p, b, &c, room->errs));
    struct draft_figure figure = draft_figure_at(c.position, c.cup_group);
    const double own_mm[] = { 10 * waist, 950, 0 };
    figure.body_mm = to_body ? own_mm : NULL;
    struct app_measured measured = app_measure(room->a, p, &c, &figure);
    struct json_out *top = json_out_create();
    app_size_json(room->a, top, p, &c, &measured);
    struct told told = { app_size_report(room->a, p, &c, &measured, UNITS_CM), json_out_print(room->a, top) };
    json_out_destroy(top);
    room_nothing_told(room);
    return told;
}

/* By hand: 100 less 95 where 6 are meant; 70 on the pieces less 68; 4 × 24.9 = 99.6 is 4 mm less than 100. */
static void what_the_pieces_measure_stands_beside_what_is_given(void **state)
{
    struct room *room = *state;
    struct told told = report_on_pieces(room, "6", 68, false);
    has(told.text, " finished   on pieces        ease    intended\n");
    assert_string_equal(row(room, told.text, "hip"),
                        "hip 95 cm 94 cm +1 cm 14 100 cm 100 cm 5 cm 6 cm tighter than intended by 1 cm");
    assert_string_equal(row(room, told.text, "waist"), "waist 68 cm 68 cm 0 cm 14 70 cm 2 cm 2 cm");
    has(told.text, "\n  Also on the pieces: neck 40 cm\n");
    has(told.json, "\"on_pieces_mm\": 700,\n      \"ease_mm\": 20,");
    has(told.json, "\"finished_mm\": 1000,\n      \"on_pieces_mm\": 1000,\n      \"ease_mm\": 50,");
    has(told.json, "\"neck\": 400");
    told = report_on_pieces(room, "5.6", 68, false);
    assert_string_equal(row(room, told.text, "hip"),
                        "hip 95 cm 94 cm +1 cm 14 100 cm 99.6 cm 5 cm 6 cm tighter than intended by 1 cm, the pieces "
                        "measure 0.4 cm less than is given");
    told = report_on_pieces(room, "6.1", 68, false); /* 1 mm more: a tape does not tell */
    has_not(told.text, "pieces measure");
}

/* By hand: a waist of 66 is half way, where 68 are on the pieces, and a hip of 92 is drawn with 98. */
static void the_pieces_of_both_sizes_and_the_one_between_are_measured(void **state)
{
    struct room *room = *state;
    struct told told = report_on_pieces(room, "6", 66, false);
    const char *sides = strstr(told.text, "Side by side:\n");
    assert_non_null(sides);
    assert_string_equal(row_behind(room, sides, "waist", "  on pieces"), " on pieces 66 cm 68 cm 70 cm");
    assert_string_equal(row_behind(room, sides, "waist", "  ease"), " ease 0 cm 2 cm 4 cm");
    assert_string_equal(row_behind(room, sides, "hip", "  on pieces"), " on pieces 96 cm 98 cm 100 cm");
}

/* Her own hip of 95 and 6; what is given for the size is not what is sewn. */
static void a_garment_fitted_to_the_body_has_the_ease_of_its_pieces(void **state)
{
    struct room *room = *state;
    struct told told = report_on_pieces(room, "6", 68, true);
    assert_string_equal(row(room, told.text, "hip"), "hip 95 cm 94 cm +1 cm 14 101 cm 6 cm 6 cm");
    has_not(told.text, "finished");
    has(told.json, "\"on_pieces_mm\": 1010,\n      \"ease_mm\": 60,");
}

/* By hand: a waist of 66 lies half way between two sizes, but hers has 66 and 2. */
static void a_garment_made_to_the_body_is_of_no_size(void **state)
{
    struct room *room = *state;
    struct told told = report_on_pieces(room, "6", 66, true);
    assert_ptr_equal(strstr(told.text, "Made to your measurements."), told.text);
    assert_string_equal(row(room, told.text, "waist"), "waist 66 cm 68 cm -2 cm 12 or 14 68 cm 2 cm 2 cm");
    has_not(told.text, "--size");
    has_not(told.text, "Side by side");
    has_not(told.json, "between_this_and");
    has_not(told.json, "between_the_two");
    has_not(report_on_pieces(room, "6", 66, false).text, "Made to");
}

/* What is given for the size is not hers, and nobody measures the pieces. */
static void what_is_given_for_a_size_is_not_told_of_who_is_fitted(void **state)
{
    struct room *room = *state;
    static const struct draft_alteration longer = { DRAFT_LENGTHEN, "none", PATTERN_NONE, 10 };
    static const double none_mm[16];
    const struct draft_figure fitted[] = { { .position = 1, .cup_group = 1, .body_mm = none_mm },
                                           { .position = 1, .cup_group = 1, .level_position = none_mm },
                                           { .position = 1, .cup_group = 1, .alterations = &longer, 1 } };
    const char *measurements = "'upper bust': 84, 'bust': 93.5, 'waist': 67";
    for (int i = 0; i < 3; i++) {
        struct told told =
            report_for(room, "'bust': 8", "cm", UNITS_CM, measurements, PATTERN_NONE, PATTERN_NONE, &fitted[i]);
        assert_string_equal(row(room, told.text, "bust"), "bust 93.5 cm 93 cm +0.5 cm 14 8 cm");
        assert_string_equal(row(room, told.text, "waist"), "waist 67 cm 68 cm -1 cm 12 or 14");
        has_not(told.text, "finished");
        has_not(told.json, "finished_mm");
        has_not(told.json, "\"ease_mm\"");
    }
}

/* Between 12 and 14; what the blend measures is beside neither. */
static void a_blend_is_compared_with_no_size(void **state)
{
    struct room *room = *state;
    static const double levels[16];
    struct draft_figure blend = { .position = 0, .cup_group = 1, .level_position = levels };
    const char *measurements = "'upper bust': 81.5, 'bust': 87.2, 'waist': 65";
    struct told told =
        report_for(room, "'bust': 8", "cm", UNITS_CM, measurements, PATTERN_NONE, PATTERN_NONE, &blend);
    has(told.text, "You are between size 12 (80 cm) and size 14 (84 cm).");
    has_not(told.text, "Side by side");
    has_not(told.json, "between_this_and");
    has_not(told.json, "between_the_two");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(what_the_pieces_measure_stands_beside_what_is_given),
        room_test(the_pieces_of_both_sizes_and_the_one_between_are_measured),
        room_test(a_garment_fitted_to_the_body_has_the_ease_of_its_pieces),
        room_test(a_garment_made_to_the_body_is_of_no_size),
        room_test(what_is_given_for_a_size_is_not_told_of_who_is_fitted),
        room_test(a_blend_is_compared_with_no_size),
        room_test(a_row_shows_body_chart_difference_finished_and_ease),
        room_test(between_two_sizes_all_three_are_shown_with_their_finished_measurements),
        room_test(a_garment_smaller_than_the_body_is_called_so_where_it_is_not_meant_to_be),
        room_test(what_rests_on_an_estimate_or_a_question_says_so),
        room_test(what_she_chose_herself_is_called_so),
        room_test(in_inches_every_number_is_one_that_a_tape_has),
        room_test(a_body_in_centimetres_is_reported_in_inches_where_they_are_asked_for),
        room_test(an_upper_bust_far_above_the_bust_is_questioned),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
