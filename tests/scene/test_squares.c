/* Coarse squares against the lines themselves: whether a box is touched is worked out here stretch by stretch, by
 * points a tenth of a millimetre apart. */
#include "scene/squares.h"
#include "support/cmocka_all.h"
#include "support/room.h"

enum { LINES = 12, CORNERS = 7, BOXES = 1000 };

#define APART_MM 0.1

/* Any sequence will do: a linear congruence (Knuth, The Art of Computer Programming, vol. 2, 3.3.4). */
static double next(unsigned *seed, double most)
{
    *seed = *seed * 1664525u + 1013904223u;
    return (*seed >> 8) / (double)(1 << 24) * most;
}

static bool runs_through(const struct geometry_path *path, struct geometry_box box)
{
    for (size_t i = 0; i + (path->closed ? 0 : 1) < path->count; i++) {
        vec2 from = path->points[i], to = path->points[(i + 1) % path->count];
        double length = vec2_length(vec2_sub(to, from));
        for (double at = 0; at <= length; at += APART_MM) {
            vec2 p = vec2_lerp(from, to, at / length);
            if (p.x >= box.min.x && p.x <= box.max.x && p.y >= box.min.y && p.y <= box.max.y)
                return true;
        }
    }
    return false;
}

static struct geometry_path some_line(struct arena *a, unsigned *seed)
{
    struct geometry_path path = { base_arena_alloc(a, CORNERS, sizeof(vec2)), CORNERS, *seed & 0x100 };
    for (int i = 0; i < CORNERS; i++)
        path.points[i] = (vec2){ next(seed, 700) - 100, next(seed, 500) - 100 };
    return path;
}

/* What is said to be taken is. What is not said to be may be touched at its rim alone: a box that is smaller by a
 * square on every side is free of lines. */
static void what_is_taken_is_touched(void **state)
{
    struct arena *a = *state;
    unsigned seed = 1;
    struct geometry_path paths[LINES];
    for (int i = 0; i < LINES; i++)
        paths[i] = some_line(a, &seed);
    const struct scene_obstacles lists[] = { { paths, LINES / 2 }, { paths + LINES / 2, LINES - LINES / 2 } };
    const struct geometry_box area = { { 0, 0 }, { 501, 299 } };
    const double side = 4; /* of a square */
    struct scene_squares squares = scene_squares_of(a, area, lists, 2);
    int taken = 0, free = 0;
    for (int i = 0; i < BOXES; i++) {
        vec2 at = { next(&seed, 480), next(&seed, 280) }, size = { next(&seed, 60), next(&seed, 30) };
        struct geometry_box box = { at, vec2_add(at, size) };
        struct geometry_box core = { vec2_add(box.min, (vec2){ side, side }), vec2_sub(box.max, (vec2){ side, side }) };
        bool told = scene_squares_taken(&squares, box), touched = false, core_touched = false;
        for (int k = 0; k < LINES; k++) {
            touched = touched || runs_through(&paths[k], box);
            core_touched = core_touched || runs_through(&paths[k], core);
        }
        bool within = box.max.x <= area.max.x && box.max.y <= area.max.y;
        assert_true(!told || touched);
        assert_true(told || !core_touched || !within);
        taken += told;
        free += !told;
    }
    assert_true(taken > BOXES / 10 && free > BOXES / 10);
}

static void of_no_area_nothing_is_known(void **state)
{
    struct arena *a = *state;
    struct geometry_path path = { (vec2[]){ { 0, 0 }, { 10, 10 } }, 2, false };
    struct scene_squares squares =
        scene_squares_of(a, (struct geometry_box){ { 5, 5 }, { 5, 9 } }, &(struct scene_obstacles){ &path, 1 }, 1);
    assert_false(scene_squares_taken(&squares, (struct geometry_box){ { 0, 0 }, { 10, 10 } }));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(what_is_taken_is_touched),
        room_arena_test(of_no_area_nothing_is_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
