#include "calibration/open.h"

#include "calibration/begin.h"

#include <math.h>

/* Singular values farther apart than this are rounding. Where the packed terms of good readings are within some 1e-4 of
 * each other, this leaves a thousandfold and more to both sides. */
#define LEAST_FIRMNESS 1e-9

/* How many sigmas the doubt within the crosses may be. A good table's is under 5; four crosses on the quarter of a
 * frame have 40 at its far corner, but that is not within. */
#define MOST_SIGMAS 100
#define MOST_SIGMAS_AFLOAT 10 /* distances alone, disjoint or along rows, leave much open though not all */

static const struct err_kind open_anywhere = {
    "calibration.unsolved", ERR_FAULT,
    BASE_TR("the readings leave open where the picture lies. Read crosses farther apart, best in all corners")
};
static const struct err_kind open_picture = {
    "calibration.unsolved", ERR_FAULT,
    BASE_TR("the readings leave open where the picture lies, most of all at its {0}. Read a cross there as well")
};
static const struct err_kind open_tape = {
    "calibration.unsolved", ERR_FAULT,
    BASE_TR("the distances leave the picture's shape open. Measure from cross {0} to "
            "cross {1} as well")
};
static const struct err_kind open_shape = { "calibration.unsolved", ERR_FAULT,
                                            BASE_TR("the distances leave the picture's shape open. Measure to one more "
                                                    "cross, best at its {0}, from all the others") };
static const struct err_kind open_place = {
    "calibration.unsolved", ERR_FAULT,
    BASE_TR(
        "the mat's place {0} is not tied to the others. Read two crosses on it that were read at another place too")
};

/* The places that a reading is asked for at: three by three, 3 % in from the frame's edges. */
static const char *const spots[3][3] = {
    { BASE_TR("top left corner"), BASE_TR("top edge"), BASE_TR("top right corner") },
    { BASE_TR("left edge"), BASE_TR_IN("place in the picture", "middle"), BASE_TR("right edge") },
    { BASE_TR("bottom left corner"), BASE_TR("bottom edge"), BASE_TR("bottom right corner") },
};

static struct px_pt spot_px(const struct calibration_model *model, int column, int row)
{
    double w = model->readings->width_px, h = model->readings->height_px;
    return (struct px_pt){ w * (0.03 + 0.47 * column), h * (0.03 + 0.47 * row) };
}

/* How a place of the picture moves with the terms that are weakest. */
static vec2 moves(const struct calibration_model *model, const struct geometry_map *map, const double *weakest,
                  struct px_pt px)
{
    double dx[GEOMETRY_MAP_TERMS], dy[GEOMETRY_MAP_TERMS];
    vec2 by = { 0, 0 };
    geometry_map_term_gradient(map, px, dx, dy);
    size_t terms = model->lens ? GEOMETRY_MAP_TERMS : GEOMETRY_K1;
    for (size_t t = 0; t < terms; t++) {
        double step = weakest[t] * calibration_model_unit(model, t);
        by = vec2_add(by, (vec2){ dx[t] * step, dy[t] * step });
    }
    return by;
}

/* The place of the mat whose own turn and shift make up most of what is weakest; 0 when the picture does. */
static int weakest_place(const struct calibration_model *model, const double *weakest)
{
    size_t first = model->lens ? GEOMETRY_MAP_TERMS : GEOMETRY_K1;
    for (size_t p = 1; p < model->places; p++) {
        double share = 0;
        for (size_t t = 0; t < CALIBRATION_POSE_TERMS; t++) {
            double part = weakest[first + CALIBRATION_POSE_TERMS * (p - 1) + t];
            share += part * part;
        }
        if (share > 0.5)
            return (int)p;
    }
    return 0;
}

static const char *weakest_spot(const struct calibration_model *model, const struct geometry_map *map,
                                const double *weakest)
{
    const char *spot = spots[0][0];
    double most = -1;
    for (int row = 0; row < 3; row++)
        for (int column = 0; column < 3; column++) {
            double far = vec2_length(moves(model, map, weakest, spot_px(model, column, row)));
            if (isfinite(far) && far > most * (1 + 1e-9)) {
                most = far;
                spot = spots[row][column];
            }
        }
    return spot == spots[1][1] ? base_tr_in("place in the picture", spot) : base_tr(spot);
}

