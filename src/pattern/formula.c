/* The text of a formula into terms. A name is looked up when it is met, so what the whole file names is known before
 * the first formula is read (survey.c). */
#include "pattern/reader.h"

#include "base/text.h"
#include "base/words.h"
#include "pattern/word.h"
#include "units/number.h"

#include <ctype.h>
#include <string.h>

enum { MOST_NESTED = 64, ANY_NUMBER = 0, MOST_COMPARED = 1000, MOST_TERMS = 10000 };

static const struct err_kind not_read = { "pattern.formula", ERR_FAULT,
                                          BASE_TR("the formula “{0}” cannot be read at {1}: {2}") };
static const struct err_kind empty = { "pattern.formula_empty", ERR_FAULT,
                                       BASE_TR("nothing stands here; write a number, a length such as \"5/8 in\", or a "
                                               "formula") };
static const struct err_kind no_name = {
    "pattern.formula_name", ERR_FAULT,
    BASE_TR("the formula “{0}” names “{1}”, which is no row of the chart, no measurement "
            "and no value of the pattern or the piece; {2}")
};
static const struct err_kind no_part = { "pattern.formula_part", ERR_FAULT,
                                         BASE_TR("the formula “{0}” names “{1}”, and there is no such {2}; {3}") };
static const struct err_kind no_function = { "pattern.formula_function", ERR_FAULT,
                                             BASE_TR("the formula “{0}” calls “{1}”, which is no function; {2}") };

static const struct err_kind over_length = {
    "pattern.formula_fraction", ERR_WARNING,
    BASE_TR(
        "“{0}” is a number over a length, and comes to {1}. If the length of {2} is meant, write the fraction without "
        "spaces: “{3}”")
};

/* What a function takes. */
enum takes { TAKES_NUMBERS, TAKES_EDGE, TAKES_POINT, TAKES_TWO_POINTS };

static const struct function_row {
    const char *name;
    enum pattern_op op;
    enum takes takes;
    int arguments;
} function_rows[] = {
    { "min", PATTERN_OP_MIN, TAKES_NUMBERS, ANY_NUMBER },
    { "max", PATTERN_OP_MAX, TAKES_NUMBERS, ANY_NUMBER },
    { "abs", PATTERN_OP_ABS, TAKES_NUMBERS, 1 },
    { "sqrt", PATTERN_OP_SQRT, TAKES_NUMBERS, 1 },
    { "sin", PATTERN_OP_SIN, TAKES_NUMBERS, 1 },
    { "cos", PATTERN_OP_COS, TAKES_NUMBERS, 1 },
    { "tan", PATTERN_OP_TAN, TAKES_NUMBERS, 1 },
    { "atan2", PATTERN_OP_ATAN2, TAKES_NUMBERS, 2 },
    { "hypot", PATTERN_OP_HYPOT, TAKES_NUMBERS, 2 },
    { "floor", PATTERN_OP_FLOOR, TAKES_NUMBERS, 1 },
    { "ceil", PATTERN_OP_CEIL, TAKES_NUMBERS, 1 },
    { "length", PATTERN_OP_LENGTH, TAKES_EDGE, 1 },
    { "x", PATTERN_OP_X, TAKES_POINT, 1 },
    { "y", PATTERN_OP_Y, TAKES_POINT, 1 },
    { "distance", PATTERN_OP_DISTANCE, TAKES_TWO_POINTS, 2 },
    { "angle", PATTERN_OP_ANGLE, TAKES_TWO_POINTS, 2 },
};

enum { FUNCTION_ROWS = sizeof function_rows / sizeof function_rows[0] };

struct parse {
    const struct pattern_reader *r;
    const struct json_node *node;
    const char *at;
    struct pattern_term *terms;
    size_t count, cap;
    int waiting, nested; /* operands without operator so far, open brackets */
    bool is_length;      /* what is wanted */
    bool has_unit;       /* the last number */
};

static const char *shown(const struct parse *p, const char *text)
{
    return json_shown(p->r->errs->arena, text);
}

static bool refuse(const struct parse *p, const char *why)
{
    const char *at =
        *p->at ? base_arena_print(p->r->errs->arena, base_tr("“%s”"), shown(p, p->at)) : base_tr("its end");
    json_fault(p->r->errs, p->node, &not_read, ERR_TEXT(shown(p, p->node->text)), ERR_TEXT(at), ERR_TEXT(why));
    return false;
}

/* What to do about a name that is not known, when the nearest known one is that (or NULL). */
static const char *advice(const struct parse *p, const char *nearest, const char *otherwise)
{
    return nearest ? base_arena_print(p->r->errs->arena, "did you mean “%s”?", nearest) : otherwise;
}

static bool emit(struct parse *p, struct pattern_term term, int waiting)
{
    p->waiting += waiting;
    if (p->count == MOST_TERMS)
        return refuse(p, "the formula is too long; give parts of it names");
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
    p->at = pattern_past_space(p->at);
}

static bool take(struct parse *p, char mark)
{
    skip_space(p);
    if (pattern_mark_at(p->at) != mark)
        return false;
    base_text_next(&p->at);
    return true;
}

