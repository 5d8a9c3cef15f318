/* How soon lays of home jobs are near their best. Two threads; seconds are of processor time for each.
 *
 * lay.home15_first_ms: from nothing to the first lay of 15 garment pieces, tables included, the median of jobs and
 * seeds; processor time of both threads. lay.home15_2s_gap_pct, lay.home15_2s_worst_pct: how much longer the lay is
 * after 2 s than the shortest that is known, the median and the worst. Pieces are random, drawn here.
 * lay.home24_*_5s_*: the same after 5 s of 24 pieces of our own patterns, on cloth as it is spread.
 *
 * The shortest known are kept in the jobs' rows: of some ten searches for each, of 2 to 10 s, with several seeds and
 * rules. With the variable LAY_60S set each first seed goes on for 60 s; what is shorter than its row is printed, to be
 * put there. */
#include "base/pool.h"
#include "bench/clock.h"
#include "bench/figure.h"
#include "bench/home_jobs.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { THREADS = 2, SEEDS = 3, MOST = 64 };

/* What was measured of jobs of one kind. */
struct figures {
    double first_ms[MOST], gap_pct[MOST];
    size_t count;
};

static void search_until(struct home_search *s, double begun_s, double seconds)
{
    while (home_can_gain(s) && process_cpu_s() - begun_s < seconds * THREADS)
        home_round(s);
}

static void measure_run(const struct home_job *job, uint64_t seed, double seconds, struct base_pool *pool,
                        struct figures *f)
{
    struct arena *a = base_arena_create();
    struct home_search s;
    double best = job->shortest_mm, begun = 0;
    if (!home_begin(a, job, seed, pool, &s, &begun))
        exit(1);
    f->first_ms[f->count] = 1e3 * (process_cpu_s() - begun);
    search_until(&s, begun, seconds);
    double soon = home_length(&s);
    if (getenv("LAY_60S") && seed == 1)
        search_until(&s, begun, 60);
    double last = home_length(&s);
    if (last < best - 0.005)
        fprintf(stderr, "%s on %g: %.2f is shorter than the row's %.2f\n", job->name, job->width_mm, last, best);
    f->gap_pct[f->count++] = 100 * (soon / fmin(best, last) - 1);
    home_end(&s);
    base_arena_destroy(a);
}

static void tell(const char *jobs, const char *what, double *values, size_t count, const char *unit)
{
    char name[64];
    qsort(values, count, sizeof *values, by_size);
    snprintf(name, sizeof name, "lay.%s_%s_%s", jobs, what, unit);
    figure(name, values[count / 2], *unit == 'p' ? "%" : unit);
}

static void measure(const char *jobs, const struct home_job *job, size_t count, double seconds, struct base_pool *pool)
{
    struct figures f = { .count = 0 };
    char what[32];
    for (size_t i = 0; i < count; i++)
        for (uint64_t seed = 1; seed <= SEEDS && f.count < MOST; seed++)
            measure_run(&job[i], seed, seconds, pool, &f);
    tell(jobs, "first", f.first_ms, f.count, "ms");
    snprintf(what, sizeof what, "%.0fs_gap", seconds);
    tell(jobs, what, f.gap_pct, f.count, "pct");
    snprintf(what, sizeof what, "%.0fs_worst", seconds);
    tell(jobs, what, &f.gap_pct[f.count - 1], 1, "pct");
}

int main(void)
{
    struct base_pool *pool = base_pool_create(THREADS);
    measure("home15", home_random_jobs, HOME_RANDOM_JOBS, 2, pool);
    measure("home24", home_pattern_jobs, HOME_PATTERN_JOBS, 5, pool);
    base_pool_destroy(pool);
    return 0;
}