/* An end of the taped distances. */
struct end {
    int cross;
    struct px_pt px;
};

static struct end end_of(const struct calibration_readings *readings, size_t n)
{
    const struct calibration_reading *r = &readings->items[n / 2];
    return n % 2 ? (struct end){ r->other, r->other_px } : (struct end){ r->cross, r->px };
}

static bool is_taped(const struct calibration_readings *readings, int a, int b)
{
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *r = &readings->items[i];
        if ((r->cross == a && r->other == b) || (r->cross == b && r->other == a))
            return true;
    }
    return false;
}

/* The pair that is not taped yet and that moves apart fastest in what is weakest; false when none does. */
static bool find_pair(const struct calibration_model *model, const struct geometry_map *map, const double *weakest,
                      int pair[2])
{
    const struct calibration_readings *readings = model->readings;
    double most = 0;
    for (size_t i = 0; i < 2 * readings->count; i++)
        for (size_t j = 0; j < i; j++) {
            struct end a = end_of(readings, j), b = end_of(readings, i);
            if (a.cross == b.cross || is_taped(readings, a.cross, b.cross))
                continue;
            struct table_pt from = geometry_map_to_table(map, a.px), to = geometry_map_to_table(map, b.px);
            vec2 along = vec2_unit((vec2){ to.x - from.x, to.y - from.y });
            vec2 apart = vec2_sub(moves(model, map, weakest, b.px), moves(model, map, weakest, a.px));
            double fast = fabs(vec2_dot(along, apart));
            if (fast > most) {
                most = fast;
                pair[0] = a.cross < b.cross ? a.cross : b.cross;
                pair[1] = a.cross < b.cross ? b.cross : a.cross;
            }
        }
    return most > 0;
}

static void tell(const char *file, const struct calibration_model *model, const struct geometry_map *map,
                 const double *weakest, struct err_list *errs)
{
    int pair[2] = { 0, 0 }, place = weakest_place(model, weakest);
    struct err_place where = base_err_in_file(file);
    if (place)
        base_err(errs, &open_place, where, ERR_NUMBER(place + 1));
    else if (!model->floats)
        base_err(errs, &open_picture, where, ERR_TEXT(weakest_spot(model, map, weakest)));
    else if (find_pair(model, map, weakest, pair))
        base_err(errs, &open_tape, where, ERR_NUMBER(pair[0]), ERR_NUMBER(pair[1]));
    else
        base_err(errs, &open_shape, where, ERR_TEXT(weakest_spot(model, map, weakest)));
}

bool calibration_is_fixed(const char *file, const struct calibration_model *model, const struct calibration_fit *fit,
                          const struct calibration_spread *spread, const struct calibration_doubt *doubt,
                          struct err_list *errs)
{
    double sigma = 0, worst = 0;
    for (size_t i = 0; i < model->readings->count; i++)
        sigma = fmax(sigma, calibration_model_sigma_mm(model, i));
    for (size_t i = 0; i < doubt->hull_count; i++)
        worst = fmax(worst, calibration_doubt_place_mm(&fit->at.map, doubt, doubt->hull[i]));
    if (spread->firmness > LEAST_FIRMNESS && worst <= (model->floats ? MOST_SIGMAS_AFLOAT : MOST_SIGMAS) * sigma)
        return true;
    tell(file, model, &fit->at.map, spread->weakest, errs);
    return false;
}

void calibration_tell_open(struct arena *scratch, const char *file, const struct calibration_model *model,
                           struct err_list *errs)
{
    struct calibration_fit fit = { .chi2 = 0 };
    struct calibration_spread spread;
    struct calibration_model same = *model;
    if (!calibration_begin_plain(scratch, model, (vec2){ 0, 0 }, &fit.at)) {
        base_err(errs, &open_anywhere, base_err_in_file(file), ERR_NONE);
        return;
    }
    calibration_model_weigh(&same, &fit.at.map);
    if (calibration_fit_spread(scratch, &same, &fit, &spread))
        tell(file, &same, &fit.at.map, spread.weakest, errs);
    else
        base_err(errs, &open_anywhere, base_err_in_file(file), ERR_NONE);
}
