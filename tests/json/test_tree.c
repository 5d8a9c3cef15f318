#include "support/room.h"
#include "json/lines.h"
#include "json/tree.h"

#include <string.h>

static const struct json_node *parse_bytes(struct room *room, const char *bytes, size_t count)
{
    char *exact = base_arena_alloc(room->a, count, 1); /* no zero byte after it */
    if (count)
        memcpy(exact, bytes, count);
    return json_parse(room->a, "shirt.json", exact, count, room->errs);
}

static const struct json_node *parse(struct room *room, const char *text)
{
    return parse_bytes(room, text, strlen(text));
}

/* Each row by a rule of RFC 8259: section 2 (structure, space), 3 (values), 4 (objects), 5 (lists), 6 (numbers),
 * 7 (texts), 8.1 (UTF-8, byte order mark). Where the RFC leaves a choice, ours is named. */
static const struct {
    const char *text;
    bool taken;
} grammar[] = {
    /* section 2: six structural characters, four kinds of space, one value */
    { "[]", true },
    { "{}", true },
    { " \t\r\n[ \t\r\n] \t\r\n", true },
    { "[\f]", false },
    { "[\v]", false },
    { "[\xc2\xa0]", false },
    { "", false },
    { "[", false },
    { "]", false },
    { "[]]", false },
    { "[] []", false },
    { "{} x", false },
    { "// note\n[]", false },
    { "[/* note */]", false },
    /* section 3: three words, in small letters */
    { "true", true },
    { "false", true },
    { "null", true },
    { "True", false },
    { "nul", false },
    { "nulll", false },
    { "truefalse", false },
    { "undefined", false },
    /* section 4 */
    { "{\"a\":1,\"b\":[2]}", true },
    { "{\"\":0}", true },
    { "{\"a\":1,}", false },
    { "{,}", false },
    { "{\"a\"}", false },
    { "{\"a\":}", false },
    { "{\"a\":1 \"b\":2}", false },
    { "{a:1}", false },
    { "{'a':1}", false },
    { "{1:1}", false },
    { "{\"a\"=1}", false },
    { "{\"a\":1:2}", false },
    { "{\"a\":1]", false },
    { "{\"a\":1,\"a\":2}", false }, /* ours: names differ */
    { "{\"a\":1,\"\\u0061\":2}", false },
    { "{\"a\":1,\"A\":2}", true },
    /* section 5 */
    { "[1,[2,[3]]]", true },
    { "[1,]", false },
    { "[,1]", false },
    { "[1,,2]", false },
    { "[1 2]", false },
    { "[1;2]", false },
    { "[1}", false },
    /* section 6 */
    { "0", true },
    { "-0", true },
    { "10", true },
    { "1.5", true },
    { "1.50", true },
    { "0.0", true },
    { "-0.5e-3", true },
    { "1E+2", true },
    { "1e05", true },
    { "0e0", true },
    { "01", false },
    { "-01", false },
    { "00", false },
    { "+1", false },
    { ".5", false },
    { "-.5", false },
    { "1.", false },
    { "1.e2", false },
    { "1e", false },
    { "1e+", false },
    { "1e1.5", false },
    { "-", false },
    { "--1", false },
    { "- 1", false },
    { "1,5", false },
    { "0x10", false },
    { "1_000", false },
    { "1 000", false },
    { "NaN", false },
    { "Infinity", false },
    { "-Infinity", false },
    { "1e308", true },
    { "1e400", false }, /* ours: finite */
    { "-1e400", false },
    { "1e-400", true },
    /* section 7 */
    { "\"\"", true },
    { "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u00e4\\u00E4\"", true },
    { "\"\x7f\"", true },
    { "\"\\u0001\"", true },
    { "\"\\u0000\"", false }, /* ours: no zero character */
    { "{\"a\\u0000b\":1}", false },
    { "\"\x01\"", false },
    { "\"\x1f\"", false },
    { "\"\n\"", false },
    { "\"\t\"", false },
    { "\"", false },
    { "\"\\\"", false },
    { "\"\\a\"", false },
    { "\"\\'\"", false },
    { "\"\\x41\"", false },
    { "\"\\U0041\"", false },
    { "\"\\u12\"", false },
    { "\"\\u12g4\"", false },
    { "\"\\u 123\"", false },
    { "\"\\ud83d\\ude00\"", true },
    { "\"\\ud83d\"", false }, /* ours: whole pairs, as UTF-8 needs */
    { "\"\\ude00\"", false },
    { "\"\\ud83d\\u0041\"", false },
    { "\"\\ude00\\ud83d\"", false },
    { "'a'", false },
    { "\xe2\x80\x9c"
      "a\xe2\x80\x9d",
      false },
    /* section 8.1 */
    { "\"\xc3\xa4 \xe2\x82\xac \xf0\x9f\x98\x80\"", true },
    { "\"\xe4\"", false },
    { "\"\xc0\x80\"", false },
    { "\"\xed\xa0\x80\"", false },
    { "\"\xf4\x90\x80\x80\"", false },
    { "\xef\xbb\xbf[]", true }, /* ours: a mark at the start is passed over */
    { " \xef\xbb\xbf[]", false },
    { "\xef\xbb\xbf", false },
    { "[\xef\xbb\xbf]", false },
};

