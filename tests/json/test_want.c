#include "support/room.h"
#include "json/want.h"

#include <string.h>

static const struct json_node *parse(struct room *room, const char *text)
{
    const struct json_node *top = json_parse(room->a, "shirt.json", text, strlen(text), room->errs);
    assert_non_null(top);
    return top;
}

/* The only fault so far is of that code, at that path and line. */
static const struct err *only_fault(struct room *room, const char *code, const char *path, int line)
{
    const struct err *e = room_only_told_at(room, code, path);
    assert_int_equal(e->place.line, line);
    return e;
}

static void a_member_of_the_right_type_is_given(void **state)
{
    struct room *room = *state;
    const struct json_node *top = parse(room, "{\"ease\": 1, \"name\": \"bib\"}");
    assert_near(json_need(top, "ease", JSON_NUMBER, room->errs)->number, 1, 0);
    assert_string_equal(json_maybe(top, "name", JSON_TEXT, room->errs)->text, "bib");
    assert_null(json_maybe(top, "fold", JSON_TEXT, room->errs));
    assert_int_equal(room->errs->count, 0);
}

static void a_missing_member_is_told(void **state)
{
    struct room *room = *state;
    const struct json_node *top = parse(room, "{\n\"piece\":\n{}}");
    assert_null(json_need(top->first, "ease", JSON_NUMBER, room->errs));
    const struct err *e = only_fault(room, "json.missing", "piece", 3);
    assert_string_equal(e->args[0].text, "ease");
    assert_string_equal(e->args[1].text, "a number");
}

static void a_member_of_another_type_is_told_with_both(void **state)
{
    struct room *room = *state;
    const struct json_node *top = parse(room, "{\n\"ease\": []}");
    assert_null(json_maybe(top, "ease", JSON_NUMBER, room->errs));
    const struct err *e = only_fault(room, "json.wrong_type", "ease", 2);
    assert_string_equal(e->args[0].text, "a number");
    assert_string_equal(e->args[1].text, "a list");
    assert_null(json_need(top, "ease", JSON_TEXT, room->errs));
    assert_int_equal(room->errs->count, 2);
    assert_false(json_is(json_find(top, "ease"), JSON_TRUE, room->errs)); /* false would have done as well */
    assert_string_equal(room->errs->items[2].args[0].text, "true or false");
}

static void an_object_that_was_not_found_is_not_complained_of_twice(void **state)
{
    struct room *room = *state;
    static const char *const names[] = { "ease", NULL };
    int whole;
    assert_null(json_need(NULL, "ease", JSON_NUMBER, room->errs));
    assert_null(json_need_text(NULL, "ease", room->errs));
    assert_false(json_need_whole(NULL, "ease", 1, 2, &whole, room->errs));
    json_only(NULL, names, room->errs);
    assert_int_equal(room->errs->count, 0);
}

static void an_unknown_name_is_told_with_the_nearest_known(void **state)
{
    struct room *room = *state;
    static const char *const names[] = { "allowance", "outline", NULL };
    json_only(parse(room, "{\"outline\": 1,\n\"alowance\": 2}"), names, room->errs);
    const struct err *e = only_fault(room, "json.unknown_name", "alowance", 2);
    assert_string_equal(e->args[0].text, "alowance");
    assert_string_equal(e->args[1].text, "allowance");
}

static void all_known_names_are_told_when_none_is_near(void **state)
{
    struct room *room = *state;
    static const char *const names[] = { "allowance", "outline", NULL };
    json_only(parse(room, "{\"grain\": 1, \"fold\": 2}"), names, room->errs);
    assert_int_equal(room->errs->count, 2);
    assert_string_equal(room->errs->items[0].args[1].text, "allowance, outline");
    assert_string_equal(room->errs->items[1].place.path, "fold");
}

static void a_text_has_1_to_200_characters(void **state)
{
    struct room *room = *state;
    char text[2 * 201 + 1] = { 0 }; /* 201 times a letter of two bytes */
    for (int i = 0; i < 201; i++)
        memcpy(text + 2 * i, "\xc3\xa4", 2);
    const char *format = "{\"name\": \"%s\"}";
    const struct json_node *most = parse(room, base_arena_print(room->a, format, text + 2));
    assert_string_equal(json_need_text(most, "name", room->errs), text + 2);
    assert_int_equal(room->errs->count, 0);
    assert_null(json_need_text(parse(room, base_arena_print(room->a, format, text)), "name", room->errs));
    assert_null(json_need_text(parse(room, base_arena_print(room->a, format, "")), "name", room->errs));
    assert_null(json_need_text(parse(room, "{\"name\": 7}"), "name", room->errs));
    assert_null(json_need_text(parse(room, "{}"), "name", room->errs));
    static const char *const codes[] = { "json.text_size", "json.text_size", "json.wrong_type", "json.missing" };
    assert_int_equal(room->errs->count, 4);
    for (int i = 0; i < 4; i++)
        assert_string_equal(room->errs->items[i].kind->code, codes[i]);
    assert_near(room->errs->items[0].args[1].number, 201, 0);
}

