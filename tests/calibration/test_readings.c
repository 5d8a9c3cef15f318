#include "calibration/readings.h"

#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/folder.h"

#include <string.h>

struct world {
    struct arena *a;
    struct err_list *errs;
    struct calibration_readings r;
};

static int open_world(void **state)
{
    static struct world w;
    w = (struct world){ .a = base_arena_create(), .errs = base_err_list_create() };
    *state = &w;
    return 0;
}

static int close_world(void **state)
{
    struct world *w = *state;
    base_err_list_destroy(w->errs);
    base_arena_destroy(w->a);
    return 0;
}

static bool parse(struct world *w, const char *text)
{
    base_err_list_destroy(w->errs);
    w->errs = base_err_list_create();
    return calibration_readings_parse(w->a, "some.json", text, strlen(text), &w->r, w->errs);
}

#define OPENING "{ \"chalklight\": \"readings\", \"version\": 1, \"name\": \"morning\", \"unit\": \"in\", "
#define FRAME "\"frame\": { \"width\": 1920, \"height\": 1080 }, "
#define MAT                                                                                                            \
    "\"mat\": { \"name\": \"24 x 36 in\", \"unit\": \"in\", \"field\": { \"width\": 36, \"height\": 24 }, "            \
    "\"margin\": { \"left\": 0.5, \"right\": 0.5, \"near\": 0.5, \"far\": 0.5 }, \"ruling\": 1 }, "
#define ONE "{ \"cross\": 1, \"pixel\": [96, 54.5], \"at\": [3.5, \"2 1/4\"] }"

static void a_whole_file_is_read(void **state)
{
    struct world *w = *state;
    assert_true(parse(w, OPENING FRAME MAT "\"sigma\": \"0.2 mm\", \"readings\": [" ONE ", { \"cross\": 2, \"pixel\": "
                                           "[1824, 54], \"at\": [\"90 cm\", -0.4] }] }"));
    assert_int_equal(w->errs->count, 0);
    assert_string_equal(w->r.name, "morning");
    assert_int_equal(w->r.unit, UNITS_IN);
    assert_int_equal(w->r.width_px, 1920);
    assert_int_equal(w->r.height_px, 1080);
    assert_near(w->r.sigma_mm, 0.2, 1e-12);
    assert_string_equal(w->r.mat.name, "24 x 36 in");
    assert_int_equal(w->r.count, 2);
    assert_int_equal(w->r.items[0].cross, 1);
    assert_near(w->r.items[0].px.y, 54.5, 0);
    assert_near(w->r.items[0].at.x, 88.9, 1e-9);  /* 3.5 x 25.4 */
    assert_near(w->r.items[0].at.y, 57.15, 1e-9); /* 2.25 x 25.4 */
    assert_near(w->r.items[1].at.x, 900, 1e-9);
    assert_near(w->r.items[1].at.y, -10.16, 1e-9);
}

static void what_may_be_left_out_has_its_default(void **state)
{
    struct world *w = *state;
    assert_true(parse(w, OPENING FRAME "\"readings\": [] }"));
    assert_int_equal(w->r.count, 0);
    assert_null(w->r.mat.name);
    assert_near(w->r.sigma_mm, CALIBRATION_TYPED_SIGMA_MM, 0);
}

