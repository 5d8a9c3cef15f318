/* The two ways to grow an outline against each other and against GEOS, on random outlines: as many of them for each
 * test as the first argument says, 2000 without one. */
#include "geometry/offset_work.h"
#include "geos.h"
#include "outlines.h"
#include "random.h"
#include "support/cmocka_all.h"

#include <math.h>
#include <stdlib.h>

static int count = 2000; /* outlines for each test */

/* ---- GEOS ---- */

static double area_of(struct here *h, const GEOSGeometry *g)
{
    double area = NAN;
    assert_int_equal(GEOSArea_r(h->geos, g, &area), 1);
    return area;
}

/* The area that only one of the two has, worked out on a grid of 1e-8 mm, where GEOS' overlays are sure. */
static double difference(struct here *h, const GEOSGeometry *first, const GEOSGeometry *second)
{
    GEOSGeometry *either = GEOSSymDifferencePrec_r(h->geos, first, second, 1e-8);
    assert_non_null(either);
    double area = area_of(h, either);
    GEOSGeom_destroy_r(h->geos, either);
    return area;
}

static double difference_of_paths(struct here *h, struct geometry_path p, struct geometry_path q)
{
    GEOSGeometry *first = polygon_of(h, p), *second = polygon_of(h, q);
    double area = difference(h, first, second);
    GEOSGeom_destroy_r(h->geos, second);
    GEOSGeom_destroy_r(h->geos, first);
    return area;
}

/* ---- The two ways ---- */

static void print_case(const struct outline_case *c)
{
    for (size_t i = 0; i < c->path.count; i++)
        print_error("  (%.17g, %.17g) %g corner %d\n", c->path.points[i].x, c->path.points[i].y, c->dist[i],
                    (int)c->corners[i].kind);
}

struct tally {
    int joined, lost;
};

/* Joined and united, the region is the same to a millionth. Neither way need have an answer. */
static void compare_ways(struct here *h, const struct outline_case *c, const struct geometry_corner *corners,
                         int number, struct tally *tally)
{
    struct offset_outline o = offset_sides(h->a, c->path, c->dist, corners);
    offset_find_tips(h->a, &o);
    struct geometry_path joined = offset_join(h->a, &o);
    if (joined.count == 0)
        return;
    struct geometry_path united = offset_cleaned(offset_unite(h->a, c->path, &o));
    tally->joined++;
    tally->lost += united.count < 3;
    double off = united.count < 3 ? 0 : difference_of_paths(h, joined, united);
    if (off > 1e-6 * geometry_path_area(joined)) {
        print_case(c);
        fail_msg("outline %d: joined %.9g mm2, united %.9g, %.6g between them", number, geometry_path_area(joined),
                 fabs(geometry_path_area(united)), off);
    }
}

/* Of outlines as pieces have, so many must be joined that uniting is the exception: shares of each kind. */
static void joined_is_what_is_united(void **state)
{
    struct here *h = *state;
    static const double least_joined[OUTLINE_KINDS] = { 0.98, 0.85, 0.4, 0.4 };
    struct tally tally[OUTLINE_KINDS] = { { 0, 0 } };
    uint64_t seed = 21;
    for (int i = 0; i < count; i++) {
        enum outline_kind kind = (enum outline_kind)(i % OUTLINE_KINDS);
        struct outline_case c = outline_random(h->a, &seed, kind, i % 3 ? -1 : random_between(&seed, 0, 30));
        compare_ways(h, &c, i / OUTLINE_KINDS % 2 ? c.corners : NULL, i, &tally[kind]);
        base_arena_reset(h->a);
    }
    for (int k = 0; k < OUTLINE_KINDS; k++) {
        assert_true(tally[k].joined >= least_joined[k] * count / OUTLINE_KINDS);
        assert_true(tally[k].lost <= 2);
    }
}

/* ---- GEOS' own buffer ---- */

/* The polygon within the outer ring of GEOS' buffer with mitred corners. It cuts mitres past the limit square at the
 * limit, as we do (seen in its results, 3.11). */
static GEOSGeometry *buffer_of(struct here *h, struct geometry_path p, double by)
{
    GEOSGeometry *in = polygon_of(h, p);
    GEOSGeometry *out =
        GEOSBufferWithStyle_r(h->geos, in, by, 8, GEOSBUF_CAP_ROUND, GEOSBUF_JOIN_MITRE, GEOMETRY_MITRE_LIMIT);
    assert_non_null(out);
    assert_int_equal(GEOSGeomTypeId_r(h->geos, out), GEOS_POLYGON);
    GEOSGeometry *shell =
        GEOSGeom_createPolygon_r(h->geos, GEOSGeom_clone_r(h->geos, GEOSGetExteriorRing_r(h->geos, out)), NULL, 0);
    GEOSGeom_destroy_r(h->geos, out);
    GEOSGeom_destroy_r(h->geos, in);
    return shell;
}

