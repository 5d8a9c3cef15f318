#include "geometry/offset.h"
#include "geos.h"
#include "outlines.h"
#include "random.h"
#include "support/cmocka_all.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

static struct geometry_path grow(struct here *h, struct geometry_path in, const double *dist)
{
    struct geometry_path out;
    assert_true(geometry_offset(h->a, in, dist, NULL, &out));
    assert_true(out.closed && geometry_path_area(out) > 0);
    return out;
}

static struct geometry_path grow_evenly(struct here *h, struct geometry_path in, double by)
{
    double *dist = base_arena_alloc(h->a, in.count, sizeof(double));
    for (size_t i = 0; i < in.count; i++)
        dist[i] = by;
    return grow(h, in, dist);
}

/* ---- GEOS as a reference ---- */

/* Area within the outer ring of GEOS' own buffer with mitred corners; holes filled. It cuts mitres past the limit
 * square at the limit, as we do (seen in its results, 3.11). */
static double buffer_area(struct here *h, struct geometry_path p, double by)
{
    GEOSGeometry *in = polygon_of(h, p);
    GEOSGeometry *out =
        GEOSBufferWithStyle_r(h->geos, in, by, 8, GEOSBUF_CAP_ROUND, GEOSBUF_JOIN_MITRE, GEOMETRY_MITRE_LIMIT);
    assert_non_null(out);
    assert_int_equal(GEOSGeomTypeId_r(h->geos, out), GEOS_POLYGON);
    GEOSGeometry *shell =
        GEOSGeom_createPolygon_r(h->geos, GEOSGeom_clone_r(h->geos, GEOSGetExteriorRing_r(h->geos, out)), NULL, 0);
    double area = 0;
    assert_int_equal(GEOSArea_r(h->geos, shell, &area), 1);
    GEOSGeom_destroy_r(h->geos, shell);
    GEOSGeom_destroy_r(h->geos, out);
    GEOSGeom_destroy_r(h->geos, in);
    return area;
}

static bool has_point(struct geometry_path p, vec2 at, double tol)
{
    for (size_t i = 0; i < p.count; i++)
        if (vec2_length(vec2_sub(p.points[i], at)) <= tol)
            return true;
    return false;
}

static void assert_has_point(struct geometry_path p, double x, double y)
{
    if (!has_point(p, (vec2){ x, y }, 1e-9)) {
        for (size_t i = 0; i < p.count; i++)
            print_error("  (%.12g, %.12g)\n", p.points[i].x, p.points[i].y);
        fail_msg("no corner at (%.12g, %.12g)", x, y);
    }
}

/* ---- Worked by hand ---- */

static void a_rectangle_keeps_its_corners(void **state)
{
    struct here *h = *state;
    /* (20 + 3) x (30 + 3) */
    struct geometry_path out = grow_evenly(h, PATH({ 0, 0 }, { 20, 0 }, { 20, 30 }, { 0, 30 }), 1.5);
    assert_near(geometry_path_area(out), 759, 1e-9);
    assert_int_equal(out.count, 4);
    assert_has_point(out, -1.5, -1.5);
    assert_has_point(out, 21.5, 31.5);
    assert_true(out.points[0].x == -1.5 && out.points[0].y == -1.5);
}

static void a_3_4_5_triangle_doubles_its_inner_circle(void **state)
{
    struct here *h = *state;
    /* Its inner circle has radius 1; grown by 1 it is the same triangle with radius 2: four times the area of 6. */
    struct geometry_path out = grow_evenly(h, PATH({ 0, 0 }, { 4, 0 }, { 0, 3 }), 1);
    assert_near(geometry_path_area(out), 24, 1e-12);
    assert_int_equal(out.count, 3);
}

static struct geometry_path regular(struct here *h, size_t count, double r)
{
    struct geometry_path p = { base_arena_alloc(h->a, count, sizeof(vec2)), count, true };
    for (size_t i = 0; i < count; i++) {
        double angle = 2 * pi * (double)i / (double)count;
        p.points[i] = (vec2){ r * cos(angle), r * sin(angle) };
    }
    return p;
}

