/* Where the cloth lies: Gauss and Newton's steps from the closed solution that takes all sightings for marks (Kabsch's,
 * which in the plane is one direction). */
#include "spans/spans.h"

#include <assert.h>
#include <math.h>

#define DEGREES_PER_RADIAN 57.295779513082320877
#define WITHIN_95 2.4477       /* radius of the 95 % circle of a plane normal law: sqrt(-2 ln 0.05) */
#define MOST_TURN_SIGMA 0.0175 /* 1°: marks that tell the turn no better are too near to each other. Our own choice */
#define LEAST_SHARE 1e-9       /* of a normal matrix's determinant in its diagonal's product: less is rounding */
/* What is more is a mark mistaken for another; cloth that is pushed together by more stands up in waves. Our own
 * choice; common practice, no source. */
#define MOST_STRETCH 0.03
#define MOST_PUSHED 0.015

enum { STEPS = 50, TERMS = 3 };

static const struct err_kind not_told = { "spans.not_told", ERR_FAULT,
                                          BASE_TR("this does not tell where the cloth lies: line up two chalk marks "
                                                  "far apart, or one and two places along the fold "
                                                  "or selvedge") };
static const struct err_kind contradiction = {
    "spans.contradiction", ERR_FAULT,
    BASE_TR("place {0} lies {1} from where the others say: line it up once more, and if it stays so, leave it out")
};
static const struct err_kind stretched = { "spans.stretched", ERR_WARNING,
                                           BASE_TR("the cloth lies stretched, by {0} in a metre: let it relax and line "
                                                   "up again; pieces are not stretched with it") };
static const struct err_kind pushed = { "spans.pushed", ERR_WARNING,
                                        BASE_TR("the cloth lies pushed together, by {0} in a metre: smooth it out and "
                                                "line up again; pieces do not shrink with it") };

static const struct err_place nowhere = { 0 };

/* Values that chi-square stays under in 99.9 % of cases, by degrees of freedom from 1: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 1.3.6.7.4. */
static const double chi_square_999[] = { 10.828, 13.816, 16.266, 18.467, 20.515, 22.458,
                                         24.322, 26.125, 27.877, 29.588, 31.264, 32.910 };

enum { IN_TABLE = sizeof chi_square_999 / sizeof chi_square_999[0] };

/* Past the table E. B. Wilson and M. M. Hilferty's cube (1931), within 0.1 % there. */
static double chi_square_most(size_t freedom)
{
    if (freedom == 0)
        return INFINITY;
    if (freedom <= IN_TABLE)
        return chi_square_999[freedom - 1];
    double part = 2 / (9 * (double)freedom), root = 1 - part + 3.0902 * sqrt(part);
    return (double)freedom * root * root * root;
}

/* ---- Rows of the least squares ---- */

/* The seat on the way to its end: the place `about` of the cloth lies at `at`, the cloth is turned. */
struct guess {
    vec2 about, at;
    double turn_deg, sine, cosine;
};

/* What one coordinate that was found tells: how the seat's terms and a stretch about `about` move it, and how far it is
 * off; all in sigmas. */
struct row {
    double by[TERMS]; /* shift x, shift y, turn */
    double by_stretch, off;
};

static void turn_guess(struct guess *g, double degrees)
{
    g->turn_deg = degrees;
    geometry_sincos(degrees, &g->sine, &g->cosine);
}

/* A coordinate of the place found, in the direction `n` of the table that the cloth's direction `own` lies in. */
static struct row row_along(const struct guess *g, const struct spans_sighting *s, vec2 own)
{
    vec2 n = { g->cosine * own.x - g->sine * own.y, g->sine * own.x + g->cosine * own.y };
    vec2 found = vec2_sub((vec2){ s->table.x, s->table.y }, g->at);
    double meant = vec2_dot(own, vec2_sub((vec2){ s->cloth.x, s->cloth.y }, g->about)), by_sigma = 1 / s->sigma_mm;
    return (struct row){ .by = { n.x * by_sigma, n.y * by_sigma, vec2_dot(vec2_right(n), found) * by_sigma },
                         .by_stretch = meant * by_sigma,
                         .off = (vec2_dot(n, found) - meant) * by_sigma };
}

/* One row, or both of a mark. */
static size_t rows_of(const struct guess *g, const struct spans_sighting *s, struct row out[2])
{
    static const vec2 along = { 1, 0 }, across = { 0, 1 };
    size_t count = 0;
    if (s->sign != SPANS_ALONG_LINE)
        out[count++] = row_along(g, s, along);
    if (s->sign != SPANS_ACROSS_LINE)
        out[count++] = row_along(g, s, across);
    return count;
}

struct square {
    double at[TERMS][TERMS];
};

