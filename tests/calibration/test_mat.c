#include "calibration/mat.h"

#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/folder.h"

#include <string.h>

struct world {
    struct arena *a;
    struct err_list *errs;
    char *folder;
};

static int open_world(void **state)
{
    static struct world w;
    w = (struct world){ base_arena_create(), base_err_list_create(), support_folder_create() };
    *state = &w;
    return 0;
}

static int close_world(void **state)
{
    struct world *w = *state;
    support_folder_remove(w->folder);
    base_err_list_destroy(w->errs);
    base_arena_destroy(w->a);
    return 0;
}

#define OPENING "{ \"chalklight\": \"mat\", \"version\": 1, "
#define REST                                                                                                           \
    "\"field\": { \"width\": 36, \"height\": 24 }, "                                                                   \
    "\"margin\": { \"left\": 0.5, \"right\": 0.5, \"near\": \"1/4 in\", \"far\": 0.75 }, \"ruling\": 1 }"

static bool read_text(struct world *w, const char *text, struct calibration_mat *out)
{
    const char *path = base_arena_print(w->a, "%s/some.json", w->folder);
    assert_true(base_file_save(path, text, strlen(text), w->errs));
    return calibration_mat_read(w->a, path, out, w->errs);
}

static void a_mat_file_becomes_millimetres(void **state)
{
    struct world *w = *state;
    struct calibration_mat mat;
    assert_true(read_text(w, OPENING "\"name\": \"24 x 36 in\", \"unit\": \"in\", " REST, &mat));
    assert_int_equal(w->errs->count, 0);
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
    struct world *w = *state;
    struct calibration_mat mat, back;
    assert_true(read_text(w, OPENING "\"name\": \"24 x 36 in\", \"unit\": \"in\", " REST, &mat));
    struct json_out *top = json_out_create();
    calibration_mat_write(top, &mat);
    const char *text = json_out_print(w->a, top);
    json_out_destroy(top);
    const struct json_node *node = json_parse(w->a, "again", text, strlen(text), w->errs);
    assert_non_null(node);
    assert_true(calibration_mat_from(w->a, node, &back, w->errs));
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
    struct world *w = *state;
    static const struct {
        const char *text, *code, *path;
    } rows[] = {
        { OPENING "\"name\": \"m\", \"unit\": \"furlong\", " REST, "values.no_unit", "unit" },
        { OPENING "\"name\": \"m\", \"unit\": \"mm\", " REST, "values.out_of_bounds", "field.width" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", \"rulings\": 2, " REST, "json.unknown_name", "rulings" },
        { OPENING "\"unit\": \"in\", \"field\": [36, 24], \"name\": \"m\" }", "json.wrong_type", "field" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", \"field\": { \"width\": 36, \"height\": 24 }, \"margin\": "
                  "{ \"left\": -1, \"right\": 0, \"near\": 0, \"far\": 0 }, \"ruling\": 1 }",
          "values.out_of_bounds", "margin.left" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", \"field\": { \"width\": 36, \"height\": 24 }, \"margin\": "
                  "{ \"left\": 0, \"right\": 0, \"near\": 0, \"far\": 0 }, \"ruling\": 25 }",
          "calibration.wide_ruling", "ruling" },
        { OPENING "\"name\": \"m\", \"unit\": \"in\", \"field\": { \"width\": 36, \"height\": 24 }, \"margin\": "
                  "{ \"left\": 0, \"right\": 0, \"near\": 0, \"far\": 0 }, \"ruling\": 0 }",
          "values.out_of_bounds", "ruling" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct calibration_mat mat;
        base_err_list_destroy(w->errs);
        w->errs = base_err_list_create();
        assert_false(read_text(w, rows[i].text, &mat));
        const struct err *e = &w->errs->items[0];
        if (strcmp(e->kind->code, rows[i].code) != 0 || !e->place.path || strcmp(e->place.path, rows[i].path) != 0)
            fail_msg("row %zu: %s at %s", i, e->kind->code, e->place.path ? e->place.path : "the top");
    }
}

static void all_that_is_missing_is_told_at_once(void **state)
{
    struct world *w = *state;
    struct calibration_mat mat;
    assert_false(read_text(w, OPENING "\"unit\": \"cm\", \"margin\": {} }", &mat));
    assert_int_equal(w->errs->faults, 1 + 1 + 4 + 1); /* name, field, four margins, ruling */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_mat_file_becomes_millimetres, open_world, close_world),
        cmocka_unit_test_setup_teardown(a_mat_comes_back_as_it_was_written, open_world, close_world),
        cmocka_unit_test_setup_teardown(each_fault_of_a_mat_is_told_at_its_place, open_world, close_world),
        cmocka_unit_test_setup_teardown(all_that_is_missing_is_told_at_once, open_world, close_world),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
