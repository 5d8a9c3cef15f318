#include "lifting/corners.h"
#include "lifting/match.h"
#include "lifting/shapes.h"
#include "support/room.h"

/* Where a corner of the match lies in a size, walked along the outline by arithmetic of its own. */
static vec2 place_of(const struct lifting_match *m, const struct geometry_path *outlines, size_t corner, size_t size)
{
    double along = m->places[corner * m->size_count + size].along_mm;
    struct geometry_path p = outlines[size];
    for (size_t i = 0;; i = (i + 1) % p.count) {
        vec2 from = p.points[i], way = vec2_sub(p.points[(i + 1) % p.count], from);
        double side = vec2_length(way);
        if (along <= side)
            return vec2_add(from, vec2_scale(way, along / side));
        along -= side;
    }
}

/* The corner that lies there in the first size. */
static size_t corner_at(const struct lifting_match *m, const struct geometry_path *outlines, double x, double y)
{
    for (size_t i = 0; i < m->corner_count; i++) {
        vec2 at = place_of(m, outlines, i, 0);
        if (hypot(at.x - x, at.y - y) < 1e-6)
            return i;
    }
    fail_msg("no corner lies at %g, %g", x, y);
    return 0;
}

static void assert_at(const struct lifting_match *m, const struct geometry_path *outlines, size_t corner, size_t size,
                      double x, double y)
{
    vec2 at = place_of(m, outlines, corner, size);
    assert_near(at.x, x, 1e-6);
    assert_near(at.y, y, 1e-6);
}

static void corners_of_rectangles_match_wherever_they_begin(void **state)
{
    struct arena *a = *state;
    struct geometry_path outlines[4];
    for (int k = 0; k < 4; k++) /* laid apart on the sheet, too */
        outlines[k] = shape_rectangle(a, 700.0 * k, 20, 200 + 12 * k, 300 + 5 * k, (3 * k) % 4);
    struct lifting_match m = lifting_match(a, outlines, 4);
    assert_int_equal(m.corner_count, 4);
    assert_false(m.doubtful);
    size_t right = corner_at(&m, outlines, 200, 20), top = corner_at(&m, outlines, 200, 320);
    assert_int_equal((right + 1) % 4, top);
    for (size_t k = 0; k < 4; k++) {
        assert_at(&m, outlines, right, k, 700.0 * (double)k + 200 + 12 * (double)k, 20);
        assert_at(&m, outlines, top, k, 700.0 * (double)k + 200 + 12 * (double)k, 320 + 5 * (double)k);
        assert_true(m.places[right * 4 + k].found);
    }
}

static void a_circle_begins_at_its_lowest_point(void **state)
{
    struct arena *a = *state;
    struct geometry_path outlines[3];
    for (int k = 0; k < 3; k++) {
        struct shape s = shape_begin(a);
        shape_arc(&s, (vec2){ 10, 5 }, 100 + 10 * k, 30 * k, 30 * k + 359, 359); /* a point at every degree */
        outlines[k] = s.path;
    }
    struct lifting_match m = lifting_match(a, outlines, 3);
    assert_int_equal(m.corner_count, 1);
    for (size_t k = 0; k < 3; k++)
        assert_at(&m, outlines, 0, k, 10, 5 - (100 + 10 * (double)k));
}

/* A hem that is bent in some sizes: at a third of its length, so in the others, too. */
static struct geometry_path trapezoid(struct arena *a, double grown, bool is_bent)
{
    struct shape s = shape_begin(a);
    shape_point(&s, 0, 0);
    if (is_bent)
        shape_point(&s, (300 + grown) / 3, -60);
    shape_point(&s, 300 + grown, 0);
    shape_point(&s, 250 + grown, 400 + grown);
    shape_point(&s, 50, 400 + grown);
    return s.path;
}

static void a_corner_that_a_size_lacks_is_put_at_the_same_share_of_the_edge(void **state)
{
    struct arena *a = *state;
    const struct geometry_path outlines[] = { trapezoid(a, 0, false), trapezoid(a, 10, true), trapezoid(a, 20, true),
                                              trapezoid(a, 30, false) };
    struct lifting_match m = lifting_match(a, outlines, 4);
    assert_int_equal(m.corner_count, 5);
    assert_true(m.doubtful);
    size_t bent = (corner_at(&m, outlines, 0, 0) + 1) % 5;
    assert_at(&m, outlines, bent, 1, 310.0 / 3, -60);
    assert_at(&m, outlines, bent, 2, 320.0 / 3, -60);
    assert_false(m.places[bent * 4].found);
    assert_false(m.places[bent * 4 + 3].found);
    double left = hypot(310.0 / 3, 60), right = hypot(310 - 310.0 / 3, 60);
    assert_at(&m, outlines, bent, 0, 300 * left / (left + right), 0);
    left = hypot(320.0 / 3, 60);
    right = hypot(320 - 320.0 / 3, 60);
    assert_at(&m, outlines, bent, 3, 330 * left / (left + right), 0);
    for (size_t i = 0; i < 5; i++)
        for (size_t k = 0; k < 4; k++) /* in their order around */
            assert_true(i != (bent + 4) % 5 || m.places[i * 4 + k].along_mm != m.places[bent * 4 + k].along_mm);
}

