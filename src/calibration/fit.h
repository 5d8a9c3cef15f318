/* The map that fits readings best, found without asking whether they make sense together: that is solve.h's. Least
 * squares by GSL's trust-region Levenberg-Marquardt, with what it leaves in doubt. */
#ifndef CALIBRATION_FIT_H
#define CALIBRATION_FIT_H

#include "calibration/model.h"

struct calibration_fit {
    struct calibration_unknowns at;
    double chi2; /* weighted sum of squares, pseudo-readings included */
    int freedom; /* how many rows there are beyond the terms they fix */
};

/* Fits the model's readings and leaves the weights of nudges as at the answer. False when nothing gives a beginning or
 * the way from it breaks off; the map of a true answer may still not be valid, and may be one of many
 * (calibration_fit_spread tells). Positions of one place, and nothing else, have to fix the map well enough for the
 * direct transform. Otherwise, where there is no such beginning, it begins at `near`, or (NULL) at the plainest
 * picture. `scratch` holds what it needs on the way. */
bool calibration_fit(struct arena *scratch, struct calibration_model *model, const struct calibration_unknowns *near,
                     struct calibration_fit *out);

/* What a fit leaves in doubt. */
struct calibration_spread {
    size_t terms;
    double covariance[CALIBRATION_MOST_TERMS][CALIBRATION_MOST_TERMS]; /* of the packed terms */
    double firmness;                        /* smallest singular value of the rows over the largest; 0: many maps fit */
    double weakest[CALIBRATION_MOST_TERMS]; /* the packed terms that may move together most easily, length 1 */
};

/* False when rounding leaves nothing to tell. */
bool calibration_fit_spread(struct arena *scratch, const struct calibration_model *model,
                            const struct calibration_fit *fit, struct calibration_spread *out);

#endif
