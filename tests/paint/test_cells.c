/* Polygons through edges and cells into shares of pixels. */
#include "paint/cells.h"
#include "paint/polygon.h"
#include "support/cmocka_all.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { WIDTH = 70, HEIGHT = 37 }; /* more than one word of blocks wide, not a whole number of bands high */

struct canvas {
    struct paint_edges edges;
    struct paint_cells *cells;
};

struct picture {
    int share[HEIGHT][WIDTH];
};

static struct canvas canvas_of(struct arena *a)
{
    struct canvas c = { paint_edges_create(a, HEIGHT), paint_cells_create(a, WIDTH) };
    paint_edges_begin(&c.edges, WIDTH, HEIGHT);
    return c;
}

static int32_t subpixel(double px)
{
    return (int32_t)floor(px * PAINT_SUBPIXEL + 0.5);
}

static void add(struct canvas *c, struct geometry_path p)
{
    for (size_t i = 0; i < p.count; i++) {
        vec2 at = p.points[i], next = p.points[(i + 1) % p.count];
        paint_edges_add(&c->edges, 0, subpixel(at.x), subpixel(at.y), subpixel(next.x), subpixel(next.y));
    }
}

static void take_row(const struct paint_row *row, int *shares)
{
    int last = 0;
    for (size_t i = 0; i < row->count; i++) {
        struct paint_run run = row->runs[i];
        assert_true(run.first >= last && run.first < run.end && run.end <= WIDTH);
        for (int x = run.first; x < run.end; x++)
            shares[x] = row->shares[run.even ? run.first : x];
        last = run.end;
    }
}

static void sweep(struct canvas *c, struct picture *p)
{
    memset(p, 0, sizeof *p);
    for (int top = 0; top < HEIGHT; top += PAINT_BAND_ROWS) {
        for (int kind = 0; kind < PAINT_EDGE_KINDS; kind++) {
            uint32_t first = paint_edges_first(&c->edges, (size_t)(top / PAINT_BAND_ROWS), (enum paint_edge_kind)kind);
            const struct paint_parcel *parcel = paint_edges_parcel(&c->edges, first);
            for (; parcel; parcel = paint_edges_parcel(&c->edges, parcel->next))
                paint_cells_add(c->cells, parcel, (enum paint_edge_kind)kind);
        }
        for (int row = 0; row < PAINT_BAND_ROWS; row++) {
            struct paint_row lit = paint_cells_sweep(c->cells, row);
            if (top + row < HEIGHT)
                take_row(&lit, p->share[top + row]);
        }
    }
    paint_edges_begin(&c->edges, WIDTH, HEIGHT);
}

static double total(const struct picture *p)
{
    double sum = 0;
    for (int y = 0; y < HEIGHT; y++)
        for (int x = 0; x < WIDTH; x++)
            sum += p->share[y][x] / (double)PAINT_WHOLE;
    return sum;
}

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

static struct geometry_path moved(struct arena *a, struct geometry_path p, double by)
{
    struct geometry_path out = geometry_path_copy(a, p);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = vec2_add(out.points[i], (vec2){ by, by });
    return out;
}

/* Second way: the polygon, a quarter pixel down and right and a quarter up and left, cut to each pixel in doubles; the
 * mean is the design's (cells.h). A crossing is off by 1/1024 px at most. */
static void every_pixel_is_the_mean_of_two_exact_areas_of_random_polygons(void **state)
{
    struct arena *a = *state;
    struct canvas c = canvas_of(a);
    uint64_t random = 20;
    static struct picture p;
    for (int round = 0; round < 300; round++) {
        size_t corners = 3 + (size_t)round % 7;
        struct geometry_path polygon = random_star(a, &random, corners, round % 3 ? 25 : 200);
        struct geometry_path down = moved(a, polygon, 0.25), up = moved(a, polygon, -0.25);
        add(&c, polygon);
        sweep(&c, &p);
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double area = fabs(polygon_area_in_pixel(down, x, y) + polygon_area_in_pixel(up, x, y)) / 2;
                assert_near(p.share[y][x] / (double)PAINT_WHOLE, area, (double)(corners + 1) / 1024);
            }
        }
    }
}

