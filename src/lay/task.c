/* From the cutting list to what has to be laid.
 *
 * What a careful dressmaker does, and this does:
 * - A piece on the fold goes on the fold, once for each time it is cut. Where there is no fold for it (a single layer;
 *   cloth folded crosswise; a fold that does not run along its grain) or none so deep, it is opened out.
 * - Through two layers, right sides together, a pair is cut at once. So are two of a piece that is its own mirror
 * image, or any two of cloth whose sides are alike.
 * - What is left is cut where the cloth lies single, the left one turned over. Where it is double everywhere, it is cut
 *   through both layers and one is left over, which is told: one of the two is right whichever way up it is laid.
 * - Cloth that is folded to a depth takes pieces on the fold in its double part, and pairs where there is room: at once
 * in the double part or each by itself in the single one, so that both come to about the same length (lay/balance.c).
 *
 * Which way round interfacing lies: its right side is the one without resin. Fused on the wrong side of its piece it is
 * seen, resin down, from the piece's wrong side, so it is cut as the mirror image where its right side is up, and as
 * the piece where its resin is up (wrong_side_up); fused on the right side, the other way round. */
#include "base/text.h"
#include "base/words.h"
#include "lay/items.h"
#include "lay/sewn.h"

static const struct err_kind nothing = { "lay.nothing", ERR_FAULT,
                                         BASE_TR("nothing is cut of {0} in this view: choose another material") };
static const struct err_kind second_unused = {
    "lay.second_unused", ERR_WARNING,
    BASE_TR(
        "“{0}” is cut through both layers and one of the two is left over ({1} times): a single layer saves that")
};
static const struct err_kind second_unused_once = {
    "lay.second_unused", ERR_WARNING,
    BASE_TR("“{0}” is cut through both layers and one of the two is left over ({1} time): a single layer saves that")
};
static const struct err_kind too_shallow = {
    "lay.too_shallow", ERR_FAULT,
    BASE_TR("“{0}” reaches {1} from its fold, and the cloth is folded {2} deep: fold "
            "it deeper, or lay it in a single layer, {3} "
            "wide")
};
static const struct err_kind too_far_from_fold = { "lay.too_far_from_fold", ERR_FAULT,
                                                   BASE_TR("“{0}” reaches {1} from its fold, and the cloth lies double "
                                                           "for {2} beside its folds: lay it in a single layer, {3} "
                                                           "wide") };
static const struct err_kind too_wide_doubled = {
    "lay.too_wide_doubled", ERR_FAULT,
    BASE_TR("“{0}” is {1} wide across the grain, and the cloth lies {2} wide: lay it in a single layer, {3} wide")
};
static const struct err_kind too_wide_turned = {
    "lay.too_wide_turned", ERR_FAULT,
    BASE_TR("“{0}” is {1} wide across the grain, too wide for this cloth: take cloth at least {2} wide, piece it with "
            "a seam, or, where "
            "its grain may run across, turn the grain in the pattern: it is {3} long")
};
static const struct err_kind too_wide = { "lay.too_wide", ERR_FAULT,
                                          BASE_TR("“{0}” is {1} wide across the grain, and {2} of the cloth can be "
                                                  "cut: take cloth at least {3} wide, or piece it with a seam") };
static const struct err_kind too_wide_folded = {
    "lay.too_wide_folded", ERR_FAULT,
    BASE_TR("“{0}” is {1} wide across the grain, too wide for this cloth even in a single layer, where {2} can be cut: "
            "lay cloth at least {3} wide in a single layer, or piece it with a seam")
};
static const struct err_kind unlike_pair = {
    "lay.unlike_pair", ERR_WARNING,
    BASE_TR("right and left of “{0}” are cut one by one, and the cloth is too narrow for both to lie by the same "
            "stripe, so that they may be no mirror images: take wider cloth, or lay it double")
};
static const struct err_kind uneven_pair = {
    "lay.uneven_pair", ERR_WARNING,
    BASE_TR(
        "right and left of “{0}” lie by the same stripe, but the stripes to either side of it are no mirror images")
};
static const struct err_kind no_match_line = {
    "lay.no_match_line", ERR_WARNING,
    BASE_TR("nothing says where the stripes of {0} are to meet at their seams, and they are not matched: draw a line "
            "of the kind “match” across the grain of one of them in the pattern")
};
static const struct err_kind no_trim = {
    "lay.no_trim", ERR_WARNING, BASE_TR("“{0}” is too narrow to be cut {1} smaller all round: it is laid as it is")
};

