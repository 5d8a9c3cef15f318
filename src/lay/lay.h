/* A view's pieces of one material on its cloth: which outlines have to be laid, by which rules, and where they lie.
 *
 * Cloth space: mm on the cloth as it is spread, washed and without selvedges; x along it from the cut end, y from the
 * near edge, which is the fold where there is one. The grain runs along x: a piece's grain, which as drawn points up,
 * is turned onto +x, so that its upper end lies away from the cut end, or turned round onto -x. On one-way cloth all
 * upper ends lie away from the cut end: its nap runs down, or its print stands up, towards +x. */
#ifndef LAY_LAY_H
#define LAY_LAY_H

#include "base/pool.h"
#include "cloth/cloth.h"
#include "draft/draft.h"
#include "geometry/turn.h"

#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>

enum { LAY_NONE = -1 };

#define LAY_BLOCK_NAME "block.fused" /* of a block's rectangles: no pattern's piece has a full stop in its name */
#define LAY_BLOCK_LABEL "Block"      /* what they are called to a person */

/* How many of a line of the cutting list: as drawn, and as the mirror image. */
struct lay_hands {
    int right, left;
};

/* Something that is laid once. What is cut there, through all layers, is `copies` of its piece. */
struct lay_item {
    int cut;    /* line of the draft's cutting list; LAY_NONE: a rectangle of a block */
    int number; /* which of that line's items, from 0 */
    const struct draft_piece
        *piece;             /* as it is laid: on the fold the half, opened out in a single layer, trimmed for fusing */
    enum pattern_hand hand; /* of what is cut: left, right, a pair, or as drawn */
    int copies;             /* 1, or 2 through two layers */
    int layers;       /* of the bands that it lies in; 2 with one copy: the second is left over, or it is on the fold */
    bool on_fold;     /* its fold edge lies on the cloth's fold */
    bool mirrored;    /* it is laid as the mirror image … */
    bool either_hand; /* … or either way, as both are cut at once, the cloth's sides are alike or: */
    bool own_image;   /* it is its own mirror image, shifted, on two-way cloth also turned round */
    bool covered;     /* cut out of the block that is fused first (cloth.block_mm) */
    bool by_grain; /* its other hand is cut by itself, too: the middle of the grain lies on a line of the repeat where
                      no match line says otherwise, so that both get the same stripes */
    bool by_fold;  /* opened out: so does the fold that it has as drawn, on a line that runs along the cloth */
};

/* Where an item lies: the motion takes the piece's space to cloth space (mirror first, then turn: the grain's turn is
 * in it). */
struct lay_place {
    bool is_laid, is_pinned;
    struct geometry_motion motion;
};

/* The interfacing that fabric is fused with in a block, before its pieces are cut out of both (cloth.block_mm). */
struct lay_block {
    double length_mm, width_mm;                /* along and across the cloth; 0: there is none */
    double from_cut_end_mm, from_near_edge_mm; /* where it begins on the fabric as that lies */
    int count;                                 /* one for each layer that is fused; over a fold one */
    bool over_fold;                            /* its middle lies along the fold: the cloth is opened out to be fused */
};

/* What is to be laid, and on what. */
struct lay_task {
    const struct draft *draft;
    const struct cloth *cloth;
    enum pattern_cloth material;
    struct cloth_spread spread;
    struct cloth_band block; /* where across the cloth pieces of a block may lie, so that it ends on the cloth; no
                                layers: there is none */
    const struct lay_hands *elsewhere; /* as lay_task_make was told */
    struct lay_block fabric_block;     /* as lay_task_make_interfacing was told */
    const struct lay_item *items;
    size_t item_count;
};

struct lay {
    const struct lay_task *task;
    struct lay_place *places; /* one for each item */
    size_t left_out;
    double length_mm; /* from the cut end to the end of the last piece, as it lies */
    double used; /* share of the cloth of that length, over all layers, that is in pieces; of a scrap, of all of it */
};

/* --- what is to be laid (task.c) --- */

/* Whether a view has pieces of that material. */
bool lay_is_cut(const struct draft *draft, enum pattern_cloth material);

