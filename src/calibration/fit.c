#include "calibration/fit.h"

#include "calibration/begin.h"

#include <assert.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <math.h>

enum { MOST_STEPS = 100, POLISHING_STEPS = 3, MOST_PSEUDO = 8, REWEIGHINGS = 2 };

/* Ends of the walk, at the edge of what doubles can tell: the last step as a part of each packed term, and the gradient
 * there. */
#define STEP_END 1e-12
#define GRADIENT_END 1e-12

/* Part by which a sum of squares may rise from rounding alone. */
#define ROUNDING 1e-12

/* What a residual is called that is not finite (a step that put a reading on the horizon): worse than any. */
#define HOPELESS 1e12

/* Horizons to begin with where the direct transform has no answer: none, and one on each side, as of a projector tilted
 * by some 15°. */
static const vec2 plain_tilts[] = {
    { 0, 0 }, { 0.12, 0 }, { -0.12, 0 }, { 0, 0.12 }, { 0, -0.12 },
};
enum { PLAIN_TILTS = sizeof plain_tilts / sizeof plain_tilts[0] };

/* A sum of squares this many times the freedom speaks of a walk that ended in a side valley. */
#define SIDE_VALLEY 10

static double tamed(double residual)
{
    return isfinite(residual) ? residual : HOPELESS;
}

static int residuals_at(const gsl_vector *x, void *system, gsl_vector *f)
{
    const struct calibration_model *model = system;
    struct calibration_unknowns at = calibration_model_unpack(model, gsl_vector_const_ptr(x, 0));
    double miss[MOST_PSEUDO];
    size_t row = 0;
    for (size_t i = 0; i < model->readings->count; i++) {
        size_t rows = calibration_model_reading(model, &at, i, miss, NULL);
        for (size_t r = 0; r < rows; r++)
            gsl_vector_set(f, row++, tamed(miss[r]));
    }
    size_t rows = calibration_model_pseudo(model, &at, miss, NULL);
    for (size_t r = 0; r < rows; r++)
        gsl_vector_set(f, row++, tamed(miss[r]));
    assert(row == model->rows);
    return GSL_SUCCESS;
}

static void set_row(gsl_matrix *j, size_t row, const double *gradient)
{
    for (size_t t = 0; t < j->size2; t++)
        gsl_matrix_set(j, row, t, tamed(gradient[t]));
}

static int jacobian_at(const gsl_vector *x, void *system, gsl_matrix *j)
{
    const struct calibration_model *model = system;
    struct calibration_unknowns at = calibration_model_unpack(model, gsl_vector_const_ptr(x, 0));
    double miss[MOST_PSEUDO], gradient[MOST_PSEUDO][CALIBRATION_MOST_TERMS];
    size_t row = 0;
    for (size_t i = 0; i < model->readings->count; i++) {
        size_t rows = calibration_model_reading(model, &at, i, miss, gradient);
        for (size_t r = 0; r < rows; r++)
            set_row(j, row++, gradient[r]);
    }
    size_t rows = calibration_model_pseudo(model, &at, miss, gradient);
    for (size_t r = 0; r < rows; r++)
        set_row(j, row++, gradient[r]);
    return GSL_SUCCESS;
}

static double sum_of_squares(const gsl_vector *f)
{
    double sum = 0;
    for (size_t i = 0; i < f->size; i++)
        sum += gsl_vector_get(f, i) * gsl_vector_get(f, i);
    return sum;
}

/* Walks downhill from `x`, and leaves it at the end. A walk that stops because the sum of squares tells no difference
 * any more has arrived, too. */
