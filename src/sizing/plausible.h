/* Numbers that a grown person's measurement can hardly be, and the slip of the tape that would explain them. It only
 * asks: what is written counts until the person corrects it. */
#ifndef SIZING_PLAUSIBLE_H
#define SIZING_PLAUSIBLE_H

#include "base/err_list.h"
#include "sizing/body.h"

#include <stdbool.h>

/* Outside of this many times the least and the greatest measurement on record a number is questioned. Our own widening,
 * no source: the records leave out most small and most large people. */
#define SIZING_WIDER_BELOW (5.0 / 6.0)
#define SIZING_WIDER_ABOVE (4.0 / 3.0)

/* The least and the greatest on record, of grown women. */
struct sizing_range {
    const char *name;        /* as bodies and charts call it */
    const char *in_sentence; /* "a full bust" */
    double least_mm, greatest_mm;
};

/* The range of that measurement, or NULL when none is known. */
const struct sizing_range *sizing_range_find(const char *name);

struct sizing_question {
    const struct sizing_range *range; /* NULL: nothing to ask */
    bool small;                       /* too small rather than too large */
    const char *unit;                 /* the unit it may have been read in: "inches"; NULL: no such slip explains it */
    double meant_mm;                  /* what it would be then */
    double chart_mm;                  /* what the chart has in all sizes, where nothing is on record; else 0 */
};

/* What is to be asked of a number that was written in that unit. */
struct sizing_question sizing_question_of(const char *name, double mm, enum units_length written);

/* The same of one that nothing may be on record of and that is drawn for `chart_mm` in all sizes: then less than half of
 * that and more than twice as much is questioned (our own, no source), so that every slip of the unit is. In `a`. */
struct sizing_question sizing_question_beside(struct arena *a, const char *name, double chart_mm, double mm,
                                              enum units_length written);

/* Whether a measurement and another one of the same body, each likely by itself, are hardly one person's: an upper bust
 * of 98 cm with a full bust of 80. */
bool sizing_is_at_odds(const struct sizing_body *body, const char *name);

/* Asks about every such pair. */
void sizing_ask_at_odds(const struct sizing_body *body, struct err_list *errs);

/* Asks it, with the lengths in the unit that the body is written in. */
void sizing_question_ask(const struct sizing_measurement *m, enum units_length unit, struct sizing_question question,
                         struct err_list *errs);

#endif
