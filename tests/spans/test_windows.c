/* Where the light's windows lie along the cloth: against every chain of windows that there is, tried one by one, and
 * against greedy windows written anew here. */
#include "geometry/random.h"
#include "spans/windows.h"
#include "support/room.h"

#include <math.h>

#define REACH 12.0
#define OVERLAP 2.0

enum { STEP = 10, CASES = 400, MOST = 8, MANY = 60, LONGEST = 40 };

struct result {
    size_t parts, windows;
};

/* An extent that one window shows whole is one part; else it is cut in all windows from the last that shows its
 * beginning to the first that shows its end. */
static size_t parts_of(const double *from, size_t windows, struct spans_extent e, double reach)
{
    size_t first = 0, last = windows;
    for (size_t k = 0; k < windows; k++) {
        if (from[k] <= e.from + 1e-6 && e.to <= from[k] + reach + 1e-6)
            return 1;
        if (from[k] <= e.from + 1e-6)
            first = k;
        if (last == windows && from[k] + reach >= e.to - 1e-6)
            last = k;
    }
    assert_true(last < windows);
    return last - first + 1;
}

static struct result result_of(const double *from, size_t windows, const struct spans_extent *e, size_t count,
                               double reach)
{
    struct result r = { 0, windows };
    for (size_t i = 0; i < count; i++)
        r.parts += parts_of(from, windows, e[i], reach);
    return r;
}

static double end_of(const struct spans_extent *e, size_t count)
{
    double end = 0;
    for (size_t i = 0; i < count; i++)
        end = fmax(end, e[i].to);
    return end;
}

/* All chains of windows at whole numbers; as all extents lie there, no other chain is better. */
struct trial {
    const struct spans_extent *e;
    size_t count;
    double end, from[16];
    struct result best;
};

static void try_all(struct trial *t, size_t windows)
{
    if (t->from[windows - 1] + REACH >= t->end) {
        struct result r = result_of(t->from, windows, t->e, t->count, REACH);
        if (r.parts < t->best.parts || (r.parts == t->best.parts && r.windows < t->best.windows))
            t->best = r;
        return;
    }
    for (int step = 1; step <= STEP && windows < 6; step++) {
        t->from[windows] = t->from[windows - 1] + step;
        try_all(t, windows + 1);
    }
}

static struct result best_of_all(const struct spans_extent *e, size_t count)
{
    struct trial t = { .e = e, .count = count, .end = end_of(e, count), .best = { SIZE_MAX, SIZE_MAX } };
    try_all(&t, 1);
    return t.best;
}

static size_t some_extents(uint64_t *seed, struct spans_extent *e, size_t most, double longest, double end)
{
    size_t count = (size_t)random_between(seed, 1, (double)most + 1);
    for (size_t i = 0; i < count; i++) {
        double length = floor(random_between(seed, 1, longest + 1));
        e[i].from = floor(random_between(seed, 0, fmax(end - length, 0) + 1));
        e[i].to = e[i].from + length;
    }
    return count;
}

static void check_chain(const struct spans_windows *w, double end, double step)
{
    assert_near(w->from[0], 0, 0);
    for (size_t k = 1; k < w->count; k++) {
        assert_true(w->from[k] > w->from[k - 1]);
        assert_true(w->from[k] <= w->from[k - 1] + step + 1e-9);
    }
    assert_true(w->from[w->count - 1] + w->reach >= end - 1e-9);
}

static void no_chain_is_better(void **state)
{
    uint64_t seed = 1;
    for (int i = 0; i < CASES; i++) {
        struct spans_extent e[MOST];
        size_t count = some_extents(&seed, e, MOST, i % 2 ? LONGEST : REACH, LONGEST);
        struct spans_windows w = spans_windows_make(*state, e, count, 0, REACH, OVERLAP);
        check_chain(&w, end_of(e, count), STEP);
        struct result got = result_of(w.from, w.count, e, count, REACH), want = best_of_all(e, count);
        assert_int_equal(got.parts, want.parts);
        if (w.count > want.windows)
            fail_msg("case %d: %zu windows, %zu do", i, w.count, want.windows);
    }
}

/* Windows from where the first extent begins that is not shown whole yet, or a step on. */
static size_t greedy(const struct spans_extent *e, size_t count, double reach, double step)
{
    double at = 0;
    for (size_t windows = 1;; windows++) {
        double next = INFINITY;
        for (size_t i = 0; i < count; i++)
            if (e[i].to > at + reach + 1e-6)
                next = fmin(next, e[i].from);
        if (next == INFINITY)
            return windows;
        at = fmin(next, at + step);
    }
}