static bool descend(struct calibration_model *model, gsl_vector *x)
{
    gsl_multifit_nlinear_parameters how = gsl_multifit_nlinear_default_parameters();
    how.trs = gsl_multifit_nlinear_trs_lm;
    how.solver = gsl_multifit_nlinear_solver_qr;
    how.scale = gsl_multifit_nlinear_scale_levenberg; /* the terms are scaled already */
    gsl_multifit_nlinear_fdf fdf = {
        .f = residuals_at, .df = jacobian_at, .n = model->rows, .p = model->terms, .params = model
    };
    gsl_multifit_nlinear_workspace *w =
        gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &how, model->rows, model->terms);
    if (!w)
        return false;
    int why = 0, status = gsl_multifit_nlinear_init(x, &fdf, w);
    bool began = status == GSL_SUCCESS;
    if (began) {
        status = gsl_multifit_nlinear_driver(MOST_STEPS, STEP_END, GRADIENT_END, 0, NULL, NULL, &why, w);
        gsl_vector_memcpy(x, gsl_multifit_nlinear_position(w));
    }
    gsl_multifit_nlinear_free(w);
    return began && (status == GSL_SUCCESS || status == GSL_ENOPROG || status == GSL_EMAXITER);
}

/* Gauss-Newton steps from the end of the walk. The sum of squares is flat at the bottom: it cannot tell terms apart
 * that differ by the root of a double's precision, and so the walk ends there; the linear equations can. A step that
 * makes the sum worse than rounding would is not taken. */
static double polish(struct arena *scratch, struct calibration_model *model, gsl_vector *x)
{
    size_t n = model->rows, p = model->terms;
    gsl_vector_view f = gsl_vector_view_array(base_arena_alloc(scratch, n, sizeof(double)), n);
    gsl_vector_view rest = gsl_vector_view_array(base_arena_alloc(scratch, n, sizeof(double)), n);
    gsl_matrix_view j = gsl_matrix_view_array(base_arena_alloc(scratch, n * p, sizeof(double)), n, p);
    double tau_data[CALIBRATION_MOST_TERMS], step_data[CALIBRATION_MOST_TERMS], next_data[CALIBRATION_MOST_TERMS];
    gsl_vector_view tau = gsl_vector_view_array(tau_data, p), step = gsl_vector_view_array(step_data, p);
    gsl_vector_view next = gsl_vector_view_array(next_data, p);
    residuals_at(x, model, &f.vector);
    double chi2 = sum_of_squares(&f.vector);
    for (int i = 0; i < POLISHING_STEPS; i++) {
        jacobian_at(x, model, &j.matrix);
        if (gsl_linalg_QR_decomp(&j.matrix, &tau.vector) != GSL_SUCCESS ||
            gsl_linalg_QR_lssolve(&j.matrix, &tau.vector, &f.vector, &step.vector, &rest.vector) != GSL_SUCCESS)
            break;
        gsl_vector_memcpy(&next.vector, x);
        gsl_vector_sub(&next.vector, &step.vector);
        residuals_at(&next.vector, model, &f.vector);
        double then = sum_of_squares(&f.vector);
        if (!(then <= chi2 * (1 + ROUNDING) + ROUNDING))
            break;
        gsl_vector_memcpy(x, &next.vector);
        chi2 = then;
    }
    return chi2;
}

/* From a beginning to the answer; nudges are weighed anew where the walk ended. */
static bool fit_from(struct arena *scratch, struct calibration_model *model, const struct calibration_unknowns *from,
                     struct calibration_fit *out)
{
    double x_data[CALIBRATION_MOST_TERMS];
    gsl_vector_view x = gsl_vector_view_array(x_data, model->terms);
    calibration_model_pack(model, from, x_data);
    bool weighed_by_map = calibration_model_weigh(model, &from->map);
    for (int i = 0; i < (weighed_by_map ? 1 + REWEIGHINGS : 1); i++) {
        if (!descend(model, &x.vector))
            return false;
        out->at = calibration_model_unpack(model, x_data);
        if (weighed_by_map)
            calibration_model_weigh(model, &out->at.map);
    }
    out->chi2 = polish(scratch, model, &x.vector);
    out->at = calibration_model_unpack(model, x_data);
    out->freedom = (int)model->rows - (int)model->terms;
    return isfinite(out->chi2);
}

/* Without positions enough for the direct transform: the best of several plain beginnings; the straight one is enough
 * when its readings are met. */
