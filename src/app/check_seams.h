/* A seam walked in every size, and how that is shown. Not for other folders. */
#ifndef APP_CHECK_SEAMS_H
#define APP_CHECK_SEAMS_H

#include "app/check_state.h"
#include "fit/seam.h"

struct check_seam {
    const struct pattern_seam *seam;
    int cup_group;                /* in which it was walked, or PATTERN_NONE: in any */
    const struct fit_seam *sizes; /* one for each size; without intervals where it cannot be measured */
    size_t worst_size;
    double worst_mm; /* below zero: there is no size in which it can be measured */
};

/* The size whose lengths are shown: the middle one, the smaller of two. */
size_t check_shown_size(const struct pattern *p);

/* An interval at one size; past the last interval the whole seam. */
struct fit_interval check_interval_at(const struct check_seam *s, size_t size, size_t interval);

/* The size in which an interval is most off. */
size_t check_worst_size(const struct check_seam *s, size_t size_count, size_t interval);

/* The lines of all seams under their heading; the same into the list of a JSON object. */
void check_print_seams(struct check_pattern *k, const struct check_seam *seams, size_t count);
void check_write_seams(const struct check_pattern *k, const struct check_seam *seams, size_t count);

#endif