static void all_pixels_together_have_the_area_of_the_polygon(void **state)
{
    struct canvas c = canvas_of(*state);
    static struct picture p;
    /* 3-4-5 triangle times 8, turned: 24 * 32 / 2 = 384; pixels on its sides, some 100, are rounded to 1/4096 */
    add(&c, polygon_of(*state, (double[]){ 10.5, 2.25, 42.5, 2.25, 10.5, 26.25 }, 3));
    sweep(&c, &p);
    assert_near(total(&p), 384, 100.0 / PAINT_WHOLE);
}

/* Corners of the fan are off the grid and far outside; neighbours walk their common side in opposite directions. */
static void polygons_that_share_edges_add_up_to_exactly_full(void **state)
{
    uint64_t random = 7;
    struct canvas c = canvas_of(*state);
    const vec2 around[] = { { -3e4, -2.7e4 }, { 61.3, -50.1 }, { 3e4, -31.7 }, { 300.7, 999.1 }, { -0.3, 88.8 } };
    static struct picture p;
    for (int round = 0; round < 100; round++) {
        double x = polygon_random(&random, 0, WIDTH) + 0.001, y = polygon_random(&random, 0, HEIGHT) + 0.002;
        for (int i = 0; i < 5; i++) {
            vec2 one = around[i], two = around[(i + 1) % 5];
            add(&c, polygon_of(*state, (double[]){ x, y, one.x, one.y, two.x, two.y }, 3));
        }
        sweep(&c, &p);
        for (int row = 0; row < HEIGHT; row++)
            for (int column = 0; column < WIDTH; column++)
                assert_int_equal(p.share[row][column], PAINT_WHOLE);
    }
}

/* Hand-worked: the square from (2.5, 3.25) to (5, 5). Moved down and right it reaches from (2.75, 3.5) to (5.25, 5.25),
 * moved up and left from (2.25, 3) to (4.75, 4.75). */
static void a_square_is_worked_by_hand(void **state)
{
    struct canvas c = canvas_of(*state);
    static struct picture p;
    add(&c, polygon_of(*state, (double[]){ 2.5, 3.25, 5, 3.25, 5, 5, 2.5, 5 }, 4));
    sweep(&c, &p);
    assert_int_equal(p.share[3][2], PAINT_WHOLE * (0.25 * 0.5 + 0.75 * 1) / 2);
    assert_int_equal(p.share[3][3], PAINT_WHOLE * (0.5 + 1) / 2);
    assert_int_equal(p.share[4][2], PAINT_WHOLE * (0.25 * 1 + 0.75 * 0.75) / 2);
    assert_int_equal(p.share[4][4], PAINT_WHOLE * (1 + 0.75 * 0.75) / 2);
    assert_int_equal(p.share[4][5], PAINT_WHOLE * (0.25 * 1 + 0) / 2);
    assert_int_equal(p.share[5][4], PAINT_WHOLE * (0.25 * 1 + 0) / 2);
    assert_int_equal(p.share[2][3], 0);
    assert_int_equal(p.share[6][3], 0);
}

static void polygons_over_each_other_stay_full_and_both_directions_light(void **state)
{
    const double square[] = { 2, 2, 9, 2, 9, 9, 2, 9 }, back[] = { 20, 2, 20, 9, 29, 9, 29, 2 };
    struct canvas c = canvas_of(*state);
    static struct picture p;
    for (int i = 0; i < 3; i++) {
        add(&c, polygon_of(*state, square, 4));
        add(&c, polygon_of(*state, back, 4));
    }
    sweep(&c, &p);
    assert_int_equal(p.share[5][5], PAINT_WHOLE);
    assert_int_equal(p.share[5][25], PAINT_WHOLE);
    assert_int_equal(p.share[5][15], 0);
}

/* To the left only; to the right only; above; below; from far left into column 3; from column 60 to far right. The
 * light that both measurements see is worked by hand. */
static void what_lies_around_the_picture_is_cut_at_its_sides(void **state)
{
    struct canvas c = canvas_of(*state);
    static struct picture p;
    const double boxes[][8] = {
        { -9, 4, -2, 4, -2, 8, -9, 8 },   { 75, 4, 99, 4, 99, 8, 75, 8 },       { 9, -9, 12, -9, 12, -1, 9, -1 },
        { 9, 38, 12, 38, 12, 99, 9, 99 }, { -3e4, 1, 3.5, 1, 3.5, 3, -3e4, 3 }, { 60, 30, 3e4, 30, 3e4, 3e4, 60, 3e4 },
    };
    for (size_t i = 0; i < sizeof boxes / sizeof boxes[0]; i++)
        add(&c, polygon_of(*state, boxes[i], 4));
    sweep(&c, &p);
    assert_int_equal(p.share[1][0], PAINT_WHOLE * 7 / 8);
    assert_int_equal(p.share[2][0], PAINT_WHOLE * 7 / 8);
    assert_int_equal(p.share[2][3], PAINT_WHOLE * (0.75 * 1 + 0.25 * 0.75) / 2);
    assert_int_equal(p.share[36][69], PAINT_WHOLE);
    assert_near(total(&p), (3.25 * 2 + 3.75 * 2) / 2 + (10.25 * 7.25 + 9.75 * 6.75) / 2, 0);
}

