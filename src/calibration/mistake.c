#include "calibration/mistake.h"

#include "calibration/misfit.h"
#include "calibration/repair.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* In how many calibrations without a mistake good readings may look like a slip: whenever sigma is what it is said to
 * be, and when it is not. Each reading's share (each pair's) is this over their number (Bonferroni). The second is of
 * an F test in which the sigma that was said counts as if EARLIER_ROWS had shown it before (moderated, as by Smyth
 * 2004): nine readings show their own too ill. By the drawn tables of tests/calibration, nine readings at sigma 0.3 mm
 * show a slip of 5 mm in 99 of 100 calibrations, and with a true sigma of 0.5 mm a good one looks like a slip in 6. */
#define FALSE_ALARMS 0.02
#define FALSE_ALARMS_OTHER_SIGMA 0.002
enum { EARLIER_ROWS = 20 };

/* Readings that scatter this many times wider than their sigma contradict each other, whichever of them is wrong. */
#define WIDEST_SCATTER 3

/* Readings may equally well be the wrong one when chi-square without the one and without the other is as near as this:
 * the better one is then at most exp(3) = 20 times as likely. */
#define EQUAL_CHI2 6

/* Suspects that are told apart; when three may be it, none is named. */
enum { RANKED = 3 };

/* With no more rows than these beyond the terms, any reading left out lets the others agree. */
enum { LEAST_TELLING = 3 };

/* So many readings are left out one at a time; of more, those that lie farthest off. Pairs of so many are left out. */
enum { MOST_SUSPECTS = 16, MOST_PAIRED = 20 };

/* What is asked, for all the steps below. */
struct inquest {
    struct arena *scratch;
    const struct calibration_readings *readings;
    enum calibration_lens lens;
    const struct calibration_fit *fit; /* of all, or NULL */
    double chi2;
    int freedom;
};

/* One reading or two, and what the others say without. */
struct suspect {
    size_t wrong[CALIBRATION_MOST_ASIDE], count;
    struct calibration_fit rest;
};

struct ranking {
    struct suspect best[RANKED];
    int count;
};

struct calibration_readings calibration_readings_without(struct arena *a, const struct calibration_readings *readings,
                                                         const size_t *without, size_t count)
{
    struct calibration_readings rest = *readings;
    rest.items = base_arena_alloc(a, readings->count, sizeof *rest.items);
    rest.count = 0;
    for (size_t i = 0; i < readings->count; i++) {
        bool out = false;
        for (size_t w = 0; w < count; w++)
            out = out || without[w] == i;
        if (!out)
            rest.items[rest.count++] = readings->items[i];
    }
    return rest;
}

static int rows_of(const struct inquest *q, const struct suspect *s)
{
    int rows = 0;
    for (size_t i = 0; i < s->count; i++)
        rows += q->readings->items[s->wrong[i]].kind == CALIBRATION_DISTANCE ? 1 : 2;
    return rows;
}

/* How many ways there are to leave out as many. */
static double ways(const struct inquest *q, size_t count)
{
    double n = (double)q->readings->count;
    return count == 1 ? n : n * (n - 1) / 2;
}

static bool scatters(double chi2, int freedom)
{
    return chi2 > WIDEST_SCATTER * WIDEST_SCATTER * freedom;
}

/* Whether leaving out so many rows, one of `ways_to`, lowers chi-square so far that they were slips: by more than
 * chance would at this sigma, and by more than it would at the sigma that the rest shows. */
static bool is_slip(double drop, int rows, double rest_chi2, int rest_freedom, double ways_to)
{
    double any_sigma =
        calibration_misfit_chance_any_sigma(drop, rows, rest_chi2 + EARLIER_ROWS, rest_freedom + EARLIER_ROWS);
    return calibration_misfit_chance(drop, rows) < FALSE_ALARMS / ways_to &&
           any_sigma < FALSE_ALARMS_OTHER_SIGMA / ways_to;
}

/* Whether any reading of a fit is a slip beside the others, by one look at the equations. */
static bool holds_slip(struct inquest *q, const struct calibration_readings *readings,
                       const struct calibration_fit *fit)
{
    struct calibration_model model = calibration_model_of(q->scratch, readings, q->lens, 0);
    struct calibration_spread spread;
    calibration_model_weigh(&model, &fit->at.map);
    if (!calibration_fit_spread(q->scratch, &model, fit, &spread))
        return false;
    for (size_t i = 0; i < readings->count; i++) {
        struct calibration_misfit m = calibration_misfit_within(&model, fit, &spread, i);
        if (m.rows && is_slip(m.t, m.rows, fit->chi2 - m.t, fit->freedom - m.rows, (double)readings->count))
            return true;
    }
    return false;
}

