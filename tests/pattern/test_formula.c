/* Texts of formulas, constructions of points and steps of paths that are wrong: each is told once, at its line, with
 * what to do. What is right, tests/draft/test_sized.c evaluates. Expected: the grammar in pattern/formula.h and the
 * tables of DEVELOPERS.md, no other source. */
#include "pattern/read.h"
#include "support/room.h"

enum { LINE = 7 }; /* where what is tried stands */

/* What is tried stands on a line of its own in the piece "p". */
static const struct pattern *parse(struct room *room, const char *tried)
{
    const char *text = base_arena_print(
        room->a,
        "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['S', 'L'],\n"
        "  'chart': { 'hip': [90, 100], 'waist girth': [70, 80], 'Hüfte': [90, 99], 'dart x1': [2, 3] },\n"
        "  'main_measurement': 'hip', 'measurements': ['knee height'], 'values': { 'ease': 4, 'own': 1 },\n"
        "  'pieces': [ { 'name': 'back', 'points': { 'a': [0, 0], 'b': [9, 0], 'c': [0, 9] }, 'outline': [\n"
        "    { 'name': 'hem', 'path': ['a', 'b', 'c', 'a'] } ] },\n"
        "    { 'name': 'p', 'values': { 'own': 2 },\n"
        "%s\n"
        "    , 'outline': [ { 'name': 'low', 'path': ['o', 'e'] }, { 'name': 'out', 'path': ['e', 'n', 'o'] } ] } ],\n"
        "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }",
        tried);
    const char *json = room_json(room, text);
    return pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
}

static const struct pattern *parse_points(struct room *room, const char *more)
{
    return parse(room, base_arena_print(room->a, "'points': { 'o': [0, 0], 'e': [9, 0], 'n': [0, 9], %s }", more));
}

static const struct pattern *parse_formula(struct room *room, const char *formula)
{
    return parse_points(room, base_arena_print(room->a, "'q': ['%s', 0]", formula));
}

static bool said_somewhere(const struct err *told, const char *part)
{
    for (int i = 0; part && i < ERR_ARGS; i++)
        if (told->args[i].type == ERR_ARG_TEXT && told->args[i].text && strstr(told->args[i].text, part))
            return true;
    return !part;
}

/* Whether just that was told, at the line of what is tried; prints what it was about when not. */
static bool was_told(struct room *room, const struct pattern *p, const char *tried, const char *code, const char *said)
{
    const struct err *told = &room->errs->items[0];
    bool right = !p && room->errs->count == 1 && strcmp(told->kind->code, code) == 0 && told->place.line == LINE &&
                 told->place.path && said_somewhere(told, said);
    if (!right) {
        print_error("%s: wanted only %s, saying “%s”\n", tried, code, said ? said : "");
        room_print_told(room);
        for (int i = 0; room->errs->count && i < ERR_ARGS; i++)
            print_error("  {%d} %s\n", i, told->args[i].text ? told->args[i].text : "");
    }
    room_forget(room);
    return right;
}

