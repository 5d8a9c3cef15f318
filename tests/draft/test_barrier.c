/* Where lines first meet a path, hand-worked. */
#include "draft/barrier.h"
#include "support/cmocka_all.h"

#include <math.h>

#define SAME_MM 1e-9

static void assert_meets(const struct draft_barrier *b, vec2 from, vec2 direction, vec2 at)
{
    vec2 met = draft_first_meeting(b, from, direction);
    assert_near(met.x, at.x, SAME_MM);
    assert_near(met.y, at.y, SAME_MM);
}

/* Teeth of 10 mm from (0, 0) to (10 n, 0), each 10 mm high in its middle: tooth k's tip is at (10 k + 5, 10). */
static struct geometry_path saw(struct arena *a, size_t teeth)
{
    struct geometry_path p = { base_arena_alloc(a, 2 * teeth + 1, sizeof(vec2)), 0, false };
    for (size_t k = 0; k < 2 * teeth + 1; k++)
        p.points[p.count++] = (vec2){ 5 * (double)k, k % 2 ? 10 : 0 };
    return p;
}

static void the_nearest_of_many_meetings_is_found(void **state)
{
    struct arena *a = *state;
    struct draft_barrier b = draft_barrier_of(a, saw(a, 100));
    /* At half height every tooth is 5 mm wide: from 10 k + 2.5 to 10 k + 7.5. */
    assert_meets(&b, (vec2){ 1002, 5 }, (vec2){ -1, 0 }, (vec2){ 997.5, 5 });
    assert_meets(&b, (vec2){ 431, 5 }, (vec2){ 1, 0 }, (vec2){ 432.5, 5 });
    assert_meets(&b, (vec2){ 431, 5 }, (vec2){ -1, 0 }, (vec2){ 427.5, 5 });
    assert_meets(&b, (vec2){ 613, 50 }, (vec2){ 0, -1 }, (vec2){ 613, 6 });
    assert_meets(&b, (vec2){ 765, 50 }, (vec2){ 0, -1 }, (vec2){ 765, 10 }); /* a tip */
}

static void what_never_meets_stays_where_it_is(void **state)
{
    struct arena *a = *state;
    struct draft_barrier b = draft_barrier_of(a, saw(a, 100));
    assert_meets(&b, (vec2){ 20, 11 }, (vec2){ 1, 0 }, (vec2){ 20, 11 });
    assert_meets(&b, (vec2){ 20, 50 }, (vec2){ 0, 1 }, (vec2){ 20, 50 });
    assert_true(isinf(draft_way_to(&b, (vec2){ -3, 50 }, (vec2){ 0, -1 }, 1000)));
}

static void a_closed_path_is_met_on_its_last_side(void **state)
{
    struct arena *a = *state;
    struct geometry_path p = saw(a, 8);
    vec2 half_way = { 40, 0 }; /* where teeth 3 and 4 meet */
    struct draft_barrier open = draft_barrier_of(a, p);
    p.closed = true; /* from (80, 0) back to (0, 0) along the teeth's feet */
    struct draft_barrier closed = draft_barrier_of(a, p);
    assert_meets(&closed, (vec2){ 42, -7 }, (vec2){ 0, 1 }, (vec2){ 42, 0 });
    assert_meets(&open, (vec2){ 42, -7 }, (vec2){ 0, 1 }, (vec2){ 42, 4 });
    assert_meets(&open, (vec2){ 40, -7 }, (vec2){ 0, 1 }, half_way);
}

static void a_meeting_near_enough_ends_the_search(void **state)
{
    struct arena *a = *state;
    struct draft_barrier b = draft_barrier_of(a, saw(a, 100));
    double way = draft_way_to(&b, (vec2){ 1002, 5 }, (vec2){ -1, 0 }, 500);
    assert_true(way >= 4.5 - SAME_MM && way <= 500);
    assert_near(draft_way_to(&b, (vec2){ 1002, 5 }, (vec2){ -1, 0 }, 4), 4.5, SAME_MM);
}

static int make_arena(void **state)
{
    *state = base_arena_create();
    return 0;
}

static int drop_arena(void **state)
{
    base_arena_destroy(*state);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_nearest_of_many_meetings_is_found),
        cmocka_unit_test(what_never_meets_stays_where_it_is),
        cmocka_unit_test(a_closed_path_is_met_on_its_last_side),
        cmocka_unit_test(a_meeting_near_enough_ends_the_search),
    };
    return cmocka_run_group_tests(tests, make_arena, drop_arena);
}
