/* Fusing in a block: what is fused on its wrong side is laid together at the cut end, no wider than the interfacing, so
 * that a rectangle of that is fused on the cloth first, and the pieces are cut out of both. */
#include "lay/items.h"

#define LARGER_MM 10.0 /* than what is fused, in all (common practice, no source) */

static const struct err_kind doubled_block = {
    "lay.doubled_block", ERR_WARNING,
    "a block can be fused in a single layer only: the pieces are laid to be fused one by one"
};

static const struct err_place nowhere = { NULL, NULL, 0 };

/* How many of a piece are fused, by hand. */
struct fused {
    int right, left;
};

static struct fused fused_of(const struct draft *draft, int piece)
{
    struct fused f = { 0, 0 };
    for (size_t i = 0; i < draft->cut_count; i++) {
        const struct draft_cut *cut = &draft->cuts[i];
        if (cut->piece != piece || cut->cloth != PATTERN_INTERFACING || cut->fuse != PATTERN_WRONG_SIDE)
            continue;
        int left = cut->hand == PATTERN_LEFT ? cut->count : cut->hand == PATTERN_PAIRS ? cut->count / 2 : 0;
        f.left += left;
        f.right += cut->count - left;
    }
    return f;
}

/* Takes one of those that are still to be fused; a piece that has no hand takes either. */
static bool take(struct fused *f, enum pattern_hand hand)
{
    bool from_left = hand == PATTERN_LEFT || (hand == PATTERN_AS_DRAWN && f->right == 0);
    int *from = from_left ? &f->left : &f->right;
    if (*from == 0)
        return false;
    --*from;
    return true;
}

void lay_mark_block(const struct lay_task *task, struct lay_item *items, size_t count, struct err_list *errs)
{
    if (!(task->cloth->block_mm > 0) || task->material != PATTERN_FABRIC)
        return;
    if (task->cloth->spread != CLOTH_SINGLE) {
        base_err(errs, &doubled_block, nowhere, ERR_NONE);
        return;
    }
    for (size_t p = 0; p < task->draft->piece_count; p++) {
        struct fused f = fused_of(task->draft, (int)p);
        for (size_t i = 0; i < count; i++)
            if (task->draft->cuts[items[i].cut].piece == (int)p &&
                lay_extent(items[i].piece, false).y <= lay_block_room(task->cloth))
                items[i].covered = take(&f, items[i].hand);
    }
}

double lay_block_room(const struct cloth *cloth)
{
    return fmax(cloth->block_mm - LARGER_MM, 0);
}

vec2 lay_block_of(const struct lay *lay)
{
    struct geometry_box box = geometry_box_empty();
    struct arena *scratch = base_arena_create();
    for (size_t i = 0; i < lay->task->item_count; i++)
        if (lay->task->items[i].covered && lay->places[i].is_laid)
            box = geometry_box_join(box, geometry_path_box(lay_outline(scratch, lay->task, i, &lay->places[i]).path));
    base_arena_destroy(scratch);
    if (box.min.x > box.max.x)
        return (vec2){ 0, 0 };
    return vec2_add(vec2_sub(box.max, box.min), (vec2){ LARGER_MM, LARGER_MM });
}
