/* How a job's cloths lie on its table as she stands there: which way their length runs, and whether light falls on all
 * of them. */
#ifndef BENCH_TURNS_H
#define BENCH_TURNS_H

#include "app/progress.h"

struct bench;

/* What was found out last. */
struct bench_turns;

/* In `a`, but for what it frees itself. */
struct bench_turns *bench_turns_create(struct arena *a);

void bench_turns_destroy(struct bench_turns *turns);

/* By what lies there or, of a job that is finished and has a table, where it would be laid: quarter turns to the left
 * from her left to her right (app/progress.h). */
int bench_turn_of(const struct bench *b, enum pattern_cloth material);

/* Why its layout cannot be cut on that table, a sentence until the job is changed; NULL: it can, or there is
 * none. */
const char *bench_table_trouble(const struct bench *b, enum pattern_cloth material);

#endif
