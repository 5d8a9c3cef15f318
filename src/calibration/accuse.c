#include "calibration/accuse.h"

#define CODE "calibration.contradict", ERR_FAULT
#define ASIDE "calibration.aside", ERR_WARNING

static const struct err_kind again = {
    CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. Read it again, or leave it out")
};
static const struct err_kind either = {
    CODE, BASE_TR("cross {0} or cross {2} does not fit the others: one of them lies some {1} off. Read both again")
};
static const struct err_kind several = { CODE,
                                         BASE_TR("cross {0} does not fit the others: it lies {1} off. It is not alone, "
                                                 "the others do not fit each other either. Read them all again") };
static const struct err_kind some = { CODE, BASE_TR("the crosses do not fit each other, and {0} are too few to tell "
                                                    "which is wrong. Read them again, and more of them") };
static const struct err_kind tape_again = { CODE, BASE_TR("the distance from cross {0} to cross {1} does not fit the "
                                                          "others: it is {2} off. Measure it again, or leave it out") };
static const struct err_kind tape_meant = { CODE,
                                            BASE_TR("the distance from cross {0} to cross {1} does not fit the others: "
                                                    "it is {2} off. {3} would fit. Correct it, or measure it again") };
static const struct err_kind tape_cross = { CODE,
                                            BASE_TR("the distance from cross {0} to cross {1} does not fit the others: "
                                                    "it is {2} off. Was another cross meant? Measure it again") };
static const struct err_kind left_out = {
    ASIDE, BASE_TR("cross {0} was left out: it lies {1} off the others. Read it again")
};
static const struct err_kind left_out_meant = {
    ASIDE,
    BASE_TR("cross {0} was left out: it lies {1} off the others. {2} along, {3} away would fit: correct it if so")
};
static const struct err_kind left_out_cross = {
    ASIDE, BASE_TR("cross {0} was left out: it lies {1} off the others. It would fit as cross {2}: correct it if so")
};
static const struct err_kind tape_left_out = {
    ASIDE,
    BASE_TR("the distance from cross {0} to cross {1} was left out: it is {2} off the others. Measure it again")
};
static const struct err_kind tape_left_out_meant = {
    ASIDE, BASE_TR("the distance from cross {0} to cross {1} was left out: it is {2} off the others. {3} would fit: "
                   "correct it if so")
};

/* What was probably meant, by which numbers are wrong. */
static const struct {
    struct err_kind along, away, both;
} meant[CALIBRATION_SLIPS] = {
    [CALIBRATION_SLIP_SWAPPED] = { .both = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. Along "
                                                           "and away exchanged? {2} along, {3} away would fit. Correct "
                                                           "it, or read it again") } },
    [CALIBRATION_SLIP_LINE] = { .along = { CODE,
                                           BASE_TR("cross {0} does not fit the others: it lies {1} off. One line off? "
                                                   "{2} along would fit, not {3}. Correct it, or read it again") },
                                .away = { CODE,
                                          BASE_TR(
                                              "cross {0} does not fit the others: it lies {1} off. One line off? {2} "
                                              "away from you would fit, not {3}. Correct it, or read it again") } },
    [CALIBRATION_SLIP_INCH] = { .along = { CODE,
                                           BASE_TR("cross {0} does not fit the others: it lies {1} off. One inch off? "
                                                   "{2} along would fit, not {3}. Correct it, or read it again") },
                                .away = { CODE,
                                          BASE_TR(
                                              "cross {0} does not fit the others: it lies {1} off. One inch off? {2} "
                                              "away from you would fit, not {3}. Correct it, or read it again") } },
    [CALIBRATION_SLIP_CENTIMETRE] = { .along = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. "
                                                               "One centimetre off? {2} along would fit, not {3}. "
                                                               "Correct it, or read it again") },
                                      .away = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. One "
                                                              "centimetre off? {2} away from you would fit, not {3}. "
                                                              "Correct it, or read it again") } },
    [CALIBRATION_SLIP_UNIT] = { .along = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. Inches "
                                                         "taken for centimetres? {2} along would fit, not {3}. Correct "
                                                         "it, or read it again") },
                                .away = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. Inches "
                                                        "taken for centimetres? {2} away from you would fit, not {3}. "
                                                        "Correct it, or read it again") },
                                .both = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. Inches "
                                                        "taken for centimetres? {2} along, {3} away would fit. Correct "
                                                        "it, or read it again") } },
    [CALIBRATION_SLIP_DIGITS] = { .along = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. Two "
                                                           "digits exchanged? {2} along would fit, not {3}. Correct "
                                                           "it, or read it again") },
                                  .away = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. Two "
                                                          "digits exchanged? {2} away from you would fit, not {3}. "
                                                          "Correct it, or read it again") } },
    [CALIBRATION_SLIP_CROSS] = { .both = { CODE, BASE_TR("cross {0} does not fit the others: it lies {1} off. It would "
                                                         "fit as cross {2}. Correct it, or read it again") } },
};