static void a_wrong_formula_is_told_once_with_what_to_do(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *formula, *code, *said;
    } rows[] = {
        { "", "pattern.formula_empty", NULL },
        { "  ", "pattern.formula_empty", NULL },
        { "hips / 4", "pattern.formula_name", "did you mean “hip”?" },
        { "waist_girth", "pattern.formula_name", "did you mean “waist girth”?" },
        { "waist  girth", "pattern.formula_name", NULL }, /* two spaces: the name ends at the first */
        { "Hufte", "pattern.formula_name", "did you mean “Hüfte”?" },
        { "eas + 1", "pattern.formula_name", "did you mean “ease”?" },
        { "shoulder", "pattern.formula_name", "list it under" },
        { "x", "pattern.formula_name", NULL }, /* a function without its bracket */
        { "sqr(9)", "pattern.formula_function", "did you mean “sqrt”?" },
        { "sine(30)", "pattern.formula_function", "did you mean “sin”?" },
        { "round(2.5)", "pattern.formula_function", "floor" }, /* all are listed */
        { "hip (3)", "pattern.formula_function", "write *" },
        { "min 3", "pattern.formula_name", NULL },
        { "(hip + 1", "pattern.formula", "“)” is missing" },
        { "sqrt(9", "pattern.formula", "“)” is missing" },
        { "length(low", "pattern.formula", "“)” is missing" },
        { "hip + 1)", "pattern.formula", "no “(”" },
        { "hip +", "pattern.formula", "missing there" },
        { "hip + ()", "pattern.formula", "missing before it" },
        { "hip * / 2", "pattern.formula", "missing before it" },
        { "* 2", "pattern.formula", "missing before it" },
        { "sqrt()", "pattern.formula", "missing before it" },
        { "min(1,)", "pattern.formula", "missing before it" },
        { "min(3)", "pattern.formula", "min takes two numbers or more" },
        { "sqrt(3, 4)", "pattern.formula", "sqrt takes one number" },
        { "atan2(3)", "pattern.formula", "atan2 takes two numbers" },
        { "hypot(3, 4, 5)", "pattern.formula", "hypot takes two numbers" },
        { "distance(o)", "pattern.formula", "second point" },
        { "distance(o, e, n)", "pattern.formula", "comma" },
        { "x(o, e)", "pattern.formula", "comma" },
        { "3 hip", "pattern.formula", "operator is missing" },
        { "3 (hip)", "pattern.formula", "operator is missing" },
        { "(hip) (hip)", "pattern.formula", "operator is missing" },
        { "hip / 3 4.5", "pattern.formula", "operator is missing" },
        { "hip + 1,5", "pattern.formula", "a point" },
        { "hip ^ 2", "pattern.formula", "means nothing" },
        { "hip + 50%", "pattern.formula", "means nothing" },
        { "hip = 3", "pattern.formula", "means nothing" },
        { "hip + 30°", "pattern.formula", "means nothing" },
        { "hip + $", "pattern.formula", "begins like this" },
        { "hip + 1 8/2", "pattern.formula", "operator is missing" }, /* a whole and more than a whole */
        { "hip + 101 m", "pattern.formula", "operator is missing" }, /* farther than any length */
        { "length(side)", "pattern.formula_part", "edge or curve" },
        { "length(lows)", "pattern.formula_part", "did you mean “low”?" },
        { "length(back.hen)", "pattern.formula_part", "did you mean “back.hem”?" },
        { "length(hem)", "pattern.formula_part", "piece.name" }, /* another piece's */
        { "length(o)", "pattern.formula_part", NULL },           /* a point */
        { "length()", "pattern.formula_part", NULL },
        { "length(front.hem)", "pattern.formula_part", NULL },
        { "x(low)", "pattern.formula_part", "point" },
        { "y(back.z)", "pattern.formula_part", "piece.name" },
        { "distance(o, back.low)", "pattern.formula_part", "point" },
        { "angle(nowhere, o)", "pattern.formula_part", "point" },
        { "sqrt(hip", "pattern.formula", "“)” is missing" },
    };
    int wrong = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        wrong += !was_told(room, parse_formula(room, rows[i].formula), rows[i].formula, rows[i].code, rows[i].said);
    assert_int_equal(wrong, 0);
}

static void formulas_are_read_however_they_are_typed(void **state)
{
    struct room *room = *state;
    static const char *const rows[] = {
        "hip/4+5/8 in",
        "hip / 4 + 5/8 in",
        "hip ÷ 4 − 1 × ease · 2",
        "hip / 4 + 1 1/2",
        "hip / 4 + ½ + 1¾ in.",
        "\\n hip\\t/ 4",
        "hip\xc2\xa0/\xe2\x80\xaf"
        "4",
        "Hüfte + waist girth + dart x1 + knee height",
        "own + ease",
        "min(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, "
        "29, "
        "30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 50)",
        "length( back.hem ) + x( q2 ) + length(out)",
        "+-+-3",
        "((((((((((((((((((((((((((((((1))))))))))))))))))))))))))))))",
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct pattern *p =
            parse_points(room, base_arena_print(room->a, "'q': ['%s', 0], 'q2': [1, 1]", rows[i]));
        if (!p)
            print_error("%s\n", rows[i]);
        room_nothing_told(room);
    }
}

static const char *repeated(struct room *room, const char *text, int times)
{
    const char *all = "";
    for (int i = 0; i < times; i++)
        all = base_arena_print(room->a, "%s%s", all, text);
    return all;
}

