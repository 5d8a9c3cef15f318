/* A raised surface against rays followed in space: by this test, and by the virtual table, whose table plane is raised
 * by letting its lens hang that much lower. */
#include "calibration/height.h"

#include "calibration/fit.h"
#include "setups.h"
#include "support/room.h"
#include "virtual_table.h"

enum { DRAWS = 500, SIDE = 5 };

struct space_pt {
    double x, y, z;
};

/* Where the line through two points of space meets a level. */
static struct table_pt met(struct space_pt a, struct space_pt b, double level)
{
    double t = (level - a.z) / (b.z - a.z);
    return (struct table_pt){ a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };
}

static struct calibration_lens_place some_lens(struct dice *d)
{
    return (struct calibration_lens_place){ { 3000 * even(d) - 1000, 3000 * even(d) - 1000 }, 400 + 2600 * even(d) };
}

static struct space_pt in_space(const struct calibration_lens_place *lens)
{
    return (struct space_pt){ lens->foot.x, lens->foot.y, lens->height_mm };
}

static struct px_pt some_px(struct dice *d, const struct geometry_map *map)
{
    return (struct px_pt){ map->width_px * even(d), map->height_px * even(d) };
}

static void the_raised_map_is_where_the_rays_meet_the_level(void **state)
{
    (void)state;
    struct dice d = { 1 };
    for (int i = 0; i < DRAWS; i++) {
        struct geometry_map map = true_map(&d);
        struct calibration_lens_place lens = some_lens(&d);
        double raise = 80 * even(&d) - 20;
        struct geometry_map raised = calibration_raised(&map, &lens, raise);
        struct px_pt px = some_px(&d, &map), back;
        struct table_pt on_table = geometry_map_to_table(&map, px), at = geometry_map_to_table(&raised, px);
        struct table_pt want = met(in_space(&lens), (struct space_pt){ on_table.x, on_table.y, 0 }, raise);
        assert_near(at.x, want.x, 1e-9);
        assert_near(at.y, want.y, 1e-9);
        if (!geometry_map_is_valid(&map))
            continue;
        assert_true(geometry_map_is_valid(&raised));
        assert_true(geometry_map_to_px(&raised, want, &back));
        assert_near(back.x, px.x, 1e-8);
        assert_near(back.y, px.y, 1e-8);
        assert_memory_equal(&raised.term[GEOMETRY_K1], &map.term[GEOMETRY_K1], 3 * sizeof map.term[0]);
    }
}

static void a_surface_not_raised_has_the_tables_own_map(void **state)
{
    (void)state;
    struct dice d = { 2 };
    struct geometry_map map = true_map(&d);
    struct calibration_lens_place lens = some_lens(&d);
    struct geometry_map same = calibration_raised(&map, &lens, 0);
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++)
        assert_near(same.term[i], map.term[i], 1e-12);
}

/* A map of a set-up from exact readings over the whole frame. */
static struct geometry_map map_of(struct arena *a, const struct vt_setup *setup)
{
    struct calibration_readings r = { .name = setup->name,
                                      .unit = UNITS_MM,
                                      .width_px = setup->width_px,
                                      .height_px = setup->height_px,
                                      .sigma_mm = 0.001,
                                      .items = base_arena_alloc(a, SIDE * SIDE, sizeof *r.items),
                                      .count = SIDE * SIDE };
    for (int i = 0; i < SIDE * SIDE; i++) {
        struct px_pt px = { (double)(i % SIDE) / (SIDE - 1) * setup->width_px,
                            (double)(i / SIDE) / (SIDE - 1) * setup->height_px };
        struct table_pt at;
        assert_true(vt_px_to_mat(setup, px.x, px.y, &at.x, &at.y));
        r.items[i] = calibration_position(i + 1, px, at);
    }
    struct calibration_model model = calibration_model_of(a, &r, CALIBRATION_LENS_WEAK, 0);
    struct calibration_fit fit;
    assert_true(calibration_fit(a, &model, NULL, &fit));
    return fit.at.map;
}

static double off_at(const struct geometry_map *map, const struct vt_setup *truth, struct px_pt px)
{
    struct table_pt is = geometry_map_to_table(map, px), at;
    assert_true(vt_px_to_mat(truth, px.x, px.y, &at.x, &at.y));
    return hypot(is.x - at.x, is.y - at.y);
}

static struct calibration_lens_place lens_of(const struct vt_setup *setup)
{
    return (struct calibration_lens_place){ { setup->foot_x_mm, setup->foot_y_mm }, setup->height_mm };
}

