#include "bench/line_place.h"
#include "paint/frame.h"
#include "support/cmocka_all.h"

#include <stdlib.h>
#include <string.h>

enum { SIDE = 128 };

/* One pixel is one millimetre, u = x and v = y: half the diagonal of the frame is 64 times the root of 2. */
static const struct geometry_map level = { SIDE,
                                           SIDE,
                                           { 90.50966799187809, 0, 64, 0, 90.50966799187809, 64, 0, 0, 0, 0, 0 } };

/* About 1.2 mm a pixel, mirrored, tilted, and a bent lens. */
static const struct geometry_map tilted = { SIDE,
                                            SIDE,
                                            { 100, 8, 250, 12, -115, 420, 0.1, -0.07, -0.1, 0.004, 0.003 } };

static const struct paint_ink white = { 0xffffff, 1 };

struct here {
    struct arena *a;
    struct paint_scene scene;
    struct paint_image image;
};

static int set_up(void **state)
{
    static struct here h;
    h.a = base_arena_create();
    h.scene = paint_scene_create(h.a);
    h.image = paint_image_create(h.a, SIDE, SIDE);
    *state = &h;
    return 0;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    base_arena_destroy(h->a);
    return 0;
}

static struct geometry_path path(struct here *h, const double *xy, size_t count, bool closed)
{
    struct geometry_path out = { base_arena_alloc(h->a, count, sizeof(vec2)), count, closed };
    for (size_t i = 0; i < count; i++)
        out.points[i] = (vec2){ xy[2 * i], xy[2 * i + 1] };
    return out;
}

static void stroke(struct here *h, const double *xy, size_t count, double width, struct paint_ink ink)
{
    paint_table_stroke(&h->scene.table, (struct table_path){ path(h, xy, count, false) },
                       (struct paint_pen){ .width = width }, ink);
}

static void fill(struct here *h, const double *xy, size_t count, struct paint_ink ink)
{
    struct table_path contour = { path(h, xy, count, true) };
    paint_table_fill(&h->scene.table, &contour, 1, ink);
}

static uint32_t pixel(const struct here *h, int x, int y)
{
    return h->image.pixels[(size_t)y * h->image.stride + (size_t)x];
}

static void paint(struct here *h, const struct geometry_map *map)
{
    assert_true(geometry_map_is_valid(map));
    paint_frame(h->a, &h->scene, map, &h->image);
}

/* Linear light of the green channel, in pixels. */
static double total_light(const struct here *h)
{
    double sum = 0;
    for (int y = 0; y < SIDE; y++)
        for (int x = 0; x < SIDE; x++)
            sum += paint_decode((uint8_t)(pixel(h, x, y) >> 8));
    return sum;
}

static void an_empty_scene_is_black(void **state)
{
    struct here *h = *state;
    memset(h->image.pixels, 0x55, sizeof(uint32_t) * SIDE * SIDE);
    paint(h, &level);
    for (size_t i = 0; i < SIDE * SIDE; i++)
        assert_int_equal(h->image.pixels[i], 0);
}

static void paths_of_too_few_points_draw_nothing(void **state)
{
    struct here *h = *state;
    stroke(h, (double[]){ 60, 60 }, 1, 20, white);
    fill(h, (double[]){ 20, 30, 40, 30 }, 2, white);
    paint(h, &level);
    assert_near(total_light(h), 0, 0);
}

/* The mean of two areas a quarter pixel up and left, and down and right: a side on the grid leaves (1 + 3/4) / 2 of the
 * light on the pixel inside and (0 + 1/4) / 2 outside, a corner (1 + 9/16) / 2 and (0 + 1/16) / 2. */
