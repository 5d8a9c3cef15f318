#include "geometry/turn.h"
#include "random.h"
#include "support/cmocka_all.h"

#include <math.h>

static const long double pi = 3.14159265358979323846264338327950288L;

/* Reference: the C library's sinl and cosl, 64 bits of mantissa on this kind of processor, of an angle brought into a
 * turn exactly first. */
static void assert_like_the_library(double degrees)
{
    long double angle = fmodl(degrees, 360) * pi / 180;
    double s, c;
    geometry_sincos(degrees, &s, &c);
    if (fabsl(s - sinl(angle)) > 2e-15L || fabsl(c - cosl(angle)) > 2e-15L)
        fail_msg("at %.17g: %.17g %.17g, not %.17Lg %.17Lg", degrees, s, c, sinl(angle), cosl(angle));
}

static void every_angle_is_within_2e_15_of_the_library(void **state)
{
    (void)state;
    uint64_t seed = 1;
    for (int i = 0; i < 20000; i++)
        assert_like_the_library(random_between(&seed, -720, 720));
    for (int i = 0; i < 2000; i++)
        assert_like_the_library(random_between(&seed, -1e9, 1e9));
    for (int i = -7200; i <= 7200; i++)
        assert_like_the_library(i / 10.0);
    assert_like_the_library(1e-300);
    assert_like_the_library(nextafter(45, 0));
    assert_like_the_library(nextafter(-45, 0));
}

static void quarter_turns_are_exact(void **state)
{
    (void)state;
    static const double sines[4] = { 0, 1, 0, -1 };
    for (int i = -400; i <= 400; i++) {
        double s, c;
        geometry_sincos(90.0 * i, &s, &c);
        int quarter = (i % 4 + 4) % 4;
        assert_true(s == sines[quarter] && c == sines[(quarter + 1) % 4]);
        assert_false(signbit(s) && s == 0);
        assert_false(signbit(c) && c == 0);
    }
}

static void known_angles_have_their_known_values(void **state)
{
    (void)state;
    static const struct {
        double degrees, sine, cosine;
    } rows[] = {
        { 30, 0.5, 0.86602540378443865 },                 /* 1/2, sqrt 3 / 2 */
        { 45, 0.70710678118654752, 0.70710678118654752 }, /* sqrt 2 / 2 */
        { 60, 0.86602540378443865, 0.5 },
        { 150, 0.5, -0.86602540378443865 },
        { -210, 0.5, -0.86602540378443865 },
        { 18, 0.30901699437494742, 0.95105651629515357 }, /* (sqrt 5 - 1) / 4 */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double s, c;
        geometry_sincos(rows[i].degrees, &s, &c);
        assert_near(s, rows[i].sine, 2.3e-16);
        assert_near(c, rows[i].cosine, 2.3e-16);
    }
}

static void opposite_angles_and_whole_turns_agree_to_the_last_bit(void **state)
{
    (void)state;
    for (int i = 0; i < 3600; i++) {
        double s, c, s2, c2;
        geometry_sincos(i * 0.125, &s, &c);
        geometry_sincos(i * -0.125, &s2, &c2);
        assert_true(s == -s2 && c == c2);
        geometry_sincos(i * 0.125 + 3600, &s2, &c2);
        assert_true(s == s2 && c == c2);
    }
}

/* Reference: the C library's atan2l. */
static void a_direction_is_within_1e_13_of_the_library(void **state)
{
    (void)state;
    uint64_t seed = 3;
    long double worst = 0;
    for (int i = 0; i < 1000000; i++) {
        double scale = i % 3 == 0 ? 1e-6 : i % 3 == 1 ? 1 : 1e6; /* steep and flat ones too */
        double x = random_between(&seed, -1, 1), y = random_between(&seed, -1, 1) * scale;
        worst = fmaxl(worst, fabsl(geometry_direction(y, x) - atan2l(y, x) * 180 / pi));
    }
    if (worst > 1e-13L)
        fail_msg("off by up to %Lg degrees", worst);
}

static void directions_of_eighths_of_a_turn_are_exact(void **state)
{
    (void)state;
    static const double steps[8][2] = { { 1, 0 },  { 1, 1 },   { 0, 1 },  { -1, 1 },
                                        { -1, 0 }, { -1, -1 }, { 0, -1 }, { 1, -1 } };
    for (int i = 0; i < 8; i++)
        for (double far = 1e-300; far < 1e300; far *= 977)
            assert_true(geometry_direction(steps[i][1] * far, steps[i][0] * far) == (i <= 4 ? 45 * i : 45 * i - 360));
    assert_true(geometry_direction(0, 0) == 0);
    assert_true(geometry_direction(-0.0, -1) == 180);
    assert_true(fabs(geometry_direction(5e-324, 1e308)) == 0);
}

static void a_motion_mirrors_then_turns_then_shifts(void **state)
{
    (void)state;
    /* (2, 1) mirrored is (-2, 1), turned a quarter (-1, -2), shifted by (10, 20) (9, 18). */
    struct geometry_mover m = geometry_mover_of((struct geometry_motion){ true, 90, { 10, 20 } });
    vec2 p = geometry_move(&m, (vec2){ 2, 1 });
    assert_true(p.x == 9 && p.y == 18);
    m = geometry_mover_of((struct geometry_motion){ false, 90, { 10, 20 } });
    p = geometry_move(&m, (vec2){ 2, 1 });
    assert_true(p.x == 9 && p.y == 22);
    m = geometry_mover_of((struct geometry_motion){ 0 });
    p = geometry_move(&m, (vec2){ 2, 1 });
    assert_true(p.x == 2 && p.y == 1);
}

static void a_motion_keeps_lengths(void **state)
{
    (void)state;
    uint64_t seed = 2;
    for (int i = 0; i < 200; i++) {
        struct geometry_motion motion = { i % 2 == 0, random_between(&seed, -400, 400), { 3, -7 } };
        struct geometry_mover m = geometry_mover_of(motion);
        vec2 p = { random_between(&seed, -900, 900), random_between(&seed, -900, 900) };
        double moved = vec2_length(vec2_sub(geometry_move(&m, p), motion.shift));
        assert_near(moved, vec2_length(p), 2e-12);
    }
}

/* (2, 1) turned over is (-2, 1), shifted by (3, 0) (1, 1), turned a quarter (-1, 1), shifted by (10, 20) (9, 21). */
static void two_motions_one_after_the_other_are_one(void **state)
{
    (void)state;
    struct geometry_mover inner = geometry_mover_of((struct geometry_motion){ true, 0, { 3, 0 } });
    struct geometry_mover outer = geometry_mover_of((struct geometry_motion){ false, 90, { 10, 20 } });
    struct geometry_mover both = geometry_mover_after(&outer, &inner);
    vec2 p = geometry_move(&both, (vec2){ 2, 1 });
    assert_true(p.x == 9 && p.y == 21);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_angle_is_within_2e_15_of_the_library),
        cmocka_unit_test(quarter_turns_are_exact),
        cmocka_unit_test(known_angles_have_their_known_values),
        cmocka_unit_test(opposite_angles_and_whole_turns_agree_to_the_last_bit),
        cmocka_unit_test(a_direction_is_within_1e_13_of_the_library),
        cmocka_unit_test(directions_of_eighths_of_a_turn_are_exact),
        cmocka_unit_test(a_motion_mirrors_then_turns_then_shifts),
        cmocka_unit_test(a_motion_keeps_lengths),
        cmocka_unit_test(two_motions_one_after_the_other_are_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
