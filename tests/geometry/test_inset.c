#include "geometry/inset.h"
#include "geometry/offset.h"
#include "geos.h"
#include "outlines.h"
#include "random.h"
#include "support/cmocka_all.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

struct inset {
    struct geometry_path path;
    size_t *starts;
};

static bool try_inset(struct here *h, struct geometry_path in, const double *dist, struct inset *out)
{
    out->starts = base_arena_alloc(h->a, in.count, sizeof *out->starts);
    return geometry_inset(h->a, in, dist, &out->path, out->starts);
}

static double *evenly(struct here *h, struct geometry_path in, double by)
{
    double *dist = base_arena_alloc(h->a, in.count, sizeof *dist);
    for (size_t i = 0; i < in.count; i++)
        dist[i] = by;
    return dist;
}

static void assert_side(const struct inset *n, size_t side, vec2 from, vec2 to)
{
    size_t start = n->starts[side], end = (start + 1) % n->path.count;
    assert_near(vec2_length(vec2_sub(n->path.points[start], from)), 0, 1e-9);
    assert_near(vec2_length(vec2_sub(n->path.points[end], to)), 0, 1e-9);
}

/* ---- Worked by hand ---- */

static void every_side_of_a_rectangle_moves_by_its_own_distance(void **state)
{
    struct here *h = *state;
    struct inset n;
    const double dist[] = { 40, 15, 10, 0 };
    assert_true(try_inset(h, PATH({ 0, 0 }, { 200, 0 }, { 200, 300 }, { 0, 300 }), dist, &n));
    assert_int_equal(n.path.count, 4);
    assert_side(&n, 0, (vec2){ 0, 40 }, (vec2){ 185, 40 });
    assert_side(&n, 1, (vec2){ 185, 40 }, (vec2){ 185, 290 });
    assert_side(&n, 2, (vec2){ 185, 290 }, (vec2){ 0, 290 });
    assert_side(&n, 3, (vec2){ 0, 290 }, (vec2){ 0, 40 });
}

static void a_3_4_5_triangle_keeps_a_part_of_its_inner_circle(void **state)
{
    struct here *h = *state;
    struct inset n;
    struct geometry_path in = PATH({ 0, 0 }, { 4, 0 }, { 0, 3 });
    /* Its inner circle has radius 1; moved in by 0.75 a quarter of each length is left, of the area of 6 a sixteenth.
     */
    assert_true(try_inset(h, in, evenly(h, in, 0.75), &n));
    assert_near(geometry_path_area(n.path), 6.0 / 16, 1e-12);
    assert_false(try_inset(h, in, evenly(h, in, 1.01), &n));
    assert_int_equal(n.path.count, 0);
}

static void a_reflex_corner_moves_into_the_piece(void **state)
{
    struct here *h = *state;
    struct inset n;
    struct geometry_path in = PATH({ 0, 0 }, { 40, 0 }, { 40, 20 }, { 20, 20 }, { 20, 40 }, { 0, 40 });
    assert_true(try_inset(h, in, (const double[]){ 1, 1, 2, 3, 1, 1 }, &n));
    assert_side(&n, 2, (vec2){ 39, 18 }, (vec2){ 17, 18 });
    assert_side(&n, 3, (vec2){ 17, 18 }, (vec2){ 17, 39 });
}

static void a_change_in_line_is_a_side_of_its_own(void **state)
{
    struct here *h = *state;
    struct inset n;
    const double dist[] = { 40, 15, 15, 15, 15 };
    assert_true(try_inset(h, PATH({ 0, 0 }, { 100, 0 }, { 200, 0 }, { 200, 300 }, { 0, 300 }), dist, &n));
    assert_int_equal(n.path.count, 6);
    assert_side(&n, 0, (vec2){ 15, 40 }, (vec2){ 100, 40 });
    assert_side(&n, 1, (vec2){ 100, 15 }, (vec2){ 185, 15 });
    assert_side(&n, 4, (vec2){ 15, 285 }, (vec2){ 15, 40 });
}

/* A hem in chords of 10 mm, moved in by 40, between sides moved in by 25: the two chords and a half at either end are
 * gone, and all meet at one point. */