/* What the table's own map is off by is all the raised one is off by, on tables tilted, turned and bent by the lens. */
static void the_virtual_table_raised_is_the_raised_map(void **state)
{
    static const double raises[] = { -3, 0.5, 6, 40 };
    struct room *room = *state;
    size_t count;
    const struct vt_setup *setups = vt_standard_setups(&count);
    for (size_t s = 0; s < count; s++)
        for (size_t r = 0; r < sizeof raises / sizeof raises[0]; r++) {
            struct geometry_map map = map_of(room->a, &setups[s]);
            struct calibration_lens_place lens = lens_of(&setups[s]);
            struct geometry_map raised = calibration_raised(&map, &lens, raises[r]);
            struct vt_setup truth = setups[s];
            struct dice d = { s };
            truth.height_mm -= raises[r];
            for (int i = 0; i < 20; i++) {
                struct px_pt px = some_px(&d, &map);
                double before = off_at(&map, &setups[s], px), after = off_at(&raised, &truth, px);
                assert_true(before < 0.03);
                assert_near(after, before * (1 - raises[r] / lens.height_mm), 1e-9);
            }
        }
}

/* Worked by hand: at 1800 mm a mm of cloth draws a metre 1000 / 1800 = 0.556 mm short, at 500 mm 2 mm. */
static void light_moves_by_the_share_of_the_height(void **state)
{
    (void)state;
    struct calibration_lens_place high = { { 200, 100 }, 1800 }, low = { { 200, 100 }, 500 };
    struct table_pt at = { 800, 900 }; /* 600 and 800 from the foot: a metre */
    assert_near(calibration_light_moves_mm(&high, at, 1), 1000.0 / 1800, 1e-12);
    assert_near(calibration_light_moves_mm(&low, at, 1), 2, 1e-12);
    assert_near(calibration_light_moves_mm(&low, at, -3), 6, 1e-12);
    assert_near(calibration_light_moves_mm(&low, low.foot, 3), 0, 0);
}

/* The light meant for a place, followed to the top of a ruler there. */
static void light_on_a_ruler_is_where_the_ray_meets_its_top(void **state)
{
    (void)state;
    struct dice d = { 3 };
    for (int i = 0; i < DRAWS; i++) {
        struct calibration_lens_place lens = some_lens(&d);
        struct table_pt at = { 1500 * even(&d), 900 * even(&d) };
        struct table_pt top = met(in_space(&lens), (struct space_pt){ at.x, at.y, 0 }, 3);
        assert_near(calibration_light_moves_mm(&lens, at, 3), hypot(top.x - at.x, top.y - at.y), 1e-9);
    }
}

static const struct geometry_map straight = { /* 1400 mm wide about (700, 400), 787.5 deep */
                                              1920,
                                              1080,
                                              { 803.14, 0, 700, 0, -803.14, 400 }
};

static void light_moves_most_in_the_corner_farthest_from_the_foot(void **state)
{
    (void)state;
    struct calibration_lens_place lens = { { 900, 600 }, 1800 };
    struct table_pt corner = calibration_farthest_corner(&straight, &lens);
    struct table_pt near_left = geometry_map_to_table(&straight, (struct px_pt){ 0, 1080 });
    assert_near(corner.x, near_left.x, 1e-9);
    assert_near(corner.y, near_left.y, 1e-9);
}

static void the_usual_lens_hangs_over_the_middle_at_a_fifth_more_than_the_width(void **state)
{
    (void)state;
    struct calibration_lens_place lens = calibration_usual_lens(&straight);
    assert_near(lens.foot.x, 700, 1e-9);
    assert_near(lens.foot.y, 400, 1e-9);
    double half = 803.14 * 960 / hypot(960, 540);
    assert_near(lens.height_mm, 1.2 * 2 * half, 1e-9);
}

static void a_shadow_lies_on_the_ray_past_what_throws_it(void **state)
{
    (void)state;
    struct dice d = { 4 };
    for (int i = 0; i < DRAWS; i++) {
        struct calibration_lens_place lens = some_lens(&d);
        struct table_pt over = { 1500 * even(&d), 900 * even(&d) };
        double up = 390 * even(&d);
        struct table_pt shade = calibration_shadow(&lens, over, up);
        struct table_pt want = met(in_space(&lens), (struct space_pt){ over.x, over.y, up }, 0);
        assert_near(shade.x, want.x, 1e-8);
        assert_near(shade.y, want.y, 1e-8);
    }
}

/* Hung over the near edge of a light 787 mm deep, 2000 mm high: a head 250 mm in and 500 mm up throws its shadow
 * 250 x 2000 / 1500 = 333 mm in from that side, and from the far one, where the foot is 787 mm deep, only
 * 787.4 - (787.4 - 250) x 4 / 3 = 70.9 mm. */
