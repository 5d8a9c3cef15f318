#include "paint/coverage.h"
#include "paint/polygon.h"
#include "support/room.h"

#include <stdlib.h>
#include <string.h>

enum { WIDTH = 70, HEIGHT = 37, FULL = 65536 }; /* more than one block wide, not a whole number of bands high */

struct picture {
    int32_t covered[HEIGHT][WIDTH];
    int last_y, last_end;
    bool in_order;
};

static void take_run(void *user, int y, int first, int count, const int32_t *covered)
{
    struct picture *p = user;
    p->in_order = p->in_order && count > 0 && (y > p->last_y || (y == p->last_y && first >= p->last_end));
    p->last_y = y;
    p->last_end = first + count;
    assert_in_range(y, 0, HEIGHT - 1);
    assert_true(first >= 0 && first + count <= WIDTH);
    for (int i = 0; i < count; i++) {
        assert_in_range(covered[i], 1, FULL);
        p->covered[y][first + i] = covered[i];
    }
}

static void sweep(struct paint_coverage *c, struct picture *p)
{
    memset(p, 0, sizeof *p);
    p->last_y = -1;
    p->in_order = true;
    paint_coverage_sweep(c, take_run, p);
    assert_true(p->in_order);
}

static double total(const struct picture *p)
{
    double sum = 0;
    for (int y = 0; y < HEIGHT; y++)
        for (int x = 0; x < WIDTH; x++)
            sum += p->covered[y][x] / (double)FULL;
    return sum;
}

/* A polygon that does not cross itself: corners at rising angles around a centre, not convex. */
static struct geometry_path random_star(struct arena *a, uint64_t *random, size_t corners, double reach)
{
    struct geometry_path out = { base_arena_alloc(a, corners, sizeof(vec2)), corners, true };
    double x = polygon_random(random, 0, WIDTH), y = polygon_random(random, 0, HEIGHT);
    for (size_t i = 0; i < corners; i++) {
        double angle = 6.283185307179586 * (double)i / (double)corners;
        double radius = polygon_random(random, 0.25, reach);
        out.points[i].x = floor((x + radius * cos(angle)) * 256) / 256;
        out.points[i].y = floor((y + radius * sin(angle)) * 256) / 256;
    }
    return out;
}

/* Second way: the polygon cut to each pixel in doubles. Each crossing is rounded to 1/65536 px, so an edge may be off
 * by about 1/65536 of a pixel. */
static void every_pixel_has_the_exact_area_of_random_polygons(void **state)
{
    struct arena *a = *state;
    struct paint_coverage *c = paint_coverage_create(a, WIDTH, HEIGHT);
    uint64_t random = 20;
    struct picture p;
    for (int round = 0; round < 300; round++) {
        size_t corners = 3 + (size_t)round % 7;
        struct geometry_path polygon = random_star(a, &random, corners, round % 3 ? 25 : 200);
        paint_coverage_add(c, polygon);
        sweep(c, &p);
        for (int y = 0; y < HEIGHT; y++)
            for (int x = 0; x < WIDTH; x++)
                assert_near(p.covered[y][x] / (double)FULL, fabs(polygon_area_in_pixel(polygon, x, y)),
                            (double)(corners + 1) / FULL);
    }
}

static void all_pixels_together_have_the_area_of_the_polygon(void **state)
{
    struct paint_coverage *c = paint_coverage_create(*state, WIDTH, HEIGHT);
    struct picture p;
    /* 3-4-5 triangle times 8, turned: 24 * 32 / 2 = 384 */
    paint_coverage_add(c, polygon_of(*state, (double[]){ 10.5, 2.25, 42.5, 2.25, 10.5, 26.25 }, 3));
    sweep(c, &p);
    assert_near(total(&p), 384, 64 * 37 / 65536.0);
}

/* Corners of the fan are off the grid and far outside; neighbours walk their common side in opposite directions. */
static void polygons_that_share_edges_add_up_to_exactly_full(void **state)
{
    uint64_t random = 7;
    struct paint_coverage *c = paint_coverage_create(*state, WIDTH, HEIGHT);
    const vec2 around[] = { { -3e6, -2.7e6 }, { 61.3, -50.1 }, { 4e6, -31.7 }, { 300.7, 999.1 }, { -0.3, 88.8 } };
    struct picture p;
    for (int round = 0; round < 100; round++) {
        double x = polygon_random(&random, 0, WIDTH) + 0.001, y = polygon_random(&random, 0, HEIGHT) + 0.002;
        for (int i = 0; i < 5; i++) {
            vec2 one = around[i], two = around[(i + 1) % 5];
            paint_coverage_add(c, polygon_of(*state, (double[]){ x, y, one.x, one.y, two.x, two.y }, 3));
        }
        sweep(c, &p);
        for (int row = 0; row < HEIGHT; row++)
            for (int column = 0; column < WIDTH; column++)
                assert_int_equal(p.covered[row][column], FULL);
    }
}

