#include "calibration/misfit.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* Checked by less than this, a reading says nothing about itself. */
#define LEAST_FIRM 1e-6

/* vᵀ Q⁻¹ v with Q = I + sign A C Aᵀ. */
static struct calibration_misfit misfit(const struct calibration_model *model, const struct calibration_fit *fit,
                                        const struct calibration_spread *spread, size_t index, double sign)
{
    double v[2], a[2][CALIBRATION_MOST_TERMS], q[2][2] = { { 1, 0 }, { 0, 1 } };
    size_t rows = calibration_model_reading(model, &fit->at, index, v, a);
    for (size_t r = 0; r < rows; r++)
        for (size_t c = 0; c < rows; c++)
            for (size_t i = 0; i < spread->terms; i++)
                for (size_t j = 0; j < spread->terms; j++)
                    q[r][c] += sign * a[r][i] * spread->covariance[i][j] * a[c][j];
    struct calibration_misfit m = { .rows = (int)rows };
    double det = q[0][0] * q[1][1] - q[0][1] * q[1][0], half = 0.5 * (q[0][0] - q[1][1]);
    m.firm = rows == 1 ? q[0][0] : 0.5 * (q[0][0] + q[1][1]) - sqrt(half * half + q[0][1] * q[1][0]);
    if (!(m.firm > LEAST_FIRM))
        return (struct calibration_misfit){ 0, 0, 0 };
    if (rows == 1)
        m.t = v[0] * v[0] / q[0][0];
    else
        m.t = (v[0] * v[0] * q[1][1] - v[0] * v[1] * (q[0][1] + q[1][0]) + v[1] * v[1] * q[0][0]) / det;
    return m;
}

struct calibration_misfit calibration_misfit_within(const struct calibration_model *model,
                                                    const struct calibration_fit *fit,
                                                    const struct calibration_spread *spread, size_t index)
{
    return misfit(model, fit, spread, index, -1);
}

struct calibration_misfit calibration_misfit_beside(const struct calibration_model *model,
                                                    const struct calibration_fit *fit,
                                                    const struct calibration_spread *spread, size_t index)
{
    return misfit(model, fit, spread, index, 1);
}

double calibration_misfit_chance(double t, int rows)
{
    return rows > 0 && t > 0 ? gsl_cdf_chisq_Q(t, rows) : 1;
}

double calibration_misfit_chance_any_sigma(double drop, int rows, double rest_chi2, int rest_freedom)
{
    if (rows <= 0 || rest_freedom <= 0 || !(drop > 0))
        return 1;
    if (!(rest_chi2 > 0))
        return 0;
    return gsl_cdf_fdist_Q(drop / rows / (rest_chi2 / rest_freedom), rows, rest_freedom);
}