static void chords_of_a_curve_are_no_corners(void **state)
{
    struct arena *a = *state;
    static const double chord_mm[] = { 0.002, 0.1 };
    for (size_t i = 0; i < 2; i++) {
        struct lifting_corner *corners;
        struct shape s = shape_begin(a); /* a rectangle, its far right corner rounded with a radius of 80 */
        shape_point(&s, 0, 0);
        shape_point(&s, 300, 0);
        shape_arc(&s, (vec2){ 220, 320 }, 80, 0, 90, shape_arc_steps(80, 90, chord_mm[i]));
        shape_point(&s, 0, 400);
        size_t count = lifting_find_corners(a, s.path, LIFTING_STRAIGHT_MM, &corners);
        assert_int_equal(count, 5); /* three, and the ends of the straight sides */
        assert_near(corners[1].turn, 1, 1e-9);
        assert_near(corners[2].at.y, 320, 1e-9);
        assert_near(corners[3].at.x, 220, 1e-9);
        assert_true(fabs(corners[2].turn) < LIFTING_PLAIN_TURN);
    }
}

static void points_on_a_straight_side_are_no_corners(void **state)
{
    struct arena *a = *state;
    struct lifting_corner *corners;
    struct shape s = shape_begin(a); /* begun in the middle of a side */
    shape_point(&s, 100, 0);
    for (int i = 1; i <= 50; i++)
        shape_point(&s, 100 + 2 * i, i % 2 ? 0.0001 : 0);
    shape_arc(&s, (vec2){ 0, 0 }, 200, 0, 180, shape_arc_steps(200, 180, 0.002));
    shape_point(&s, -100, 0);
    assert_int_equal(lifting_find_corners(a, s.path, LIFTING_STRAIGHT_MM, &corners), 2);
    assert_near(corners[0].at.x, 200, 1e-9);
    assert_near(corners[1].at.x, -200, 1e-9);
}

static void a_shallow_corner_between_straight_sides_is_one(void **state)
{
    struct arena *a = *state;
    struct lifting_corner *corners;
    struct shape s = shape_begin(a);
    shape_point(&s, 0, 0);
    shape_point(&s, 200, 0);
    shape_point(&s, 210, 300); /* 1.9° to the left */
    shape_point(&s, 210, 600);
    shape_point(&s, 0, 600);
    assert_int_equal(lifting_find_corners(a, s.path, LIFTING_STRAIGHT_MM, &corners), 5);
}

/* A rectangle with a V, 6 wide and 5 deep, cut into its right side, and a corner that is cut off by 0.05. */
static struct geometry_path snipped(struct arena *a, double grown, bool is_blunt)
{
    struct shape s = shape_begin(a);
    shape_point(&s, 0, 0);
    if (is_blunt)
        shape_point(&s, 200 + grown - 0.05, 0);
    shape_point(&s, 200 + grown, is_blunt ? 0.05 : 0);
    shape_point(&s, 200 + grown, 147);
    shape_point(&s, 195 + grown, 150);
    shape_point(&s, 200 + grown, 153);
    shape_point(&s, 200 + grown, 300);
    shape_point(&s, 0, 300);
    return s.path;
}

static void snips_and_tiny_sides_match(void **state)
{
    struct arena *a = *state;
    const struct geometry_path outlines[] = { snipped(a, 0, false), snipped(a, 15, true), snipped(a, 30, false) };
    struct lifting_match m = lifting_match(a, outlines, 3);
    assert_false(m.doubtful); /* nobody sees 0.05 mm */
    size_t tip = corner_at(&m, outlines, 195, 150), far = corner_at(&m, outlines, 200, 300);
    for (size_t k = 0; k < 3; k++) {
        assert_at(&m, outlines, tip, k, 195 + 15 * (double)k, 150);
        assert_at(&m, outlines, far, k, 200 + 15 * (double)k, 300);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(corners_of_rectangles_match_wherever_they_begin),
        room_arena_test(a_circle_begins_at_its_lowest_point),
        room_arena_test(a_corner_that_a_size_lacks_is_put_at_the_same_share_of_the_edge),
        room_arena_test(chords_of_a_curve_are_no_corners),
        room_arena_test(points_on_a_straight_side_are_no_corners),
        room_arena_test(a_shallow_corner_between_straight_sides_is_one),
        room_arena_test(snips_and_tiny_sides_match),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