/* Fits the others. False when they leave no map. */
static bool fit_without(const struct inquest *q, struct suspect *s)
{
    struct arena *scratch = base_arena_create();
    struct calibration_readings rest = calibration_readings_without(scratch, q->readings, s->wrong, s->count);
    struct calibration_model model = calibration_model_of(scratch, &rest, q->lens, 0);
    const struct calibration_unknowns *near = q->fit ? &q->fit->at : NULL;
    bool fitted = calibration_fit(scratch, &model, near, &s->rest);
    base_arena_destroy(scratch);
    return fitted;
}

/* The smallest distance from its place that puts a reading among so many suspects. */
static double least_suspicious_mm(const struct inquest *q, size_t suspects)
{
    if (!q->fit || q->readings->count <= suspects)
        return 0;
    double *most = base_arena_alloc(q->scratch, suspects + 1, sizeof *most); /* falling; the last falls off */
    for (size_t i = 0; i < q->readings->count; i++) {
        double off = calibration_off_mm(&q->fit->at, &q->readings->items[i]);
        size_t at = suspects;
        for (; at > 0 && most[at - 1] < off; at--)
            most[at] = most[at - 1];
        most[at] = off;
    }
    return most[suspects - 1];
}

/* Puts a suspect in its place among the best, if it has one and its map is valid: to ask that takes as long as a fit,
 * and most have no place. */
static void rank(struct ranking *r, const struct suspect *s)
{
    int at = r->count < RANKED ? r->count : RANKED - 1;
    if ((r->count == RANKED && s->rest.chi2 >= r->best[at].rest.chi2) || !geometry_map_is_valid(&s->rest.at.map))
        return;
    for (; at > 0 && s->rest.chi2 < r->best[at - 1].rest.chi2; at--)
        r->best[at] = r->best[at - 1];
    r->best[at] = *s;
    r->count = r->count < RANKED ? r->count + 1 : RANKED;
}

/* Which readings something else checks: the others may be left out without anyone noticing. */
static bool *checked(const struct inquest *q)
{
    bool *is = base_arena_alloc(q->scratch, q->readings->count, sizeof *is);
    struct calibration_spread spread;
    struct calibration_model model = calibration_model_of(q->scratch, q->readings, q->lens, 0);
    if (q->fit)
        calibration_model_weigh(&model, &q->fit->at.map);
    bool known = q->fit && calibration_fit_spread(q->scratch, &model, q->fit, &spread);
    for (size_t i = 0; i < q->readings->count; i++)
        is[i] = !known || calibration_misfit_within(&model, q->fit, &spread, i).rows > 0;
    return is;
}

/* The readings without which the others fit best, best first. Fewer than RANKED when that is how many can be left out
 * so that the others still fix a map. */
static struct ranking find_singles(const struct inquest *q, const bool *is_checked)
{
    struct ranking found = { .count = 0 };
    double least_mm = least_suspicious_mm(q, MOST_SUSPECTS);
    for (size_t i = 0; i < q->readings->count; i++) {
        struct suspect s = { .wrong = { i }, .count = 1 };
        if (!is_checked[i] || (q->fit && calibration_off_mm(&q->fit->at, &q->readings->items[i]) < least_mm))
            continue;
        if (fit_without(q, &s))
            rank(&found, &s);
    }
    return found;
}

static struct ranking find_pairs(const struct inquest *q, const bool *is_checked)
{
    struct ranking found = { .count = 0 };
    double least_mm = least_suspicious_mm(q, MOST_PAIRED);
    size_t *among = base_arena_alloc(q->scratch, q->readings->count, sizeof *among), count = 0;
    for (size_t i = 0; i < q->readings->count; i++)
        if (is_checked[i] && !(q->fit && calibration_off_mm(&q->fit->at, &q->readings->items[i]) < least_mm))
            among[count++] = i;
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count; j++) {
            struct suspect s = { .wrong = { among[i], among[j] }, .count = 2 };
            if (fit_without(q, &s) && s.rest.freedom > 0)
                rank(&found, &s);
        }
    return found;
}

