#include "scene/look.h"
#include "support/cmocka_all.h"

static struct scene_look look_at(double mm_per_px, double weight_mm)
{
    return (struct scene_look){ mm_per_px, weight_mm, &scene_chalks[0] };
}

static void no_line_is_thinner_than_a_pixel_and_a_half(void **state)
{
    (void)state;
    for (double mm_per_px = 0.2; mm_per_px < 3; mm_per_px += 0.1)
        for (enum scene_line line = SCENE_CUT; line < SCENE_LINES; line++) {
            struct scene_look look = look_at(mm_per_px, 1.0);
            struct paint_pen pen = scene_pen(&look, line);
            assert_true(pen.width >= 1.5 * mm_per_px - 1e-12);
            for (int d = 0; d < PAINT_DASHES; d++)
                assert_true(pen.dash[d] <= 0 || pen.dash[d] >= 4 * mm_per_px - 1e-12);
        }
}

static void fine_pixels_leave_the_widths_as_they_are(void **state)
{
    (void)state;
    struct scene_look look = look_at(0.4, 3);
    assert_near(scene_pen(&look, SCENE_CUT).width, 3, 0);
    assert_near(scene_pen(&look, SCENE_FOLD).width, 2, 0);
    assert_near(scene_pen(&look, SCENE_SEAM).dash[0], 12, 0);
    assert_near(scene_pen(&look, SCENE_SEAM).dash[1], 6, 0);
    assert_near(scene_cut_width(&look), 3, 0);
}

static void kinds_that_may_meet_are_told_apart_without_colour(void **state)
{
    (void)state;
    struct scene_look look = look_at(0.8, 3);
    const enum scene_line kinds[] = { SCENE_CUT, SCENE_SEAM, SCENE_FOLD };
    for (int i = 0; i < 3; i++)
        for (int j = i + 1; j < 3; j++) {
            struct paint_pen a = scene_pen(&look, kinds[i]), b = scene_pen(&look, kinds[j]);
            assert_true(a.dash[0] != b.dash[0] || a.dash[2] != b.dash[2]);
        }
}

static void capitals_are_high_enough_to_read_from_a_metre(void **state)
{
    (void)state;
    struct scene_look fine = look_at(0.4, 3), coarse = look_at(1.2, 3);
    assert_near(scene_cap_height(&fine), 12, 0);
    assert_near(scene_cap_height(&coarse), 17.04, 1e-9);
    assert_true(0.141 * scene_cap_height(&fine) >= 1.5); /* thinnest stroke of the heavy face, measured share */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_line_is_thinner_than_a_pixel_and_a_half),
        cmocka_unit_test(fine_pixels_leave_the_widths_as_they_are),
        cmocka_unit_test(kinds_that_may_meet_are_told_apart_without_colour),
        cmocka_unit_test(capitals_are_high_enough_to_read_from_a_metre),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
