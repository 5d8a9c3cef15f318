/* The person's own table set-up: where it is kept, and one that was left before its end. */
#ifndef CLI_OWN_TABLE_H
#define CLI_OWN_TABLE_H

#include "bench/bench.h"

/* Where the table set-up made last is kept, there or not; NULL: nothing is. In `a`. */
const char *cli_own_table(struct arena *a);

/* How many crosses of one that is begun are read, of how many; none: nothing is begun. */
void cli_own_table_begun(struct bench_lamp *lamp);

#endif