/* The items of a material and how they may lie; everything lives in `a`, the draft and the cloth. `elsewhere`
 * tells of each line of the cutting list how many are torn or cut off something else, and so not laid; NULL: none.
 * False with the reasons: nothing of that material in the view; a piece wider than the cloth; a piece on the fold where
 * there is no fold, or one too shallow …: each with what would help (turn it, open the cloth out, wider cloth, piece a
 * seam). */
bool lay_task_make(struct arena *a, const struct draft *draft, const struct lay_hands *elsewhere,
                   const struct cloth *cloth, enum pattern_cloth material, struct lay_task *out, struct err_list *errs);

/* The same of interfacing for fabric that is fused in a block (lay_block_of): that is laid, too. */
bool lay_task_make_interfacing(struct arena *a, const struct draft *draft, const struct lay_hands *in_block,
                               const struct lay_block *block, const struct cloth *cloth, struct lay_task *out,
                               struct err_list *errs);

/* All that a line of the cutting list is cut. */
struct lay_hands lay_hands_of(const struct draft_cut *cut);

/* Whether a piece drawn to its fold is cut opened out on cloth that lies so: that has no fold for it. How deep either
 * is is not asked. */
bool lay_is_opened(const struct cloth_spread *spread, const struct draft_piece *piece);

/* Of two layers that an item is cut through, the one whose copy is wanted. */
enum lay_kept { LAY_KEEPS_ALL, LAY_KEEPS_EITHER, LAY_KEEPS_LOWER, LAY_KEEPS_UPPER };
enum lay_kept lay_kept_of(const struct lay *lay, size_t item);

/* "keep the lower": of two layers that a piece is cut through, where one copy is wanted; else NULL. */
const char *lay_kept_words(const struct lay *lay, size_t item);

/* "Front (left)": a name with the hand it is cut for; in `a`, or as it is. */
const char *lay_handed_name(struct arena *a, const char *name, enum pattern_hand hand);

/* "Front", "Front (left)", "Tie 2": what an item is called among the others; in `a`. */
const char *lay_item_name(struct arena *a, const struct lay_task *task, size_t item);

/* An item's cut outline as it lies; in `a`. */
struct cloth_path lay_outline(struct arena *a, const struct lay_task *task, size_t item, const struct lay_place *place);

/* Whether there is a place for it across the cloth, however long that is. */
bool lay_can_lie(const struct lay_task *task, size_t item);

/* Whether the length at hand is enough for it, were it alone and nothing of the cloth faulty. */
bool lay_is_long_enough(const struct lay_task *task, size_t item);

/* Whether pieces may not be turned round: nap, or a repeat that is not its own mirror image. */
bool lay_is_one_way(const struct cloth *cloth);

/* How far the place is turned off the grain, degrees, 0 to 90: against or along the warp counts as true. */
double lay_off_grain(const struct lay_place *place, const struct lay_item *item);

/* --- finding it (search.c) --- */

struct lay_search;

/* Begins a search; pinned places (NULL: none) stay where they are. A first lay is there at once. NULL with the reasons:
 * pins that lie over each other or where they may not. `pool` may be NULL. `stop` (may be NULL) is looked at while a
 * block is laid: once it is set that lies as it is first found. The task outlives the search. */
struct lay_search *lay_search_begin(const struct lay_task *task, const struct lay_place *pinned, uint64_t seed,
                                    struct base_pool *pool, const atomic_bool *stop, struct err_list *errs);

/* Where the rounds to come are made, as in packing_use_pool. */
void lay_search_use_pool(struct lay_search *search, struct base_pool *pool);

/* NULL is allowed. */
void lay_search_end(struct lay_search *search);

/* As packing_round. */
bool lay_search_round(struct lay_search *search, const atomic_bool *stop);
bool lay_search_can_gain(const struct lay_search *search);
size_t lay_search_rounds(const struct lay_search *search);
size_t lay_search_rounds_without_gain(const struct lay_search *search);

/* The best so far, copied into `a`. */
struct lay lay_search_best(struct arena *a, const struct lay_search *search);

