#include "calibration/readings.h"

#include "support/room.h"

#include <string.h>

static bool parse(struct room *room, const char *text, struct calibration_readings *out)
{
    room_forget(room);
    return calibration_readings_parse(room->a, "some.json", text, strlen(text), out, room->errs);
}

#define OPENING "{ \"chalklight\": \"readings\", \"version\": 1, \"name\": \"morning\", \"unit\": \"in\", "
#define FRAME "\"frame\": { \"width\": 1920, \"height\": 1080 }, "
#define MAT                                                                                                            \
    "\"mat\": { \"name\": \"24 x 36 in\", \"unit\": \"in\", \"field\": { \"width\": 36, \"height\": 24 }, "            \
    "\"margin\": { \"left\": 0.5, \"right\": 0.5, \"near\": 0.5, \"far\": 0.5 }, \"ruling\": 1 }, "
#define ONE "{ \"cross\": 1, \"pixel\": [96, 54.5], \"at\": [3.5, \"2 1/4\"] }"

static void a_whole_file_is_read(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    assert_true(parse(room,
                      OPENING FRAME MAT "\"sigma\": \"0.2 mm\", \"readings\": [" ONE ", { \"cross\": 2, \"pixel\": "
                                        "[1824, 54], \"at\": [\"90 cm\", -0.4] }] }",
                      &r));
    assert_int_equal(room->errs->count, 0);
    assert_string_equal(r.name, "morning");
    assert_int_equal(r.unit, UNITS_IN);
    assert_int_equal(r.width_px, 1920);
    assert_int_equal(r.height_px, 1080);
    assert_near(r.sigma_mm, 0.2, 1e-12);
    assert_string_equal(r.mat.name, "24 x 36 in");
    assert_int_equal(r.count, 2);
    assert_int_equal(r.items[0].cross, 1);
    assert_near(r.items[0].px.y, 54.5, 0);
    assert_near(r.items[0].at.x, 88.9, 1e-9);  /* 3.5 x 25.4 */
    assert_near(r.items[0].at.y, 57.15, 1e-9); /* 2.25 x 25.4 */
    assert_near(r.items[1].at.x, 900, 1e-9);
    assert_near(r.items[1].at.y, -10.16, 1e-9);
}

static void what_may_be_left_out_has_its_default(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    assert_true(parse(room, OPENING FRAME "\"readings\": [] }", &r));
    assert_int_equal(r.count, 0);
    assert_null(r.mat.name);
    assert_near(r.sigma_mm, CALIBRATION_TYPED_SIGMA_MM, 0);
}

static void each_fault_is_told_at_its_place(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    static const struct {
        const char *text, *code, *path;
    } rows[] = {
        { OPENING "\"readings\": [" ONE "] }", "json.missing", "" },
        { OPENING FRAME "\"readings\": [" ONE "], \"sigmas\": 1 }", "json.unknown_name", "sigmas" },
        { OPENING "\"frame\": { \"width\": 99, \"height\": 1080 }, \"readings\": [] }", "json.not_whole",
          "frame.width" },
        { OPENING "\"frame\": { \"width\": 1920, \"height\": 16385 }, \"readings\": [] }", "json.not_whole",
          "frame.height" },
        { OPENING FRAME "\"sigma\": 0, \"readings\": [] }", "calibration.no_sigma", "sigma" },
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
        assert_false(parse(room, rows[i].text, &r));
        assert_string_equal(room_only_told_at(room, rows[i].code, rows[i].path)->place.file, "some.json");
    }
}

static void all_faults_are_told_at_once(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    assert_false(
        parse(room, OPENING FRAME "\"readings\": [{ \"cross\": -1, \"pixel\": [1], \"at\": [true, 1] }, {}] }", &r));
    assert_int_equal(room->errs->faults, 3 + 3);
}

static void a_cross_may_be_read_twice_where_it_stands(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    assert_true(parse(room, OPENING FRAME "\"readings\": [" ONE ", " ONE "] }", &r));
    assert_int_equal(r.count, 2);
}

static void the_edge_of_the_frame_belongs_to_it(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    assert_true(parse(room,
                      OPENING FRAME "\"readings\": [{ \"cross\": 9999, \"pixel\": [1920, 0], \"at\": [\"10 m\", "
                                    "\"-10 m\"] }] }",
                      &r));
}

static void more_than_five_hundred_are_too_many(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    for (int count = CALIBRATION_MOST_READINGS; count <= CALIBRATION_MOST_READINGS + 1; count++) {
        char *text = base_arena_alloc(room->a, 1, 100000);
        strcpy(text, OPENING FRAME "\"readings\": [" ONE);
        char *end = text + strlen(text);
        for (int i = 1; i < count; i++)
            end += sprintf(end, ",%s", ONE);
        strcpy(end, "] }");
        assert_int_equal(parse(room, text, &r), count == CALIBRATION_MOST_READINGS);
    }
    assert_true(base_err_list_has(room->errs, "calibration.too_many"));
}

