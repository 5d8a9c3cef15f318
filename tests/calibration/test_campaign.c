/* What the calibration promises, over many drawn set-ups of the virtual table: test_calibration_campaign [SEEDS]. */
#include "calibration/campaign.h"

#include "support/cmocka_all.h"

#include <stdlib.h>

enum { SHORT_SEEDS = 150 };

/* Within this many standard deviations of the promise a short campaign may stray by chance. */
#define STRAY 4

static int open_campaign(void **state)
{
    *state = base_arena_create();
    return 0;
}

static int close_campaign(void **state)
{
    base_arena_destroy(*state);
    return 0;
}

static int seeds_to_run = SHORT_SEEDS;

/* How far a share of `count` may stray from `pct` by chance, in per cent. */
static double stray_pct(double pct, int count)
{
    return STRAY * sqrt(pct * (100 - pct) / count);
}

static void assert_at_least(const char *what, double got, double want, double stray)
{
    print_message("%s: %.2f, promised at least %.2f\n", what, got, want);
    assert_true(got >= want - stray);
}

static void assert_at_most(const char *what, double got, double want, double stray)
{
    print_message("%s: %.3f, promised at most %.3f\n", what, got, want);
    assert_true(got <= want + stray);
}

/* A share of calibrations in per cent with its 95 % interval (E. B. Wilson, JASA 22, 1927). */
static double share_pct(const char *what, int some, int all)
{
    double z = 1.96, n = all, p = some / n, width = z * sqrt(p * (1 - p) / n + z * z / (4 * n * n));
    double low = (p + z * z / (2 * n) - width) / (1 + z * z / n),
           high = (p + z * z / (2 * n) + width) / (1 + z * z / n);
    print_message("%s: %d of %d, %.2f %% (%.2f to %.2f)\n", what, some, all, 100 * p, 100 * low, 100 * high);
    return 100 * p;
}

static void assert_share_at_least(const char *what, int some, int all, double want_pct)
{
    assert_at_least("  %", share_pct(what, some, all), want_pct, stray_pct(want_pct, all));
}

static void assert_share_at_most(const char *what, int some, int all, double want_pct)
{
    assert_at_most("  %", share_pct(what, some, all), want_pct, stray_pct(want_pct, all));
}

/* Coverage: 93 to 97 %, at the worst place 90; the circles that are shown cover 95; errors near the bound of Cramer and
 * Rao. Places of one table err together, so a table counts as four at most. */
static void the_true_place_lies_within_its_doubt(void **state)
{
    static const char *const names[CAMPAIGN_WALKS] = {
        "nine", "twelve", "thirteen", "twenty", "nudged", "four places"
    };
    for (int walk = 0; walk < CAMPAIGN_WALKS; walk++) {
        struct campaign_tally t = campaign_truth(*state, (enum campaign_walk)walk, seeds_to_run);
        double stray = stray_pct(95, t.tables), pct = campaign_coverage_pct(&t);
        print_message("%s readings, %d tables, coverage give or take %.2f %%\n", names[walk], t.tables,
                      0.5 * stray / STRAY * 1.96);
        assert_share_at_most("refused", t.refused, seeds_to_run, 2.5);
        assert_at_least("coverage, %", pct, 93, 0.5 * stray);
        assert_at_most("coverage, %", pct, 97, 0.5 * stray);
        assert_at_least("coverage of the circles, %", campaign_circled_pct(&t), 95, 0.5 * stray);
        assert_at_least("coverage at the worst place, %", campaign_worst_coverage_pct(&t), 90, stray);
        assert_at_most("error over bound", sqrt(t.squares / t.bound), 1.10, STRAY * 0.25 / sqrt(t.tables));
    }
}

static void thirteen_nudged_readings_are_true_to_half_a_millimetre(void **state)
{
    struct campaign_tally t = campaign_truth(*state, CAMPAIGN_NUDGED, seeds_to_run);
    assert_at_most("largest error in 95 of 100 tables, mm", campaign_95(t.largest_mm, t.tables + t.refused), 0.53,
                   STRAY * 0.25 / sqrt(t.tables));
    assert_at_most("error, mm rms", sqrt(t.squares / t.tables), 0.20, STRAY * 0.05 / sqrt(t.tables));
}

