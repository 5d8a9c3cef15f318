/* Formulas of a pattern: "hip / 4 + 1.5 cm". Text becomes a list of steps in the order they are reckoned (operands
 * before their operator), every name resolved; nothing is evaluated here.
 *
 * Grammar: + - * / ( ), numbers, names, and functions of formula.c's table. A formula reckons in the file's unit and
 * in degrees, as bare numbers elsewhere in the file do; a number may carry a unit of its own ("5/8 in"). A name is
 * words of letters, digits and "_"; in length(...), x(...) and their like stands a piece's edge, curve or point,
 * "front.side" or, within the piece, "side". */
#ifndef PATTERN_FORMULA_H
#define PATTERN_FORMULA_H

#include "base/err_list.h"

#include <stddef.h>

enum { PATTERN_DEEPEST = 32 }; /* operands that wait for their operator, at most */

enum pattern_op {
    PATTERN_OP_NUMBER,
    PATTERN_OP_FIGURE, /* a measurement of the body, by its place in the pattern's figures */
    PATTERN_OP_VALUE,  /* a named value; of a piece, or, with PATTERN_NONE, of the pattern */
    PATTERN_OP_LENGTH, /* of an edge or a curve */
    PATTERN_OP_X,      /* of a point */
    PATTERN_OP_Y,
    PATTERN_OP_DISTANCE, /* between two points: the step before holds the first of them */
    PATTERN_OP_ANGLE,    /* of the way from the first to the second, degrees */
    PATTERN_OP_POINT,    /* the first of the two; reckons nothing */
    PATTERN_OP_ADD,      /* from here on of two numbers */
    PATTERN_OP_SUBTRACT,
    PATTERN_OP_MULTIPLY,
    PATTERN_OP_DIVIDE,
    PATTERN_OP_MIN,
    PATTERN_OP_MAX,
    PATTERN_OP_ATAN2,
    PATTERN_OP_HYPOT,
    PATTERN_OP_NEGATE, /* of one */
    PATTERN_OP_ABS,
    PATTERN_OP_SQRT,
    PATTERN_OP_SIN,
    PATTERN_OP_COS,
    PATTERN_OP_TAN,
    PATTERN_OP_FLOOR,
    PATTERN_OP_CEIL
};

/* Something of a piece: a point, or an edge or curve. */
struct pattern_ref {
    int piece, index;
};

struct pattern_term {
    enum pattern_op op;
    double number;          /* PATTERN_OP_NUMBER, in the file's unit */
    struct pattern_ref ref; /* what it reads; of a figure `index` alone */
};

#define PATTERN_MOST_ALLOWANCE_MM 500.0 /* a deep hem of a heavy skirt stays under 150 (common practice, no source) */

/* Bounds of a value. */
enum pattern_bound { PATTERN_ANY, PATTERN_NOT_NEGATIVE, PATTERN_POSITIVE, PATTERN_ALLOWANCE };

struct pattern_formula {
    const char *text; /* as written */
    const struct pattern_term *terms;
    size_t term_count;
    double scale; /* from what it comes to, to mm or degrees: the file's unit, or 1 */
    enum pattern_bound bound;
    struct err_place place;
};

#endif
