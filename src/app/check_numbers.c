/* Lists with one number for each size: is one of them a slip? A grade runs smoothly or bends once; a number that stands
 * out of an otherwise smooth list, or a list that goes back and forth, is nearly always a slip of the pen. */
#include "app/check_state.h"
#include "pattern/each.h"

#include <math.h>
#include <stdlib.h>

static const struct err_kind number_off = {
    "check.number_off", ERR_WARNING,
    BASE_TR("{0}: {1} in size {2} is out of line with the sizes beside it, which suggest {3}; is a number wrong?")
};
static const struct err_kind back_and_forth = {
    "check.back_and_forth", ERR_WARNING,
    BASE_TR("{0}: goes back and forth along the sizes, about size {2}, where it is {1}; is a number wrong?")
};

/* All our own, no source; tried on random grades with up to two bends, rounded to 1 mm: in one list of 1000 a
 * slip was told that is none, and of slips of a step or more 98 in 100 were found. */
#define OFF_MM 2.5     /* more than lists rounded to 1 mm show */
#define OFF_STEPS 0.5  /* of the usual step from size to size: less makes no sizes cross */
#define OFF_BODY 0.25  /* the same of what the sizes are drawn for: all of a size leans on it */
#define OFF_GRID 1.4   /* of what a coarser list is rounded to; its rounding alone comes to 4/3 */
#define SMOOTHER 3.5   /* so much smoother the list is with another number there; one bend comes to 3 at most */
#define WIDE_STEPS 4.0 /* so many times as wide as any other is a step that makes the first or last number a slip */
#define WIDE_MM 10.0   /* and wider by that */

enum {
    LEAST_SIZES = 4, /* fewer numbers show no line to be out of */
    LEAST_INNER = 5, /* and so do four with one of them in doubt */
    WINDOW = 3       /* bends so far to either side count */
};

static const double grids_mm[] = { 5, UNITS_MM_PER_IN / 8, 2 }; /* coarser than OFF_MM allows for */

struct list {
    const double *mm;
    size_t count;
    bool is_of_body;
};

/* What the neighbours of an inner number suggest: the cubic through four of them, next to an end the parabola through
 * three. */
static double suggested(struct list v, size_t k)
{
    const double *mm = v.mm;
    if (k == 1)
        return (mm[0] + 3 * mm[2] - mm[3]) / 3;
    if (k + 2 == v.count)
        return (mm[k + 1] + 3 * mm[k - 1] - mm[k - 2]) / 3;
    return (4 * (mm[k - 1] + mm[k + 1]) - mm[k - 2] - mm[k + 2]) / 6;
}

/* The largest bend (second difference) about number k, were that number another. */
static double roughness(struct list v, size_t k, double number)
{
    double most = 0;
    for (size_t j = k > WINDOW ? k - WINDOW : 1; j + 1 < v.count && j <= k + WINDOW; j++) {
        double before = j - 1 == k ? number : v.mm[j - 1], at = j == k ? number : v.mm[j];
        double after = j + 1 == k ? number : v.mm[j + 1];
        most = fmax(most, fabs(before - 2 * at + after));
    }
    return most;
}

static int by_size(const void *a, const void *b)
{
    double first = *(const double *)a, second = *(const double *)b;
    return (first > second) - (first < second);
}

/* The middle one of all steps from size to size. */
static double usual_step(struct arena *a, struct list v)
{
    double *steps = base_arena_alloc(a, v.count - 1, sizeof *steps);
    for (size_t i = 0; i + 1 < v.count; i++)
        steps[i] = fabs(v.mm[i + 1] - v.mm[i]);
    qsort(steps, v.count - 1, sizeof *steps, by_size);
    return steps[(v.count - 1) / 2];
}

static bool is_on_grid(struct list v, double grid_mm)
{
    for (size_t i = 0; i < v.count; i++)
        if (fabs(v.mm[i] / grid_mm - round(v.mm[i] / grid_mm)) > 1e-6)
            return false;
    return true;
}

/* How far off a number has to be to count. */
static double least_off(struct arena *a, struct list v)
{
    double least = fmax(OFF_MM, (v.is_of_body ? OFF_BODY : OFF_STEPS) * usual_step(a, v));
    for (size_t i = 0; i < sizeof grids_mm / sizeof grids_mm[0]; i++)
        if (is_on_grid(v, grids_mm[i]))
            return fmax(least, OFF_GRID * grids_mm[i]);
    return least;
}

