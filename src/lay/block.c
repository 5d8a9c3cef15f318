/* Fusing in a block: what is fused on its wrong side is laid together at the cut end, no wider than the interfacing, so
 * that a rectangle of that is fused on the cloth first, and the pieces are cut out of both. The rectangle reaches past
 * them on every side and lies on the cloth as a whole; nothing else lies within it.
 *
 * Doubled cloth lies right sides together, so that each layer is fused on its outer side, in one place: that takes two
 * rectangles alike. With a piece on the fold it is one twice as wide, over the fold, on cloth that is opened out again
 * for fusing. Where cloth lies partly double, the block lies where more of what is fused is. */
#include "lay/items.h"

static const struct err_kind other_layers = {
    "lay.block_other_layers", ERR_WARNING,
    BASE_TR("“{0}” is cut where the cloth lies {1}, and the block is fused where it lies {2}: fuse it by itself")
};
static const struct err_kind one_of_two = {
    "lay.block_one_of_two", ERR_WARNING,
    BASE_TR(
        "“{0}” is cut through two layers, and fewer of it are fused: it lies outside the block, fuse it by itself")
};
static const struct err_kind wider_than_block = { "lay.wider_than_block", ERR_WARNING,
                                                  BASE_TR(
                                                      "“{0}” is {1} wide across the grain, and the block to be fused "
                                                      "has room for {2}: it lies outside, fuse it by itself") };
static const struct err_kind right_side_block = {
    "lay.right_side_block", ERR_WARNING,
    BASE_TR("“{0}” is fused on its right side, and the block on the wrong one: it lies outside, fuse it by itself")
};
static const struct err_kind not_of_fabric = {
    "lay.block_not_of_fabric", ERR_WARNING,
    BASE_TR("“fuse_block” belongs to the main fabric, which the block is fused on: of {0} it is not looked at")
};

static const struct err_place nowhere = { NULL, NULL, 0 };

static const char *const layer_words[] = { "", BASE_TR_IN("how cloth lies", "single"),
                                           BASE_TR_IN("how cloth lies", "double") };

/* The task's items, as they lie one after the other. */
struct marking {
    struct lay_task *task;
    struct lay_item *items;
    size_t count;
    struct err_list *errs;
};

static bool is_of(const struct marking *m, size_t item, size_t piece)
{
    return m->task->draft->cuts[m->items[item].cut].piece == (int)piece;
}

/* The piece as it is called, told once of all its items. */
static const char *label_of(const struct marking *m, size_t piece)
{
    return m->task->draft->pieces[piece].label;
}

/* --- what is fused ------------------------------------------------------------------------------------------------ */

struct lay_hands lay_fused_of(const struct draft *draft, int piece, enum pattern_side side)
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

static bool take(struct lay_hands *from, bool left)
{
    int *one = left ? &from->left : &from->right;
    if (*one == 0)
        return false;
    --*one;
    return true;
}

bool lay_take_fused(struct lay_hands *from, const struct lay_item *item)
{
    struct lay_hands rest = *from;
    bool pair = item->hand == PATTERN_PAIRS, ok = true;
    for (int i = 0; i < item->copies; i++)
        ok =
            ok && take(&rest, pair ? i == 1
                                   : item->hand == PATTERN_LEFT || (item->hand == PATTERN_AS_DRAWN && rest.right == 0));
    if (ok)
        *from = rest;
    return ok;
}

static void mark_piece(struct marking *m, size_t piece)
{
    struct lay_hands wrong = lay_fused_of(m->task->draft, (int)piece, PATTERN_WRONG_SIDE);
    struct lay_hands right = lay_fused_of(m->task->draft, (int)piece, PATTERN_RIGHT_SIDE);
    bool any = false, doubled = false;
    for (size_t i = 0; i < m->count; i++) {
        if (!is_of(m, i, piece))
            continue;
        any = true;
        m->items[i].covered = lay_take_fused(&wrong, &m->items[i]);
        doubled = doubled || (!m->items[i].covered && m->items[i].copies == 2);
    }
    if (any && right.right + right.left > 0)
        base_err(m->errs, &right_side_block, nowhere, ERR_TEXT(label_of(m, piece)));
    if (doubled && wrong.right + wrong.left > 0)
        base_err(m->errs, &one_of_two, nowhere, ERR_TEXT(label_of(m, piece)));
}

