/* Values, formulas, constructed points and curves of a pattern for a figure. Expected values are worked out by hand
 * from textbook plane geometry beside each row, no other source. */
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

#define MM 1e-9

/* A pattern in cm of two sizes with one square piece of 10 cm and more of its own: values, points, curves. */
static const char *text_of(struct room *room, const char *values, const char *points, const char *curves)
{
    return room_json(
        room,
        base_arena_print(room->a,
                         "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['S', 'L'],\n"
                         "  'chart': { 'hip': [90, 100], 'waist girth': [70, 80] }, 'main_measurement': 'hip',\n"
                         "  'measurements': ['knee'], 'values': { 'ease': 4, 'ratio': 1.5%s },\n"
                         "  'pieces': [ { 'name': 'p', 'points': { 'o': [0, 0], 'e': [10, 0], 'ne': [10, 10],\n"
                         "  'n': [0, 10]%s },\n  'outline': [ { 'name': 'low', 'path': ['o', 'e'] },\n"
                         "  { 'name': 'out', 'path': ['e', 'ne'] }, { 'name': 'top', 'path': ['ne', 'n'] },\n"
                         "  { 'name': 'in', 'path': ['n', 'o'] } ], 'curves': [%s] } ],\n"
                         "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }",
                         values, points, curves));
}

static const struct pattern *read_text(struct room *room, const char *json)
{
    return pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
}

/* The pattern at half way between its sizes: hip 95 cm, waist girth 75 cm. */
static const struct draft_sized *size_of(struct room *room, const char *values, const char *points, const char *curves)
{
    const struct pattern *p = read_text(room, text_of(room, values, points, curves));
    room_nothing_told(room);
    assert_non_null(p);
    const struct draft_sized *sized = size_at(room->a, p, 0.5, PATTERN_NONE, room->errs);
    room_nothing_told(room);
    assert_true(sized->pieces[0].is_sound);
    return sized;
}

static vec2 place_of(const struct draft_sized *sized, const char *point)
{
    return sized->pieces[0].points[pattern_find_point(&sized->pattern->pieces[0], point)];
}

static struct geometry_path curve_of(const struct draft_sized *sized, const char *curve)
{
    return sized->pieces[0].edge_paths[pattern_find_edge_or_curve(&sized->pattern->pieces[0], curve)];
}

static void a_formula_reckons_in_the_files_unit_and_in_degrees(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *formula;
        double mm;
    } rows[] = {
        { "hip / 4 + 1.5", 252.5 },
        { "hip / 4 + 1.5 cm", 252.5 },
        { "hip / 4 + 15mm", 252.5 },
        { "waist girth - ease", 710 },
        { "ease * ratio", 60 },
        { "1 1/2 in + 5/8 in", 38.1 + 15.875 },
        { "5/8 in * 2", 31.75 },
        { "8/2", 40 },
        { "7 - 2 - 1", 40 },
        { "12 / 3 / 2", 20 },
        { "-(2 + 3) * -2", 100 },
        { "2 + 3 * 4", 140 },
        { "--3", 30 },
        { "min(7, 3, 5) + max(1, 2)", 50 },
        { "abs(-2.5)", 25 },
        { "sqrt(9)", 30 },
        { "10 * sin(30)", 50 },
        { "10 * cos(60)", 50 },
        { "10 * tan(45)", 100 },
        { "atan2(1, 1)", 450 },
        { "hypot(3, 4)", 50 },
        { "floor(2.7) + ceil(2.2)", 50 },
        { "length(top)", 100 },
        { "length(p.out) / 2", 50 },
        { "x(ne) + y(p.n)", 200 },
        { "distance(o, ne)", 141.4213562373095 },
        { "angle(o, ne)", 450 },
        { "angle(ne, o)", -1350 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct draft_sized *sized =
            size_of(room, "", base_arena_print(room->a, ", 'q': ['%s', 0]", rows[i].formula), "");
        if (!(fabs(place_of(sized, "q").x - rows[i].mm) < MM))
            fail_msg("%s came to %.12g, not %.12g", rows[i].formula, place_of(sized, "q").x, rows[i].mm);
    }
}

