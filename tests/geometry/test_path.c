#include "geometry/path.h"
#include "random.h"
#include "support/cmocka_all.h"

#include <geos_c.h>
#include <math.h>

#define PATH(closed, ...)                                                                                              \
    (struct geometry_path)                                                                                             \
    {                                                                                                                  \
        (vec2[]){ __VA_ARGS__ }, sizeof((vec2[]){ __VA_ARGS__ }) / sizeof(vec2), closed                                \
    }

static void area_and_length_of_a_3_4_5_triangle(void **state)
{
    (void)state;
    struct geometry_path p = PATH(true, { 0, 0 }, { 4, 0 }, { 0, 3 });
    assert_near(geometry_path_area(p), 6, 0);
    assert_near(geometry_path_length(p), 12, 0);
    p.closed = false;
    assert_near(geometry_path_length(p), 9, 0);
    p.closed = true;
    geometry_path_reverse(p);
    assert_near(geometry_path_area(p), -6, 0);
    assert_true(p.points[0].y == 3 && p.points[2].x == 0 && p.points[2].y == 0);
}

static void a_small_area_far_away_keeps_its_digits(void **state)
{
    (void)state;
    struct geometry_path p = PATH(true, { 1e7, 1e7 }, { 1e7 + 1, 1e7 }, { 1e7 + 1, 1e7 + 1 }, { 1e7, 1e7 + 1 });
    assert_near(geometry_path_area(p), 1, 0);
    vec2 centre = geometry_path_centre(p);
    assert_near(centre.x, 1e7 + 0.5, 2e-9);
}

static void the_centre_is_where_the_shape_balances(void **state)
{
    (void)state;
    /* A triangle balances at the mean of its corners. */
    vec2 c = geometry_path_centre(PATH(true, { 0, 0 }, { 6, 0 }, { 0, 3 }));
    assert_near(c.x, 2, 1e-15);
    assert_near(c.y, 1, 1e-15);
    /* An L of a 4 x 2 block (centre 2, 1) and a 2 x 2 block on its left (centre 1, 3): (2 x 8 + 1 x 4) / 12 and
     * (1 x 8 + 3 x 4) / 12. */
    c = geometry_path_centre(PATH(true, { 0, 0 }, { 4, 0 }, { 4, 2 }, { 2, 2 }, { 2, 4 }, { 0, 4 }));
    assert_near(c.x, 20.0 / 12, 1e-15);
    assert_near(c.y, 20.0 / 12, 1e-15);
}

static void without_area_the_centre_is_the_middle_of_the_box(void **state)
{
    (void)state;
    vec2 c = geometry_path_centre(PATH(true, { 1, 1 }, { 3, 2 }, { 5, 3 }));
    assert_true(c.x == 3 && c.y == 2);
    c = geometry_path_centre(PATH(true, { 7, 8 }));
    assert_true(c.x == 7 && c.y == 8);
}

static void boxes_join(void **state)
{
    (void)state;
    struct geometry_box none = geometry_box_empty();
    assert_true(none.min.x > none.max.x && none.min.y > none.max.y);
    struct geometry_box box = geometry_path_box(PATH(false, { 1, 5 }, { -2, 7 }, { 0, 6 }));
    assert_true(box.min.x == -2 && box.min.y == 5 && box.max.x == 1 && box.max.y == 7);
    box = geometry_box_join(none, box);
    assert_true(box.min.x == -2 && box.max.y == 7);
    box = geometry_box_join(box, geometry_path_box(PATH(false, { 9, 9 })));
    assert_true(box.min.x == -2 && box.max.x == 9 && box.max.y == 9);
    box = geometry_path_box((struct geometry_path){ 0 });
    assert_true(box.min.x > box.max.x);
}

static void a_path_holds_what_lies_inside(void **state)
{
    (void)state;
    /* A U open to the top. */
    struct geometry_path u = PATH(true, { 0, 0 }, { 6, 0 }, { 6, 5 }, { 4, 5 }, { 4, 2 }, { 2, 2 }, { 2, 5 }, { 0, 5 });
    static const struct {
        vec2 at;
        bool in;
    } rows[] = {
        { { 1, 1 }, true },  { { 3, 1 }, true },  { { 1, 4 }, true },   { { 5, 4 }, true },
        { { 3, 4 }, false }, { { 7, 1 }, false }, { { -1, 2 }, false }, /* at the height of two corners */
        { { 5, 2 }, true },  { { 3, 6 }, false }, { { 3, -1 }, false },
    };
    for (int round = 0; round < 2; round++) {
        for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
            if (geometry_path_holds(u, rows[i].at) != rows[i].in)
                fail_msg("row %zu, round %d", i, round);
        geometry_path_reverse(u);
    }
    assert_false(geometry_path_holds((struct geometry_path){ 0 }, (vec2){ 0, 0 }));
}

