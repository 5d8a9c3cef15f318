/* Corners of every kind, worked by hand. The piece: a hem along y = 0 from x = 0 to 200, sides that rise from its ends,
 * a top at y = 300. */
#include "geometry/offset.h"
#include "outlines.h"
#include "support/cmocka_all.h"

#include <math.h>

enum { HEM = 40, SIDE = 15 };

static const double pi = 3.14159265358979323846;

static int set_up(void **state)
{
    *state = base_arena_create();
    return 0;
}

static int tear_down(void **state)
{
    base_arena_destroy(*state);
    return 0;
}

/* The piece, its sides leaning outwards by so many degrees, with a kind for the corner at the hem's beginning and one
 * for that at its end. */
static struct geometry_path grow(struct arena *a, double lean_deg, double hem, double side,
                                 enum geometry_corner_kind begin, enum geometry_corner_kind end)
{
    double out = 300 * tan(lean_deg * pi / 180);
    vec2 points[] = { { 0, 0 }, { 200, 0 }, { 200 + out, 300 }, { -out, 300 } };
    const double dist[] = { hem, side, 15, side };
    const struct geometry_corner corners[] = {
        { begin }, { end }, { GEOMETRY_CORNER_MITRE }, { GEOMETRY_CORNER_MITRE }
    };
    struct geometry_path grown;
    assert_true(geometry_offset(a, (struct geometry_path){ points, 4, true }, dist, corners, &grown));
    return grown;
}

static void assert_has_point(struct geometry_path p, double x, double y)
{
    for (size_t i = 0; i < p.count; i++)
        if (vec2_length(vec2_sub(p.points[i], (vec2){ x, y })) <= 1e-9)
            return;
    for (size_t i = 0; i < p.count; i++)
        print_error("  (%.12g, %.12g)\n", p.points[i].x, p.points[i].y);
    fail_msg("no corner at (%.12g, %.12g)", x, y);
}

static const double leans_deg[] = { -17, -10, -5, 5, 20, 40 };

/* The side's cut line lies 15 / cos(lean) to the right of the side, measured along the hem; at that place on y = 0 it
 * ends, and the hem square below it. */
static void a_squared_hem_ends_square_where_the_other_cut_line_meets_its_stitching_line(void **state)
{
    for (size_t i = 0; i < sizeof leans_deg / sizeof leans_deg[0]; i++) {
        double q = SIDE / cos(leans_deg[i] * pi / 180), top = 315 * tan(leans_deg[i] * pi / 180);
        struct geometry_path p =
            grow(*state, leans_deg[i], HEM, SIDE, GEOMETRY_CORNER_SQUARE_AFTER, GEOMETRY_CORNER_SQUARE_BEFORE);
        assert_int_equal(p.count, 6);
        assert_has_point(p, 200 + q, 0);
        assert_has_point(p, 200 + q, -HEM);
        assert_has_point(p, -q, 0);
        assert_has_point(p, -q, -HEM);
        assert_has_point(p, 200 + q + top, 315);
        assert_near(geometry_path_area(p), (200 + 2 * q) * (315 + HEM) + 315 * top, 1e-7);
    }
}

/* The side squared instead of the hem: its stitching line goes on to the hem's cut line, which ends there, at
 * (200 - 40 tan(lean), -40); 15 square to it, (15 cos, -15 sin) on, the side's cut line begins. */
static void a_squared_side_ends_square_on_the_hem_s_cut_line(void **state)
{
    for (size_t i = 0; i < sizeof leans_deg / sizeof leans_deg[0]; i++) {
        double lean = leans_deg[i] * pi / 180, x = 200 - HEM * tan(lean);
        struct geometry_path p =
            grow(*state, leans_deg[i], HEM, SIDE, GEOMETRY_CORNER_SQUARE_BEFORE, GEOMETRY_CORNER_SQUARE_AFTER);
        assert_int_equal(p.count, 6);
        assert_has_point(p, x, -HEM);
        assert_has_point(p, x + SIDE * cos(lean), -HEM - SIDE * sin(lean));
        assert_has_point(p, 200 - x, -HEM);
        assert_has_point(p, 200 - x - SIDE * cos(lean), -HEM - SIDE * sin(lean));
    }
}

/* The side's cut line is x = 200 + q + y tan(lean) at the height y; so is the folded hem's end at -y. */
static void a_hem_that_is_folded_back_ends_on_the_side_s_cut_line(void **state)
{
    for (size_t i = 0; i < sizeof leans_deg / sizeof leans_deg[0]; i++) {
        double lean = leans_deg[i] * pi / 180, q = SIDE / cos(lean), end = q + HEM * tan(lean);
        struct geometry_path p =
            grow(*state, leans_deg[i], HEM, SIDE, GEOMETRY_CORNER_FOLD_BACK_AFTER, GEOMETRY_CORNER_FOLD_BACK_BEFORE);
        assert_int_equal(p.count, 6);
        assert_has_point(p, 200 + q, 0);
        assert_has_point(p, 200 + end, -HEM);
        assert_has_point(p, -q, 0);
        assert_has_point(p, -end, -HEM);
    }
}

/* Beside a fold (no allowance) the hem's ends lie on the fold's own line and its mirror image. */
static void beside_a_fold_both_kinds_begin_at_the_corner_itself(void **state)
{
    double t = tan(10 * pi / 180);
    struct geometry_path p = grow(*state, 10, HEM, 0, GEOMETRY_CORNER_SQUARE_AFTER, GEOMETRY_CORNER_FOLD_BACK_BEFORE);
    assert_has_point(p, 0, 0);
    assert_has_point(p, 0, -HEM);
    assert_has_point(p, 200, 0);
    assert_has_point(p, 200 + HEM * t, -HEM);
}