/* A dart half as wide as a at its mouth, l long: it takes 2 atan(a / l) out, its legs are sqrt(a^2 + l^2) long. */
static void a_darts_angle_and_legs_are_reckoned(void **state)
{
    struct room *room = *state;
    static const struct {
        double a, l, angle, leg;
    } rows[] = { { 1, 10, 11.4212, 10.0499 }, { 1.5, 9, 18.9246, 9.1241 }, { 1.25, 12, 11.8937, 12.0649 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *points = base_arena_print(room->a,
                                              ", 'in': [%g, 0], 'out': [%g, 0], 'apex': [5, %g],\n"
                                              "  'q': ['angle(apex, out) - angle(apex, in)', 'distance(in, apex)']",
                                              5 - rows[i].a, 5 + rows[i].a, rows[i].l);
        vec2 q = place_of(size_of(room, "", points, ""), "q");
        assert_near(q.x / 10, rows[i].angle, 0.0001);
        assert_near(q.y / 10, rows[i].leg, 0.0001);
    }
}

static void named_values_rest_on_one_another_in_any_order(void **state)
{
    const struct draft_sized *sized =
        size_of(*state, ", 'quarter': 'hip / 4 + own', 'own': [1, 2]", ", 'q': ['quarter', 'own']", "");
    assert_near(place_of(sized, "q").x, 252.5, MM); /* 95 / 4 + 1.5 cm */
    assert_near(place_of(sized, "q").y, 15, MM);
}

static void points_are_constructed_as_in_plane_geometry(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *point;
        double x, y;
    } rows[] = {
        { "{ 'from': 'e', 'by': [1, -2] }", 110, -20 },
        { "{ 'from': 'o', 'angle': 30, 'at': 10 }", 86.60254037844386, 50 },
        { "{ 'from': 'o', 'towards': 'ne', 'at': 'sqrt(2)' }", 10, 10 },
        { "{ 'from': 'o', 'towards': 'ne', 'share': 0.25 }", 25, 25 },
        { "{ 'on': 'out', 'at': 3 }", 100, 30 },
        { "{ 'on': 'out', 'from_end': 3 }", 100, 70 },
        { "{ 'on': 'out', 'at': 3, 'beside': 1 }", 90, 30 }, /* up the edge, its left is inside */
        { "{ 'line': ['o', 'ne'], 'meets': ['n', 'e'] }", 50, 50 },
        { "{ 'edge': 'top', 'meets': ['o', 'b'] }", 50, 100 },
        { "{ 'foot_of': 'e', 'line': ['o', 'ne'] }", 50, 50 },
        { "{ 'turn': 'e', 'about': 'o', 'angle': 90 }", 0, 100 },
        { "{ 'mirror': 'e', 'line': ['o', 'ne'] }", 0, 100 },
        { "{ 'from': 'o', 'reach': 12.5, 'line': ['n', 'ne'] }", 75, 100 }, /* 7.5, 10, 12.5 */
        { "{ 'same': 'p.ne' }", 100, 100 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *points = base_arena_print(room->a, ", 'b': [5, 10], 'q': %s", rows[i].point);
        vec2 q = place_of(size_of(room, "", points, ""), "q");
        if (!(fabs(q.x - rows[i].x) < MM && fabs(q.y - rows[i].y) < MM))
            fail_msg("%s came to %.9g, %.9g", rows[i].point, q.x, q.y);
    }
}

static void an_arc_keeps_its_radius_and_brings_its_end(void **state)
{
    const struct draft_sized *sized =
        size_of(*state, "", "", "{ 'name': 'c', 'path': ['e', { 'centre': 'o', 'angle': 270, 'end': 'f' }] }");
    struct geometry_path c = curve_of(sized, "c");
    assert_near(place_of(sized, "f").x, 0, MM);
    assert_near(place_of(sized, "f").y, -100, MM);
    for (size_t i = 0; i < c.count; i++)
        assert_near(vec2_length(c.points[i]), 100, 1e-6);
    assert_near(geometry_path_length(c), 471.23889803846896, 0.03); /* 3/2 pi r, less what chords of 0.01 mm lose */
}

/* Beside an arc of 10 cm, towards its centre and away from it, at its ends and its middle: on the ray through each. */
static void a_point_beside_a_curve_is_square_to_it(void **state)
{
    const struct draft_sized *sized =
        size_of(*state, "",
                ", 'q': { 'on': 'c', 'at': 0, 'beside': 6 }, 'r': { 'on': 'c', 'from_end': 0, 'beside': -6 }, "
                "'m': { 'on': 'c', 'at': 'length(c) / 2', 'beside': 6 }",
                "{ 'name': 'c', 'path': ['e', { 'centre': 'o', 'angle': 90, 'end': 'f' }] }");
    assert_near(place_of(sized, "q").x, 40, MM);
    assert_near(place_of(sized, "q").y, 0, MM);
    assert_near(place_of(sized, "r").x, 0, 1e-6);
    assert_near(place_of(sized, "r").y, 160, 1e-6);
    assert_near(place_of(sized, "m").x, 28.2843, 0.01); /* 4 cm under 45 degrees */
    assert_near(place_of(sized, "m").y, 28.2843, 0.01);
}

static void a_curve_with_kept_tangents_leaves_and_arrives_as_told(void **state)
{
    const struct draft_sized *sized = size_of(*state, "", "",
                                              "{ 'name': 'c', 'path': ['o', { 'leave': 0, 'arrive': "
                                              "'angle(e, ne)', 'pull': [0.4, 0.3], 'end': 'ne' }] }");
    struct geometry_path c = curve_of(sized, "c");
    vec2 first = vec2_unit(vec2_sub(c.points[1], c.points[0]));
    vec2 last = vec2_unit(vec2_sub(c.points[c.count - 1], c.points[c.count - 2]));
    assert_near(first.x, 1, 1e-3);
    assert_near(last.y, 1, 1e-3);
    /* By Bernstein's weights at one half: (0 + 3 (56.5685, 0) + 3 (100, 57.5736) + (100, 100)) / 8. */
    double along;
    assert_true(geometry_path_distance(c, (vec2){ 71.2132, 34.0901 }, &along) < 0.02);
}

/* The natural cubic spline through (0, 0), (1, 1), (2, 0) with equal steps has its middle tangent level and ends that
 * do not curve: along x at 0.5 it stands at y = 1.5 t - 0.5 t^3 with t = 0.5 of the step: 0.6875. */
static void a_curve_through_points_is_the_natural_spline(void **state)
{
    const struct draft_sized *sized =
        size_of(*state, "", ", 'm': [1, 1], 'r': [2, 0]", "{ 'name': 'c', 'path': ['o', { 'through': ['m', 'r'] }] }");
    double along;
    struct geometry_path c = curve_of(sized, "c");
    assert_true(geometry_path_distance(c, (vec2){ 5, 6.875 }, &along) < 0.02);
    assert_true(geometry_path_distance(c, (vec2){ 10, 10 }, &along) < 1e-9);
}

static void an_edge_is_followed_beside_and_backwards(void **state)
{
    const struct draft_sized *sized =
        size_of(*state, "", ", 'f': { 'on': 'out', 'at': 0, 'beside': 2 }, 'g': { 'on': 'out', 'at': 8, 'beside': 2 }",
                "{ 'name': 'c', 'path': ['g', { 'along': 'out', 'beside': 2, 'backwards': true, 'end': 'f' }] }");
    assert_near(geometry_path_length(curve_of(sized, "c")), 80, 1e-6);
    assert_near(curve_of(sized, "c").points[0].x, 80, 1e-6);
}

/* What a body has not, the chart gives. */
static void formulas_read_the_persons_own_figures(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_text(room, text_of(room, "", ", 'q': ['hip', 'waist girth'], 'k': ['knee', 0]", ""));
    room_nothing_told(room);
    const double body[] = { 1030, 0, 450 };
    struct draft_figure figure = draft_figure_at(0, PATTERN_NONE);
    figure.body_mm = body;
    const struct draft_sized *sized = draft_size(room->a, p, &figure, room->errs);
    room_nothing_told(room);
    assert_near(place_of(sized, "q").x, 1030, MM);
    assert_near(place_of(sized, "q").y, 700, MM);
    assert_near(place_of(sized, "k").x, 450, MM);
}

/* Each by itself, told once. */
static void what_has_no_answer_is_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *values, *points, *code, *said; /* part of the second argument */
    } rows[] = {
        { ", 'a': 'b + 1', 'b': 'a'", "", NULL, NULL }, /* nobody asks for them */
        { ", 'a': 'b + 1', 'b': 'a'", ", 'q': ['a', 0]", "draft.cycle", "a → b → a" },
        { "", ", 'q': ['x(r)', 0], 'r': { 'from': 'q', 'by': [1, 0] }", "draft.cycle", "p.q → p.r → p.q" },
        { "", ", 'q': ['1 / (ease - 4)', 0]", "pattern.divides_by_zero", NULL },
        { "", ", 'q': ['sqrt(0 - ease)', 0]", "pattern.no_root", NULL },
        { "", ", 'q': ['tan(90)', 0]", "pattern.no_tangent", NULL },
        { "", ", 'q': ['knee', 0]", "draft.no_figure", NULL },
        { ", 'a': 'knee'", ", 'q': ['a', 0], 'r': ['a + 1', 0]", "draft.no_figure", NULL },
        { "", ", 'q': ['hip * hip', 0]", NULL, NULL },
        { "", ", 'q': ['hip * hip * hip', 0]", "pattern.too_large", NULL },
        { "", ", 'q': { 'line': ['o', 'e'], 'meets': ['n', 'ne'] }", "draft.no_meeting", NULL },
        { "", ", 'q': { 'on': 'out', 'at': 11 }", "draft.point_off_edge", NULL },
        { "", ", 'q': { 'from': 'o', 'reach': 5, 'line': ['n', 'ne'] }", "draft.out_of_reach", NULL },
        { "", ", 'r': [0, 0], 'q': { 'from': 'o', 'towards': 'r', 'at': 5 }", "draft.no_way", NULL },
        { "", ", 'r': [0, 8], 's': [9, 8], 'q': { 'edge': 'low', 'meets': ['r', 's'] }", "draft.no_crossing", NULL },
        { ", 'a': 'a'", ", 'q': ['a', 0]", "draft.cycle", "a → a" },
        { "", ", 'q': { 'same': 'q' }", "draft.cycle", "p.q → p.q" },
        /* 0.00001 / 10 cm off parallel: they meet 10 / 1e-6 cm = 100 km out */
        { "", ", 'r': [10, 9.99999], 'q': { 'line': ['o', 'e'], 'meets': ['n', 'r'] }", "draft.far_away", NULL },
        { "", ", 'r': [10, 9.99999999999], 'q': { 'line': ['o', 'e'], 'meets': ['n', 'r'] }", "draft.no_meeting",
          NULL },
        { "", ", 'q': { 'from': 'o', 'towards': 'e', 'share': 1001 }", "draft.far_away", NULL }, /* of 10 cm */
        { "", ", 'q': { 'from': 'e', 'angle': 0, 'at': '99.95 m' }", "draft.far_away", NULL },
        { "", ", 'q': { 'from': 'e', 'angle': 1000, 'at': '99.95 m' }", NULL, NULL },
        { "", ", 'q': { 'from': 'o', 'angle': 'hip * hip * 200', 'at': 1 }", "pattern.too_large", NULL },
        { "", ", 'q': ['sin(999999999999 * 999999999999)', 0]", "pattern.too_large", NULL },
        { "", ", 'q': ['sin(99999999999)', 0]", NULL, NULL },
        { "", ", 'r': [0, 0], 's': { 'on': 'in', 'at': 0, 'beside': '100 m' }", NULL,
          NULL }, /* 100 m up the left of it */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct pattern *p = read_text(room, text_of(room, rows[i].values, rows[i].points, ""));
        room_nothing_told(room);
        size_at(room->a, p, 0, PATTERN_NONE, room->errs);
        if (!rows[i].code) {
            room_nothing_told(room);
            continue;
        }
        const struct err *told = room_only_told(room, rows[i].code);
        assert_true(told->place.line > 0);
        if (rows[i].said)
            assert_string_equal(told->args[1].text, rows[i].said);
        room_forget(room);
    }
}

