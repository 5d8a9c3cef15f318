/* The text of a formula into terms. A name is looked up when it is met, so what the whole file names is known before
 * the first formula is read (survey.c). */
#include "pattern/reader.h"
#include "units/number.h"

#include <ctype.h>
#include <string.h>

enum { MOST_NESTED = 64, LONGEST_NAME = 200, MOST_OPERANDS = 64 };

static const struct err_kind not_read = { "pattern.formula", ERR_FAULT,
                                          "the formula “{0}” cannot be read at “{1}”: {2}" };
static const struct err_kind no_name = { "pattern.formula_name", ERR_FAULT,
                                         "the formula “{0}” names “{1}”, which is no row of the chart, no measurement "
                                         "and no value of the pattern or the piece" };
static const struct err_kind no_part = { "pattern.formula_part", ERR_FAULT,
                                         "the formula “{0}” names “{1}”, and there is no such {2}" };
static const struct err_kind no_function = { "pattern.formula_function", ERR_FAULT,
                                             "the formula “{0}” calls “{1}”, which is no function" };

/* What a function takes. */
enum takes { TAKES_NUMBERS, TAKES_EDGE, TAKES_POINT, TAKES_TWO_POINTS };

static const struct function_row {
    const char *name;
    enum pattern_op op;
    enum takes takes;
    int least, most; /* arguments */
} function_rows[] = {
    { "min", PATTERN_OP_MIN, TAKES_NUMBERS, 2, MOST_OPERANDS },
    { "max", PATTERN_OP_MAX, TAKES_NUMBERS, 2, MOST_OPERANDS },
    { "abs", PATTERN_OP_ABS, TAKES_NUMBERS, 1, 1 },
    { "sqrt", PATTERN_OP_SQRT, TAKES_NUMBERS, 1, 1 },
    { "sin", PATTERN_OP_SIN, TAKES_NUMBERS, 1, 1 },
    { "cos", PATTERN_OP_COS, TAKES_NUMBERS, 1, 1 },
    { "tan", PATTERN_OP_TAN, TAKES_NUMBERS, 1, 1 },
    { "atan2", PATTERN_OP_ATAN2, TAKES_NUMBERS, 2, 2 },
    { "hypot", PATTERN_OP_HYPOT, TAKES_NUMBERS, 2, 2 },
    { "floor", PATTERN_OP_FLOOR, TAKES_NUMBERS, 1, 1 },
    { "ceil", PATTERN_OP_CEIL, TAKES_NUMBERS, 1, 1 },
    { "length", PATTERN_OP_LENGTH, TAKES_EDGE, 1, 1 },
    { "x", PATTERN_OP_X, TAKES_POINT, 1, 1 },
    { "y", PATTERN_OP_Y, TAKES_POINT, 1, 1 },
    { "distance", PATTERN_OP_DISTANCE, TAKES_TWO_POINTS, 2, 2 },
    { "angle", PATTERN_OP_ANGLE, TAKES_TWO_POINTS, 2, 2 },
};

struct parse {
    const struct pattern_reader *r;
    const struct json_node *node;
    const char *at;
    struct pattern_term *terms;
    size_t count, cap;
    int waiting, nested; /* operands without operator so far, open brackets */
};

static bool refuse(const struct parse *p, const char *why)
{
    const char *at = *p->at ? json_shown(p->r->errs->arena, p->at) : "its end";
    json_fault(p->r->errs, p->node, &not_read, ERR_TEXT(json_shown(p->r->errs->arena, p->node->text)), ERR_TEXT(at),
               ERR_TEXT(why));
    return false;
}

static bool emit(struct parse *p, struct pattern_term term, int waiting)
{
    p->waiting += waiting;
    if (p->waiting > PATTERN_DEEPEST)
        return refuse(p, "too much waits to be reckoned; give a part of it a name");
    p->terms = base_arena_grow(p->r->a, p->terms, &p->cap, p->count + 1, sizeof *p->terms);
    p->terms[p->count++] = term;
    return true;
}

