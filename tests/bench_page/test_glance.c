/* The small drawing of what the table shows. Expected values hand-worked: a light of 200 × 100 px is 1 × 0.5. */
#include "bench/glance.h"
#include "support/room.h"

enum { WIDTH = 200, HEIGHT = 100 };

static const struct paint_pen pen = { .width = 2 };
static const struct paint_ink bright = { 0xffffff, 1 }, dim = { 0xffffff, 0.5 };

static void stroke(struct paint_scene *scene, struct paint_ink ink, const vec2 *points, size_t count, bool closed)
{
    struct geometry_path path =
        geometry_path_copy(scene->px.in.arena, (struct geometry_path){ (vec2 *)(uintptr_t)points, count, closed });
    paint_px_stroke(&scene->px, (struct px_path){ path }, pen, ink);
}

static struct bench_glance glance(struct room *room, const struct paint_scene *scene)
{
    return bench_glance_of(room->a, scene, NULL, WIDTH, HEIGHT, (struct table_path){ { 0 } });
}

static void assert_at(vec2 at, double x, double y)
{
    assert_near(at.x, x, 1e-12);
    assert_near(at.y, y, 1e-12);
}

static void lines_end_where_the_light_does(void **state)
{
    struct room *room = *state;
    struct paint_scene scene = paint_scene_create(room->a);
    const vec2 across[] = { { -100, 50 }, { 300, 50 } }, beside[] = { { -10, -10 }, { 300, -10 } };
    stroke(&scene, bright, across, 2, false);
    stroke(&scene, bright, beside, 2, false);
    struct bench_glance g = glance(room, &scene);
    assert_near(g.height, 0.5, 1e-12);
    assert_int_equal(g.count, 1);
    assert_at(g.lines[0].path.points[0], 0, 0.25);
    assert_at(g.lines[0].path.points[1], 1, 0.25);
}

/* Three sides of this square are in the light, two of them in part. */
static void an_outline_partly_in_the_light_is_drawn_in_parts(void **state)
{
    struct room *room = *state;
    struct paint_scene scene = paint_scene_create(room->a);
    const vec2 square[] = { { 150, 20 }, { 250, 20 }, { 250, 80 }, { 150, 80 } };
    stroke(&scene, bright, square, 4, true);
    struct bench_glance g = glance(room, &scene);
    assert_int_equal(g.count, 2);
    assert_at(g.lines[0].path.points[0], 0.75, 0.1);
    assert_at(g.lines[0].path.points[1], 1, 0.1);
    assert_int_equal(g.lines[1].path.count, 3);
    assert_at(g.lines[1].path.points[0], 1, 0.4);
    assert_at(g.lines[1].path.points[1], 0.75, 0.4);
    assert_at(g.lines[1].path.points[2], 0.75, 0.1);
}

static void the_brightest_strokes_are_in_hand(void **state)
{
    struct room *room = *state;
    struct paint_scene scene = paint_scene_create(room->a);
    const vec2 one[] = { { 10, 10 }, { 20, 10 } }, other[] = { { 10, 30 }, { 20, 30 } };
    stroke(&scene, dim, one, 2, false);
    struct bench_glance alone = glance(room, &scene);
    assert_true(alone.lines[0].bright);
    stroke(&scene, bright, other, 2, false);
    struct bench_glance g = glance(room, &scene);
    assert_false(g.lines[0].bright);
    assert_true(g.lines[1].bright);
    assert_true(bench_glance_same(&g, &g));
    assert_false(bench_glance_same(&g, &alone));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(lines_end_where_the_light_does),
        room_test(an_outline_partly_in_the_light_is_drawn_in_parts),
        room_test(the_brightest_strokes_are_in_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
