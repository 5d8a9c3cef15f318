/* The network of lines: its faces against GEOS', which knows nothing of it, and what no drawing should hold. */
#include "geometry/geos.h"
#include "geometry/random.h"
#include "lifting/faces.h"
#include "lifting/staged.h"

#include <stdlib.h>

/* Cells of random lines that are smaller than this may be closed by rounding in one and not in the other, mm². */
#define CELL_LEAST_MM2 0.01

static struct network_line segment(struct arena *a, vec2 from, vec2 to, uint32_t id)
{
    vec2 *points = base_arena_alloc(a, 2, sizeof *points);
    points[0] = from;
    points[1] = to;
    return (struct network_line){ { points, 2, false }, id };
}

/* In a square of 300 mm, long and short; every fourth goes on from the end of the one before, every fifth is a copy. */
static struct network_line *random_lines(struct arena *a, uint64_t *seed, size_t count)
{
    struct network_line *lines = base_arena_alloc(a, count, sizeof *lines);
    for (uint32_t i = 0; i < count; i++) {
        vec2 from = { random_between(seed, 0, 300), random_between(seed, 0, 300) };
        vec2 to = { random_between(seed, 0, 300), random_between(seed, 0, 300) };
        if (i % 3 == 0)
            to = vec2_lerp(from, to, 0.2);
        if (i % 4 == 3)
            from = lines[i - 1].path.points[1];
        lines[i] = segment(a, from, to, i);
        if (i % 5 == 4)
            lines[i] = segment(a, lines[i - 1].path.points[1], lines[i - 1].path.points[0], i);
    }
    return lines;
}

static GEOSGeometry *as_geos(GEOSContextHandle_t geos, const struct network_line *lines, size_t count)
{
    GEOSGeometry **all = malloc(count * sizeof(GEOSGeometry *));
    for (size_t i = 0; i < count; i++) {
        GEOSCoordSequence *seq = GEOSCoordSeq_create_r(geos, 2, 2);
        for (unsigned k = 0; k < 2; k++)
            GEOSCoordSeq_setXY_r(geos, seq, k, lines[i].path.points[k].x, lines[i].path.points[k].y);
        all[i] = GEOSGeom_createLineString_r(geos, seq);
    }
    GEOSGeometry *out = GEOSGeom_createCollection_r(geos, GEOS_MULTILINESTRING, all, (unsigned)count);
    free(all);
    return out;
}

struct cells {
    size_t count; /* of those that are large enough */
    double area, sum_of_squares;
};

static void add_cell(struct cells *c, double area)
{
    c->count += area >= CELL_LEAST_MM2;
    c->area += area;
    c->sum_of_squares += area * area;
}

/* Parted by the union of all lines and put together by GEOS' polygonizer. It takes islands out of the cells around
 * them; the network does not, so that the shells are measured. */
static struct cells cells_by_geos(GEOSContextHandle_t geos, const struct network_line *lines, size_t count)
{
    struct cells cells = { 0, 0, 0 };
    GEOSGeometry *all = as_geos(geos, lines, count), *parted = GEOSUnaryUnion_r(geos, all);
    const GEOSGeometry *parts[] = { parted };
    GEOSGeometry *faces = GEOSPolygonize_r(geos, parts, 1);
    assert_non_null(faces);
    for (int i = 0; i < GEOSGetNumGeometries_r(geos, faces); i++) {
        const GEOSGeometry *shell = GEOSGetExteriorRing_r(geos, GEOSGetGeometryN_r(geos, faces, i));
        GEOSGeometry *whole = GEOSGeom_createPolygon_r(geos, GEOSGeom_clone_r(geos, shell), NULL, 0);
        double area;
        assert_int_equal(GEOSArea_r(geos, whole, &area), 1);
        add_cell(&cells, area);
        GEOSGeom_destroy_r(geos, whole);
    }
    GEOSGeom_destroy_r(geos, faces);
    GEOSGeom_destroy_r(geos, parted);
    GEOSGeom_destroy_r(geos, all);
    return cells;
}

static struct cells cells_of_network(struct arena *a, const struct network_line *lines, size_t count)
{
    struct cells cells = { 0, 0, 0 };
    struct network network;
    size_t work = NETWORK_WORK_MOST;
    assert_true(network_build(a, lines, count, 0, &work, &network));
    struct faces faces = faces_find(a, &network);
    for (size_t i = 0; i < faces.count; i++)
        add_cell(&cells, faces.areas[i]);
    return cells;
}

/* An end that stops so short of a line, or runs so little past it, touches it in the network, and not in GEOS. */
static bool an_end_is_all_but_on_a_line(const struct network_line *lines, size_t count)
{
    double along;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < 2 * count; k++) {
            double away = geometry_path_distance(lines[i].path, lines[k / 2].path.points[k % 2], &along);
            if (away > 1e-9 && away < 0.003)
                return true;
        }
    return false;
}

