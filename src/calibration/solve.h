/* Readings into a map: least squares on the eleven terms of struct geometry_map, and a turn and shift for each further
 * place where the mat lay (model.h). Start: normalised direct linear transform (Hartley 1997); refinement: GSL's
 * trust-region Levenberg-Marquardt, with the covariance kept. */
#ifndef CALIBRATION_SOLVE_H
#define CALIBRATION_SOLVE_H

#include "calibration/doubt.h"
#include "calibration/matscale.h"
#include "calibration/move.h"
#include "calibration/repair.h"
#include "geometry/map.h"

struct calibration_solution {
    struct geometry_map map;
    struct calibration_doubt doubt; /* its crosses are those that counted */
    double *residual_mm;            /* one a reading: distance from where it was read to where the map puts it */
    vec2 *residual;                 /* map minus reading on the table, mm; of a taped distance (longer by the map, 0) */
    double rms_mm, worst_mm;        /* of the readings that counted */
    size_t worst;                   /* index of the reading with the largest residual of those */
    double chi2;                    /* weighted sum of squares, pseudo-readings included */
    int freedom;                    /* rows beyond the terms they fix; chi2 is about as much */
    struct calibration_pose pose[CALIBRATION_MOST_PLACES]; /* how the mat lay at each place */
    bool floats; /* only distances: size and shape are fixed, not where the picture lies nor which way round */
    bool has_matscale;
    struct calibration_matscale matscale;
    struct calibration_repair *aside; /* readings that did not count, and what was probably meant */
    size_t aside_count;
};

/* Solves; everything lives in `a`. Refused with a sentence, false then, *out untouched: fewer than four crosses, all or
 * all but one of them in (or nearly in) one line, two readings of one pixel that fall far apart, readings that leave
 * the map open (naming one to add), readings that contradict each other (naming the one that fits worst and what was
 * probably meant, two when either may be wrong, none when there are too few to tell), a map that folds or whose horizon
 * comes near the frame. Warned of: fewer than nine readings, as a wrong one may go unnoticed; distances alone; rulings
 * that a tape shows to be off. */
bool calibration_solve(struct arena *a, const char *file, const struct calibration_readings *readings,
                       enum calibration_lens lens, struct calibration_solution *out, struct err_list *errs);

/* The same, but one or two readings that contradict the others are set aside with a warning. Refused still: when it
 * cannot be told which. */
bool calibration_solve_without_mistakes(struct arena *a, const char *file, const struct calibration_readings *readings,
                                        enum calibration_lens lens, struct calibration_solution *out,
                                        struct err_list *errs);

/* Whether the reading last made, of four and more, lies farther from where those before put it than 3.7 times what both
 * leave open (once in a thousand for a true one); *out is then what was probably meant. The three readings before a
 * fourth put it by a projector that hangs tilted by 25° at most. False also when those before put it nowhere. */
bool calibration_last_is_doubtful(const struct calibration_readings *readings, struct calibration_repair *out);

/* The map of a solution that floats, laid where a person says: turned, shifted, turned over (calibration/move.h). Its
 * doubt goes along. */
void calibration_lay(struct calibration_solution *solution, struct calibration_move move);

/* Readings may agree with each other and still all be made the wrong way: warns of a map that mirrors, stretches or is
 * of a size that no ordinary projector's is. `file` names the readings; may be NULL. */
void calibration_question(const char *file, const struct geometry_map *map, struct err_list *errs);

#endif