static void chords_that_a_corner_trims_away_keep_their_place(void **state)
{
    struct here *h = *state;
    vec2 points[22];
    double dist[22];
    struct geometry_path in = { points, 0, true };
    for (int i = 0; i <= 19; i++) {
        dist[in.count] = i < 19 ? 40 : 25;
        points[in.count++] = (vec2){ 10 * i, i % 2 ? -1e-5 : 0 };
    }
    dist[in.count] = 25;
    points[in.count++] = (vec2){ 190, 300 };
    dist[in.count] = 25;
    points[in.count++] = (vec2){ 0, 300 };
    struct inset n;
    assert_true(try_inset(h, in, dist, &n));
    assert_int_equal(n.path.count, 22);
    for (size_t i = 0; i < 22; i++) {
        vec2 from = n.path.points[n.starts[i]], to = n.path.points[(n.starts[i] + 1) % 22];
        double want = i < 2 || (i > 16 && i < 19) ? 0 : i == 2 || i == 16 ? 5 : i < 19 ? 10 : i == 20 ? 140 : 235;
        assert_near(vec2_length(vec2_sub(to, from)), want, 1e-4);
    }
}

static struct geometry_path regular(struct here *h, size_t count, double r)
{
    struct geometry_path p = { base_arena_alloc(h->a, count, sizeof(vec2)), count, true };
    for (size_t i = 0; i < count; i++)
        p.points[i] =
            (vec2){ r * cos(2 * pi * (double)i / (double)count), r * sin(2 * pi * (double)i / (double)count) };
    return p;
}

static void a_curve_tighter_than_the_distance_folds_over(void **state)
{
    struct here *h = *state;
    struct inset n;
    struct geometry_path in = regular(h, 60, 50);
    /* The n-gon's inner radius is 50 cos(3°) = 49.93; moved in by 40, its corners are at 50 - 40 / cos(3°). */
    assert_true(try_inset(h, in, evenly(h, in, 40), &n));
    for (size_t i = 0; i < 60; i++)
        assert_near(vec2_length(n.path.points[i]), 50 - 40 / cos(pi / 60), 1e-9);
    assert_false(try_inset(h, in, evenly(h, in, 50), &n));
    /* A corner rounded with a radius of 10 and a distance of 15. */
    struct geometry_path round = { base_arena_alloc(h->a, 20, sizeof(vec2)), 0, true };
    round.points[round.count++] = (vec2){ 0, 0 };
    for (int i = 0; i <= 12; i++) {
        double turn = (i * 7.5 - 90) * pi / 180;
        round.points[round.count++] = (vec2){ 90 + 10 * cos(turn), 10 + 10 * sin(turn) };
    }
    round.points[round.count++] = (vec2){ 100, 100 };
    round.points[round.count++] = (vec2){ 0, 100 };
    assert_true(try_inset(h, round, evenly(h, round, 9), &n));
    assert_false(try_inset(h, round, evenly(h, round, 15), &n));
}

static void a_neck_narrower_than_twice_the_distance_is_refused(void **state)
{
    struct here *h = *state;
    struct inset n;
    struct geometry_path in = PATH({ 0, 0 }, { 100, 0 }, { 100, 45 }, { 200, 45 }, { 200, 0 }, { 300, 0 }, { 300, 100 },
                                   { 200, 100 }, { 200, 55 }, { 100, 55 }, { 100, 100 }, { 0, 100 });
    assert_true(try_inset(h, in, evenly(h, in, 4.9), &n));
    assert_false(try_inset(h, in, evenly(h, in, 5.1), &n));
}

static void points_twice_in_a_row_are_sides_of_no_length(void **state)
{
    struct here *h = *state;
    struct inset n;
    const double dist[] = { 9, 2, 9, 2, 2, 9 };
    assert_true(try_inset(h, PATH({ 0, 0 }, { 0, 0 }, { 40, 0 }, { 40, 0 }, { 40, 30 }, { 0, 0 }), dist, &n));
    vec2 tip = n.path.points[n.starts[1]];
    assert_side(&n, 0, tip, tip);
    assert_side(&n, 1, tip, (vec2){ 38, 2 });
    assert_side(&n, 2, (vec2){ 38, 2 }, (vec2){ 38, 2 });
    assert_side(&n, 5, tip, tip);
}