/* An area of 1 mm² and more changes by less than 0.001 mm of its sides: the grid. */
static void random_lines_enclose_the_cells_that_geos_finds(void **state)
{
    struct here *h = *state;
    uint64_t seed = 6;
    int tried = 0;
    for (int i = 0; i < 150; i++) {
        struct arena *a = base_arena_create();
        size_t count = 5 + (size_t)i / 2;
        const struct network_line *lines = random_lines(a, &seed, count);
        if (an_end_is_all_but_on_a_line(lines, count)) {
            base_arena_destroy(a);
            continue;
        }
        tried++;
        struct cells want = cells_by_geos(h->geos, lines, count), got = cells_of_network(a, lines, count);
        assert_int_equal(got.count, want.count);
        assert_near(got.area, want.area, 0.5);
        assert_near(got.sum_of_squares, want.sum_of_squares, 1e-4 * want.sum_of_squares + 0.5);
        base_arena_destroy(a);
    }
    assert_true(tried > 130);
}

/* The dual count: nodes − edges + cells = parts of a plane network that hang together. */
static void a_dense_network_is_plane(void **state)
{
    struct here *h = *state;
    struct arena *a = base_arena_create();
    uint64_t seed = 11;
    size_t work = NETWORK_WORK_MOST, used = 0;
    struct network n;
    (void)h;
    assert_true(network_build(a, random_lines(a, &seed, 800), 800, 0, &work, &n));
    struct faces f = faces_find(a, &n);
    bool *met = base_arena_alloc(a, n.node_count, sizeof *met);
    for (size_t e = 0; e < n.edge_count; e++)
        met[n.edges[e].node[0]] = met[n.edges[e].node[1]] = true;
    for (size_t i = 0; i < n.node_count; i++)
        used += met[i];
    assert_true(f.count > 10000);
    long parts = (long)used - (long)n.edge_count + (long)f.count;
    assert_in_range(parts, 1, 20); /* all but a few short lines hang together */
    base_arena_destroy(a);
}

/* ---- What no drawing should hold ---- */

static struct staged find_random(struct arena *a, size_t count, double length)
{
    struct staged s = staged_begin(a, 1, 0);
    uint64_t seed = 3;
    for (size_t i = 0; i < count; i++) {
        double x = random_between(&seed, 0, 1000), y = random_between(&seed, 0, 800);
        DRAW(&s, FIRST, false, x, y, x + random_between(&seed, -length, length),
             y + random_between(&seed, -length, length));
    }
    staged_find(&s);
    return s;
}

static void lines_that_all_cross_are_told_as_too_much(void **state)
{
    struct here *h = *state;
    struct staged s = find_random(h->a, 200000, 500);
    assert_int_equal(s.count, 0);
    assert_true(base_err_list_has(s.errs, "lifting.too_much"));
    staged_end(&s);
}

/* 200 000 lines as a sheet has them, of 2 mm, are worked on. */
static void many_short_lines_are_not_too_much(void **state)
{
    struct here *h = *state;
    struct staged s = find_random(h->a, 200000, 2);
    assert_int_equal(s.errs->count, 0);
    staged_end(&s);
}

/* Whole and in part; with thousands it may be too much. */
static struct staged find_on_one_line(struct arena *a, int count)
{
    struct staged s = staged_begin(a, 1, 0);
    for (int i = 0; i < count; i++) {
        DRAW(&s, FIRST, false, 100, 100, 300, 100);
        DRAW(&s, FIRST, false, 100 + 190.0 * i / count, 100, 300 - 0.25 * i, 100);
    }
    DRAW(&s, FIRST, false, 300, 100, 300, 200, 100, 200, 100, 100);
    staged_find(&s);
    return s;
}

static void lines_on_one_line_are_one(void **state)
{
    struct here *h = *state;
    struct staged s = find_on_one_line(h->a, 60), t = find_on_one_line(h->a, 3000);
    assert_int_equal(s.errs->count, 0);
    assert_int_equal(s.count, 1);
    assert_near(geometry_path_area(s.shapes[0].outlines[0].path.path), 20000, 0.1);
    assert_true(t.count == 1 || t.errs->count > 0);
    staged_end(&s);
    staged_end(&t);
}

static void lines_without_length_are_no_matter(void **state)
{
    struct here *h = *state;
    struct staged s = staged_begin(h->a, 1, 0);
    staged_rectangle(&s, FIRST, 100, 100, 200, 100);
    for (int i = 0; i < 200; i++) {
        DRAW(&s, FIRST, i % 2, 100 + i, 150, 100 + i, 150);
        DRAW(&s, FIRST, true, 100 + i, 100, 101 + i, 100);
        DRAW(&s, FIRST, true, 100 + i, 160);
        DRAW(&s, FIRST, false, 100.00001, 100.00001, 100.00002, 100.00001);
    }
    staged_find(&s);
    assert_int_equal(s.count, 1);
    assert_near(geometry_path_area(s.shapes[0].outlines[0].path.path), 20000, 0.1);
    staged_end(&s);
}