static void what_is_too_deep_is_told(void **state)
{
    struct room *room = *state;
    const char *brackets = base_arena_print(room->a, "%s1%s", repeated(room, "(", 100), repeated(room, ")", 100));
    const char *waiting = base_arena_print(room->a, "%s1%s", repeated(room, "1 + (", 40), repeated(room, ")", 40));
    const char *calls = base_arena_print(room->a, "%s1%s", repeated(room, "abs(", 100), repeated(room, ")", 100));
    assert_true(
        was_told(room, parse_formula(room, brackets), "brackets", "pattern.formula", "give a part of it a name"));
    assert_true(was_told(room, parse_formula(room, waiting), "waiting", "pattern.formula", "give a part of it a name"));
    assert_true(was_told(room, parse_formula(room, calls), "calls", "pattern.formula", "give a part of it a name"));
    assert_non_null(parse_formula(room, base_arena_print(room->a, "1%s", repeated(room, " + 1 * 2", 1000))));
    assert_non_null(parse_formula(room, base_arena_print(room->a, "%s1", repeated(room, "- ", 1000))));
    const char *sum = base_arena_print(room->a, "1%s", repeated(room, " + 1", 5000)); /* 10001 numbers and operators */
    assert_true(was_told(room, parse_formula(room, sum), "sum", "pattern.formula", "too long"));
    room_nothing_told(room);
}

static void a_value_needs_a_name_that_formulas_can_call(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *name, *code;
    } rows[] = {
        { "hip", "pattern.value_is_figure" }, { "knee height", "pattern.value_is_figure" },
        { "", "pattern.value_name" },         { "hip-ease", "pattern.value_name" },
        { "2nd", "pattern.value_name" },      { "two  spaces", "pattern.value_name" },
        { " first", "pattern.value_name" },   { "last ", "pattern.value_name" },
        { "½", "pattern.value_name" },        { "a.b", "pattern.value_name" },
    };
    int wrong = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *text = base_arena_print(
            room->a,
            "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['S'],\n'chart': { 'hip': "
            "[90] }, 'main_measurement': 'hip',\n'measurements': ['knee height'],\n\n\n\n'values': { '%s': 1 },\n"
            "'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],\n"
            "'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }",
            rows[i].name);
        const char *json = room_json(room, text);
        const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
        wrong += !was_told(room, p, rows[i].name, rows[i].code, NULL);
    }
    assert_int_equal(wrong, 0);
}