static void a_circle_grows_by_the_allowance(void **state)
{
    struct here *h = *state;
    /* A regular n-gon grown by d is the n-gon whose inner radius is d more: its corners at r + d / cos(pi / n), which
     * for many corners is r + d. */
    static const size_t counts[] = { 3, 6, 24, 360, 2000 };
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        struct geometry_path out = grow_evenly(h, regular(h, counts[i], 100), 15);
        double r = 100 + 15 / cos(pi / (double)counts[i]);
        assert_int_equal(out.count, counts[i]);
        for (size_t k = 0; k < out.count; k++)
            assert_near(vec2_length(out.points[k]), r, 1e-9);
    }
    assert_near(geometry_path_area(grow_evenly(h, regular(h, 2000, 100), 15)), pi * 115 * 115, 0.2);
}

static void a_fold_keeps_its_line(void **state)
{
    struct here *h = *state;
    /* Right side on the fold: 1.5 on the three others: (20 + 1.5) x (30 + 3). */
    const double dist[] = { 1.5, 0, 1.5, 1.5 };
    struct geometry_path out = grow(h, PATH({ 0, 0 }, { 20, 0 }, { 20, 30 }, { 0, 30 }), dist);
    assert_near(geometry_path_area(out), 21.5 * 33, 1e-9);
    assert_int_equal(out.count, 4);
    assert_has_point(out, 20, -1.5);
    assert_has_point(out, 20, 31.5);
}

static void every_side_has_its_own_allowance(void **state)
{
    struct here *h = *state;
    /* Hem 40 below, seam 15 right, 10 above, fold left: x from 0 to 215, y from -40 to 310. */
    const double dist[] = { 40, 15, 10, 0 };
    struct geometry_path out = grow(h, PATH({ 0, 0 }, { 200, 0 }, { 200, 300 }, { 0, 300 }), dist);
    assert_near(geometry_path_area(out), 215.0 * 350, 1e-8);
    assert_int_equal(out.count, 4);
    assert_has_point(out, 215, -40);
    assert_has_point(out, 0, 310);
}

static void no_allowance_leaves_the_outline(void **state)
{
    struct here *h = *state;
    struct geometry_path in = PATH({ 0, 0 }, { 20, 0 }, { 12, 9 }, { 20, 30 }, { 0, 30 });
    struct geometry_path out = grow_evenly(h, in, 0);
    assert_int_equal(out.count, 5);
    for (size_t i = 0; i < 5; i++)
        assert_true(out.points[i].x == in.points[i].x && out.points[i].y == in.points[i].y);
}

/* A hem of 200 along y = 0 with 40, a fold rising from its end at an inner angle, sides of 15 elsewhere. The fold's
 * line is x = 200 - y / tan(angle); at y = -40 it is at 200 + 40 / tan(angle). */
static void a_hem_ends_on_the_line_of_the_fold(void **state)
{
    struct here *h = *state;
    static const double angles[] = { 75, 90, 105, 60, 120, 25, 155 };
    for (size_t i = 0; i < sizeof angles / sizeof angles[0]; i++) {
        double lean = 1 / tan(angles[i] * pi / 180);
        struct geometry_path in = PATH({ -700, 0 }, { 200, 0 }, { 200 - 300 * lean, 300 }, { -700, 300 });
        const double dist[] = { 40, 0, 15, 15 };
        struct geometry_path out = grow(h, in, dist);
        assert_int_equal(out.count, 4);
        assert_has_point(out, 200 + 40 * lean, -40);
        assert_has_point(out, 200 - 315 * lean, 315);
        assert_has_point(out, -715, -40);
        assert_has_point(out, -715, 315);
    }
}

/* The same the other way round: the fold runs down into the hem. */
static void a_hem_begins_on_the_line_of_the_fold(void **state)
{
    struct here *h = *state;
    static const double angles[] = { 75, 90, 105 };
    for (size_t i = 0; i < sizeof angles / sizeof angles[0]; i++) {
        double lean = 1 / tan(angles[i] * pi / 180);
        struct geometry_path in = PATH({ 0, 0 }, { 700, 0 }, { 700, 300 }, { 300 * lean, 300 });
        const double dist[] = { 40, 15, 15, 0 };
        struct geometry_path out = grow(h, in, dist);
        assert_int_equal(out.count, 4);
        assert_has_point(out, -40 * lean, -40);
        assert_has_point(out, 315 * lean, 315);
    }
}