static void a_file_is_read_from_disk(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    const char *path = room_put(room, "morning.json", OPENING FRAME "\"readings\": [" ONE "] }");
    assert_true(calibration_readings_read(room->a, path, &r, room->errs));
    assert_int_equal(r.count, 1);
    assert_false(calibration_readings_read(room->a, room_path(room, "none.json"), &r, room->errs));
    assert_true(base_err_list_has(room->errs, "file.cannot_open"));
}

/* A fresh file of crosses: one sentence, not two for each cross; what is filled in is proof-read all the same. */
static void crosses_that_still_wait_are_one_sentence(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    const char *blank = "{ \"cross\": 4, \"pixel\": [10, 10], \"at\": [\"along?\", \"away?\"] }";
    assert_false(
        parse(room, base_arena_print(room->a, OPENING FRAME "\"readings\": [%s, %s, %s] }", blank, ONE, blank), &r));
    assert_int_equal(room->errs->faults, 1);
    assert_true(base_err_list_has(room->errs, "calibration.waiting"));
    assert_near(room->errs->items[0].args[0].number, 2, 0);
    assert_near(room->errs->items[0].args[1].number, 3, 0);
    assert_near(room->errs->items[0].args[2].number, 4, 0);
}

static void crosses_beside_the_mat_are_remembered(void **state)
{
    struct room *room = *state;
    struct calibration_readings r, again;
    assert_true(parse(room, OPENING FRAME "\"readings\": [" ONE "], \"beside\": [3, 12] }", &r));
    const char *text = calibration_readings_print(room->a, &r);
    assert_true(parse(room, text, &again));
    assert_int_equal(again.beside_count, 2);
    assert_int_equal(again.beside[0], 3);
    assert_int_equal(again.beside[1], 12);
    assert_false(parse(room, OPENING FRAME "\"readings\": [" ONE "], \"beside\": [0, \"3\"] }", &r));
    assert_int_equal(room->errs->faults, 2);
}

#define OPENING_2 "{ \"chalklight\": \"readings\", \"version\": 2, \"name\": \"t\", \"unit\": \"cm\", "
#define TAPE "\"kind\": \"distance\", \"cross\": 1, \"pixel\": [96, 54.5], \"other\": 2, "

static void readings_of_every_kind_are_read_and_written(void **state)
{
    struct room *room = *state;
    struct calibration_readings r, again;
    assert_true(parse(room,
                      OPENING_2 FRAME "\"sigma\": \"0.4 mm\", \"eye_sigma\": \"0.15 mm\", \"nudge_pixels\": 0.1, "
                                      "\"tape_sigma\": \"1 mm\", \"readings\": ["
                                      "{ \"cross\": 1, \"pixel\": [96, 54.5], \"at\": [1, 2] }, "
                                      "{ \"kind\": \"nudge\", \"cross\": 1, \"pixel\": [97.25, 54.5], \"at\": [1, 3], "
                                      "\"place\": 2, \"sigma\": \"0.2 mm\" }, "
                                      "{ " TAPE "\"other_pixel\": [900, 54.5], \"distance\": 80.5 }] }",
                      &r));
    for (int round = 0; round < 2; round++) {
        assert_int_equal(r.count, 3);
        assert_near(r.sigma_mm, 0.4, 1e-12);
        assert_near(r.eye_mm, 0.15, 1e-12);
        assert_near(r.nudge_px, 0.1, 0);
        assert_near(r.tape_mm, 1, 1e-12);
        assert_int_equal(r.items[0].kind, CALIBRATION_POSITION);
        assert_int_equal(r.items[0].place, 0);
        assert_near(r.items[0].sigma_mm, 0, 0);
        assert_int_equal(r.items[1].kind, CALIBRATION_NUDGE);
        assert_int_equal(r.items[1].place, 1);
        assert_near(r.items[1].sigma_mm, 0.2, 1e-12);
        assert_near(r.items[1].at.y, 30, 1e-12);
        assert_int_equal(r.items[2].kind, CALIBRATION_DISTANCE);
        assert_int_equal(r.items[2].other, 2);
        assert_near(r.items[2].other_px.x, 900, 0);
        assert_near(r.items[2].distance_mm, 805, 1e-12);
        assert_true(parse(room, calibration_readings_print(room->a, &r), &again));
        r = again;
    }
}