static void one_stands_where_the_foot_is_farthest(void **state)
{
    (void)state;
    double deep = 2 * 803.14 * 540 / hypot(960, 540);
    struct calibration_lens_place lens = { { 700, 400 - deep / 2 }, 2000 };
    assert_near(calibration_head_shadow_mm(&straight, &lens, CALIBRATION_NEAR), 250 * 4.0 / 3, 1e-6);
    assert_near(calibration_head_shadow_mm(&straight, &lens, CALIBRATION_FAR), deep - (deep - 250) * 4 / 3, 1e-6);
    assert_int_equal(calibration_best_side(&straight, &lens), CALIBRATION_FAR);
    lens.foot = (struct table_pt){ 1600, 400 }; /* beyond the right end */
    assert_int_equal(calibration_best_side(&straight, &lens), CALIBRATION_LEFT);
    assert_true(calibration_head_shadow_mm(&straight, &lens, CALIBRATION_RIGHT) > CALIBRATION_LEAN_MM);
    assert_true(calibration_head_shadow_mm(&straight, &lens, CALIBRATION_LEFT) < 0);
}

/* A lens no higher than a head leaves the head half-way up to it. */
static void a_head_stays_below_a_low_lens(void **state)
{
    (void)state;
    struct calibration_lens_place lens = { { 700, 400 }, 400 };
    double foot = 803.14 * 540 / hypot(960, 540);
    assert_near(calibration_head_shadow_mm(&straight, &lens, CALIBRATION_NEAR), foot + (250 - foot) * 2, 1e-6);
}

static void a_surface_is_as_high_as_its_layers_and_its_mat(void **state)
{
    (void)state;
    static const struct {
        struct calibration_surface surface;
        double raise_mm;
    } rows[] = {
        { { 0 }, 0 },
        { { 3, 2, CALIBRATION_MAT_STAYS, 0 }, 6 },
        { { 1.5, 1, CALIBRATION_MAT_GOES, 3 }, -1.5 },
        { { 0.5, 4, CALIBRATION_MAT_COMES, 3 }, 5 },
        { { 0, 0, CALIBRATION_MAT_GOES, 2 }, -2 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_near(calibration_raise_mm(&rows[i].surface), rows[i].raise_mm, 1e-12);
}

static void a_surface_is_believed_within_bounds(void **state)
{
    (void)state;
    static const struct {
        struct calibration_surface surface;
        bool valid;
    } rows[] = {
        { { 0 }, true },
        { { 50, 2, CALIBRATION_MAT_STAYS, 0 }, true },
        { { 50, 2, CALIBRATION_MAT_COMES, 0.1 }, false },
        { { 50.1, 1, CALIBRATION_MAT_STAYS, 0 }, false },
        { { -1, 1, CALIBRATION_MAT_STAYS, 0 }, false },
        { { 1, -1, CALIBRATION_MAT_STAYS, 0 }, false },
        { { 0.1, 101, CALIBRATION_MAT_STAYS, 0 }, false },
        { { 1, 1, CALIBRATION_MAT_GOES, 51 }, false },
        { { NAN, 1, CALIBRATION_MAT_STAYS, 0 }, false },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_int_equal(calibration_surface_is_valid(&rows[i].surface), rows[i].valid);
}

static void a_lens_is_believed_within_bounds(void **state)
{
    (void)state;
    static const struct {
        struct calibration_lens_place lens;
        bool valid;
    } rows[] = {
        { { { 0, 0 }, 300 }, true },          { { { 0, 0 }, 299 }, false },      { { { 0, 0 }, 10001 }, false },
        { { { -10001, 0 }, 1800 }, false },   { { { 0, 10001 }, 1800 }, false }, { { { NAN, 0 }, 1800 }, false },
        { { { 0, INFINITY }, 1800 }, false }, { { { 0, 0 }, NAN }, false },      { { { 0, 0 }, 0 }, false },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_int_equal(calibration_lens_is_valid(&rows[i].lens), rows[i].valid);
    assert_false(calibration_lens_is_known(&rows[8].lens));
    assert_true(calibration_lens_is_known(&rows[0].lens));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_raised_map_is_where_the_rays_meet_the_level),
        cmocka_unit_test(a_surface_not_raised_has_the_tables_own_map),
        room_test(the_virtual_table_raised_is_the_raised_map),
        cmocka_unit_test(light_moves_by_the_share_of_the_height),
        cmocka_unit_test(light_on_a_ruler_is_where_the_ray_meets_its_top),
        cmocka_unit_test(light_moves_most_in_the_corner_farthest_from_the_foot),
        cmocka_unit_test(the_usual_lens_hangs_over_the_middle_at_a_fifth_more_than_the_width),
        cmocka_unit_test(a_shadow_lies_on_the_ray_past_what_throws_it),
        cmocka_unit_test(one_stands_where_the_foot_is_farthest),
        cmocka_unit_test(a_head_stays_below_a_low_lens),
        cmocka_unit_test(a_surface_is_as_high_as_its_layers_and_its_mat),
        cmocka_unit_test(a_surface_is_believed_within_bounds),
        cmocka_unit_test(a_lens_is_believed_within_bounds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