/* How many of the suspects may be the one: the others fit without it, hardly worse than without the best. */
static int equally_likely(const struct ranking *found)
{
    int likely = 1;
    while (likely < found->count && found->best[likely].rest.chi2 - found->best[0].rest.chi2 < EQUAL_CHI2 &&
           !scatters(found->best[likely].rest.chi2, found->best[likely].rest.freedom))
        likely++;
    return likely;
}

/* Whether without the suspect all is well: it was a slip, and what is left agrees. */
static bool explains(struct inquest *q, const struct suspect *s)
{
    struct calibration_readings rest = calibration_readings_without(q->scratch, q->readings, s->wrong, s->count);
    return is_slip(q->chi2 - s->rest.chi2, rows_of(q, s), s->rest.chi2, s->rest.freedom, ways(q, s->count)) &&
           !scatters(s->rest.chi2, s->rest.freedom) && !holds_slip(q, &rest, &s->rest);
}

static struct calibration_mistakes accuse(enum calibration_verdict verdict, const struct suspect *first,
                                          const struct suspect *second)
{
    struct calibration_mistakes m = { .verdict = verdict };
    if (first) {
        m.wrong[0] = first->wrong[0];
        m.rest[0] = first->rest;
    }
    if (second) {
        m.wrong[1] = second->wrong[0];
        m.rest[1] = second->rest;
    } else if (first) {
        m.wrong[1] = first->wrong[1];
    }
    return m;
}

/* Two at once: without a pair all is well, and without no other pair. */
static bool two_wrong(struct inquest *q, const bool *is_checked, struct calibration_mistakes *out)
{
    struct ranking pairs = find_pairs(q, is_checked);
    if (!pairs.count || !explains(q, &pairs.best[0]) || equally_likely(&pairs) > 1)
        return false;
    *out = accuse(CALIBRATION_TWO_WRONG, &pairs.best[0], NULL);
    return true;
}

static struct calibration_mistakes judge(struct inquest *q)
{
    struct calibration_mistakes two;
    bool *is_checked = checked(q);
    struct ranking singles = find_singles(q, is_checked);
    const struct suspect *best = singles.count ? &singles.best[0] : NULL;
    bool slip =
        best && is_slip(q->chi2 - best->rest.chi2, rows_of(q, best), best->rest.chi2, best->rest.freedom, ways(q, 1));
    if (!slip && !scatters(q->chi2, q->freedom))
        return (struct calibration_mistakes){ .verdict = CALIBRATION_AGREE };
    int likely = singles.count ? equally_likely(&singles) : RANKED;
    if (best && explains(q, best) && likely == 1)
        return accuse(CALIBRATION_ONE_WRONG, best, NULL);
    if ((!best || !explains(q, best)) && two_wrong(q, is_checked, &two))
        return two;
    if (!best && !q->fit)
        return (struct calibration_mistakes){ .verdict = CALIBRATION_AGREE };
    if (likely == 1)
        return accuse(CALIBRATION_SEVERAL_WRONG, best, NULL);
    return likely == 2 ? accuse(CALIBRATION_EITHER_WRONG, &singles.best[0], &singles.best[1])
                       : accuse(CALIBRATION_UNCLEAR, NULL, NULL);
}

struct calibration_mistakes calibration_mistakes_among(struct arena *scratch,
                                                       const struct calibration_readings *readings,
                                                       enum calibration_lens lens, const struct calibration_fit *fit)
{
    struct calibration_model model = calibration_model_of(scratch, readings, lens, 0);
    struct inquest q = { scratch, readings, lens, fit, fit ? fit->chi2 : INFINITY, (int)model.rows - (int)model.terms };
    bool agree = q.freedom <= 0 || (fit && !scatters(q.chi2, q.freedom) && !holds_slip(&q, readings, fit));
    if (!agree && q.freedom >= LEAST_TELLING)
        return judge(&q);
    if (q.freedom > 0 && q.freedom < LEAST_TELLING)
        agree = !fit || calibration_misfit_chance(fit->chi2, q.freedom) >= FALSE_ALARMS / (double)readings->count;
    return (struct calibration_mistakes){ .verdict = agree ? CALIBRATION_AGREE : CALIBRATION_UNCLEAR };
}