/* In the arena; NULL when no name begins here. */
static const char *take_name(struct parse *p)
{
    const char *start = p->at;
    p->at = pattern_past_name(start);
    return p->at > start ? base_arena_copy_bytes(p->r->a, start, (size_t)(p->at - start)) : NULL;
}

/* What stands where an operator should. */
static bool refuse_rest(const struct parse *p)
{
    char mark = pattern_mark_at(p->at);
    if (!*p->at)
        return refuse(p, "a “)” is missing");
    if (mark == ')')
        return refuse(p, "there is no “(” to it; take it away");
    if (mark == ',')
        return refuse(p, "a comma stands only between the values of a function; write a decimal with a point");
    if (mark == '(' || *p->at == '.' || pattern_past_letter(p->at) > p->at)
        return refuse(p, "an operator is missing before it; write + - * or /");
    return refuse(p, "this sign means nothing in a formula; it knows + - * / ( )");
}

/* What stands where a number should. */
static bool refuse_operand(const struct parse *p)
{
    if (!*p->at)
        return refuse(p, "a number or a name is missing there");
    if (pattern_mark_at(p->at))
        return refuse(p, "a number or a name is missing before it");
    return refuse(p, "no number and no name begins like this");
}

static bool close_bracket(struct parse *p)
{
    return take(p, ')') || refuse_rest(p);
}

static bool parse_sum(struct parse *p);

/* The piece's own values come before the pattern's. */
static bool find_name(const struct parse *p, const char *name, struct pattern_term *out)
{
    const struct pattern_names *names = p->r->names;
    const int owners[] = { p->r->piece, PATTERN_NONE };
    for (int i = p->r->piece == PATTERN_NONE; i < 2; i++) {
        int found = pattern_names_find(names, PATTERN_NAME_VALUE, owners[i], name);
        *out = (struct pattern_term){ .op = PATTERN_OP_VALUE, .ref = { owners[i], found } };
        if (found != PATTERN_NONE)
            return true;
    }
    int found = pattern_names_find(names, PATTERN_NAME_FIGURE, PATTERN_NONE, name);
    *out = (struct pattern_term){ .op = PATTERN_OP_FIGURE, .ref = { PATTERN_NONE, found } };
    return found != PATTERN_NONE;
}

/* The values of the piece, those of the pattern and the measurements that are called most like it. */
static const char *nearest_name(const struct parse *p, const char *name)
{
    const struct pattern *pattern = p->r->p;
    const struct pattern_piece *piece = p->r->piece == PATTERN_NONE ? NULL : &pattern->pieces[p->r->piece];
    const char *names[MOST_COMPARED];
    size_t count = 0;
    for (size_t i = 0; piece && i < piece->value_count && count < MOST_COMPARED; i++)
        names[count++] = piece->values[i].name;
    for (size_t i = 0; i < pattern->value_count && count < MOST_COMPARED; i++)
        names[count++] = pattern->values[i].name;
    for (size_t i = 0; i < pattern->figure_count && count < MOST_COMPARED; i++)
        names[count++] = pattern->figures[i];
    return base_text_nearest(name, names, count);
}

static bool parse_plain_name(struct parse *p, const char *name)
{
    struct pattern_term term;
    if (find_name(p, name, &term))
        return emit(p, term, 1);
    json_fault(p->r->errs, p->node, &no_name, ERR_TEXT(shown(p, p->node->text)), ERR_TEXT(shown(p, name)),
               ERR_TEXT(advice(p, nearest_name(p, name), "list it under \"measurements\" or \"values\"")));
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
    const char *nearest = is_edge ? pattern_nearest_edge(p->r, text) : pattern_nearest_point(p->r, text);
    json_fault(p->r->errs, p->node, &no_part, ERR_TEXT(shown(p, p->node->text)), ERR_TEXT(shown(p, text)),
               ERR_TEXT(is_edge ? "edge or curve" : "point"),
               ERR_TEXT(advice(p, nearest, "another piece's is called \"piece.name\"")));
    return false;
}

static bool refuse_count(const struct parse *p, const struct function_row *row)
{
    const char *takes = row->arguments == 1            ? "one number"
                        : row->arguments == ANY_NUMBER ? "two numbers or more"
                                                       : "two numbers, a comma between them";
    return refuse(p, base_arena_print(p->r->errs->arena, "%s takes %s", row->name, takes));
}

/* Of more than two, each is taken together with what those before it came to. */
static bool parse_numbers(struct parse *p, const struct function_row *row)
{
    int given = 0;
    do {
        if (!parse_sum(p))
            return false;
        if (row->arguments != ANY_NUMBER && given == row->arguments)
            return refuse_count(p, row);
        if (given > 0 && !emit_operator(p, row->op, 2))
            return false;
        given++;
    } while (take(p, ','));
    if (given == 1 && row->arguments != 1 && pattern_mark_at(p->at) == ')')
        return refuse_count(p, row);
    return row->arguments != 1 || emit_operator(p, row->op, 1);
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
               (take(p, ',') || refuse(p, "a comma and a second point are missing")) &&
               parse_reference(p, row->op, false, 1);
    }
    return false;
}

