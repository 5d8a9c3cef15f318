#include "sizing/plausible.h"
#include "base/words.h"

#include <math.h>
#include <string.h>

static const struct err_kind small_slip = {
    "sizing.question", ERR_WARNING,
    BASE_TR("{0} is small for {1}. Read in {2}? That is {3}. It counts as it is written until you correct it")
};
static const struct err_kind large_slip = {
    "sizing.question", ERR_WARNING,
    BASE_TR("{0} is large for {1}. Read in {2}? That is {3}. It counts as it is written until you correct it")
};
static const struct err_kind small = { "sizing.question", ERR_WARNING,
                                       BASE_TR("{0} is small for {1}: {2} is the least on record. Measure again; it "
                                               "counts as it is written until you correct it") };
static const struct err_kind large = { "sizing.question", ERR_WARNING,
                                       BASE_TR("{0} is large for {1}: {2} is the most on record. Measure again; it "
                                               "counts as it is written until you correct it") };

static const struct err_kind small_beside = { "sizing.question", ERR_WARNING,
                                              BASE_TR("{0} is small for {1}: the pattern is drawn for {2} in all "
                                                      "sizes. Measure again; it counts as it is written until "
                                                      "you correct it") };
static const struct err_kind large_beside = { "sizing.question", ERR_WARNING,
                                              BASE_TR("{0} is large for {1}: the pattern is drawn for {2} in all "
                                                      "sizes. Measure again; it counts as it is written until "
                                                      "you correct it") };

static const struct err_kind at_odds = { "sizing.at_odds", ERR_WARNING,
                                         BASE_TR("{1} of {0} hardly goes with {3} of {2}. Measure both again; they "
                                                 "count as they are written until you correct them") };

/* Extremes of the 1986 women of ANSUR II (2012 US Army anthropometric survey, public release of 2017), for bust, waist
 * and hip together with the classes of EN 13402-3 (2005): bust 74 to 131 cm, waist 58 to 115, hip 82 to 134.5. Of the
 * survey's names: chest, waist at the navel, buttock, neck base, biceps flexed, thigh, wrist, stature, waist back
 * length, shoulder length, sleeve outseam, crotch height. Underbust: ASTM D5585-11e1, 25 3/4 to 39 5/8 in. The upper
 * bust is in no survey at hand: the bust less 2 in, a B cup (common practice, no source). */
static const struct sizing_range ranges[] = {
    /* To: stands in “94 cm is small for a full bust” and “a full bust of 94 cm hardly goes with …” */
    { "bust", BASE_TR("a full bust"), 695, 1310 },
    { "upper bust", BASE_TR("an upper bust"), 695 - 50.8, 1310 - 50.8 },
    { "underbust", BASE_TR("an underbust"), 25.75 * UNITS_MM_PER_IN, 39.625 * UNITS_MM_PER_IN },
    { "waist", BASE_TR("a waist"), 580, 1334 },
    { "hip", BASE_TR("a hip"), 798, 1345 },
    { "neck", BASE_TR("a neck"), 302, 457 },
    { "upper arm", BASE_TR("an upper arm"), 216, 435 },
    { "thigh", BASE_TR("a thigh"), 448, 870 },
    { "wrist", BASE_TR("a wrist"), 124, 183 },
    { "height", BASE_TR("a height"), 1409, 1829 },
    { "nape to waist", BASE_TR("a length from nape to waist"), 345, 532 },
    { "back waist length", BASE_TR("a back waist length"), 345, 532 },
    { "shoulder length", BASE_TR("one shoulder"), 107, 175 },
    { "arm length", BASE_TR("an arm"), 410, 662 },
    { "inside leg", BASE_TR("an inside leg"), 610, 947 },
};

/* How much the first measurement of a person may exceed the second. Cups are lettered by the inch of difference, so
 * these hold from a flat chest on a broad back to far past the largest cup that is sold (our own, no source). */
static const struct {
    const char *names[2];
    double least_mm, most_mm;
} pairs[] = {
    { { "bust", "upper bust" }, -50, 300 },
    { { "bust", "underbust" }, -20, 450 },
};

