#include "scene/page.h"
#include "support/cmocka_all.h"

/* Maps by plain scale: pixels of 1000 x 600 at 1 mm, the way the picture may hang. rho = half the diagonal. */
static struct geometry_map map_of(double xu, double xv, double yu, double yv)
{
    double rho = 0.5 * sqrt(1000.0 * 1000 + 600.0 * 600);
    return (struct geometry_map){ 1000, 600, { xu * rho, xv * rho, 0, yu * rho, yv * rho, 0 } };
}

static const struct {
    const char *name;
    double xu, xv, yu, yv;
} maps[] = {
    { "upright", 1, 0, 0, -1 },       { "upside down", -1, 0, 0, 1 },  { "turned left", 0, 1, 1, 0 },
    { "turned right", 0, -1, -1, 0 }, { "from behind", -1, 0, 0, -1 }, { "a little askew", 0.98, 0.2, 0.2, -0.98 },
};

static void words_read_the_right_way_from_every_side_however_the_light_hangs(void **state)
{
    (void)state;
    for (size_t m = 0; m < sizeof maps / sizeof maps[0]; m++) {
        struct geometry_map map = map_of(maps[m].xu, maps[m].xv, maps[m].yu, maps[m].yv);
        for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
            struct scene_page page = scene_page_of(&map, side);
            struct px_pt at = scene_page_px(&page, page.width / 2, page.height / 2);
            struct px_pt right = { at.x + page.right.x, at.y + page.right.y },
                         up = { at.x + page.up.x, at.y + page.up.y };
            struct table_pt t = geometry_map_to_table(&map, at), r = geometry_map_to_table(&map, right),
                            u = geometry_map_to_table(&map, up);
            vec2 reading = { r.x - t.x, r.y - t.y }, rising = { u.x - t.x, u.y - t.y };
            if (vec2_dot(reading, scene_side_right(side)) < 0.9 || vec2_dot(rising, scene_side_away(side)) < 0.9)
                fail_msg("%s, from the %s side", maps[m].name, scene_side_name(side));
            assert_true(vec2_cross(reading, rising) > 0); /* never mirrored */
        }
    }
}

static void the_page_lies_in_the_frame(void **state)
{
    (void)state;
    for (size_t m = 0; m < sizeof maps / sizeof maps[0]; m++) {
        struct geometry_map map = map_of(maps[m].xu, maps[m].xv, maps[m].yu, maps[m].yv);
        for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
            struct scene_page page = scene_page_of(&map, side);
            struct px_pt near = scene_page_px(&page, 0, 0), far = scene_page_px(&page, page.width, page.height);
            assert_near(fmin(near.x, far.x), 0, 1e-9);
            assert_near(fmax(near.x, far.x), 1000, 1e-9);
            assert_near(fmin(near.y, far.y), 0, 1e-9);
            assert_near(fmax(near.y, far.y), 600, 1e-9);
        }
    }
}

/* Of 1000 x 600 mm the shape 1.33 squared to 1 takes all of the width: 1000 / 1.7689 = 565.3 mm high; 1.25 squared to 1
 * all of the height, 937.5 mm wide, which is less. */
static void the_light_box_touches_the_frame(void **state)
{
    (void)state;
    struct geometry_map map = map_of(1, 0, 0, -1);
    struct geometry_box box = scene_light_box(&map);
    assert_near(box.max.x - box.min.x, 1000, 1e-6);
    assert_near(box.max.y - box.min.y, 565.32, 0.01);
}

static void the_light_box_is_wholly_lit_and_nearly_as_large_as_an_upright_frame(void **state)
{
    (void)state;
    struct geometry_map map = map_of(1, 0, 0, -1);
    struct geometry_box box = scene_light_box(&map);
    double share = (box.max.x - box.min.x) * (box.max.y - box.min.y) / (1000.0 * 600);
    assert_true(share > 0.85 && share <= 1.0001);
    map = map_of(0.9, 0.4, 0.4, -0.9);
    box = scene_light_box(&map);
    const vec2 corners[] = { box.min, { box.max.x, box.min.y }, box.max, { box.min.x, box.max.y } };
    for (int i = 0; i < 4; i++) {
        struct px_pt px;
        assert_true(geometry_map_to_px(&map, (struct table_pt){ corners[i].x, corners[i].y }, &px));
        assert_true(px.x > -1 && px.x < 1001 && px.y > -1 && px.y < 601);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_read_the_right_way_from_every_side_however_the_light_hangs),
        cmocka_unit_test(the_page_lies_in_the_frame),
        cmocka_unit_test(the_light_box_touches_the_frame),
        cmocka_unit_test(the_light_box_is_wholly_lit_and_nearly_as_large_as_an_upright_frame),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
