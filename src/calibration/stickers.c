#include "calibration/stickers.h"

#include "calibration/frame.h"
#include "json/want.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_linalg.h>
#include <math.h>

/* A change of the table's plane about the frame's middle, to first order what a bump can do to it. A shift and a turn
 * in the plane; nearer or farther, a scale; a tilt t of the light, seen from the height h: a perspective term t / h
 * and, where the place under the lens is not the frame's middle but d away, a stretch and a shear of t d / h. */
enum term { ACROSS, AWAY, TURN, SCALE, STRETCH, SHEAR, FALL_ACROSS, FALL_AWAY, TERMS };

/* What a bump is thought to do, as pseudo-readings 0 ± these; own reckoning, no source. A tilting one: 50 mm, 2
 * degrees, 15 mm nearer or farther of 1500, and a tilt of 1 degree seen from 1500 mm with the place under the lens 700
 * mm off. One that only slides: of the rest as much as would not be seen among the nudges of four stickers. */
#define NONE 1e-9
static const double loose[][TERMS] = {
    [CALIBRATION_BUMP_NONE] = { 50, 50, 0.035, NONE, NONE, NONE, NONE, NONE }, /* … and one that does nothing else */
    [CALIBRATION_BUMP_SLID] = { 50, 50, 0.035, 5e-4, 5e-4, 5e-4, 1e-6, 1e-6 },
    [CALIBRATION_BUMP_TILTED] = { 50, 50, 0.035, 0.01, 0.008, 0.008, 1.2e-5, 1.2e-5 },
};

#define BELIEVED 0.95     /* the part of all honest nudges that an explanation must cover */
#define DISBELIEVED 0.999 /* … beyond which none is believed */
#define WITHIN_95 2.4477  /* radius of the 95 % circle of a plane normal law: sqrt(-2 ln 0.05) */
#define APART_PART 0.25
#define ALONE_MM 3.0 /* a sticker that is off by less may be so by a slight tilt */
#define STEP_END 1e-10

enum { MOST_STEPS = 20, GRID = 5 };

static const struct err_kind one_moved = {
    "calibration.sticker_moved", ERR_FAULT,
    BASE_TR("Check sticker {0} alone has moved: stick it where its mark was, or set up the table again")
};
static const struct err_kind disagree = { "calibration.stickers_disagree", ERR_FAULT,
                                          BASE_TR("The check stickers do not agree with any bump: one of them has "
                                                  "moved, or a mark lies on another's sticker. Set up "
                                                  "the table again") };

static const struct err_kind how_many = { "calibration.stickers", ERR_FAULT,
                                          BASE_TR("holds {0} to {1} places of check stickers, and this has {2}") };
static const struct err_kind too_close = {
    "calibration.stickers_close", ERR_FAULT,
    BASE_TR("check stickers so close together tell too little: at least a quarter of the "
            "picture's width has to lie between two")
};

/* Of one sticker: where the old map has the light that lies on it now, and where it is; mm from the frame's middle. */
struct pair {
    vec2 light, sticker;
};

struct follow {
    const struct geometry_map *map;
    vec2 middle;
    struct pair pairs[CALIBRATION_MOST_STICKERS];
    int count;
    double sigma_mm; /* of a pair's difference: both times it was nudged */
};

static vec2 place(const struct geometry_map *map, struct px_pt px)
{
    struct table_pt at = geometry_map_to_table(map, px);
    return (vec2){ at.x, at.y };
}

static struct follow follow_of(const struct geometry_map *map, const struct calibration_stickers *were,
                               const struct calibration_stickers *are)
{
    struct follow f = { .map = map,
                        .middle = place(map, (struct px_pt){ 0.5 * map->width_px, 0.5 * map->height_px }),
                        .count = were->count,
                        .sigma_mm = CALIBRATION_NUDGED_SIGMA_MM * sqrt(2) };
    for (int i = 0; i < f.count; i++)
        f.pairs[i] =
            (struct pair){ vec2_sub(place(map, are->px[i]), f.middle), vec2_sub(place(map, were->px[i]), f.middle) };
    return f;
}

/* --- a change and how far it explains the pairs ------------------------------------------------------------------- */