static const struct err_kind block_in_strips = {
    "lay.block_in_strips", ERR_WARNING,
    BASE_TR("the block is {0} wide, and this interfacing lies {1} wide: it is cut as {2} strips, each {3} wide; fuse "
            "them side "
            "by side, each over the edge of the one before by 6 mm or 1/4 in")
};
static const struct err_kind touches_itself = { "lay.touches_itself", ERR_FAULT,
                                                BASE_TR("the outline of “{0}” crosses or touches itself where it is "
                                                        "cut: mend it in the pattern, then arrange the pieces") };
static const struct err_kind too_many = {
    "lay.too_many", ERR_FAULT,
    BASE_TR("{0} pieces are to be arranged at once, and at most {1} can be: cut fewer "
            "garments of this cloth")
};

static const struct err_place nowhere = { NULL, NULL, 0 };

enum { MOST_NAMED = 6 };   /* in one sentence */
enum { MOST_ITEMS = 400 }; /* whose pairs are kept a table of; more than anyone cuts at once */

struct making {
    struct arena *a;
    struct lay_task *task;
    struct lay_item *items; /* as they grow */
    size_t count, cap;
    double single, doubled;   /* the widest bands of one layer and of two; 0: none */
    const int *doubled_pairs; /* of each line, how many pairs go into the double part; NULL: all that fit */
    struct err_list *errs;
};

/* A line of the cutting list under way. */
struct line {
    int cut;                         /* LAY_NONE: the fabric's block */
    const struct draft_piece *piece; /* as it is laid */
    int right, left;                 /* how many are still to be laid, as drawn and as the mirror image */
    bool handed;                     /* the list tells hands */
    bool own_image, alike;           /* alike: right and left are the same to whoever cuts */
    bool opened;                     /* it has a fold as drawn */
    bool by_grain, by_fold;          /* as of an item */
};

static void add(struct making *m, struct lay_item item, int times)
{
    m->items = base_arena_grow(m->a, m->items, &m->cap, m->count + (size_t)times, sizeof *m->items);
    for (int i = 0; i < times; i++) {
        item.number = m->count && m->items[m->count - 1].cut == item.cut ? m->items[m->count - 1].number + 1 : 0;
        m->items[m->count++] = item;
    }
}

/* Interfacing fused on the wrong side is seen from there; cloth that lies wrong side up is seen from behind as well. */
static bool is_fused_behind(const struct lay_task *task, int cut)
{
    return task->material == PATTERN_INTERFACING && task->draft->cuts[cut].fuse == PATTERN_WRONG_SIDE;
}

static bool is_seen_mirrored(const struct making *m, int cut)
{
    return is_fused_behind(m->task, cut) != m->task->cloth->wrong_side_up;
}

/* One of a hand in a single layer, or through two of which one is left over. */
static struct lay_item one_of(const struct making *m, const struct line *l, bool left, int layers)
{
    enum pattern_hand hand = !l->handed || l->alike ? PATTERN_AS_DRAWN : left ? PATTERN_LEFT : PATTERN_RIGHT;
    return (struct lay_item){ .cut = l->cut,
                              .piece = l->piece,
                              .hand = hand,
                              .copies = 1,
                              .layers = layers,
                              .mirrored = layers == 1 && !l->alike && left != is_seen_mirrored(m, l->cut),
                              .either_hand = layers == 2 || l->alike,
                              .own_image = l->own_image,
                              .by_grain = l->by_grain,
                              .by_fold = l->by_fold };
}

