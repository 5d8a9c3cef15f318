#include "geometry/map.h"
#include "random.h"
#include "support/cmocka_all.h"

#include <math.h>
#include <string.h>

/* A map without lens terms from a homography of raw pixels, (u, v, 1) to mm. */
static struct geometry_map map_of_homography(int width, int height, const double h[9])
{
    struct geometry_map map = { .width_px = width, .height_px = height };
    double w = width, t = height, rho = 0.5 * sqrt(w * w + t * t);
    double row[3][3];
    for (int i = 0; i < 3; i++) {
        row[i][0] = h[3 * i] * rho;
        row[i][1] = h[3 * i + 1] * rho;
        row[i][2] = h[3 * i] * w / 2 + h[3 * i + 1] * t / 2 + h[3 * i + 2];
    }
    for (int i = 0; i < 8; i++)
        map.term[i] = row[i / 3][i % 3] / row[2][2];
    return map;
}

struct pair {
    double u, v, x, y;
};

static void assert_maps(const struct geometry_map *map, struct pair want, double tol_mm, double tol_px)
{
    struct table_pt at = geometry_map_to_table(map, (struct px_pt){ want.u, want.v });
    struct px_pt px;
    assert_near(at.x, want.x, tol_mm);
    assert_near(at.y, want.y, tol_mm);
    assert_true(geometry_map_to_px(map, (struct table_pt){ want.x, want.y }, &px));
    assert_near(px.x, want.u, tol_px);
    assert_near(px.y, want.v, tol_px);
}

/* Certified values computed with 50-digit arithmetic (mpmath); OpenCV 4.6 getPerspectiveTransform agrees to 6e-8. */
static void a_homography_through_four_points_maps_as_certified(void **state)
{
    (void)state;
    static const double h[9] = { 0.7153350874941696,    0.02010819701390887,   -218.093799645137,
                                 0.05057156491701205,   0.7510643402016477,    96.57542204282576,
                                 3.947029574889902e-05, 8.024899893032726e-05, 1 };
    static const struct pair want[] = {
        { 0, 0, -218.093799645137, 96.57542204282576 },
        { 1920, 0, 1073.961572998033, 180.02964582413261 },
        { 1920, 1080, 1012.5721628597954, 864.3990565224954 },
        { 0, 1080, -180.71460724107706, 835.3279400183958 },
        { 960, 540, 443.46541413445635, 509.3282042143926 },
        { 480, 270, 125.59545105034827, 311.006256762157 },
        { 1500, 800, 775.3175979952047, 688.3399018848679 },
        /* the four points themselves, exact */
        { 96, 54, -147.140625, 140.84375 },
        { 1824, 54, 1010.625, 213.109375 },
        { 1824, 1026, 959.265625, 831.140625 },
        { 96, 1026, -118.578125, 802.875 },
    };
    struct geometry_map map = map_of_homography(1920, 1080, h);
    assert_true(geometry_map_is_valid(&map));
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++)
        assert_maps(&map, want[i], 1e-10, 1e-9);
}

/* Certified values computed with 50-digit arithmetic (mpmath), least squares through nine readings. */
static void a_homography_fitted_to_nine_readings_maps_as_certified(void **state)
{
    (void)state;
    static const struct geometry_map normalised = {
        1920,
        1080,
        { 707.3559185662882, 112.82197567206171, 721.7266416000908, -48.42790387269902, 813.2834727633838,
          408.8098923895041, -0.026159842691401893, 0.12413167263562745, 0, 0, 0 },
    };
    static const double h[9] = { 0.6676091843634743,     0.10648244424018674,    51.87445420750685,
                                 -0.045706712216977814,  0.7675846086201578,     54.3660977638452,
                                 -2.468990614750467e-05, 0.00011715664285373325, 1 };
    static const struct pair want[] = {
        { 0, 0, 51.87445420750685, 54.3660977638452 },         { 1920, 0, 1400.0530717562997, -35.05243714897526 },
        { 1920, 1080, 1342.4633161687625, 737.2648359403365 }, { 0, 1080, 148.13242106513832, 784.1407885744313 },
        { 960, 540, 721.7266416000908, 408.8098923895041 },    { 480, 270, 393.2972551244582, 235.025645357143 },
        { 1500, 800, 1077.3961103664558, 567.6910522480885 },
    };
    struct geometry_map raw = map_of_homography(1920, 1080, h);
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++)
        assert_near(raw.term[i], normalised.term[i], 1e-12 * fmax(1, fabs(normalised.term[i])));
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++)
        assert_maps(&normalised, want[i], 1e-10, 1e-9);
}

