/* A small pattern, drafted, with what is written on it: a strap of 200 by 300 mm with 10 mm allowance all round, a
 * front on the fold of the same measures, and a pocket in which there is one mark of every kind. */
#ifndef TESTS_EXPORT_DRAFTED_H
#define TESTS_EXPORT_DRAFTED_H

#include "export/sheet.h"
#include "support/room.h"

enum { DRAFTED_STRAP, DRAFTED_FRONT, DRAFTED_POCKET, DRAFTED_PIECES };

struct drafted {
    struct draft draft;
    struct export_names names;
};

struct drafted draft_small(struct room *room);

/* The same with one piece, a square of 100 mm without allowance, of that name (JSON), in a pattern of that name. */
struct drafted draft_named(struct room *room, const char *name);

#endif