/* A seam of 15 beside a hem of 40 at an inner angle of 105°: the grown lines y = -40 and 15 off the slanting side. The
 * side's line is x = 200 + y t with t = tan 15°; 15 off it, x = 200 + y t + 15 / cos 15°. */
static void differing_allowances_meet_where_their_lines_do(void **state)
{
    struct here *h = *state;
    static const double leans[] = { -30, -15, 0, 15, 30 };
    for (size_t i = 0; i < sizeof leans / sizeof leans[0]; i++) {
        double t = tan(leans[i] * pi / 180), off = 15 / cos(leans[i] * pi / 180);
        struct geometry_path in = PATH({ -700, 0 }, { 200, 0 }, { 200 + 300 * t, 300 }, { -700, 300 });
        const double dist[] = { 40, 15, 15, 15 };
        struct geometry_path out = grow(h, in, dist);
        assert_int_equal(out.count, 4);
        assert_has_point(out, 200 - 40 * t + off, -40);
        assert_has_point(out, 200 + 315 * t + off, 315);
    }
}

static void a_trimmed_hem_of_short_chords_is_trimmed_through_all_of_them(void **state)
{
    struct here *h = *state;
    /* The hem's last 30 mm are ten chords in one line but for a hair (they must not be taken for one side), and the
     * fold at 120° takes 40 / tan 60° = 23.09 mm of the grown hem away: seven chords and a part. */
    struct geometry_path in = { base_arena_alloc(h->a, 20, sizeof(vec2)), 0, true };
    double dist[20];
    for (int i = 0; i <= 10; i++) {
        dist[in.count] = i < 10 ? 40 : 0;
        in.points[in.count++] = (vec2){ 170 + 3 * i, i % 2 == 0 ? 0 : -1e-5 };
    }
    dist[in.count] = 15;
    in.points[in.count++] = (vec2){ 200 + 300 / tan(60 * pi / 180), 300 };
    dist[in.count] = 15;
    in.points[in.count++] = (vec2){ -700, 300 };
    dist[in.count] = 40;
    in.points[in.count++] = (vec2){ -700, 0 };
    struct geometry_path out = grow(h, in, dist);
    assert_true(has_point(out, (vec2){ 200 - 40 / tan(60 * pi / 180), -40 }, 2e-5));
    for (size_t i = 0; i < out.count; i++) /* nothing beyond the fold's line */
        assert_true((out.points[i].x - 200) * sin(60 * pi / 180) - out.points[i].y * cos(60 * pi / 180) < 1e-9);
    /* Area, up to the hair: the trapezium between the lines y = -40 and y = 315. */
    double t = 1 / tan(60 * pi / 180);
    assert_near(geometry_path_area(out), (915 + (315.0 - 40) / 2 * t) * 355, 1e-2);
}

/* How far a point lies past the line of a fold that rises from (200, 0) at an inner angle of 120°. */
static double past_the_fold(vec2 p)
{
    return (p.x - 200) * sin(60 * pi / 180) - p.y * cos(60 * pi / 180);
}

static void a_tooth_of_the_hem_is_trimmed_with_it(void **state)
{
    struct here *h = *state;
    /* The hem ends in 10 mm that the fold trims away altogether and, before them, a tooth with its tip at (170, -30),
     * whose cut-off mitre reaches past the fold's line. */
    struct geometry_path in = PATH({ -700, 0 }, { 180, 0 }, { 170, -30 }, { 190, 0 }, { 200, 0 },
                                   { 200 + 300 / tan(60 * pi / 180), 300 }, { -700, 300 });
    const double dist[] = { 40, 40, 40, 40, 0, 15, 15 };
    struct geometry_path out = grow(h, in, dist);
    for (size_t i = 0; i < out.count; i++)
        assert_true(past_the_fold(out.points[i]) < 1e-9);
    /* The mitre ends 160 from the tip along the corner's bisector u, where (p - tip) · u = 160; the fold's line is
     * p · f = 200 f.x. Their meeting by Cramer's rule. */
    vec2 u = vec2_unit(vec2_sub(vec2_unit((vec2){ -10, -30 }), vec2_unit((vec2){ 20, 30 })));
    vec2 f = { sin(60 * pi / 180), -cos(60 * pi / 180) };
    double on_u = 160 + 170 * u.x - 30 * u.y, on_f = 200 * f.x, det = vec2_cross(u, f);
    assert_has_point(out, (on_u * f.y - on_f * u.y) / det, (u.x * on_f - f.x * on_u) / det);
    assert_true(is_valid(h, out));
}

