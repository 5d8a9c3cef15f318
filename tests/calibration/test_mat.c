#include "calibration/mat.h"

#include "support/room.h"

#include <string.h>

#define OPENING "{ \"chalklight\": \"mat\", \"version\": 1, "
#define FIELD(width, height) "\"field\": { \"width\": " width ", \"height\": " height " }, "
#define MARGIN(left) "\"margin\": { \"left\": " left ", \"right\": 0.5, \"near\": \"1/4 in\", \"far\": 0.75 }, "
#define REST FIELD("36", "24") MARGIN("0.5") "\"ruling\": 1 }"

static bool read_text(struct room *room, const char *text, struct calibration_mat *out)
{
    return calibration_mat_read(room->a, room_put(room, "some.json", text), out, room->errs);
}

static void a_mat_file_becomes_millimetres(void **state)
{
    struct room *room = *state;
    struct calibration_mat mat;
    assert_true(read_text(room, OPENING "\"name\": \"24 x 36 in\", \"unit\": \"in\", " REST, &mat));
    assert_int_equal(room->errs->count, 0);
    assert_string_equal(mat.name, "24 x 36 in");
    assert_int_equal(mat.unit, UNITS_IN);
    assert_near(mat.width_mm, 914.4, 1e-9); /* 36 x 25.4 */
    assert_near(mat.height_mm, 609.6, 1e-9);
    assert_near(mat.margin_mm[0], 12.7, 1e-9);
    assert_near(mat.margin_mm[2], 6.35, 1e-9);
    assert_near(mat.margin_mm[3], 19.05, 1e-9);
    assert_near(mat.ruling_mm, 25.4, 1e-9);
}

static void a_mat_comes_back_as_it_was_written(void **state)
{
    struct room *room = *state;
    struct calibration_mat mat, back;
    assert_true(read_text(room, OPENING "\"name\": \"24 x 36 in\", \"unit\": \"in\", " REST, &mat));
    struct json_out *top = json_out_create();
    calibration_mat_write(top, &mat);
    const char *text = json_out_print(room->a, top);
    json_out_destroy(top);
    const struct json_node *node = json_parse(room->a, "again", text, strlen(text), room->errs);
    assert_non_null(node);
    assert_true(calibration_mat_from(room->a, node, &back, room->errs));
    assert_string_equal(back.name, mat.name);
    assert_int_equal(back.unit, mat.unit);
    assert_near(back.width_mm, mat.width_mm, 0);
    assert_near(back.height_mm, mat.height_mm, 0);
    assert_near(back.ruling_mm, mat.ruling_mm, 0);
    for (int i = 0; i < 4; i++)
        assert_near(back.margin_mm[i], mat.margin_mm[i], 0);
}

static void each_fault_of_a_mat_is_told_at_its_place(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code, *path;
    } rows[] = {
        { OPENING "\"name\": \"m\", \"unit\": \"furlong\", " FIELD("900", "600") MARGIN("10") "\"ruling\": 25 }",
          "values.no_unit", "unit" },
        { OPENING "\"name\": \"m\", \"unit\": \"mm\", " FIELD("36", "600") MARGIN("10") "\"ruling\": 5 }",
          "values.out_of_bounds", "field.width" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", \"rulings\": 2, " REST, "json.unknown_name", "rulings" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", \"field\": [36, 24], " MARGIN("0") "\"ruling\": 1 }",
          "json.wrong_type", "field" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", " FIELD("36", "24") MARGIN("-1") "\"ruling\": 1 }",
          "values.out_of_bounds", "margin.left" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", " FIELD("36", "24") MARGIN("0") "\"ruling\": 25 }",
          "calibration.wide_ruling", "ruling" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", " FIELD("36", "24") MARGIN("0") "\"ruling\": 0 }",
          "values.out_of_bounds", "ruling" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct calibration_mat mat;
        assert_false(read_text(room, rows[i].text, &mat));
        room_only_told_at(room, rows[i].code, rows[i].path);
        room_forget(room);
    }
}

static void all_that_is_missing_is_told_at_once(void **state)
{
    struct room *room = *state;
    struct calibration_mat mat;
    assert_false(read_text(room, OPENING "\"unit\": \"cm\", \"margin\": {} }", &mat));
    assert_int_equal(room->errs->faults, 1 + 1 + 4 + 1); /* name, field, four margins, ruling */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_mat_file_becomes_millimetres),
        room_test(a_mat_comes_back_as_it_was_written),
        room_test(each_fault_of_a_mat_is_told_at_its_place),
        room_test(all_that_is_missing_is_told_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
