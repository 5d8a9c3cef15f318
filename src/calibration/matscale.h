/* How far a mat's rulings are off, by a tape: positions say what the rulings call a place, distances how far it is. */
#ifndef CALIBRATION_MATSCALE_H
#define CALIBRATION_MATSCALE_H

#include "calibration/model.h"

struct calibration_matscale {
    double along, away;             /* true length over ruled length, less 1: 0.001 is a mm in the metre too long */
    double sigma_along, sigma_away; /* standard deviations */
};

/* False when the readings do not tell: without distances or positions, or to worse than 5 mm in the metre. `scratch`
 * holds what it needs on the way. */
bool calibration_matscale(struct arena *scratch, const struct calibration_readings *readings,
                          enum calibration_lens lens, struct calibration_matscale *out);

/* Whether it is more than chance (3 sigmas) and more than the tape may be off itself: 0.5 mm in a metre, what one of
 * class II is allowed (0.3 mm + 0.2 mm a metre: UK SI 2016/1153, Schedule 1I). */
bool calibration_matscale_is_off(const struct calibration_matscale *scale);

/* The readings as they would be on true rulings, so that the table follows the tape; lives in `a`. */
struct calibration_readings calibration_matscale_follow(struct arena *a, const struct calibration_readings *readings,
                                                        const struct calibration_matscale *scale);

#endif