/* Worked by hand: the unit square goes onto (0,0) (4,0) (3,2) (1,2) by x = (4u + 2v)/(v + 1), y = 4v/(v + 1). */
static void the_unit_square_goes_onto_a_trapezium(void **state)
{
    (void)state;
    static const double h[9] = { 4, 2, 0, 0, 4, 0, 0, 1, 1 };
    struct geometry_map map = map_of_homography(1, 1, h);
    static const struct pair want[] = {
        { 0, 0, 0, 0 }, { 1, 0, 4, 0 },           { 1, 1, 3, 2 },
        { 0, 1, 1, 2 }, { 0.5, 0.5, 2, 4.0 / 3 }, /* where the diagonals cross */
    };
    assert_true(geometry_map_is_valid(&map));
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++)
        assert_maps(&map, want[i], 1e-14, 1e-14);
}

/* A pinhole lens 1800 mm from the table, throw ratio 1.2, tilted by 5° and 10°: the light's near and far edge and its
 * depth by trigonometry, x = D X / (cos a - Y sin a), y = D (Y cos a + sin a) / (cos a - Y sin a), to 0.001 mm. */
static void a_tilted_projector_lights_the_trapezium_of_trigonometry(void **state)
{
    (void)state;
    static const struct {
        double tilt_deg, near_mm, far_mm, deep_mm;
    } rows[] = {
        { 5, 1475.475, 1537.251, 850.566 },
        { 10, 1462.692, 1588.800, 871.472 },
    };
    const double pi = 3.14159265358979323846;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double c = cos(rows[i].tilt_deg * pi / 180), s = sin(rows[i].tilt_deg * pi / 180);
        double pitch = 1 / 1.2 / 1920; /* of the image at unit distance */
        /* X = pitch (u - 960), Y = pitch (540 - v) */
        const double h[9] = { 1800 * pitch,
                              0,
                              -1800 * pitch * 960,
                              0,
                              -1800 * pitch * c,
                              1800 * (540 * pitch * c + s),
                              0,
                              pitch * s,
                              c - 540 * pitch * s };
        struct geometry_map map = map_of_homography(1920, 1080, h);
        assert_true(geometry_map_is_valid(&map));
        struct table_pt nl = geometry_map_to_table(&map, (struct px_pt){ 0, 1080 });
        struct table_pt nr = geometry_map_to_table(&map, (struct px_pt){ 1920, 1080 });
        struct table_pt fl = geometry_map_to_table(&map, (struct px_pt){ 0, 0 });
        struct table_pt fr = geometry_map_to_table(&map, (struct px_pt){ 1920, 0 });
        assert_near(nr.x - nl.x, rows[i].near_mm, 5e-4);
        assert_near(fr.x - fl.x, rows[i].far_mm, 5e-4);
        assert_near(fl.y - nl.y, rows[i].deep_mm, 5e-4);
        /* Far pixels are the longest, and lengthwise: (D / cos²) of the far edge's ray. */
        double far = c - 540 * pitch * s;
        double across = 1800 * pitch / far, along = 1800 * pitch / (far * far);
        assert_near(geometry_map_mm_per_px(&map), fmax(across, along), 0.02);
        assert_true(geometry_map_mm_per_px(&map) >= along);
    }
}

/* By hand, at the middle of a side and a corner of a square frame. */
static void lens_terms_move_places_as_the_formula_says(void **state)
{
    (void)state;
    /* A square frame: rho = 100 sqrt 2 px; u = 200 gives x = 100 / rho = 1 / sqrt 2, y = 0, r² = 1/2. */
    struct geometry_map map = { 200, 200, { 1, 0, 0, 0, 1, 0, 0, 0, 0.02, 0.003, -0.004 } };
    struct table_pt at = geometry_map_to_table(&map, (struct px_pt){ 200, 100 });
    /* x' = x (1 + k1/2) + 3 p1/2, y' = p2/2 */
    assert_near(at.x, sqrt(0.5) * 1.01 + 0.0045, 1e-15);
    assert_near(at.y, -0.002, 1e-15);
    /* The corner: x = y = 1/sqrt 2, r² = 1: x' = x (1 + k1) + p1 + p1 + p2, y' = y (1 + k1) + p2 + p1 + p2. */
    at = geometry_map_to_table(&map, (struct px_pt){ 200, 200 });
    assert_near(at.x, sqrt(0.5) * 1.02 + 0.002, 1e-15);
    assert_near(at.y, sqrt(0.5) * 1.02 - 0.005, 1e-15);
}