static void a_file_of_version_1_is_still_read(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    assert_true(parse(room,
                      "{ \"chalklight\": \"readings\", \"version\": 1, \"name\": \"old\", \"unit\": \"in\", " FRAME
                      "\"sigma\": \"0.3 mm\", \"readings\": [{ \"cross\": 3, \"pixel\": [7, 8], \"at\": [1, "
                      "\"1/2\"] }] }",
                      &r));
    assert_int_equal(r.items[0].kind, CALIBRATION_POSITION);
    assert_near(r.items[0].at.x, 25.4, 1e-12);
    assert_near(r.items[0].at.y, 12.7, 1e-12);
    assert_false(parse(room, "{ \"chalklight\": \"readings\", \"version\": 3 }", &r));
}

static void faults_of_mixed_readings_are_told_at_their_place(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    static const struct {
        const char *reading, *code, *path;
    } rows[] = {
        { "\"kind\": \"guess\", \"cross\": 1, \"pixel\": [1, 1], \"at\": [1, 1]", "calibration.no_kind",
          "readings[0].kind" },
        { "\"cross\": 1, \"pixel\": [1, 1], \"at\": [1, 1], \"sigma\": 0", "calibration.no_sigma",
          "readings[0].sigma" },
        { "\"cross\": 1, \"pixel\": [1, 1], \"at\": [1, 1], \"sigma\": -1", "calibration.no_sigma",
          "readings[0].sigma" },
        { "\"cross\": 1, \"pixel\": [1, 1], \"at\": [1, 1], \"place\": 9", "json.not_whole", "readings[0].place" },
        { "\"cross\": 1, \"pixel\": [1, 1], \"at\": [1, 1], \"place\": 2", "calibration.no_place", "readings" },
        { "\"cross\": 1, \"pixel\": [1, 1], \"at\": [1, 1], \"distance\": 2", "json.unknown_name",
          "readings[0].distance" },
        { TAPE "\"other_pixel\": [900, 54.5], \"distance\": 0", "values.out_of_bounds", "readings[0].distance" },
        { TAPE "\"other_pixel\": [9000, 54.5], \"distance\": 9", "calibration.off_frame", "readings[0].other_pixel" },
        { TAPE "\"other_pixel\": [96, 54.5], \"distance\": 9", "calibration.one_cross", "readings[0]" },
        { TAPE "\"other_pixel\": [900, 54.5]", "json.missing", "readings[0]" },
        { TAPE
          "\"other_pixel\": [900, 54.5], \"distance\": 9 }, { \"cross\": 2, \"pixel\": [901, 54.5], \"at\": [1, 1]",
          "calibration.moved", "readings[1]" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *text = base_arena_print(room->a, OPENING_2 FRAME "\"readings\": [{ %s }] }", rows[i].reading);
        assert_false(parse(room, text, &r));
        room_only_told_at(room, rows[i].code, rows[i].path);
    }
    assert_false(parse(room, OPENING_2 FRAME "\"nudge_pixels\": 0, \"readings\": [" ONE "] }", &r));
    room_only_told_at(room, "calibration.no_pixels", "nudge_pixels");
}

/* Read again it may well fall at the same place, so that it is only warned of; as a nudge it is no copy. */
static void a_reading_that_stands_there_twice_is_warned_of(void **state)
{
    struct room *room = *state;
    struct calibration_readings r;
    const char *nudge = "{ \"kind\": \"nudge\", \"cross\": 1, \"pixel\": [96, 54.5], \"at\": [1, 2] }";
    assert_true(parse(room, base_arena_print(room->a, OPENING_2 FRAME "\"readings\": [" ONE ", %s] }", nudge), &r));
    assert_int_equal(room->errs->count, 0);
    assert_true(parse(room, OPENING_2 FRAME "\"readings\": [" ONE ", " ONE "] }", &r));
    room_only_told_at(room, "calibration.doubled", "readings[1]");
    assert_int_equal(r.count, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_whole_file_is_read),
        room_test(what_may_be_left_out_has_its_default),
        room_test(each_fault_is_told_at_its_place),
        room_test(all_faults_are_told_at_once),
        room_test(a_cross_may_be_read_twice_where_it_stands),
        room_test(the_edge_of_the_frame_belongs_to_it),
        room_test(more_than_five_hundred_are_too_many),
        room_test(a_file_is_read_from_disk),
        room_test(crosses_that_still_wait_are_one_sentence),
        room_test(crosses_beside_the_mat_are_remembered),
        room_test(readings_of_every_kind_are_read_and_written),
        room_test(a_file_of_version_1_is_still_read),
        room_test(faults_of_mixed_readings_are_told_at_their_place),
        room_test(a_reading_that_stands_there_twice_is_warned_of),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