/* One curve by itself, told once. */
static void a_curve_without_a_way_is_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *points, *curve, *code;
    } rows[] = {
        { "", "['o', { 'centre': 'o', 'angle': 90, 'end': 'f' }]", "draft.no_radius" },
        { "", "['e', { 'centre': 'o', 'angle': 3601, 'end': 'f' }]", "draft.far_turn" },
        { "", "['e', { 'centre': 'o', 'angle': 0, 'end': 'f' }]", NULL },
        { ", 'r': ['99 m', 0], 's': ['-99 m', 0]", "['r', { 'centre': 's', 'angle': 90, 'end': 'f' }]",
          "draft.far_away" }, /* where it ends: 198 m up */
        { ", 'r': ['99 m', 0], 's': ['-99 m', 0]", "['r', { 'centre': 's', 'angle': 360, 'end': 'f' }]",
          "draft.far_curve" }, /* on its way */
        { "", "['o', { 'leave': 0, 'arrive': 0, 'pull': [2000, 1], 'end': 'e' }]", "draft.far_curve" },
        { "", "['o', { 'leave': 'angle(o, ne) * 1e', 'arrive': 0, 'end': 'e' }]", "pattern.formula" },
        { "", "['o', { 'leave': 0, 'arrive': 'hip * hip * hip', 'end': 'e' }]", "pattern.too_large" },
        { ", 'r': [10, 0]", "['o', { 'through': ['e', 'r', 'o', 'e'], 'leave': 99999, 'arrive': -99999 }]", NULL },
        { ", 'r': ['99 m', 0], 's': ['99 m', '99 m']", "['o', { 'through': ['r', 's'] }]", "draft.far_curve" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *curve = base_arena_print(room->a, "{ 'name': 'c', 'path': %s }", rows[i].curve);
        const struct pattern *p = read_text(room, text_of(room, "", rows[i].points, curve));
        if (p)
            size_at(room->a, p, 0, PATTERN_NONE, room->errs);
        if (rows[i].code)
            assert_true(room_only_told(room, rows[i].code)->place.line > 0);
        else
            room_nothing_told(room);
        room_forget(room);
    }
}

