/* Body measurements against a size chart: which size, which cup group, and why. */
#ifndef SIZING_CHOOSE_H
#define SIZING_CHOOSE_H

#include "pattern/pattern.h"
#include "sizing/body.h"

#include <stdbool.h>

/* Two sizes closer together than this to the measurement are a tie: a tape is read to the nearest 0.5 cm (common
 * practice, no source), and a tenth of that is as good as equal. */
#define SIZING_TIE_MM 0.5

/* One chart row that the body has a measurement for. */
struct sizing_reason {
    const char *name;
    double body_mm;
    double chart_mm;   /* of the chosen size */
    double position;   /* where the body lies along this row, by linear interpolation; clamped to the chart */
    size_t nearest;    /* the size this row alone would pick */
    bool below, above; /* outside the chart */
};

struct sizing_choice {
    double position;   /* the chosen size, a whole number */
    size_t size, tie;  /* tie: the other size equally near, or the same as size */
    bool below, above; /* the measurement lies outside the chart, by more than half a step below or half a step above */
    int cup_group,
        cup_tie; /* PATTERN_NONE when the pattern has none; cup_tie: the other group equally near, or cup_group */
    double cup_body_mm, cup_chart_mm; /* full bust of the body and of the group at the size */
    const struct sizing_reason *reasons;
    size_t reason_count;
};

/* The size nearest by the pattern's main measurement, of two equally near the larger (it can be taken in), and at
 * that size the cup group nearest by full bust ("bust"). The main measurement missing is a fault, a missing bust for a
 * pattern in cup groups too. Measurements outside the chart and ones the chart does not have are warnings. False on a
 * fault. The reasons live in `a`. */
bool sizing_choose(struct arena *a, const struct pattern *pattern, const struct sizing_body *body,
                   struct sizing_choice *out, struct err_list *errs);

/* The same with a size, a cup group or both that the person names herself (PATTERN_NONE: as above). What is named needs
 * no measurement. */
bool sizing_choose_named(struct arena *a, const struct pattern *pattern, const struct sizing_body *body, int size,
                         int cup_group, struct sizing_choice *out, struct err_list *errs);

#endif
