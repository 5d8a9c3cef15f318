/* Lines of equal height, on heights whose lines are known from geometry: a plane's are straight, a cone's are circles,
 * a saddle's two branches keep apart. */
#include "bench/contour.h"

#include "support/room.h"

#include <math.h>

enum { COLUMNS = 41, ROWS = 31 };

static double plane(double x, double y)
{
    return x + 0.5 * y;
}

static double cone(double x, double y)
{
    return hypot(x - 20.25, y - 14.5);
}

static double saddle(double x, double y)
{
    return (x - 20.5) * (y - 15.5);
}

static struct bench_contours lines_of(struct arena *a, double (*height)(double, double), double level)
{
    double *heights = base_arena_alloc(a, (size_t)COLUMNS * ROWS, sizeof *heights);
    for (int row = 0; row < ROWS; row++)
        for (int column = 0; column < COLUMNS; column++)
            heights[row * COLUMNS + column] = height(column, row);
    return bench_contours_of(a, heights, COLUMNS, ROWS, level);
}

static void a_plane_s_line_is_straight_and_ends_at_the_edges(void **state)
{
    struct bench_contours lines = lines_of(*state, plane, 20.3);
    assert_int_equal(lines.count, 1);
    const struct bench_contour *line = &lines.items[0];
    assert_false(line->closed);
    for (size_t i = 0; i < line->count; i++)
        assert_true(fabs(plane(line->points[i].x, line->points[i].y) - 20.3) < 1e-9);
    double ends = line->points[0].y + line->points[line->count - 1].y;
    assert_true(fabs(ends - (ROWS - 1)) < 1e-9);
}

static void a_cone_s_line_is_one_closed_circle(void **state)
{
    struct bench_contours lines = lines_of(*state, cone, 11);
    assert_int_equal(lines.count, 1);
    const struct bench_contour *line = &lines.items[0];
    assert_true(line->closed);
    double length = 0;
    for (size_t i = 0; i < line->count; i++) {
        vec2 at = line->points[i], next = line->points[(i + 1) % line->count];
        /* A chord of a cell's diagonal lies that near to a circle of radius 11. */
        assert_true(fabs(cone(at.x, at.y) - 11) < 2.0 / (8 * 11));
        assert_true(hypot(next.x - at.x, next.y - at.y) <= M_SQRT2);
        length += hypot(next.x - at.x, next.y - at.y);
    }
    assert_true(fabs(length - 2 * M_PI * 11) < 0.5);
}

static void what_the_grid_s_edge_cuts_is_several_open_lines(void **state)
{
    struct bench_contours lines = lines_of(*state, cone, 18); /* cut off at both rows' ends */
    assert_int_equal(lines.count, 2);
    assert_false(lines.items[0].closed);
    assert_false(lines.items[1].closed);
}

static void a_saddle_s_branches_keep_apart(void **state)
{
    static const double levels[] = { 0.1, -0.1 };
    for (int i = 0; i < 2; i++) {
        struct bench_contours lines = lines_of(*state, saddle, levels[i]);
        assert_int_equal(lines.count, 2);
        for (size_t j = 0; j < 2; j++) {
            double side = lines.items[j].points[0].x - 20.5;
            for (size_t k = 0; k < lines.items[j].count; k++)
                assert_true((lines.items[j].points[k].x - 20.5) * side > 0);
        }
    }
}

static void nothing_is_crossed_beyond_the_heights(void **state)
{
    assert_int_equal(lines_of(*state, cone, 1000).count, 0);
    assert_int_equal(lines_of(*state, cone, -1).count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_plane_s_line_is_straight_and_ends_at_the_edges),
        room_arena_test(a_cone_s_line_is_one_closed_circle),
        room_arena_test(what_the_grid_s_edge_cuts_is_several_open_lines),
        room_arena_test(a_saddle_s_branches_keep_apart),
        room_arena_test(nothing_is_crossed_beyond_the_heights),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
