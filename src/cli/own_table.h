/* A table set-up that was left before its end. */
#ifndef CLI_BEGUN_H
#define CLI_BEGUN_H

#include "bench/bench.h"

/* The table set-up made last, in her folder of data. */
#define CLI_OWN_TABLE "table.json"

/* How many crosses of it are read, of how many; none: nothing is begun. */
void cli_read_begun(struct bench_lamp *lamp);

#endif