/* As many as may be cut at once; the others are left for single layers. */
static void add_pairs(struct making *m, struct line *l)
{
    int pairs = lay_pairs(l->right, l->left, l->alike);
    if (m->doubled_pairs && l->cut != LAY_NONE)
        pairs = pairs < m->doubled_pairs[l->cut] ? pairs : m->doubled_pairs[l->cut];
    add(m,
        (struct lay_item){ .cut = l->cut,
                           .piece = l->piece,
                           .hand = l->handed ? PATTERN_PAIRS : PATTERN_AS_DRAWN,
                           .copies = 2,
                           .layers = 2,
                           .either_hand = true,
                           .own_image = l->own_image },
        pairs);
    l->right = l->alike ? l->right + l->left - 2 * pairs : l->right - pairs;
    l->left = l->alike ? 0 : l->left - pairs;
}

static void tell_second(struct making *m, const struct line *l)
{
    int times = l->right + l->left;
    bool no_hand = !l->handed || l->alike || (l->right > 0 && l->left > 0);
    enum pattern_hand hand = no_hand ? PATTERN_AS_DRAWN : l->left > 0 ? PATTERN_LEFT : PATTERN_RIGHT;
    base_err(m->errs, times == 1 ? &second_unused_once : &second_unused, nowhere,
             ERR_TEXT(lay_handed_name(m->a, l->piece->label, hand)), ERR_NUMBER(times));
}

/* `on_fold`: half of it could lie on a fold, so that wider cloth may stay folded. */
static void tell_too_wide(struct making *m, const struct draft_piece *piece, bool on_fold)
{
    const struct cloth_spread *s = &m->task->spread;
    vec2 extent = lay_extent(piece, false);
    double lies = fmax(m->single, m->doubled), wider = cloth_width_for(m->task->cloth, extent.y);
    if (extent.y <= s->usable_mm + LAY_FIT_MM && m->doubled > 0)
        base_err(m->errs, &too_wide_doubled, nowhere, ERR_TEXT(piece->label), ERR_TAPE_MM(extent.y), ERR_TAPE_MM(lies),
                 ERR_TAPE_MM(s->usable_mm));
    else if (lies < s->usable_mm - LAY_FIT_MM && !on_fold)
        base_err(m->errs, &too_wide_folded, nowhere, ERR_TEXT(piece->label), ERR_TAPE_MM(extent.y),
                 ERR_TAPE_MM(s->usable_mm), ERR_TAPE_MM(wider));
    else if (extent.x <= lies)
        base_err(m->errs, &too_wide_turned, nowhere, ERR_TEXT(piece->label), ERR_TAPE_MM(extent.y), ERR_TAPE_MM(wider),
                 ERR_TAPE_MM(extent.x));
    else
        base_err(m->errs, &too_wide, nowhere, ERR_TEXT(piece->label), ERR_TAPE_MM(extent.y), ERR_TAPE_MM(s->usable_mm),
                 ERR_TAPE_MM(wider));
}

static bool has_place(const struct making *m, struct lay_item item)
{
    struct lay_task alone = *m->task;
    alone.items = &item;
    alone.item_count = 1;
    return lay_can_lie(&alone, 0);
}

/* Of stripes that run with the grain each of a pair that is laid by itself would get its own. */
static void tell_unlike(struct making *m, const struct line *l)
{
    struct lay_match match = { 0 };
    lay_own_match(l->piece, &match);
    if (!l->by_grain && !match.has_across)
        base_err(m->errs, &unlike_pair, nowhere, ERR_TEXT(l->piece->label));
    else if (m->task->spread.repeat.uneven)
        base_err(m->errs, &uneven_pair, nowhere, ERR_TEXT(l->piece->label));
}