static void the_grammar_of_rfc_8259_decides(void **state)
{
    struct room *room = *state;
    for (size_t i = 0; i < sizeof grammar / sizeof grammar[0]; i++) {
        int told = room->errs->faults;
        bool taken = parse(room, grammar[i].text);
        if (taken != grammar[i].taken)
            fail_msg("%s is %s", grammar[i].text, taken ? "taken" : "refused");
        if (taken == (room->errs->faults > told))
            fail_msg("%s: %d faults told", grammar[i].text, room->errs->faults - told);
    }
}

static void a_zero_byte_is_refused_wherever_it_stands(void **state)
{
    struct room *room = *state;
    assert_null(parse_bytes(room, "[]\0", 3));
    assert_null(parse_bytes(room, "[\0]", 3));
    assert_null(parse_bytes(room, "\"a\0b\"", 5));
}

static void a_tree_holds_what_was_written(void **state)
{
    struct room *room = *state;
    const struct json_node *top = parse(room, "{\n\"name\": \"bib \\u00bd\\t\\ud83d\\ude00\",\n\"at\": [1.5, -2e3,\n"
                                              "true, false, null, {\"deep\": []}]\n}");
    assert_non_null(top);
    assert_int_equal(top->type, JSON_OBJECT);
    assert_int_equal(top->count, 2);
    assert_null(top->parent);
    const struct json_node *name = top->first, *at = name->next;
    assert_string_equal(name->key, "name");
    assert_string_equal(name->text, "bib \xc2\xbd\t\xf0\x9f\x98\x80");
    assert_int_equal(name->line, 2);
    assert_string_equal(at->key, "at");
    assert_int_equal(at->index, 1);
    assert_int_equal(at->count, 6);
    assert_null(at->next);
    const struct json_node *n = at->first;
    assert_near(n->number, 1.5, 0);
    assert_null(n->key);
    n = n->next;
    assert_near(n->number, -2000, 0);
    static const enum json_type rest[] = { JSON_TRUE, JSON_FALSE, JSON_NULL, JSON_OBJECT };
    for (size_t i = 0; i < 4; i++) {
        n = n->next;
        assert_int_equal(n->type, rest[i]);
        assert_int_equal(n->line, 4);
        assert_int_equal(n->index, i + 2);
        assert_ptr_equal(n->parent, at);
    }
    assert_int_equal(json_find(n, "deep")->type, JSON_LIST);
    assert_int_equal(room->errs->count, 0);
}

static void members_are_found_by_their_exact_name(void **state)
{
    struct room *room = *state;
    const struct json_node *top = parse(room, "{\"hip\": 1, \"Hip\": 2}");
    assert_near(json_find(top, "Hip")->number, 2, 0);
    assert_null(json_find(top, "HIP"));
    assert_null(json_find(top->first, "hip"));
    assert_null(json_find(NULL, "hip"));
}

static void a_place_is_a_path_and_a_line(void **state)
{
    struct room *room = *state;
    const struct json_node *top = parse(room, "{\"pieces\": [0, 0, {\n\"points\": {\"a\": [7]}}]}");
    struct err_place place = json_place(room->a, top);
    assert_string_equal(place.file, "shirt.json");
    assert_null(place.path);
    assert_int_equal(place.line, 1);
    const struct json_node *piece = top->first->first->next->next;
    place = json_place(room->a, json_find(json_find(piece, "points"), "a")->first);
    assert_string_equal(place.path, "pieces[2].points.a[0]");
    assert_int_equal(place.line, 2);
    place = json_place(room->a, parse(room, "[{\"x\": 1}]")->first->first);
    assert_string_equal(place.path, "[0].x");
}

static void text_that_ends_early_tells_where_it_breaks_off(void **state)
{
    struct room *room = *state;
    assert_null(parse(room, "{\n\"a\": [1,\n2,\n\n"));
    assert_int_equal(room->errs->count, 1);
    const struct err *e = &room->errs->items[0];
    assert_string_equal(e->kind->code, "json.breaks_off");
    assert_non_null(strstr(e->kind->sentence, "breaks off in line {1}"));
    assert_int_equal(e->place.line, 3);
    assert_near(e->args[1].number, 3, 0);
}

