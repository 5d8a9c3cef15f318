/* The frame is true to scale: proved on the virtual table, which shares no code with the program. */
#include "support/room.h"
#include "table/rig.h"

#include <math.h>
#include <string.h>

/* With thirteen readings of 0.3 mm the study behind the calibration puts a place 0.3 to 0.9 mm off (95 %) and a 100 mm
 * line 0.05 to 0.15 mm; these are the tolerances stated in README, with room for the worst of the set-ups. */
#define SQUARE_TOLERANCE_MM 0.5
#define EXACT_SQUARE_MM 0.1
#define EXACT_FRAME_MM 0.2
#define SIGMA_MM 0.3

struct rig {
    struct room room;
    struct text_font *font;
};

static int set_up(void **state)
{
    static struct rig rig;
    room_init(&rig.room);
    rig.font = text_font_open(rig.room.errs);
    *state = &rig;
    return rig.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct rig *rig = *state;
    text_font_close(rig->font);
    return room_close(state);
}

/* The error of the 100 mm square on a set-up with a table. */
static double square_error(struct rig *rig, const struct vt_setup *setup, const struct calibration_table *table)
{
    struct app *app = rig_app(rig->room.a, table, NULL, rig->room.errs);
    assert_non_null(app);
    app_set_mode(app, SCENE_TEST_SQUARE);
    struct arena *frame = base_arena_create();
    struct vt_pt corner[4] = { 0 };
    rig_square(frame, app, corner);
    struct paint_image image = rig_paint(frame, app);
    double error = rig_square_error(setup, &image, corner, 100);
    base_arena_destroy(frame);
    return error;
}

static void the_square_is_exact_with_exact_readings(void **state)
{
    struct rig *rig = *state;
    size_t count;
    const struct vt_setup *setups = vt_standard_setups(&count);
    for (size_t i = 0; i < count; i++) {
        struct calibration_table table;
        if (!rig_exact_table(rig->room.a, &setups[i], &table, rig->room.errs))
            fail_msg("%s: readings refused", setups[i].name);
        double error = square_error(rig, &setups[i], &table);
        if (!(error <= EXACT_SQUARE_MM))
            fail_msg("%s: the square is %.3f mm off", setups[i].name, error);
    }
}

/* A table from a person's readings. About one clean set in a hundred looks like a mistake and is refused; she reads
 * again then. *again counts how often. */
static struct calibration_table table_of_person(struct rig *rig, const struct vt_setup *setup, uint64_t seed,
                                                int *again)
{
    struct vt_noise noise = { seed };
    struct calibration_table table;
    struct calibration_readings readings = rig_read(rig->room.a, setup, RIG_READINGS, SIGMA_MM, &noise);
    while (!rig_calibrate(rig->room.a, &readings, &table, rig->room.errs)) {
        if (++*again > 2)
            fail_msg("%s: clean readings are refused too often", setup->name);
        readings = rig_read(rig->room.a, setup, RIG_READINGS, SIGMA_MM, &noise);
    }
    return table;
}

static void the_square_is_right_with_a_persons_readings(void **state)
{
    struct rig *rig = *state;
    size_t count;
    int again = 0;
    const struct vt_setup *setups = vt_standard_setups(&count);
    for (size_t i = 0; i < count; i++) {
        struct calibration_table table = table_of_person(rig, &setups[i], 100 + i, &again);
        double error = square_error(rig, &setups[i], &table);
        if (!(error <= SQUARE_TOLERANCE_MM))
            fail_msg("%s: the square is %.3f mm off", setups[i].name, error);
    }
}

/* The largest lit rectangle: a tape finds its sides as they are written. */
static void the_test_frame_is_exact_with_exact_readings(void **state)
{
    struct rig *rig = *state;
    size_t count;
    const struct vt_setup *setups = vt_standard_setups(&count);
    for (size_t i = 0; i < count; i++) {
        struct calibration_table table;
        struct vt_pt corner[4] = { 0 };
        struct vt_quad quad;
        assert_true(rig_exact_table(rig->room.a, &setups[i], &table, rig->room.errs));
        struct app *app = rig_app(rig->room.a, &table, NULL, rig->room.errs);
        app_set_mode(app, SCENE_TEST_FRAME);
        struct arena *frame = base_arena_create();
        rig_square(frame, app, corner);
        struct paint_image image = rig_paint(frame, app);
        struct vt_frame light = rig_frame(&image);
        if (!vt_measure_quad(&setups[i], &light, corner, 4, &quad))
            fail_msg("%s: the frame cannot be measured", setups[i].name);
        double width = corner[1].x - corner[0].x, height = corner[2].y - corner[1].y;
        assert_near(fmod(width, 50), 0, 1e-6);
        assert_true(width > 300 && height > 300);
        assert_near(quad.side_mm[0], width, EXACT_FRAME_MM);
        assert_near(quad.side_mm[1], height, EXACT_FRAME_MM);
        assert_near(quad.diagonal_mm[0], hypot(width, height), EXACT_FRAME_MM);
        assert_near(quad.diagonal_mm[1], hypot(width, height), EXACT_FRAME_MM);
        base_arena_destroy(frame);
    }
}