static void crossings_are_found_with_their_place(void **state)
{
    (void)state;
    vec2 where = { -1, -1 };
    assert_false(geometry_path_crosses_itself(PATH(true, { 0, 0 }, { 4, 0 }, { 4, 4 }, { 0, 4 }), &where));
    assert_false(geometry_path_crosses_itself(PATH(true, { 0, 4 }, { 4, 4 }, { 4, 0 }, { 0, 0 }), &where));
    /* Two equal points in a row are no crossing. */
    assert_false(geometry_path_crosses_itself(PATH(true, { 0, 0 }, { 4, 0 }, { 4, 0 }, { 4, 4 }), &where));
    /* A bow tie crosses in its middle. */
    assert_true(geometry_path_crosses_itself(PATH(true, { 0, 0 }, { 4, 0 }, { 0, 4 }, { 4, 4 }), &where));
    assert_near(where.x, 2, 1e-12);
    assert_near(where.y, 2, 1e-12);
    /* Two triangles tip to tip touch at the tip. */
    assert_true(
        geometry_path_crosses_itself(PATH(true, { 0, 0 }, { 2, 2 }, { 4, 0 }, { 4, 4 }, { 2, 2 }, { 0, 4 }), &where));
    assert_near(where.x, 2, 1e-12);
    assert_near(where.y, 2, 1e-12);
    /* A spike runs back on itself, between (4, 2) and (9, 2). */
    assert_true(geometry_path_crosses_itself(
        PATH(true, { 0, 0 }, { 4, 0 }, { 4, 2 }, { 9, 2 }, { 4, 2 }, { 4, 4 }, { 0, 4 }), &where));
    assert_near(where.y, 2, 1e-12);
    assert_true(where.x >= 4 && where.x <= 9);
    assert_true(geometry_path_crosses_itself(PATH(true, { 0, 0 }, { 4, 0 }, { 2, 0 }), &where));
    assert_false(geometry_path_crosses_itself(PATH(true, { 0, 0 }, { 4, 0 }), &where));
}

static bool geos_finds_it_valid(GEOSContextHandle_t geos, struct geometry_path p)
{
    GEOSCoordSequence *seq = GEOSCoordSeq_create_r(geos, (unsigned)p.count + 1, 2);
    for (size_t i = 0; i <= p.count; i++)
        GEOSCoordSeq_setXY_r(geos, seq, (unsigned)i, p.points[i % p.count].x, p.points[i % p.count].y);
    GEOSGeometry *polygon = GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, seq), NULL, 0);
    bool valid = GEOSisValid_r(geos, polygon) == 1;
    GEOSGeom_destroy_r(geos, polygon);
    return valid;
}

/* Points on a coarse grid, so that sides touch, overlap and stand upright as often as they cross, and points at growing
 * angles, most of which do not. */
static void crossings_are_what_geos_says(void **state)
{
    (void)state;
    GEOSContextHandle_t geos = GEOS_init_r();
    uint64_t seed = 11;
    int simple = 0;
    for (int i = 0; i < 40000; i++) {
        vec2 points[12], where;
        struct geometry_path p = { points, (size_t)random_between(&seed, 3, 12), true };
        for (size_t k = 0; k < p.count; k++) {
            double turn = 2 * 3.14159265358979 * (double)k / (double)p.count, r = random_between(&seed, 1, 6);
            vec2 on_star = { floor(6 + r * cos(turn)), floor(6 + r * sin(turn)) };
            vec2 anywhere = { floor(random_between(&seed, 0, 5)), floor(random_between(&seed, 0, 5)) };
            points[k] = i % 2 ? on_star : anywhere;
        }
        bool valid = geos_finds_it_valid(geos, p);
        if (geometry_path_crosses_itself(p, &where) == valid)
            fail_msg("path %d: %s", i, valid ? "it is simple" : "it crosses itself");
        simple += valid;
    }
    GEOS_finish_r(geos);
    assert_true(simple > 4000);
}