/* What has to be alike lies by stripes where the cloth has room for that. */
static void find_stripes(struct making *m, struct line *l, int layers)
{
    const struct cloth_repeat *repeat = &m->task->spread.repeat;
    bool both = l->handed && l->right > 0 && l->left > 0;
    if (!(repeat->along_mm > 0 || repeat->across_mm > 0))
        return;
    l->by_grain = both;
    l->by_grain = both && has_place(m, one_of(m, l, false, layers)) && has_place(m, one_of(m, l, true, layers));
    l->by_fold = l->opened;
    l->by_fold = l->opened && has_place(m, one_of(m, l, false, layers));
    if (both && repeat->across_mm > 0)
        tell_unlike(m, l);
}

/* False, told by the caller, when it fits nowhere. */
static bool add_whole(struct making *m, struct line *l)
{
    double across = lay_extent(l->piece, false).y - LAY_FIT_MM;
    if (across > m->single && across > m->doubled)
        return false;
    l->own_image = lay_is_own_image(l->piece, !lay_is_one_way(m->task->cloth));
    l->alike = l->own_image || m->task->cloth->sides_alike;
    if (across <= m->doubled)
        add_pairs(m, l);
    int layers = across <= m->single ? 1 : 2;
    if (layers == 2 && l->right + l->left > 0)
        tell_second(m, l);
    find_stripes(m, l, layers);
    add(m, one_of(m, l, false, layers), l->right);
    add(m, one_of(m, l, true, layers), l->left);
    return true;
}

static void add_folded(struct making *m, struct line *l)
{
    const struct cloth_spread *s = &m->task->spread;
    const struct draft_piece *half = l->piece;
    bool could = lay_has_fold_for(s, half);
    if (could && lay_extent(half, true).y <= m->doubled + LAY_FIT_MM) {
        add(m,
            (struct lay_item){
                .cut = l->cut, .piece = half, .copies = 1, .layers = 2, .on_fold = true, .either_hand = true },
            l->right);
        return;
    }
    struct draft_piece *whole = base_arena_alloc(m->a, 1, sizeof *whole);
    *whole = draft_unfold(m->a, half);
    l->piece = whole;
    l->opened = lay_is_fold_lengthwise(half);
    if (add_whole(m, l))
        return;
    double deep = lay_extent(half, true).y;
    bool any_depth = m->task->cloth->spread == CLOTH_FOLDED_TO;
    if (could && 2 * deep <= s->usable_mm + LAY_FIT_MM)
        base_err(m->errs, any_depth ? &too_shallow : &too_far_from_fold, nowhere, ERR_TEXT(half->label),
                 ERR_TAPE_MM(deep), ERR_TAPE_MM(m->doubled), ERR_TAPE_MM(s->usable_mm));
    else
        tell_too_wide(m, whole, could);
}

/* Interfacing as it is cut. */
static const struct draft_piece *as_cut(struct making *m, const struct draft_piece *piece)
{
    double trim = m->task->material == PATTERN_INTERFACING ? m->task->cloth->trim_mm : 0;
    if (!(trim > 0))
        return piece;
    struct draft_piece *smaller = base_arena_alloc(m->a, 1, sizeof *smaller);
    if (lay_trimmed(m->a, piece, trim, smaller))
        return smaller;
    base_err(m->errs, &no_trim, nowhere, ERR_TEXT(piece->label), ERR_MM(trim));
    return piece;
}

/* Whether it can be asked where the outline lies. */
static bool is_simple(struct making *m, const struct draft_piece *piece)
{
    vec2 where;
    if (!geometry_path_crosses_itself(piece->cut.path, &where))
        return true;
    base_err(m->errs, &touches_itself, nowhere, ERR_TEXT(piece->label));
    return false;
}

struct lay_hands lay_hands_of(const struct draft_cut *cut)
{
    int left = cut->hand == PATTERN_LEFT ? cut->count : cut->hand == PATTERN_PAIRS ? cut->count / 2 : 0;
    return (struct lay_hands){ cut->count - left, left };
}

