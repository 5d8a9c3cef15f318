/* Body measurements against a size chart: which size, which cup group, and why. */
#ifndef SIZING_CHOOSE_H
#define SIZING_CHOOSE_H

#include "pattern/pattern.h"
#include "sizing/body.h"
#include "sizing/plausible.h"
#include "sizing/row.h"

#include <stdbool.h>

/* Where a measurement that decides something comes from. */
enum sizing_source {
    SIZING_MISSING,
    SIZING_MEASURED,
    SIZING_FROM_BUST,       /* estimated: the upper bust that usually goes with the full bust */
    SIZING_FROM_UPPER_BUST, /* estimated: the full bust that usually goes with the upper bust */
    SIZING_FROM_CHART       /* estimated: what the chart has at the size */
};

struct sizing_known {
    enum sizing_source source;
    double mm; /* 0 when missing */
};

/* Whether it is known, but not by measuring. */
bool sizing_is_estimate(struct sizing_known known);

/* One measurement of the body that the pattern is drawn for, in the body's order; a bust that had to be estimated is
 * the last. The bust of a pattern in cup groups is compared with the group that is taken, everything else with the
 * chart. */
struct sizing_reason {
    const char *name;
    double body_mm;
    bool estimated;     /* not measured; it picks no size by itself, so `nearest` is the chosen one */
    double chart_mm;    /* of the chosen size */
    double finished_mm; /* of the sewn garment at the chosen size; 0: the pattern does not give it */
    bool has_intended;
    double intended_mm; /* the ease that the pattern means at the chosen size; below zero: closer than the body */
    double position;    /* where the body lies along this row, by linear interpolation; clamped to the chart */
    size_t nearest;     /* the size this row alone would pick */
    size_t other;       /* its rival across a middle that is close, or equally near; otherwise `nearest` */
    bool below, above;  /* outside the chart */
    struct sizing_question question; /* only of a number outside the chart, or of a row without sizes */
    bool at_odds;                    /* with another of the body's measurements */
};

struct sizing_choice {
    double position;            /* the chosen size; 3 is the fourth, 3.4 lies on the way to the fifth */
    size_t size;                /* the whole one below or at it */
    bool size_named, cup_named; /* by the person */
    const struct sizing_choice
        *other; /* the same for the rival size, when the measurement lies between the two; NULL */
    const struct sizing_choice
        *between;      /* the same for the place between the two where the measurement lies, to a tenth of the step */
    bool tie;          /* the rival is equally near */
    bool below, above; /* the measurement lies outside the chart, by more than half a step below or half a step above */
    struct sizing_known main; /* the measurement that picks the size */

    int cup_group;             /* PATTERN_NONE when the pattern has none */
    int cup_tie;               /* the other group equally near, or cup_group */
    bool cup_below, cup_above; /* the measured full bust is smaller or fuller than any cup group is for */
    struct sizing_known bust;  /* the full bust that picks the cup group */
    double cup_chart_mm;       /* full bust that the group is drawn for at the size */

    const struct sizing_reason *reasons;
    size_t reason_count;
};

/* The size nearest by the pattern's main measurement, of two equally near the larger (it can be taken in), and at
 * that size the cup group nearest by full bust ("bust").
 *
 * When the full bust is missing, the group follows from an estimate: the upper bust with the difference that the chart
 * has between the two at that size (2 in where it has not), or without an upper bust the chart's bust. When the upper
 * bust is missing and picks the size, it is estimated from the full bust the same way round. Both are warned of. Any
 * other main measurement missing is a fault, as is nothing to estimate from.
 *
 * Warnings: estimates, measurements outside the chart and outside every cup group, implausible ones, and ones the
 * pattern is not drawn for. False on a fault. What the choice points at lives in `a`. The pattern has a chart. */
bool sizing_choose(struct arena *a, const struct pattern *pattern, const struct sizing_body *body,
                   struct sizing_choice *out, struct err_list *errs);

/* The same with a place of the size chart, a cup group or both that the person names herself (PATTERN_NONE: as above).
 * What is named needs no measurement; what the pattern has no figures for (a size without a chart, a cup group without
 * a bust) is named. */
bool sizing_choose_named(struct arena *a, const struct pattern *pattern, const struct sizing_body *body,
                         double position, int cup_group, struct sizing_choice *out, struct err_list *errs);

/* Whether the size or the cup group rests on a measurement that is questioned. */
bool sizing_is_questioned(const struct pattern *pattern, const struct sizing_choice *choice);

#endif