static struct geometry_change change_of(const double p[TERMS])
{
    return (struct geometry_change){ { { 1 + p[SCALE] + p[STRETCH], p[SHEAR] - p[TURN], p[ACROSS] },
                                       { p[SHEAR] + p[TURN], 1 + p[SCALE] - p[STRETCH], p[AWAY] },
                                       { p[FALL_ACROSS], p[FALL_AWAY], 1 } } };
}

static vec2 changed(const struct geometry_change *by, vec2 p)
{
    const double *x = by->m[0], *y = by->m[1], *w = by->m[2];
    double over = w[0] * p.x + w[1] * p.y + w[2];
    return (vec2){ (x[0] * p.x + x[1] * p.y + x[2]) / over, (y[0] * p.x + y[1] * p.y + y[2]) / over };
}

/* Sum of squares over sigma² of what a change leaves. */
static double left_over(const struct follow *f, const struct geometry_change *by)
{
    double sum = 0;
    for (int i = 0; i < f->count; i++) {
        vec2 off = vec2_sub(changed(by, f->pairs[i].light), f->pairs[i].sticker);
        sum += vec2_dot(off, off) / (f->sigma_mm * f->sigma_mm);
    }
    return sum;
}

/* A change fitted to the pairs. */
struct fit {
    const double *loose;
    double p[TERMS];
    double chol[TERMS * TERMS]; /* Cholesky factor of the normal matrix there, in units of looseness */
    double chi2;                /* pseudo-readings included */
};

/* How a place moves with the terms, each in units of its looseness: rows across and away. */
static void slopes(const struct fit *fit, vec2 at, double out[2][TERMS])
{
    const double *p = fit->p;
    struct geometry_change by = change_of(p);
    vec2 to = changed(&by, at);
    double over = p[FALL_ACROSS] * at.x + p[FALL_AWAY] * at.y + 1;
    const double raw[2][TERMS] = { { 1, 0, -at.y, at.x, at.x, at.y, -to.x * at.x, -to.x * at.y },
                                   { 0, 1, at.x, at.y, -at.y, at.x, -to.y * at.x, -to.y * at.y } };
    for (int row = 0; row < 2; row++)
        for (int t = 0; t < TERMS; t++)
            out[row][t] = raw[row][t] / over * fit->loose[t];
}

/* The normal equations at a fit, in units of looseness, pseudo-readings included. */
static void normal(const struct follow *f, const struct fit *fit, gsl_matrix *a, gsl_vector *to)
{
    struct geometry_change by = change_of(fit->p);
    gsl_matrix_set_identity(a);
    for (size_t t = 0; t < TERMS; t++)
        gsl_vector_set(to, t, -fit->p[t] / fit->loose[t]);
    for (int i = 0; i < f->count; i++) {
        double slope[2][TERMS], weight = 1 / (f->sigma_mm * f->sigma_mm);
        slopes(fit, f->pairs[i].light, slope);
        vec2 off = vec2_sub(f->pairs[i].sticker, changed(&by, f->pairs[i].light));
        for (size_t t = 0; t < TERMS; t++) {
            *gsl_vector_ptr(to, t) += weight * (slope[0][t] * off.x + slope[1][t] * off.y);
            for (size_t u = 0; u < TERMS; u++)
                *gsl_matrix_ptr(a, t, u) += weight * (slope[0][t] * slope[0][u] + slope[1][t] * slope[1][u]);
        }
    }
}

/* Gauss and Newton's steps from no change at all. */
static struct fit fit_change(const struct follow *f, enum calibration_bump bump)
{
    struct fit fit = { .loose = loose[bump] };
    double to_data[TERMS], longest = INFINITY;
    gsl_vector_view to = gsl_vector_view_array(to_data, TERMS);
    gsl_matrix_view a = gsl_matrix_view_array(fit.chol, TERMS, TERMS);
    for (int step = 0; step < MOST_STEPS && longest > STEP_END; step++) {
        longest = 0;
        normal(f, &fit, &a.matrix, &to.vector);
        gsl_linalg_cholesky_decomp1(&a.matrix);
        gsl_linalg_cholesky_svx(&a.matrix, &to.vector);
        for (int t = 0; t < TERMS; t++) {
            fit.p[t] += to_data[t] * fit.loose[t];
            longest = fmax(longest, fabs(to_data[t]));
        }
    }
    struct geometry_change by = change_of(fit.p);
    fit.chi2 = left_over(f, &by);
    for (int t = 0; t < TERMS; t++)
        fit.chi2 += fit.p[t] * fit.p[t] / (fit.loose[t] * fit.loose[t]);
    return fit;
}