static void a_box_is_its_chalk_inside_and_fades_over_two_pixels(void **state)
{
    struct here *h = *state;
    fill(h, (double[]){ 20, 30, 40, 30, 40, 50, 20, 50 }, 4, (struct paint_ink){ 0xff9cc2, 1 });
    paint(h, &level);
    assert_int_equal(pixel(h, 30, 40), 0xff9cc2);
    assert_int_equal(pixel(h, 21, 48), 0xff9cc2);
    assert_int_equal(pixel(h, 30, 30) >> 16, paint_encode(7.0 / 8));
    assert_int_equal(pixel(h, 30, 29) >> 16, paint_encode(1.0 / 8));
    assert_int_equal(pixel(h, 39, 49) >> 16, paint_encode(25.0 / 32));
    assert_int_equal(pixel(h, 40, 50) >> 16, paint_encode(1.0 / 32));
    assert_int_equal(pixel(h, 30, 28), 0);
    assert_int_equal(pixel(h, 41, 40), 0);
}

/* A golden frame: the triangle (2, 2), (8, 2), (2, 8) in 64ths of a whole pixel, each the mean of the triangle's areas
 * in the two squares a quarter pixel up and left, and down and right of it. Worked out in exact fractions, apart from
 * paint: along a side 1/8 outside and 7/8 inside, on the slope (7/8 + 1/8) / 2, on either side of it 1/16 off 0 and 1.
 */
static void a_small_triangle_is_the_frame_that_fractions_give(void **state)
{
    enum { GOLDEN = 10 };
    static const double lit[GOLDEN][GOLDEN] = {
        { 0, 0, 0, 0, 0, 0, 0, 0, 0, 0 },       { 0, 2, 8, 8, 8, 8, 8, 5, 0, 0 },
        { 0, 8, 50, 56, 56, 56, 52, 24, 1, 0 }, { 0, 8, 56, 64, 64, 60, 32, 4, 0, 0 },
        { 0, 8, 56, 64, 60, 32, 4, 0, 0, 0 },   { 0, 8, 56, 60, 32, 4, 0, 0, 0, 0 },
        { 0, 8, 52, 32, 4, 0, 0, 0, 0, 0 },     { 0, 5, 24, 4, 0, 0, 0, 0, 0, 0 },
        { 0, 0, 1, 0, 0, 0, 0, 0, 0, 0 },       { 0, 0, 0, 0, 0, 0, 0, 0, 0, 0 },
    };
    struct here *h = *state;
    fill(h, (double[]){ 2, 2, 8, 2, 2, 8 }, 3, white);
    paint(h, &level);
    for (int y = 0; y < GOLDEN; y++)
        for (int x = 0; x < GOLDEN; x++)
            assert_int_equal(pixel(h, x, y), 0x010101 * (uint32_t)paint_encode(lit[y][x] / 64));
}

/* A chequer of single pixels, stripes two wide, and what of them lies in the picture. */
static void rasters_are_whole_pixels(void **state)
{
    struct here *h = *state;
    paint_raster(&h->scene.rasters, (struct paint_raster){ 10, 20, 14, 24, 1, 1, white });
    paint_raster(&h->scene.rasters, (struct paint_raster){ -3, SIDE - 1, 4, SIDE + 5, 2, 0, { 0xffffff, 0.5 } });
    paint(h, &level);
    for (int y = 20; y < 24; y++)
        for (int x = 10; x < 14; x++)
            assert_int_equal(pixel(h, x, y), (x + y) % 2 ? 0 : 0xffffff);
    assert_int_equal(pixel(h, 9, 20), 0);
    static const uint32_t stripes[] = { 0, 0xbcbcbc, 0xbcbcbc, 0, 0 }; /* from 3 to the left: lit, lit, dark, dark … */
    for (int x = 0; x < 5; x++)
        assert_int_equal(pixel(h, x, SIDE - 1), x < 4 ? stripes[x] : 0);
}

