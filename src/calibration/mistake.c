#include "calibration/mistake.h"

#include <math.h>

/* In how many calibrations without a mistake a good reading may look like a slip: whenever sigma is what it is said to
 * be, and when it is not. Each reading's share is this over their number (Bonferroni). Fewer alarms let more slips
 * through: with these, nine readings at sigma 0.3 mm show a slip of 5 mm in 99 of 100 calibrations. */
#define FALSE_ALARMS 0.01
#define FALSE_ALARMS_OTHER_SIGMA 0.1

/* Readings that scatter this many times wider than their sigma contradict each other, whichever of them is wrong. */
#define WIDEST_SCATTER 2.5

/* Readings may equally well be the wrong one when chi-square without the one and without the other is as near as this:
 * the better one is then at most exp(3) = 20 times as likely. */
#define EQUAL_CHI2 6

/* Suspects that are told apart; when three may be it, none is named. */
enum { RANKED = 3 };

/* Four readings agree always. */
enum { LEAST_CONTRADICTING = 5 };

/* So many readings are left out one at a time; of more, those with the largest residuals. */
enum { MOST_SUSPECTS = 16 };

#define OFF "cross {0} does not fit the others: it lies {1} off. "

static const struct err_kind contradict = { "calibration.contradict", ERR_FAULT, OFF "Read it again, or leave it out" };
static const struct err_kind contradict_either = {
    "calibration.contradict", ERR_FAULT,
    "cross {0} or cross {2} does not fit the others: one of them lies some {1} off. Read both again"
};
static const struct err_kind contradict_several = {
    "calibration.contradict", ERR_FAULT,
    OFF "It is not alone, the others do not fit each other either. Read them all again"
};
static const struct err_kind contradict_some = {
    "calibration.contradict", ERR_FAULT,
    "the crosses do not fit each other, and {0} are too few to tell which is wrong. Read them again, and more of them"
};
static const struct err_kind contradict_swapped = {
    "calibration.contradict", ERR_FAULT,
    OFF "Along and away exchanged? {2} along, {3} away would fit. Correct it, or read it again"
};

#define ALONG " {2} along would fit, not {3}. Correct it, or read it again"
#define AWAY " {2} away from you would fit, not {3}. Correct it, or read it again"

/* Steps that people misread by. */
static const struct {
    double mm; /* 0: the mat's ruling */
    bool away; /* from the person, rather than along the table */
    struct err_kind kind;
} slip_rows[] = {
    { 0, false, { "calibration.contradict", ERR_FAULT, OFF "One line off?" ALONG } },
    { 0, true, { "calibration.contradict", ERR_FAULT, OFF "One line off?" AWAY } },
    { UNITS_MM_PER_IN, false, { "calibration.contradict", ERR_FAULT, OFF "One inch off?" ALONG } },
    { UNITS_MM_PER_IN, true, { "calibration.contradict", ERR_FAULT, OFF "One inch off?" AWAY } },
    { 10, false, { "calibration.contradict", ERR_FAULT, OFF "One centimetre off?" ALONG } },
    { 10, true, { "calibration.contradict", ERR_FAULT, OFF "One centimetre off?" AWAY } },
};
enum { SLIP_ROWS = sizeof slip_rows / sizeof slip_rows[0] };

/* A reading, and what the others say without it. */
struct suspect {
    size_t index;
    struct calibration_fit rest;
};

/* What was probably meant by a misread reading. */
struct guess {
    const struct err_kind *kind; /* NULL: no guess */
    struct table_pt at;
    double off_mm;            /* from where the others put the cross */
    double should_mm, was_mm; /* for the sentence */
};

/* Tails with two degrees of freedom, as a reading is two numbers: of chi-square, exp(-x / 2); of F with m in the
 * denominator, (1 + 2 F / m)^(-m / 2) (Abramowitz and Stegun, 26.4 and 26.6). */
static double chi2_limit(double odds)
{
    return -2 * log(odds);
}

static double f_limit(double odds, int freedom)
{
    double m = freedom;
    return 0.5 * m * (pow(odds, -2 / m) - 1);
}

/* The smallest drop of chi-square that makes a reading a slip. */
static double slip_chi2(size_t readings)
{
    return chi2_limit(FALSE_ALARMS / (double)readings);
}

