/* Jobs as they are laid at home: about 15 random pieces in a strip, and 24 pieces of our own patterns on cloth. */
#ifndef TESTS_BENCH_HOME_JOBS_H
#define TESTS_BENCH_HOME_JOBS_H

#include "cloth/cloth.h"
#include "lay/lay.h"
#include "packing/packing.h"

struct home_job {
    const char *name; /* of the pattern's file; of random pieces what they are called here */
    double width_mm;
    double shortest_mm; /* lay that is known */
    uint64_t drawn;     /* random pieces: seed that they are drawn from; 0: they are a pattern's */
    int view;           /* of the pattern, at its size `size` */
    double size;
    enum cloth_spread_kind spread;
    bool one_way;
};

enum { HOME_RANDOM_JOBS = 8, HOME_PATTERN_JOBS = 6 };

extern const struct home_job home_random_jobs[HOME_RANDOM_JOBS];
extern const struct home_job home_pattern_jobs[HOME_PATTERN_JOBS];

/* One or the other. */
struct home_search {
    struct packing_search *packing;
    struct lay_search *lay;
};

/* Everything lives in `a`; *begun_s: processor time when the job was ready. False, with a sentence on stderr, when
 * there is no such job. */
bool home_begin(struct arena *a, const struct home_job *job, uint64_t seed, struct base_pool *pool,
                struct home_search *out, double *begun_s);
void home_end(struct home_search *s);

void home_round(struct home_search *s);
bool home_can_gain(const struct home_search *s);
double home_length(const struct home_search *s);

#endif
