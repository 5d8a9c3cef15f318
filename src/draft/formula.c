/* What a formula comes to. */
#include "draft/sizer.h"
#include "geometry/turn.h"
#include "units/length.h"

#include <assert.h>

static const struct err_kind zero = { "draft.divides_by_zero", ERR_FAULT,
                                      "the formula “{0}” divides by zero in size {1}" };
static const struct err_kind no_root = { "draft.no_root", ERR_FAULT,
                                         "the formula “{0}” takes the root of a number below zero in size {1}" };
static const struct err_kind no_tangent = { "draft.no_tangent", ERR_FAULT,
                                            "the formula “{0}” takes the tangent of a right angle in size {1}" };
static const struct err_kind no_figure = {
    "draft.no_figure", ERR_FAULT,
    "the formula “{0}” needs the measurement “{2}”, which the chart has no row for; measure it and draft to the body"
};
static const struct err_kind too_large = {
    "draft.too_large", ERR_FAULT,
    "the formula “{0}” grows too large in size {1}; no length is beyond 100 m, and "
    "no angle or share beyond 100000"
};
static const struct err_kind too_small = { "draft.too_small", ERR_FAULT,
                                           "the formula “{0}” comes to {2} in size {1}; it cannot be below zero" };
static const struct err_kind not_positive = { "draft.not_positive", ERR_FAULT,
                                              "the formula “{0}” comes to {2} in size {1}; it must be more than zero" };
static const struct err_kind wide = { "draft.formula_wide", ERR_FAULT,
                                      "the formula “{0}” comes to an allowance of {2} in size {1}; none is wider than "
                                      "500 mm" };

/* A formula under way. */
struct reckoning {
    struct sizer *z;
    const struct pattern_formula *formula;
    double position, unit_mm;
    double stack[PATTERN_DEEPEST + 1];
    size_t count;
    struct pattern_ref first_point;
};

static bool refuse(const struct reckoning *k, const struct err_kind *kind, struct err_arg part)
{
    return sizer_refuse(k->z, kind, k->formula->place, k->formula->text, part);
}

static bool push(struct reckoning *k, double number)
{
    assert(k->count <= PATTERN_DEEPEST);
    k->stack[k->count++] = number;
    return true;
}

static bool push_mm(struct reckoning *k, double mm)
{
    return push(k, mm / k->unit_mm);
}

static bool push_figure(struct reckoning *k, int index)
{
    double mm = draft_figure_mm(k->z->pattern, &k->z->figure, index, k->position);
    if (mm > 0)
        return push_mm(k, mm);
    return refuse(k, &no_figure, ERR_TEXT(k->z->pattern->figures[index]));
}

static struct sizer_value *value_cell(struct sizer *z, struct pattern_ref ref, double position)
{
    struct sizer_values *all = ref.piece == PATTERN_NONE ? z->values : z->pieces[ref.piece].values;
    struct sizer_values *known = &all[ref.index];
    for (struct sizer_value *v = known->first; v; v = v->next)
        if (v->position == position)
            return v;
    struct sizer_value *v = base_arena_alloc(z->a, 1, sizeof *v);
    *v = (struct sizer_value){ .position = position, .next = known->first };
    known->first = v;
    return v;
}

static bool push_value(struct reckoning *k, struct pattern_ref ref)
{
    struct sizer *z = k->z;
    struct sizer_value *cell = value_cell(z, ref, k->position);
    if (cell->state != SIZER_DONE) {
        if (!sizer_enter(z, &cell->state, SIZER_NAMED, ref))
            return false;
        bool ok = sizer_reckon(z, &sizer_named(z, ref)->value, k->position, &cell->number);
        cell->state = ok ? SIZER_DONE : SIZER_FAILED;
        sizer_leave(z);
        if (!ok)
            return false;
    }
    return push_mm(k, cell->number);
}