struct lay_hands lay_hands_here(const struct lay_task *task, int cut)
{
    struct lay_hands all = lay_hands_of(&task->draft->cuts[cut]);
    struct lay_hands gone = task->elsewhere ? task->elsewhere[cut] : (struct lay_hands){ 0, 0 };
    return (struct lay_hands){ all.right - gone.right, all.left - gone.left };
}

static void add_line(struct making *m, int index)
{
    const struct draft *draft = m->task->draft;
    const struct draft_cut *cut = &draft->cuts[index];
    struct lay_hands here = lay_hands_here(m->task, index);
    if (here.right + here.left == 0 || !is_simple(m, &draft->pieces[cut->piece]))
        return;
    struct line l = { .cut = index,
                      .piece = as_cut(m, &draft->pieces[cut->piece]),
                      .right = here.right,
                      .left = here.left,
                      .handed = cut->hand != PATTERN_AS_DRAWN };
    if (l.piece->has_fold)
        add_folded(m, &l);
    else if (!add_whole(m, &l))
        tell_too_wide(m, l.piece, false);
}

/* --- seams -------------------------------------------------------------------------------------------------------- */

/* Stripes of pieces that are sewn to each other meet by match lines alone. */
static void check_seams(struct making *m)
{
    const char **names = base_arena_alloc(m->a, m->count, sizeof *names);
    size_t count = 0;
    for (size_t i = 0; i < m->count; i++) {
        const struct draft_piece *piece = m->items[i].piece;
        struct lay_match match = { 0 };
        vec2 at;
        lay_own_match(piece, &match);
        if (m->items[i].number == 0 && !match.has_along && lay_is_sewn(m->task, piece) &&
            !lay_sewn_match(m->task, piece, &at))
            names[count++] = base_arena_print(m->a, base_tr("“%s”"), piece->label);
    }
    if (count)
        base_err(m->errs, &no_match_line, nowhere, ERR_TEXT(base_text_list(m->a, names, count, MOST_NAMED)));
}

/* --- the fabric's block ------------------------------------------------------------------------------------------- */

const struct draft_piece *lay_block_piece(struct arena *a, double width_mm, double height_mm)
{
    struct draft_piece *piece = base_arena_alloc(a, 1, sizeof *piece);
    struct piece_path outline = { lay_rectangle(a, (struct geometry_box){ { 0, 0 }, { width_mm, height_mm } }) };
    *piece = (struct draft_piece){ .name = LAY_BLOCK_NAME,
                                   .label = LAY_BLOCK_LABEL,
                                   .index = PATTERN_NONE,
                                   .seam = outline,
                                   .cut = outline,
                                   .seam_line = outline,
                                   .cut_line = outline,
                                   .fold_edge = PATTERN_NONE,
                                   .grain = { { width_mm / 2, height_mm / 4 }, { width_mm / 2, 3 * height_mm / 4 } },
                                   .label_at = { width_mm / 2, height_mm / 2 } };
    return piece;
}

/* Where the cloth lies narrower than the block, that is cut as strips alike. */
static void add_block(struct making *m)
{
    const struct lay_block *block = &m->task->fabric_block;
    double lies = fmax(m->single, m->doubled), lap = LAY_BLOCK_LAP_MM;
    int strips = 1;
    if (block->width_mm > lies + LAY_FIT_MM && lies > 2 * lap)
        strips = (int)ceil((block->width_mm - lap) / (lies - lap) - LAY_FIT_MM);
    double width = (block->width_mm + (strips - 1) * lap) / strips;
    struct line l = { .cut = LAY_NONE,
                      .piece = lay_block_piece(m->a, width, block->length_mm),
                      .right = strips * block->count };
    if (strips > 1)
        base_err(m->errs, &block_in_strips, nowhere, ERR_TAPE_MM(round(block->width_mm)), ERR_TAPE_MM(lies),
                 ERR_NUMBER(strips), ERR_TAPE_MM(round(width)));
    if (!add_whole(m, &l))
        tell_too_wide(m, l.piece, false);
}