/* The sums of products of all rows. */
struct normal {
    struct square by_by;
    double by_off[TERMS], by_stretch[TERMS];
    double off_off, stretch_off, stretch_stretch;
    size_t rows;
};

static void add_row(struct normal *n, const struct row *row)
{
    for (int i = 0; i < TERMS; i++) {
        for (int j = 0; j < TERMS; j++)
            n->by_by.at[i][j] += row->by[i] * row->by[j];
        n->by_off[i] += row->by[i] * row->off;
        n->by_stretch[i] += row->by[i] * row->by_stretch;
    }
    n->off_off += row->off * row->off;
    n->stretch_off += row->by_stretch * row->off;
    n->stretch_stretch += row->by_stretch * row->by_stretch;
    n->rows++;
}

static struct normal normal_of(const struct guess *g, const struct spans_sighting *sightings, size_t count)
{
    struct normal n = { 0 };
    for (size_t i = 0; i < count; i++) {
        struct row rows[2];
        size_t found = rows_of(g, &sightings[i], rows);
        for (size_t r = 0; r < found; r++)
            add_row(&n, &rows[r]);
    }
    return n;
}

/* ---- Three by three ---- */

/* The inverse by cofactors; false when the matrix, symmetric, is as good as singular. */
static bool invert(const struct square *m, struct square *out)
{
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++) {
            const double *r = m->at[(j + 1) % TERMS], *s = m->at[(j + 2) % TERMS];
            int c = (i + 1) % TERMS, d = (i + 2) % TERMS;
            out->at[i][j] = r[c] * s[d] - r[d] * s[c];
        }
    double whole = m->at[0][0] * out->at[0][0] + m->at[0][1] * out->at[1][0] + m->at[0][2] * out->at[2][0];
    if (!(whole > LEAST_SHARE * m->at[0][0] * m->at[1][1] * m->at[2][2]))
        return false;
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++)
            out->at[i][j] /= whole;
    return true;
}

static void apply(const struct square *m, const double v[TERMS], double out[TERMS])
{
    for (int i = 0; i < TERMS; i++)
        out[i] = m->at[i][0] * v[0] + m->at[i][1] * v[1] + m->at[i][2] * v[2];
}

static double product(const double u[TERMS], const double v[TERMS])
{
    return u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
}

/* ---- The seat ---- */

static struct guess first_guess(const struct spans_sighting *sightings, size_t count)
{
    vec2 cloth = { 0, 0 }, table = { 0, 0 };
    for (size_t i = 0; i < count; i++) {
        cloth = vec2_add(cloth, (vec2){ sightings[i].cloth.x, sightings[i].cloth.y });
        table = vec2_add(table, (vec2){ sightings[i].table.x, sightings[i].table.y });
    }
    struct guess g = { .about = vec2_scale(cloth, 1 / (double)count), .at = vec2_scale(table, 1 / (double)count) };
    double along = 0, across = 0;
    for (size_t i = 0; i < count; i++) {
        vec2 own = vec2_sub((vec2){ sightings[i].cloth.x, sightings[i].cloth.y }, g.about);
        vec2 found = vec2_sub((vec2){ sightings[i].table.x, sightings[i].table.y }, g.at);
        along += vec2_dot(own, found);
        across += vec2_cross(own, found);
    }
    turn_guess(&g, geometry_direction(across, along));
    return g;
}

/* Steps until they are nothing; *n and *inverse are then those of the seat found. */
static bool settle(struct guess *g, const struct spans_sighting *sightings, size_t count, struct normal *n,
                   struct square *inverse)
{
    for (int i = 0; i < STEPS; i++) {
        double step[TERMS];
        *n = normal_of(g, sightings, count);
        if (n->rows < TERMS || !invert(&n->by_by, inverse))
            return false;
        apply(inverse, n->by_off, step);
        if (fabs(step[0]) + fabs(step[1]) < 1e-9 && fabs(step[2]) < 1e-12)
            return true;
        g->at = vec2_add(g->at, (vec2){ step[0], step[1] });
        turn_guess(g, g->turn_deg + step[2] * DEGREES_PER_RADIAN);
    }
    return false;
}

static double left_over(const struct guess *g, const struct spans_sighting *s)
{
    struct row rows[2] = { 0 };
    rows_of(g, s, rows);
    return s->sigma_mm * vec2_length((vec2){ rows[0].off, rows[1].off });
}

static void put_worst(const struct guess *g, const struct spans_sighting *sightings, size_t count,
                      struct spans_seat *out)
{
    for (size_t i = 0; i < count; i++) {
        double off = left_over(g, &sightings[i]);
        if (i > 0 && off <= out->worst_off_mm)
            continue;
        out->worst_off_mm = off;
        out->worst = i;
    }
}

