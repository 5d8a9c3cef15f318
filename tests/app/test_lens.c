/* Sentences about the lens and the height of the cloth; numbers worked by hand on a light that falls straight. */
#include "app/lens.h"
#include "support/room.h"

/* 1400 mm wide and 787.4 deep about (700, 400): a corner lies 803.14 mm from the middle. */
static struct calibration_table table_under(double foot_x, double foot_y, double height_mm)
{
    return (struct calibration_table){
        .name = "t",
        .made = "2026-11-25",
        .unit = UNITS_MM,
        .map = { 1920, 1080, { 803.14, 0, 700, 0, -803.14, 400 } },
        .lens = { { foot_x, foot_y }, height_mm },
    };
}

static void has(const char *text, const char *part)
{
    if (!text || !strstr(text, part))
        fail_msg("“%s” is not in:\n%s", part, text ? text : "nothing");
}

static void plain(const char *text)
{
    static const char *const banned[] = { "residual", "covariance", "sigma",     "homography", "matrix", "parameter",
                                          "vector",   "error",      "deviation", "invalid",    "null" };
    for (size_t i = 0; i < sizeof banned / sizeof banned[0]; i++)
        if (strstr(text, banned[i]))
            fail_msg("“%s” is in:\n%s", banned[i], text);
}

/* 1000 / 2000 = 0.5; 803.14 / 2000 = 0.40, three times that 1.20; 803.14 x 100 / 1900 = 42.3. */
static void a_report_tells_what_the_height_does(void **state)
{
    struct room *room = *state;
    struct calibration_table t = table_under(700, 400, 2000);
    const char *text = app_lens_report(room->a, &t, UNITS_MM);
    plain(text);
    has(text, "hangs 2000 mm above the table, over the spot 700 mm along and 400 mm away");
    has(text, "a metre 0.5 mm short, and puts the light up to 0.4 mm off");
    has(text, "ruler 3 mm thick the light lies up to 1.2 mm nearer");
    has(text, "a hand 100 mm above the table up to 42 mm farther out");
    has(text, "From every side the shadows of head and arm fall back towards you; they cover least at the right side");
}

static void a_report_tells_where_to_stand(void **state)
{
    struct room *room = *state;
    struct calibration_table near = table_under(700, 0, 2000), left_and_far = table_under(-100, 900, 2000);
    has(app_lens_report(room->a, &near, UNITS_CM), "Stand at the right, far or left side, best at the far one");
    has(app_lens_report(room->a, &near, UNITS_CM), "At the near side they fall on the work before you");
    has(app_lens_report(room->a, &left_and_far, UNITS_CM), "Stand at the near or right side, best at the right one");
    has(app_lens_report(room->a, &left_and_far, UNITS_CM), "At the far or left side they fall on the work");
}

static void json_has_the_same_numbers(void **state)
{
    struct room *room = *state;
    struct calibration_table t = table_under(700, 400, 2000);
    struct json_out *top = json_out_create();
    app_lens_json(top, &t);
    const char *text = json_out_print(room->a, top);
    json_out_destroy(top);
    has(text, "\"height_mm\": 2000");
    has(text, "\"off_by_mm_for_each_mm_of_cloth\": 0.4015");
    has(text, "\"best_side\": \"right\"");
}

static void a_surface_is_told_by_its_height(void **state)
{
    struct room *room = *state;
    const struct calibration_surface none = { 0 }, felt = { 3, 2, CALIBRATION_MAT_STAYS, 0 },
                                     bare = { 0.5, 1, CALIBRATION_MAT_GOES, 3 };
    assert_string_equal(app_surface_text(room->a, &none), "where the table was set up");
    assert_string_equal(app_surface_text(room->a, &felt), "6 mm above the table");
    assert_string_equal(app_surface_text(room->a, &bare), "2.5 mm below the table");
}

/* Reckoned with a lens as high as 1.2 times the light's 1400 / hypot(960, 540) x 960 … = 1400 mm width: 1680 mm over
 * its middle. Then 6 mm put a corner off by 6 x 803.14 / 1680 = 2.87 mm, and 0.3 mm is reached at 0.63 mm of cloth. */
static void without_a_lens_thick_cloth_is_warned_of(void **state)
{
    struct room *room = *state;
    struct calibration_table t = table_under(0, 0, 0);
    const struct calibration_surface felt = { 3, 2, CALIBRATION_MAT_STAYS, 0 },
                                     silk = { 0.3, 2, CALIBRATION_MAT_STAYS, 0 },
                                     lawn = { 0.32, 2, CALIBRATION_MAT_STAYS, 0 },
                                     bare = { 0.5, 1, CALIBRATION_MAT_GOES, 3 };
    has(app_surface_warning(room->a, &t, &felt), "Cloth 6 mm above the table, lens not told: light about 2.9 mm off");
    plain(app_surface_warning(room->a, &t, &felt));
    assert_null(app_surface_warning(room->a, &t, &silk));
    assert_non_null(app_surface_warning(room->a, &t, &lawn));
    has(app_surface_warning(room->a, &t, &bare), "Cloth 2.5 mm below the table, lens not told: light about 1.2 mm off");
    t.lens.height_mm = 1800;
    assert_null(app_surface_warning(room->a, &t, &felt));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_report_tells_what_the_height_does),
        room_test(a_report_tells_where_to_stand),
        room_test(json_has_the_same_numbers),
        room_test(a_surface_is_told_by_its_height),
        room_test(without_a_lens_thick_cloth_is_warned_of),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