static void a_whole_number_keeps_within_its_bounds(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text;
        bool good;
        int value;
    } rows[] = {
        { "{\"n\": 1}", true, 1 },
        { "{\"n\": 999}", true, 999 },
        { "{\"n\": 1e2}", true, 100 },
        { "{\"n\": 7.0}", true, 7 },
        { "{\"n\": 0}", false, 0 },
        { "{\"n\": 1000}", false, 0 },
        { "{\"n\": 1.5}", false, 0 },
        { "{\"n\": -1}", false, 0 },
        { "{\"n\": 1e300}", false, 0 },
        { "{\"n\": \"1\"}", false, 0 },
        { "{}", false, 0 },
        { "{\"n\": 999.5}", false, 0 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        int value = -7, told = room->errs->count;
        bool good = json_need_whole(parse(room, rows[i].text), "n", 1, 999, &value, room->errs);
        if (good != rows[i].good || value != (good ? rows[i].value : -7) || room->errs->count != told + !good)
            fail_msg("%s gives %d", rows[i].text, value);
    }
}

static const struct json_node *parse_pattern(struct room *room, const char *text)
{
    return json_parse_ours(room->a, "f.json", text, strlen(text), "pattern", 2, room->errs);
}

static void our_own_files_are_opened(void **state)
{
    struct room *room = *state;
    assert_non_null(parse_pattern(room, "{\"chalklight\": \"pattern\", \"version\": 1}"));
    assert_non_null(parse_pattern(room, "{\"version\": 2, \"chalklight\": \"pattern\"}"));
    assert_int_equal(room->errs->count, 0);
}

static void a_file_of_another_kind_is_told_by_its_kind(void **state)
{
    struct room *room = *state;
    assert_null(parse_pattern(room, "{\n\"chalklight\": \"body\", \"version\": 9}"));
    const struct err *e = only_fault(room, "json.other_kind", "chalklight", 2);
    assert_string_equal(e->args[0].text, "body");
    assert_string_equal(e->args[1].text, "pattern");
}

static void a_newer_version_is_told_with_both_numbers(void **state)
{
    struct room *room = *state;
    assert_null(parse_pattern(room, "{\"chalklight\": \"pattern\",\n\"version\": 3}"));
    const struct err *e = only_fault(room, "json.newer", "version", 2);
    assert_near(e->args[0].number, 3, 0);
    assert_near(e->args[1].number, 2, 0);
}

static void what_is_not_ours_is_told_once(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code;
    } rows[] = {
        { "{\"version\": 1}", "json.not_ours" },
        { "{\"chalklight\": 1, \"version\": 1}", "json.not_ours" },
        { "[\"chalklight\"]", "json.not_ours" },
        { "7", "json.not_ours" },
        { "{\"chalklight\": \"pattern\"}", "json.missing" },
        { "{\"chalklight\": \"pattern\", \"version\": 0}", "json.not_whole" },
        { "{\"chalklight\": \"pattern\", \"version\": 1.5}", "json.not_whole" },
        { "{\"chalklight\": \"pattern\", \"version\": \"1\"}", "json.wrong_type" },
        { "{\"chalklight\": \"pattern\", \"version\": 1", "json.breaks_off" },
    };
    for (int i = 0; i < (int)(sizeof rows / sizeof rows[0]); i++) {
        assert_null(parse_pattern(room, rows[i].text));
        assert_int_equal(room->errs->count, i + 1);
        assert_string_equal(room->errs->items[i].kind->code, rows[i].code);
    }
}

static void a_file_that_is_not_there_is_told(void **state)
{
    struct room *room = *state;
    assert_null(json_open_ours(room->a, "/nowhere/at/all.json", "pattern", 1, room->errs));
    only_fault(room, "file.cannot_open", "", 0);
}

static void a_full_list_of_faults_only_counts_on(void **state)
{
    struct room *room = *state;
    const struct json_node *top = parse(room, "{\"piece\": {}}");
    for (int i = 0; i < ERR_MOST + 7; i++)
        json_need(top->first, "ease", JSON_NUMBER, room->errs);
    assert_int_equal(room->errs->count, ERR_MOST);
    assert_int_equal(room->errs->dropped, 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_member_of_the_right_type_is_given),
        room_test(a_missing_member_is_told),
        room_test(a_member_of_another_type_is_told_with_both),
        room_test(an_object_that_was_not_found_is_not_complained_of_twice),
        room_test(an_unknown_name_is_told_with_the_nearest_known),
        room_test(all_known_names_are_told_when_none_is_near),
        room_test(a_text_has_1_to_200_characters),
        room_test(a_whole_number_keeps_within_its_bounds),
        room_test(our_own_files_are_opened),
        room_test(a_file_of_another_kind_is_told_by_its_kind),
        room_test(a_newer_version_is_told_with_both_numbers),
        room_test(what_is_not_ours_is_told_once),
        room_test(a_file_that_is_not_there_is_told),
        room_test(a_full_list_of_faults_only_counts_on),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