static bool is_believed(double chi2, int freedom, double part)
{
    return chi2 <= gsl_cdf_chisq_Pinv(part, freedom);
}

/* --- how sure ---------------------------------------------------------------------------------------------------- */

static struct px_pt grid_px(const struct follow *f, int i)
{
    int column = i % GRID, row = i / GRID;
    return (struct px_pt){ f->map->width_px * (double)column / (GRID - 1),
                           f->map->height_px * (double)row / (GRID - 1) };
}

static vec2 grid_place(const struct follow *f, int i)
{
    return vec2_sub(place(f->map, grid_px(f, i)), f->middle);
}

/* The greatest 95 % radius over the frame, and where: of the greater axis of the covariance slopes A⁻¹ slopesᵀ. */
static void tell_doubt(const struct follow *f, const struct fit *fit, struct calibration_followed *out)
{
    gsl_matrix_const_view chol = gsl_matrix_const_view_array(fit->chol, TERMS, TERMS);
    out->doubt_mm = 0;
    for (int i = 0; i < GRID * GRID; i++) {
        double slope[2][TERMS], solved[2][TERMS], c[2][2] = { { 0 } };
        slopes(fit, grid_place(f, i), slope);
        for (int row = 0; row < 2; row++) {
            gsl_vector_view b = gsl_vector_view_array(slope[row], TERMS), x = gsl_vector_view_array(solved[row], TERMS);
            gsl_linalg_cholesky_solve(&chol.matrix, &b.vector, &x.vector);
        }
        for (int j = 0; j < 4; j++)
            for (int t = 0; t < TERMS; t++)
                c[j / 2][j % 2] += slope[j / 2][t] * solved[j % 2][t];
        double most = (c[0][0] + c[1][1]) / 2 + hypot((c[0][0] - c[1][1]) / 2, c[0][1]);
        if (WITHIN_95 * sqrt(most) < out->doubt_mm)
            continue;
        out->doubt_mm = WITHIN_95 * sqrt(most);
        out->doubt_px = grid_px(f, i);
    }
}

/* --- the answer -------------------------------------------------------------------------------------------------- */

/* The change, which is about the frame's middle, as one about the table's origin. */
static struct geometry_map mended(const struct follow *f, const struct geometry_change *by)
{
    double to[3] = { f->middle.x, f->middle.y, 0 };
    struct geometry_change change = { .m = { { 0 } } };
    for (int i = 0; i < 3; i++) { /* there from the middle, here back to it */
        double *row = change.m[i];
        for (int j = 0; j < 3; j++)
            row[j] = by->m[i][j] + to[i] * by->m[2][j];
        row[2] -= row[0] * to[0] + row[1] * to[1];
    }
    return geometry_map_changed(f->map, &change);
}

static struct calibration_followed describe(const struct follow *f, const struct geometry_change *by,
                                            enum calibration_bump bump)
{
    struct calibration_followed out = { .map = mended(f, by), .bump = bump };
    for (int i = 0; i < GRID * GRID; i++) {
        vec2 at = grid_place(f, i);
        out.moved_mm = fmax(out.moved_mm, vec2_length(vec2_sub(changed(by, at), at)));
    }
    for (int i = 0; i < f->count; i++)
        out.off_mm[i] = vec2_length(vec2_sub(changed(by, f->pairs[i].light), f->pairs[i].sticker));
    return out;
}

static bool has_slid(const struct follow *f, const struct fit *slide)
{
    return is_believed(slide->chi2, 2 * f->count - 3, BELIEVED);
}

/* The one without which a bare shift and turn explains the others, and which that leaves far off, from 1; 0 when none
 * or more than one is so. */