/* Whether leaving one reading out lowers chi-square so far that it was a slip: by more than chance would at this sigma,
 * and by more than it would at whatever sigma the rest shows. */
static bool is_slip(double chi2, double rest_chi2, size_t readings)
{
    int rest_freedom = calibration_fit_freedom(readings - 1);
    double drop = chi2 - rest_chi2, f = f_limit(FALSE_ALARMS_OTHER_SIGMA / (double)readings, rest_freedom);
    return drop > slip_chi2(readings) && drop / 2 > f * rest_chi2 / rest_freedom;
}

static bool scatters(double chi2, int freedom)
{
    return chi2 > WIDEST_SCATTER * WIDEST_SCATTER * freedom;
}

static double distance(struct table_pt a, struct table_pt b)
{
    return vec2_length((vec2){ a.x - b.x, a.y - b.y });
}

static double off_mm(const struct geometry_map *map, const struct calibration_reading *reading)
{
    return distance(geometry_map_to_table(map, reading->px), reading->at);
}

static struct calibration_readings copy_of(struct arena *scratch, const struct calibration_readings *readings)
{
    struct calibration_readings copy = *readings;
    copy.items = base_arena_alloc(scratch, readings->count, sizeof *copy.items);
    for (size_t i = 0; i < readings->count; i++)
        copy.items[i] = readings->items[i];
    return copy;
}

static bool fit_without(struct arena *scratch, const struct calibration_readings *readings, size_t without,
                        enum calibration_lens lens, struct calibration_fit *out)
{
    struct calibration_readings rest = copy_of(scratch, readings);
    rest.items[without] = rest.items[--rest.count];
    return calibration_fit(scratch, &rest, lens, out) && geometry_map_is_valid(&out->map);
}

/* The smallest distance from its place that puts a reading among the suspects. */
static double least_suspicious_mm(struct arena *scratch, const struct calibration_readings *readings,
                                  const struct geometry_map *map)
{
    if (readings->count <= MOST_SUSPECTS)
        return 0;
    double *most = base_arena_alloc(scratch, MOST_SUSPECTS + 1, sizeof *most); /* falling; the last falls off */
    for (size_t i = 0; i < readings->count; i++) {
        double off = off_mm(map, &readings->items[i]);
        int at = MOST_SUSPECTS;
        for (; at > 0 && most[at - 1] < off; at--)
            most[at] = most[at - 1];
        most[at] = off;
    }
    return most[MOST_SUSPECTS - 1];
}

/* The readings without which the others fit best, best first. Fewer than RANKED when that is how many can be left out
 * so that the others still fix a map. */
struct ranking {
    struct suspect best[RANKED + 1]; /* the last falls off */
    int count;
};

static void rank(struct ranking *r, struct suspect s)
{
    int at = r->count;
    for (; at > 0 && s.rest.chi2 < r->best[at - 1].rest.chi2; at--)
        r->best[at] = r->best[at - 1];
    r->best[at] = s;
    r->count = r->count < RANKED ? r->count + 1 : RANKED;
}

static struct ranking find_suspects(struct arena *scratch, const struct calibration_readings *readings,
                                    enum calibration_lens lens, const struct calibration_fit *fit)
{
    struct ranking found = { .count = 0 };
    double least_mm = fit ? least_suspicious_mm(scratch, readings, &fit->map) : 0;
    for (size_t i = 0; i < readings->count; i++) {
        struct suspect s = { .index = i };
        if (fit && off_mm(&fit->map, &readings->items[i]) < least_mm)
            continue;
        if (fit_without(scratch, readings, i, lens, &s.rest))
            rank(&found, s);
    }
    return found;
}

/* How many of the suspects may be the one: the others fit without it, hardly worse than without the best. */
static int equally_likely(const struct ranking *found, size_t readings)
{
    int likely = 1;
    while (likely < found->count && found->best[likely].rest.chi2 - found->best[0].rest.chi2 < EQUAL_CHI2 &&
           !scatters(found->best[likely].rest.chi2, calibration_fit_freedom(readings - 1)))
        likely++;
    return likely;
}

static void keep_nearer(struct guess *best, struct guess other, struct table_pt predicted)
{
    other.off_mm = distance(other.at, predicted);
    if (!best->kind || other.off_mm < best->off_mm)
        *best = other;
}