static const char *material_name(enum pattern_cloth material)
{
    static const char *const names[] = { [PATTERN_FABRIC] = BASE_TR("main fabric"),
                                         [PATTERN_INTERFACING] = BASE_TR("interfacing"),
                                         [PATTERN_LINING] = BASE_TR("lining") };
    return base_tr(names[material]);
}

bool lay_is_cut(const struct draft *draft, enum pattern_cloth material)
{
    size_t i = 0;
    while (i < draft->cut_count && draft->cuts[i].cloth != material)
        i++;
    return i < draft->cut_count;
}

bool lay_task_on(struct arena *a, const struct lay_task *task, const struct cloth *cloth, struct lay_task *out,
                 struct err_list *errs)
{
    const struct draft *draft = task->draft;
    int faults = errs->faults;
    *out = (struct lay_task){ .draft = draft,
                              .elsewhere = task->elsewhere,
                              .fabric_block = task->fabric_block,
                              .cloth = cloth,
                              .material = task->material };
    if (!cloth_spread(a, cloth, &out->spread, errs))
        return false;
    struct making m = { .a = a, .task = out, .errs = errs };
    m.single = lay_widest_band(&out->spread, 1);
    m.doubled = lay_widest_band(&out->spread, 2);
    if (m.single > 0 && m.doubled > 0)
        m.doubled_pairs = lay_balance(a, out);
    if (out->fabric_block.count)
        add_block(&m);
    for (size_t c = 0; c < draft->cut_count; c++)
        if (draft->cuts[c].cloth == out->material)
            add_line(&m, (int)c);
    if (m.count > MOST_ITEMS)
        base_err(errs, &too_many, nowhere, ERR_NUMBER(m.count), ERR_NUMBER(MOST_ITEMS));
    if (!m.count && errs->faults == faults)
        base_err(errs, &nothing, nowhere, ERR_TEXT(material_name(out->material)));
    lay_mark_block(out, m.items, m.count, errs);
    out->items = m.items;
    out->item_count = m.count;
    if (out->spread.repeat.along_mm > 0)
        check_seams(&m);
    return errs->faults == faults;
}

bool lay_task_make(struct arena *a, const struct draft *draft, const struct lay_hands *elsewhere,
                   const struct cloth *cloth, enum pattern_cloth material, struct lay_task *out, struct err_list *errs)
{
    const struct lay_task task = { .draft = draft, .elsewhere = elsewhere, .material = material };
    return lay_task_on(a, &task, cloth, out, errs);
}

bool lay_task_make_interfacing(struct arena *a, const struct draft *draft, const struct lay_hands *in_block,
                               const struct lay_block *block, const struct cloth *cloth, struct lay_task *out,
                               struct err_list *errs)
{
    const struct lay_task task = {
        .draft = draft, .elsewhere = in_block, .fabric_block = *block, .material = PATTERN_INTERFACING
    };
    return lay_task_on(a, &task, cloth, out, errs);
}

/* Right sides lie together: the lower layer shows its right side, and is cut as it is seen. */
enum lay_kept lay_kept_of(const struct lay *lay, size_t item)
{
    const struct lay_item *it = &lay->task->items[item];
    if (it->on_fold || it->layers <= it->copies)
        return LAY_KEEPS_ALL;
    if (it->own_image || lay->task->cloth->sides_alike || it->cut == LAY_NONE)
        return LAY_KEEPS_EITHER;
    bool mirrored = (it->hand == PATTERN_LEFT) != is_fused_behind(lay->task, it->cut);
    return lay->places[item].motion.mirror == mirrored ? LAY_KEEPS_LOWER : LAY_KEEPS_UPPER;
}
