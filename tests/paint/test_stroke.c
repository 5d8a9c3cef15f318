#include "geometry/random.h"
#include "paint/polygon.h"
#include "paint/stroke.h"
#include "support/room.h"

#include <geos_c.h>
#include <stdlib.h>

static struct geometry_path open_path(struct arena *a, const double *xy, size_t count)
{
    struct geometry_path out = polygon_of(a, xy, count);
    out.closed = false;
    return out;
}

static struct paint_outlines stroke(struct arena *a, struct geometry_path path, struct paint_pen pen)
{
    struct paint_outlines out = { 0 };
    paint_stroke_outline(a, path, pen, &out);
    return out;
}

static void assert_has_point(struct geometry_path p, double x, double y)
{
    for (size_t i = 0; i < p.count; i++)
        if (fabs(p.points[i].x - x) < 1e-9 && fabs(p.points[i].y - y) < 1e-9)
            return;
    fail_msg("no point at %g, %g", x, y);
}

static void assert_area(const struct paint_outlines *out, double want)
{
    double area = 0;
    for (size_t i = 0; i < out->count; i++)
        area += geometry_path_area(out->paths[i]);
    assert_near(area, want, 1e-9);
}

/* ---- whole lines, by hand ---- */

static void a_line_becomes_a_rectangle_with_square_ends(void **state)
{
    struct geometry_path line = open_path(*state, (double[]){ 10, 5, 40, 5 }, 2);
    struct paint_outlines out = stroke(*state, line, (struct paint_pen){ .width = 3 });
    assert_int_equal(out.count, 1);
    assert_int_equal(out.paths[0].count, 4);
    assert_has_point(out.paths[0], 10, 3.5);
    assert_has_point(out.paths[0], 40, 6.5);
    assert_area(&out, 90);
}

static void a_square_becomes_two_squares_whichever_way_it_runs(void **state)
{
    for (int back = 0; back < 2; back++) {
        struct geometry_path square = polygon_of(*state, (double[]){ 0, 0, 100, 0, 100, 100, 0, 100 }, 4);
        if (back)
            geometry_path_reverse(square);
        struct paint_outlines out = stroke(*state, square, (struct paint_pen){ .width = 3 });
        assert_int_equal(out.count, 2);
        assert_int_equal(out.paths[0].count, 4);
        assert_int_equal(out.paths[1].count, 4);
        assert_has_point(out.paths[back ? 1 : 0], -1.5, -1.5);
        assert_has_point(out.paths[back ? 0 : 1], 1.5, 1.5);
        assert_area(&out, 103.0 * 103.0 - 97.0 * 97.0);
    }
}

/* A corner of interior angle b has its tip width / sin(b/2) from its inner corner: at most 4 widths down to
 * 2 asin(1/4) = 28.96°. The hook has its corner at 0, one leg along -x. */
static struct paint_outlines hook(struct arena *a, double interior_deg)
{
    double angle = interior_deg * 3.14159265358979323846 / 180;
    struct geometry_path path = open_path(a, (double[]){ -100, 0, 0, 0, -100 * cos(angle), 100 * sin(angle) }, 3);
    return stroke(a, path, (struct paint_pen){ .width = 2 });
}

static double tip_of(struct paint_outlines out)
{
    return geometry_path_box(out.paths[0]).max.x;
}

static void corners_are_mitred_up_to_four_widths_and_then_bevelled(void **state)
{
    double half = 29.0 / 2 * 3.14159265358979323846 / 180;
    /* The tip lies half the mitre length from the corner, on the line that halves the angle. */
    assert_near(tip_of(hook(*state, 29)), cos(half) / sin(half), 1e-9);
    /* The bevel joins the ends of the two legs' outer edges, sin(28.9°) ahead of the corner. */
    assert_near(tip_of(hook(*state, 28.9)), sin(28.9 * 3.14159265358979323846 / 180), 1e-9);
}

static void a_right_angle_has_its_tip_and_its_inner_corner(void **state)
{
    struct geometry_path path = open_path(*state, (double[]){ 0, 0, 50, 0, 50, 30 }, 3);
    struct paint_outlines out = stroke(*state, path, (struct paint_pen){ .width = 4 });
    assert_int_equal(out.paths[0].count, 6);
    assert_has_point(out.paths[0], 52, -2);
    assert_has_point(out.paths[0], 48, 2);
    assert_area(&out, 4 * 52 + 4 * 28);
}

