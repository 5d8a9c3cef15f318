#include "calibration/accuse.h"

#define CODE "calibration.contradict", ERR_FAULT
#define ASIDE "calibration.aside", ERR_WARNING
#define OFF "cross {0} does not fit the others: it lies {1} off. "
#define TAPE_OFF "the distance from cross {0} to cross {1} does not fit the others: it is {2} off. "
#define LEFT_OUT "cross {0} was left out: it lies {1} off the others. "
#define TAPE_LEFT_OUT "the distance from cross {0} to cross {1} was left out: it is {2} off the others. "
#define ALONG " {2} along would fit, not {3}. Correct it, or read it again"
#define AWAY " {2} away from you would fit, not {3}. Correct it, or read it again"
#define BOTH " {2} along, {3} away would fit. Correct it, or read it again"

static const struct err_kind again = { CODE, OFF "Read it again, or leave it out" };
static const struct err_kind either = {
    CODE, "cross {0} or cross {2} does not fit the others: one of them lies some {1} off. Read both again"
};
static const struct err_kind several = {
    CODE, OFF "It is not alone, the others do not fit each other either. Read them all again"
};
static const struct err_kind some = {
    CODE, "the crosses do not fit each other, and {0} are too few to tell which is wrong. Read them again, and more of "
          "them"
};
static const struct err_kind tape_again = { CODE, TAPE_OFF "Measure it again, or leave it out" };
static const struct err_kind tape_meant = { CODE, TAPE_OFF "{3} would fit. Correct it, or measure it again" };
static const struct err_kind tape_cross = { CODE, TAPE_OFF "Was another cross meant? Measure it again" };
static const struct err_kind left_out = { ASIDE, LEFT_OUT "Read it again" };
static const struct err_kind left_out_meant = { ASIDE, LEFT_OUT "{2} along, {3} away would fit: correct it if so" };
static const struct err_kind left_out_cross = { ASIDE, LEFT_OUT "It would fit as cross {2}: correct it if so" };
static const struct err_kind tape_left_out = { ASIDE, TAPE_LEFT_OUT "Measure it again" };
static const struct err_kind tape_left_out_meant = { ASIDE, TAPE_LEFT_OUT "{3} would fit: correct it if so" };

/* What was probably meant, by which numbers are wrong. */
static const struct {
    struct err_kind along, away, both;
} meant[CALIBRATION_SLIPS] = {
    [CALIBRATION_SLIP_SWAPPED] = { .both = { CODE, OFF "Along and away exchanged?" BOTH } },
    [CALIBRATION_SLIP_LINE] = { .along = { CODE, OFF "One line off?" ALONG },
                                .away = { CODE, OFF "One line off?" AWAY } },
    [CALIBRATION_SLIP_INCH] = { .along = { CODE, OFF "One inch off?" ALONG },
                                .away = { CODE, OFF "One inch off?" AWAY } },
    [CALIBRATION_SLIP_CENTIMETRE] = { .along = { CODE, OFF "One centimetre off?" ALONG },
                                      .away = { CODE, OFF "One centimetre off?" AWAY } },
    [CALIBRATION_SLIP_UNIT] = { .along = { CODE, OFF "Inches taken for centimetres?" ALONG },
                                .away = { CODE, OFF "Inches taken for centimetres?" AWAY },
                                .both = { CODE, OFF "Inches taken for centimetres?" BOTH } },
    [CALIBRATION_SLIP_DIGITS] = { .along = { CODE, OFF "Two digits exchanged?" ALONG },
                                  .away = { CODE, OFF "Two digits exchanged?" AWAY } },
    [CALIBRATION_SLIP_CROSS] = { .both = { CODE, OFF "It would fit as cross {2}. Correct it, or read it again" } },
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
