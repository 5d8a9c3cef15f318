/* A person walks through the crosses on the virtual table: she types what she sees, and the table that comes out is
 * true. */
#include "app/walk.h"
#include "input/key.h"
#include "support/room.h"
#include "table/rig.h"

#include <string.h>

#define SQUARE_TOLERANCE_MM 0.5 /* with readings to a tenth of a millimetre and 0.2 mm of noise */

static const struct vt_setup *setup;

struct here {
    struct room room;
    struct text_font *font;
    struct app_walk *walk;
};

static struct app_walk *begin(struct here *h, const struct calibration_readings *before)
{
    struct app_walk_start start = { .width_px = setup->width_px,
                                    .height_px = setup->height_px,
                                    .name = "walked",
                                    .unit = UNITS_MM,
                                    .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                    .font = h->font,
                                    .before = before };
    return app_walk_create(h->room.a, &start);
}

static int set_up(void **state)
{
    static struct here h;
    size_t count;
    setup = &vt_standard_setups(&count)[0];
    room_init(&h.room);
    h.font = text_font_open(h.room.errs);
    h.walk = begin(&h, NULL);
    *state = &h;
    return h.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    text_font_close(h->font);
    return room_close(state);
}

static struct app_walk_effects press(struct here *h, const char *name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(name, &event.key, &event.mods));
    return app_walk_handle(h->walk, event);
}

static void type(struct here *h, const char *text)
{
    for (; *text; text++) {
        struct input_event event = { .type = INPUT_KEY };
        event.key = *text == ' ' ? KEY_SPACE : KEY_CHAR + *text;
        app_walk_handle(h->walk, event);
    }
}

static struct app_walk_effects answer(struct here *h, double x, double y)
{
    char text[32];
    snprintf(text, sizeof text, "%.1f", x);
    type(h, text);
    press(h, "enter");
    snprintf(text, sizeof text, "%.1f", y);
    type(h, text);
    return press(h, "enter");
}

/* The cross that is shown: the middle of the four arms, read from the draw list. */
static struct px_pt shown_cross(struct here *h)
{
    struct paint_items in = app_walk_scene(h->walk, h->room.a).px.in;
    for (size_t i = 0; i + 2 < in.count; i++) {
        struct geometry_path one = in.paths[in.items[i].first_path], other = in.paths[in.items[i + 2].first_path];
        bool arm = in.items[i].kind == PAINT_STROKE && one.count == 2 && in.items[i].ink.level >= 1;
        if (!arm)
            continue;
        vec2 middle = vec2_lerp(one.points[0], other.points[0], 0.5);
        return (struct px_pt){ middle.x, middle.y };
    }
    fail_msg("no cross is shown");
    return (struct px_pt){ 0, 0 };
}

/* What she reads of the cross that is shown. */
static void look(struct here *h, double sigma_mm, struct vt_noise *noise, double *x, double *y)
{
    struct px_pt px = shown_cross(h);
    assert_true(vt_reading(setup, px.x, px.y, sigma_mm, noise, x, y));
}

static double square_error(struct here *h)
{
    struct calibration_table table = app_walk_table(h->walk, h->room.a, "2026-11-25");
    struct app *app = rig_app(h->room.a, &table, NULL, h->room.errs);
    struct vt_pt corner[4];
    app_set_mode(app, SCENE_TEST_SQUARE);
    rig_square(h->room.a, app, corner);
    struct paint_image image = rig_paint(h->room.a, app);
    return rig_square_error(setup, &image, corner, 100);
}

static void thirteen_typed_readings_make_a_true_table(void **state)
{
    struct here *h = *state;
    struct vt_noise noise = { 5 };
    double x, y;
    press(h, "enter"); /* the cautions */
    for (int i = 0; i < APP_WALK_CROSSES; i++) {
        look(h, 0.2, &noise, &x, &y);
        assert_true(answer(h, x, y).save);
        assert_int_equal(app_walk_readings(h->walk, h->room.a).count, i + 1);
    }
    assert_true(press(h, "enter").done);
    double error = square_error(h);
    if (!(error <= SQUARE_TOLERANCE_MM))
        fail_msg("the square is %.3f mm off", error);
}

static void a_slip_is_questioned_at_once_and_read_again(void **state)
{
    struct here *h = *state;
    struct vt_noise noise = { 6 };
    double x, y;
    press(h, "enter");
    for (int i = 0; i < APP_WALK_CROSSES; i++) {
        look(h, 0.2, &noise, &x, &y);
        if (i == 9) { /* an inch too far */
            answer(h, x + 25.4, y);
            assert_int_equal(app_walk_readings(h->walk, h->room.a).count, 10);
            assert_true(press(h, "enter").save); /* the question, of this very cross: read it again */
            assert_int_equal(app_walk_readings(h->walk, h->room.a).count, 9);
        }
        answer(h, x, y);
    }
    assert_true(press(h, "enter").done);
    assert_true(square_error(h) <= SQUARE_TOLERANCE_MM);
}

