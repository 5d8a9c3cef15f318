/* calibration.*: how true calibrations on the virtual table are, and what mistakes come to; calibration/campaign.h says
 * of what. Coverage is over nine to twenty typed, thirteen nudged readings and four places of five, pooled; mistakes
 * are over nine, twelve and thirteen, alarms over these and twenty. calibration.solve_ms: the largest, of
 * twenty set-ups, of the processor times of a solve of thirteen readings, two of them misread, so that all pairs are
 * left out in turn. */
#include "bench/figure.h"
#include "calibration/campaign.h"

#include <math.h>
#include <time.h>

enum { SEEDS = 1000, TIMED = 20 };

static void figures_of_truth(struct arena *a)
{
    struct campaign_tally walks[CAMPAIGN_WALKS];
    double covered = 0, worst = 100, squares = 0, bound = 0;
    for (int w = 0; w < CAMPAIGN_WALKS; w++) {
        walks[w] = campaign_truth(a, (enum campaign_walk)w, SEEDS);
        covered += campaign_coverage_pct(&walks[w]) / CAMPAIGN_WALKS;
        worst = fmin(worst, campaign_worst_coverage_pct(&walks[w]));
        squares += walks[w].squares;
        bound += walks[w].bound;
    }
    struct campaign_tally *nudged = &walks[CAMPAIGN_NUDGED], *four = &walks[CAMPAIGN_FOUR_PLACES];
    figure("calibration.coverage_mean_pct", covered, "%");
    figure("calibration.coverage_worst_pct", worst, "%");
    figure("calibration.rms_over_bound", sqrt(squares / bound), "ratio");
    figure("calibration.max95_13_mm", campaign_95(nudged->largest_mm, nudged->tables), "mm");
    figure("calibration.rms_13_mm", sqrt(nudged->squares / nudged->tables), "mm");
    figure("calibration.four_places_max95_mm", campaign_95(four->largest_moved_mm, four->tables), "mm");
}

static void figures_of_mistakes(void)
{
    struct campaign_mistakes one = { .made = 0 };
    int clean = 0, alarms = 0;
    for (int w = CAMPAIGN_NINE; w <= CAMPAIGN_TWENTY; w++) {
        struct campaign_mistakes m = campaign_mistakes((enum campaign_walk)w, SEEDS, 0, CALIBRATION_TYPED_SIGMA_MM);
        clean += m.clean;
        alarms += m.alarms;
        if (w == CAMPAIGN_TWENTY)
            continue;
        m = campaign_mistakes((enum campaign_walk)w, SEEDS, 1, CALIBRATION_TYPED_SIGMA_MM);
        one.made += m.made;
        one.found += m.found;
        one.named += m.named;
    }
    figure("calibration.mistakes_found_pct", 100.0 * one.found / one.made, "%");
    figure("calibration.mistakes_named_pct", 100.0 * one.named / one.made, "%");
    figure("calibration.false_alarm_pct", 100.0 * alarms / clean, "%");
}

static double solve_ms(int seed)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct vt_noise noise = { (uint64_t)seed };
    struct vt_setup setup = campaign_setup(&noise);
    struct calibration_readings r = campaign_read(a, &setup, CAMPAIGN_THIRTEEN, CALIBRATION_TYPED_SIGMA_MM, &noise);
    struct calibration_solution s;
    r.items[2].at.x += 25.4;
    r.items[7].at.y -= 10;
    clock_t before = clock();
    calibration_solve_without_mistakes(a, NULL, &r, CALIBRATION_LENS_WEAK, &s, errs);
    double ms = 1e3 * (double)(clock() - before) / CLOCKS_PER_SEC;
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ms;
}

int main(void)
{
    struct arena *a = base_arena_create();
    double most_ms = 0;
    figures_of_truth(a);
    figures_of_mistakes();
    for (int seed = 1; seed <= TIMED; seed++)
        most_ms = fmax(most_ms, solve_ms(seed));
    figure("calibration.solve_ms", most_ms, "ms");
    base_arena_destroy(a);
    return 0;
}
