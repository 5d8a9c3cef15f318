/* Whether readings fix the table at all, and if not, which one more would do most about it. */
#ifndef CALIBRATION_OPEN_H
#define CALIBRATION_OPEN_H

#include "base/err_list.h"
#include "calibration/doubt.h"
#include "calibration/fit.h"

/* False, with a sentence that names a reading to add, when the fit's readings leave more than one map, or one that a
 * reading error moves a hundred times as far within the crosses. */
bool calibration_is_fixed(const char *file, const struct calibration_model *model, const struct calibration_fit *fit,
                          const struct calibration_spread *spread, const struct calibration_doubt *doubt,
                          struct err_list *errs);

/* The same sentence where no fit was found; always told. `scratch` holds what it needs on the way. */
void calibration_tell_open(struct arena *scratch, const char *file, const struct calibration_model *model,
                           struct err_list *errs);

#endif
