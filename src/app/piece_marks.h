/* What is done with a piece and marked on it: the table asks for it, and the bench tells it. */
#ifndef APP_PIECE_MARKS_H
#define APP_PIECE_MARKS_H

#include "draft/draft.h"

/* What is done with a piece, one after the other, before it is ticked off. */
enum app_part {
    APP_PART_CUT, /* or its outline chalked */
    APP_PART_NOTCHES,
    APP_PART_MARKS, /* dots, dart points, pocket places, buttons */
    APP_PART_NAME,  /* on tape: its light is lost once it is lifted */
    APP_PARTS
};

enum { APP_MARK_KINDS = 4 };

/* Snips to be made, of a double notch two. */
size_t app_snips(const struct draft_piece *piece);

/* Kinds of marks that go to every layer, "dots", "dart points", in her language; returns how many. */
size_t app_mark_kinds(const struct draft_piece *piece, const char *kinds[APP_MARK_KINDS]);

#endif