static void put_seat(const struct guess *g, const struct square *inverse, struct spans_seat *out)
{
    struct geometry_motion motion = { .turn_deg = g->turn_deg };
    struct geometry_mover turn = geometry_mover_of(motion);
    motion.shift = vec2_sub(g->at, geometry_move(&turn, g->about));
    out->to_table = motion;
    out->about = (struct cloth_pt){ g->about.x, g->about.y };
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++)
            out->covariance[i][j] = inverse->at[i][j];
}

/* The stretch as one more term of the least squares, of what the seat's terms leave to it. */
static void put_stretch(const struct normal *n, const struct square *inverse, struct spans_seat *out)
{
    double taken[TERMS];
    apply(inverse, n->by_stretch, taken);
    double left = n->stretch_stretch - product(n->by_stretch, taken);
    bool is_told = left > LEAST_SHARE * n->stretch_stretch;
    out->stretch = is_told ? (n->stretch_off - product(n->by_off, taken)) / left : NAN;
    out->stretch_sigma = is_told ? 1 / sqrt(left) : NAN;
}

/* ---- What the sightings say against each other ---- */

bool spans_is_stretched(const struct spans_seat *seat)
{
    double z = seat->stretch / seat->stretch_sigma;
    return z * z > chi_square_most(1); /* not where it is not told */
}

/* Whether that alone explains what the sightings leave. */
static bool is_stretched(const struct spans_seat *seat, const struct normal *n)
{
    double z = seat->stretch / seat->stretch_sigma, without = n->off_off - z * z;
    return spans_is_stretched(seat) && seat->stretch <= MOST_STRETCH && seat->stretch >= -MOST_PUSHED &&
           without <= chi_square_most(n->rows - TERMS - 1);
}

static bool judge(const struct spans_seat *seat, const struct normal *n, struct err_list *errs)
{
    if (is_stretched(seat, n)) {
        base_err(errs, seat->stretch > 0 ? &stretched : &pushed, nowhere, ERR_OFF_MM(1000 * fabs(seat->stretch)));
        return true;
    }
    if (n->off_off <= chi_square_most(n->rows - TERMS))
        return true;
    base_err(errs, &contradiction, nowhere, ERR_NUMBER(seat->worst + 1), ERR_OFF_MM(seat->worst_off_mm));
    return false;
}

/* Of a line's points it is known only roughly where along it they lie, so that cloth that was pushed far may be guessed
 * turned end for end, and steps from there come to an end that contradicts itself: then from the other way round, too.
 */
static bool settle_either_way(const struct guess *guess, const struct spans_sighting *sightings, size_t count,
                              struct guess *g, struct normal *n, struct square *inverse)
{
    struct guess turned = *guess;
    struct normal other;
    struct square other_inverse;
    *g = *guess;
    bool ok = settle(g, sightings, count, n, inverse);
    if (ok && n->off_off <= chi_square_most(n->rows - TERMS))
        return true;
    turn_guess(&turned, turned.turn_deg + 180);
    if (!settle(&turned, sightings, count, &other, &other_inverse) || (ok && other.off_off >= n->off_off))
        return ok;
    *g = turned;
    *n = other;
    *inverse = other_inverse;
    return true;
}

bool spans_sit(const struct spans_sighting *sightings, size_t count, struct spans_seat *out, struct err_list *errs)
{
    struct guess first, g = { 0 };
    struct normal n;
    struct square inverse;
    *out = (struct spans_seat){ 0 };
    if (count > 0)
        first = first_guess(sightings, count);
    if (count == 0 || !settle_either_way(&first, sightings, count, &g, &n, &inverse) ||
        inverse.at[2][2] > MOST_TURN_SIGMA * MOST_TURN_SIGMA) {
        base_err(errs, &not_told, nowhere, ERR_NONE);
        return false;
    }
    put_seat(&g, &inverse, out);
    put_stretch(&n, &inverse, out);
    put_worst(&g, sightings, count, out);
    return judge(out, &n, errs);
}

double spans_doubt(const struct spans_seat *seat, struct cloth_pt at)
{
    double s, c;
    geometry_sincos(seat->to_table.turn_deg, &s, &c);
    vec2 arm = { at.x - seat->about.x, at.y - seat->about.y };
    const double by_turn[2] = { -(s * arm.x + c * arm.y), c * arm.x - s * arm.y };
    double spread[2][2];
    for (int i = 0; i < 2; i++)
        for (int j = 0; j < 2; j++)
            spread[i][j] = seat->covariance[i][j] + by_turn[i] * seat->covariance[2][j] +
                           by_turn[j] * seat->covariance[i][2] + by_turn[i] * by_turn[j] * seat->covariance[2][2];
    double mean = (spread[0][0] + spread[1][1]) / 2, half = (spread[0][0] - spread[1][1]) / 2;
    return WITHIN_95 * sqrt(mean + sqrt(half * half + spread[0][1] * spread[0][1]));
}