/* --- where it lies ------------------------------------------------------------------------------------------------ */

/* Through how many layers more of what is fused is cut. */
static int layers_of(const struct marking *m)
{
    double area[3] = { 0 };
    for (size_t i = 0; i < m->count; i++)
        if (m->items[i].covered)
            area[m->items[i].layers] += geometry_path_area(m->items[i].piece->cut.path);
    return area[2] > area[1] ? 2 : 1;
}

static double across(const struct lay_item *item)
{
    return lay_extent(item->piece, item->on_fold).y;
}

/* Whether a piece on the fold has room in a block over it. */
static bool is_over_fold(const struct marking *m, const struct cloth_band *band, double room)
{
    size_t i = 0;
    while (i < m->count && !(m->items[i].covered && m->items[i].on_fold && across(&m->items[i]) <= room + LAY_FIT_MM))
        i++;
    return band->fold_at_from && i < m->count;
}

/* The first band of so many layers, and of that as much as the interfacing covers, less what the block reaches past. */
static struct cloth_band strip_of(const struct marking *m, int layers)
{
    const struct cloth_spread *s = &m->task->spread;
    double wide = m->task->cloth->block_mm;
    int b = 0;
    while (b < s->band_count && s->bands[b].layers != layers)
        b++;
    if (b == s->band_count)
        return (struct cloth_band){ .layers = 0 };
    struct cloth_band band = s->bands[b];
    double over = fmin(band.to_mm, band.from_mm + wide / 2) - LAY_BLOCK_PAST_MM;
    if (is_over_fold(m, &band, over - band.from_mm))
        return (struct cloth_band){ band.from_mm, over, layers, .fold_at_from = true };
    return (struct cloth_band){ .from_mm = band.from_mm + LAY_BLOCK_PAST_MM,
                                .to_mm = fmin(band.to_mm, band.from_mm + wide) - LAY_BLOCK_PAST_MM,
                                .layers = layers };
}

static void tell_wider(struct marking *m, size_t piece, const struct lay_item *item)
{
    const struct cloth_band *strip = &m->task->block;
    double halves = item->on_fold ? 2 : 1, room = halves * (strip->to_mm - strip->from_mm);
    if (item->on_fold && !strip->fold_at_from)
        room = m->task->cloth->block_mm - 2 * LAY_BLOCK_PAST_MM;
    base_err(m->errs, &wider_than_block, nowhere, ERR_TEXT(label_of(m, piece)), ERR_MM(halves * across(item)),
             ERR_MM(fmax(room, 0)));
}

/* The items of a piece that have no room there are fused by themselves, which is told once. */
static void fit_piece(struct marking *m, size_t piece)
{
    const struct cloth_band *strip = &m->task->block;
    const struct lay_item *wide = NULL, *elsewhere = NULL;
    for (size_t i = 0; i < m->count; i++) {
        struct lay_item *item = &m->items[i];
        if (!item->covered || !is_of(m, i, piece))
            continue;
        bool lies_so = item->layers == strip->layers;
        bool fits =
            across(item) <= strip->to_mm - strip->from_mm + LAY_FIT_MM && (!item->on_fold || strip->fold_at_from);
        elsewhere = lies_so ? elsewhere : item;
        wide = lies_so && !fits ? item : wide;
        item->covered = lies_so && fits;
    }
    if (elsewhere)
        base_err(m->errs, &other_layers, nowhere, ERR_TEXT(label_of(m, piece)),
                 ERR_TEXT(base_tr_in("how cloth lies", layer_words[elsewhere->layers])),
                 ERR_TEXT(base_tr_in("how cloth lies", layer_words[strip->layers])));
    if (wide)
        tell_wider(m, piece, wide);
}

void lay_mark_block(struct lay_task *task, struct lay_item *items, size_t count, struct err_list *errs)
{
    struct marking m = { task, items, count, errs };
    if (!(task->cloth->block_mm > 0))
        return;
    if (task->material != PATTERN_FABRIC) {
        base_err(errs, &not_of_fabric, nowhere, ERR_TEXT(base_tr(pattern_cloth_name(task->material))));
        return;
    }
    for (size_t p = 0; p < task->draft->piece_count; p++)
        mark_piece(&m, p);
    task->block = strip_of(&m, layers_of(&m));
    for (size_t p = 0; p < task->draft->piece_count; p++)
        fit_piece(&m, p);
}