/* A map such as a table has: keystone either way, some turn, lens terms some times the size they are expected to have
 * (0 ± 0.005 and 0 ± 0.0025). */
static struct geometry_map random_map(uint64_t *seed)
{
    static const int frames[3][2] = { { 1280, 800 }, { 1920, 1080 }, { 3840, 2160 } };
    const int *frame = frames[(int)random_between(seed, 0, 3)];
    double scale = random_between(seed, 300, 1200), mirrored = random_between(seed, 0, 1) < 0.5 ? 1 : -1;
    double turn = random_between(seed, -3, 3);
    return (struct geometry_map){
        frame[0],
        frame[1],
        { scale * cos(turn), -scale * mirrored * sin(turn) * random_between(seed, 0.9, 1.1),
          random_between(seed, -500, 500), scale * sin(turn) * random_between(seed, 0.9, 1.1),
          scale * mirrored * cos(turn), random_between(seed, -500, 500), random_between(seed, -0.25, 0.25),
          random_between(seed, -0.25, 0.25), random_between(seed, -0.01, 0.01), random_between(seed, -0.005, 0.005),
          random_between(seed, -0.005, 0.005) },
    };
}

static struct px_pt random_px(uint64_t *seed, const struct geometry_map *map)
{
    return (struct px_pt){ map->width_px * random_between(seed, -0.2, 1.2),
                           map->height_px * random_between(seed, -0.2, 1.2) };
}

static void a_pixel_comes_back_from_the_table(void **state)
{
    (void)state;
    uint64_t seed = 1;
    for (int i = 0; i < 300; i++) {
        struct geometry_map map = random_map(&seed);
        assert_true(geometry_map_is_valid(&map));
        for (int j = 0; j < 50; j++) {
            struct px_pt px = random_px(&seed, &map), back;
            assert_true(geometry_map_to_px(&map, geometry_map_to_table(&map, px), &back));
            assert_near(back.x, px.x, 1e-9);
            assert_near(back.y, px.y, 1e-9);
        }
    }
}

/* Lens terms up to the edge of what is valid. */
static void a_pixel_comes_back_through_a_strong_lens(void **state)
{
    (void)state;
    uint64_t seed = 2;
    int valid = 0;
    for (int i = 0; i < 300; i++) {
        struct geometry_map map = random_map(&seed);
        map.term[GEOMETRY_K1] *= 20;
        map.term[GEOMETRY_P1] *= 5;
        map.term[GEOMETRY_P2] *= 5;
        if (!geometry_map_is_valid(&map))
            continue;
        valid++;
        for (int j = 0; j < 50; j++) {
            struct px_pt px = random_px(&seed, &map), back;
            assert_true(geometry_map_to_px(&map, geometry_map_to_table(&map, px), &back));
            assert_near(back.x, px.x, 1e-8);
            assert_near(back.y, px.y, 1e-8);
        }
    }
    assert_true(valid > 100);
}

static void the_jacobian_is_the_slope_of_the_map(void **state)
{
    (void)state;
    uint64_t seed = 3;
    for (int i = 0; i < 300; i++) {
        struct geometry_map map = random_map(&seed);
        struct px_pt px = random_px(&seed, &map);
        struct geometry_jacobian j = geometry_map_jacobian(&map, px);
        const double h = 0.05;
        struct table_pt r = geometry_map_to_table(&map, (struct px_pt){ px.x + h, px.y });
        struct table_pt l = geometry_map_to_table(&map, (struct px_pt){ px.x - h, px.y });
        struct table_pt d = geometry_map_to_table(&map, (struct px_pt){ px.x, px.y + h });
        struct table_pt u = geometry_map_to_table(&map, (struct px_pt){ px.x, px.y - h });
        assert_near(j.xu, (r.x - l.x) / (2 * h), 1e-8);
        assert_near(j.yu, (r.y - l.y) / (2 * h), 1e-8);
        assert_near(j.xv, (d.x - u.x) / (2 * h), 1e-8);
        assert_near(j.yv, (d.y - u.y) / (2 * h), 1e-8);
    }
}

