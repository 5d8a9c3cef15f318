/* Whether readings can all be true together, and if not, which was probably misread and how. */
#ifndef CALIBRATION_MISTAKE_H
#define CALIBRATION_MISTAKE_H

#include "calibration/fit.h"

/* False, with a sentence naming the reading that fits worst, when the readings contradict each other. `fit` is the fit
 * of all of them; NULL when there was none, and then true leaves open why. Four readings contradict nothing. `scratch`
 * holds what it needs on the way. */
bool calibration_agree(struct arena *scratch, const char *file, const struct calibration_readings *readings,
                       enum calibration_lens lens, const struct calibration_fit *fit, struct err_list *errs);

#endif
