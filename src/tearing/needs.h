/* The rectangles of a cutting list. Not for other folders. */
#ifndef TEARING_NEEDS_H
#define TEARING_NEEDS_H

#include "tearing/tearing.h"

/* Collects needs and others of the plan's task; returns the needs, which the plan only reads. */
struct tearing_need *tearing_collect(struct arena *a, struct tearing_plan *plan);

/* Where a piece is too wide for the cloth it is pieced of as few parts as go, which is told; false, told too, when the
 * cloth has no room for parts. */
bool tearing_piece_wide(struct tearing_plan *plan, struct tearing_need *needs, struct err_list *errs);

/* The allowance of a join: as wide as the piece's own side seam, else 15 mm, or 5/8 in. */
double tearing_join_mm(const struct tearing_task *task, const struct draft_piece *piece);

/* The strips of the needs in order, their places and the length; false where strips along the cloth have no room. */
bool tearing_lay_strips(struct arena *a, struct tearing_plan *plan);

/* The same the way that was asked for, or that wastes least; with what the other way needs. */
bool tearing_lay_best(struct arena *a, struct tearing_plan *plan);

/* A whole need as it is in another draft of the same pattern. */
struct tearing_need tearing_need_so(const struct tearing_task *task, const struct tearing_need *need,
                                    const struct draft_sized *sized);

/* --- how often it is sewn (sewn.c) --- */

enum { TEARING_ACROSS_EDGES = 2 /* edges of a rectangle by turns: bottom and top run across */ };

/* Halves that are drawn of a whole piece: 2 on the fold. */
int tearing_halves(const struct pattern_piece *piece);

/* How often the garment has a seam that the pattern names once: in each half, at each of the pieces that are cut. */
int tearing_times_sewn(const struct tearing_task *task, const struct pattern_seam *seam);

/* Girth of the hem below a rectangle's edge across, of all that are cut: of the edge opposite, or, where other
 * rectangles are sewn to that, of theirs. 0: it is sewn to something else. */
double tearing_hem_mm(const struct tearing_task *task, const struct draft_sized *sized, int piece, int edge);

#endif