/* Hand-worked: the square from (2.5, 3.25) to (5, 5) by corners, sides and middle. */
static void a_square_is_worked_by_hand(void **state)
{
    struct paint_coverage *c = paint_coverage_create(*state, WIDTH, HEIGHT);
    struct picture p;
    paint_coverage_add(c, polygon_of(*state, (double[]){ 2.5, 3.25, 5, 3.25, 5, 5, 2.5, 5 }, 4));
    sweep(c, &p);
    assert_int_equal(p.covered[3][2], FULL * 3 / 8);
    assert_int_equal(p.covered[3][3], FULL * 3 / 4);
    assert_int_equal(p.covered[4][2], FULL / 2);
    assert_int_equal(p.covered[4][4], FULL);
    assert_int_equal(p.covered[4][5], 0);
    assert_int_equal(p.covered[5][4], 0);
    assert_int_equal(p.covered[2][3], 0);
}

static void polygons_over_each_other_stay_full_and_both_directions_light(void **state)
{
    const double square[] = { 2, 2, 9, 2, 9, 9, 2, 9 }, back[] = { 20, 2, 20, 9, 29, 9, 29, 2 };
    struct paint_coverage *c = paint_coverage_create(*state, WIDTH, HEIGHT);
    struct picture p;
    for (int i = 0; i < 3; i++) {
        paint_coverage_add(c, polygon_of(*state, square, 4));
        paint_coverage_add(c, polygon_of(*state, back, 4));
    }
    sweep(c, &p);
    assert_near(total(&p), 49 + 63, 0);
}

static void what_lies_around_the_picture_is_cut_at_its_sides(void **state)
{
    struct paint_coverage *c = paint_coverage_create(*state, WIDTH, HEIGHT);
    struct picture p;
    /* To the left only; to the right only; above; below; from far left into column 3; from column 60 to far right. */
    const double boxes[][8] = {
        { -9, 4, -2, 4, -2, 8, -9, 8 },   { 75, 4, 99, 4, 99, 8, 75, 8 },       { 9, -9, 12, -9, 12, 0, 9, 0 },
        { 9, 37, 12, 37, 12, 99, 9, 99 }, { -4e6, 1, 3.5, 1, 3.5, 2, -4e6, 2 }, { 60, 30, 4e6, 30, 4e6, 4e6, 60, 4e6 },
    };
    for (size_t i = 0; i < sizeof boxes / sizeof boxes[0]; i++)
        paint_coverage_add(c, polygon_of(*state, boxes[i], 4));
    sweep(c, &p);
    assert_int_equal(p.covered[1][0], FULL);
    assert_int_equal(p.covered[1][3], FULL / 2);
    assert_int_equal(p.covered[36][69], FULL);
    assert_near(total(&p), 3.5 + 10 * 7, 0);
}

static void the_order_of_polygons_changes_no_bit_and_a_swept_layer_is_empty(void **state)
{
    struct arena *a = *state;
    uint64_t random = 99;
    struct paint_coverage *c = paint_coverage_create(a, WIDTH, HEIGHT);
    struct geometry_path polygons[20];
    static struct picture forward, backward, empty;
    for (int i = 0; i < 20; i++)
        polygons[i] = random_star(a, &random, 9, 40);
    for (int i = 0; i < 20; i++)
        paint_coverage_add(c, polygons[i]);
    sweep(c, &forward);
    for (int i = 20; i-- > 0;)
        paint_coverage_add(c, polygons[i]);
    sweep(c, &backward);
    sweep(c, &empty);
    assert_true(total(&forward) > 100);
    assert_memory_equal(forward.covered, backward.covered, sizeof forward.covered);
    assert_near(total(&empty), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(every_pixel_has_the_exact_area_of_random_polygons),
        room_arena_test(all_pixels_together_have_the_area_of_the_polygon),
        room_arena_test(polygons_that_share_edges_add_up_to_exactly_full),
        room_arena_test(a_square_is_worked_by_hand),
        room_arena_test(polygons_over_each_other_stay_full_and_both_directions_light),
        room_arena_test(what_lies_around_the_picture_is_cut_at_its_sides),
        room_arena_test(the_order_of_polygons_changes_no_bit_and_a_swept_layer_is_empty),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