/* At a right corner P at the hem's end, the bisector outwards is (1, -1) / sqrt 2. */
static void a_clipped_corner_is_cut_at_the_wider_allowance_along_the_bisector(void **state)
{
    /* 10 and 10: x - y = 10 sqrt 2 from P on. */
    double cut = 10 * sqrt(2) - 10;
    struct geometry_path p = grow(*state, 0, 10, 10, GEOMETRY_CORNER_CLIPPED, GEOMETRY_CORNER_CLIPPED);
    assert_int_equal(p.count, 6);
    assert_has_point(p, 200 + cut, -10);
    assert_has_point(p, 210, -cut);
    assert_has_point(p, -cut, -10);
    assert_has_point(p, -10, -cut);
    /* 40 and 30: x - y = 40 sqrt 2. */
    p = grow(*state, 0, 40, 30, GEOMETRY_CORNER_MITRE, GEOMETRY_CORNER_CLIPPED);
    assert_has_point(p, 200 + 40 * sqrt(2) - 40, -40);
    assert_has_point(p, 230, 30 - 40 * sqrt(2));
    /* 40 and 15: the mitre's tip is sqrt(1/2) (40 + 15) = 38.9 out along the bisector; nothing to cut. */
    p = grow(*state, 0, 40, 15, GEOMETRY_CORNER_MITRE, GEOMETRY_CORNER_CLIPPED);
    assert_has_point(p, 215, -40);
    assert_int_equal(p.count, 4);
}

/* A side of 20 chords on a circle, hollow or round: the hem's end, mirrored at y = 0, lies on the cut line above. */
static void a_hem_folds_back_onto_a_curved_side(void **state)
{
    static const double bends[] = { -60, 60 };
    for (int k = 0; k < 2; k++) {
        vec2 points[24] = { { 0, 0 } };
        double dist[24] = { HEM };
        struct geometry_corner corners[24] = { { GEOMETRY_CORNER_MITRE } };
        struct geometry_path in = { points, 1, true }, p;
        for (int i = 0; i <= 20; i++) {
            double y = 300.0 * i / 20, t = y / 300;
            dist[in.count] = i < 20 ? SIDE : 15;
            points[in.count++] = (vec2){ 200 + 20 * t + bends[k] * t * (1 - t), y };
        }
        dist[in.count] = 0;
        points[in.count++] = (vec2){ 0, 300 };
        corners[1].kind = GEOMETRY_CORNER_FOLD_BACK_BEFORE;
        assert_true(geometry_offset(*state, in, dist, corners, &p));
        size_t below = 0;
        for (size_t i = 0; i < p.count; i++) {
            vec2 at = p.points[i];
            bool at_hem_end = at.x > 150 && at.y < -1e-9;
            below += at_hem_end;
            if (at_hem_end)
                assert_near(outline_distance(p, (vec2){ at.x, -at.y }), 0, 1e-9);
        }
        /* 40 mm of the cut line are more than two chords of 15 mm, and its end is at the hem's cut line. */
        assert_true(below >= 3);
    }
}

static void a_reflex_corner_is_mitred_whatever_its_kind(void **state)
{
    vec2 points[] = { { 0, 0 }, { 400, 0 }, { 400, 200 }, { 200, 200 }, { 200, 400 }, { 0, 400 } };
    const double dist[] = { 10, 10, 20, 15, 10, 10 };
    for (int kind = GEOMETRY_CORNER_MITRE; kind <= GEOMETRY_CORNER_CLIPPED; kind++) {
        struct geometry_corner corners[6] = { { GEOMETRY_CORNER_MITRE } };
        corners[3].kind = (enum geometry_corner_kind)kind;
        struct geometry_path p;
        assert_true(geometry_offset(*state, (struct geometry_path){ points, 6, true }, dist, corners, &p));
        assert_int_equal(p.count, 6);
        assert_has_point(p, 215, 220);
    }
}

/* Too little hem for what is to be trimmed from it: 30 long, at inner angles of 45°, whose mirrored sides would cross
 * 20 below it. */
static void a_hem_too_short_to_fold_back_is_mitred(void **state)
{
    vec2 points[] = { { 0, 0 }, { 30, 0 }, { -270, 300 }, { -300, 300 } };
    const double dist[] = { 40, 0, 0, 0 };
    struct geometry_corner corners[4] = { { GEOMETRY_CORNER_MITRE } };
    corners[1].kind = GEOMETRY_CORNER_FOLD_BACK_BEFORE;
    struct geometry_path p;
    assert_true(geometry_offset(*state, (struct geometry_path){ points, 4, true }, dist, corners, &p));
    /* The side's line led on to y = -40. */
    assert_has_point(p, 70, -40);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_squared_hem_ends_square_where_the_other_cut_line_meets_its_stitching_line),
        cmocka_unit_test(a_squared_side_ends_square_on_the_hem_s_cut_line),
        cmocka_unit_test(a_hem_that_is_folded_back_ends_on_the_side_s_cut_line),
        cmocka_unit_test(beside_a_fold_both_kinds_begin_at_the_corner_itself),
        cmocka_unit_test(a_clipped_corner_is_cut_at_the_wider_allowance_along_the_bisector),
        cmocka_unit_test(a_hem_folds_back_onto_a_curved_side),
        cmocka_unit_test(a_reflex_corner_is_mitred_whatever_its_kind),
        cmocka_unit_test(a_hem_too_short_to_fold_back_is_mitred),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