static void paths_of_a_single_place_draw_nothing(void **state)
{
    struct geometry_path point = open_path(*state, (double[]){ 5, 5, 5, 5, 5, 5 + 1e-10 }, 3);
    assert_int_equal(stroke(*state, point, (struct paint_pen){ .width = 3 }).count, 0);
    point.closed = true;
    assert_int_equal(stroke(*state, point, (struct paint_pen){ .width = 3, .dash = { 4, 2 } }).count, 0);
    point.count = 0;
    assert_int_equal(stroke(*state, point, (struct paint_pen){ .width = 3 }).count, 0);
}

static void there_and_back_is_one_line(void **state)
{
    struct geometry_path path = polygon_of(*state, (double[]){ 0, 0, 20, 0 }, 2);
    struct paint_outlines out = stroke(*state, path, (struct paint_pen){ .width = 2 });
    assert_area(&out, 40);
}

/* ---- winding ---- */

/* Whether a place lies under the pen on a piece of the path; with `margin` < 0 surely, with > 0 perhaps. */
static bool under_pen(struct geometry_path p, double half, double margin, vec2 at)
{
    size_t pieces = p.closed ? p.count : p.count - 1;
    for (size_t i = 0; i < pieces; i++) {
        vec2 from = p.points[i], way = vec2_sub(p.points[(i + 1) % p.count], from);
        double length = vec2_length(way);
        if (length == 0)
            continue;
        double along = vec2_dot(way, vec2_sub(at, from)) / length;
        double across = fabs(vec2_cross(way, vec2_sub(at, from)) / length);
        if (along >= -margin && along <= length + margin && across <= half + margin)
            return true;
    }
    return false;
}

/* Within the longest tip of any corner. */
static bool near_a_corner(struct geometry_path p, double half, vec2 at)
{
    for (size_t i = 0; i < p.count; i++)
        if (vec2_length(vec2_sub(at, p.points[i])) <= 4 * half + 1e-6)
            return true;
    return false;
}

/* Steps from far longer to far shorter than the pen is wide, with sharp turns and ways straight back. */
static struct geometry_path random_path(struct arena *a, uint64_t *seed)
{
    struct geometry_path p = { base_arena_alloc(a, 12, sizeof(vec2)), 3, random_between(seed, 0, 1) < 0.5 };
    p.count += (size_t)random_between(seed, 0, 9);
    double step = random_between(seed, 0, 1) < 0.5 ? 1.5 : 12;
    for (size_t i = 1; i < p.count; i++) {
        vec2 move = { random_between(seed, -step, step), random_between(seed, -step, step) };
        if (random_between(seed, 0, 1) < 0.1 && i > 1)
            move = vec2_scale(vec2_sub(p.points[i - 2], p.points[i - 1]), random_between(seed, 0.2, 2));
        p.points[i] = vec2_add(p.points[i - 1], move);
    }
    return p;
}

static void outlines_wind_around_all_that_is_lit_and_nothing_else(void **state)
{
    uint64_t seed = 1;
    int lit = 0, dark = 0;
    for (int round = 0; round < 3000; round++) {
        struct geometry_path path = random_path(*state, &seed);
        double half = random_between(&seed, 0.2, 2);
        struct paint_outlines out = stroke(*state, path, (struct paint_pen){ .width = 2 * half });
        struct geometry_box box = geometry_path_box(path);
        for (int i = 0; i < 200; i++) {
            vec2 at = { random_between(&seed, box.min.x - 3, box.max.x + 3),
                        random_between(&seed, box.min.y - 3, box.max.y + 3) };
            int winding = polygon_winding(out.paths, out.count, at);
            assert_true(winding >= 0);
            if (under_pen(path, half, -1e-7, at)) {
                assert_true(winding >= 1);
                lit++;
            } else if (!under_pen(path, half, 1e-7, at) && !near_a_corner(path, half, at)) {
                assert_int_equal(winding, 0);
                dark++;
            }
        }
    }
    assert_true(lit > 50000 && dark > 50000);
}

/* Outside source: GEOS's buffer with flat ends and mitred joins. The share of a box of places that wind is compared
 * with GEOS's "contains", away from the outline's own edges. */
static GEOSGeometry *geos_stroke(GEOSContextHandle_t geos, struct geometry_path p, double half)
{
    GEOSCoordSequence *points = GEOSCoordSeq_create_r(geos, (unsigned)p.count, 2);
    for (unsigned i = 0; i < p.count; i++)
        GEOSCoordSeq_setXY_r(geos, points, i, p.points[i].x, p.points[i].y);
    GEOSGeometry *line = GEOSGeom_createLineString_r(geos, points);
    GEOSGeometry *out = GEOSBufferWithStyle_r(geos, line, half, 8, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, 4);
    GEOSGeom_destroy_r(geos, line);
    return out;
}