static void a_hem_that_comes_from_past_the_fold_keeps_its_allowance_there(void **state)
{
    struct here *h = *state;
    /* The side from (178, -60) to (190, 0) crosses the line on which the fold trims the last 10 mm of the hem. Halfway,
     * 39 of its 40 mm out, the allowance still is. */
    struct geometry_path in = PATH({ -700, -60 }, { 178, -60 }, { 190, 0 }, { 200, 0 },
                                   { 200 + 300 / tan(60 * pi / 180), 300 }, { -700, 300 });
    const double dist[] = { 40, 40, 40, 0, 15, 15 };
    struct geometry_path out = grow(h, in, dist);
    vec2 outwards = vec2_unit(vec2_right((vec2){ 12, 60 }));
    vec2 at = vec2_add((vec2){ 184, -30 }, vec2_scale(outwards, 39));
    assert_true(past_the_fold(at) > 30);
    assert_true(geometry_path_holds(out, at));
}

static void a_step_stays_one_whatever_its_direction(void **state)
{
    struct here *h = *state;
    /* 100 x 60, the long side below in two parts with 40 and 15: 100 x 60 and 15 round it (130 x 90), and 25 more along
     * 55 of the part and its corner. */
    const double dist[] = { 40, 15, 15, 15, 15 };
    for (int i = 0; i < 360; i++) {
        double c = cos(i * pi / 180), s = sin(i * pi / 180);
        vec2 p[5] = { { 0, 0 }, { 40, 0 }, { 100, 0 }, { 100, 60 }, { 0, 60 } };
        for (int k = 0; k < 5; k++)
            p[k] = (vec2){ c * p[k].x - s * p[k].y, s * p[k].x + c * p[k].y };
        struct geometry_path out = grow(h, (struct geometry_path){ p, 5, true }, dist);
        assert_int_equal(out.count, 6);
        assert_near(geometry_path_area(out), 130 * 90 + 55 * 25, 1e-8);
        assert_has_point(out, c * 40 + s * 40, s * 40 - c * 40);
        assert_has_point(out, c * 40 + s * 15, s * 40 - c * 15);
    }
}

static void allowances_that_change_in_line_make_a_step(void **state)
{
    struct here *h = *state;
    /* A bottom side in two parts, 40 and 15. */
    const double dist[] = { 40, 15, 15, 15, 15 };
    struct geometry_path out = grow(h, PATH({ 0, 0 }, { 100, 0 }, { 200, 0 }, { 200, 300 }, { 0, 300 }), dist);
    assert_near(geometry_path_area(out), 230.0 * 330 + 115 * 25, 1e-8);
    assert_int_equal(out.count, 6);
    assert_has_point(out, 100, -40);
    assert_has_point(out, 100, -15);
    assert_has_point(out, -15, -40);
    /* A bend of 2° is too flat for the lines to meet within the limit: a step, square to the wider side. */
    double s = sin(2 * pi / 180), c = cos(2 * pi / 180);
    out = grow(h, PATH({ 0, 0 }, { 100, 0 }, { 100 + 100 * c, 100 * s }, { 200, 300 }, { 0, 300 }), dist);
    assert_has_point(out, 100, -40);
    assert_has_point(out, 100, -15 / c);
    assert_true(is_valid(h, out));
}

