#include "geometry/cubic.h"
#include "random.h"
#include "support/cmocka_all.h"

#include <math.h>

/* The usual cubic for a quarter circle: controls at k = 4/3 (sqrt 2 - 1) of the radius; at t = 1/2 it touches the
 * circle, elsewhere it lies outside by at most 2.73e-4 of the radius (M. Goldapp, Approximation of circular arcs by
 * cubic polynomials, 1991). */
static struct geometry_cubic quarter_circle(double r)
{
    double k = 4.0 / 3 * (sqrt(2) - 1) * r;
    return (struct geometry_cubic){ { { r, 0 }, { r, k }, { k, r }, { 0, r } } };
}

static void the_quarter_circle_is_nearly_round(void **state)
{
    (void)state;
    struct geometry_cubic c = quarter_circle(100);
    double most = 0;
    for (int i = 0; i <= 1000; i++) {
        double off = vec2_length(geometry_cubic_at(c, i / 1000.0)) - 100;
        assert_true(off > -1e-12);
        most = fmax(most, off);
    }
    assert_near(most, 0.0273, 0.0001);
    vec2 middle = geometry_cubic_at(c, 0.5);
    assert_near(middle.x, 100 * sqrt(0.5), 1e-13);
    assert_near(middle.y, 100 * sqrt(0.5), 1e-13);
}

static void the_ends_are_exact(void **state)
{
    (void)state;
    struct geometry_cubic c = { { { 0.1, 0.7 }, { 1e9, -3 }, { 7, 1e9 }, { 0.3, -0.9 } } };
    vec2 start = geometry_cubic_at(c, 0), end = geometry_cubic_at(c, 1);
    assert_true(start.x == 0.1 && start.y == 0.7 && end.x == 0.3 && end.y == -0.9);
}

/* Square to the radius at the ends and, by symmetry, in the middle; where a control lies on its end, no direction. */
static void the_quarter_circle_runs_square_to_its_radius(void **state)
{
    (void)state;
    struct geometry_cubic c = quarter_circle(100), stuck = { { { 0, 0 }, { 0, 0 }, { 1, 0 }, { 2, 0 } } };
    for (int i = 0; i <= 2; i++) {
        vec2 at = geometry_cubic_at(c, i / 2.0), ahead = geometry_cubic_direction(c, i / 2.0);
        assert_near(vec2_dot(at, ahead), 0, 1e-12);
        assert_near(vec2_cross(at, ahead), 100, 1e-9);
    }
    assert_true(vec2_length(geometry_cubic_direction(stuck, 0)) == 0);
}

static void steps_follow_the_bound(void **state)
{
    (void)state;
    /* By hand: the second derivative at the ends is 6 |p0 - 2 p1 + p2| = 6 |(0,0) - (20,0) + (20,40)| = 6 x 40 = 240
     * and 6 |(10,0) - (40,80) + (30,0)| = 6 |(0,-80)| = 480: 480 / (8 x 0.1) = 600, its root 24.49. */
    struct geometry_cubic c = { { { 0, 0 }, { 10, 0 }, { 20, 40 }, { 30, 0 } } };
    assert_int_equal(geometry_cubic_steps(c, 0.1), 25);
    /* A quadratic y = 4 t (1 - t) raised to a cubic: |P''| = 8 all along, so the bound is met exactly: 8 / (8 x 1/16).
     */
    struct geometry_cubic q = { { { 0, 0 }, { 0, 4.0 / 3 }, { 0, 4.0 / 3 }, { 0, 0 } } };
    assert_int_equal(geometry_cubic_steps(q, 1.0 / 16.01), 5);
    assert_int_equal(geometry_cubic_steps(q, 1.0 / 15.99), 4);
}

static void a_straight_even_cubic_takes_one_step(void **state)
{
    (void)state;
    struct geometry_cubic c = { { { 0, 0 }, { 1, 2 }, { 2, 4 }, { 3, 6 } } };
    assert_int_equal(geometry_cubic_steps(c, 1e-6), 1);
}

static void no_chord_strays_further_than_the_tolerance(void **state)
{
    (void)state;
    uint64_t seed = 1;
    for (int i = 0; i < 200; i++) {
        struct geometry_cubic c;
        for (int k = 0; k < 4; k++)
            c.p[k] = (vec2){ random_between(&seed, -300, 300), random_between(&seed, -300, 300) };
        double tolerance = random_between(&seed, 0.01, 1);
        size_t steps = geometry_cubic_steps(c, tolerance);
        for (size_t j = 0; j < steps; j++) {
            double t0 = (double)j / (double)steps, t1 = (double)(j + 1) / (double)steps;
            vec2 a = geometry_cubic_at(c, t0), b = geometry_cubic_at(c, t1);
            for (int k = 1; k < 8; k++) {
                vec2 on = geometry_cubic_at(c, t0 + (t1 - t0) * k / 8);
                assert_true(vec2_length(vec2_sub(on, vec2_lerp(a, b, k / 8.0))) <= tolerance * (1 + 1e-9));
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_quarter_circle_is_nearly_round),
        cmocka_unit_test(the_ends_are_exact),
        cmocka_unit_test(the_quarter_circle_runs_square_to_its_radius),
        cmocka_unit_test(steps_follow_the_bound),
        cmocka_unit_test(a_straight_even_cubic_takes_one_step),
        cmocka_unit_test(no_chord_strays_further_than_the_tolerance),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