/* The row of DEVELOPERS.md's table that is spoilt, and how. */
static void a_wrong_construction_is_told_once(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *point, *code, *said;
    } rows[] = {
        { "{ }", "pattern.point_form", NULL },
        { "{ 'from': 'o' }", "pattern.point_form", NULL },
        { "{ 'from': 'o', 'by': [1] }", "pattern.pair_form", NULL },
        { "{ 'from': 'o', 'by': 1 }", "pattern.pair_form", NULL },
        { "{ 'from': 'o', 'by': [1, 2], 'at': 3 }", "pattern.point_form", NULL },
        { "{ 'from': 'p', 'by': [1, 2] }", "pattern.no_point", "there are o, e, n, q" },
        { "{ 'from': 7, 'by': [1, 2] }", "json.wrong_type", NULL },
        { "{ 'from': 'o', 'angle': 30 }", "pattern.point_form", NULL },
        { "{ 'from': 'o', 'angle': true, 'at': 1 }", "json.wrong_type", NULL },
        { "{ 'from': 'o', 'angle': 1e300, 'at': 1 }", "pattern.large_number", NULL },
        { "{ 'from': 'o', 'angle': [1, 2, 3], 'at': 1 }", "pattern.wrong_count", NULL },
        { "{ 'from': 'o', 'angle': 30, 'at': '1 hip' }", "pattern.formula", NULL },
        { "{ 'from': 'o', 'angle': 30, 'at': 1e9 }", "values.too_long", NULL },
        { "{ 'from': 'o', 'towards': 'ee', 'at': 1 }", "pattern.no_point", "did you mean “e”?" },
        { "{ 'from': 'o', 'towards': 'back.z', 'at': 1 }", "pattern.no_point", "there are a, b, c" },
        { "{ 'from': 'o', 'towards': 'bak.a', 'at': 1 }", "pattern.no_piece_of", "did you mean “back”?" },
        { "{ 'from': 'o', 'towards': 'e', 'at': 1, 'share': 0.5 }", "pattern.point_form", NULL },
        { "{ 'from': 'o', 'towards': 'e', 'share': 'half' }", "pattern.formula_name", NULL },
        { "{ 'from': 'o', 'towards': 'e', 'share': '' }", "pattern.formula_empty", NULL },
        { "{ 'on': 'lo', 'at': 1 }", "pattern.no_edge", "did you mean “low”?" },
        { "{ 'on': 'back.side', 'at': 1 }", "pattern.no_edge", "there are hem" },
        { "{ 'on': ['low'], 'at': 1 }", "json.wrong_type", NULL },
        { "{ 'on': 'low' }", "pattern.point_form", NULL },
        { "{ 'on': 'low', 'at': 1, 'from_end': 1 }", "pattern.point_form", NULL },
        { "{ 'on': 'low', 'from_end': null }", "values.no_length", NULL },
        { "{ 'on': 'low', 'at': 1, 'beside': {} }", "values.no_length", NULL },
        { "{ 'line': ['o', 'e'] }", "pattern.point_form", NULL },
        { "{ 'line': ['o', 'o'], 'meets': ['e', 'n'] }", "pattern.line_points", NULL },
        { "{ 'line': ['o', 'e'], 'meets': ['e'] }", "pattern.line_points", NULL },
        { "{ 'line': 'low', 'meets': ['e', 'n'] }", "pattern.line_points", NULL },
        { "{ 'line': ['o', 'x'], 'meets': ['e', 'n'] }", "pattern.no_point", NULL },
        { "{ 'line': ['p.o', 'o'], 'meets': ['e', 'n'] }", "pattern.line_points", NULL }, /* two ways to write one */
        { "{ 'edge': 'o', 'meets': ['e', 'n'] }", "pattern.no_edge", NULL },
        { "{ 'edge': 'low', 'meets': [] }", "pattern.line_points", NULL },
        { "{ 'foot_of': 'o' }", "pattern.point_form", NULL },
        { "{ 'foot_of': 'o', 'line': [['o'], 'e'] }", "json.wrong_type", NULL },
        { "{ 'turn': 'o', 'about': 'e' }", "pattern.point_form", NULL },
        { "{ 'turn': 'o', 'about': 'e', 'angle': null }", "json.wrong_type", NULL },
        { "{ 'turn': 'o', 'about': '', 'angle': 9 }", "pattern.no_point", NULL },
        { "{ 'mirror': 'o' }", "pattern.point_form", NULL },
        { "{ 'mirror': 'o', 'line': ['e', 'e'] }", "pattern.line_points", NULL },
        { "{ 'from': 'o', 'reach': 9 }", "pattern.point_form", NULL },
        { "{ 'from': 'o', 'reach': -9, 'line': ['e', 'n'] }", "pattern.negative", NULL },
        { "{ 'from': 'o', 'reach': [1, -1], 'line': ['e', 'n'] }", "pattern.negative", NULL },
        { "{ 'same': 'hem' }", "pattern.no_point", NULL },
        { "{ 'same': 'back.hem' }", "pattern.no_point", NULL },
        { "{ 'same': 'e', 'by': [1, 1] }", "pattern.point_form", NULL },
        { "'e'", "pattern.point_form", NULL },
        { "[1, 2, 3]", "pattern.point_form", NULL },
        { "['1 +', 2]", "pattern.formula", NULL },
    };
    int wrong = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct pattern *p = parse_points(room, base_arena_print(room->a, "'q': %s", rows[i].point));
        wrong += !was_told(room, p, rows[i].point, rows[i].code, rows[i].said);
    }
    assert_int_equal(wrong, 0);
}

