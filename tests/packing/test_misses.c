/* Which misses are kept, and how often each is drawn. */
#include "packing/misses.h"
#include "trial_rig.h"

/* Ten are offered, out of order; each lies where its overlap says, so that the two are told together. */
static void the_nearest_are_kept_in_order(void **state)
{
    (void)state;
    static const double offered[] = { 5, 3, 9, 1, 8, 2, 7, 4, 6, 0.5 };
    static const double kept[MISSES_MOST] = { 0.5, 1, 2, 3, 4, 5, 6, 7 };
    struct rig r;
    rig_set(&r, 1, 1);
    struct trial t = rig_trial(&r, (vec2[]){ { 0, 0 } }, 10);
    struct misses m = misses_of(r.arena, &t);
    assert_int_equal(m.count, 0);
    for (size_t i = 0; i < sizeof offered / sizeof *offered; i++) {
        t.at[0].shift.x = offered[i];
        misses_keep(&m, &t, offered[i]);
    }
    assert_int_equal(m.count, MISSES_MOST);
    for (size_t i = 0; i < MISSES_MOST; i++) {
        assert_near(m.overlap[i], kept[i], 0);
        assert_near(m.trials[i].at[0].shift.x, kept[i], 0);
    }
    rig_end(&r);
}

static void as_much_as_the_last_is_not_taken_when_full(void **state)
{
    (void)state;
    struct rig r;
    rig_set(&r, 1, 1);
    struct trial t = rig_trial(&r, (vec2[]){ { 0, 0 } }, 10);
    struct misses m = misses_of(r.arena, &t);
    for (int i = 0; i <= MISSES_MOST; i++) {
        t.at[0].shift.x = i;
        misses_keep(&m, &t, 2);
    }
    for (size_t i = 0; i < MISSES_MOST; i++)
        assert_true(m.trials[i].at[0].shift.x < MISSES_MOST);
    rig_end(&r);
}

/* Two squares a quarter over each other in a strip of 3. */
static void what_is_kept_is_a_copy(void **state)
{
    (void)state;
    struct rig r;
    rig_set(&r, 1, 2);
    struct trial t = rig_trial(&r, (vec2[]){ { 0, 0 }, { 0.75, 0 } }, 3);
    double overlap = trial_overlap(&t);
    struct misses m = misses_of(r.arena, &t);
    misses_keep(&m, &t, overlap);
    trial_put(&t, 1, (struct packing_place){ 0, { 2, 0 } });
    t.length = 2;
    uint64_t random = 1;
    const struct trial *kept = misses_pick(&m, &random);
    assert_near(kept->length, 3, 0);
    assert_near(kept->at[1].shift.x, 0.75, 0);
    assert_true(overlap > 0);
    assert_near(trial_overlap(kept), overlap, 0);
    rig_end(&r);
}

/* A share s of [0, 1) draws number floor(4 s²) of four: number k for s from sqrt(k / 4) to sqrt((k + 1) / 4). Of 40,000
 * draws a share's standard error is at most 0.0025. */
static void nearer_ones_are_drawn_more_often(void **state)
{
    (void)state;
    enum { COUNT = 4, DRAWS = 40000 };
    struct rig r;
    rig_set(&r, 1, 1);
    struct trial t = rig_trial(&r, (vec2[]){ { 0, 0 } }, 10);
    struct misses m = misses_of(r.arena, &t);
    size_t drawn[COUNT] = { 0 };
    uint64_t random = 7;
    for (int i = 0; i < COUNT; i++)
        misses_keep(&m, &t, i);
    for (int i = 0; i < DRAWS; i++)
        drawn[misses_pick(&m, &random) - m.trials]++;
    for (int k = 0; k < COUNT; k++)
        assert_near((double)drawn[k] / DRAWS, sqrt((k + 1) / 4.0) - sqrt(k / 4.0), 0.0125);
    rig_end(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_nearest_are_kept_in_order),
        cmocka_unit_test(as_much_as_the_last_is_not_taken_when_full),
        cmocka_unit_test(what_is_kept_is_a_copy),
        cmocka_unit_test(nearer_ones_are_drawn_more_often),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
