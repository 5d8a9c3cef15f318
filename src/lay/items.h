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
 * each piece, and of each hand, as interfacing is cut for. Told: it is not laid in a single layer. */
void lay_mark_block(const struct lay_task *task, struct lay_item *items, size_t count, struct err_list *errs);

/* Where across cloth that wants a block its pieces may lie: to_mm is below from_mm where there is no room. */
struct cloth_band lay_block_strip(const struct lay_task *task);

/* The interfacing on what is covered, as it lies; nought where there is none. */
struct geometry_box lay_block_of(const struct lay_task *task, const struct lay_place *places);

/* The piece cut smaller by trim_mm all round but for its fold, without notches; in `a`. False where nothing is left. */
bool lay_trimmed(struct arena *a, const struct draft_piece *piece, double trim_mm, struct draft_piece *out);

/* How many of a line of the cutting list are laid by the task. */
struct lay_hands lay_hands_here(const struct lay_task *task, int cut);

/* The direction that lies along the cloth: the grain, of a piece on the fold the fold (by the grain's sense). */
vec2 lay_lengthwise(const struct draft_piece *piece, bool on_fold);

/* The turn that brings it onto +x, after mirroring. */
double lay_turn_of(vec2 lengthwise, bool mirror);

/* The extent of the cut outline when it lies along the cloth: x along it, y across. */
vec2 lay_extent(const struct draft_piece *piece, bool on_fold);

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
#define LAY_FIT_MM 1e-6        /* past a border by rounding */
#define LAY_FOLD_GRAIN_DEG 0.5 /* a fold this near to the grain runs along it */

#endif
