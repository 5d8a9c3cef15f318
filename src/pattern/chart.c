/* Values of the garment as a whole, worked out in every size of the chart when the file is read: sizes are chosen by
 * them before anything is drafted. */
#include "pattern/reader.h"
#include "pattern/reckon.h"

enum { DEEPEST = 100 }; /* values that rest on one another, in a row */

static const struct err_kind no_row = {
    "pattern.chart_no_row", ERR_FAULT,
    BASE_TR("the formula “{0}” needs the measurement “{2}”, which the chart has no row for; "
            "what is said of the sewn garment rests on the chart's rows")
};
static const struct err_kind of_piece = {
    "pattern.chart_piece", ERR_FAULT,
    BASE_TR("the formula “{0}” measures a piece, which what is said of the sewn garment "
            "cannot rest on; reckon it from the chart's rows and from values")
};
static const struct err_kind circle = {
    "pattern.chart_circle", ERR_FAULT,
    BASE_TR("the value “{2}”, which the formula “{0}” needs, rests on itself or on more "
            "than {3} others in a row")
};

/* A value of the pattern at the size at hand. */
struct cell {
    enum { NOT_ASKED, BUSY, DONE, FAILED } state;
    double mm;
};

/* One size and cup group. */
struct column {
    const struct pattern_reader *r;
    struct cell *cells; /* one for each of the pattern's values */
    size_t size;
    int cup_group, depth;
    const struct pattern_formula *formula; /* the one at hand */
};

static bool refuse(const struct column *c, const struct err_kind *kind, struct err_arg part)
{
    base_err(c->r->errs, kind, c->formula->place, ERR_TEXT(c->formula->text), ERR_TEXT(c->r->p->sizes[c->size]), part,
             ERR_NUMBER(DEEPEST));
    return false;
}

static bool reckon_value(struct column *c, const struct pattern_value *value, double *mm);

static bool read_value(struct column *c, struct pattern_ref ref, double *mm)
{
    struct cell *cell = &c->cells[ref.index];
    if (cell->state == BUSY || (cell->state == NOT_ASKED && c->depth == DEEPEST))
        return refuse(c, &circle, ERR_TEXT(c->r->p->values[ref.index].name));
    if (cell->state == NOT_ASKED) {
        const struct pattern_formula *asking = c->formula;
        cell->state = BUSY;
        c->depth++;
        cell->state = reckon_value(c, &c->r->p->values[ref.index].value, &cell->mm) ? DONE : FAILED;
        c->depth--;
        c->formula = asking;
    }
    *mm = cell->mm;
    return cell->state == DONE;
}

static bool read_term(void *user, const struct pattern_term *term, double *number)
{
    struct column *c = user;
    const struct pattern *p = c->r->p;
    double mm = 0;
    if (term->op == PATTERN_OP_VALUE) {
        if (!read_value(c, term->ref, &mm))
            return false;
    } else if (term->op == PATTERN_OP_FIGURE) {
        const char *name = p->figures[term->ref.index];
        mm = pattern_value_at(pattern_drawn_for(p, name, c->cup_group), (double)c->size);
        if (!(mm > 0))
            return refuse(c, &no_row, ERR_TEXT(name));
    } else {
        return refuse(c, &of_piece, ERR_NONE);
    }
    *number = mm / units_mm_per(p->unit);
    return true;
}

/* At a whole size a list is its own entry there. */
static bool reckon_value(struct column *c, const struct pattern_value *value, double *mm)
{
    size_t at = value->count > 1 ? c->size : 0;
    struct pattern_no_outcome why;
    *mm = value->count ? value->mm[at] : 0;
    if (!value->formulas || !value->formulas[at])
        return true;
    c->formula = value->formulas[at];
    if (pattern_reckon(c->formula, read_term, c, mm, &why))
        return true;
    return why.kind ? refuse(c, why.kind, why.part) : false;
}

struct pattern_value pattern_by_size(const struct pattern_reader *r, const struct pattern_value *value, int cup_group)
{
    size_t sizes = r->p->size_count;
    if (!value->formulas || r->errs->faults > r->faults_before)
        return (struct pattern_value){ .mm = value->mm, .count = value->count };
    double *mm = base_arena_alloc(r->a, sizes, sizeof *mm);
    struct arena *scratch = base_arena_create();
    for (size_t i = 0; i < sizes; i++) {
        struct column c = { .r = r, .size = i, .cup_group = cup_group };
        c.cells = base_arena_alloc(scratch, r->p->value_count, sizeof *c.cells);
        if (!reckon_value(&c, value, &mm[i]))
            break; /* told once, not in every size */
    }
    base_arena_destroy(scratch);
    return (struct pattern_value){ .mm = mm, .count = sizes };
}