/* ---- Against GEOS ---- */

/* GEOS' buffer below zero with mitred corners is the same, but for hollow curves that it thins by a hundredth of the
 * distance. */
static void even_insets_are_geos_buffer(void **state)
{
    struct here *h = *state;
    uint64_t seed = 51;
    int found = 0;
    for (int i = 0; i < 2000; i++) {
        enum outline_kind kind = (enum outline_kind)(i % OUTLINE_KINDS);
        double by = random_between(&seed, 1, 25), area = 0;
        struct outline_case c = outline_random(h->a, &seed, kind, by);
        struct inset n;
        if (!try_inset(h, c.path, c.dist, &n))
            continue;
        GEOSGeometry *in = polygon_of(h, c.path), *got = polygon_of(h, n.path);
        GEOSGeometry *want =
            GEOSBufferWithStyle_r(h->geos, in, -by, 8, GEOSBUF_CAP_ROUND, GEOSBUF_JOIN_MITRE, GEOMETRY_MITRE_LIMIT);
        GEOSGeometry *off = GEOSSymDifferencePrec_r(h->geos, got, want, 1e-8);
        GEOSArea_r(h->geos, off, &area);
        bool straight = kind == OUTLINE_CONVEX || kind == OUTLINE_SPIKY;
        double tol = straight ? 1e-6 * geometry_path_area(c.path) : 0.02 * by * geometry_path_length(c.path);
        if (area > tol || GEOSisValid_r(h->geos, got) != 1)
            fail_msg("outline %d moved in by %g: %g mm2 off", i, by, area);
        found++;
        GEOSGeom_destroy_r(h->geos, off);
        GEOSGeom_destroy_r(h->geos, want);
        GEOSGeom_destroy_r(h->geos, got);
        GEOSGeom_destroy_r(h->geos, in);
    }
    assert_true(found >= 1000);
}

/* What is grown with mitres and moved in again by the same is the outline: each side back in its place. */
static void growing_and_moving_in_again_is_no_change(void **state)
{
    struct here *h = *state;
    uint64_t seed = 52;
    int found = 0;
    for (int i = 0; i < 500; i++) {
        struct outline_case c = outline_random(h->a, &seed, OUTLINE_CONVEX, -1);
        struct geometry_path grown;
        struct inset n;
        assert_true(geometry_offset(h->a, c.path, c.dist, NULL, &grown));
        if (grown.count != c.path.count)
            continue;
        /* The grown ring begins elsewhere: its side with the direction of side 0. */
        size_t shift = 0;
        vec2 first = vec2_unit(vec2_sub(c.path.points[1], c.path.points[0]));
        double *dist = base_arena_alloc(h->a, grown.count, sizeof *dist);
        for (size_t k = 0; k < grown.count; k++) {
            vec2 side = vec2_unit(vec2_sub(grown.points[(k + 1) % grown.count], grown.points[k]));
            if (vec2_dot(side, first) > 1 - 1e-12)
                shift = k;
        }
        for (size_t k = 0; k < grown.count; k++)
            dist[(k + shift) % grown.count] = c.dist[k];
        assert_true(try_inset(h, grown, dist, &n));
        for (size_t k = 0; k < grown.count; k++)
            assert_near(vec2_length(vec2_sub(n.path.points[n.starts[(k + shift) % grown.count]], c.path.points[k])), 0,
                        1e-6);
        found++;
    }
    assert_true(found >= 200);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_side_of_a_rectangle_moves_by_its_own_distance),
        cmocka_unit_test(a_3_4_5_triangle_keeps_a_part_of_its_inner_circle),
        cmocka_unit_test(a_reflex_corner_moves_into_the_piece),
        cmocka_unit_test(a_change_in_line_is_a_side_of_its_own),
        cmocka_unit_test(chords_that_a_corner_trims_away_keep_their_place),
        cmocka_unit_test(a_curve_tighter_than_the_distance_folds_over),
        cmocka_unit_test(a_neck_narrower_than_twice_the_distance_is_refused),
        cmocka_unit_test(points_twice_in_a_row_are_sides_of_no_length),
        cmocka_unit_test(even_insets_are_geos_buffer),
        cmocka_unit_test(growing_and_moving_in_again_is_no_change),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
