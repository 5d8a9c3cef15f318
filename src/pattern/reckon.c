#include "pattern/reckon.h"

#include "geometry/turn.h"
#include "units/length.h"

#include <assert.h>
#include <math.h>

#define MOST_UNDER_WAY 1e12 /* beyond it what is still to come could overflow */

static const struct err_kind zero = { "pattern.divides_by_zero", ERR_FAULT,
                                      BASE_TR("the formula “{0}” divides by zero in size {1}") };
static const struct err_kind no_root = {
    "pattern.no_root", ERR_FAULT, BASE_TR("the formula “{0}” takes the root of a number below zero in size {1}")
};
static const struct err_kind no_tangent = {
    "pattern.no_tangent", ERR_FAULT, BASE_TR("the formula “{0}” takes the tangent of a right angle in size {1}")
};
static const struct err_kind too_large = {
    "pattern.too_large", ERR_FAULT,
    BASE_TR("the formula “{0}” grows too large in size {1}; no length is beyond 100 m, and "
            "no angle or share beyond 100000")
};
static const struct err_kind too_small = {
    "pattern.too_small", ERR_FAULT, BASE_TR("the formula “{0}” comes to {2} in size {1}; it cannot be below zero")
};
static const struct err_kind not_positive = {
    "pattern.formula_not_positive", ERR_FAULT,
    BASE_TR("the formula “{0}” comes to {2} in size {1}; it must be more than zero")
};
static const struct err_kind wide = {
    "pattern.formula_wide", ERR_FAULT,
    BASE_TR("the formula “{0}” comes to an allowance of {2} in size {1}; none is wider than "
            "500 mm")
};

/* A formula under way. */
struct reckoning {
    double stack[PATTERN_DEEPEST + 1];
    size_t count;
    struct pattern_no_outcome *why;
};

static bool refuse(const struct reckoning *k, const struct err_kind *kind, struct err_arg part)
{
    *k->why = (struct pattern_no_outcome){ kind, part };
    return false;
}

static bool one_number(struct reckoning *k, enum pattern_op op)
{
    double *a = &k->stack[k->count - 1], sine, cosine;
    switch (op) {
    case PATTERN_OP_NEGATE:
        *a = -*a;
        return true;
    case PATTERN_OP_ABS:
        *a = fabs(*a);
        return true;
    case PATTERN_OP_FLOOR:
        *a = floor(*a);
        return true;
    case PATTERN_OP_CEIL:
        *a = ceil(*a);
        return true;
    case PATTERN_OP_SQRT:
        if (*a < 0)
            return refuse(k, &no_root, ERR_NONE);
        *a = sqrt(*a);
        return true;
    default:
        break;
    }
    geometry_sincos(*a, &sine, &cosine);
    if (op == PATTERN_OP_TAN && cosine == 0)
        return refuse(k, &no_tangent, ERR_NONE);
    *a = op == PATTERN_OP_SIN ? sine : op == PATTERN_OP_COS ? cosine : sine / cosine;
    return true;
}

static bool two_numbers(struct reckoning *k, enum pattern_op op)
{
    double b = k->stack[--k->count], *a = &k->stack[k->count - 1];
    if (op == PATTERN_OP_DIVIDE && b == 0)
        return refuse(k, &zero, ERR_NONE);
    const double outcome[] = {
        [PATTERN_OP_ADD] = *a + b,
        [PATTERN_OP_SUBTRACT] = *a - b,
        [PATTERN_OP_MULTIPLY] = *a * b,
        [PATTERN_OP_DIVIDE] = op == PATTERN_OP_DIVIDE ? *a / b : 0,
        [PATTERN_OP_MIN] = fmin(*a, b),
        [PATTERN_OP_MAX] = fmax(*a, b),
        [PATTERN_OP_ATAN2] = op == PATTERN_OP_ATAN2 ? geometry_direction(*a, b) : 0,
        [PATTERN_OP_HYPOT] = sqrt(*a * *a + b * b),
    };
    *a = outcome[op];
    return true;
}

static bool take_term(struct reckoning *k, const struct pattern_term *term, pattern_read_term *read, void *user)
{
    if (term->op == PATTERN_OP_POINT)
        return true;
    if (term->op >= PATTERN_OP_ADD)
        return term->op < PATTERN_OP_NEGATE ? two_numbers(k, term->op) : one_number(k, term->op);
    assert(k->count <= PATTERN_DEEPEST);
    double *number = &k->stack[k->count++];
    *number = term->number;
    return term->op == PATTERN_OP_NUMBER || read(user, term, number);
}

static bool is_within_bound(const struct reckoning *k, enum pattern_bound bound, double outcome)
{
    if (bound == PATTERN_POSITIVE && !(outcome > 0))
        return refuse(k, &not_positive, ERR_MM(outcome));
    if (bound != PATTERN_ANY && outcome < 0)
        return refuse(k, &too_small, ERR_MM(outcome));
    return bound != PATTERN_ALLOWANCE || outcome <= PATTERN_MOST_ALLOWANCE_MM || refuse(k, &wide, ERR_MM(outcome));
}

bool pattern_reckon(const struct pattern_formula *formula, pattern_read_term *read, void *user, double *out,
                    struct pattern_no_outcome *why)
{
    struct reckoning k = { .why = why };
    *why = (struct pattern_no_outcome){ .kind = NULL };
    for (size_t i = 0; i < formula->term_count; i++) {
        if (!take_term(&k, &formula->terms[i], read, user))
            return false;
        if (k.count && !(fabs(k.stack[k.count - 1]) < MOST_UNDER_WAY))
            return refuse(&k, &too_large, ERR_NONE);
    }
    *out = k.stack[0] * formula->scale;
    if (!(fabs(*out) <= UNITS_FARTHEST_MM))
        return refuse(&k, &too_large, ERR_NONE);
    return is_within_bound(&k, formula->bound, *out);
}
