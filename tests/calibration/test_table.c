#include "calibration/table.h"

#include "cases.h"
#include "support/room.h"

#include <string.h>

enum { TWELVE = sizeof twelve / sizeof twelve[0] };

struct world {
    struct room room;
    struct calibration_table table;
};

/* The table of the twelve certified readings, on a mat. */
static int open_world(void **state)
{
    static struct world w;
    room_init(&w.room);
    struct calibration_readings r = readings_of(w.room.a, twelve, TWELVE);
    struct calibration_solution s;
    r.unit = UNITS_CM;
    r.mat = (struct calibration_mat){ "24 x 36 in", UNITS_IN, 914.4, 609.6, { 12.7, 12.7, 6.35, 19.05 }, 25.4 };
    if (!calibration_solve(w.room.a, "case", &r, CALIBRATION_LENS_WEAK, &s, w.room.errs))
        return -1;
    w.table = calibration_table_of(w.room.a, &r, &s, "2026-11-25");
    *state = &w;
    return 0;
}

static bool parse(struct world *w, const char *text, struct calibration_table *out)
{
    room_forget(&w->room);
    return calibration_table_parse(w->room.a, "some.json", text, strlen(text), out, w->room.errs);
}

static void assert_same(const struct calibration_table *got, const struct calibration_table *want)
{
    assert_string_equal(got->name, want->name);
    assert_string_equal(got->made, want->made);
    assert_int_equal(got->sample, want->sample);
    assert_int_equal(got->unit, want->unit);
    assert_int_equal(got->map.width_px, want->map.width_px);
    assert_int_equal(got->map.height_px, want->map.height_px);
    assert_memory_equal(got->map.term, want->map.term, sizeof want->map.term);
    assert_memory_equal(&got->rms_mm, &want->rms_mm, sizeof want->rms_mm);
    assert_memory_equal(&got->worst_mm, &want->worst_mm, sizeof want->worst_mm);
    assert_int_equal(got->readings, want->readings);
    assert_int_equal(got->display != NULL, want->display != NULL);
    if (want->display)
        assert_string_equal(got->display, want->display);
    assert_int_equal(got->checked_count, want->checked_count);
    assert_memory_equal(got->checked, want->checked, sizeof want->checked);
    assert_int_equal(got->stickers.count, want->stickers.count);
    assert_memory_equal(got->stickers.px, want->stickers.px, sizeof want->stickers.px);
    assert_int_equal(got->mat.name != NULL, want->mat.name != NULL);
    assert_near(got->mat.width_mm, want->mat.width_mm, 0);
    assert_near(got->mat.ruling_mm, want->mat.ruling_mm, 0);
    assert_near(got->lens.height_mm, want->lens.height_mm,
                1e-9); /* lengths in the file's unit: all but their last bit */
    assert_near(got->lens.foot.x, want->lens.foot.x, 1e-9);
    assert_near(got->lens.foot.y, want->lens.foot.y, 1e-9);
    assert_int_equal(got->has_doubt, want->has_doubt);
    assert_memory_equal(got->doubt.covariance, want->doubt.covariance, sizeof want->doubt.covariance);
    assert_int_equal(got->doubt.hull_count, want->doubt.hull_count);
    assert_memory_equal(got->doubt.hull, want->doubt.hull, want->doubt.hull_count * sizeof *want->doubt.hull);
}

static void a_solution_makes_a_table(void **state)
{
    struct world *w = *state;
    assert_string_equal(w->table.name, "case");
    assert_false(w->table.sample);
    assert_int_equal(w->table.readings, TWELVE);
    assert_near(w->table.map.term[GEOMETRY_K1], twelve_terms[GEOMETRY_K1], 1e-9);
    assert_true(w->table.worst_mm >= w->table.rms_mm && w->table.rms_mm > 0);
}

static void a_table_comes_back_bit_for_bit(void **state)
{
    struct world *w = *state;
    struct calibration_table back;
    assert_true(parse(w, calibration_table_print(w->room.a, &w->table), &back));
    assert_int_equal(w->room.errs->count, 0);
    assert_same(&back, &w->table);

    w->table.sample = true;
    w->table.mat = (struct calibration_mat){ 0 };
    assert_true(parse(w, calibration_table_print(w->room.a, &w->table), &back));
    assert_same(&back, &w->table);
    assert_null(strstr(calibration_table_print(w->room.a, &w->table), "mat"));
    assert_null(strstr(calibration_table_print(w->room.a, &w->table), "lens"));

    w->table.lens = (struct calibration_lens_place){ { 455.5, -120.25 }, 1803.3 };
    assert_true(parse(w, calibration_table_print(w->room.a, &w->table), &back));
    assert_same(&back, &w->table);
}

