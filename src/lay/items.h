/* What is laid, before it is asked whether it fits; for this folder alone. */
#ifndef LAY_ITEMS_H
#define LAY_ITEMS_H

#include "lay/lay.h"

/* Whether a piece and its mirror image can lie on each other, shifted or, `two_way`, turned round as well, with all its
 * notches and drill marks. */
bool lay_is_own_image(const struct draft_piece *piece, bool two_way);

/* Whether an outline that is turned round lies on itself, shifted; to rounding. */
bool lay_is_own_half_turn(struct geometry_path outline);

/* Marks the items that are fused on their wrong side as covered where the cloth wants that done in a block: as many of
 * each piece, and of each hand, as interfacing is cut for; and sets where across the cloth they may lie. Told: what is
 * to be fused and cannot lie in the block. */
void lay_mark_block(struct lay_task *task, struct lay_item *items, size_t count, struct err_list *errs);

/* How many of a piece interfacing is cut for, to be fused on that side. */
struct lay_hands lay_fused_of(const struct draft *draft, int piece, enum pattern_side side);

/* Takes what is cut of an item from those that are still to be fused; a piece that has no hand takes either. False,
 * *from untouched, where fewer are left. */
bool lay_take_fused(struct lay_hands *from, const struct lay_item *item);

/* The block of places on the cloth. */
struct lay_fusing {
    struct geometry_path block; /* where it is fused, a rectangle; without points: there is none */
    bool *inside;               /* of each item: it is cut out of that */
};

/* A piece that lies away from the others, with something else between, or so that no interfacing is wide enough for
 * all, is not within; in `a`. */
struct lay_fusing lay_fusing_of(struct arena *a, const struct lay_task *task, const struct lay_place *places);

struct geometry_path lay_rectangle(struct arena *a, struct geometry_box box);

/* The piece cut smaller by trim_mm all round but for its fold, without notches; in `a`. False where nothing is left. */
bool lay_trimmed(struct arena *a, const struct draft_piece *piece, double trim_mm, struct draft_piece *out);

/* The same on another cloth. */
bool lay_task_on(struct arena *a, const struct lay_task *task, const struct cloth *cloth, struct lay_task *out,
                 struct err_list *errs);

/* How many of a line of the cutting list are laid by the task. */
struct lay_hands lay_hands_here(const struct lay_task *task, int cut);

/* The direction that lies along the cloth: the grain, of a piece on the fold the fold (by the grain's sense). */
vec2 lay_lengthwise(const struct draft_piece *piece, bool on_fold);

/* The turn that brings it onto +x, after mirroring. */
double lay_turn_of(vec2 lengthwise, bool mirror);

/* The extent of the cut outline when it lies along the cloth: x along it, y across. */
vec2 lay_extent(const struct draft_piece *piece, bool on_fold);

/* Whether the fold of a piece that has one runs along its grain. */
bool lay_is_fold_lengthwise(const struct draft_piece *piece);

/* Whether the cloth has a fold, and the piece one that runs along its grain. How deep either is is not asked. */
bool lay_has_fold_for(const struct cloth_spread *spread, const struct draft_piece *piece);

/* How many pairs there are in so many right and left ones; alike: any two are one. */
int lay_pairs(int right, int left, bool alike);

/* Of each line of the cutting list how many pairs go into the double part of cloth that has a single one, too; in `a`.
 */
const int *lay_balance(struct arena *a, const struct lay_task *task);

/* The widest band of so many layers, mm; 0: there is none. */
double lay_widest_band(const struct cloth_spread *spread, int layers);

#define LAY_BLOCK_PAST_MM 5.0  /* how far a block reaches past its pieces, all round (common practice, no source) */
#define LAY_BLOCK_LAP_MM 6.0   /* by which strips of a block lie over each other (common practice, no source) */
#define LAY_FIT_MM 1e-6        /* past a border by rounding */
#define LAY_FOLD_GRAIN_DEG 0.5 /* a fold this near to the grain runs along it */

#endif