/* --- judging and by hand (judge.c, hand.c) --- */

/* Why an item may not lie where it does. */
enum lay_fault {
    LAY_OVERLAP,     /* over another item, or nearer than the gap */
    LAY_OFF_CLOTH,   /* past an edge, a band's border, the end of the cloth, or on what is blocked */
    LAY_OFF_FOLD,    /* its fold edge is not on the fold */
    LAY_WRONG_HAND,  /* laid as the mirror image of what is wanted */
    LAY_AGAINST_NAP, /* turned round on one-way cloth */
    LAY_OFF_GRAIN,   /* turned further than the tolerance */
    LAY_OFF_REPEAT,  /* its match line is not on the cloth's */
    LAY_IN_BLOCK,    /* where the block is fused, and not to be fused */
    LAY_OFF_BLOCK    /* to be fused in the block, and beside it */
};

struct lay_finding {
    enum lay_fault fault;
    int item, other; /* other: of an overlap, else LAY_NONE */
    double amount;   /* mm it is over by; degrees off the grain */
};

/* All that is wrong with a lay, worst first; in `a`. Overlaps under 1e-6 of the smaller piece's area are none. */
size_t lay_judge(struct arena *a, const struct lay *lay, const struct lay_finding **out);

/* The lay of those places: length and share worked out anew. `places` is copied into `a`. */
struct lay lay_of(struct arena *a, const struct lay_task *task, const struct lay_place *places);

/* The nearest place to the one given where the item may lie without overlap (butted against its neighbours), at most
 * `reach_mm` away; false, *place untouched, when there is none. */
bool lay_butt(const struct lay *lay, size_t item, double reach_mm, struct lay_place *place);

/* Slides an item from its place in a direction of cloth space until it touches something. */
struct lay_place lay_slide(const struct lay *lay, size_t item, vec2 direction);

/* --- fusing in a block (fused.c) --- */

/* The block of a lay of fabric; no count: it has none. */
struct lay_block lay_block_of(const struct lay *fabric);

/* How many of each line of the cutting list are not cut of interfacing by themselves then; in `a`. */
const struct lay_hands *lay_in_block(struct arena *a, const struct lay *fabric);

/* Interfacing of a block, or a strip of it, as a piece: so wide across its grain and so high along it; in `a`. */
const struct draft_piece *lay_block_piece(struct arena *a, double width_mm, double height_mm);

/* Where it is fused, a rectangle on the cloth; without points: there is none. In `a`. */
struct cloth_path lay_block_outline(struct arena *a, const struct lay *lay);

/* --- figures (figures.c) --- */

struct lay_figures {
    double length_mm;       /* of washed cloth, opened out, along */
    double to_buy_mm;       /* rounded up for the person's unit; NAN: it is a scrap */
    double used;            /* share of the cloth */
    struct lay_block block; /* that is fused first */
    double spare_mm; /* what is left of the length at hand; below zero: it is short by that. NAN: none was told */
};

struct lay_figures lay_figures_of(const struct lay *lay, enum units_length unit);

/* A cloth as it would be bought in that width: not the faults, the length and the shape of what is at hand. */
struct cloth lay_cloth_as_wide(const struct cloth *cloth, double width_mm);

/* How long to look for a layout on another cloth. */
struct lay_effort {
    size_t rounds;
    struct base_pool *pool;  /* may be NULL */
    const atomic_bool *stop; /* as in lay_search_round; may be NULL */
};

/* The widest piece of the task, where cloth of that width has no room for it however it lies; NULL: it has. */
const struct draft_piece *lay_too_wide_on(const struct lay_task *task, double width_mm);

/* The same task on as much of the same cloth as it takes, without its faults and its shape. False as of the next. */
bool lay_on_enough(struct arena *a, const struct lay_task *task, const struct lay_effort *effort,
                   struct lay_figures *out, enum units_length unit);

/* The same task on another width; false when something does not fit there at all. */
bool lay_on_width(struct arena *a, const struct lay_task *task, double width_mm, const struct lay_effort *effort,
                  struct lay_figures *out, enum units_length unit);

#endif