static void a_wrong_reading_that_is_kept_makes_no_table(void **state)
{
    struct here *h = *state;
    struct vt_noise noise = { 7 };
    double x, y;
    press(h, "enter");
    for (int i = 0; i < APP_WALK_CROSSES; i++) {
        look(h, 0.2, &noise, &x, &y);
        answer(h, i == 9 ? x + 25.4 : x, y);
        if (i >= 9 && i < APP_WALK_CROSSES - 1)
            press(h, "k");
    }
    assert_false(press(h, "enter").done);
}

static void arrows_nudge_to_her_own_right_and_away_on_every_side(void **state)
{
    struct here *h = *state;
    static const vec2 right[] = { { 1, 0 }, { 0, -1 }, { -1, 0 }, { 0, 1 } }; /* pixels run down */
    static const vec2 away[] = { { 0, -1 }, { -1, 0 }, { 0, 1 }, { 1, 0 } };
    press(h, "enter");
    press(h, "page down"); /* from the frame's corner to a cross that may move every way */
    for (int side = 0; side < 4; side++, press(h, "tab")) {
        struct px_pt before = shown_cross(h);
        press(h, "ctrl right");
        struct px_pt after = shown_cross(h);
        assert_near(after.x - before.x, right[side].x / 4, 1e-9);
        assert_near(after.y - before.y, right[side].y / 4, 1e-9);
        before = after;
        press(h, "up");
        after = shown_cross(h);
        assert_near(after.x - before.x, away[side].x, 1e-9);
        assert_near(after.y - before.y, away[side].y, 1e-9);
    }
}

static void a_nudged_cross_is_read_where_it_stands(void **state)
{
    struct here *h = *state;
    press(h, "enter");
    struct px_pt before = shown_cross(h);
    press(h, "shift right");
    press(h, "ctrl up");
    answer(h, 10, 20);
    struct calibration_readings r = app_walk_readings(h->walk, h->room.a);
    assert_int_equal(r.count, 1);
    assert_near(r.items[0].px.x, before.x + 16, 1e-9);
    assert_near(r.items[0].px.y, before.y - 0.25, 1e-9);
    assert_near(r.items[0].at.x, 10, 1e-9);
    assert_near(r.items[0].at.y, 20, 1e-9);
}

static void no_cross_leaves_the_frame(void **state)
{
    struct here *h = *state;
    press(h, "enter");
    for (int i = 0; i < 500; i++)
        press(h, "shift left");
    struct px_pt at = shown_cross(h);
    assert_true(at.x >= 0 && at.x < 16);
}

static void what_is_no_length_is_not_taken(void **state)
{
    struct here *h = *state;
    press(h, "enter");
    type(h, "12//3");
    press(h, "enter");
    type(h, "5");
    press(h, "enter");
    press(h, "enter");
    assert_int_equal(app_walk_readings(h->walk, h->room.a).count, 0);
}

static void an_inch_fraction_and_rubbing_out_work(void **state)
{
    struct here *h = *state;
    struct app_walk_start start = { .width_px = 1280,
                                    .height_px = 800,
                                    .name = "in",
                                    .unit = UNITS_IN,
                                    .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                    .font = h->font };
    h->walk = app_walk_create(h->room.a, &start);
    press(h, "enter");
    type(h, "13 3/8");
    press(h, "backspace");
    type(h, "4");
    press(h, "enter");
    type(h, "2-1/2");
    press(h, "enter");
    struct calibration_readings r = app_walk_readings(h->walk, h->room.a);
    assert_int_equal(r.count, 1);
    assert_near(r.items[0].at.x, 13.75 * 25.4, 1e-9);
    assert_near(r.items[0].at.y, 2.5 * 25.4, 1e-9);
}

static void a_walk_goes_on_from_readings_made_before(void **state)
{
    struct here *h = *state;
    struct vt_noise noise = { 8 };
    double x, y;
    press(h, "enter");
    for (int i = 0; i < 5; i++) {
        look(h, 0, &noise, &x, &y);
        answer(h, x, y);
    }
    /* Through the file, as after a power cut. */
    struct calibration_readings made = app_walk_readings(h->walk, h->room.a), again;
    const char *text = calibration_readings_print(h->room.a, &made);
    assert_true(calibration_readings_parse(h->room.a, "r", text, strlen(text), &again, h->room.errs));
    h->walk = begin(h, &again);
    press(h, "enter");
    for (int i = 5; i < APP_WALK_CROSSES; i++) {
        look(h, 0, &noise, &x, &y);
        answer(h, x, y);
    }
    assert_int_equal(app_walk_readings(h->walk, h->room.a).count, APP_WALK_CROSSES);
    assert_true(press(h, "enter").done);
    assert_true(square_error(h) <= 0.1);
}