/* Fading pixels are rounded to bytes: at most half a byte's step of light (0.0045) on about 4 pixels a px of line. */
static void a_line_gives_as_much_light_as_it_is_long_wide_and_bright(void **state)
{
    struct here *h = *state;
    double length = sqrt(81 * 81 + 53 * 53);
    stroke(h, (double[]){ 20.3, 31.7, 101.3, 84.7 }, 2, 2.6, (struct paint_ink){ 0xffffff, 0.8 });
    paint(h, &level);
    assert_near(total_light(h), 0.8 * 2.6 * length, 0.0045 * length);
}

static void strokes_of_one_ink_do_not_brighten_where_they_cross(void **state)
{
    struct here *h = *state;
    struct paint_ink half = { 0xffffff, 0.5 };
    stroke(h, (double[]){ 10, 64, 118, 64 }, 2, 6, half);
    stroke(h, (double[]){ 64, 10, 64, 118 }, 2, 6, half);
    fill(h, (double[]){ 50, 50, 50, 78, 78, 78, 78, 50 }, 4, half); /* clockwise over both: nothing goes out either */
    paint(h, &level);
    uint32_t grey = 0x010101 * (uint32_t)paint_encode(0.5);
    assert_int_equal(pixel(h, 30, 63), grey);
    assert_int_equal(pixel(h, 63, 63), grey);
    assert_int_equal(pixel(h, 64, 64), grey);
    assert_int_equal(pixel(h, 54, 64), grey);
    assert_int_equal(pixel(h, 54, 54), grey);
    assert_int_equal(pixel(h, 64, 90), grey);
}

static void a_later_ink_covers_an_earlier_and_pixels_come_last(void **state)
{
    struct here *h = *state;
    struct px_path spot = { path(h, (double[]){ 60, 10, 70, 10, 70, 20, 60, 20 }, 4, true) };
    paint_px_fill(&h->scene.px, &spot, 1, (struct paint_ink){ 0x86ffb4, 1 });
    fill(h, (double[]){ 10, 10, 90, 10, 90, 90, 10, 90 }, 4, white);
    fill(h, (double[]){ 30, 10, 90, 10, 90, 90, 30, 90 }, 4, (struct paint_ink){ 0xffee4a, 1 });
    fill(h, (double[]){ 50, 50, 90, 50, 90, 90, 50, 90 }, 4, (struct paint_ink){ 0, 1 }); /* unlit on lit */
    paint(h, &level);
    assert_int_equal(pixel(h, 20, 50), 0xffffff);
    assert_int_equal(pixel(h, 40, 40), 0xffee4a);
    assert_int_equal(pixel(h, 65, 15), 0x86ffb4);
    assert_int_equal(pixel(h, 70, 70), 0);
}

static void a_hole_in_a_fill_stays_dark(void **state)
{
    struct here *h = *state;
    struct table_path contours[] = {
        { path(h, (double[]){ 10, 10, 10, 60, 60, 60, 60, 10 }, 4, true) },
        { path(h, (double[]){ 25, 25, 45, 25, 45, 45, 25, 45 }, 4, true) },
    };
    paint_table_fill(&h->scene.table, contours, 2, white);
    paint(h, &level);
    assert_int_equal(pixel(h, 15, 35), 0xffffff);
    assert_int_equal(pixel(h, 35, 35), 0);
}

/* ---- where lines are ---- */

static void assert_on_its_place(struct here *h, const struct geometry_map *map, struct px_pt middle, double angle,
                                double width_mm, double tolerance_px)
{
    struct table_pt at = geometry_map_to_table(map, middle);
    struct line_place line = { at, cos(angle), sin(angle) };
    double x = 400 * line.along_x, y = 400 * line.along_y;
    h->scene = paint_scene_create(h->a);
    stroke(h, (double[]){ at.x - x, at.y - y, at.x + x, at.y + y }, 2, width_mm, white);
    paint(h, map);
    struct px_pt off = line_place_off(&h->image, map, line, 8);
    assert_near(sqrt(off.x * off.x + off.y * off.y), 0, tolerance_px);
}

