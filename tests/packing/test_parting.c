/* Parting unit squares, whose places are worked by hand. */
#include "packing/parting.h"
#include "trial_rig.h"

#include <string.h>

enum { MOST_SWEEPS = 1000 };

struct run {
    struct parting parting;
    struct seeker seeker;
    uint64_t random;
};

static struct run run_of(struct rig *r, const struct trial *t)
{
    struct run run = { parting_of(r->arena, t), seeker_of(r->arena, t), 1 };
    trial_copy(&run.parting.now, t);
    parting_begin(&run.parting);
    return run;
}

/* Sweeps until it has an end; *count: how many. */
static enum parting_state run_through(struct run *run, size_t *count)
{
    enum parting_state state = PARTING_GOES_ON;
    for (*count = 0; *count < MOST_SWEEPS && state == PARTING_GOES_ON; ++*count)
        state = parting_sweep(&run->parting, &run->seeker, &run->random);
    return state;
}

/* Two unit squares fill a strip of 1 by 2 in no other way than from 0 and from 1 on. */
static void two_squares_part_to_fill_their_strip(void **state)
{
    (void)state;
    struct rig r;
    size_t sweeps;
    rig_set(&r, 1, 2);
    struct trial t = rig_trial(&r, (vec2[]){ { 0.3, 0 }, { 0.9, 0 } }, 2);
    struct run run = run_of(&r, &t);
    assert_int_equal(run_through(&run, &sweeps), PARTING_DONE);
    const struct packing_place *at = run.parting.now.at;
    assert_near(fmin(at[0].shift.x, at[1].shift.x), 0, 1e-8);
    assert_near(fmax(at[0].shift.x, at[1].shift.x), 1, 1e-8);
    rig_end(&r);
}

/* The one that is pinned stays, in the middle of 3 by 1; the other goes to either end. */
static void what_is_pinned_stays(void **state)
{
    (void)state;
    struct rig r;
    size_t sweeps;
    rig_set(&r, 1, 2);
    r.pinned[0] = (struct packing_place){ 0, { 1, 0 } };
    struct trial t = rig_trial(&r, (vec2[]){ { 1, 0 }, { 1.2, 0 } }, 3);
    struct run run = run_of(&r, &t);
    assert_int_equal(run_through(&run, &sweeps), PARTING_DONE);
    assert_near(run.parting.now.at[0].shift.x, 1, 0);
    assert_near(fabs(run.parting.now.at[1].shift.x - 1), 1, 1e-8);
    rig_end(&r);
}

/* In 1.5 by 1 two unit squares lie at least a half over each other, which counts d (1 + d / bend), 0.3 of a side being
 * the bend (tables.c): 0.5 (1 + 0.5 / 0.3) = 4 / 3. The table's steps are 1/28, so a depth off by a part of one. They
 * begin like that, so none of a hundred sweeps gains. */
static void what_has_no_room_is_given_up(void **state)
{
    (void)state;
    struct rig r;
    size_t sweeps;
    rig_set(&r, 1, 2);
    struct trial t = rig_trial(&r, (vec2[]){ { 0, 0 }, { 0.5, 0 } }, 1.5);
    assert_near(trial_overlap(&t), 4 / 3.0, 0.02);
    struct run run = run_of(&r, &t);
    assert_int_equal(run_through(&run, &sweeps), PARTING_STUCK);
    assert_int_equal(sweeps, 101);
    assert_near(run.parting.least_overlap, 4 / 3.0, 0.02);
    rig_end(&r);
}

/* From one on top of the other, which counts 1 (1 + 1 / 0.3) or, out of the strip's middle, less, to no more than 4 /
 * 3: the least is kept, and the try that is given up lies so. */
static void the_least_overlap_is_kept(void **state)
{
    (void)state;
    struct rig r;
    size_t sweeps;
    rig_set(&r, 1, 2);
    struct trial t = rig_trial(&r, (vec2[]){ { 0.25, 0 }, { 0.25, 0 } }, 1.5);
    double before = trial_overlap(&t);
    struct run run = run_of(&r, &t);
    assert_true(before > 1.5);
    assert_int_equal(run_through(&run, &sweeps), PARTING_STUCK);
    assert_near(run.parting.least_overlap, 4 / 3.0, 0.02);
    assert_near(trial_overlap(&run.parting.least), run.parting.least_overlap, 1e-12);
    const struct packing_place *at = run.parting.least.at;
    assert_near(fabs(at[0].shift.x - at[1].shift.x), 0.5, 0.02);
    rig_end(&r);
}

/* Squares 0 and 1 have no room but over each other, or over 2, which is pinned beside them; 3 lies alone, pinned. A
 * weight of a pair that overlaps becomes 1.15 times as much, and 0.6 of it more for the share that it has of the worst
 * overlap; of one that does not 0.97 of it, 1 at least. */
static void weights_grow_with_overlap_and_fade(void **state)
{
    (void)state;
    struct rig r;
    rig_set(&r, 1, 4);
    r.pinned[2] = (struct packing_place){ 0, { 1.5, 0 } };
    r.pinned[3] = (struct packing_place){ 0, { 2.5, 0 } };
    struct trial t = rig_trial(&r, (vec2[]){ { 0, 0 }, { 0.5, 0 }, { 1.5, 0 }, { 2.5, 0 } }, 3.5);
    struct run run = run_of(&r, &t);
    struct trial *now = &run.parting.now;
    now->weight[0 * 4 + 1] = now->weight[1 * 4 + 0] = 2;
    now->weight[1 * 4 + 3] = now->weight[3 * 4 + 1] = 3;
    now->weight[2 * 4 + 3] = now->weight[3 * 4 + 2] = 1.01F;
    float before[16];
    memcpy(before, now->weight, sizeof before);
    assert_int_equal(parting_sweep(&run.parting, &run.seeker, &run.random), PARTING_GOES_ON);
    double most = 0;
    size_t over = 0;
    for (size_t i = 0; i < 16; i++) {
        most = fmax(most, now->overlap[i]);
        over += now->overlap[i] > 0;
    }
    assert_true(over >= 2 && over < 12); /* each pair twice: some overlap, some do not */
    for (size_t i = 0; i < 16; i++) {
        double grown = (double)before[i] * (1.15 + 0.6 * now->overlap[i] / most);
        double faded = fmax((double)before[i] * 0.97, 1);
        assert_near((double)now->weight[i], now->overlap[i] > 0 ? grown : faded, 1e-6);
    }
    rig_end(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_squares_part_to_fill_their_strip),    cmocka_unit_test(what_is_pinned_stays),
        cmocka_unit_test(what_has_no_room_is_given_up), cmocka_unit_test(the_least_overlap_is_kept),
        cmocka_unit_test(weights_grow_with_overlap_and_fade),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
