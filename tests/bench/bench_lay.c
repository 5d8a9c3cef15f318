/* How full lays of the open sets become. Two threads; seconds are of processor time for each.
 *
 * lay.SET_5s_pct: density after 5 s, the median of five seeds; lay.SET_60s_pct after 60 s, where the variable LAY_60S
 * is set. Only with a folder of open data (the variable DATA of run.sh). */
#include "base/pool.h"
#include "bench/clock.h"
#include "bench/figure.h"
#include "packing/lay_set.h"

#include <stdlib.h>

enum { THREADS = 2, SEEDS = 5 };

static void search_until(struct packing_search *s, double begun, double seconds)
{
    while (packing_can_gain(s) && process_cpu_s() - begun < seconds * THREADS)
        packing_round(s, NULL);
}

static double median(double *values, size_t count)
{
    qsort(values, count, sizeof *values, by_size);
    return values[count / 2];
}

static void measure_set(struct base_pool *pool, const char *folder, const char *set, double seconds)
{
    char path[1024], name[64];
    double density[SEEDS];
    struct lay_set read;
    struct arena *a = base_arena_create();
    snprintf(path, sizeof path, "%s/lays/%s.json", folder, set);
    bool there = lay_set_read(a, path, &read);
    for (uint64_t seed = 0; seed < SEEDS && there; seed++) {
        double begun = process_cpu_s();
        struct packing_search *s = packing_begin(&read.problem, seed + 1, pool);
        search_until(s, begun, seconds);
        density[seed] = 100 * packing_best(s)->density;
        packing_end(s);
    }
    snprintf(name, sizeof name, "lay.%s_%.0fs_pct", set, seconds);
    if (there)
        figure(name, median(density, SEEDS), "%");
    base_arena_destroy(a);
}

int main(void)
{
    static const char *const sets[] = { "shirts", "trousers", "swim" };
    struct base_pool *pool = base_pool_create(THREADS);
    const char *data = getenv("DATA");
    for (size_t i = 0; data && *data && i < sizeof sets / sizeof *sets; i++) {
        measure_set(pool, data, sets[i], 5);
        if (getenv("LAY_60S"))
            measure_set(pool, data, sets[i], 60);
    }
    base_pool_destroy(pool);
    return 0;
}