static void crosses_beside_the_mat_are_left_out(void **state)
{
    struct here *h = *state;
    struct vt_noise noise = { 9 };
    double x, y;
    press(h, "enter");
    for (int i = 0; i < APP_WALK_CROSSES; i++) {
        look(h, 0.1, &noise, &x, &y);
        if (i == 2 || i == 10)
            press(h, "b");
        else
            answer(h, x, y);
    }
    assert_int_equal(app_walk_readings(h->walk, h->room.a).count, APP_WALK_CROSSES - 2);
    assert_true(press(h, "enter").done);
}

/* A file with a cross that is not one of the walk's, filled in by hand, loses nothing. */
static void readings_of_other_crosses_are_kept(void **state)
{
    struct here *h = *state;
    struct calibration_reading items[] = { { 3, { 700, 90 }, { 10, 20 } }, { 20, { 50.5, 60.5 }, { 1, 2 } } };
    struct calibration_readings before = { .name = "b", .items = items, .count = 2 };
    h->walk = begin(h, &before);
    press(h, "enter");
    answer(h, 5, 6);
    struct calibration_readings r = app_walk_readings(h->walk, h->room.a);
    assert_int_equal(r.count, 3);
    assert_int_equal(r.items[0].cross, 1);
    assert_int_equal(r.items[1].cross, 3);
    assert_near(r.items[1].px.x, 700, 0);
    assert_int_equal(r.items[2].cross, 20);
    assert_near(r.items[2].px.y, 60.5, 0);
    assert_near(r.items[2].at.y, 2, 0);
}

/* "along" alone changes nothing: leaving a read cross half answered keeps what was read of it. */
static void half_an_answer_is_no_reading(void **state)
{
    struct here *h = *state;
    press(h, "enter");
    answer(h, 10, 20);
    press(h, "page up");
    type(h, "99");
    press(h, "enter");
    press(h, "page down");
    struct calibration_readings r = app_walk_readings(h->walk, h->room.a);
    assert_int_equal(r.count, 1);
    assert_near(r.items[0].at.x, 10, 1e-9);
    assert_near(r.items[0].at.y, 20, 1e-9);
}

static void what_lies_beside_the_mat_is_not_taken(void **state)
{
    struct here *h = *state;
    struct app_walk_start start = { .width_px = 1280,
                                    .height_px = 800,
                                    .name = "m",
                                    .unit = UNITS_CM,
                                    .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                    .mat = { .name = "mat", .unit = UNITS_CM, .width_mm = 900, .height_mm = 600 },
                                    .font = h->font };
    h->walk = app_walk_create(h->room.a, &start);
    press(h, "enter");
    answer(h, 1500, 20); /* 15.00 without its point */
    assert_int_equal(app_walk_readings(h->walk, h->room.a).count, 0);
}

/* All read before: the result stands at once, and the table can be taken without reading again. */
static void a_finished_walk_opens_at_its_result(void **state)
{
    struct here *h = *state;
    struct vt_noise noise = { 8 };
    double x, y;
    press(h, "enter");
    for (int i = 0; i < APP_WALK_CROSSES; i++) {
        look(h, 0, &noise, &x, &y);
        answer(h, x, y);
    }
    struct calibration_readings made = app_walk_readings(h->walk, h->room.a);
    h->walk = begin(h, &made);
    press(h, "enter");
    assert_true(press(h, "enter").done);
}

/* The walk may end early: End shows what the readings give so far. */
static void nine_readings_may_be_enough(void **state)
{
    struct here *h = *state;
    struct vt_noise noise = { 8 };
    double x, y;
    press(h, "enter");
    for (int i = 0; i < 9; i++) {
        look(h, 0.1, &noise, &x, &y);
        answer(h, x, y);
    }
    press(h, "end");
    assert_true(press(h, "enter").done);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(thirteen_typed_readings_make_a_true_table, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_slip_is_questioned_at_once_and_read_again, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_wrong_reading_that_is_kept_makes_no_table, set_up, tear_down),
        cmocka_unit_test_setup_teardown(arrows_nudge_to_her_own_right_and_away_on_every_side, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_nudged_cross_is_read_where_it_stands, set_up, tear_down),
        cmocka_unit_test_setup_teardown(no_cross_leaves_the_frame, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_is_no_length_is_not_taken, set_up, tear_down),
        cmocka_unit_test_setup_teardown(an_inch_fraction_and_rubbing_out_work, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_walk_goes_on_from_readings_made_before, set_up, tear_down),
        cmocka_unit_test_setup_teardown(readings_of_other_crosses_are_kept, set_up, tear_down),
        cmocka_unit_test_setup_teardown(half_an_answer_is_no_reading, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_lies_beside_the_mat_is_not_taken, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_finished_walk_opens_at_its_result, set_up, tear_down),
        cmocka_unit_test_setup_teardown(nine_readings_may_be_enough, set_up, tear_down),
        cmocka_unit_test_setup_teardown(crosses_beside_the_mat_are_left_out, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