static void accuse_distance(const char *file, const struct calibration_reading *r,
                            const struct calibration_repair *repair, struct err_list *errs)
{
    const struct err_kind *kind = &tape_meant;
    if (repair->slip == CALIBRATION_SLIP_NONE)
        kind = &tape_again;
    else if (repair->slip == CALIBRATION_SLIP_CROSS)
        kind = &tape_cross;
    base_err(errs, kind, base_err_in_file(file), ERR_NUMBER(r->cross), ERR_NUMBER(r->other), ERR_MM(repair->off_mm),
             ERR_MM(repair->repaired.distance_mm));
}

static void accuse_one(const char *file, const struct calibration_reading *r, const struct calibration_repair *repair,
                       struct err_list *errs)
{
    const struct calibration_reading *is = &repair->repaired;
    struct err_place where = base_err_in_file(file);
    struct err_arg cross = ERR_NUMBER(r->cross), off = ERR_MM(repair->off_mm);
    bool both = is->at.x != r->at.x && is->at.y != r->at.y;
    if (r->kind == CALIBRATION_DISTANCE)
        accuse_distance(file, r, repair, errs);
    else if (repair->slip == CALIBRATION_SLIP_NONE)
        base_err(errs, &again, where, cross, off);
    else if (repair->slip == CALIBRATION_SLIP_CROSS)
        base_err(errs, &meant[repair->slip].both, where, cross, off, ERR_NUMBER(is->cross));
    else if (both || repair->slip == CALIBRATION_SLIP_SWAPPED)
        base_err(errs, &meant[repair->slip].both, where, cross, off, ERR_MM(is->at.x), ERR_MM(is->at.y));
    else if (repair->away)
        base_err(errs, &meant[repair->slip].away, where, cross, off, ERR_MM(is->at.y), ERR_MM(r->at.y));
    else
        base_err(errs, &meant[repair->slip].along, where, cross, off, ERR_MM(is->at.x), ERR_MM(r->at.x));
}

void calibration_accuse(const char *file, const struct calibration_readings *readings, enum calibration_verdict verdict,
                        const struct calibration_repair *repairs, struct err_list *errs)
{
    const struct calibration_reading *first = &readings->items[repairs[0].index];
    const struct calibration_reading *second = &readings->items[repairs[1].index];
    struct err_place where = base_err_in_file(file);
    switch (verdict) {
    case CALIBRATION_AGREE:
        break;
    case CALIBRATION_TWO_WRONG:
        accuse_one(file, first, &repairs[0], errs);
        accuse_one(file, second, &repairs[1], errs);
        break;
    case CALIBRATION_ONE_WRONG:
        accuse_one(file, first, &repairs[0], errs);
        break;
    case CALIBRATION_EITHER_WRONG:
        base_err(errs, &either, where, ERR_NUMBER(first->cross), ERR_MM(repairs[0].off_mm), ERR_NUMBER(second->cross));
        break;
    case CALIBRATION_SEVERAL_WRONG:
        base_err(errs, &several, where, ERR_NUMBER(first->cross), ERR_MM(repairs[0].off_mm));
        break;
    case CALIBRATION_UNCLEAR:
        base_err(errs, &some, where, ERR_NUMBER(readings->count));
        break;
    }
}

void calibration_tell_aside(const char *file, const struct calibration_readings *readings,
                            const struct calibration_repair *repair, struct err_list *errs)
{
    const struct calibration_reading *r = &readings->items[repair->index], *is = &repair->repaired;
    struct err_place where = base_err_in_file(file);
    struct err_arg cross = ERR_NUMBER(r->cross), off = ERR_MM(repair->off_mm);
    bool unknown = repair->slip == CALIBRATION_SLIP_NONE, other_cross = repair->slip == CALIBRATION_SLIP_CROSS;
    if (r->kind == CALIBRATION_DISTANCE)
        base_err(errs, unknown || other_cross ? &tape_left_out : &tape_left_out_meant, where, cross,
                 ERR_NUMBER(r->other), off, ERR_MM(is->distance_mm));
    else if (unknown)
        base_err(errs, &left_out, where, cross, off);
    else if (other_cross)
        base_err(errs, &left_out_cross, where, cross, off, ERR_NUMBER(is->cross));
    else
        base_err(errs, &left_out_meant, where, cross, off, ERR_MM(is->at.x), ERR_MM(is->at.y));
}
