/* Where the light's windows lie along the cloth. For this folder alone. */
#ifndef SPANS_WINDOWS_H
#define SPANS_WINDOWS_H

#include "base/arena.h"

#include <stddef.h>

/* Rounding of sums of lengths, mm: what lies out by less lies in. */
#define SPANS_LITTLE_MM 1e-6

struct spans_extent {
    double from, to; /* mm along the cloth */
};

struct spans_windows {
    const double *from; /* rising */
    size_t count;
    double reach; /* each shows from … from + reach */
};

/* The first of the windows that an extent is cut in, and the last: one and the same when one shows it whole, then the
 * first that does. */
struct spans_shown {
    size_t first, last;
};

/* Windows for at least one extent, in `a`: the first starts at `begin`, or before it where an extent does, neighbours overlap, and all that is to be
 * cut is shown. The fewest parts, then the fewest windows; then as much overlap as they leave, shared out evenly.
 * reach > overlap >= 0. */
struct spans_windows spans_windows_make(struct arena *a, const struct spans_extent *extents, size_t count, double begin,
                                        double reach, double overlap);

struct spans_shown spans_windows_show(const struct spans_windows *w, struct spans_extent extent);

#endif
