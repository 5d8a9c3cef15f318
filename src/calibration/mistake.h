/* Whether readings can all be true together, and if not, which were probably misread. */
#ifndef CALIBRATION_MISTAKE_H
#define CALIBRATION_MISTAKE_H

#include "calibration/fit.h"

enum { CALIBRATION_MOST_ASIDE = 2 };

enum calibration_verdict {
    CALIBRATION_AGREE,
    CALIBRATION_ONE_WRONG,
    CALIBRATION_TWO_WRONG,
    CALIBRATION_EITHER_WRONG,  /* one of the two */
    CALIBRATION_SEVERAL_WRONG, /* the named one, but the others do not agree either */
    CALIBRATION_UNCLEAR        /* some are wrong, and too few others tell which */
};

struct calibration_mistakes {
    enum calibration_verdict verdict;
    size_t wrong[CALIBRATION_MOST_ASIDE];                /* indices of readings; as many as the verdict speaks of */
    struct calibration_fit rest[CALIBRATION_MOST_ASIDE]; /* of the others: of ONE and TWO the first, without all that
                                                            are wrong; of EITHER without the one or the other */
};

/* Looks for mistakes. `fit` is the fit of all readings, NULL when there was none; then AGREE leaves open why. `scratch`
 * holds what it needs on the way, and the rest's readings. */
struct calibration_mistakes calibration_mistakes_among(struct arena *scratch,
                                                       const struct calibration_readings *readings,
                                                       enum calibration_lens lens, const struct calibration_fit *fit);

/* The readings but for those; in `a`. */
struct calibration_readings calibration_readings_without(struct arena *a, const struct calibration_readings *readings,
                                                         const size_t *without, size_t count);

#endif