/* The twelve crosses stand in three rows: four corners are around them. */
static void a_table_keeps_its_doubt(void **state)
{
    struct world *w = *state;
    assert_true(w->table.has_doubt);
    assert_int_equal(w->table.doubt.hull_count, 4);
    double mm = calibration_doubt_place_mm(&w->table.map, &w->table.doubt, (struct px_pt){ 96, 54 });
    assert_true(mm > 0.3 && mm < 1.5);

    /* In a frame of half the size the same place is at half the pixels. */
    calibration_table_reframe(&w->table, 960, 540);
    assert_near(calibration_doubt_place_mm(&w->table.map, &w->table.doubt, (struct px_pt){ 48, 27 }), mm, 1e-12);
    assert_true(calibration_doubt_is_measured(&w->table.doubt, (struct px_pt){ 49, 28 }));
    assert_false(calibration_doubt_is_measured(&w->table.doubt, (struct px_pt){ 47, 28 }));
}

static void a_table_is_read_from_disk(void **state)
{
    struct world *w = *state;
    struct calibration_table back;
    w->table.checked[0] = (struct calibration_checked){ 1400, 1400.5, 1.75 };
    w->table.checked[1] = (struct calibration_checked){ 100, 99.5, 1.5 };
    w->table.checked_count = 2;
    w->table.display = "HDMI-1 10\"";
    w->table.stickers = (struct calibration_stickers){ { { 40.25, 60 }, { 1900, 1000.75 } }, 2 };
    const char *path = room_put(&w->room, "table.json", calibration_table_print(w->room.a, &w->table));
    assert_true(calibration_table_read(w->room.a, path, &back, w->room.errs));
    assert_same(&back, &w->table);
}

#define TABLE(made, sample, frame, h, k1, residual, readings)                                                          \
    "{ \"chalklight\": \"table\", \"version\": 1, \"name\": \"t\", \"unit\": \"mm\", \"made\": " made                  \
    ", \"sample\": " sample ", \"frame\": " frame ", \"map\": { \"h\": " h ", \"k1\": " k1                             \
    ", \"p1\": 0, \"p2\": 0 }, \"residual\": " residual ", \"readings\": " readings " }"
#define DATE "\"2026-11-25\""
#define FRAME "{ \"width\": 1920, \"height\": 1080 }"
#define H "[700, 0, 500, 0, -700, 400, 0, 0]"
#define LENS(lens) TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"lens\": " lens)
#define ELEVEN "0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0"
#define REST ELEVEN ", " ELEVEN ", " ELEVEN ", " ELEVEN ", " ELEVEN ", 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]"
#define ZEROS "[0, " REST
#define BELOW "[-1, " REST
#define RESIDUAL "{ \"rms\": 0.2, \"worst\": 0.5 }"

static void a_table_written_by_hand_is_read(void **state)
{
    struct world *w = *state;
    struct calibration_table back;
    assert_true(parse(w, TABLE(DATE, "true", FRAME, H, "0.01", RESIDUAL, "9"), &back));
    assert_true(back.sample);
    assert_near(back.map.term[GEOMETRY_H11], -700, 0);
    assert_near(back.map.term[GEOMETRY_K1], 0.01, 0);
    assert_null(back.mat.name);
    assert_false(back.has_doubt); /* version 1 had none */
}

static void a_lens_is_read_in_the_tables_unit_or_its_own(void **state)
{
    struct world *w = *state;
    struct calibration_table back;
    assert_true(parse(w, LENS("{ \"height\": 1800, \"foot\": [\"18 in\", -12.5] }"), &back));
    assert_true(calibration_lens_is_known(&back.lens));
    assert_near(back.lens.height_mm, 1800, 0);
    assert_near(back.lens.foot.x, 457.2, 1e-9); /* 18 x 25.4 */
    assert_near(back.lens.foot.y, -12.5, 0);
}