static void each_fault_is_told_at_its_place(void **state)
{
    struct world *w = *state;
    static const struct {
        const char *text, *code, *path;
    } rows[] = {
        { OPENING "\"readings\": [" ONE "] }", "json.missing", NULL },
        { OPENING FRAME "\"readings\": [" ONE "], \"sigmas\": 1 }", "json.unknown_name", "sigmas" },
        { OPENING "\"frame\": { \"width\": 99, \"height\": 1080 }, \"readings\": [] }", "json.not_whole",
          "frame.width" },
        { OPENING "\"frame\": { \"width\": 1920, \"height\": 16385 }, \"readings\": [] }", "json.not_whole",
          "frame.height" },
        { OPENING FRAME "\"sigma\": 0, \"readings\": [] }", "values.out_of_bounds", "sigma" },
        { OPENING FRAME "\"mat\": 36, \"readings\": [] }", "json.wrong_type", "mat" },
        { OPENING FRAME "\"readings\": [7] }", "json.wrong_type", "readings[0]" },
        { OPENING FRAME "\"readings\": [" ONE ", { \"cross\": 0, \"pixel\": [1, 1], \"at\": [1, 1] }] }",
          "json.not_whole", "readings[1].cross" },
        { OPENING FRAME "\"readings\": [{ \"cross\": 10000, \"pixel\": [1, 1], \"at\": [1, 1] }] }", "json.not_whole",
          "readings[0].cross" },
        { OPENING FRAME "\"readings\": [{ \"cross\": 1, \"pixel\": [1, 1, 1], \"at\": [1, 1] }] }",
          "calibration.not_two", "readings[0].pixel" },
        { OPENING FRAME "\"readings\": [{ \"cross\": 1, \"pixel\": [1921, 1], \"at\": [1, 1] }] }",
          "calibration.off_frame", "readings[0].pixel" },
        { OPENING FRAME "\"readings\": [{ \"cross\": 1, \"pixel\": [1, -0.5], \"at\": [1, 1] }] }",
          "calibration.off_frame", "readings[0].pixel" },
        { OPENING FRAME "\"readings\": [{ \"cross\": 1, \"pixel\": [1, \"1\"], \"at\": [1, 1] }] }", "json.wrong_type",
          "readings[0].pixel[1]" },
        { OPENING FRAME "\"readings\": [{ \"cross\": 1, \"pixel\": [1, 1], \"at\": [] }] }", "calibration.not_two",
          "readings[0].at" },
        { OPENING FRAME "\"readings\": [{ \"cross\": 1, \"pixel\": [1, 1], \"at\": [1, \"one\"] }] }",
          "values.unread_length", "readings[0].at[1]" },
        { OPENING FRAME "\"readings\": [{ \"cross\": 1, \"pixel\": [1, 1], \"at\": [\"11 m\", 1] }] }",
          "calibration.too_far", "readings[0].at[0]" },
        { OPENING FRAME "\"readings\": [" ONE ", { \"cross\": 1, \"pixel\": [97, 54.5], \"at\": [1, 1] }] }",
          "calibration.moved", "readings[1]" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_false(parse(w, rows[i].text));
        const struct err *e = &w->errs->items[0];
        const char *path = e->place.path && e->place.path[0] ? e->place.path : NULL;
        bool same_path = path && rows[i].path ? strcmp(path, rows[i].path) == 0 : path == rows[i].path;
        if (strcmp(e->kind->code, rows[i].code) != 0 || !same_path || w->errs->faults != 1)
            fail_msg("row %zu: %s at %s, %d faults", i, e->kind->code, path ? path : "the top", w->errs->faults);
        assert_string_equal(e->place.file, "some.json");
    }
}

static void all_faults_are_told_at_once(void **state)
{
    struct world *w = *state;
    assert_false(parse(w, OPENING FRAME "\"readings\": [{ \"cross\": -1, \"pixel\": [1], \"at\": [true, 1] }, {}] }"));
    assert_int_equal(w->errs->faults, 3 + 3);
}

static void a_cross_may_be_read_twice_where_it_stands(void **state)
{
    struct world *w = *state;
    assert_true(parse(w, OPENING FRAME "\"readings\": [" ONE ", " ONE "] }"));
    assert_int_equal(w->r.count, 2);
}

static void the_edge_of_the_frame_belongs_to_it(void **state)
{
    struct world *w = *state;
    assert_true(parse(w, OPENING FRAME "\"readings\": [{ \"cross\": 9999, \"pixel\": [1920, 0], \"at\": [\"10 m\", "
                                       "\"-10 m\"] }] }"));
}

static void more_than_five_hundred_are_too_many(void **state)
{
    struct world *w = *state;
    for (int count = CALIBRATION_MOST_READINGS; count <= CALIBRATION_MOST_READINGS + 1; count++) {
        char *text = base_arena_alloc(w->a, 1, 100000);
        strcpy(text, OPENING FRAME "\"readings\": [" ONE);
        char *end = text + strlen(text);
        for (int i = 1; i < count; i++)
            end += sprintf(end, ",%s", ONE);
        strcpy(end, "] }");
        assert_int_equal(parse(w, text), count == CALIBRATION_MOST_READINGS);
    }
    assert_true(base_err_list_has(w->errs, "calibration.too_many"));
}

static void a_file_is_read_from_disk(void **state)
{
    struct world *w = *state;
    char *folder = support_folder_create();
    const char *path = base_arena_print(w->a, "%s/morning.json", folder);
    static const char text[] = OPENING FRAME "\"readings\": [" ONE "] }";
    assert_true(base_file_save(path, text, strlen(text), w->errs));
    assert_true(calibration_readings_read(w->a, path, &w->r, w->errs));
    assert_int_equal(w->r.count, 1);
    assert_false(calibration_readings_read(w->a, base_arena_print(w->a, "%s/none.json", folder), &w->r, w->errs));
    assert_true(base_err_list_has(w->errs, "file.cannot_open"));
    support_folder_remove(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_whole_file_is_read, open_world, close_world),
        cmocka_unit_test_setup_teardown(what_may_be_left_out_has_its_default, open_world, close_world),
        cmocka_unit_test_setup_teardown(each_fault_is_told_at_its_place, open_world, close_world),
        cmocka_unit_test_setup_teardown(all_faults_are_told_at_once, open_world, close_world),
        cmocka_unit_test_setup_teardown(a_cross_may_be_read_twice_where_it_stands, open_world, close_world),
        cmocka_unit_test_setup_teardown(the_edge_of_the_frame_belongs_to_it, open_world, close_world),
        cmocka_unit_test_setup_teardown(more_than_five_hundred_are_too_many, open_world, close_world),
        cmocka_unit_test_setup_teardown(a_file_is_read_from_disk, open_world, close_world),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
