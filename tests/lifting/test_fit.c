#include "lifting/fit.h"
#include "lifting/shapes.h"
#include "support/room.h"

enum { SIZES = 5, SEEN = 200 };

/* An edge in all sizes: what was drawn, and what was fitted to it. */
struct edge {
    struct arena *a;
    struct geometry_path drawn[SIZES];
    struct lifting_run runs[SIZES];
    struct lifting_curve curve;
};

/* The edge from the first point of each shape to the one of that number. */
static struct edge fit_edge(struct arena *a, const struct shape *shapes, size_t count, size_t last)
{
    struct edge e = { .a = a };
    for (size_t k = 0; k < count; k++) {
        const double *along = lifting_along(a, shapes[k].path);
        e.runs[k] = lifting_run_of(a, shapes[k].path, along, 0, along[last]);
        e.drawn[k] = (struct geometry_path){ shapes[k].path.points, last + 1, false };
    }
    e.curve = lifting_fit(a, e.runs, count);
    return e;
}

static vec2 point_of(const struct edge *e, size_t step, size_t which, size_t size)
{
    return e->curve.points[(3 * step + which) * e->curve.size_count + size];
}

/* All of the edge as it would be drawn in a size. */
static struct geometry_path seen(const struct edge *e, size_t size)
{
    struct shape s = shape_begin(e->a);
    s.path.closed = false;
    for (size_t i = 0; i < e->curve.step_count; i++) {
        const vec2 p[] = { point_of(e, i, 0, size), point_of(e, i, 1, size), point_of(e, i, 2, size),
                           point_of(e, i, 3, size) };
        struct geometry_path part = shape_seen_cubic(e->a, p, SEEN);
        for (size_t k = 0; k < part.count; k++)
            if (!e->curve.is_line[i] || k == 0 || k + 1 == part.count)
                shape_point(&s, part.points[k].x, part.points[k].y);
    }
    return s.path;
}

static void assert_fits(const struct edge *e, double tol)
{
    for (size_t k = 0; k < e->curve.size_count; k++) {
        struct geometry_path p = seen(e, k);
        assert_true(shape_farthest(p, e->drawn[k], 1) <= tol);
        assert_true(shape_farthest(e->drawn[k], p, 1) <= tol);
    }
}

static size_t count_lines(const struct edge *e)
{
    size_t lines = 0;
    for (size_t i = 0; i < e->curve.step_count; i++)
        lines += e->curve.is_line[i];
    return lines;
}

static void a_straight_edge_is_one_line_between_its_points(void **state)
{
    struct arena *a = *state;
    struct shape shapes[SIZES];
    for (int k = 0; k < SIZES; k++) {
        shapes[k] = shape_begin(a);
        shape_point(&shapes[k], 10, 20);
        shape_point(&shapes[k], 110 + 3 * k, 70 + 1.5 * k); /* on the way */
        shape_point(&shapes[k], 210 + 6 * k, 120 + 3 * k);
        shape_point(&shapes[k], 0, 300);
    }
    struct edge e = fit_edge(a, shapes, SIZES, 2);
    assert_int_equal(e.curve.step_count, 1);
    assert_true(e.curve.is_line[0]);
    for (size_t k = 0; k < SIZES; k++) {
        assert_near(point_of(&e, 0, 0, k).x, 10, 0);
        assert_near(point_of(&e, 0, 3, k).x, 210 + 6.0 * (double)k, 0);
        assert_near(point_of(&e, 0, 3, k).y, 120 + 3.0 * (double)k, 0);
    }
}

/* An armhole in steps that keep its chords within 0.002 mm: |second derivative| / 8 n². */
static void a_drawn_cubic_is_found_again(void **state)
{
    struct arena *a = *state;
    struct shape shapes[SIZES];
    vec2 b[SIZES], c[SIZES];
    for (int k = 0; k < SIZES; k++) {
        b[k] = (vec2){ -40 - 2 * k, 30 + k };
        c[k] = (vec2){ -55 - 2 * k, 110 + 3 * k };
        shapes[k] = shape_begin(a);
        shape_point(&shapes[k], 0, 0);
        shape_cubic(&shapes[k], b[k], c[k], (vec2){ -30 - k, 180 + 4 * k }, 130);
        shape_point(&shapes[k], -300, 0);
    }
    struct edge e = fit_edge(a, shapes, SIZES, 130);
    assert_int_equal(e.curve.step_count, 1);
    assert_false(e.curve.is_line[0]);
    for (size_t k = 0; k < SIZES; k++) {
        assert_near(point_of(&e, 0, 1, k).x, b[k].x, 1e-6);
        assert_near(point_of(&e, 0, 1, k).y, b[k].y, 1e-6);
        assert_near(point_of(&e, 0, 2, k).x, c[k].x, 1e-6);
        assert_near(point_of(&e, 0, 2, k).y, c[k].y, 1e-6);
    }
    assert_fits(&e, LIFTING_FIT_MM);
}