static void a_wrong_step_is_told_once(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *step, *code, *said;
    } rows[] = {
        { "7", "pattern.step_form", NULL },
        { "{ }", "pattern.step_form", NULL },
        { "{ 'end': 'e' }", "pattern.step_form", NULL },
        { "['e', 'n']", "pattern.step_form", NULL },
        { "['e', 'n', 'z']", "pattern.no_point", NULL },
        { "['e', 7, 'o']", "json.wrong_type", NULL },
        { "'back.a'", "pattern.no_point", NULL }, /* a path runs through its own piece's points */
        { "{ 'centre': 'o', 'end': 'f' }", "json.missing", "angle" },
        { "{ 'centre': 'o', 'angle': 90 }", "json.missing", "end" },
        { "{ 'centre': 'z', 'angle': 90, 'end': 'f' }", "pattern.no_point", NULL },
        { "{ 'centre': 7, 'angle': 90, 'end': 'f' }", "json.wrong_type", NULL },
        { "{ 'centre': 'o', 'angle': 90, 'end': 'e' }", "pattern.arc_end", NULL },
        { "{ 'centre': 'o', 'angle': 90, 'end': 7 }", "json.wrong_type", NULL },
        { "{ 'centre': 'o', 'angle': '9 0', 'end': 'f' }", "pattern.formula", NULL },
        { "{ 'centre': 'o', 'angle': 90, 'end': 'f', 'radius': 3 }", "json.unknown_name", NULL },
        { "{ 'leave': 0, 'end': 'e' }", "pattern.step_form", NULL },
        { "{ 'leave': 0, 'arrive': 0 }", "json.missing", "end" },
        { "{ 'leave': 0, 'arrive': 'up', 'end': 'e' }", "pattern.formula_name", NULL },
        { "{ 'leave': 0, 'arrive': 0, 'pull': 1, 'end': 'e' }", "pattern.pull_form", NULL },
        { "{ 'leave': 0, 'arrive': 0, 'pull': [1], 'end': 'e' }", "pattern.pull_form", NULL },
        { "{ 'leave': 0, 'arrive': 0, 'pull': [1, null], 'end': 'e' }", "json.wrong_type", NULL },
        { "{ 'through': 'e' }", "json.wrong_type", NULL },
        { "{ 'through': [] }", "pattern.through_form", NULL },
        { "{ 'through': ['e', 'z'] }", "pattern.no_point", NULL },
        { "{ 'through': ['e'], 'leave': {} }", "json.wrong_type", NULL },
        { "{ 'through': ['e'], 'end': 'e' }", "json.unknown_name", NULL },
        { "{ 'along': 'z', 'end': 'e' }", "pattern.no_edge", NULL },
        { "{ 'along': 'front.hem', 'end': 'e' }", "pattern.no_piece_of", NULL },
        { "{ 'along': 'low' }", "json.missing", "end" },
        { "{ 'along': 'low', 'end': 'e', 'beside': true }", "values.no_length", NULL },
        { "{ 'along': 'low', 'end': 'e', 'backwards': 1 }", "pattern.yes_or_no", NULL },
        { "{ 'along': 7, 'end': 'e' }", "json.wrong_type", NULL },
    };
    int wrong = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *tried = base_arena_print(room->a,
                                             "'points': { 'o': [0, 0], 'e': [9, 0], 'n': [0, 9] }, 'curves': [ { "
                                             "'name': 'k', 'path': ['n', %s] } ]",
                                             rows[i].step);
        wrong += !was_told(room, parse(room, tried), rows[i].step, rows[i].code, rows[i].said);
    }
    assert_int_equal(wrong, 0);
}

/* 5 cm / 8 in is 5 / 20.32 cm = 2.46 mm; 5/8 in is 15.875 mm (1 in = 25.4 mm exactly). */
static void a_number_over_a_length_is_told_with_both_readings(void **state)
{
    struct room *room = *state;
    static const char *const told[] = { "5 / 8 in", "hip / 4 + 5 / 8 in", "5/ 8 in" };
    static const char *const untold[] = { "5/8 in", "hip / 8 in", "5 in / 8", "5 / 80 in", "2 * 5 / 8", "(5) / (8)" };
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++) {
        assert_non_null(parse_formula(room, told[i]));
        const struct err *e = room_only_told(room, "pattern.formula_fraction");
        assert_int_equal(e->kind->severity, ERR_WARNING);
        assert_int_equal(e->place.line, LINE);
        assert_near(e->args[1].number, 50 / 20.32, 1e-9);
        assert_near(e->args[2].number, 15.875, 1e-9);
        assert_string_equal(e->args[3].text, "5/8 in");
        room_forget(room);
    }
    for (size_t i = 0; i < sizeof untold / sizeof untold[0]; i++) {
        assert_non_null(parse_formula(room, untold[i]));
        room_nothing_told(room);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_number_over_a_length_is_told_with_both_readings),
        room_test(a_wrong_formula_is_told_once_with_what_to_do),
        room_test(formulas_are_read_however_they_are_typed),
        room_test(what_is_too_deep_is_told),
        room_test(a_value_needs_a_name_that_formulas_can_call),
        room_test(a_wrong_construction_is_told_once),
        room_test(a_wrong_step_is_told_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