/* The way along an edge that has come down to one place. */
static void what_lies_along_or_beside_an_edge_without_length_is_told(void **state)
{
    struct room *room = *state;
    const char *dot = ", 'd': [3, 3], 'd2': [3, 3]%s";
    const char *curves = "{ 'name': 'k', 'path': ['d', 'd2'] }%s";
    const char *beside = base_arena_print(room->a, dot, ", 'q': { 'on': 'k', 'at': 0, 'beside': 1 }");
    size_at(room->a, read_text(room, text_of(room, "", beside, base_arena_print(room->a, curves, ""))), 0, PATTERN_NONE,
            room->errs);
    room_only_told(room, "draft.no_side");
    room_forget(room);
    const char *along =
        base_arena_print(room->a, curves, ", { 'name': 'c', 'path': ['o', { 'along': 'k', 'end': 'e' }] }");
    size_at(room->a, read_text(room, text_of(room, "", base_arena_print(room->a, dot, ""), along)), 0, PATTERN_NONE,
            room->errs);
    room_only_told(room, "draft.nothing_along");
}

/* 2 to the power of 60 ways to the first of them, but each is worked out once. */
static void values_that_use_the_one_before_twice_take_no_time(void **state)
{
    struct room *room = *state;
    const char *values = ", 'v0': 1";
    for (int i = 1; i <= 60; i++)
        values = base_arena_print(room->a, "%s, 'v%d': 'v%d + v%d - v%d'", values, i, i - 1, i - 1, i - 1);
    const char *points = ", 'p0': [1, 0]";
    for (int i = 1; i <= 60; i++)
        points = base_arena_print(room->a, "%s, 'p%d': ['x(p%d) + x(p%d) - 1', 'length(k%d) + length(k%d)']", points, i,
                                  i - 1, i - 1, i - 1, i - 1);
    const char *curves = "{ 'name': 'k0', 'path': ['p0', 'p0'] }";
    for (int i = 1; i <= 60; i++)
        curves = base_arena_print(room->a, "%s, { 'name': 'k%d', 'path': ['p%d', 'p%d'] }", curves, i, i - 1, i);
    points = base_arena_print(room->a, "%s, 'q': ['v60', 0]", points);
    const struct draft_sized *sized = size_of(room, values, points, curves);
    assert_near(place_of(sized, "q").x, 10, MM);
    assert_near(place_of(sized, "p60").x, 10, MM);
}

