#include "calibration/matscale.h"

#include "calibration/fit.h"

#include <math.h>

#define MOST_SIGMA 0.005
#define SIGMAS 3
#define TAPE_OFF 0.0005
#define LEAST_FIRMNESS 1e-9

static bool mixes(const struct calibration_readings *readings)
{
    bool taped = false, ruled = false;
    for (size_t i = 0; i < readings->count; i++) {
        bool distance = readings->items[i].kind == CALIBRATION_DISTANCE;
        taped = taped || distance;
        ruled = ruled || !distance;
    }
    return taped && ruled;
}

bool calibration_matscale(struct arena *scratch, const struct calibration_readings *readings,
                          enum calibration_lens lens, struct calibration_matscale *out)
{
    struct calibration_model model = calibration_model_of(scratch, readings, lens, CALIBRATION_STRETCH);
    struct calibration_fit fit;
    struct calibration_spread spread;
    if (!mixes(readings) || !calibration_fit(scratch, &model, NULL, &fit) ||
        !calibration_fit_spread(scratch, &model, &fit, &spread) || spread.firmness <= LEAST_FIRMNESS)
        return false;
    size_t along = model.terms - 2, away = model.terms - 1;
    out->along = fit.at.stretch[0];
    out->away = fit.at.stretch[1];
    out->sigma_along = sqrt(spread.covariance[along][along]) * calibration_model_unit(&model, along);
    out->sigma_away = sqrt(spread.covariance[away][away]) * calibration_model_unit(&model, away);
    return out->sigma_along <= MOST_SIGMA && out->sigma_away <= MOST_SIGMA;
}

static bool is_off(double part, double sigma)
{
    return fabs(part) > SIGMAS * sigma && fabs(part) > TAPE_OFF;
}

bool calibration_matscale_is_off(const struct calibration_matscale *scale)
{
    return is_off(scale->along, scale->sigma_along) || is_off(scale->away, scale->sigma_away);
}

struct calibration_readings calibration_matscale_follow(struct arena *a, const struct calibration_readings *readings,
                                                        const struct calibration_matscale *scale)
{
    struct calibration_readings followed = *readings;
    followed.items = base_arena_alloc(a, readings->count, sizeof *followed.items);
    for (size_t i = 0; i < readings->count; i++) {
        followed.items[i] = readings->items[i];
        followed.items[i].at.x *= 1 + scale->along;
        followed.items[i].at.y *= 1 + scale->away;
    }
    return followed;
}