static void a_sharp_corner_is_cut_off_square_at_the_limit(void **state)
{
    struct here *h = *state;
    /* A corner of 20° at (0,0) about the x axis, grown by 1: the cut is at x = -4; there the grown lines are
     * 1 / cos 10° - 4 tan 10° from the axis. */
    double t = tan(10 * pi / 180), off = 1 / cos(10 * pi / 180);
    struct geometry_path out = grow_evenly(h, PATH({ 0, 0 }, { 100, -100 * t }, { 100, 100 * t }), 1);
    assert_int_equal(out.count, 4);
    assert_has_point(out, -4, off - 4 * t);
    assert_has_point(out, -4, 4 * t - off);
    /* Just under the limit it is whole: 30° has 1 / sin 15° = 3.86. */
    t = tan(15 * pi / 180);
    out = grow_evenly(h, PATH({ 0, 0 }, { 100, -100 * t }, { 100, 100 * t }), 1);
    assert_int_equal(out.count, 3);
    assert_has_point(out, -1 / sin(15 * pi / 180), 0);
}

static void a_reflex_corner_is_mitred_inwards(void **state)
{
    struct here *h = *state;
    /* An L grown by 1: 6 x 6 less the corner that was 2 x 2 and is still 2 x 2, further out. */
    struct geometry_path out = grow_evenly(h, PATH({ 0, 0 }, { 4, 0 }, { 4, 2 }, { 2, 2 }, { 2, 4 }, { 0, 4 }), 1);
    assert_near(geometry_path_area(out), 32, 1e-12);
    assert_int_equal(out.count, 6);
    assert_has_point(out, 3, 3);
    /* With 1 on the upper side and 0.5 on the one it meets at (2, 2). */
    const double dist[] = { 0, 0, 1, 0.5, 0, 0 };
    out = grow(h, PATH({ 0, 0 }, { 4, 0 }, { 4, 2 }, { 2, 2 }, { 2, 4 }, { 0, 4 }), dist);
    assert_int_equal(out.count, 6);
    assert_has_point(out, 2.5, 3);
    assert_has_point(out, 4, 3);
    assert_has_point(out, 2.5, 4);
}

static void a_wide_side_is_led_on_to_a_narrow_one_that_leans_outwards(void **state)
{
    struct here *h = *state;
    /* A hem of 40 along y = 0 meets at (100, 0) a side that falls away at 45°, without allowance: the hem's grown line
     * y = -40 is led on to (140, -40). */
    const double dist[] = { 40, 0, 0, 0, 0 };
    struct geometry_path in = PATH({ 0, 0 }, { 100, 0 }, { 200, -100 }, { 200, 100 }, { 0, 100 });
    struct geometry_path out = grow(h, in, dist);
    assert_has_point(out, 140, -40);
    assert_int_equal(out.count, 5);
    assert_near(geometry_path_area(out), geometry_path_area(in) + 40 * 120, 1e-8);
}

static void a_wide_side_after_a_narrow_one_is_led_back_to_it(void **state)
{
    struct here *h = *state;
    const double dist[] = { 40, 0, 0, 0, 0 };
    struct geometry_path in = PATH({ 0, 0 }, { 100, 0 }, { 100, 100 }, { -100, 100 }, { -100, -100 });
    struct geometry_path out = grow(h, in, dist);
    assert_has_point(out, -40, -40);
    assert_int_equal(out.count, 5);
    assert_near(geometry_path_area(out), geometry_path_area(in) + 40 * 120, 1e-8);
}

/* ---- Against GEOS' buffer ---- */

static struct geometry_path arc_outline(struct here *h, const vec2 *corners, size_t count, size_t arc_after,
                                        vec2 centre, double r, double from_deg, double to_deg, size_t steps)
{
    struct geometry_path p = { base_arena_alloc(h->a, count + steps + 1, sizeof(vec2)), 0, true };
    for (size_t i = 0; i < count; i++) {
        p.points[p.count++] = corners[i];
        for (size_t k = 0; i == arc_after && k <= steps; k++) {
            double angle = (from_deg + (to_deg - from_deg) * (double)k / (double)steps) * pi / 180;
            p.points[p.count++] = (vec2){ centre.x + r * cos(angle), centre.y + r * sin(angle) };
        }
    }
    return p;
}