/* Each size its own formula or number, in any mix. Half way between the sizes both are reckoned there, where hip is 95
 * cm and the waist girth 75: half of the one and half of the other. Hand-worked. */
static void a_list_has_a_formula_or_a_number_for_each_size(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *list;
        double mm[3]; /* in the first size, half way, in the second */
    } rows[] = {
        { "['hip / 4', 30]", { 225, 268.75, 300 } }, /* (23.75 + 30) / 2 */
        { "['10 in', 'hip - waist girth']", { 254, 227, 200 } },
        { "['hip / 2', 'hip / 4']", { 450, 356.25, 250 } }, /* (47.5 + 23.75) / 2; of the sizes' own 450 and 250: 350 */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *json = text_of(room, "", base_arena_print(room->a, ", 'q': [%s, 0]", rows[i].list), "");
        const struct pattern *p = read_text(room, json);
        room_nothing_told(room);
        for (int at = 0; at < 3; at++)
            assert_near(place_of(size_at(room->a, p, at / 2.0, PATTERN_NONE, room->errs), "q").x, rows[i].mm[at], MM);
        room_nothing_told(room);
    }
}

/* A fault in one size's formula is none of the other's. */
static void a_size_alone_may_have_no_answer(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_text(room, text_of(room, "", ", 'q': [['1 / (ease - 4)', 'hip / 4'], 0]", ""));
    room_nothing_told(room);
    assert_near(place_of(size_at(room->a, p, 1, PATTERN_NONE, room->errs), "q").x, 250, MM);
    room_nothing_told(room);
    size_at(room->a, p, 0, PATTERN_NONE, room->errs);
    room_only_told(room, "pattern.divides_by_zero");
}