/* But for how the whole lies, four places of a smaller mat are as good as the full one on average. */
static void four_places_of_a_small_mat_are_as_true_as_a_large_one(void **state)
{
    struct campaign_tally four = campaign_truth(*state, CAMPAIGN_FOUR_PLACES, seeds_to_run);
    struct campaign_tally one = campaign_truth(*state, CAMPAIGN_NUDGED, seeds_to_run);
    double rms_four = sqrt(four.squares_moved / four.tables), rms_one = sqrt(one.squares_moved / one.tables);
    print_message("moved: %.3f mm rms; of one place %.3f, %.3f mm in 95 of 100\n", rms_four, rms_one,
                  campaign_95(one.largest_moved_mm, one.tables + one.refused));
    assert_at_most("error over that of one place", rms_four / rms_one, 1.10, STRAY * 0.35 / sqrt(four.tables));
    assert_at_most("largest error in 95 of 100, mm", campaign_95(four.largest_moved_mm, four.tables + four.refused),
                   0.55, STRAY * 0.25 / sqrt(four.tables));
}

static void clean_readings_are_left_alone(void **state)
{
    (void)state;
    for (int walk = CAMPAIGN_NINE; walk <= CAMPAIGN_TWENTY; walk++) {
        struct campaign_mistakes m = campaign_mistakes((enum campaign_walk)walk, seeds_to_run, 0, 0.3);
        struct campaign_mistakes wide = campaign_mistakes((enum campaign_walk)walk, seeds_to_run, 0, 0.5);
        assert_share_at_most("alarms", m.alarms, m.clean, 2.5);
        assert_share_at_most("alarms at a true sigma of 0.5 mm", wide.alarms, wide.clean, 8);
    }
}

static void mistakes_are_found_and_what_was_meant_is_named(void **state)
{
    (void)state;
    struct campaign_mistakes all = { .made = 0 }, two = { .made = 0 };
    for (int walk = CAMPAIGN_NINE; walk <= CAMPAIGN_THIRTEEN; walk++) {
        struct campaign_mistakes m = campaign_mistakes((enum campaign_walk)walk, seeds_to_run, 1, 0.3);
        all.made += m.made;
        all.found += m.found;
        all.named += m.named;
        m = campaign_mistakes((enum campaign_walk)walk, seeds_to_run / 4 + 1, 2, 0.3);
        two.made += m.made;
        two.found += m.found;
    }
    assert_share_at_least("found", all.found, all.made, 99);
    assert_share_at_least("rightly named", all.named, all.made, 95);
    assert_share_at_least("two at once found", two.found, two.made, 95);
}

/* By 3.7 sigmas each of ten true readings is questioned once in a thousand times, and so one walk in a hundred. What is
 * missed here the solve still finds. */
static void readings_are_questioned_as_they_are_made(void **state)
{
    (void)state;
    struct campaign_questions q = campaign_questions(CAMPAIGN_THIRTEEN, seeds_to_run);
    assert_share_at_most("walks with a true reading questioned", q.asked, q.walks, 2.5);
    assert_share_at_least("misread from the sixth on, questioned at once", q.found, q.made, 95);
    assert_share_at_least("rightly named", q.named, q.made, 90);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_true_place_lies_within_its_doubt, open_campaign, close_campaign),
        cmocka_unit_test_setup_teardown(thirteen_nudged_readings_are_true_to_half_a_millimetre, open_campaign,
                                        close_campaign),
        cmocka_unit_test_setup_teardown(four_places_of_a_small_mat_are_as_true_as_a_large_one, open_campaign,
                                        close_campaign),
        cmocka_unit_test_setup_teardown(clean_readings_are_left_alone, open_campaign, close_campaign),
        cmocka_unit_test_setup_teardown(mistakes_are_found_and_what_was_meant_is_named, open_campaign, close_campaign),
        cmocka_unit_test_setup_teardown(readings_are_questioned_as_they_are_made, open_campaign, close_campaign),
    };
    if (argc > 1)
        seeds_to_run = atoi(argv[1]);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