static void a_u_narrower_than_its_allowances_closes(void **state)
{
    struct here *h = *state;
    /* A U 10 mm wide inside with a round bottom of radius 5, allowance 15: all of the inside is covered, so that the
     * grown outline is the grown block of 100 x 80. */
    static const vec2 corners[] = { { 0, 0 }, { 100, 0 }, { 100, 80 }, { 55, 80 }, { 45, 80 }, { 0, 80 } };
    for (size_t steps = 4; steps <= 64; steps *= 2) {
        struct geometry_path in = arc_outline(h, corners, 6, 3, (vec2){ 50, 30 }, 5, 0, -180, steps);
        struct geometry_path out = grow_evenly(h, in, 15);
        assert_near(geometry_path_area(out), 130 * 110, 1e-8);
        assert_near(geometry_path_area(out), buffer_area(h, in, 15), 1e-6 * 130 * 110);
        assert_int_equal(out.count, 4);
    }
}

static void a_bay_with_a_narrow_neck_loses_its_hole(void **state)
{
    struct here *h = *state;
    /* A round bay of radius 30 behind a neck of 10 mm: grown by 15 it is a hole, and the outer boundary is the block's.
     */
    static const vec2 corners[] = { { 0, 0 }, { 200, 0 }, { 200, 150 }, { 105, 150 }, { 95, 150 }, { 0, 150 } };
    double half = asin(5.0 / 30) * 180 / pi;
    struct geometry_path in = arc_outline(h, corners, 6, 3, (vec2){ 100, 80 }, 30, 90 - half, -270 + half, 90);
    struct geometry_path out = grow_evenly(h, in, 15);
    assert_near(geometry_path_area(out), 230 * 180, 1e-8);
    assert_near(geometry_path_area(out), buffer_area(h, in, 15), 1e-6 * 230 * 180);
    assert_int_equal(out.count, 4);
}

static void a_concave_curve_of_radius_5_takes_an_allowance_of_15(void **state)
{
    struct here *h = *state;
    /* A quarter circle cut out of a block's corner, radius 5, and the same with 60: grown inwards past its centre, and
     * not. Where it passes the centre the two grown straight sides meet in a right corner. */
    static const vec2 corners[] = { { 0, 0 }, { 100, 0 }, { 0, 100 } };
    struct geometry_path in = arc_outline(h, corners, 3, 1, (vec2){ 100, 100 }, 5, -90, -180, 40);
    struct geometry_path out = grow_evenly(h, in, 15);
    assert_near(geometry_path_area(out), buffer_area(h, in, 15), 1e-6 * 130 * 130);
    in = arc_outline(h, corners, 3, 1, (vec2){ 100, 100 }, 60, -90, -180, 40);
    out = grow_evenly(h, in, 15);
    assert_true(is_valid(h, out));
    /* GEOS thins concave curves by up to a hundredth of the distance first; so by formula: every chord is 60 x 2 sin of
     * half a step and the grown ones have the radius 45 of the inner n-gon's corners, 60 - 15 / cos(half a step). */
    double step = pi / 2 / 40, r = 60 - 15 / cos(step / 2);
    size_t on_arc = 0;
    for (size_t i = 0; i < out.count; i++)
        on_arc += fabs(vec2_length(vec2_sub(out.points[i], (vec2){ 100, 100 })) - r) < 1e-9;
    assert_int_equal(on_arc, 39);
}

/* Star-shaped about the origin: points at growing angles. Corners sharper than 29° among them are cut off the same way
 * by both. */
static struct geometry_path random_star(struct here *h, uint64_t *seed)
{
    size_t count = (size_t)random_between(seed, 3, 24);
    struct geometry_path p = { base_arena_alloc(h->a, count, sizeof(vec2)), count, true };
    for (size_t i = 0; i < count; i++) {
        double angle = 2 * pi * ((double)i + random_between(seed, 0, 0.9)) / (double)count;
        double r = random_between(seed, 60, 400);
        p.points[i] = (vec2){ r * cos(angle), r * sin(angle) };
    }
    return p;
}

