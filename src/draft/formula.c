/* What a formula comes to. */
#include "draft/sizer.h"
#include "geometry/turn.h"
#include "pattern/reckon.h"
#include "units/length.h"

static const struct err_kind no_figure = { "draft.no_figure", ERR_FAULT,
                                           BASE_TR("the formula “{0}” needs the measurement “{2}”, which the chart has "
                                                   "no row for; measure it and draft to the body") };
static const struct err_kind not_measured = {
    "draft.not_measured", ERR_FAULT,
    BASE_TR("the formula “{0}” needs her “{2}”, and she has no such measurement; add it to the body file")
};

/* A formula under way. */
struct reckoning {
    struct sizer *z;
    const struct pattern_formula *formula;
    double position, unit_mm;
};

static bool refuse(const struct reckoning *k, const struct err_kind *kind, struct err_arg part)
{
    return sizer_refuse(k->z, kind, k->formula->place, k->formula->text, part);
}

static bool take_mm(const struct reckoning *k, double mm, double *out)
{
    *out = mm / k->unit_mm;
    return true;
}

static bool read_figure(const struct reckoning *k, int index, double *out)
{
    double mm = draft_figure_mm(k->z->pattern, &k->z->figure, index, k->position);
    if (mm > 0)
        return take_mm(k, mm, out);
    return refuse(k, k->z->figure.body_mm ? &not_measured : &no_figure, ERR_TEXT(k->z->pattern->figures[index]));
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

static bool read_value(const struct reckoning *k, struct pattern_ref ref, double *out)
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
    return take_mm(k, cell->number, out);
}

static bool read_length(const struct reckoning *k, struct pattern_ref ref, double *out)
{
    const struct sizer_edge *edge = sizer_sewn_edge_of(k->z, ref);
    return edge && take_mm(k, edge->length_mm, out);
}

static bool read_place(const struct reckoning *k, const struct pattern_term *term, double *out)
{
    const vec2 *at = sizer_point_at(k->z, term->ref);
    return at && take_mm(k, term->op == PATTERN_OP_X ? at->x : at->y, out);
}

static bool read_between(const struct reckoning *k, const struct pattern_term *term, double *out)
{
    const vec2 *from = sizer_point_at(k->z, term[-1].ref), *to = from ? sizer_point_at(k->z, term->ref) : NULL;
    if (!to)
        return false;
    vec2 way = vec2_sub(*to, *from);
    if (term->op == PATTERN_OP_DISTANCE)
        return take_mm(k, vec2_length(way), out);
    *out = geometry_direction(way.y, way.x);
    return true;
}

static bool read_term(void *user, const struct pattern_term *term, double *number)
{
    const struct reckoning *k = user;
    switch (term->op) {
    case PATTERN_OP_FIGURE:
        return read_figure(k, term->ref.index, number);
    case PATTERN_OP_VALUE:
        return read_value(k, term->ref, number);
    case PATTERN_OP_LENGTH:
        return read_length(k, term->ref, number);
    case PATTERN_OP_X:
    case PATTERN_OP_Y:
        return read_place(k, term, number);
    default:
        return read_between(k, term, number);
    }
}

static bool reckon_terms(struct sizer *z, const struct pattern_formula *formula, double position, double *out)
{
    struct reckoning k = { z, formula, position, units_mm_per(z->pattern->unit) };
    struct pattern_no_outcome why;
    if (pattern_reckon(formula, read_term, &k, out, &why))
        return true;
    return why.kind ? refuse(&k, why.kind, why.part) : false;
}

/* Whatever it asks for is asked for by it. */
static bool reckon_formula(struct sizer *z, const struct pattern_formula *formula, double position, double *out)
{
    const struct pattern_formula *before = z->formula;
    z->formula = formula;
    bool ok = reckon_terms(z, formula, position, out);
    z->formula = before;
    return ok;
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