static void each_fault_is_told_at_its_place(void **state)
{
    struct world *w = *state;
    static const struct {
        const char *text, *code, *path;
    } rows[] = {
        { TABLE("\"25.11.2026\"", "false", FRAME, H, "0", RESIDUAL, "9"), "calibration.no_date", "made" },
        { TABLE("\"2026-13-25\"", "false", FRAME, H, "0", RESIDUAL, "9"), "calibration.no_date", "made" },
        { TABLE(DATE, "\"no\"", FRAME, H, "0", RESIDUAL, "9"), "calibration.not_yes_or_no", "sample" },
        { TABLE(DATE, "false", "{ \"width\": 1920 }", H, "0", RESIDUAL, "9"), "json.missing", "frame" },
        { TABLE(DATE, "false", "{ \"width\": 1920, \"height\": 99 }", H, "0", RESIDUAL, "9"), "json.not_whole",
          "frame.height" },
        { TABLE(DATE, "false", FRAME, "[700, 0, 500, 0, -700, 400, 0]", "0", RESIDUAL, "9"), "calibration.wrong_terms",
          "map.h" },
        { TABLE(DATE, "false", FRAME, "[700, 0, 500, 0, -700, 400, 0, null]", "0", RESIDUAL, "9"), "json.wrong_type",
          "map.h[7]" },
        { TABLE(DATE, "false", FRAME, H, "\"0\"", RESIDUAL, "9"), "json.wrong_type", "map.k1" },
        { TABLE(DATE, "false", FRAME, H, "-0.9", RESIDUAL, "9"), "calibration.folds", "map" },
        { TABLE(DATE, "false", FRAME, "[700, 0, 500, 0, -700, 400, 1.5, 0]", "0", RESIDUAL, "9"), "calibration.folds",
          "map" },
        { TABLE(DATE, "false", FRAME, "[700, 700, 500, 700, 700, 400, 0, 0]", "0", RESIDUAL, "9"), "calibration.folds",
          "map" },
        { TABLE(DATE, "false", FRAME, "[1e308, 0, 1e308, 0, 1e308, 0, 0, 0]", "0", RESIDUAL, "9"), "calibration.folds",
          "map" },
        { TABLE(DATE, "false", FRAME, H, "0", "{ \"rms\": -1, \"worst\": 0.5 }", "9"), "calibration.no_residual",
          "residual.rms" },
        { TABLE(DATE, "false", FRAME, H, "0", "{ \"rms\": 0, \"worst\": 0.5, \"best\": 0 }", "9"), "json.unknown_name",
          "residual.best" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "3"), "json.not_whole", "readings" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"mat\": null"), "json.wrong_type", "mat" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"stickers\": 2"), "json.wrong_type", "stickers" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL,
                "9, \"checked\": [{ \"drawn\": 9, \"taped\": -9, \"may_be_off\": 1 }]"),
          "calibration.no_residual", "checked[0].taped" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"checked\": [{ \"drawn\": 9, \"taped\": 9 }]"),
          "json.missing", "checked[0]" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"checked\": [9, 9, 9, 9, 9]"), "calibration.wrong_terms",
          "checked" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"stickers\": [[9, 9]]"), "calibration.stickers",
          "stickers" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"stickers\": [[9, 9], [9]]"), "calibration.not_two",
          "stickers[1]" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"stickers\": [[9, 9], [\"9\", 9]]"), "json.wrong_type",
          "stickers[1][0]" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"stickers\": [[9, 9], [1921, 9]]"),
          "calibration.off_frame", "stickers[1]" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"stickers\": [[9, 9], [400, 9]]"),
          "calibration.stickers_close", "stickers" },
        { LENS("1800"), "json.wrong_type", "lens" },
        { LENS("{ \"foot\": [0, 0] }"), "json.missing", "lens" },
        { LENS("{ \"height\": 1800 }"), "json.missing", "lens" },
        { LENS("{ \"height\": 180, \"foot\": [0, 0] }"), "values.out_of_bounds", "lens.height" },
        { LENS("{ \"height\": 1800, \"foot\": [0] }"), "calibration.not_two", "lens.foot" },
        { LENS("{ \"height\": 1800, \"foot\": [0, \"11 m\"] }"), "calibration.foot_too_far", "lens.foot[1]" },
        { LENS("{ \"height\": 1800, \"foot\": [0, 0], \"tilt\": 3 }"), "json.unknown_name", "lens.tilt" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"doubt\": 1"), "json.wrong_type", "doubt" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL, "9, \"doubt\": { \"covariance\": [1], \"measured\": [] }"),
          "calibration.wrong_terms", "doubt.covariance" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL,
                "9, \"doubt\": { \"covariance\": " ZEROS ", \"measured\": [[1]] }"),
          "calibration.wrong_terms", "doubt.measured[0]" },
        { TABLE(DATE, "false", FRAME, H, "0", RESIDUAL,
                "9, \"doubt\": { \"covariance\": " BELOW ", \"measured\": [] }"),
          "calibration.negative", "doubt.covariance[0]" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct calibration_table back;
        assert_false(parse(w, rows[i].text, &back));
        room_only_told_at(&w->room, rows[i].code, rows[i].path);
    }
}

static void another_kind_or_a_newer_version_is_refused(void **state)
{
    struct world *w = *state;
    struct calibration_table back;
    assert_false(parse(w, "{ \"chalklight\": \"mat\", \"version\": 1 }", &back));
    assert_false(parse(w, "{ \"chalklight\": \"table\", \"version\": 3 }", &back));
    assert_false(parse(w, "{ \"chalklight\": \"table\"", &back));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_solution_makes_a_table, open_world, room_close),
        cmocka_unit_test_setup_teardown(a_table_comes_back_bit_for_bit, open_world, room_close),
        cmocka_unit_test_setup_teardown(a_table_keeps_its_doubt, open_world, room_close),
        cmocka_unit_test_setup_teardown(a_table_is_read_from_disk, open_world, room_close),
        cmocka_unit_test_setup_teardown(a_table_written_by_hand_is_read, open_world, room_close),
        cmocka_unit_test_setup_teardown(a_lens_is_read_in_the_tables_unit_or_its_own, open_world, room_close),
        cmocka_unit_test_setup_teardown(each_fault_is_told_at_its_place, open_world, room_close),
        cmocka_unit_test_setup_teardown(another_kind_or_a_newer_version_is_refused, open_world, room_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