/* The likely slip that comes nearest to where the others put the cross. */
static struct guess nearest_guess(const struct calibration_readings *readings, const struct suspect *s)
{
    const struct calibration_reading *r = &readings->items[s->index];
    struct table_pt predicted = geometry_map_to_table(&s->rest.map, r->px), at = r->at;
    struct guess best = { 0 };
    struct guess swapped = { .kind = &contradict_swapped, .at = { at.y, at.x }, .should_mm = at.y, .was_mm = at.x };
    keep_nearer(&best, swapped, predicted);
    for (int row = 0; row < SLIP_ROWS; row++) {
        double mm = slip_rows[row].mm > 0 ? slip_rows[row].mm : readings->mat.ruling_mm;
        if (mm <= 0) /* no mat is named */
            continue;
        for (int sign = -1; sign <= 1; sign += 2) {
            bool away = slip_rows[row].away;
            double was = away ? at.y : at.x, should = was + sign * mm;
            struct guess step = { .kind = &slip_rows[row].kind, .at = at, .should_mm = should, .was_mm = was };
            *(away ? &step.at.y : &step.at.x) = should;
            keep_nearer(&best, step, predicted);
        }
    }
    return best;
}

/* Whether the readings agree once the suspect is read as guessed. */
static bool would_fit(struct arena *scratch, const struct calibration_readings *readings, enum calibration_lens lens,
                      const struct suspect *s, const struct guess *guess)
{
    struct calibration_readings mended = copy_of(scratch, readings);
    mended.items[s->index].at = guess->at;
    struct calibration_fit fit;
    return calibration_fit(scratch, &mended, lens, &fit) && fit.chi2 - s->rest.chi2 <= slip_chi2(readings->count);
}

static void accuse_nobody(const char *file, const struct calibration_readings *readings, struct err_list *errs)
{
    base_err(errs, &contradict_some, base_err_in_file(file), ERR_NUMBER(readings->count));
}

static void accuse_two(const char *file, const struct calibration_readings *readings, const struct ranking *found,
                       struct err_list *errs)
{
    const struct calibration_reading *r = &readings->items[found->best[0].index];
    const struct calibration_reading *other = &readings->items[found->best[1].index];
    base_err(errs, &contradict_either, base_err_in_file(file), ERR_NUMBER(r->cross),
             ERR_MM(off_mm(&found->best[0].rest.map, r)), ERR_NUMBER(other->cross));
}

static void accuse_one(struct arena *scratch, const char *file, const struct calibration_readings *readings,
                       enum calibration_lens lens, const struct suspect *s, struct err_list *errs)
{
    const struct calibration_reading *r = &readings->items[s->index];
    struct guess guess = nearest_guess(readings, s);
    const struct err_kind *kind = &contradict;
    if (scatters(s->rest.chi2, calibration_fit_freedom(readings->count - 1)))
        kind = &contradict_several;
    else if (would_fit(scratch, readings, lens, s, &guess))
        kind = guess.kind;
    base_err(errs, kind, base_err_in_file(file), ERR_NUMBER(r->cross), ERR_MM(off_mm(&s->rest.map, r)),
             ERR_MM(guess.should_mm), ERR_MM(guess.was_mm));
}

bool calibration_agree(struct arena *scratch, const char *file, const struct calibration_readings *readings,
                       enum calibration_lens lens, const struct calibration_fit *fit, struct err_list *errs)
{
    size_t count = readings->count;
    /* What leaving one out can gain is at most all there is. */
    if (count < LEAST_CONTRADICTING || (fit && fit->chi2 <= slip_chi2(count)))
        return true;
    if (count == LEAST_CONTRADICTING) { /* any four of them agree */
        if (fit)
            accuse_nobody(file, readings, errs);
        return !fit;
    }
    double chi2 = fit ? fit->chi2 : INFINITY;
    struct ranking found = find_suspects(scratch, readings, lens, fit);
    if (!scatters(chi2, calibration_fit_freedom(count)) &&
        !(found.count && is_slip(chi2, found.best[0].rest.chi2, count)))
        return true;
    if (!found.count && !fit)
        return true;
    int likely = found.count ? equally_likely(&found, count) : RANKED;
    if (likely == 1)
        accuse_one(scratch, file, readings, lens, &found.best[0], errs);
    else if (likely == 2)
        accuse_two(file, readings, &found, errs);
    else
        accuse_nobody(file, readings, errs);
    return false;
}