static bool emit_operator(struct parse *p, enum pattern_op op, int operands)
{
    return emit(p, (struct pattern_term){ .op = op }, 1 - operands);
}

static void skip_space(struct parse *p)
{
    while (isspace((unsigned char)*p->at))
        p->at++;
}

static bool take(struct parse *p, char mark)
{
    skip_space(p);
    if (*p->at != mark)
        return false;
    p->at++;
    return true;
}

static bool is_word_byte(char c)
{
    return isalnum((unsigned char)c) || c == '_' || (unsigned char)c >= 0x80;
}

/* Words with single spaces between them, in the arena; NULL when no word begins here. */
static const char *take_name(struct parse *p)
{
    const char *start = p->at;
    if (!is_word_byte(*start) || isdigit((unsigned char)*start))
        return NULL;
    while (is_word_byte(*p->at) || (*p->at == ' ' && is_word_byte(p->at[1])))
        p->at++;
    return base_arena_copy_bytes(p->r->a, start, (size_t)(p->at - start));
}

static bool parse_sum(struct parse *p);

static bool find_name(const struct parse *p, const char *name, struct pattern_term *out)
{
    const struct pattern *pattern = p->r->p;
    int piece = p->r->piece, found = PATTERN_NONE;
    if (piece != PATTERN_NONE)
        found = pattern_find_named(pattern->pieces[piece].values, pattern->pieces[piece].value_count, name);
    *out = (struct pattern_term){ .op = PATTERN_OP_VALUE, .ref = { piece, found } };
    if (found != PATTERN_NONE)
        return true;
    found = pattern_find_named(pattern->values, pattern->value_count, name);
    *out = (struct pattern_term){ .op = PATTERN_OP_VALUE, .ref = { PATTERN_NONE, found } };
    if (found != PATTERN_NONE)
        return true;
    found = pattern_find_figure(pattern, name);
    *out = (struct pattern_term){ .op = PATTERN_OP_FIGURE, .ref = { PATTERN_NONE, found } };
    return found != PATTERN_NONE;
}

static bool parse_plain_name(struct parse *p, const char *name)
{
    struct pattern_term term;
    if (find_name(p, name, &term))
        return emit(p, term, 1);
    json_fault(p->r->errs, p->node, &no_name, ERR_TEXT(json_shown(p->r->errs->arena, p->node->text)), ERR_TEXT(name));
    return false;
}

/* What stands up to the next comma or bracket, without spaces around. */
static const char *take_reference(struct parse *p)
{
    skip_space(p);
    size_t length = strcspn(p->at, ",()");
    const char *start = p->at;
    p->at += length;
    while (length && isspace((unsigned char)start[length - 1]))
        length--;
    return base_arena_copy_bytes(p->r->a, start, length);
}

static bool parse_reference(struct parse *p, enum pattern_op op, bool is_edge, int waiting)
{
    const char *text = take_reference(p);
    struct pattern_ref ref;
    bool found = is_edge ? pattern_find_edge_ref(p->r, text, &ref) : pattern_find_point_ref(p->r, text, &ref);
    if (found)
        return emit(p, (struct pattern_term){ .op = op, .ref = ref }, waiting);
    json_fault(p->r->errs, p->node, &no_part, ERR_TEXT(json_shown(p->r->errs->arena, p->node->text)), ERR_TEXT(text),
               ERR_TEXT(is_edge ? "edge or curve" : "point"));
    return false;
}

static bool parse_numbers(struct parse *p, const struct function_row *row)
{
    int given = 0;
    do {
        if (!parse_sum(p))
            return false;
        given++;
    } while (given < MOST_OPERANDS && take(p, ','));
    if (given < row->least || given > row->most)
        return refuse(p, row->most == 1 ? "the function takes one number" : "the function takes two numbers");
    if (given == 1)
        return emit_operator(p, row->op, 1);
    for (int i = 1; i < given; i++)
        if (!emit_operator(p, row->op, 2))
            return false;
    return true;
}