/* Of an outline grown evenly: no place of the cut line is nearer to it than the allowance. */
static double nearest_of(struct geometry_path in, struct geometry_path out)
{
    double least = INFINITY;
    for (size_t i = 0; i < out.count; i++) {
        vec2 p = out.points[i], q = out.points[(i + 1) % out.count];
        least = fmin(least, fmin(outline_distance(in, p), outline_distance(in, vec2_lerp(p, q, 0.5))));
    }
    return least;
}

/* GEOS thins hollow curves by up to a hundredth of the distance before it grows them (its simplification factor), which
 * straight edges do not feel. */
static double tolerance_mm2(enum outline_kind kind, struct geometry_path out, double by)
{
    bool straight = kind == OUTLINE_CONVEX || kind == OUTLINE_SPIKY;
    return straight ? 1e-6 * geometry_path_area(out) : 0.02 * by * geometry_path_length(out);
}

static void even_allowances_are_geos_buffer(void **state)
{
    struct here *h = *state;
    uint64_t seed = 31;
    for (int i = 0; i < count; i++) {
        enum outline_kind kind = (enum outline_kind)(i % OUTLINE_KINDS);
        double by = random_between(&seed, 1, 40);
        struct outline_case c = outline_random(h->a, &seed, kind, by);
        struct geometry_path out;
        assert_true(geometry_offset(h->a, c.path, c.dist, NULL, &out));
        GEOSGeometry *want = buffer_of(h, c.path, by), *got = polygon_of(h, out);
        double tol = tolerance_mm2(kind, out, by), off = difference(h, got, want);
        if (off > tol || fabs(area_of(h, got) - area_of(h, want)) > tol)
            fail_msg("outline %d grown by %g: %g mm2 off", i, by, off);
        if (GEOSisValid_r(h->geos, got) != 1 || !lies_within(h, c.path, out) || nearest_of(c.path, out) < by - 1e-6)
            fail_msg("outline %d grown by %g is not what it should be", i, by);
        GEOSGeom_destroy_r(h->geos, got);
        GEOSGeom_destroy_r(h->geos, want);
        base_arena_reset(h->a);
    }
}

/* ---- Corners of every kind ---- */

/* From the leftmost point, the lowest of several; no points nearer than 1e-6 mm, none in line with its neighbours. */
static bool is_tidy(struct geometry_path p)
{
    for (size_t i = 0; i < p.count; i++) {
        vec2 a = p.points[i], b = p.points[(i + 1) % p.count], c = p.points[(i + 2) % p.count];
        vec2 ab = vec2_sub(b, a), ac = vec2_unit(vec2_sub(c, a));
        bool before_first = a.x < p.points[0].x || (a.x == p.points[0].x && a.y < p.points[0].y);
        if (before_first || vec2_length(ab) < 1e-6 || fabs(vec2_cross(ac, ab)) < 0.99e-9)
            return false;
    }
    return true;
}

static void whatever_the_corners_the_cut_line_is_simple(void **state)
{
    struct here *h = *state;
    uint64_t seed = 41;
    for (int i = 0; i < count; i++) {
        enum outline_kind kind = (enum outline_kind)(i % OUTLINE_KINDS);
        struct outline_case c = outline_random(h->a, &seed, kind, i % 5 ? -1 : random_between(&seed, 0, 30));
        struct geometry_path out;
        if (!geometry_offset(h->a, c.path, c.dist, c.corners, &out))
            fail_msg("outline %d is not grown", i);
        if (!is_valid(h, out) || geometry_path_area(out) <= 0)
            fail_msg("outline %d crosses itself", i);
        if (!is_tidy(out))
            fail_msg("outline %d has points that it does not need", i);
        if (!lies_within(h, c.path, out))
            fail_msg("outline %d lost some of the piece", i);
        base_arena_reset(h->a);
    }
}

int main(int argc, char **argv)
{
    if (argc > 1)
        count = atoi(argv[1]);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(joined_is_what_is_united, set_up, tear_down),
        cmocka_unit_test_setup_teardown(even_allowances_are_geos_buffer, set_up, tear_down),
        cmocka_unit_test_setup_teardown(whatever_the_corners_the_cut_line_is_simple, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
