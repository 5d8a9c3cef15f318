/* One figure a line, as tests/bench/run.sh passes them on: figure NAME VALUE UNIT. */
#ifndef TESTS_BENCH_FIGURE_H
#define TESTS_BENCH_FIGURE_H

#include <stdio.h>

static inline void figure(const char *name, double value, const char *unit)
{
    printf("figure %s %.6g %s\n", name, value, unit);
}

#endif
