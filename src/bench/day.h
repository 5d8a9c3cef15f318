/* A day as it is written in a sentence. */
#ifndef BENCH_DAY_H
#define BENCH_DAY_H

#include "base/arena.h"

/* "30 November 2026" of "2026-11-30", with what follows the day kept ("30 November 2026 18:05"); any other text as it
 * is. In `a`, or `iso` itself. */
const char *bench_day(struct arena *a, const char *iso);

/* The same as short as a column wants it: "30 Nov 2026". */
const char *bench_day_short(struct arena *a, const char *iso);

#endif