/* A count by a formula is a whole number from 1 to 999, or told. */
static void a_count_that_is_none_is_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *formula;
        int count; /* 0: told */
    } rows[] = { { "ceil(hip / 20)", 5 }, { "2 * 1.5", 3 }, { "hip / 20", 0 },
                 { "1 - 1", 0 },          { "500 * 2", 0 }, { "0.1 * 30", 3 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *json = text_of(room, "", "", "");
        const char *at = strstr(json, "\"count\": 1");
        const char *text = base_arena_print(room->a, "%.*s\"count\": \"%s\"%s", (int)(at - json), json, rows[i].formula,
                                            at + strlen("\"count\": 1"));
        const struct pattern *p = read_text(room, text);
        room_nothing_told(room);
        struct draft draft;
        bool ok = make_at_size(room->a, p, 0, PATTERN_NONE, 0, &draft, room->errs);
        assert_int_equal(ok, rows[i].count > 0);
        if (ok)
            assert_int_equal(draft.cuts[0].count, rows[i].count);
        else
            room_only_told(room, "draft.no_count");
        room_forget(room);
    }
}

/* Edges stand on the way like points, and it is told where its formula is written, or else where the first point is. */
static void a_circle_is_told_with_its_edges(void **state)
{
    struct room *room = *state;
    static const char *const points[] = { ", 'r': { 'on': 'k', 'at': 1 }, 'q': { 'from': 'r', 'by': [1, 0] }",
                                          ", 'r': { 'on': 'k', 'at': 1 }, 'q': ['x(r) / 2', 0]" };
    static const char *const places[] = { "pieces[0].points.r", "pieces[0].points.q[0]" };
    for (int i = 0; i < 2; i++) {
        const struct pattern *p = read_text(room, text_of(room, "", points[i], "{ 'name': 'k', 'path': ['q', 'e'] }"));
        room_nothing_told(room);
        size_at(room->a, p, 0, PATTERN_NONE, room->errs);
        const struct err *e = room_only_told_at(room, "draft.cycle", places[i]);
        assert_string_equal(e->args[1].text, "p.r → p.k → p.q → p.r");
        room_forget(room);
    }
}

