#include "calibration/repair.h"

#include <math.h>

/* The candidate has to fit as well as 99.9 % of true readings do. */
#define LEAST_CHANCE 0.001

enum { CANDIDATES = 64, MOST_DIGITS = 6 };

/* One unit more or less is a slip of the eye along a row of equal lines. */
static const struct {
    enum calibration_slip slip;
    double mm; /* 0: the mat's ruling */
} steps[] = {
    { CALIBRATION_SLIP_LINE, 0 },
    { CALIBRATION_SLIP_INCH, UNITS_MM_PER_IN },
    { CALIBRATION_SLIP_CENTIMETRE, 10 },
};
enum { STEPS = sizeof steps / sizeof steps[0] };

static const char *const slip_names[CALIBRATION_SLIPS] = {
    [CALIBRATION_SLIP_NONE] = "none",     [CALIBRATION_SLIP_SWAPPED] = "swapped", [CALIBRATION_SLIP_LINE] = "line",
    [CALIBRATION_SLIP_INCH] = "inch",     [CALIBRATION_SLIP_CENTIMETRE] = "cm",   [CALIBRATION_SLIP_UNIT] = "unit",
    [CALIBRATION_SLIP_DIGITS] = "digits", [CALIBRATION_SLIP_CROSS] = "cross",
};

const char *calibration_slip_name(enum calibration_slip slip)
{
    return slip_names[slip];
}

struct candidates {
    struct calibration_repair items[CANDIDATES];
    size_t count;
};

static void add(struct candidates *to, enum calibration_slip slip, bool away, struct calibration_reading repaired)
{
    if (to->count < CANDIDATES)
        to->items[to->count++] = (struct calibration_repair){ .slip = slip, .away = away, .repaired = repaired };
}

/* The number that a slip may have spoilt: of a distance its only one. */
static double *number_of(struct calibration_reading *r, bool away)
{
    if (r->kind == CALIBRATION_DISTANCE)
        return &r->distance_mm;
    return away ? &r->at.y : &r->at.x;
}

static void add_number(struct candidates *to, enum calibration_slip slip, bool away, struct calibration_reading r,
                       double mm)
{
    *number_of(&r, away) = mm;
    add(to, slip, away, r);
}

/* Two neighbouring digits of the number exchanged, as it is written in the unit: mm whole, cm to a tenth, inches whole;
 * what is finer stays. */
static void add_digits(struct candidates *to, enum units_length unit, bool away, struct calibration_reading r)
{
    static const double digit_mm[] = { [UNITS_MM] = 1, [UNITS_CM] = 1, [UNITS_IN] = UNITS_MM_PER_IN };
    double mm = *number_of(&r, away), size = fabs(mm), one = digit_mm[unit];
    long digits = (long)floor(size / one + 1e-9), place = 1;
    for (int i = 0; i < MOST_DIGITS && place * 10 <= digits; i++, place *= 10) {
        long low = digits / place % 10, high = digits / (place * 10) % 10;
        double moved = size + one * (double)((low - high) * 9 * place);
        if (low != high)
            add_number(to, CALIBRATION_SLIP_DIGITS, away, r, mm < 0 ? -moved : moved);
    }
}

static void add_slips_of_number(struct candidates *to, const struct calibration_readings *readings, bool away,
                                struct calibration_reading r)
{
    double mm = *number_of(&r, away);
    for (int s = 0; s < STEPS; s++) {
        double step = steps[s].mm > 0 ? steps[s].mm : readings->mat.ruling_mm; /* 0: no mat is named */
        for (int sign = -1; step > 0 && sign <= 1; sign += 2)
            add_number(to, steps[s].slip, away, r, mm + sign * step);
    }
    add_number(to, CALIBRATION_SLIP_UNIT, away, r, mm * UNITS_MM_PER_IN / 10);
    add_number(to, CALIBRATION_SLIP_UNIT, away, r, mm * 10 / UNITS_MM_PER_IN);
    add_digits(to, readings->unit, away, r);
}