/* Every side in three parts, whose allowances differ by less than can be meant. */
static void allowances_that_differ_by_rounding_are_one(void **state)
{
    struct here *h = *state;
    uint64_t seed = 4;
    for (int i = 0; i < 200; i++) {
        struct geometry_path star = random_star(h, &seed), in = { NULL, 0, true };
        in.points = base_arena_alloc(h->a, 3 * star.count, sizeof(vec2));
        double *dist = base_arena_alloc(h->a, 3 * star.count, sizeof(double));
        if (geometry_path_area(star) <= 0)
            continue;
        for (size_t k = 0; k < 3 * star.count; k++) {
            dist[k] = 15 + random_between(&seed, 0, 1e-9);
            in.points[in.count++] =
                vec2_lerp(star.points[k / 3], star.points[(k / 3 + 1) % star.count], (double)(k % 3) / 3);
        }
        struct geometry_path out = grow(h, in, dist), want = grow_evenly(h, star, 15);
        assert_near(geometry_path_area(out), geometry_path_area(want), 1e-5);
        assert_int_equal(out.count, want.count);
    }
}

static void random_stars_grow_as_in_geos(void **state)
{
    struct here *h = *state;
    uint64_t seed = 1;
    int compared = 0;
    for (int i = 0; i < 500; i++) {
        struct geometry_path in = random_star(h, &seed);
        double by = random_between(&seed, 1, 40);
        if (geometry_path_area(in) <= 0)
            continue;
        struct geometry_path out = grow_evenly(h, in, by);
        double area = geometry_path_area(out), want = buffer_area(h, in, by);
        if (fabs(area - want) > 1e-6 * want)
            fail_msg("star %d: area %.12g, not %.12g", i, area, want);
        if (!is_valid(h, out))
            fail_msg("star %d is not simple", i);
        if (!lies_within(h, in, out))
            fail_msg("star %d lost some of the piece", i);
        for (size_t k = 0; k < out.count; k++)
            assert_true(outline_distance(in, out.points[k]) >= by - 1e-6);
        compared++;
    }
    assert_true(compared >= 450);
}

static void assert_long_sides_have_their_allowance(struct geometry_path in, const double *dist, double most,
                                                   struct geometry_path out)
{
    for (size_t k = 0; k < in.count; k++) {
        vec2 a = in.points[k], b = in.points[(k + 1) % in.count], side = vec2_sub(b, a);
        /* What a corner takes from a side ends within the mitre limit of it. */
        if (vec2_length(side) < 2 * GEOMETRY_MITRE_LIMIT * most)
            continue;
        vec2 out_to = vec2_scale(vec2_unit(vec2_right(side)), dist[k] - 1e-6);
        assert_true(dist[k] == 0 || geometry_path_holds(out, vec2_add(vec2_lerp(a, b, 0.5), out_to)));
    }
}

/* Allowances of every mixture: no outside reference, so what must hold whatever the corner: the result is simple, holds
 * the piece and the middle of every long side's strip, and keeps within the mitre limit and the widest even growth. */
static void random_allowances_keep_what_must_hold(void **state)
{
    struct here *h = *state;
    static const double widths[] = { 0, 0, 6, 10, 15, 15, 40 };
    uint64_t seed = 2;
    for (int i = 0; i < 500; i++) {
        struct geometry_path in = random_star(h, &seed), out;
        double dist[24], most = 0;
        for (size_t k = 0; k < in.count; k++) {
            dist[k] = widths[(int)random_between(&seed, 0, 7)];
            most = fmax(most, dist[k]);
        }
        if (geometry_path_area(in) <= 0)
            continue;
        out = grow(h, in, dist);
        if (!is_valid(h, out))
            fail_msg("star %d is not simple", i);
        if (!lies_within(h, in, out))
            fail_msg("star %d lost some of the piece", i);
        double reached = GEOMETRY_MITRE_LIMIT * most * 1.05 + 1e-6;
        for (size_t k = 0; k < out.count; k++)
            assert_true(outline_distance(in, out.points[k]) <= reached);
        assert_long_sides_have_their_allowance(in, dist, most, out);
        struct geometry_path even = grow_evenly(h, in, most);
        assert_true(geometry_path_area(out) <= geometry_path_area(even) * (1 + 1e-9));
    }
}

/* ---- Refusals and sameness ---- */