static void a_flaw_tells_what_stands_there(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code, *shown;
    } rows[] = {
        { "[NaN]", "json.no_value", "“NaN”" },
        { "[“a”]", "json.no_value", "““”" },
        { "{ease: 1}", "json.no_name", "“ease”" },
        { "{\"a\": 1 \"b\"", "json.no_comma", "“\"”" },
        { "[1, 5cm]", "json.number_form", "“cm”" },
        { "[1,]", "json.spare_comma", "“]”" },
        { "[\v]", "json.no_value", "a character that cannot be seen" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_null(parse(room, rows[i].text));
        assert_int_equal(room->errs->count, i + 1);
        assert_string_equal(room->errs->items[i].kind->code, rows[i].code);
        assert_string_equal(room->errs->items[i].args[0].text, rows[i].shown);
    }
}

static void every_name_met_twice_is_told_with_both_lines(void **state)
{
    struct room *room = *state;
    assert_null(parse(room, "{\"a\": {\"x\": 1,\n\"y\": 2,\n\"x\": 3,\n\"x\": 4},\n\"b\": 1,\n\"a\": 2}"));
    assert_int_equal(room->errs->count, 3);
    static const struct {
        const char *path;
        int line, first;
    } rows[] = { { "a.x", 3, 1 }, { "a.x", 4, 1 }, { "a", 6, 1 } };
    for (int i = 0; i < 3; i++) {
        const struct err *e = &room->errs->items[i];
        assert_string_equal(e->kind->code, "json.name_twice");
        assert_string_equal(e->place.path, rows[i].path);
        assert_int_equal(e->place.line, rows[i].line);
        assert_near(e->args[1].number, rows[i].first, 0);
    }
}

static void every_number_too_large_is_told(void **state)
{
    struct room *room = *state;
    assert_null(parse(room, "[1e309,\n0,\n-1e999]"));
    assert_int_equal(room->errs->count, 2);
    assert_string_equal(room->errs->items[1].kind->code, "json.number_size");
    assert_string_equal(room->errs->items[1].place.path, "[2]");
    assert_int_equal(room->errs->items[1].place.line, 3);
}

static void a_text_of_more_than_16_mib_is_refused(void **state)
{
    struct room *room = *state;
    size_t count = (size_t)JSON_MOST_BYTES + 1;
    char *spaces = base_arena_alloc(room->a, count, 1);
    memset(spaces, ' ', count);
    spaces[0] = '0';
    assert_non_null(json_parse(room->a, "f", spaces, count - 1, room->errs));
    assert_null(json_parse(room->a, "f", spaces, count, room->errs));
    assert_true(base_err_list_has(room->errs, "json.too_large"));
}

static void long_names_are_shortened_at_a_whole_character(void **state)
{
    struct room *room = *state;
    char name[63] = { 0 };
    memset(name, 'x', 59);
    memcpy(name + 59, "\xc3\xa4", 2);
    assert_string_equal(json_shown(room->a, "ease"), "ease");
    const char *shown = json_shown(room->a, name);
    assert_int_equal(strlen(shown), 59 + strlen("…"));
    assert_string_equal(shown + 59, "…");
    name[60] = '\0';
    name[59] = 'x';
    assert_string_equal(json_shown(room->a, name), name);
}

static void a_file_is_read_or_told_of(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "shirt.json");
    assert_null(json_read_file(room->a, path, room->errs));
    assert_true(base_err_list_has(room->errs, "file.cannot_open"));
    room_put(room, "shirt.json", "[1]");
    const struct json_node *top = json_read_file(room->a, path, room->errs);
    assert_non_null(top);
    assert_string_equal(top->file, path);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(the_grammar_of_rfc_8259_decides),
        room_test(a_zero_byte_is_refused_wherever_it_stands),
        room_test(a_tree_holds_what_was_written),
        room_test(members_are_found_by_their_exact_name),
        room_test(a_place_is_a_path_and_a_line),
        room_test(text_that_ends_early_tells_where_it_breaks_off),
        room_test(a_flaw_tells_what_stands_there),
        room_test(every_name_met_twice_is_told_with_both_lines),
        room_test(every_number_too_large_is_told),
        room_test(a_text_of_more_than_16_mib_is_refused),
        room_test(long_names_are_shortened_at_a_whole_character),
        room_test(a_file_is_read_or_told_of),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
