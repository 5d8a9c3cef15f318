#include "geometry/inverse.h"
#include "support/cmocka_all.h"

#include <math.h>

enum { COUNT = 41 * 41 };

static const struct geometry_map maps[] = {
    { 1920, 1080, { 1100, 20, 900, 15, -1100, 520, 0.02, 0.03, 0, 0, 0 } },
    { 3840, 2160, { 1100, 20, 900, 15, -1100, 520, 0.02, 0.03, 0.01, 0.001, -0.001 } },
    { 1280, 800, { 100, 8, 250, 12, -115, 420, 0.1, -0.07, -0.1, 0.004, 0.003 } },
    { 1024, 768, { 100, 8, 250, 12, 115, 420, 0.2, -0.17, 0.12, 0.01, -0.012 } },
};

/* A grid over the frame and a twentieth around it. */
static struct px_pt place(const struct geometry_map *map, int i)
{
    double across = (i % 41) / 40.0 * 1.1 - 0.05, down = (i / 41) / 40.0 * 1.1 - 0.05;
    return (struct px_pt){ across * map->width_px, down * map->height_px };
}

static void many_places_come_back_from_the_table(void **state)
{
    (void)state;
    static double x[COUNT], y[COUNT], u[COUNT], v[COUNT];
    for (size_t m = 0; m < sizeof maps / sizeof maps[0]; m++) {
        assert_true(geometry_map_is_valid(&maps[m]));
        struct geometry_inverse inverse = geometry_inverse_create(&maps[m]);
        for (int i = 0; i < COUNT; i++) {
            struct table_pt at = geometry_map_to_table(&maps[m], place(&maps[m], i));
            x[i] = at.x;
            y[i] = at.y;
        }
        geometry_inverse_px(&inverse, COUNT, x, y, u, v);
        for (int i = 0; i < COUNT; i++) {
            assert_near(u[i], place(&maps[m], i).x, 1e-6);
            assert_near(v[i], place(&maps[m], i).y, 1e-6);
        }
    }
}

static void a_place_behind_the_horizon_has_no_pixel_in_the_frame(void **state)
{
    (void)state;
    const struct geometry_map *map = &maps[2];
    struct geometry_inverse inverse = geometry_inverse_create(map);
    uint64_t seed = 5;
    for (int i = 0; i < 20000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        double x = ((double)(seed >> 48) - 32768) * 100, y = ((double)(seed >> 32 & 0xffff) - 32768) * 100, u, v;
        struct px_pt px;
        geometry_inverse_px(&inverse, 1, &x, &y, &u, &v);
        bool inside = u >= 0 && u <= map->width_px && v >= 0 && v <= map->height_px;
        assert_true(!inside || geometry_map_to_px(map, (struct table_pt){ x, y }, &px));
    }
}

/* The bend of short chords, by their middle's distance from them: k l² / 8. */
static void no_straight_line_bends_more_than_the_curvature_says(void **state)
{
    (void)state;
    for (size_t m = 0; m < sizeof maps / sizeof maps[0]; m++) {
        struct geometry_inverse inverse = geometry_inverse_create(&maps[m]);
        double most = 0;
        for (int i = 0; i < COUNT; i++) {
            struct px_pt from = place(&maps[m], i);
            for (int turn = 0; turn < 8; turn++) {
                struct px_pt to = { from.x + 40 * cos(turn * 0.785), from.y + 40 * sin(turn * 0.785) };
                struct table_pt a = geometry_map_to_table(&maps[m], from), b = geometry_map_to_table(&maps[m], to);
                double x = (a.x + b.x) / 2, y = (a.y + b.y) / 2, u, v;
                geometry_inverse_px(&inverse, 1, &x, &y, &u, &v);
                double off = fabs((to.x - from.x) * (v - from.y) - (to.y - from.y) * (u - from.x)) / 40;
                most = fmax(most, off);
            }
        }
        assert_true(most <= inverse.curvature * 40 * 40 / 8 + 1e-6);
        assert_true(inverse.curvature <= 0 || most > inverse.curvature * 40 * 40 / 8 / 20); /* not far too careful */
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(many_places_come_back_from_the_table),
        cmocka_unit_test(a_place_behind_the_horizon_has_no_pixel_in_the_frame),
        cmocka_unit_test(no_straight_line_bends_more_than_the_curvature_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
