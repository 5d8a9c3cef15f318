#include "calibration/start.h"

#include <assert.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_vector.h>
#include <math.h>

/* The second smallest singular value, as a part of the largest, below which the pairs do not fix the map. Over a whole
 * square it is 0.36, over a strip about half of height over length, and for three points twice each about a third of
 * how far the two are apart over how far the three are. At 0.005 an error of reading is some two hundred times as large
 * beside the points as on them. */
#define LEAST_FIRMNESS 0.005

enum { UNKNOWN = 9 };

/* Moves the middle to zero and scales: p -> scale (p - middle). */
struct normalising {
    vec2 middle;
    double scale;
};

static struct normalising normalising_of(const vec2 *at, size_t count)
{
    struct normalising n = { { 0, 0 }, 1 };
    for (size_t i = 0; i < count; i++)
        n.middle = vec2_add(n.middle, vec2_scale(at[i], 1.0 / (double)count));
    double distance = 0;
    for (size_t i = 0; i < count; i++)
        distance += vec2_length(vec2_sub(at[i], n.middle)) / (double)count;
    n.scale = sqrt(2.0) / distance;
    return n;
}

static vec2 normalised(struct normalising n, vec2 at)
{
    return vec2_scale(vec2_sub(at, n.middle), n.scale);
}

/* The two equations of one pair, h00 to h22 being unknown: the cross products of what is wanted with what is mapped. */
static void write_equations(double *two_rows, vec2 from, vec2 to)
{
    const double rows[2 * UNKNOWN] = {
        from.x, from.y, 1, 0,      0,      0, -to.x * from.x, -to.x * from.y, -to.x,
        0,      0,      0, from.x, from.y, 1, -to.y * from.x, -to.y * from.y, -to.y,
    };
    for (int i = 0; i < 2 * UNKNOWN; i++)
        two_rows[i] = rows[i];
}

/* The right singular vector of the smallest singular value; false when it does not stand out from the next. By the
 * method for more rows than columns (Chan 1982), twice as quick here as Jacobi's. */
static bool null_vector(struct arena *scratch, double *rows, size_t count, double out[UNKNOWN])
{
    double *v_data = base_arena_alloc(scratch, UNKNOWN * UNKNOWN, sizeof *v_data);
    double *x_data = base_arena_alloc(scratch, UNKNOWN * UNKNOWN, sizeof *x_data);
    double s_data[UNKNOWN], work_data[UNKNOWN];
    gsl_matrix_view a = gsl_matrix_view_array(rows, count, UNKNOWN);
    gsl_matrix_view v = gsl_matrix_view_array(v_data, UNKNOWN, UNKNOWN);
    gsl_matrix_view x = gsl_matrix_view_array(x_data, UNKNOWN, UNKNOWN);
    gsl_vector_view s = gsl_vector_view_array(s_data, UNKNOWN), work = gsl_vector_view_array(work_data, UNKNOWN);
    if (gsl_linalg_SV_decomp_mod(&a.matrix, &x.matrix, &v.matrix, &s.vector, &work.vector) != GSL_SUCCESS)
        return false;
    for (int i = 0; i < UNKNOWN; i++)
        out[i] = v_data[i * UNKNOWN + UNKNOWN - 1];
    return s_data[UNKNOWN - 2] > LEAST_FIRMNESS * s_data[0];
}

/* Undoes both normalisings, T⁻¹ H S with S of `from` and T of `to`, and brings h22 to 1. */
static bool undo(const double *n, struct normalising from, struct normalising to, double h[CALIBRATION_START_TERMS])
{
    double g[UNKNOWN], full[UNKNOWN];
    for (int row = 0; row < 3; row++) {
        const double *r = n + 3 * row;
        g[3 * row] = r[0] * from.scale;
        g[3 * row + 1] = r[1] * from.scale;
        g[3 * row + 2] = r[2] - from.scale * (r[0] * from.middle.x + r[1] * from.middle.y);
    }
    for (int i = 0; i < 3; i++) {
        full[i] = g[i] / to.scale + to.middle.x * g[6 + i];
        full[3 + i] = g[3 + i] / to.scale + to.middle.y * g[6 + i];
        full[6 + i] = g[6 + i];
    }
    for (int i = 0; i < CALIBRATION_START_TERMS; i++) {
        h[i] = full[i] / full[UNKNOWN - 1];
        if (!isfinite(h[i]))
            return false;
    }
    return true;
}

bool calibration_start(struct arena *scratch, const vec2 *from, const vec2 *to, size_t count,
                       double h[CALIBRATION_START_TERMS])
{
    assert(count >= 4);
    struct normalising nf = normalising_of(from, count), nt = normalising_of(to, count);
    if (!isfinite(nf.scale) || !isfinite(nt.scale))
        return false;
    size_t rows = 2 * count < UNKNOWN ? UNKNOWN : 2 * count; /* a row of zeros under the eight of four pairs */
    double *equations = base_arena_alloc(scratch, rows * UNKNOWN, sizeof *equations);
    for (size_t i = 0; i < count; i++)
        write_equations(equations + 2 * i * UNKNOWN, normalised(nf, from[i]), normalised(nt, to[i]));
    double n[UNKNOWN];
    return null_vector(scratch, equations, rows, n) && undo(n, nf, nt, h);
}