/* A line that turns and turns, 1 mm from itself. */
static void a_spiral_has_no_inside(void **state)
{
    struct here *h = *state;
    static double xy[2 * 1500];
    struct staged s = staged_begin(h->a, 1, 0);
    for (int i = 0; i < 1500; i++) {
        double r = 1 + 0.25 * i;
        xy[2 * i] = i % 4 == 1 || i % 4 == 2 ? 500 + r : 500 - r;
        xy[2 * i + 1] = i % 4 < 2 ? 400 - r : 400 + r;
    }
    drawn_line(s.c, FIRST, xy, 1500, false);
    staged_find(&s);
    assert_int_equal(s.errs->count, 0);
    assert_int_equal(s.count, 0);
    staged_end(&s);
}

/* From side to side and back, 4000 times: a line that crosses itself eight million times. */
static void a_line_that_crosses_itself_ends(void **state)
{
    struct here *h = *state;
    static double xy[2 * 4000];
    struct staged s = staged_begin(h->a, 1, 0);
    uint64_t seed = 8;
    for (int i = 0; i < 2 * 4000; i++)
        xy[i] = random_between(&seed, 10, 800);
    drawn_line(s.c, FIRST, xy, 4000, true);
    staged_find(&s);
    assert_true(base_err_list_has(s.errs, "lifting.too_much"));
    staged_end(&s);
}

/* 20 000 squares one in the other: each is looked at with those around it. */
static void squares_in_squares_end(void **state)
{
    struct here *h = *state;
    struct staged s = staged_begin(h->a, 1, 0);
    for (int i = 0; i < 20000; i++)
        staged_rectangle(&s, FIRST, 10 + 0.018 * i, 10 + 0.018 * i, 800 - 0.036 * i, 800 - 0.036 * i);
    staged_find(&s);
    assert_true(s.count <= 1);
    staged_end(&s);
}

/* 840 of them: more than any sheet has pieces. */
static void tiles_are_told_as_too_many(void **state)
{
    struct here *h = *state;
    struct staged s = staged_begin(h->a, 1, 0);
    for (int i = 0; i < 840; i++)
        staged_rectangle(&s, FIRST, 5 + 28.0 * (i % 42), 5 + 43.0 * (i / 42.0 - i % 42 / 42.0), 25, 40);
    staged_find(&s);
    assert_int_equal(s.count, 0);
    assert_true(base_err_list_has(s.errs, "lifting.too_much"));
    staged_end(&s);
}

/* Places far off any sheet are left out rather than reckoned with. */
static void lines_far_away_are_left_out(void **state)
{
    struct here *h = *state;
    vec2 far[] = { { 2e5, 0 }, { 2e5, 100 }, { 3e5, 50 } }, nothing[] = { { (double)NAN, 0 }, { 1, 1 } };
    struct network_line lines[] = { { { far, 3, true }, 0 }, { { nothing, 2, false }, 1 } };
    struct network n;
    size_t work = NETWORK_WORK_MOST;
    assert_true(network_build(h->a, lines, 2, 0.5, &work, &n));
    assert_int_equal(n.edge_count, 0);
}

static void the_same_lines_have_the_same_bits(void **state)
{
    struct here *h = *state;
    struct staged s[2];
    for (int k = 0; k < 2; k++) {
        s[k] = staged_begin(h->a, 1, 0);
        uint64_t seed = 5;
        for (int i = 0; i < 60; i++) {
            double x = random_between(&seed, 0, 900), y = random_between(&seed, 0, 700);
            DRAW(&s[k], FIRST, false, x, y, random_between(&seed, 0, 900), random_between(&seed, 0, 700));
        }
        staged_rectangle(&s[k], FIRST, 20, 20, 950, 750);
        staged_find(&s[k]);
    }
    assert_true(s[0].count > 0);
    assert_int_equal(s[0].count, s[1].count);
    for (size_t i = 0; i < s[0].count; i++) {
        struct geometry_path p = s[0].shapes[i].outlines[0].path.path, q = s[1].shapes[i].outlines[0].path.path;
        assert_int_equal(p.count, q.count);
        assert_memory_equal(p.points, q.points, p.count * sizeof *p.points);
    }
    staged_end(&s[0]);
    staged_end(&s[1]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(random_lines_enclose_the_cells_that_geos_finds, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_dense_network_is_plane, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lines_that_all_cross_are_told_as_too_much, set_up, tear_down),
        cmocka_unit_test_setup_teardown(many_short_lines_are_not_too_much, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lines_on_one_line_are_one, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lines_without_length_are_no_matter, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_spiral_has_no_inside, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_line_that_crosses_itself_ends, set_up, tear_down),
        cmocka_unit_test_setup_teardown(squares_in_squares_end, set_up, tear_down),
        cmocka_unit_test_setup_teardown(tiles_are_told_as_too_many, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lines_far_away_are_left_out, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_same_lines_have_the_same_bits, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
