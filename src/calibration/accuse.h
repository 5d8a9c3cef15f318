/* Sentences about readings that do not fit the others. */
#ifndef CALIBRATION_ACCUSE_H
#define CALIBRATION_ACCUSE_H

#include "base/err_list.h"
#include "calibration/mistake.h"
#include "calibration/repair.h"

/* Faults: why readings with mistakes are refused. `repairs` are of the one or two wrong ones, as the verdict says. */
void calibration_accuse(const char *file, const struct calibration_readings *readings, enum calibration_verdict verdict,
                        const struct calibration_repair *repairs, struct err_list *errs);

/* A warning: that a reading was set aside. */
void calibration_tell_aside(const char *file, const struct calibration_readings *readings,
                            const struct calibration_repair *repair, struct err_list *errs);

#endif
