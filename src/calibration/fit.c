#include "calibration/fit.h"

#include "calibration/start.h"

#include <assert.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <math.h>

enum { MOST_STEPS = 100, POLISHING_STEPS = 3, LENS_TERMS = 3, PROJECTIVE_TERMS = GEOMETRY_MAP_TERMS - LENS_TERMS };

/* Ends of the walk, at the edge of what doubles can tell: the last step as a part of each scaled term, and the gradient
 * there. */
#define STEP_END 1e-12
#define GRADIENT_END 1e-12

/* Part by which a sum of squares may rise from rounding alone. */
#define ROUNDING 1e-12

/* What a residual is called that is not finite (a step that put a reading on the horizon): worse than any. */
#define HOPELESS 1e12

/* How much each term of a map typically is, in the order of geometry_map.term, so that the solver meets numbers near
 * one. */
static const double term_scale[GEOMETRY_MAP_TERMS] = { 500, 500, 500, 500, 500, 500, 1, 1, 0.01, 0.01, 0.01 };

/* The pseudo-readings of k1, p1 and p2: 0 give or take so much. A figure of the project's own study: the lenses of
 * projectors stay within. */
static const double lens_loose[LENS_TERMS] = { 0.005, 0.0025, 0.0025 };

/* What GSL hands back to the functions below. */
struct system {
    const struct calibration_readings *readings;
    size_t terms; /* solved for: all, or the projective ones alone */
};

int calibration_fit_freedom(size_t readings)
{
    return 2 * (int)readings - PROJECTIVE_TERMS;
}

static size_t rows_of(const struct system *s)
{
    return 2 * s->readings->count + (s->terms - PROJECTIVE_TERMS);
}

/* The map at scaled terms `x`; terms that are not solved for stay zero. */
static struct geometry_map map_at(const struct system *s, const gsl_vector *x)
{
    struct geometry_map map = { s->readings->width_px, s->readings->height_px, { 0 } };
    for (size_t t = 0; t < s->terms; t++)
        map.term[t] = gsl_vector_get(x, t) * term_scale[t];
    return map;
}

static double tamed(double residual)
{
    return isfinite(residual) ? residual : HOPELESS;
}

/* Residuals in units of their sigma: x and y of each reading, then the pseudo-readings. */
static int residuals_at(const gsl_vector *x, void *system, gsl_vector *f)
{
    const struct system *s = system;
    struct geometry_map map = map_at(s, x);
    size_t row = 0;
    assert(s->terms <= GEOMETRY_MAP_TERMS);
    for (size_t i = 0; i < s->readings->count; i++) {
        const struct calibration_reading *r = &s->readings->items[i];
        struct table_pt at = geometry_map_to_table(&map, r->px);
        gsl_vector_set(f, row++, tamed((at.x - r->at.x) / s->readings->sigma_mm));
        gsl_vector_set(f, row++, tamed((at.y - r->at.y) / s->readings->sigma_mm));
    }
    for (size_t t = PROJECTIVE_TERMS; t < s->terms; t++)
        gsl_vector_set(f, row++, map.term[t] / lens_loose[t - PROJECTIVE_TERMS]);
    return GSL_SUCCESS;
}

static int jacobian_at(const gsl_vector *x, void *system, gsl_matrix *j)
{
    const struct system *s = system;
    struct geometry_map map = map_at(s, x);
    size_t row = 0;
    assert(s->terms <= GEOMETRY_MAP_TERMS);
    gsl_matrix_set_zero(j);
    for (size_t i = 0; i < s->readings->count; i++, row += 2) {
        double dx[GEOMETRY_MAP_TERMS], dy[GEOMETRY_MAP_TERMS];
        geometry_map_term_gradient(&map, s->readings->items[i].px, dx, dy);
        for (size_t t = 0; t < s->terms; t++) {
            gsl_matrix_set(j, row, t, tamed(dx[t] * term_scale[t] / s->readings->sigma_mm));
            gsl_matrix_set(j, row + 1, t, tamed(dy[t] * term_scale[t] / s->readings->sigma_mm));
        }
    }
    for (size_t t = PROJECTIVE_TERMS; t < s->terms; t++)
        gsl_matrix_set(j, row++, t, term_scale[t] / lens_loose[t - PROJECTIVE_TERMS]);
    return GSL_SUCCESS;
}