/* The cut line of the frame's one piece: the stroke without dashes that has the most points. */
static struct geometry_path cut_line_of(const struct paint_scene *scene)
{
    struct geometry_path best = { NULL, 0, false };
    for (size_t i = 0; i < scene->table.in.count; i++) {
        const struct paint_item *item = &scene->table.in.items[i];
        struct geometry_path path = scene->table.in.paths[item->first_path];
        if (item->kind == PAINT_STROKE && item->pen.dash[0] <= 0 && path.count > best.count)
            best = path;
    }
    return best;
}

/* What the draw list holds is the drafted piece, moved and nothing else: every distance is kept, and only turning over
 * changes its handedness. */
static void placing_keeps_every_distance(void **state)
{
    struct rig *rig = *state;
    size_t count;
    struct calibration_table table;
    assert_true(rig_exact_table(rig->room.a, &vt_standard_setups(&count)[0], &table, rig->room.errs));
    struct app *app = rig_app(rig->room.a, &table, NULL, rig->room.errs);
    assert_true(app_show_piece(app, "strap"));
    struct paint_scene first = app_scene(app, rig->room.a);
    app_place(app, (struct geometry_motion){ true, 17.3, { 40, -25 } });
    struct paint_scene second = app_scene(app, rig->room.a);
    struct geometry_path one = cut_line_of(&first), other = cut_line_of(&second);
    assert_int_equal(one.count, other.count);
    for (size_t i = 0; i < one.count; i += 5)
        for (size_t j = i + 1; j < one.count; j += 7)
            assert_near(vec2_length(vec2_sub(one.points[i], one.points[j])),
                        vec2_length(vec2_sub(other.points[i], other.points[j])), 1e-9);
    assert_near(geometry_path_area(other), -geometry_path_area(one), 1e-6);
}

/* The controls: what the same checks say of frames that are wrong. */
static void an_uncalibrated_frame_does_not_pass(void **state)
{
    struct rig *rig = *state;
    size_t count, tilted = 0;
    const struct vt_setup *setups = vt_standard_setups(&count);
    for (size_t i = 0; i < count; i++) {
        if (setups[i].tilt_deg < 10 || setups[i].turn_deg != 0)
            continue;
        /* The plain throw-ratio map of a projector that hangs straight: scale from throw and height alone. */
        double mm_per_px = setups[i].height_mm / setups[i].throw_ratio / setups[i].width_px;
        double rho = 0.5 * sqrt((double)setups[i].width_px * setups[i].width_px +
                                (double)setups[i].height_px * setups[i].height_px);
        struct calibration_table table = { .name = "none", .made = "", .unit = UNITS_MM };
        table.map = (struct geometry_map){ setups[i].width_px,
                                           setups[i].height_px,
                                           { mm_per_px * rho, 0, 450, 0, -mm_per_px * rho, 300 } };
        assert_true(geometry_map_is_valid(&table.map));
        double error = square_error(rig, &setups[i], &table);
        if (error <= SQUARE_TOLERANCE_MM)
            fail_msg("%s: an uncalibrated frame passed with %.3f mm", setups[i].name, error);
        tilted++;
    }
    assert_true(tilted >= 3);
}

static void one_wrong_reading_among_thirteen_is_refused(void **state)
{
    struct rig *rig = *state;
    size_t count;
    const struct vt_setup *setups = vt_standard_setups(&count);
    for (size_t i = 0; i < count; i++) {
        struct vt_noise noise = { 900 + i };
        struct calibration_readings readings = rig_read(rig->room.a, &setups[i], RIG_READINGS, SIGMA_MM, &noise);
        struct calibration_table table;
        readings.items[i % RIG_READINGS].at.x += 10;
        if (rig_calibrate(rig->room.a, &readings, &table, rig->room.errs))
            fail_msg("%s: a reading 10 mm wrong was taken", setups[i].name);
    }
    assert_true(base_err_list_has(rig->room.errs, "calibration.contradict"));
}

/* Four readings cannot contradict each other, so a wrong one is drawn; the check sees it. */
static void a_frame_from_a_wrong_reading_does_not_pass(void **state)
{
    struct rig *rig = *state;
    size_t count, drawn = 0;
    const struct vt_setup *setups = vt_standard_setups(&count);
    for (size_t i = 0; i < count; i++) {
        struct vt_noise noise = { 40 + i };
        struct calibration_readings all = rig_read(rig->room.a, &setups[i], RIG_READINGS, 0, &noise);
        struct calibration_reading corners[4] = { all.items[0], all.items[2], all.items[6], all.items[8] };
        struct calibration_readings readings = all;
        struct calibration_table table;
        readings.items = corners;
        readings.count = 4;
        corners[i % 4].at.y += 10;
        if (!rig_calibrate(rig->room.a, &readings, &table, rig->room.errs))
            continue; /* refused: as good */
        double error = square_error(rig, &setups[i], &table);
        if (error <= SQUARE_TOLERANCE_MM)
            fail_msg("%s: a wrong reading passed with %.3f mm", setups[i].name, error);
        drawn++;
    }
    assert_true(drawn + 2 >= count); /* hardly any is refused for the map it gives */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_square_is_exact_with_exact_readings, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_test_frame_is_exact_with_exact_readings, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_square_is_right_with_a_persons_readings, set_up, tear_down),
        cmocka_unit_test_setup_teardown(placing_keeps_every_distance, set_up, tear_down),
        cmocka_unit_test_setup_teardown(an_uncalibrated_frame_does_not_pass, set_up, tear_down),
        cmocka_unit_test_setup_teardown(one_wrong_reading_among_thirteen_is_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_frame_from_a_wrong_reading_does_not_pass, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
