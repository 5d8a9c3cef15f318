/* How she likes the bench, among the settings. */
#ifndef CLI_MANNER_H
#define CLI_MANNER_H

#include "bench/bench.h"
#include "cli/run.h"

struct bench_manner cli_manner(const struct cli_run *run);

/* Keeps it, and speaks its language from now on; whether that is another one. */
bool cli_remember_manner(struct cli_run *run, struct bench_manner manner);

#endif