/* The direct linear start in scaled terms. */
static bool start(struct arena *scratch, const struct calibration_readings *readings, double x[GEOMETRY_MAP_TERMS])
{
    vec2 *from = base_arena_alloc(scratch, readings->count, sizeof *from);
    vec2 *to = base_arena_alloc(scratch, readings->count, sizeof *to);
    double w = readings->width_px, h = readings->height_px, half_diagonal = 0.5 * sqrt(w * w + h * h);
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *r = &readings->items[i];
        from[i] = (vec2){ (r->px.x - 0.5 * w) / half_diagonal, (r->px.y - 0.5 * h) / half_diagonal };
        to[i] = (vec2){ r->at.x, r->at.y };
    }
    double term[CALIBRATION_START_TERMS];
    if (!calibration_start(scratch, from, to, readings->count, term))
        return false;
    for (int t = 0; t < CALIBRATION_START_TERMS; t++)
        x[t] = term[t] / term_scale[t];
    return true;
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
static bool descend(struct system *s, gsl_multifit_nlinear_workspace *w, gsl_vector *x)
{
    gsl_multifit_nlinear_fdf fdf = {
        .f = residuals_at, .df = jacobian_at, .n = rows_of(s), .p = s->terms, .params = s
    };
    if (gsl_multifit_nlinear_init(x, &fdf, w) != GSL_SUCCESS)
        return false;
    int why = 0;
    int status = gsl_multifit_nlinear_driver(MOST_STEPS, STEP_END, GRADIENT_END, 0, NULL, NULL, &why, w);
    gsl_vector_memcpy(x, gsl_multifit_nlinear_position(w));
    return status == GSL_SUCCESS || status == GSL_ENOPROG || status == GSL_EMAXITER;
}

/* Gauss-Newton steps from the end of the walk. The sum of squares is flat at the bottom: it cannot tell terms apart
 * that differ by the root of a double's precision, and so the walk ends there; the linear equations can. A step that
 * makes the sum worse than rounding would is not taken. */
static double polish(struct arena *scratch, struct system *s, gsl_vector *x)
{
    size_t n = rows_of(s), p = s->terms;
    gsl_vector_view f = gsl_vector_view_array(base_arena_alloc(scratch, n, sizeof(double)), n);
    gsl_vector_view rest = gsl_vector_view_array(base_arena_alloc(scratch, n, sizeof(double)), n);
    gsl_matrix_view j = gsl_matrix_view_array(base_arena_alloc(scratch, n * p, sizeof(double)), n, p);
    double tau_data[GEOMETRY_MAP_TERMS], step_data[GEOMETRY_MAP_TERMS], next_data[GEOMETRY_MAP_TERMS];
    gsl_vector_view tau = gsl_vector_view_array(tau_data, p), step = gsl_vector_view_array(step_data, p);
    gsl_vector_view next = gsl_vector_view_array(next_data, p);
    residuals_at(x, s, &f.vector);
    double chi2 = sum_of_squares(&f.vector);
    for (int i = 0; i < POLISHING_STEPS; i++) {
        jacobian_at(x, s, &j.matrix);
        if (gsl_linalg_QR_decomp(&j.matrix, &tau.vector) != GSL_SUCCESS ||
            gsl_linalg_QR_lssolve(&j.matrix, &tau.vector, &f.vector, &step.vector, &rest.vector) != GSL_SUCCESS)
            break;
        gsl_vector_memcpy(&next.vector, x);
        gsl_vector_sub(&next.vector, &step.vector);
        residuals_at(&next.vector, s, &f.vector);
        double then = sum_of_squares(&f.vector);
        if (!(then <= chi2 * (1 + ROUNDING) + ROUNDING))
            break;
        gsl_vector_memcpy(x, &next.vector);
        chi2 = then;
    }
    return chi2;
}

bool calibration_fit(struct arena *scratch, const struct calibration_readings *readings, enum calibration_lens lens,
                     struct calibration_fit *out)
{
    assert(readings->count >= 4 && readings->sigma_mm > 0);
    gsl_set_error_handler_off(); /* GSL aborts by default; here every answer is looked at */
    struct system s = { readings, lens == CALIBRATION_LENS_NONE ? PROJECTIVE_TERMS : GEOMETRY_MAP_TERMS };
    double x_data[GEOMETRY_MAP_TERMS] = { 0 };
    if (!start(scratch, readings, x_data))
        return false;
    gsl_vector_view x = gsl_vector_view_array(x_data, s.terms);
    gsl_multifit_nlinear_parameters how = gsl_multifit_nlinear_default_parameters();
    how.trs = gsl_multifit_nlinear_trs_lm;
    how.solver = gsl_multifit_nlinear_solver_qr;
    how.scale = gsl_multifit_nlinear_scale_levenberg; /* the terms are scaled already */
    gsl_multifit_nlinear_workspace *w =
        gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &how, rows_of(&s), s.terms);
    if (!w)
        return false;
    bool arrived = descend(&s, w, &x.vector);
    gsl_multifit_nlinear_free(w);
    if (!arrived)
        return false;
    out->chi2 = polish(scratch, &s, &x.vector);
    out->map = map_at(&s, &x.vector);
    return isfinite(out->chi2);
}
