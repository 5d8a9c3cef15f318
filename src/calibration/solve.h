/* Readings into a map: least squares on the eleven terms of struct geometry_map, the three lens terms held near zero
 * by weak pseudo-readings (k1 = 0 ± 0.005, p1 = p2 = 0 ± 0.0025). Start: normalised direct linear transform (Hartley
 * 1997); refinement: GSL's trust-region Levenberg-Marquardt. */
#ifndef CALIBRATION_SOLVE_H
#define CALIBRATION_SOLVE_H

#include "calibration/readings.h"
#include "geometry/map.h"

enum calibration_lens {
    CALIBRATION_LENS_WEAK, /* lens terms solved under their weak pseudo-readings: what the product uses */
    CALIBRATION_LENS_NONE  /* lens terms held at zero: a plain homography, for checks against published ones */
};

struct calibration_solution {
    struct geometry_map map;
    double *residual_mm; /* one a reading: distance from where it was read to where the map puts it */
    vec2 *residual;      /* map minus reading, mm */
    double rms_mm, worst_mm;
    size_t worst; /* index of the reading with the largest residual */
    double chi2;  /* weighted sum of squares, pseudo-readings included */
};

/* Solves; everything lives in `a`. Refused with a sentence, false then, *out untouched: fewer than four crosses, all or
 * all but one of them in (or nearly in) one line, two readings of one pixel that fall far apart, readings that leave
 * the map open, readings that contradict each other (naming the one that fits worst and what was probably meant, two
 * when either may be wrong, none when there are too few to tell), a map that folds or whose horizon comes near the
 * frame. With fewer than nine readings it warns that a wrong one may go unnoticed. */
bool calibration_solve(struct arena *a, const char *file, const struct calibration_readings *readings,
                       enum calibration_lens lens, struct calibration_solution *out, struct err_list *errs);

/* Readings may agree with each other and still all be made the wrong way: warns of a map that mirrors, stretches or is
 * of a size that no ordinary projector's is. `file` names the readings; may be NULL. */
void calibration_question(const char *file, const struct geometry_map *map, struct err_list *errs);

#endif
