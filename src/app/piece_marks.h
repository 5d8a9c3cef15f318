/* What is marked on a piece: the table asks for it, and the bench counts it. */
#ifndef APP_PIECE_MARKS_H
#define APP_PIECE_MARKS_H

#include "draft/draft.h"

enum { APP_MARK_KINDS = 4 };

/* Snips to be made, of a double notch two. */
size_t app_snips(const struct draft_piece *piece);

/* Kinds of marks that go to every layer, "dots", "dart points", in her language; returns how many. */
size_t app_mark_kinds(const struct draft_piece *piece, const char *kinds[APP_MARK_KINDS]);

#endif