static void outlines_cover_what_geos_covers(void **state)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    uint64_t seed = 3;
    for (int round = 0; round < 60; round++) {
        struct geometry_path path = { base_arena_alloc(*state, 8, sizeof(vec2)), 8, false };
        double half = random_between(&seed, 0.5, 2);
        for (int i = 0; i < 8; i++) /* turns of at most 127°: no mitre reaches the limit */
            path.points[i] = (vec2){ 10 * i, random_between(&seed, -10, 10) };
        struct paint_outlines out = stroke(*state, path, (struct paint_pen){ .width = 2 * half });
        GEOSGeometry *want = geos_stroke(geos, path, half), *edge = GEOSBoundary_r(geos, want);
        for (int i = 0; i < 300; i++) {
            vec2 at = { random_between(&seed, -5, 75), random_between(&seed, -15, 15) };
            double away = 1;
            GEOSGeometry *place = GEOSGeom_createPointFromXY_r(geos, at.x, at.y);
            assert_int_equal(GEOSDistance_r(geos, place, edge, &away), 1);
            if (away > 1e-6)
                assert_int_equal(polygon_winding(out.paths, out.count, at) > 0, GEOSContains_r(geos, want, place));
            GEOSGeom_destroy_r(geos, place);
        }
        GEOSGeom_destroy_r(geos, edge);
        GEOSGeom_destroy_r(geos, want);
    }
    GEOS_finish_r(geos);
}

/* ---- dashes, by hand ---- */

static void assert_spans_x(struct geometry_path dash, double from, double to)
{
    struct geometry_box box = geometry_path_box(dash);
    assert_near(box.min.x, from, 1e-9);
    assert_near(box.max.x, to, 1e-9);
}

/* 6 dashes of 12 and 5 gaps of 6 are 102; on 104 each is 104/102 as long. */
static void an_open_line_begins_and_ends_with_a_whole_dash(void **state)
{
    for (int extra = 0; extra <= 2; extra += 2) {
        double fit = (102 + extra) / 102.0;
        struct geometry_path line = open_path(*state, (double[]){ 0, 0, 102 + extra, 0 }, 2);
        struct paint_outlines out = stroke(*state, line, (struct paint_pen){ .width = 1.5, .dash = { 12, 6 } });
        assert_int_equal(out.count, 6);
        for (int i = 0; i < 6; i++)
            assert_spans_x(out.paths[i], 18 * i * fit, (18 * i + 12) * fit);
    }
}

/* 36 6 9 6 on 93 = one period of 57 and a last 36. */
static void long_and_short_dashes_take_turns(void **state)
{
    struct geometry_path line = open_path(*state, (double[]){ 0, 0, 93, 0 }, 2);
    struct paint_outlines out = stroke(*state, line, (struct paint_pen){ .width = 2, .dash = { 36, 6, 9, 6 } });
    assert_int_equal(out.count, 3);
    assert_spans_x(out.paths[0], 0, 36);
    assert_spans_x(out.paths[1], 42, 51);
    assert_spans_x(out.paths[2], 57, 93);
}

/* Sides of 180 are ten periods: nine dashes along each, one around each corner, 6 on either side of it. */
static void dashes_lie_half_on_each_side_of_a_corner_and_meet_around_a_square(void **state)
{
    struct geometry_path square = polygon_of(*state, (double[]){ 0, 0, 180, 0, 180, 180, 0, 180 }, 4);
    struct paint_outlines out = stroke(*state, square, (struct paint_pen){ .width = 2, .dash = { 12, 6 } });
    int corners = 0;
    assert_int_equal(out.count, 40);
    for (size_t i = 0; i < out.count; i++) {
        struct geometry_box box = geometry_path_box(out.paths[i]);
        double wide = box.max.x - box.min.x, high = box.max.y - box.min.y;
        if (wide > 2.5 && high > 2.5) {
            assert_near(wide, 7, 1e-9); /* 6 from the corner and half the pen to the mitre's tip */
            assert_near(high, 7, 1e-9);
            corners++;
        } else {
            assert_near(wide + high, 14, 1e-9);
        }
    }
    assert_int_equal(corners, 4);
}

/* Legs of 30 and 48. From the open end to the turn: a dash, a gap and half a dash, 24. From the turn to the other end:
 * two periods, which start in the middle of a dash, and the half of the last dash that they leave over, 42. */