static void the_gradient_is_the_slope_by_each_term(void **state)
{
    (void)state;
    uint64_t seed = 4;
    for (int i = 0; i < 300; i++) {
        struct geometry_map map = random_map(&seed);
        struct px_pt px = random_px(&seed, &map);
        double dx[GEOMETRY_MAP_TERMS], dy[GEOMETRY_MAP_TERMS];
        geometry_map_term_gradient(&map, px, dx, dy);
        for (int t = 0; t < GEOMETRY_MAP_TERMS; t++) {
            struct geometry_map more = map, less = map;
            double h = t <= GEOMETRY_H12 ? 1e-2 : 1e-5;
            more.term[t] += h;
            less.term[t] -= h;
            struct table_pt m = geometry_map_to_table(&more, px), l = geometry_map_to_table(&less, px);
            assert_near(dx[t], (m.x - l.x) / (2 * h), 1e-6 * fmax(1, fabs(dx[t])));
            assert_near(dy[t], (m.y - l.y) / (2 * h), 1e-6 * fmax(1, fabs(dy[t])));
        }
    }
}

/* A plain map of half a millimetre a pixel: table x = (u - W/2) / 2, table y = (H/2 - v) / 2. */
static struct geometry_map plain_map(void)
{
    double rho = 0.5 * sqrt(1920.0 * 1920.0 + 1080.0 * 1080.0);
    struct geometry_map map = { .width_px = 1920, .height_px = 1080 };
    map.term[GEOMETRY_H00] = 0.5 * rho;
    map.term[GEOMETRY_H11] = -0.5 * rho;
    return map;
}

/* The change is applied to the place by hand. */
static void a_changed_map_gives_the_changed_places(void **state)
{
    (void)state;
    static const struct geometry_change change = {
        { { 0.99, -0.02, 14 }, { 0.021, 1.01, -3.5 }, { 2e-5, -1e-5, 1.02 } }
    };
    struct geometry_map map = { 1280, 800, { 700, 8, 650, 12, -715, 420, 0.1, -0.07, -0.01, 0.004, 0.003 } };
    struct geometry_map changed = geometry_map_changed(&map, &change);
    for (int i = 0; i < 25; i++) {
        struct px_pt px = { 320 * (i % 5), 200 * (i / 5) };
        struct table_pt was = geometry_map_to_table(&map, px), is = geometry_map_to_table(&changed, px);
        double over = 2e-5 * was.x - 1e-5 * was.y + 1.02;
        assert_near(is.x, (0.99 * was.x - 0.02 * was.y + 14) / over, 1e-9);
        assert_near(is.y, (0.021 * was.x + 1.01 * was.y - 3.5) / over, 1e-9);
    }
}

static void valid_and_invalid_maps_are_told_apart(void **state)
{
    (void)state;
    /* Each row changes one term of the plain map. x reaches 0.872 x 1.4 = 1.220 at the edge of the fifth around the
     * frame and r² reaches 1.96 at its corner. */
    static const struct {
        int term;
        double value;
        bool valid;
    } rows[] = {
        { GEOMETRY_H02, 500, true },      { GEOMETRY_H00, -100, true }, /* mirrored */
        { GEOMETRY_H20, 0.75, true },                                   /* D >= 1 - 0.75 x 1.220 = 0.085 */
        { GEOMETRY_H20, 0.80, false },                                  /* D = 0.024 */
        { GEOMETRY_H20, -1.5, false },                                  /* the horizon crosses the frame */
        { GEOMETRY_H00, 0, false },                                     /* all on one line */
        { GEOMETRY_K1, -0.1, true },   /* radial slope 1 - 0.3 x 1.96 = 0.41 at the corner */
        { GEOMETRY_K1, -0.18, false }, /* -0.06: the lens folds there */
        { GEOMETRY_K1, -2, false },       { GEOMETRY_P1, -2, false },         { GEOMETRY_H11, NAN, false },
        { GEOMETRY_P2, INFINITY, false }, { GEOMETRY_H12, -INFINITY, false },
    };
    struct geometry_map map = plain_map();
    assert_true(geometry_map_is_valid(&map));
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        map = plain_map();
        map.term[rows[i].term] = rows[i].value;
        if (geometry_map_is_valid(&map) != rows[i].valid)
            fail_msg("row %zu", i);
    }
    memset(&map, 0, sizeof map);
    assert_false(geometry_map_is_valid(&map));
}

