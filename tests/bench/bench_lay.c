/* How full lays become, and how soon. Two threads; seconds are of processor time for each.
 *
 * lay.home15_first_ms: from nothing to the first lay of 15 garment pieces on cloth folded to 700 mm, tables included,
 * as a median of random jobs; processor time of both threads. lay.home15_2s_gap_pct: how much shorter the lay is after
 * 60 s than after 2 s, the median. Pieces and jobs are random, drawn here. lay.SET_5s_pct: density of the open sets
 * after 5 s, the median of five seeds; lay.SET_60s_pct after 60 s, where the variable LAY_60S is set. Only with a
 * folder of open data (the variable DATA of run.sh). */
#include "base/pool.h"
#include "bench/clock.h"
#include "bench/figure.h"
#include "packing/lay_set.h"
#include "packing/random.h"

#include <stdlib.h>

enum { THREADS = 2, JOBS = 3, SEEDS = 5, PIECES = 15, CHORDS = 10 };

static double process_seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static double between(uint64_t *random, double least, double most)
{
    return least + random_share(random) * (most - least);
}

/* A side from where the outline ends, bulging to the right by a share of its length (below zero: hollow). */
static void add_side(struct geometry_path *p, vec2 from, vec2 to, double bulge)
{
    vec2 right = vec2_right(vec2_sub(to, from));
    size_t chords = fabs(bulge) > 0.01 ? CHORDS : 1;
    for (size_t i = 0; i < chords; i++) {
        double t = (double)i / (double)chords;
        p->points[p->count++] = vec2_add(vec2_lerp(from, to, t), vec2_scale(right, bulge * 4 * t * (1 - t)));
    }
}

/* Like a bodice, a sleeve or a skirt: hem, slanting side, a hollow as of an armhole, a shoulder, a hollow as of a neck.
 */
static struct geometry_path draw_piece(struct arena *a, uint64_t *random)
{
    double length = between(random, 150, 650), width = between(random, 80, 320);
    vec2 corners[5] = { { 0, 0 },
                        { length * 0.97, between(random, -20, 20) },
                        { length * between(random, 0.9, 1), width * between(random, 0.4, 0.7) },
                        { length * between(random, 0.6, 0.75), width },
                        { 0, width * between(random, 0.8, 1.1) } };
    double bulges[5] = { between(random, -0.02, 0.02), between(random, -0.2, 0.05), between(random, -0.2, 0.2),
                         between(random, -0.03, 0.03), between(random, -0.03, 0.06) };
    struct geometry_path p = { base_arena_alloc(a, 5 * CHORDS, sizeof(vec2)), 0, true };
    for (size_t i = 0; i < 5; i++)
        add_side(&p, corners[i], corners[(i + 1) % 5], bulges[i]);
    return p;
}

static struct packing_problem draw_job(struct arena *a, uint64_t seed)
{
    struct packing_shape *shapes = base_arena_alloc(a, 2 * PIECES, sizeof *shapes);
    struct packing_item *items = base_arena_alloc(a, PIECES, sizeof *items);
    for (int i = 0; i < PIECES; i++) {
        struct geometry_path p = draw_piece(a, &seed), half = geometry_path_copy(a, p);
        for (size_t k = 0; k < half.count; k++)
            half.points[k] = vec2_scale(half.points[k], -1);
        shapes[2 * i] = (struct packing_shape){ .outline = p, .half_turn = 2 * i + 1 };
        shapes[2 * i + 1] = (struct packing_shape){ .outline = half, .half_turn = 2 * i };
        int *as = base_arena_alloc(a, 2, sizeof *as);
        as[0] = 2 * i;
        as[1] = 2 * i + 1;
        items[i] = (struct packing_item){ as, 2 };
    }
    return (struct packing_problem){
        .width = 700, .shapes = shapes, .shape_count = 2 * PIECES, .items = items, .item_count = PIECES
    };
}

static void search_until(struct packing_search *s, double begun, double seconds)
{
    while (packing_can_gain(s) && process_seconds() - begun < seconds * THREADS)
        packing_round(s, NULL);
}

static double median(double *values, size_t count)
{
    qsort(values, count, sizeof *values, by_size);
    return values[count / 2];
}

static void measure_home_jobs(struct base_pool *pool)
{
    double first[JOBS], gap[JOBS];
    for (uint64_t job = 0; job < JOBS; job++) {
        struct arena *a = base_arena_create();
        struct packing_problem p = draw_job(a, 100 + job);
        double begun = process_seconds();
        struct packing_search *s = packing_begin(&p, 1, pool);
        first[job] = 1e3 * (process_seconds() - begun);
        search_until(s, begun, 2);
        double soon = packing_best(s)->length;
        search_until(s, begun, 60);
        gap[job] = 100 * (soon / packing_best(s)->length - 1);
        packing_end(s);
        base_arena_destroy(a);
    }
    figure("lay.home15_first_ms", median(first, JOBS), "ms");
    figure("lay.home15_2s_gap_pct", median(gap, JOBS), "%");
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
        double begun = process_seconds();
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
    measure_home_jobs(pool);
    base_pool_destroy(pool);
    return 0;
}