static void without_a_long_piece_greedy_windows_are_as_few_and_part_none(void **state)
{
    uint64_t seed = 2;
    for (int i = 0; i < CASES; i++) {
        struct spans_extent e[MANY];
        size_t count = some_extents(&seed, e, MANY, 900, 6000);
        struct spans_windows w = spans_windows_make(*state, e, count, 0, 900, 100);
        check_chain(&w, end_of(e, count), 800);
        assert_int_equal(result_of(w.from, w.count, e, count, 900).parts, count);
        assert_int_equal(w.count, greedy(e, count, 900, 800));
    }
}

/* Hand-worked. Reach 1000, overlap 100. The first piece ends at 1500 whatever is done: two parts. Greedy windows, 0,
 * 900, 1800, would show the second, 850 to 2600, in three; from 850 on two show it. */
static void a_long_piece_is_in_as_few_parts_as_can_be(void **state)
{
    const struct spans_extent e[] = { { 0, 1500 }, { 850, 2600 } };
    struct spans_windows w = spans_windows_make(*state, e, 2, 0, 1000, 100);
    assert_int_equal(w.count, 3);
    assert_near(w.from[1], 800, 1e-9); /* from 700, so that the third reaches the end, to 850 */
    assert_near(w.from[2], 1600, 1e-9);
    struct spans_shown first = spans_windows_show(&w, e[0]), second = spans_windows_show(&w, e[1]);
    assert_int_equal(first.first, 0);
    assert_int_equal(first.last, 1);
    assert_int_equal(second.first, 1);
    assert_int_equal(second.last, 2);
}

/* Hand-worked: 2500 in windows of 1000 that overlap by 100 or more takes three, which can overlap by 250. */
static void overlap_is_shared_out(void **state)
{
    const struct spans_extent e[] = { { 0, 700 }, { 800, 1600 }, { 1600, 2500 } };
    struct spans_windows w = spans_windows_make(*state, e, 3, 0, 1000, 100);
    assert_int_equal(w.count, 3);
    assert_near(w.from[1], 750, 1e-9);
    assert_near(w.from[2], 1500, 1e-9);
}

/* Far from the cut end, the way there is still gone window by window, so that the cloth's place is known. */
static void windows_lead_from_the_cut_end(void **state)
{
    const struct spans_extent e[] = { { 2000, 2900 } };
    struct spans_windows w = spans_windows_make(*state, e, 1, 0, 1000, 100);
    check_chain(&w, 2900, 900);
    assert_int_equal(w.count, 4); /* 0, 900, 1800, and 2000 at the latest: 1800 shows no more than 2800 */
}

/* Hand-worked: the light shows 400 to 1400; what begins there is whole in it. The second is shown from 500 to 900 on, the
 * third from 1300 on, by two more windows, pushed back as far as that allows. */
static void windows_go_on_from_where_the_light_is(void **state)
{
    const struct spans_extent e[] = { { 450, 1390 }, { 900, 1500 }, { 1500, 2300 } };
    struct spans_windows w = spans_windows_make(*state, e, 3, 400, 1000, 100);
    assert_int_equal(w.count, 3);
    assert_near(w.from[0], 400, 0);
    assert_int_equal(spans_windows_show(&w, e[0]).last, 0);
    assert_near(w.from[2], 1300, 1e-9);
}

static void a_piece_as_long_as_the_reach_is_whole(void **state)
{
    const struct spans_extent e[] = { { -2e-14, 0.3 }, { 0.3, 1000.3 } };
    struct spans_windows w = spans_windows_make(*state, e, 2, 0, 1000, 100);
    assert_near(w.from[0], 0, 0); /* a lay's corner that rounding puts past the cut end is not */
    struct spans_shown shown = spans_windows_show(&w, e[1]);
    assert_int_equal(shown.first, shown.last);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(no_chain_is_better),
        room_arena_test(without_a_long_piece_greedy_windows_are_as_few_and_part_none),
        room_arena_test(a_long_piece_is_in_as_few_parts_as_can_be),
        room_arena_test(overlap_is_shared_out),
        room_arena_test(windows_lead_from_the_cut_end),
        room_arena_test(windows_go_on_from_where_the_light_is),
        room_arena_test(a_piece_as_long_as_the_reach_is_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