/* The inner number that is most out of line; 0: none. */
static size_t inner_slip(struct arena *a, struct list v)
{
    size_t worst = 0;
    double most = least_off(a, v);
    for (size_t k = 1; v.count >= LEAST_INNER && k + 1 < v.count; k++) {
        double there = suggested(v, k), off = fabs(v.mm[k] - there);
        if (off <= most || roughness(v, k, v.mm[k]) <= SMOOTHER * roughness(v, k, there))
            continue;
        worst = k;
        most = off;
    }
    return worst;
}

/* Whether the step to the list's end is against the way of all others, or far wider. `end` is 0 or the last. */
static bool is_end_slip(struct list v, size_t end)
{
    size_t own = end ? end - 1 : 0;
    double step = v.mm[own + 1] - v.mm[own], least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i + 1 < v.count; i++) {
        if (i == own)
            continue;
        least = fmin(least, v.mm[i + 1] - v.mm[i]);
        most = fmax(most, v.mm[i + 1] - v.mm[i]);
    }
    bool turns = (least > 0 && step < -OFF_MM) || (most < 0 && step > OFF_MM);
    double widest = fmax(fabs(least), fabs(most));
    return turns || fabs(step) > WIDE_STEPS * widest + WIDE_MM;
}

/* The number after the one step that is far wider than all others: of what the sizes are drawn for all that follow may
 * be in another unit. 0: there is none. */
static size_t after_leap(struct list v)
{
    size_t widest = 0;
    double most = -INFINITY, next = -INFINITY;
    for (size_t i = 0; v.is_of_body && i + 1 < v.count; i++) {
        double step = v.mm[i + 1] - v.mm[i];
        next = fmax(next, fmin(step, most));
        widest = step > most ? i + 1 : widest;
        most = fmax(most, step);
    }
    return widest && most > WIDE_STEPS * next + WIDE_MM ? widest : 0;
}

/* The number at which the list turns back for the first time, when it turns twice or more; 0: it does not. */
static size_t first_of_two_turns(struct list v)
{
    size_t first = 0, turns = 0, extreme = 0;
    int way = 0;
    for (size_t i = 1; i < v.count; i++) {
        double step = v.mm[i] - v.mm[extreme];
        int to = step > 0 ? 1 : -1;
        if (to == way || (way == 0 && fabs(step) > OFF_MM)) {
            way = to;
            extreme = i;
        } else if (way != 0 && fabs(step) > OFF_MM) {
            first = turns++ ? first : extreme;
            way = to;
            extreme = i;
        }
    }
    return turns >= 2 ? first : 0;
}

/* The lists that were told: all edges of a piece may share one. */
struct numbers {
    struct check_pattern *k;
    const double **told;
    size_t count, cap;
};

static bool is_told(const struct numbers *n, const double *mm)
{
    for (size_t i = 0; i < n->count; i++)
        if (n->told[i] == mm)
            return true;
    return false;
}

static void tell(struct numbers *n, const struct pattern_given *value, const struct err_kind *kind, size_t at,
                 double better_mm)
{
    struct check_pattern *k = n->k;
    const char *what = value->member ? base_arena_print(k->c->a, "%s, %s", value->of, value->member) : value->of;
    base_err(k->c->errs, kind, value->place, ERR_TEXT(what), ERR_MM(value->value->mm[at]), ERR_TEXT(k->p->sizes[at]),
             ERR_MM(better_mm));
    n->told = base_arena_grow(k->c->a, n->told, &n->cap, n->count + 1, sizeof *n->told);
    n->told[n->count++] = value->value->mm;
    if (value->piece == PATTERN_NONE)
        k->pattern_has_slip = true;
    else
        k->has_slip[value->piece] = true;
}

static void look_at(void *user, const struct pattern_given *value)
{
    struct numbers *n = user;
    struct list v = { value->value->mm, value->value->count, value->is_of_body };
    if (value->value->formulas || v.count < LEAST_SIZES || !value->is_length || is_told(n, v.mm))
        return;
    size_t inner = inner_slip(n->k->c->a, v), turn = first_of_two_turns(v), last = v.count - 1;
    size_t leap = after_leap(v);
    if (inner)
        tell(n, value, &number_off, inner, suggested(v, inner));
    else if (is_end_slip(v, 0))
        tell(n, value, &number_off, 0, 2 * v.mm[1] - v.mm[2]);
    else if (is_end_slip(v, last))
        tell(n, value, &number_off, last, 2 * v.mm[last - 1] - v.mm[last - 2]);
    else if (leap)
        tell(n, value, &number_off, leap, leap > 1 ? 2 * v.mm[leap - 1] - v.mm[leap - 2] : v.mm[0]);
    else if (turn)
        tell(n, value, &back_and_forth, turn, v.mm[turn]);
}

void check_numbers(struct check_pattern *k)
{
    struct numbers n = { .k = k };
    pattern_each_value(k->c->a, k->p, look_at, &n);
}