static void an_open_angle_is_stretched_leg_by_leg(void **state)
{
    struct geometry_path angle = open_path(*state, (double[]){ 0, 0, 30, 0, 30, 48 }, 3);
    struct paint_outlines out = stroke(*state, angle, (struct paint_pen){ .width = 2, .dash = { 12, 6 } });
    double first = 30.0 / 24, second = 48.0 / 42;
    assert_int_equal(out.count, 4);
    assert_spans_x(out.paths[0], 0, 12 * first);
    assert_spans_x(out.paths[1], 18 * first, 31);
    assert_near(geometry_path_box(out.paths[1]).max.y, 6 * second, 1e-9);
    assert_near(geometry_path_box(out.paths[2]).min.y, 12 * second, 1e-9);
    assert_near(geometry_path_box(out.paths[2]).max.y, 24 * second, 1e-9);
    assert_near(geometry_path_box(out.paths[3]).min.y, 30 * second, 1e-9);
    assert_near(geometry_path_box(out.paths[3]).max.y, 48, 1e-9);
}

static double middle_length(struct geometry_path dash, double width)
{
    return geometry_path_area(dash) / width;
}

/* A circle has no turn: 32 sides, whole periods all around, the seam is in the middle of a dash. */
static void dashes_of_a_curve_keep_their_length_and_meet(void **state)
{
    struct geometry_path circle = { base_arena_alloc(*state, 32, sizeof(vec2)), 32, true };
    for (int i = 0; i < 32; i++)
        circle.points[i] = (vec2){ 60 * cos(i * 0.19634954084936207), 60 * sin(i * 0.19634954084936207) };
    double length = geometry_path_length(circle), periods = floor(length / 18 + 0.5);
    struct paint_outlines out = stroke(*state, circle, (struct paint_pen){ .width = 1, .dash = { 12, 6 } });
    assert_int_equal(out.count, (size_t)periods);
    for (size_t i = 0; i < out.count; i++)
        assert_near(middle_length(out.paths[i], 1), 12 * length / periods / 18, 0.01);
    assert_int_equal(polygon_winding(out.paths, out.count, (vec2){ 60 - 1e-3, 1e-3 }), 1);
    assert_int_equal(polygon_winding(out.paths, out.count, (vec2){ 60 - 1e-3, -1e-3 }), 1);
}

/* Turns of 25° are bends: the line is dashed as if it were straight, 102 long. */
static void the_pattern_runs_on_through_a_bend_under_30_degrees(void **state)
{
    double c = cos(25 * 0.017453292519943295), s = sin(25 * 0.017453292519943295);
    struct geometry_path bend = open_path(*state, (double[]){ 0, 0, 37, 0, 37 + 65 * c, 65 * s }, 3);
    struct paint_outlines out = stroke(*state, bend, (struct paint_pen){ .width = 1, .dash = { 12, 6 } });
    assert_int_equal(out.count, 6);
    assert_spans_x(out.paths[1], 18, 30);
    assert_near(middle_length(out.paths[2], 1), 12, 0.01);
    assert_int_equal(out.paths[2].count, 6); /* bends with the path at 37, between 36 and 48 */
}

/* Between two turns one period (half a dash, gap, half a dash: 18) may be pressed to two thirds, 12. */
static void sides_too_short_for_a_gap_have_none(void **state)
{
    struct geometry_path small = polygon_of(*state, (double[]){ 0, 0, 11.9, 0, 11.9, 11.9, 0, 11.9 }, 4);
    struct paint_outlines out = stroke(*state, small, (struct paint_pen){ .width = 1, .dash = { 12, 6 } });
    assert_int_equal(out.count, 2); /* the two rings of the whole outline */
    struct geometry_path larger = polygon_of(*state, (double[]){ 0, 0, 12.1, 0, 12.1, 12.1, 0, 12.1 }, 4);
    out = stroke(*state, larger, (struct paint_pen){ .width = 1, .dash = { 12, 6 } });
    assert_int_equal(out.count, 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_line_becomes_a_rectangle_with_square_ends),
        room_arena_test(a_square_becomes_two_squares_whichever_way_it_runs),
        room_arena_test(corners_are_mitred_up_to_four_widths_and_then_bevelled),
        room_arena_test(a_right_angle_has_its_tip_and_its_inner_corner),
        room_arena_test(paths_of_a_single_place_draw_nothing),
        room_arena_test(there_and_back_is_one_line),
        room_arena_test(outlines_wind_around_all_that_is_lit_and_nothing_else),
        room_arena_test(outlines_cover_what_geos_covers),
        room_arena_test(an_open_line_begins_and_ends_with_a_whole_dash),
        room_arena_test(long_and_short_dashes_take_turns),
        room_arena_test(dashes_lie_half_on_each_side_of_a_corner_and_meet_around_a_square),
        room_arena_test(an_open_angle_is_stretched_leg_by_leg),
        room_arena_test(dashes_of_a_curve_keep_their_length_and_meet),
        room_arena_test(the_pattern_runs_on_through_a_bend_under_30_degrees),
        room_arena_test(sides_too_short_for_a_gap_have_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