static void places_beyond_the_fifth_around_the_frame_have_no_pixel(void **state)
{
    (void)state;
    struct geometry_map map = plain_map();
    struct px_pt px;
    /* The frame reaches 480 x 270 mm from its middle, a fifth of its size more is 672 x 378. */
    assert_true(geometry_map_to_px(&map, (struct table_pt){ 671.9, -377.9 }, &px));
    assert_near(px.x, 960 + 2 * 671.9, 1e-9);
    assert_near(px.y, 540 + 2 * 377.9, 1e-9);
    assert_false(geometry_map_to_px(&map, (struct table_pt){ 672.1, 0 }, &px));
    assert_false(geometry_map_to_px(&map, (struct table_pt){ 0, 378.1 }, &px));
    assert_false(geometry_map_to_px(&map, (struct table_pt){ 1e300, 1e300 }, &px));
    assert_false(geometry_map_to_px(&map, (struct table_pt){ NAN, 0 }, &px));
}

static void places_behind_the_horizon_have_no_pixel(void **state)
{
    (void)state;
    struct geometry_map map = plain_map();
    struct px_pt px;
    map.term[GEOMETRY_H21] = 0.5; /* D = 1 + y / 2; the frame has y within 0.49 */
    assert_true(geometry_map_is_valid(&map));
    /* At y = -2.5, D = -0.25: the place it comes to has no pixel before the lens. */
    double rho = 0.5 * sqrt(1920.0 * 1920.0 + 1080.0 * 1080.0);
    assert_false(geometry_map_to_px(&map, (struct table_pt){ 0, -0.5 * rho * -2.5 / -0.25 }, &px));
}

static void a_place_beyond_the_fold_of_a_lens_has_no_pixel(void **state)
{
    (void)state;
    struct geometry_map map = plain_map();
    struct px_pt px;
    map.term[GEOMETRY_K1] = -0.16; /* x - 0.16 x³ is largest at x = 1.443: 0.962 half diagonals */
    assert_true(geometry_map_is_valid(&map));
    double rho = 0.5 * sqrt(1920.0 * 1920.0 + 1080.0 * 1080.0);
    assert_false(geometry_map_to_px(&map, (struct table_pt){ 0.5 * rho * 0.99, 0 }, &px));
}

static void the_frame_runs_counter_clockwise_from_its_lower_left(void **state)
{
    (void)state;
    struct geometry_map map = plain_map();
    struct arena *a = base_arena_create();
    struct geometry_path frame = geometry_map_frame(a, &map, 2).path;
    static const vec2 want[8] = { { -480, -270 }, { 0, -270 }, { 480, -270 }, { 480, 0 },
                                  { 480, 270 },   { 0, 270 },  { -480, 270 }, { -480, 0 } };
    assert_int_equal(frame.count, 8);
    assert_true(frame.closed);
    for (int i = 0; i < 8; i++) {
        assert_near(frame.points[i].x, want[i].x, 1e-12);
        assert_near(frame.points[i].y, want[i].y, 1e-12);
    }
    base_arena_destroy(a);
}

static void pixels_are_as_long_as_their_longest_direction(void **state)
{
    (void)state;
    struct geometry_map map = plain_map();
    assert_near(geometry_map_mm_per_px(&map), 0.5, 1e-15);
    /* A shear by 1 has the singular values of the golden ratio, (sqrt 5 ± 1) / 2. */
    map.term[GEOMETRY_H01] = map.term[GEOMETRY_H00];
    assert_near(geometry_map_mm_per_px(&map), 0.5 * (sqrt(5) + 1) / 2, 1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_homography_through_four_points_maps_as_certified),
        cmocka_unit_test(a_homography_fitted_to_nine_readings_maps_as_certified),
        cmocka_unit_test(the_unit_square_goes_onto_a_trapezium),
        cmocka_unit_test(a_tilted_projector_lights_the_trapezium_of_trigonometry),
        cmocka_unit_test(lens_terms_move_places_as_the_formula_says),
        cmocka_unit_test(a_pixel_comes_back_from_the_table),
        cmocka_unit_test(a_pixel_comes_back_through_a_strong_lens),
        cmocka_unit_test(the_jacobian_is_the_slope_of_the_map),
        cmocka_unit_test(the_gradient_is_the_slope_by_each_term),
        cmocka_unit_test(a_changed_map_gives_the_changed_places),
        cmocka_unit_test(valid_and_invalid_maps_are_told_apart),
        cmocka_unit_test(places_beyond_the_fifth_around_the_frame_have_no_pixel),
        cmocka_unit_test(places_behind_the_horizon_have_no_pixel),
        cmocka_unit_test(a_place_beyond_the_fold_of_a_lens_has_no_pixel),
        cmocka_unit_test(the_frame_runs_counter_clockwise_from_its_lower_left),
        cmocka_unit_test(pixels_are_as_long_as_their_longest_direction),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
