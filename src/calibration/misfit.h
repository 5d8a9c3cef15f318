/* How ill a reading goes with others, judged by what the others leave open at its place. Distributions: GSL's. */
#ifndef CALIBRATION_MISFIT_H
#define CALIBRATION_MISFIT_H

#include "calibration/fit.h"

struct calibration_misfit {
    double t;    /* vᵀ Q⁻¹ v, v its rows; chi-square of that many degrees of freedom when the reading is true */
    int rows;    /* 2, or 1 of a distance; 0: nothing else checks the reading, and t is 0 */
    double firm; /* the smallest part of a row that the other readings check, 0 to 1 */
};

/* Of a reading that took part in the fit: Q = I - A C Aᵀ. */
struct calibration_misfit calibration_misfit_within(const struct calibration_model *model,
                                                    const struct calibration_fit *fit,
                                                    const struct calibration_spread *spread, size_t index);

/* Of one that took no part: Q = I + A C Aᵀ. `model` holds it, and has the fit's terms. */
struct calibration_misfit calibration_misfit_beside(const struct calibration_model *model,
                                                    const struct calibration_fit *fit,
                                                    const struct calibration_spread *spread, size_t index);

/* How often chance alone makes as large a t of so many rows; and as large a drop of chi2 by leaving them out, whatever
 * the true sigma (of F, with what is left). */
double calibration_misfit_chance(double t, int rows);
double calibration_misfit_chance_any_sigma(double drop, int rows, double rest_chi2, int rest_freedom);

#endif
