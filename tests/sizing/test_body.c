#include "sizing/body.h"
#include "support/room.h"

static const struct sizing_body *parse(struct room *room, const char *text)
{
    const char *json = room_json(room, text);
    return sizing_body_parse(room->a, "guide.json", json, strlen(json), room->errs);
}

/* 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
static void measurements_are_read_in_the_files_unit_or_their_own(void **state)
{
    struct room *room = *state;
    const struct sizing_body *body = parse(room, "{ 'chalklight': 'body', 'version': 1,\n"
                                                 "  'name': 'Morning guide', 'unit': 'cm',\n"
                                                 "  'measurements': { 'bust': 94.5,\n"
                                                 "    'waist': '30 1/2 in', 'hip': '102' } }");
    room_nothing_told(room);
    assert_non_null(body);
    assert_string_equal(body->name, "Morning guide");
    assert_int_equal(body->unit, UNITS_CM);
    assert_int_equal(body->count, 3);
    assert_near(sizing_body_find(body, "bust")->mm, 945, 0);
    assert_near(sizing_body_find(body, "waist")->mm, 774.7, 1e-9);
    assert_near(sizing_body_find(body, "hip")->mm, 1020, 0);
    assert_null(sizing_body_find(body, "upper bust"));
    assert_int_equal(sizing_body_find(body, "waist")->place.line, 4);
    assert_string_equal(sizing_body_find(body, "waist")->place.path, "measurements.waist");
}

static void faults_are_told_at_their_line(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code;
        int line;
    } rows[] = {
        { "'name': 'G', 'unit': 'cm',\n'measurements': { }", "body.no_measurement", 2 },
        { "'name': 'G', 'unit': 'cm',\n'measurements': {\n'bust': 0 }", "body.not_positive", 3 },
        { "'name': 'G', 'unit': 'cm',\n'measurements': {\n'bust': '-3 in' }", "body.not_positive", 3 },
        { "'name': 'G', 'unit': 'cm',\n'measurements': {\n'bust': 'large' }", "values.unread_length", 3 },
        { "'name': 'G', 'unit': 'cm',\n'measurements': {\n'bust': [94] }", "values.no_length", 3 },
        { "'name': 'G', 'unit': 'cm',\n'measurements': [94]", "json.wrong_type", 2 },
        { "'name': 'G', 'unit': 'cm'", "json.missing", 1 },
        { "'name': 'G', 'measurements': { 'bust': 94 }", "json.missing", 1 },
        { "'name': '', 'unit': 'cm', 'measurements': { 'bust': 94 }", "json.text_size", 1 },
        { "'name': 'G', 'unit': 'feet', 'measurements': { 'bust': 94 }", "values.no_unit", 1 },
        { "'name': 'G', 'unit': 'cm',\n'measurments': {}, 'measurements': { 'bust': 94 }", "json.unknown_name", 2 },
        { "'name': 'G', 'unit': 'cm', 'measurements': { 'bust': 94,\n'bust': 95 }", "json.name_twice", 2 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *text = base_arena_print(room->a, "{ 'chalklight': 'body', 'version': 1, %s }", rows[i].text);
        assert_null(parse(room, text));
        assert_int_equal(room_only_told(room, rows[i].code)->place.line, rows[i].line);
        room_forget(room);
    }
}

/* 37 1/2 in are 952.5 mm, 95.25 cm (1 in = 25.4 mm exactly: international yard and pound agreement, 1959). */
static void a_body_comes_back_from_its_text_as_it_was(void **state)
{
    struct room *room = *state;
    static const enum units_length units[] = { UNITS_MM, UNITS_CM, UNITS_IN };
    static const struct sizing_measurement items[] = { { .name = "bust", .mm = 952.5 },
                                                       { .name = "back waist length", .mm = 1000.0 / 3 },
                                                       { .name = "Weite, \"vorn\"", .mm = 0.1 } };
    for (size_t u = 0; u < 3; u++) {
        struct sizing_body body = { "Möwe", units[u], items, 3 };
        const char *text = sizing_body_print(room->a, &body);
        const struct sizing_body *back = sizing_body_parse(room->a, "b.json", text, strlen(text), room->errs);
        room_nothing_told(room);
        assert_string_equal(back->name, "Möwe");
        assert_int_equal(back->unit, units[u]);
        assert_int_equal(back->count, 3);
        for (size_t i = 0; i < 3; i++) {
            assert_string_equal(back->items[i].name, items[i].name);
            assert_near(back->items[i].mm, items[i].mm, 1e-12);
        }
        assert_string_equal(sizing_body_print(room->a, back), text);
    }
    struct sizing_body inches = { "G", UNITS_IN, items, 1 };
    assert_non_null(strstr(sizing_body_print(room->a, &inches), "\"bust\": 37.5"));
}

static void a_body_that_is_begun_needs_neither_name_nor_measurement(void **state)
{
    struct room *room = *state;
    struct sizing_body blank = { .name = "", .unit = UNITS_IN };
    const char *text = sizing_body_print(room->a, &blank);
    const struct sizing_body *back = sizing_body_parse_begun(room->a, "b.json", text, strlen(text), room->errs);
    room_nothing_told(room);
    assert_string_equal(back->name, "");
    assert_int_equal(back->unit, UNITS_IN);
    assert_int_equal(back->count, 0);
    assert_null(sizing_body_parse(room->a, "b.json", text, strlen(text), room->errs));
    assert_int_equal(room->errs->faults, 2); /* a file of a body has both */
    room_forget(room);
    text = "{ \"chalklight\": \"body\", \"version\": 1, \"unit\": \"cm\", \"measurements\": { \"hip\": -1 } }";
    assert_null(sizing_body_parse_begun(room->a, "b.json", text, strlen(text), room->errs));
    assert_true(base_err_list_has(room->errs, "json.missing"));
    assert_true(base_err_list_has(room->errs, "body.not_positive"));
}

static void all_faults_of_a_body_are_told_at_once(void **state)
{
    struct room *room = *state;
    assert_null(parse(room, "{ 'chalklight': 'body', 'version': 1, 'unit': 'cm',"
                            "  'measurements': { 'bust': -94, 'waist': null, 'hip': 100 }, 'height': 168 }"));
    assert_int_equal(room->errs->count, 4);
    assert_true(base_err_list_has(room->errs, "json.unknown_name"));
    assert_true(base_err_list_has(room->errs, "json.missing"));
    assert_true(base_err_list_has(room->errs, "body.not_positive"));
    assert_true(base_err_list_has(room->errs, "values.no_length"));
}

static void another_kind_of_file_and_a_newer_version_are_refused(void **state)
{
    struct room *room = *state;
    assert_null(parse(room, "{ 'chalklight': 'pattern', 'version': 1 }"));
    room_only_told(room, "json.other_kind");
    room_forget(room);
    assert_null(parse(room, "{ 'chalklight': 'body', 'version': 2 }"));
    room_only_told(room, "json.newer");
    room_forget(room);
    assert_null(sizing_body_read(room->a, "/there/is/no/such.json", room->errs));
    room_only_told(room, "file.cannot_open");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(measurements_are_read_in_the_files_unit_or_their_own),
        room_test(faults_are_told_at_their_line),
        room_test(a_body_comes_back_from_its_text_as_it_was),
        room_test(a_body_that_is_begun_needs_neither_name_nor_measurement),
        room_test(all_faults_of_a_body_are_told_at_once),
        room_test(another_kind_of_file_and_a_newer_version_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