static bool fit_plain(struct arena *scratch, struct calibration_model *model, struct calibration_fit *out)
{
    bool found = false;
    for (int i = 0; i < PLAIN_TILTS; i++) {
        struct calibration_unknowns from;
        struct calibration_fit fit;
        if (found && out->chi2 <= SIDE_VALLEY * (1 + out->freedom))
            break;
        if (!calibration_begin_plain(scratch, model, plain_tilts[i], &from) || !fit_from(scratch, model, &from, &fit) ||
            (found && fit.chi2 >= out->chi2))
            continue;
        *out = fit;
        found = true;
    }
    if (found)
        calibration_model_weigh(model, &out->at.map);
    return found;
}

/* Whether there is nothing but what the direct transform takes up. */
static bool is_direct_alone(const struct calibration_model *model)
{
    for (size_t i = 0; i < model->readings->count; i++)
        if (model->readings->items[i].kind == CALIBRATION_DISTANCE)
            return false;
    return model->places == 1 && !model->tilted;
}

bool calibration_fit(struct arena *scratch, struct calibration_model *model, const struct calibration_unknowns *near,
                     struct calibration_fit *out)
{
    assert(model->terms <= CALIBRATION_MOST_TERMS);
    gsl_set_error_handler_off(); /* GSL aborts by default; here every answer is looked at */
    struct calibration_unknowns from;
    if (model->rows < model->terms)
        return false;
    bool direct = calibration_begin_direct(scratch, model, &from) && fit_from(scratch, model, &from, out);
    if (is_direct_alone(model) || (direct && geometry_map_is_valid(&out->at.map)))
        return direct;
    return near ? fit_from(scratch, model, near, out) : fit_plain(scratch, model, out);
}

bool calibration_fit_spread(struct arena *scratch, const struct calibration_model *model,
                            const struct calibration_fit *fit, struct calibration_spread *out)
{
    size_t n = model->rows, p = model->terms;
    double x_data[CALIBRATION_MOST_TERMS], s_data[CALIBRATION_MOST_TERMS], tau_data[CALIBRATION_MOST_TERMS];
    size_t least = n > p ? n : p; /* rows of zeros where readings are too few */
    gsl_matrix_view j = gsl_matrix_view_array(base_arena_alloc(scratch, least * p, sizeof(double)), least, p);
    gsl_matrix_view r = gsl_matrix_view_array(base_arena_alloc(scratch, p * p, sizeof(double)), p, p);
    gsl_matrix_view v = gsl_matrix_view_array(base_arena_alloc(scratch, p * p, sizeof(double)), p, p);
    gsl_vector_view x = gsl_vector_view_array(x_data, p), s = gsl_vector_view_array(s_data, p);
    gsl_vector_view tau = gsl_vector_view_array(tau_data, p);
    struct calibration_model same = *model; /* the walk's functions take what may change */
    calibration_model_pack(model, &fit->at, x_data);
    jacobian_at(&x.vector, &same, &j.matrix);
    if (gsl_linalg_QR_decomp(&j.matrix, &tau.vector) != GSL_SUCCESS)
        return false;
    for (size_t row = 0; row < p; row++)
        for (size_t column = row; column < p; column++)
            gsl_matrix_set(&r.matrix, row, column, gsl_matrix_get(&j.matrix, row, column));
    if (gsl_linalg_SV_decomp_jacobi(&r.matrix, &v.matrix, &s.vector) != GSL_SUCCESS)
        return false;
    *out = (struct calibration_spread){ .terms = p, .firmness = s_data[p - 1] / s_data[0] };
    if (!(out->firmness > 0))
        out->firmness = 0;
    for (size_t t = 0; t < p; t++)
        out->weakest[t] = gsl_matrix_get(&v.matrix, t, p - 1);
    for (size_t i = 0; i < p; i++)
        for (size_t k = 0; k < p; k++)
            for (size_t m = 0; m < p; m++)
                out->covariance[i][k] +=
                    gsl_matrix_get(&v.matrix, i, m) / s_data[m] * (gsl_matrix_get(&v.matrix, k, m) / s_data[m]);
    return true;
}
