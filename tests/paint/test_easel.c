/* Frames from content made once: the same bits at any number of threads, on a used easel, and in every build. */
#include "paint/easel.h"
#include "paint/frame.h"
#include "support/cmocka_all.h"

#include <string.h>

enum { WIDTH = 417, HEIGHT = 251 }; /* no whole numbers of blocks and bands */

static const struct geometry_map map = { WIDTH,
                                         HEIGHT,
                                         { 100, 8, 250, 12, -115, 420, 0.1, -0.07, -0.1, 0.004, 0.003 } };

static double random_between(uint64_t *seed, double low, double high)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * (double)(*seed >> 11) / 9007199254740992.0;
}

static struct geometry_path random_path(struct arena *a, uint64_t *seed, bool px, bool closed)
{
    size_t count = 3 + (size_t)random_between(seed, 0, 30);
    double x = px ? WIDTH * 0.5 : 250, y = px ? HEIGHT * 0.5 : 420, step = random_between(seed, 2, px ? 40 : 60);
    struct geometry_path p = { base_arena_alloc(a, count, sizeof(vec2)), count, closed };
    for (size_t i = 0; i < count; i++) {
        x += random_between(seed, -step, step);
        y += random_between(seed, -step, step);
        p.points[i] = (vec2){ x, y };
    }
    return p;
}

/* Strokes, dashes and fills in mm and px, in changing inks; some reach out of the frame. */
static struct paint_scene random_scene(struct arena *a)
{
    struct paint_scene scene = paint_scene_create(a);
    uint64_t seed = 42;
    for (int i = 0; i < 60; i++) {
        struct paint_ink ink = { i % 5 ? 0xffee4a : 0x86d4ff, i % 3 ? 1 : 0.6 };
        struct paint_pen pen = { .width = random_between(&seed, 1, 5) };
        if (i % 4 == 0)
            pen.dash[0] = pen.dash[1] = 8;
        struct geometry_path p = random_path(a, &seed, i % 6 == 5, i % 2);
        if (i % 6 == 5)
            paint_px_stroke(&scene.px, (struct px_path){ p }, pen, ink);
        else if (i % 10 == 0)
            paint_table_fill(&scene.table, &(struct table_path){ p }, 1, ink);
        else
            paint_table_stroke(&scene.table, (struct table_path){ p }, pen, ink);
    }
    return scene;
}

static void draw(int threads, const struct paint_content *content, struct paint_image *image)
{
    struct base_pool *pool = base_pool_create(threads);
    struct paint_easel *easel = paint_easel_create(pool, WIDTH, HEIGHT);
    paint_draw(easel, content, &map, image);
    paint_easel_destroy(easel);
    base_pool_destroy(pool);
}

static void assert_same(const struct paint_image *a, const struct paint_image *b)
{
    assert_memory_equal(a->pixels, b->pixels, sizeof(uint32_t) * WIDTH * HEIGHT);
}

static void one_two_and_three_threads_paint_the_same_bits(void **state)
{
    struct arena *a = *state;
    struct paint_scene scene = random_scene(a);
    const struct paint_content *content = paint_prepare(a, &scene);
    struct paint_image one = paint_image_create(a, WIDTH, HEIGHT), many = paint_image_create(a, WIDTH, HEIGHT);
    draw(1, content, &one);
    for (int threads = 2; threads <= 3; threads++) {
        for (int round = 0; round < 5; round++) {
            memset(many.pixels, 0x5a, sizeof(uint32_t) * WIDTH * HEIGHT);
            draw(threads, content, &many);
            assert_same(&one, &many);
        }
    }
    struct paint_image at_once = paint_image_create(a, WIDTH, HEIGHT);
    paint_frame(a, &scene, &map, &at_once);
    assert_same(&one, &at_once);
}

/* A used easel and content: other maps and sizes in between leave nothing behind. */
static void an_easel_and_a_content_serve_many_frames(void **state)
{
    struct arena *a = *state;
    struct paint_scene scene = random_scene(a);
    const struct paint_content *content = paint_prepare(a, &scene);
    struct paint_image first = paint_image_create(a, WIDTH, HEIGHT), again = paint_image_create(a, WIDTH, HEIGHT);
    struct paint_image small = paint_image_create(a, 64, 48);
    struct geometry_map other = map, little = map;
    other.term[GEOMETRY_H02] += 40;
    little.width_px = 64;
    little.height_px = 48;
    struct paint_easel *easel = paint_easel_create(NULL, WIDTH, HEIGHT);
    paint_draw(easel, content, &map, &first);
    paint_draw(easel, content, &other, &again);
    assert_true(memcmp(first.pixels, again.pixels, sizeof(uint32_t) * WIDTH * HEIGHT) != 0);
    paint_draw(easel, content, &little, &small);
    paint_draw(easel, content, &map, &again);
    assert_same(&first, &again);
    paint_easel_destroy(easel);
}

/* FNV-1a (Fowler, Noll, Vo), 64 bits. */
static uint64_t checksum(const struct paint_image *image)
{
    uint64_t sum = 14695981039346656037u;
    for (size_t i = 0; i < (size_t)WIDTH * HEIGHT; i++)
        for (int shift = 0; shift < 24; shift += 8)
            sum = (sum ^ (image->pixels[i] >> shift & 0xff)) * 1099511628211u;
    return sum;
}

/* Not a check of what is right: our own output, kept so that builds with other compilers, levels of optimisation and
 * registers are seen to paint the same bits. It changes whenever paint is changed on purpose. */
static void every_build_paints_the_same_bits(void **state)
{
    struct arena *a = *state;
    struct paint_scene scene = random_scene(a);
    struct paint_image image = paint_image_create(a, WIDTH, HEIGHT);
    paint_frame(a, &scene, &map, &image);
    assert_true(geometry_map_is_valid(&map));
    assert_true(checksum(&image) == 0xe14736a496fc6a91u);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(one_two_and_three_threads_paint_the_same_bits, set_up, tear_down),
        cmocka_unit_test_setup_teardown(an_easel_and_a_content_serve_many_frames, set_up, tear_down),
        cmocka_unit_test_setup_teardown(every_build_paints_the_same_bits, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
