/* What readings say, as equations: the unknowns of a calibration, by how much they miss each reading, and how that
 * moves with them. Not: finding the unknowns, which is fit.h's.
 *
 * A reading is met when map(px) = pose(stretch(at)) for a position or a nudge, |map(px) - map(other px)| = distance for
 * a tape. A row is such a difference in units of its sigma; of a nudge that is sigma_px² J Jᵀ + sigma_eye² I, J being
 * the map's Jacobian there, and its two rows are freed of each other (L⁻¹ with L Lᵀ that matrix). Three weak
 * pseudo-readings hold the lens (k1 = 0 ± 0.005, p1 = p2 = 0 ± 0.0025). */
#ifndef CALIBRATION_MODEL_H
#define CALIBRATION_MODEL_H

#include "calibration/readings.h"
#include "geometry/map.h"

enum calibration_lens {
    CALIBRATION_LENS_WEAK, /* lens terms solved under their weak pseudo-readings: what the product uses */
    CALIBRATION_LENS_NONE  /* lens terms held at zero: a plain homography, for checks against published ones */
};

enum {
    CALIBRATION_POSE_TERMS = 3,
    CALIBRATION_STRETCH_TERMS = 2,
    CALIBRATION_MOST_TERMS =
        GEOMETRY_MAP_TERMS + CALIBRATION_POSE_TERMS * (CALIBRATION_MOST_PLACES - 1) + CALIBRATION_STRETCH_TERMS
};

/* How the mat lay at a place, seen from the first: what its rulings call (x, y) is at R(turn) (x, y) + shift. */
struct calibration_pose {
    vec2 shift_mm;
    double turn_rad;
};

struct calibration_unknowns {
    struct geometry_map map;
    struct calibration_pose pose[CALIBRATION_MOST_PLACES]; /* the first stays zero */
    double stretch[CALIBRATION_STRETCH_TERMS];             /* what the rulings call x is at x (1 + stretch) */
};

struct calibration_whitening; /* inside model.c: a reading's sigmas */

struct calibration_model {
    const struct calibration_readings *readings; /* borrowed */
    size_t places;                               /* places of the mat, 1 or more */
    bool lens;                                   /* the lens terms are solved for */
    bool floats;  /* no reading says where on the table: the first distance lies along x from zero (0.001 mm) */
    bool tilted;  /* h20 and h21 are held by 0 ± 0.15, as of a projector tilted by 25° at most: for three readings */
    bool stretch; /* the rulings' stretch is solved for */
    size_t terms, rows;
    struct calibration_whitening *white; /* one a reading */
};

enum calibration_model_options { CALIBRATION_TILTED = 1, CALIBRATION_STRETCH = 2 };

/* The equations of readings; lives in `a`. Nudges weigh as at `weighed_at`, set by calibration_model_weigh. */
struct calibration_model calibration_model_of(struct arena *a, const struct calibration_readings *readings,
                                              enum calibration_lens lens, int options);

/* The weights of nudges, from what a pixel is under a map. True when any weight hangs on it. */
bool calibration_model_weigh(struct calibration_model *model, const struct geometry_map *map);

/* Unknowns as a row of numbers near one, for a solver, and back; terms that are not solved for are zero. */
void calibration_model_pack(const struct calibration_model *model, const struct calibration_unknowns *at, double *x);
struct calibration_unknowns calibration_model_unpack(const struct calibration_model *model, const double *x);

/* How much a term is for each 1 in the row of numbers. */
double calibration_model_unit(const struct calibration_model *model, size_t term);

/* The one or two rows of a reading: misses in sigmas, and (gradient not NULL) how they move with the packed terms. How
 * many it was. What a map on its way makes of a place may not be finite. */
size_t calibration_model_reading(const struct calibration_model *model, const struct calibration_unknowns *at,
                                 size_t index, double miss[2], double gradient[2][CALIBRATION_MOST_TERMS]);

/* The rows that are no readings: of the lens, of what floats, of the tilt. How many; at most 8. */
size_t calibration_model_pseudo(const struct calibration_model *model, const struct calibration_unknowns *at,
                                double miss[8], double gradient[8][CALIBRATION_MOST_TERMS]);

/* Where on the table what the rulings call `rulings` is, at a place of the mat. */
struct table_pt calibration_pose_to_table(const struct calibration_unknowns *at, int place, struct table_pt rulings);

/* The sigma that a reading is weighed by; of a nudge along the worse direction, mm. */
double calibration_model_sigma_mm(const struct calibration_model *model, size_t index);

#endif
