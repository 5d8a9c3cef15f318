#include "sizing/plausible.h"

#include <math.h>
#include <string.h>

static const struct err_kind small_slip = {
    "sizing.question", ERR_WARNING,
    "{0} is small for {1}. Read in {2}? That is {3}. It counts as it is written until you correct it"
};
static const struct err_kind large_slip = {
    "sizing.question", ERR_WARNING,
    "{0} is large for {1}. Read in {2}? That is {3}. It counts as it is written until you correct it"
};
static const struct err_kind small = {
    "sizing.question", ERR_WARNING,
    "{0} is small for {1}: {2} is the least on record. Measure again; it counts as it is written until you correct it"
};
static const struct err_kind large = {
    "sizing.question", ERR_WARNING,
    "{0} is large for {1}: {2} is the most on record. Measure again; it counts as it is written until you correct it"
};

/* Extremes of the 1986 women of ANSUR II (2012 US Army anthropometric survey, public release of 2017), for bust, waist
 * and hip together with the classes of EN 13402-3 (2005): bust 74 to 131 cm, waist 58 to 115, hip 82 to 134.5. Of the
 * survey's names: chest, waist at the navel, buttock, neck base, biceps flexed, thigh, wrist, stature, waist back
 * length, shoulder length, sleeve outseam, crotch height. Underbust: ASTM D5585-11e1, 25 3/4 to 39 5/8 in. The upper
 * bust is in no survey at hand: the bust less 2 in, a B cup (common practice, no source). */
static const struct sizing_range ranges[] = {
    { "bust", "a full bust", 695, 1310 },
    { "upper bust", "an upper bust", 695 - 50.8, 1310 - 50.8 },
    { "underbust", "an underbust", 25.75 * UNITS_MM_PER_IN, 39.625 * UNITS_MM_PER_IN },
    { "waist", "a waist", 580, 1334 },
    { "hip", "a hip", 798, 1345 },
    { "neck", "a neck", 302, 457 },
    { "upper arm", "an upper arm", 216, 435 },
    { "thigh", "a thigh", 448, 870 },
    { "wrist", "a wrist", 124, 183 },
    { "height", "a height", 1409, 1829 },
    { "nape to waist", "a length from nape to waist", 345, 532 },
    { "back waist length", "a back waist length", 345, 532 },
    { "shoulder length", "one shoulder", 107, 175 },
    { "arm length", "an arm", 410, 662 },
    { "inside leg", "an inside leg", 610, 947 },
};

/* The number read in one unit and written down as another: what it has to be multiplied by. */
static const struct {
    enum units_length written;
    const char *read;
    double factor;
} slips[] = {
    { UNITS_CM, "inches", 2.54 },          { UNITS_CM, "millimetres", 1 / 10.0 },
    { UNITS_MM, "centimetres", 10 },       { UNITS_MM, "inches", UNITS_MM_PER_IN },
    { UNITS_IN, "centimetres", 1 / 2.54 }, { UNITS_IN, "millimetres", 1 / UNITS_MM_PER_IN },
};

static bool too_small(const struct sizing_range *range, double mm)
{
    return mm < range->least_mm * SIZING_WIDER_BELOW;
}

static bool too_large(const struct sizing_range *range, double mm)
{
    return mm > range->greatest_mm * SIZING_WIDER_ABOVE;
}

const struct sizing_range *sizing_range_find(const char *name)
{
    for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++)
        if (strcmp(ranges[i].name, name) == 0)
            return &ranges[i];
    return NULL;
}

struct sizing_question sizing_question_of(const char *name, double mm, enum units_length written)
{
    const struct sizing_range *range = sizing_range_find(name);
    if (!range || !(too_small(range, mm) || too_large(range, mm)))
        return (struct sizing_question){ NULL, false, NULL, 0 };
    struct sizing_question question = { range, too_small(range, mm), NULL, 0 };
    for (size_t i = 0; i < sizeof slips / sizeof slips[0] && !question.unit; i++) {
        double meant_mm = mm * slips[i].factor;
        if (slips[i].written != written || too_small(range, meant_mm) || too_large(range, meant_mm))
            continue;
        question.unit = slips[i].read;
        question.meant_mm = meant_mm;
    }
    return question;
}

/* What it would be is told as a tape shows it: to the millimetre or to an eighth of an inch. */
static double as_a_tape_shows(double mm, enum units_length unit)
{
    double mark_mm = unit == UNITS_IN ? UNITS_MM_PER_IN / 8 : 1;
    return round(mm / mark_mm) * mark_mm;
}

void sizing_question_ask(const struct sizing_measurement *m, enum units_length unit, struct sizing_question question,
                         struct err_list *errs)
{
    char written[UNITS_TEXT], beside[UNITS_TEXT];
    const struct sizing_range *range = question.range;
    units_print_length(written, m->mm, unit);
    if (question.unit) {
        units_print_length(beside, as_a_tape_shows(question.meant_mm, unit), unit);
        base_err(errs, question.small ? &small_slip : &large_slip, m->place, ERR_TEXT(written),
                 ERR_TEXT(range->in_sentence), ERR_TEXT(question.unit), ERR_TEXT(beside));
        return;
    }
    units_print_length(beside, as_a_tape_shows(question.small ? range->least_mm : range->greatest_mm, unit), unit);
    base_err(errs, question.small ? &small : &large, m->place, ERR_TEXT(written), ERR_TEXT(range->in_sentence),
             ERR_TEXT(beside));
}