/* Upright and level lines keep what half pixels leave of the error, 0.031 / width; slanted lines average it out. */
static void the_middle_of_a_lines_light_is_the_middle_of_the_line(void **state)
{
    struct here *h = *state;
    for (int i = 0; i < 16; i++) {
        struct px_pt middle = { 64 + i / 16.0, 64 - i / 16.0 };
        assert_on_its_place(h, &level, middle, 0, 1.75, 0.022);
        assert_on_its_place(h, &level, middle, 1.5707963267948966, 1.75, 0.022);
        assert_on_its_place(h, &level, middle, 0.3 * i + 0.1, 2.25, 0.01);
    }
}

static void lines_bend_with_the_lens_and_keep_their_place(void **state)
{
    struct here *h = *state;
    const struct px_pt places[] = { { 64, 64 }, { 40.3, 38 }, { 90, 37.6 }, { 88.7, 91.1 }, { 37, 90 } };
    for (int i = 0; i < 5; i++)
        for (int turn = 0; turn < 12; turn++)
            assert_on_its_place(h, &tilted, places[i], 0.2617993877991494 * turn + 0.02, 3, 0.01);
}

/* ---- the edge of what can be seen ---- */

static void what_reaches_over_the_horizon_lights_the_whole_frame(void **state)
{
    struct here *h = *state;
    for (int bent = -1; bent <= 1; bent++) {
        struct geometry_map map = tilted;
        map.term[8] = 0.15 * bent;
        h->scene = paint_scene_create(h->a);
        fill(h, (double[]){ -1e7, -1e7, 1e7, -1e7, 1e7, 1e7, -1e7, 1e7 }, 4, white);
        paint(h, &map);
        for (int y = 0; y < SIDE; y++)
            for (int x = 0; x < SIDE; x++)
                assert_int_equal(pixel(h, x, y), 0xffffff);
    }
}

static void what_lies_elsewhere_on_the_table_lights_nothing(void **state)
{
    struct here *h = *state;
    fill(h, (double[]){ 5000, 0, 9000, 0, 9000, 4000, 5000, 4000 }, 4, white);
    stroke(h, (double[]){ -900, -1e7, -900, 1e7 }, 2, 3, white);
    paint(h, &tilted);
    assert_near(total_light(h), 0, 0);
}

static void the_same_scene_gives_the_same_bits(void **state)
{
    struct here *h = *state;
    static uint32_t before[SIDE * SIDE];
    for (int i = 0; i < 20; i++)
        stroke(h, (double[]){ 150 + 10 * i, 300, 400 - 17 * i, 550, 200, 420 }, 3, 1.5 + i,
               (struct paint_ink){ i % 3 ? 0xffee4a : 0x86d4ff, 0.8 });
    paint(h, &tilted);
    memcpy(before, h->image.pixels, sizeof before);
    assert_true(total_light(h) > 100);
    paint(h, &tilted);
    assert_memory_equal(before, h->image.pixels, sizeof before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(an_empty_scene_is_black, set_up, tear_down),
        cmocka_unit_test_setup_teardown(paths_of_too_few_points_draw_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_box_is_its_chalk_inside_and_fades_over_two_pixels, set_up, tear_down),
        cmocka_unit_test_setup_teardown(rasters_are_whole_pixels, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_small_triangle_is_the_frame_that_fractions_give, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_line_gives_as_much_light_as_it_is_long_wide_and_bright, set_up, tear_down),
        cmocka_unit_test_setup_teardown(strokes_of_one_ink_do_not_brighten_where_they_cross, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_later_ink_covers_an_earlier_and_pixels_come_last, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_hole_in_a_fill_stays_dark, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_middle_of_a_lines_light_is_the_middle_of_the_line, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lines_bend_with_the_lens_and_keep_their_place, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_reaches_over_the_horizon_lights_the_whole_frame, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_lies_elsewhere_on_the_table_lights_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_same_scene_gives_the_same_bits, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