/* The number read in one unit and written down as another: what it has to be multiplied by. */
static const struct {
    enum units_length written;
    const char *read;
    double factor;
} slips[] = {
    { UNITS_CM, BASE_TR("inches"), 2.54 },          { UNITS_CM, BASE_TR("millimetres"), 1 / 10.0 },
    { UNITS_MM, BASE_TR("centimetres"), 10 },       { UNITS_MM, BASE_TR("inches"), UNITS_MM_PER_IN },
    { UNITS_IN, BASE_TR("centimetres"), 1 / 2.54 }, { UNITS_IN, BASE_TR("millimetres"), 1 / UNITS_MM_PER_IN },
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

static struct sizing_question question_of(const struct sizing_range *range, double mm, enum units_length written)
{
    if (!range || !(too_small(range, mm) || too_large(range, mm)))
        return (struct sizing_question){ .range = NULL };
    struct sizing_question question = { .range = range, .small = too_small(range, mm) };
    for (size_t i = 0; i < sizeof slips / sizeof slips[0] && !question.unit; i++) {
        double meant_mm = mm * slips[i].factor;
        if (slips[i].written != written || too_small(range, meant_mm) || too_large(range, meant_mm))
            continue;
        question.unit = slips[i].read;
        question.meant_mm = meant_mm;
    }
    return question;
}

struct sizing_question sizing_question_of(const char *name, double mm, enum units_length written)
{
    return question_of(sizing_range_find(name), mm, written);
}

struct sizing_question sizing_question_beside(struct arena *a, const char *name, double chart_mm, double mm,
                                              enum units_length written)
{
    if (sizing_range_find(name))
        return sizing_question_of(name, mm, written);
    struct sizing_range *range = base_arena_alloc(a, 1, sizeof *range);
    *range = (struct sizing_range){ name, base_arena_print(a, base_tr("“%s”"), name), chart_mm / 2 / SIZING_WIDER_BELOW,
                                    chart_mm * 2 / SIZING_WIDER_ABOVE };
    struct sizing_question question = question_of(range, mm, written);
    question.chart_mm = chart_mm;
    return question;
}

/* What it would be is told as a tape shows it. */
void sizing_question_ask(const struct sizing_measurement *m, enum units_length unit, struct sizing_question question,
                         struct err_list *errs)
{
    char written[UNITS_TEXT], beside[UNITS_TEXT];
    const struct sizing_range *range = question.range;
    units_print_length(written, m->mm, unit);
    if (question.unit) {
        units_print_length(beside, units_on_tape(question.meant_mm, unit), unit);
        base_err(errs, question.small ? &small_slip : &large_slip, m->place, ERR_TEXT(written),
                 ERR_TEXT(base_tr(range->in_sentence)), ERR_TEXT(base_tr(question.unit)), ERR_TEXT(beside));
        return;
    }
    double beside_mm = question.chart_mm > 0 ? question.chart_mm
                       : question.small      ? range->least_mm
                                             : range->greatest_mm;
    const struct err_kind *on_record = question.small ? &small : &large;
    const struct err_kind *by_chart = question.small ? &small_beside : &large_beside;
    units_print_length(beside, units_on_tape(beside_mm, unit), unit);
    base_err(errs, question.chart_mm > 0 ? by_chart : on_record, m->place, ERR_TEXT(written),
             ERR_TEXT(base_tr(range->in_sentence)), ERR_TEXT(beside));
}

/* Whether both are there, likely by themselves, and differ by more than they can. */
static bool is_at_odds(const struct sizing_body *body, size_t pair, const struct sizing_measurement *found[2])
{
    for (int i = 0; i < 2; i++) {
        found[i] = sizing_body_find(body, pairs[pair].names[i]);
        if (!found[i] || sizing_question_of(found[i]->name, found[i]->mm, body->unit).range)
            return false;
    }
    double more = found[0]->mm - found[1]->mm;
    return more < pairs[pair].least_mm || more > pairs[pair].most_mm;
}

bool sizing_is_at_odds(const struct sizing_body *body, const char *name)
{
    const struct sizing_measurement *found[2];
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        if ((strcmp(pairs[i].names[0], name) == 0 || strcmp(pairs[i].names[1], name) == 0) &&
            is_at_odds(body, i, found))
            return true;
    return false;
}

void sizing_ask_at_odds(const struct sizing_body *body, struct err_list *errs)
{
    const struct sizing_measurement *found[2];
    char text[2][UNITS_TEXT];
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        if (!is_at_odds(body, i, found))
            continue;
        for (int k = 0; k < 2; k++)
            units_print_length(text[k], found[k]->mm, body->unit);
        base_err(errs, &at_odds, found[1]->place, ERR_TEXT(text[1]),
                 ERR_TEXT(base_tr(sizing_range_find(found[1]->name)->in_sentence)), ERR_TEXT(text[0]),
                 ERR_TEXT(base_tr(sizing_range_find(found[0]->name)->in_sentence)));
    }
}
