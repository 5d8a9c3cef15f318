/* The lines of equal doubt, read from the draw list, where a doubt of one term says by hand how it grows. */
#include "scene/crosses.h"
#include "support/room.h"

#include <math.h>

#define OF_PLACE 2.4477 /* sqrt(-2 ln 0.05) */
#define OF_LENGTH 1.95996
#define LINE_PX 2.0

/* A pixel is a millimetre; rho, half the frame's diagonal, is 500. */
static const struct geometry_map plain = { 800, 600, { 500, 0, 400, 0, -500, 300, 0, 0, 0, 0, 0 } };

/* Only how wide the whole is is in doubt: a place by 1 mm in 500 from the middle, either way. */
static struct calibration_doubt of_width(void)
{
    static struct px_pt hull[] = { { 100, 100 }, { 700, 100 }, { 700, 500 }, { 100, 500 } };
    struct calibration_doubt d = { .hull = hull, .hull_count = 4 };
    d.covariance[GEOMETRY_H00][GEOMETRY_H00] = 1;
    return d;
}

static struct paint_items drawn(struct arena *a, const struct calibration_doubt *doubt, enum scene_doubt_of of)
{
    struct scene_cross_view view = {
        .width_px = 800, .height_px = 600, .sticker_in_hand = -1, .map = &plain, .doubt = doubt, .doubt_of = of
    };
    return scene_crosses(a, &view).px.in;
}

static bool is_level(double mm)
{
    static const double levels[] = { 0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 1, 1.5, 2, 3, 5, 7, 10 };
    for (size_t i = 0; i < sizeof levels / sizeof levels[0]; i++)
        if (fabs(mm - levels[i]) < 0.01)
            return true;
    return false;
}

static void lines_run_where_a_place_is_off_by_their_level(void **state)
{
    struct calibration_doubt doubt = of_width();
    struct paint_items in = drawn(*state, &doubt, SCENE_DOUBT_OF_PLACES);
    size_t count = 0;
    for (size_t i = 0; i < in.count; i++) {
        struct geometry_path path = in.paths[in.items[i].first_path];
        if (in.items[i].kind != PAINT_STROKE || in.items[i].pen.width != LINE_PX)
            continue;
        for (size_t end = 0; end < 2; end++)
            if (!is_level(OF_PLACE * fabs(path.points[end].x - 400) / 500))
                fail_msg("a line at %.1f", path.points[end].x);
        count++;
    }
    assert_true(count > 100);
}

/* Of a line of 100 mm along, 0.39 mm everywhere: nowhere does it pass a level. */
static void where_it_is_the_same_all_over_there_is_no_line(void **state)
{
    struct calibration_doubt doubt = of_width();
    assert_near(calibration_doubt_hundred_mm(&plain, &doubt, (struct px_pt){ 100, 100 }), OF_LENGTH * 100 / 500, 1e-4);
    struct paint_items in = drawn(*state, &doubt, SCENE_DOUBT_OF_LINES);
    for (size_t i = 0; i < in.count; i++)
        assert_true(in.items[i].kind != PAINT_STROKE || in.items[i].pen.width != LINE_PX);
}

/* Each dash's middle lies outside the crosses, and there are some on every side. */
static void only_what_was_not_measured_is_hatched(void **state)
{
    struct calibration_doubt doubt = of_width();
    struct paint_items in = drawn(*state, &doubt, SCENE_DOUBT_OF_LINES);
    size_t left = 0, right = 0, above = 0, below = 0;
    for (size_t i = 0; i < in.count; i++) {
        struct geometry_path path = in.paths[in.items[i].first_path];
        if (in.items[i].kind != PAINT_STROKE)
            continue;
        vec2 at = vec2_lerp(path.points[0], path.points[1], 0.5);
        assert_false(at.x > 101 && at.x < 699 && at.y > 101 && at.y < 499);
        left += at.x < 100;
        right += at.x > 700;
        above += at.y < 100;
        below += at.y > 500;
    }
    assert_true(left > 5 && right > 5 && above > 5 && below > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(lines_run_where_a_place_is_off_by_their_level),
        room_arena_test(where_it_is_the_same_all_over_there_is_no_line),
        room_arena_test(only_what_was_not_measured_is_hatched),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
