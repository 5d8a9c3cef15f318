/* What people measure, and how: the words of the measurements' page. */
#ifndef BENCH_TAKEN_H
#define BENCH_TAKEN_H

#include "base/arena.h"
#include "pattern/pattern.h"

struct bench_measure {
    const char *name;        /* as bodies and charts call it */
    const char *label;       /* as the page does */
    double at, to;           /* on the dress form (bench/figure.h); at < 0: not to be shown there */
    const char *where, *how; /* two short lines */
};

/* The row of that name, or NULL: a designer may ask for anything. */
const struct bench_measure *bench_measure_find(const char *name);

/* "Shoulder to waist" of "shoulder to waist", or as the pattern (NULL: none) words it; in `a`. */
const char *bench_measure_label(struct arena *a, const struct pattern *pattern, const char *name);

/* The same within a sentence: "full bust". */
const char *bench_measure_short(struct arena *a, const struct pattern *pattern, const char *name);

#endif