/* A line from corner to corner of a wide picture: links, bands and both kinds of edges. */
static void long_thin_polygons_have_their_area_on_every_row(void **state)
{
    struct canvas c = canvas_of(*state);
    static struct picture p;
    /* A parallelogram 4 px wide on every row: a row sees 4 px of light, whatever the slant. */
    const double slants[] = { -60, -30, -5, 0, 7, 31, 55 };
    for (size_t i = 0; i < sizeof slants / sizeof slants[0]; i++) {
        double x = slants[i] < 0 ? 64 : 2;
        const double corners[] = { x, -1, x + 4, -1, x + 4 + slants[i], 38, x + slants[i], 38 };
        add(&c, polygon_of(*state, corners, 4));
        sweep(&c, &p);
        for (int y = 0; y < HEIGHT; y++) {
            double light = 0;
            for (int column = 0; column < WIDTH; column++)
                light += p.share[y][column] / (double)PAINT_WHOLE;
            assert_near(light, 4, 0.005);
        }
    }
}

/* Near the border of two bands, where one measurement of an edge is in the one and the other in the other; exact areas
 * as above. */
static void nearly_level_edges_go_over_from_band_to_band(void **state)
{
    struct arena *a = *state;
    struct canvas c = canvas_of(a);
    static struct picture p;
    for (int place = 0; place < 64; place++) {
        double y = 15.5 + place / 64.0, slant = (place % 7 - 3) / 64.0;
        struct geometry_path bar = polygon_of(a, (double[]){ 3, y, 66, y + slant, 66, y + 3 + slant, 3, y + 3 }, 4);
        struct geometry_path down = moved(a, bar, 0.25), up = moved(a, bar, -0.25);
        add(&c, bar);
        sweep(&c, &p);
        for (int row = 0; row < HEIGHT; row++) {
            for (int x = 0; x < WIDTH; x++) {
                double area = (polygon_area_in_pixel(down, x, row) + polygon_area_in_pixel(up, x, row)) / 2;
                assert_near(p.share[row][x] / (double)PAINT_WHOLE, area, 5.0 / 1024);
            }
        }
    }
}

static void the_order_of_polygons_changes_no_bit_and_a_swept_layer_is_empty(void **state)
{
    struct arena *a = *state;
    uint64_t random = 99;
    struct canvas c = canvas_of(a);
    struct geometry_path polygons[20];
    static struct picture forward, backward, empty;
    for (int i = 0; i < 20; i++)
        polygons[i] = random_star(a, &random, 9, 40);
    for (int i = 0; i < 20; i++)
        add(&c, polygons[i]);
    sweep(&c, &forward);
    for (int i = 20; i-- > 0;)
        add(&c, polygons[i]);
    sweep(&c, &backward);
    sweep(&c, &empty);
    assert_true(total(&forward) > 100);
    assert_memory_equal(forward.share, backward.share, sizeof forward.share);
    assert_near(total(&empty), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(every_pixel_is_the_mean_of_two_exact_areas_of_random_polygons, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(all_pixels_together_have_the_area_of_the_polygon, set_up, tear_down),
        cmocka_unit_test_setup_teardown(polygons_that_share_edges_add_up_to_exactly_full, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_square_is_worked_by_hand, set_up, tear_down),
        cmocka_unit_test_setup_teardown(polygons_over_each_other_stay_full_and_both_directions_light, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(what_lies_around_the_picture_is_cut_at_its_sides, set_up, tear_down),
        cmocka_unit_test_setup_teardown(long_thin_polygons_have_their_area_on_every_row, set_up, tear_down),
        cmocka_unit_test_setup_teardown(nearly_level_edges_go_over_from_band_to_band, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_order_of_polygons_changes_no_bit_and_a_swept_layer_is_empty, set_up,
                                        tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