static int moved_alone(const struct follow *f)
{
    int found = 0;
    for (int i = 0; f->count == CALIBRATION_MOST_STICKERS && i < f->count; i++) {
        struct follow rest = *f;
        rest.pairs[i] = f->pairs[--rest.count];
        struct fit slide = fit_change(&rest, CALIBRATION_BUMP_NONE);
        struct geometry_change by = change_of(slide.p);
        double off_mm = vec2_length(vec2_sub(changed(&by, f->pairs[i].light), f->pairs[i].sticker));
        if (!has_slid(&rest, &slide) || off_mm < ALONE_MM)
            continue;
        if (found)
            return 0;
        found = i + 1;
    }
    return found;
}

bool calibration_follow(const struct geometry_map *map, const struct calibration_stickers *were,
                        const struct calibration_stickers *are, struct calibration_followed *out, struct err_list *errs)
{
    static const struct geometry_change none = { { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } };
    assert(were->count == are->count && were->count >= CALIBRATION_LEAST_STICKERS);
    struct follow f = follow_of(map, were, are);
    if (is_believed(left_over(&f, &none), 2 * f.count, BELIEVED)) {
        *out = describe(&f, &none, CALIBRATION_BUMP_NONE);
        out->map = *map;
        return true;
    }
    enum calibration_bump bump = CALIBRATION_BUMP_SLID;
    struct fit fit = fit_change(&f, bump);
    if (!has_slid(&f, &fit)) {
        int alone = moved_alone(&f);
        if (alone) {
            base_err(errs, &one_moved, base_err_in_file(NULL), ERR_NUMBER(alone));
            return false;
        }
        bump = CALIBRATION_BUMP_TILTED;
        fit = fit_change(&f, bump);
    }
    struct geometry_change by = change_of(fit.p);
    struct calibration_followed found = describe(&f, &by, bump);
    if (!is_believed(fit.chi2, 2 * f.count, DISBELIEVED) || !geometry_map_is_valid(&found.map)) {
        base_err(errs, &disagree, base_err_in_file(NULL), ERR_NONE);
        return false;
    }
    tell_doubt(&f, &fit, &found);
    *out = found;
    return true;
}

bool calibration_stickers_are_apart(const struct geometry_map *map, const struct calibration_stickers *stickers)
{
    struct px_pt left = { 0, 0.5 * map->height_px }, right = { map->width_px, 0.5 * map->height_px };
    double width = vec2_length(vec2_sub(place(map, right), place(map, left))), farthest = 0;
    for (int i = 0; i < stickers->count; i++)
        for (int j = 0; j < i; j++)
            farthest = fmax(farthest, vec2_length(vec2_sub(place(map, stickers->px[i]), place(map, stickers->px[j]))));
    return stickers->count >= CALIBRATION_LEAST_STICKERS && farthest >= APART_PART * width;
}

bool calibration_stickers_from(const struct json_node *list, const struct geometry_map *map,
                               struct calibration_stickers *out, struct err_list *errs)
{
    struct calibration_stickers read = { .count = 0 };
    if (!json_is(list, JSON_LIST, errs))
        return false;
    if (list->count < CALIBRATION_LEAST_STICKERS || list->count > CALIBRATION_MOST_STICKERS) {
        json_fault(errs, list, &how_many, ERR_NUMBER(CALIBRATION_LEAST_STICKERS), ERR_NUMBER(CALIBRATION_MOST_STICKERS),
                   ERR_NUMBER(list->count));
        return false;
    }
    for (const struct json_node *node = list->first; node; node = node->next)
        if (calibration_pixel_from(node, map->width_px, map->height_px, &read.px[read.count], errs))
            read.count++;
    if (read.count < (int)list->count)
        return false;
    if (map->width_px && map->height_px && geometry_map_is_valid(map) && !calibration_stickers_are_apart(map, &read)) {
        json_fault(errs, list, &too_close, ERR_NONE);
        return false;
    }
    *out = read;
    return true;
}

void calibration_stickers_write(struct json_out *to, const char *key, const struct calibration_stickers *stickers)
{
    struct json_out *list = json_out_list(to, key);
    for (int i = 0; i < stickers->count; i++)
        calibration_pixel_write(json_out_list(list, NULL), stickers->px[i]);
}