/* Two cubics that run into each other, their joint at another share of the edge in every size. */
static void joints_that_wander_are_fitted_all_the_same(void **state)
{
    struct arena *a = *state;
    struct shape shapes[SIZES];
    for (int k = 0; k < SIZES; k++) {
        shapes[k] = shape_begin(a);
        shape_point(&shapes[k], 0, 0);
        shape_cubic(&shapes[k], (vec2){ 0, 40 + 4 * k }, (vec2){ 20, 90 + 6 * k }, (vec2){ 40, 100 + 10 * k }, 300);
        shape_cubic(&shapes[k], (vec2){ 80, 120 + 18 * k }, (vec2){ 200, 200 - 6 * k }, (vec2){ 210 + 4 * k, 300 },
                    300);
        shape_point(&shapes[k], -300, 0);
    }
    struct edge e = fit_edge(a, shapes, SIZES, 600);
    printf("two cubics of %d sizes: %zu steps\n", SIZES, e.curve.step_count);
    assert_fits(&e, LIFTING_FIT_MM);
    assert_int_equal(count_lines(&e), 0);
    assert_true(e.curve.step_count <= 8);
}

static void a_whole_circle_closes(void **state)
{
    struct arena *a = *state;
    struct shape shapes[SIZES];
    for (int k = 0; k < SIZES; k++) {
        int steps = shape_arc_steps(100 + 7 * k, 360, 0.002);
        shapes[k] = shape_begin(a);
        shape_arc(&shapes[k], (vec2){ 0, 0 }, 100 + 7 * k, -90, 270 - 360.0 / steps, steps - 1);
    }
    struct edge e = { .a = a };
    for (size_t k = 0; k < SIZES; k++) {
        e.runs[k] = lifting_run_of(a, shapes[k].path, lifting_along(a, shapes[k].path), 0, 0);
        e.drawn[k] = shapes[k].path;
        assert_int_equal(e.runs[k].count, shapes[k].path.count + 1);
    }
    e.curve = lifting_fit(a, e.runs, SIZES);
    printf("a circle: %zu steps\n", e.curve.step_count);
    assert_fits(&e, LIFTING_FIT_MM);
    assert_true(e.curve.step_count <= 8); /* four that are off by 0.027 % of the radius are the usual approximation */
}

/* Chords that a quarter of a circle lies 0.1 mm beyond: their points are on the curve, and so is what is written. */
static void coarse_chords_are_the_curve_that_they_stand_for(void **state)
{
    struct arena *a = *state;
    struct shape shapes[SIZES], circles[SIZES];
    for (int k = 0; k < SIZES; k++) {
        shapes[k] = shape_begin(a);
        circles[k] = shape_begin(a);
        shape_arc(&shapes[k], (vec2){ 0, 0 }, 200 + 9 * k, 0, 90, shape_arc_steps(200, 90, 0.1));
        shape_arc(&circles[k], (vec2){ 0, 0 }, 200 + 9 * k, 0, 90, 1000);
        circles[k].path.closed = false;
        shape_point(&shapes[k], -100, 0);
    }
    struct edge e = fit_edge(a, shapes, SIZES, shapes[0].path.count - 2);
    printf("coarse chords: %zu steps\n", e.curve.step_count);
    assert_int_equal(count_lines(&e), 0);
    assert_true(e.curve.step_count <= 4);
    for (size_t k = 0; k < SIZES; k++)
        assert_true(shape_farthest(seen(&e, k), circles[k].path, 1) <= 0.02);
    assert_fits(&e, 0.1 * 236 / 200 + LIFTING_FIT_MM);
}

/* Short chords, a straight stretch among curves. */
static void a_line_that_runs_into_a_curve_ends_where_it_does(void **state)
{
    struct arena *a = *state;
    struct shape shapes[SIZES];
    for (int k = 0; k < SIZES; k++) {
        shapes[k] = shape_begin(a);
        shape_point(&shapes[k], 0, 0);
        shape_point(&shapes[k], 0, 300);
        shape_arc(&shapes[k], (vec2){ -150 - 10 * k, 300 }, 150 + 10 * k, 0, 60, 300);
        shape_point(&shapes[k], -300, 0);
    }
    struct edge e = fit_edge(a, shapes, SIZES, shapes[0].path.count - 2);
    printf("a line and an arc: %zu steps\n", e.curve.step_count);
    assert_fits(&e, LIFTING_FIT_MM);
    assert_true(e.curve.is_line[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_straight_edge_is_one_line_between_its_points),
        room_arena_test(a_drawn_cubic_is_found_again),
        room_arena_test(joints_that_wander_are_fitted_all_the_same),
        room_arena_test(a_whole_circle_closes),
        room_arena_test(coarse_chords_are_the_curve_that_they_stand_for),
        room_arena_test(a_line_that_runs_into_a_curve_ends_where_it_does),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