static const char *nearest_function(const char *name)
{
    const char *names[FUNCTION_ROWS];
    for (size_t i = 0; i < FUNCTION_ROWS; i++)
        names[i] = function_rows[i].name;
    return base_text_nearest(name, names, FUNCTION_ROWS);
}

static const char *all_functions(struct arena *a)
{
    const char *text = "there are";
    for (size_t i = 0; i < FUNCTION_ROWS; i++)
        text = base_arena_print(a, "%s%s %s", text, i ? "," : "", function_rows[i].name);
    return text;
}

static bool parse_call(struct parse *p, const char *name)
{
    for (size_t i = 0; i < FUNCTION_ROWS; i++)
        if (strcmp(name, function_rows[i].name) == 0)
            return parse_arguments(p, &function_rows[i]) && close_bracket(p);
    struct pattern_term term;
    const char *why = find_name(p, name, &term) ? "write * before the bracket to multiply by it"
                                                : advice(p, nearest_function(name), all_functions(p->r->errs->arena));
    json_fault(p->r->errs, p->node, &no_function, ERR_TEXT(shown(p, p->node->text)), ERR_TEXT(shown(p, name)),
               ERR_TEXT(why));
    return false;
}

static bool parse_number(struct parse *p)
{
    double number;
    p->has_unit = units_read_length(&p->at, &number);
    if (p->has_unit)
        number /= units_mm_per(p->r->p->unit);
    else if (!units_read_mixed(&p->at, &number) && !units_read_point_decimal(&p->at, &number))
        return refuse_operand(p);
    return emit(p, (struct pattern_term){ .op = PATTERN_OP_NUMBER, .number = number }, 1);
}

static bool parse_operand(struct parse *p)
{
    skip_space(p);
    if (take(p, '('))
        return parse_sum(p) && close_bracket(p);
    const char *name = take_name(p);
    if (!name)
        return parse_number(p);
    return take(p, '(') ? parse_call(p, name) : parse_plain_name(p, name);
}

static bool parse_signed(struct parse *p)
{
    bool negative = false;
    for (bool minus = take(p, '-'); minus || take(p, '+'); minus = take(p, '-'))
        negative ^= minus;
    return parse_operand(p) && (!negative || emit_operator(p, PATTERN_OP_NEGATE, 1));
}

/* Whether what was read since `first` is a single number. */
static bool is_number(const struct parse *p, size_t first, bool has_unit)
{
    return p->count == first + 1 && p->terms[first].op == PATTERN_OP_NUMBER && p->has_unit == has_unit;
}

/* "5 / 8 in" divides, while "5/8 in" is a fraction of an inch, which more likely is meant where a length is wanted. */
static void tell_over_length(const struct parse *p, const char *over, const char *under)
{
    struct arena *a = p->r->errs->arena;
    double unit_mm = units_mm_per(p->r->p->unit), mm;
    double comes_to = p->terms[p->count - 2].number / p->terms[p->count - 1].number;
    const char *fraction = base_arena_print(a, "%s/%.*s", over, (int)(p->at - under), under);
    if (p->is_length && units_parse_length(fraction, p->r->p->unit, &mm))
        json_fault(p->r->errs, p->node, &over_length, ERR_TEXT(shown(p, p->node->text)), ERR_MM(comes_to * unit_mm),
                   ERR_MM(mm), ERR_TEXT(shown(p, fraction)));
}

/* The operand behind "/"; what stands before it began at `from`, in the text and, as `first`, in the terms. */
static bool parse_divisor(struct parse *p, const char *from, size_t first, const char *to)
{
    bool is_bare = is_number(p, first, false);
    size_t second = p->count;
    skip_space(p);
    const char *under = p->at;
    if (!parse_signed(p))
        return false;
    if (is_bare && is_number(p, second, true))
        tell_over_length(p, base_arena_copy_bytes(p->r->a, from, (size_t)(to - from)), under);
    return emit_operator(p, PATTERN_OP_DIVIDE, 2);
}

static bool parse_product(struct parse *p)
{
    skip_space(p);
    const char *from = p->at;
    size_t first = p->count;
    bool ok = parse_signed(p);
    while (ok) {
        const char *to = p->at;
        if (take(p, '*'))
            ok = parse_signed(p) && emit_operator(p, PATTERN_OP_MULTIPLY, 2);
        else if (take(p, '/'))
            ok = parse_divisor(p, from, first, to);
        else
            break;
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
                                                   enum pattern_bound bound, bool is_length)
{
    struct parse p = { .r = r, .node = node, .at = node->text, .is_length = is_length };
    skip_space(&p);
    if (!*p.at) {
        json_fault(r->errs, node, &empty, ERR_NONE);
        return NULL;
    }
    if (!parse_sum(&p))
        return NULL;
    skip_space(&p);
    if (*p.at) {
        refuse_rest(&p);
        return NULL;
    }
    struct pattern_formula *f = base_arena_alloc(r->a, 1, sizeof *f);
    double scale = is_length ? units_mm_per(r->p->unit) : 1;
    *f = (struct pattern_formula){ node->text, p.terms, p.count, scale, bound, json_place(r->a, node) };
    return f;
}