static bool push_length(struct reckoning *k, struct pattern_ref ref)
{
    const struct sizer_edge *edge = sizer_sewn_edge_of(k->z, ref);
    return edge && push_mm(k, edge->length_mm);
}

static bool push_place(struct reckoning *k, const struct pattern_term *term)
{
    const vec2 *at = sizer_point_at(k->z, term->ref);
    return at && push_mm(k, term->op == PATTERN_OP_X ? at->x : at->y);
}

static bool push_between(struct reckoning *k, const struct pattern_term *term)
{
    const vec2 *from = sizer_point_at(k->z, k->first_point), *to = from ? sizer_point_at(k->z, term->ref) : NULL;
    if (!to)
        return false;
    vec2 way = vec2_sub(*to, *from);
    return term->op == PATTERN_OP_DISTANCE ? push_mm(k, vec2_length(way)) : push(k, geometry_direction(way.y, way.x));
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

static bool take_term(struct reckoning *k, const struct pattern_term *term)
{
    switch (term->op) {
    case PATTERN_OP_NUMBER:
        return push(k, term->number);
    case PATTERN_OP_FIGURE:
        return push_figure(k, term->ref.index);
    case PATTERN_OP_VALUE:
        return push_value(k, term->ref);
    case PATTERN_OP_LENGTH:
        return push_length(k, term->ref);
    case PATTERN_OP_X:
    case PATTERN_OP_Y:
        return push_place(k, term);
    case PATTERN_OP_POINT:
        k->first_point = term->ref;
        return true;
    case PATTERN_OP_DISTANCE:
    case PATTERN_OP_ANGLE:
        return push_between(k, term);
    default:
        return term->op < PATTERN_OP_NEGATE ? two_numbers(k, term->op) : one_number(k, term->op);
    }
}

static bool is_within_bound(const struct reckoning *k, double outcome)
{
    enum pattern_bound bound = k->formula->bound;
    if (bound == PATTERN_POSITIVE && !(outcome > 0))
        return refuse(k, &not_positive, ERR_MM(outcome));
    if (bound != PATTERN_ANY && outcome < 0)
        return refuse(k, &too_small, ERR_MM(outcome));
    return bound != PATTERN_ALLOWANCE || outcome <= PATTERN_MOST_ALLOWANCE_MM || refuse(k, &wide, ERR_MM(outcome));
}

static bool reckon_formula(struct sizer *z, const struct pattern_formula *formula, double position, double *out)
{
    struct reckoning k = {
        .z = z, .formula = formula, .position = position, .unit_mm = units_mm_per(z->pattern->unit)
    };
    for (size_t i = 0; i < formula->term_count; i++) {
        if (!take_term(&k, &formula->terms[i]))
            return false;
        if (k.count && !(fabs(k.stack[k.count - 1]) < 1e12))
            return refuse(&k, &too_large, ERR_NONE);
    }
    *out = k.stack[0] * formula->scale;
    if (!(fabs(*out) <= UNITS_FARTHEST_MM))
        return refuse(&k, &too_large, ERR_NONE);
    return is_within_bound(&k, *out);
}

static bool reckon_entry(struct sizer *z, const struct pattern_value *value, size_t index, double position, double *out)
{
    if (value->formulas[index])
        return reckon_formula(z, value->formulas[index], position, out);
    *out = value->mm[index];
    return true;
}

/* Between two sizes both neighbours' formulas are reckoned at the position that is asked for. */
bool sizer_reckon(struct sizer *z, const struct pattern_value *value, double position, double *out)
{
    if (!value->formulas) {
        *out = pattern_value_at(*value, position);
        return true;
    }
    struct pattern_between at = pattern_value_between(value->count, position);
    double next;
    if (!reckon_entry(z, value, at.below, position, out))
        return false;
    if (at.part == 0)
        return true;
    if (!reckon_entry(z, value, at.below + 1, position, &next))
        return false;
    *out += at.part * (next - *out);
    return true;
}