static void places_along_a_path(void **state)
{
    (void)state;
    struct geometry_path p = PATH(false, { 0, 0 }, { 3, 4 }, { 3, 4 }, { 3, 10 });
    static const struct {
        double along;
        vec2 at, direction;
    } rows[] = {
        { -1, { 0, 0 }, { 0.6, 0.8 } }, { 0, { 0, 0 }, { 0.6, 0.8 } }, { 2.5, { 1.5, 2 }, { 0.6, 0.8 } },
        { 5, { 3, 4 }, { 0, 1 } }, /* a corner: the side ahead */
        { 7, { 3, 6 }, { 0, 1 } },      { 11, { 3, 10 }, { 0, 1 } },   { 99, { 3, 10 }, { 0, 1 } },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        vec2 direction, at = geometry_path_at(p, rows[i].along, &direction);
        assert_near(at.x, rows[i].at.x, 1e-15);
        assert_near(at.y, rows[i].at.y, 1e-15);
        assert_near(direction.x, rows[i].direction.x, 1e-15);
        assert_near(direction.y, rows[i].direction.y, 1e-15);
    }
    /* Closed, the way leads on to the start. */
    p = PATH(true, { 0, 0 }, { 3, 4 }, { 3, 0 });
    vec2 direction, at = geometry_path_at(p, 10, &direction);
    assert_true(at.x == 2 && at.y == 0 && direction.x == -1 && direction.y == 0);
    at = geometry_path_at(p, 50, &direction);
    assert_true(at.x == 0 && at.y == 0 && direction.x == -1);
    at = geometry_path_at(PATH(false, { 5, 6 }), 3, &direction);
    assert_true(at.x == 5 && at.y == 6 && direction.x == 0 && direction.y == 0);
}

static void a_part_of_a_path_runs_either_way(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct geometry_path p = PATH(false, { 0, 0 }, { 4, 0 }, { 4, 3 }, { 4, 9 });
    struct geometry_path part = geometry_path_part(a, p, 1, 9);
    assert_int_equal(part.count, 4);
    assert_true(part.points[0].x == 1 && part.points[1].x == 4 && part.points[2].y == 3 && part.points[3].y == 5);
    part = geometry_path_part(a, p, 5, 2);
    assert_int_equal(part.count, 3);
    assert_true(part.points[0].y == 1 && part.points[1].x == 4 && part.points[2].x == 2);
    part = geometry_path_part(a, p, 12, INFINITY); /* 1 before the end */
    assert_int_equal(part.count, 2);
    assert_true(part.points[0].y == 8 && part.points[1].y == 9);
    p.closed = true; /* 13 and back by the root of 4² + 9² */
    part = geometry_path_part(a, p, 6, INFINITY);
    assert_int_equal(part.count, 4);
    assert_true(part.points[2].y == 9);
    assert_near(part.points[3].x, 0, 1e-12);
    base_arena_destroy(a);
}

/* Hand-worked: a U of two legs, 3 and 2 wide, on a foot; at a corner a side has its lower end alone. */
static void sides_meet_a_line_in_order(void **state)
{
    (void)state;
    double at[8];
    struct geometry_path u = PATH(true, { 0, 0 }, { 9, 0 }, { 9, 8 }, { 7, 8 }, { 7, 2 }, { 3, 2 }, { 3, 6 }, { 0, 6 });
    assert_int_equal(geometry_path_crossings(u, 4, at), 4);
    assert_true(at[0] == 0 && at[1] == 3 && at[2] == 7 && at[3] == 9);
    assert_int_equal(geometry_path_crossings(u, 7, at), 2);
    assert_true(at[0] == 7 && at[1] == 9);
    assert_int_equal(geometry_path_crossings(u, 0, at), 2);
    assert_int_equal(geometry_path_crossings(u, 8, at), 0);
    assert_int_equal(geometry_path_crossings(u, -1, at), 0);
}

static void a_copy_is_its_own(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    struct geometry_path p = PATH(true, { 1, 2 }, { 3, 4 }, { 5, 7 });
    struct geometry_path q = geometry_path_copy(a, p);
    p.points[0].x = 99;
    assert_int_equal(q.count, 3);
    assert_true(q.closed && q.points[0].x == 1 && q.points[2].y == 7);
    q = geometry_path_copy(a, (struct geometry_path){ 0 });
    assert_int_equal(q.count, 0);
    base_arena_destroy(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(area_and_length_of_a_3_4_5_triangle),
        cmocka_unit_test(a_small_area_far_away_keeps_its_digits),
        cmocka_unit_test(the_centre_is_where_the_shape_balances),
        cmocka_unit_test(without_area_the_centre_is_the_middle_of_the_box),
        cmocka_unit_test(boxes_join),
        cmocka_unit_test(a_path_holds_what_lies_inside),
        cmocka_unit_test(crossings_are_found_with_their_place),
        cmocka_unit_test(crossings_are_what_geos_says),
        cmocka_unit_test(places_along_a_path),
        cmocka_unit_test(a_part_of_a_path_runs_either_way),
        cmocka_unit_test(sides_meet_a_line_in_order),
        cmocka_unit_test(a_copy_is_its_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