/* Rectangles as wide as the next one's top is long, the last as the first one's. Their corners have no names of their
 * own; of a long circle beginning and end are told. */
static void a_circle_of_rectangles_is_told_by_their_edges(void **state)
{
    struct room *room = *state;
    static const struct {
        int count;
        const char *way;
    } rows[] = {
        { 1, "p0.top → p0.top" },
        { 2, "p1.top → p0.top → p1.top" },
        { 400, "p1.top → p2.top → p3.top → … → p398.top → p399.top → p0.top → p1.top" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *pieces = "";
        for (int n = 0; n < rows[i].count; n++)
            pieces = base_arena_print(room->a,
                                      "%s%s{ 'name': 'p%d', 'rectangle': { 'width': 'length(p%d.top)', 'height': 5 } }",
                                      pieces, n ? ", " : "", n, (n + 1) % rows[i].count);
        const char *text = base_arena_print(room->a,
                                            "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm',"
                                            "  'sizes': ['S'], 'chart': { 'hip': [90] }, 'main_measurement': 'hip',"
                                            "  'pieces': [ %s ], 'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p0',"
                                            "  'count': 1 } ] } ] }",
                                            pieces);
        const struct pattern *p = read_text(room, room_json(room, text));
        room_nothing_told(room);
        size_at(room->a, p, 0, PATTERN_NONE, room->errs);
        const char *place = rows[i].count == 1 ? "pieces[0].rectangle.width" : "pieces[1].rectangle.width";
        assert_string_equal(room_only_told_at(room, "draft.cycle", place)->args[1].text, rows[i].way);
        room_forget(room);
    }
}

/* A chain of points longer than the stack should hold. */
static void a_chain_without_end_is_told(void **state)
{
    struct room *room = *state;
    const char *points = ", 'q0': [0, 0]";
    for (int i = 1; i <= 1600; i++)
        points =
            base_arena_print(room->a, "%s, 'q%d': { 'from': 'q%d', 'by': [0, 0] }", points, 1600 - i + 1, 1600 - i);
    const struct pattern *p = read_text(room, text_of(room, "", points, ""));
    room_nothing_told(room);
    size_at(room->a, p, 0, PATTERN_NONE, room->errs);
    assert_true(base_err_list_has(room->errs, "draft.too_deep"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_formula_reckons_in_the_files_unit_and_in_degrees),
        room_test(a_list_has_a_formula_or_a_number_for_each_size),
        room_test(a_size_alone_may_have_no_answer),
        room_test(a_darts_angle_and_legs_are_reckoned),
        room_test(named_values_rest_on_one_another_in_any_order),
        room_test(points_are_constructed_as_in_plane_geometry),
        room_test(an_arc_keeps_its_radius_and_brings_its_end),
        room_test(a_point_beside_a_curve_is_square_to_it),
        room_test(a_curve_with_kept_tangents_leaves_and_arrives_as_told),
        room_test(a_curve_through_points_is_the_natural_spline),
        room_test(an_edge_is_followed_beside_and_backwards),
        room_test(formulas_read_the_persons_own_figures),
        room_test(what_has_no_answer_is_told),
        room_test(a_curve_without_a_way_is_told),
        room_test(what_lies_along_or_beside_an_edge_without_length_is_told),
        room_test(values_that_use_the_one_before_twice_take_no_time),
        room_test(a_count_that_is_none_is_told),
        room_test(a_circle_is_told_with_its_edges),
        room_test(a_circle_of_rectangles_is_told_by_their_edges),
        room_test(a_chain_without_end_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
