/* Fusing in a block: what is fused on its wrong side is laid together at the cut end, no wider than the interfacing, so
 * that a rectangle of that is fused on the cloth first, and the pieces are cut out of both. The rectangle reaches past
 * them on every side and lies on the cloth as a whole; nothing else lies within it. */
#include "lay/items.h"

static const struct err_kind doubled_block = {
    "lay.doubled_block", ERR_WARNING,
    "a block can be fused in a single layer only: the pieces are laid to be fused one by one"
};
static const struct err_kind wider_than_block = {
    "lay.wider_than_block", ERR_WARNING,
    "“{0}” is {1} wide across the grain, and the block to be fused has room for {2}: it lies outside, fuse it by itself"
};
static const struct err_kind right_side_block = {
    "lay.right_side_block", ERR_WARNING,
    "“{0}” is fused on its right side, and the block on the wrong one: it lies outside, fuse it by itself"
};
static const struct err_kind not_of_fabric = {
    "lay.block_not_of_fabric", ERR_WARNING,
    "“fuse_block” belongs to the main fabric, which the block is fused on: of {0} it is not looked at"
};

static const struct err_place nowhere = { NULL, NULL, 0 };

/* How many of a piece are fused, by hand. */
static struct lay_hands fused_of(const struct draft *draft, int piece, enum pattern_side side)
{
    struct lay_hands f = { 0, 0 };
    for (size_t i = 0; i < draft->cut_count; i++) {
        const struct draft_cut *cut = &draft->cuts[i];
        if (cut->piece != piece || cut->cloth != PATTERN_INTERFACING || cut->fuse != side)
            continue;
        struct lay_hands of = lay_hands_of(cut);
        f.left += of.left;
        f.right += of.right;
    }
    return f;
}

/* Takes one of those that are still to be fused; a piece that has no hand takes either. */
static bool take(struct lay_hands *f, enum pattern_hand hand)
{
    bool from_left = hand == PATTERN_LEFT || (hand == PATTERN_AS_DRAWN && f->right == 0);
    int *from = from_left ? &f->left : &f->right;
    if (*from == 0)
        return false;
    --*from;
    return true;
}

/* Whether a piece that is to be fused may be fused with the block; told where not. */
static bool may_be_covered(const struct lay_task *task, const struct lay_item *item, struct err_list *errs)
{
    double across = lay_extent(item->piece, false).y, room = lay_block_strip(task).to_mm - lay_block_strip(task).from_mm;
    if (across > room + LAY_FIT_MM)
        base_err(errs, &wider_than_block, nowhere, ERR_TEXT(item->piece->label), ERR_MM(across), ERR_MM(fmax(room, 0)));
    return across <= room + LAY_FIT_MM;
}

/* The items of a piece, as they lie one after the other. */
static void mark_piece(const struct lay_task *task, int piece, struct lay_item *items, size_t count,
                       struct err_list *errs)
{
    struct lay_hands wrong = fused_of(task->draft, piece, PATTERN_WRONG_SIDE);
    struct lay_hands right = fused_of(task->draft, piece, PATTERN_RIGHT_SIDE);
    size_t first = 0;
    while (first < count && task->draft->cuts[items[first].cut].piece != piece)
        first++;
    if (first == count)
        return;
    if (right.right + right.left > 0)
        base_err(errs, &right_side_block, nowhere, ERR_TEXT(items[first].piece->label));
    if (wrong.right + wrong.left == 0 || !may_be_covered(task, &items[first], errs))
        return;
    for (size_t i = first; i < count; i++)
        if (task->draft->cuts[items[i].cut].piece == piece)
            items[i].covered = take(&wrong, items[i].hand);
}

void lay_mark_block(const struct lay_task *task, struct lay_item *items, size_t count, struct err_list *errs)
{
    if (!(task->cloth->block_mm > 0))
        return;
    if (task->material != PATTERN_FABRIC) {
        base_err(errs, &not_of_fabric, nowhere, ERR_TEXT(pattern_cloth_name(task->material)));
        return;
    }
    if (task->cloth->spread != CLOTH_SINGLE) {
        base_err(errs, &doubled_block, nowhere, ERR_NONE);
        return;
    }
    for (size_t p = 0; p < task->draft->piece_count; p++)
        mark_piece(task, (int)p, items, count, errs);
}

struct cloth_band lay_block_strip(const struct lay_task *task)
{
    double width = fmin(task->spread.width_mm, task->cloth->block_mm);
    return (struct cloth_band){ .from_mm = LAY_BLOCK_PAST_MM, .to_mm = width - LAY_BLOCK_PAST_MM, .layers = 1 };
}

struct geometry_box lay_block_of(const struct lay_task *task, const struct lay_place *places)
{
    struct geometry_box box = geometry_box_empty();
    struct arena *scratch = base_arena_create();
    for (size_t i = 0; i < task->item_count; i++)
        if (task->items[i].covered && places[i].is_laid)
            box = geometry_box_join(box, geometry_path_box(lay_outline(scratch, task, i, &places[i]).path));
    base_arena_destroy(scratch);
    if (box.min.x > box.max.x)
        return (struct geometry_box){ { 0, 0 }, { 0, 0 } };
    const vec2 past = { LAY_BLOCK_PAST_MM, LAY_BLOCK_PAST_MM };
    return (struct geometry_box){ vec2_sub(box.min, past), vec2_add(box.max, past) };
}