static void outlines_without_an_inside_are_refused(void **state)
{
    struct here *h = *state;
    const double dist[] = { 1, 1, 1, 1 };
    struct geometry_path out;
    assert_false(geometry_offset(h->a, PATH({ 0, 0 }, { 4, 0 }), dist, NULL, &out));
    assert_int_equal(out.count, 0);
    assert_false(geometry_offset(h->a, PATH({ 0, 0 }, { 4, 0 }, { 8, 0 }), dist, NULL, &out));
    assert_false(geometry_offset(h->a, PATH({ 0, 0 }, { 4, 0 }, { 0, 4 }, { 4, 4 }), dist, NULL, &out));
    assert_false(geometry_offset(h->a, PATH({ 0, 0 }, { 4, 0 }, { 1, 4 }, { 4, 4.5 }), dist, NULL, &out));
    assert_int_equal(out.count, 0);
}

static void points_twice_in_a_row_change_nothing(void **state)
{
    struct here *h = *state;
    const double dist[] = { 2, 9, 3, 1, 9 };
    struct geometry_path once = grow(h, PATH({ 0, 0 }, { 40, 0 }, { 0, 30 }), (const double[]){ 2, 3, 1 });
    struct geometry_path twice = grow(h, PATH({ 0, 0 }, { 40, 0 }, { 40, 0 }, { 0, 30 }, { 0, 0 }), dist);
    assert_int_equal(twice.count, once.count);
    for (size_t i = 0; i < once.count; i++)
        assert_near(vec2_length(vec2_sub(once.points[i], twice.points[i])), 0, 1e-12);
}

static void the_same_outline_gives_the_same_bits(void **state)
{
    struct here *h = *state;
    uint64_t seed = 3;
    for (int i = 0; i < 50; i++) {
        struct geometry_path in = random_star(h, &seed), first, second;
        double dist[24];
        for (size_t k = 0; k < in.count; k++)
            dist[k] = random_between(&seed, 0, 30);
        if (geometry_path_area(in) <= 0)
            continue;
        first = grow(h, in, dist);
        second = grow(h, geometry_path_copy(h->a, in), dist);
        assert_int_equal(first.count, second.count);
        assert_memory_equal(first.points, second.points, first.count * sizeof(vec2));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_rectangle_keeps_its_corners),
        cmocka_unit_test(a_3_4_5_triangle_doubles_its_inner_circle),
        cmocka_unit_test(a_circle_grows_by_the_allowance),
        cmocka_unit_test(a_fold_keeps_its_line),
        cmocka_unit_test(every_side_has_its_own_allowance),
        cmocka_unit_test(no_allowance_leaves_the_outline),
        cmocka_unit_test(a_hem_ends_on_the_line_of_the_fold),
        cmocka_unit_test(a_hem_begins_on_the_line_of_the_fold),
        cmocka_unit_test(differing_allowances_meet_where_their_lines_do),
        cmocka_unit_test(a_trimmed_hem_of_short_chords_is_trimmed_through_all_of_them),
        cmocka_unit_test(a_tooth_of_the_hem_is_trimmed_with_it),
        cmocka_unit_test(a_hem_that_comes_from_past_the_fold_keeps_its_allowance_there),
        cmocka_unit_test(allowances_that_change_in_line_make_a_step),
        cmocka_unit_test(a_step_stays_one_whatever_its_direction),
        cmocka_unit_test(a_sharp_corner_is_cut_off_square_at_the_limit),
        cmocka_unit_test(a_reflex_corner_is_mitred_inwards),
        cmocka_unit_test(a_wide_side_is_led_on_to_a_narrow_one_that_leans_outwards),
        cmocka_unit_test(a_wide_side_after_a_narrow_one_is_led_back_to_it),
        cmocka_unit_test(a_u_narrower_than_its_allowances_closes),
        cmocka_unit_test(a_bay_with_a_narrow_neck_loses_its_hole),
        cmocka_unit_test(a_concave_curve_of_radius_5_takes_an_allowance_of_15),
        cmocka_unit_test(random_stars_grow_as_in_geos),
        cmocka_unit_test(allowances_that_differ_by_rounding_are_one),
        cmocka_unit_test(random_allowances_keep_what_must_hold),
        cmocka_unit_test(outlines_without_an_inside_are_refused),
        cmocka_unit_test(points_twice_in_a_row_change_nothing),
        cmocka_unit_test(the_same_outline_gives_the_same_bits),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
