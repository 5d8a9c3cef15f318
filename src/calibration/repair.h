/* What was probably meant by a reading that does not fit the others. */
#ifndef CALIBRATION_REPAIR_H
#define CALIBRATION_REPAIR_H

#include "calibration/misfit.h"

enum calibration_slip {
    CALIBRATION_SLIP_NONE, /* no likely slip makes it fit */
    CALIBRATION_SLIP_SWAPPED,
    CALIBRATION_SLIP_LINE,
    CALIBRATION_SLIP_INCH,
    CALIBRATION_SLIP_CENTIMETRE,
    CALIBRATION_SLIP_UNIT, /* inches written as centimetres, or the other way round */
    CALIBRATION_SLIP_DIGITS,
    CALIBRATION_SLIP_CROSS, /* it is another cross's */
    CALIBRATION_SLIPS
};

/* "swapped", "line" …: the name in a JSON text. */
const char *calibration_slip_name(enum calibration_slip slip);

struct calibration_repair {
    size_t index; /* of the reading */
    enum calibration_slip slip;
    bool away;                           /* the number away from the person, not along, is the wrong one */
    struct calibration_reading repaired; /* as it was probably meant; as it is when nothing fits */
    double off_mm;                       /* how far the reading is from where the others put it */
};

/* `fit` and `spread` are of the others alone, `model` of all. */
struct calibration_repair calibration_repair_of(struct arena *scratch, const struct calibration_model *model,
                                                const struct calibration_fit *fit,
                                                const struct calibration_spread *spread, size_t index);

/* How far a reading is from where a fit puts it, mm. */
double calibration_off_mm(const struct calibration_unknowns *at, const struct calibration_reading *reading);

#endif