static bool parse_arguments(struct parse *p, const struct function_row *row)
{
    switch (row->takes) {
    case TAKES_NUMBERS:
        return parse_numbers(p, row);
    case TAKES_EDGE:
        return parse_reference(p, row->op, true, 1);
    case TAKES_POINT:
        return parse_reference(p, row->op, false, 1);
    case TAKES_TWO_POINTS:
        return parse_reference(p, PATTERN_OP_POINT, false, 0) &&
               (take(p, ',') || refuse(p, "a comma and a second point are expected")) &&
               parse_reference(p, row->op, false, 1);
    }
    return false;
}

static bool parse_call(struct parse *p, const char *name)
{
    for (size_t i = 0; i < sizeof function_rows / sizeof function_rows[0]; i++)
        if (strcmp(name, function_rows[i].name) == 0)
            return parse_arguments(p, &function_rows[i]) && (take(p, ')') || refuse(p, "“)” is expected"));
    json_fault(p->r->errs, p->node, &no_function, ERR_TEXT(json_shown(p->r->errs->arena, p->node->text)),
               ERR_TEXT(name));
    return false;
}

static bool parse_number(struct parse *p)
{
    double number;
    if (units_read_length(&p->at, &number))
        number /= units_mm_per(p->r->p->unit);
    else if (!units_read_point_decimal(&p->at, &number))
        return refuse(p, "a number, a name or “(” is expected");
    return emit(p, (struct pattern_term){ .op = PATTERN_OP_NUMBER, .number = number }, 1);
}

static bool parse_operand(struct parse *p)
{
    skip_space(p);
    if (take(p, '('))
        return parse_sum(p) && (take(p, ')') || refuse(p, "“)” is expected"));
    const char *name = take_name(p);
    if (!name)
        return parse_number(p);
    return take(p, '(') ? parse_call(p, name) : parse_plain_name(p, name);
}

static bool parse_signed(struct parse *p)
{
    bool negative = false;
    for (skip_space(p); *p->at == '-' || *p->at == '+'; skip_space(p))
        negative ^= *p->at++ == '-';
    return parse_operand(p) && (!negative || emit_operator(p, PATTERN_OP_NEGATE, 1));
}

static bool parse_product(struct parse *p)
{
    bool ok = parse_signed(p);
    while (ok) {
        bool times = take(p, '*');
        if (!times && !take(p, '/'))
            break;
        ok = parse_signed(p) && emit_operator(p, times ? PATTERN_OP_MULTIPLY : PATTERN_OP_DIVIDE, 2);
    }
    return ok;
}

static bool parse_sum(struct parse *p)
{
    if (++p->nested > MOST_NESTED)
        return refuse(p, "brackets stand too deep; give a part of it a name");
    bool ok = parse_product(p);
    while (ok) {
        bool plus = take(p, '+');
        if (!plus && !take(p, '-'))
            break;
        ok = parse_product(p) && emit_operator(p, plus ? PATTERN_OP_ADD : PATTERN_OP_SUBTRACT, 2);
    }
    p->nested--;
    return ok;
}

const struct pattern_formula *pattern_read_formula(const struct pattern_reader *r, const struct json_node *node,
                                                   enum pattern_bound bound, double scale)
{
    struct parse p = { .r = r, .node = node, .at = node->text };
    if (!parse_sum(&p))
        return NULL;
    skip_space(&p);
    if (*p.at) {
        refuse(&p, "an operator or the end is expected");
        return NULL;
    }
    struct pattern_formula *f = base_arena_alloc(r->a, 1, sizeof *f);
    *f = (struct pattern_formula){ node->text, p.terms, p.count, scale, bound, json_place(r->a, node) };
    return f;
}