static void add_slips_of_both(struct candidates *to, struct calibration_reading r)
{
    struct calibration_reading swapped = r, in_inches = r, in_cm = r;
    swapped.at = (struct table_pt){ r.at.y, r.at.x };
    in_inches.at = (struct table_pt){ r.at.x * UNITS_MM_PER_IN / 10, r.at.y * UNITS_MM_PER_IN / 10 };
    in_cm.at = (struct table_pt){ r.at.x * 10 / UNITS_MM_PER_IN, r.at.y * 10 / UNITS_MM_PER_IN };
    add(to, CALIBRATION_SLIP_SWAPPED, false, swapped);
    add(to, CALIBRATION_SLIP_UNIT, false, in_inches);
    add(to, CALIBRATION_SLIP_UNIT, false, in_cm);
}

/* The better candidate so far by how well it fits. */
struct best {
    struct calibration_repair repair;
    double t;
};

/* Tries one candidate in the reading's stead; the model's weights stay. */
static void consider(const struct calibration_model *model, const struct calibration_fit *fit,
                     const struct calibration_spread *spread, const struct calibration_repair *candidate, size_t index,
                     struct best *best)
{
    struct calibration_reading *item = &model->readings->items[index], keep = *item;
    *item = candidate->repaired;
    struct calibration_misfit m = calibration_misfit_beside(model, fit, spread, index);
    *item = keep;
    if (m.rows == 0 || calibration_misfit_chance(m.t, m.rows) < LEAST_CHANCE || m.t >= best->t)
        return;
    best->repair = *candidate;
    best->t = m.t;
}

/* The same numbers, but of another cross that was read. */
static void try_crosses(const struct calibration_model *model, const struct calibration_fit *fit,
                        const struct calibration_spread *spread, size_t index, struct best *best)
{
    const struct calibration_readings *readings = model->readings;
    struct calibration_reading r = readings->items[index];
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *other = &readings->items[i];
        if (other->cross == r.cross || (r.kind == CALIBRATION_DISTANCE && other->cross == r.other))
            continue;
        struct calibration_repair candidate = { .slip = CALIBRATION_SLIP_CROSS, .repaired = r };
        candidate.repaired.cross = other->cross;
        candidate.repaired.px = other->px;
        consider(model, fit, spread, &candidate, index, best);
        if (r.kind != CALIBRATION_DISTANCE)
            continue;
        candidate.repaired = r;
        candidate.repaired.other = other->cross;
        candidate.repaired.other_px = other->px;
        if (other->cross != r.cross)
            consider(model, fit, spread, &candidate, index, best);
    }
}

double calibration_off_mm(const struct calibration_unknowns *at, const struct calibration_reading *r)
{
    struct table_pt is = geometry_map_to_table(&at->map, r->px);
    if (r->kind == CALIBRATION_DISTANCE) {
        struct table_pt end = geometry_map_to_table(&at->map, r->other_px);
        return fabs(vec2_length((vec2){ end.x - is.x, end.y - is.y }) - r->distance_mm);
    }
    struct table_pt read = calibration_pose_to_table(at, r->place, r->at);
    return vec2_length((vec2){ is.x - read.x, is.y - read.y });
}

/* A copy whose readings may be put in each other's stead. */
static struct calibration_model copy_of(struct arena *scratch, const struct calibration_model *model)
{
    struct calibration_model copy = *model;
    struct calibration_readings *readings = base_arena_alloc(scratch, 1, sizeof *readings);
    *readings = *model->readings;
    readings->items = base_arena_alloc(scratch, readings->count, sizeof *readings->items);
    for (size_t i = 0; i < readings->count; i++)
        readings->items[i] = model->readings->items[i];
    copy.readings = readings;
    return copy;
}

struct calibration_repair calibration_repair_of(struct arena *scratch, const struct calibration_model *model,
                                                const struct calibration_fit *fit,
                                                const struct calibration_spread *spread, size_t index)
{
    struct calibration_reading r = model->readings->items[index];
    struct calibration_model copy = copy_of(scratch, model);
    struct candidates candidates = { .count = 0 };
    struct best best = { { .slip = CALIBRATION_SLIP_NONE, .repaired = r }, INFINITY };
    add_slips_of_number(&candidates, model->readings, false, r);
    if (r.kind != CALIBRATION_DISTANCE) {
        add_slips_of_both(&candidates, r);
        add_slips_of_number(&candidates, model->readings, true, r);
    }
    for (size_t i = 0; i < candidates.count; i++)
        consider(&copy, fit, spread, &candidates.items[i], index, &best);
    try_crosses(&copy, fit, spread, index, &best);
    best.repair.index = index;
    best.repair.off_mm = calibration_off_mm(&fit->at, &r);
    return best.repair;
}
