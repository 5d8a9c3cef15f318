/* What everything in a pattern under construction is called, found in one step however much there is of it. Not for
 * other folders, which ask pattern.h. */
#ifndef PATTERN_NAMES_H
#define PATTERN_NAMES_H

#include "base/arena.h"

/* Two things of one kind in one piece need different names. Pieces, measurements and the pattern's own values are of
 * no piece: PATTERN_NONE. */
enum pattern_name_kind {
    PATTERN_NAME_PIECE,
    PATTERN_NAME_POINT,
    PATTERN_NAME_EDGE, /* or a curve */
    PATTERN_NAME_VALUE,
    PATTERN_NAME_FIGURE,
    PATTERN_NAME_TEXT /* whatever a person reads */
};

struct pattern_names;

/* Empty; lives in `a`, as what is added to it does. Names have to outlive it. */
struct pattern_names *pattern_names_create(struct arena *a);

/* The first of a name stays; a NULL name is passed over. */
void pattern_names_add(struct pattern_names *names, enum pattern_name_kind kind, int piece, const char *name,
                       int index);

/* The index it was added with, or PATTERN_NONE. */
int pattern_names_find(const struct pattern_names *names, enum pattern_name_kind kind, int piece, const char *name);

#endif
