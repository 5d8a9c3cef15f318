/* Questioning a reading as it is made. */
#include "calibration/mistake.h"
#include "calibration/solve.h"

enum { LEAST_BEFORE = 3, LEAST_UNTILTED = 4 };

/* 3.7 squared: two numbers lie so far off by chance once in a thousand. */
#define DOUBTFUL_T 13.69

/* Where nothing near it was read yet, a place is open by more than it helps to ask about. */
#define LEAST_FIRMNESS 1e-9

bool calibration_last_is_doubtful(const struct calibration_readings *readings, struct calibration_repair *out)
{
    size_t last = readings->count - 1;
    if (readings->count <= LEAST_BEFORE)
        return false;
    struct arena *scratch = base_arena_create();
    struct calibration_readings before = calibration_readings_without(scratch, readings, &last, 1);
    int options = before.count < LEAST_UNTILTED ? CALIBRATION_TILTED : 0;
    struct calibration_model model = calibration_model_of(scratch, &before, CALIBRATION_LENS_WEAK, options);
    struct calibration_model all = calibration_model_of(scratch, readings, CALIBRATION_LENS_WEAK, options);
    struct calibration_fit fit;
    struct calibration_spread spread;
    bool doubtful = false;
    if (model.terms == all.terms && model.floats == all.floats && calibration_fit(scratch, &model, NULL, &fit) &&
        calibration_fit_spread(scratch, &model, &fit, &spread) && spread.firmness > LEAST_FIRMNESS) {
        calibration_model_weigh(&all, &fit.at.map);
        doubtful = calibration_misfit_beside(&all, &fit, &spread, last).t > DOUBTFUL_T;
        if (doubtful)
            *out = calibration_repair_of(scratch, &all, &fit, &spread, last);
    }
    base_arena_destroy(scratch);
    return doubtful;
}
