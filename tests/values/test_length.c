#include "values/length.h"

#include "support/room.h"

#include <string.h>

static const struct json_node *parsed(struct room *room, const char *text)
{
    const struct json_node *node = json_parse(room->a, "some.json", text, strlen(text), room->errs);
    assert_non_null(node);
    return node;
}

/* Millimetres by hand: 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
static void numbers_and_texts_become_millimetres(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text;
        enum units_length unit;
        double mm;
    } rows[] = {
        { "[94]", UNITS_MM, 94 },         { "[94.5]", UNITS_CM, 945 },          { "[-2.5]", UNITS_IN, -63.5 },
        { "[0]", UNITS_IN, 0 },           { "[\"5/8 in\"]", UNITS_CM, 15.875 }, { "[\"2 1/4\"]", UNITS_IN, 57.15 },
        { "[\"94 cm\"]", UNITS_IN, 940 }, { "[100]", UNITS_MM, 100 },           { "[100000]", UNITS_MM, 100000 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double mm = -1;
        if (!values_length(parsed(room, rows[i].text)->first, rows[i].unit, &mm, room->errs))
            fail_msg("%s was refused", rows[i].text);
        assert_near(mm, rows[i].mm, 1e-12 * 1000);
    }
    assert_int_equal(room->errs->count, 0);
}

static void what_is_no_length_is_refused_at_its_place(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code;
    } rows[] = {
        { "{ \"at\": [true] }", "values.no_length" },          { "{ \"at\": [[1]] }", "values.no_length" },
        { "{ \"at\": [null] }", "values.no_length" },          { "{ \"at\": [\"wide\"] }", "values.unread_length" },
        { "{ \"at\": [\"\"] }", "values.unread_length" },      { "{ \"at\": [100001] }", "values.too_long" },
        { "{ \"at\": [-1e308] }", "values.too_long" },         { "{ \"at\": [{}] }", "values.no_length" },
        { "{ \"at\": [\"101 m\"] }", "values.unread_length" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double mm = 7;
        const struct json_node *at = json_find(parsed(room, rows[i].text), "at");
        assert_false(values_length(at->first, UNITS_MM, &mm, room->errs));
        assert_near(mm, 7, 0);
        assert_int_equal(room->errs->count, (int)i + 1);
        const struct err *e = &room->errs->items[i];
        assert_string_equal(e->kind->code, rows[i].code);
        assert_string_equal(e->place.file, "some.json");
        assert_string_equal(e->place.path, "at[0]");
    }
}

static void a_member_is_asked_for_within_bounds(void **state)
{
    struct room *room = *state;
    double mm = 7;
    const struct json_node *mat = parsed(room, "{ \"width\": 36, \"height\": \"2 rods\", \"ruling\": 0.01 }");
    assert_true(values_need_length(mat, "width", UNITS_IN, 50, 1000, &mm, room->errs));
    assert_near(mm, 914.4, 1e-9);
    mm = 7;
    assert_false(values_need_length(mat, "ruling", UNITS_IN, 1, 1000, &mm, room->errs));
    assert_true(base_err_list_has(room->errs, "values.out_of_bounds"));
    assert_string_equal(room->errs->items[0].place.path, "ruling");
    assert_false(values_need_length(mat, "height", UNITS_IN, 1, 1000, &mm, room->errs));
    assert_false(values_need_length(mat, "depth", UNITS_IN, 1, 1000, &mm, room->errs));
    assert_int_equal(room->errs->faults, 3);
    assert_near(mm, 7, 0);
    assert_false(values_need_length(NULL, "depth", UNITS_IN, 1, 1000, &mm, room->errs));
    assert_int_equal(room->errs->faults, 3);
}

static void the_unit_is_one_of_three(void **state)
{
    struct room *room = *state;
    enum units_length unit = UNITS_MM;
    assert_true(values_unit(parsed(room, "{ \"unit\": \"in\" }"), &unit, room->errs));
    assert_int_equal(unit, UNITS_IN);
    assert_int_equal(room->errs->count, 0);

    assert_false(values_unit(parsed(room, "{ \"unit\": \"ell\" }"), &unit, room->errs));
    assert_int_equal(unit, UNITS_MM);
    assert_true(base_err_list_has(room->errs, "values.no_unit"));
    assert_string_equal(room->errs->items[0].place.path, "unit");

    assert_false(values_unit(parsed(room, "{ \"unit\": 3 }"), &unit, room->errs));
    assert_false(values_unit(parsed(room, "{}"), &unit, room->errs));
    assert_int_equal(room->errs->faults, 3);
}

static void a_written_number_keeps_the_digits_it_was_read_with(void **state)
{
    struct room *room = *state;
    static const double rows[] = { 36, 0.5, 12.3, 5.8, 0.1, 33.1, 1.0 / 3 };
    for (enum units_length unit = UNITS_MM; unit <= UNITS_IN; unit++)
        for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
            struct json_out *top = json_out_create();
            values_write_length(top, "at", rows[i] * units_mm_per(unit), unit);
            const struct json_node *at = json_find(parsed(room, json_out_print(room->a, top)), "at");
            json_out_destroy(top);
            assert_near(at->number * units_mm_per(unit), rows[i] * units_mm_per(unit), 0);
            if (i + 1 < sizeof rows / sizeof rows[0]) /* a third has no shortest decimal worth asking for */
                assert_near(at->number, rows[i], 0);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(numbers_and_texts_become_millimetres),
        room_test(what_is_no_length_is_refused_at_its_place),
        room_test(a_member_is_asked_for_within_bounds),
        room_test(the_unit_is_one_of_three),
        room_test(a_written_number_keeps_the_digits_it_was_read_with),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
