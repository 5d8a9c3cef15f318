/* The map that fits readings best, found without asking whether they make sense together: that is solve.h's. */
#ifndef CALIBRATION_FIT_H
#define CALIBRATION_FIT_H

#include "calibration/solve.h"

struct calibration_fit {
    struct geometry_map map;
    double chi2; /* weighted sum of squares, pseudo-readings included */
};

/* How many numbers the readings (and pseudo-readings) give beyond the terms they fix; the lens terms and their
 * pseudo-readings balance. From four readings on. */
int calibration_fit_freedom(size_t readings);

/* Fits at least four readings. False when they leave more than one map or the way to it breaks off; the map of a true
 * answer may still not be valid. `scratch` holds what it needs on the way. */
bool calibration_fit(struct arena *scratch, const struct calibration_readings *readings, enum calibration_lens lens,
                     struct calibration_fit *out);

#endif
