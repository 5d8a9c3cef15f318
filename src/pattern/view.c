/* The views of a pattern file with their cutting lists. */
#include "base/words.h"
#include "pattern/reader.h"

static const struct err_kind no_views = { "pattern.no_views", ERR_FAULT, BASE_TR("the pattern has no view to cut") };
static const struct err_kind view_twice = { "pattern.view_twice", ERR_FAULT, BASE_TR("a view “{0}” is there already") };
static const struct err_kind nothing_to_cut = { "pattern.nothing_to_cut", ERR_FAULT,
                                                BASE_TR("the cutting list is empty") };
static const struct err_kind no_cloth = {
    "pattern.no_cloth", ERR_FAULT, BASE_TR("“{0}” is no cloth; write \"fabric\", \"interfacing\" or \"lining\"")
};

static const struct err_kind count_or_pairs = { "pattern.count_or_pairs", ERR_FAULT,
                                                BASE_TR("has a count and pairs; give one of them") };
static const struct err_kind no_hand = { "pattern.no_hand", ERR_FAULT,
                                         BASE_TR("“{0}” is no hand; write \"left\" or \"right\"") };
static const struct err_kind pairs_hand = { "pattern.pairs_hand", ERR_FAULT,
                                            BASE_TR("a pair is one left and one right; it has no hand of its own") };
static const struct err_kind fold_hand = {
    "pattern.fold_hand", ERR_FAULT,
    BASE_TR("piece “{0}” is cut on the fold: both its halves are alike, it has no hand or pair")
};

static const struct err_kind no_side = {
    "pattern.no_side", ERR_FAULT,
    BASE_TR("“{0}” is no side to fuse interfacing on; write \"wrong side\" or \"right side\"")
};
static const struct err_kind fuse_cloth = { "pattern.fuse_cloth", ERR_FAULT,
                                            BASE_TR("only interfacing is fused, and this is {0}; take \"fuse\" away") };

/* How many, and of which hand. */
static void read_number(const struct pattern_reader *r, const struct json_node *n, struct pattern_cut *cut)
{
    static const char *const hands[] = { [PATTERN_LEFT] = "left", [PATTERN_RIGHT] = "right" };
    const struct json_node *hand = json_maybe(n, "hand", JSON_TEXT, r->errs);
    if (hand)
        cut->hand = pattern_read_word(r, hand, hands, PATTERN_LEFT, PATTERN_RIGHT, &no_hand);
    if (!json_find(n, "pairs")) {
        pattern_need_count(r, n, "count", PATTERN_MOST_COPIES, &cut->count);
        return;
    }
    if (json_find(n, "count"))
        json_fault(r->errs, n, &count_or_pairs, ERR_NONE);
    if (hand)
        json_fault(r->errs, hand, &pairs_hand, ERR_NONE);
    pattern_need_count(r, n, "pairs", PATTERN_MOST_COPIES, &cut->count);
    cut->hand = PATTERN_PAIRS;
}

static void read_fuse(const struct pattern_reader *r, const struct json_node *node, struct pattern_cut *cut)
{
    if (!node)
        return;
    if (cut->cloth != PATTERN_INTERFACING)
        json_fault(r->errs, node, &fuse_cloth, ERR_TEXT(base_tr(pattern_cloth_name(cut->cloth))));
    cut->fuse = pattern_read_word(r, node, pattern_side_words, PATTERN_WRONG_SIDE, PATTERN_RIGHT_SIDE, &no_side);
}

static void read_cut(const struct pattern_reader *r, const struct json_node *n, struct pattern_cut *cut)
{
    static const char *const fields[] = { "piece", "count", "pairs", "hand", "cloth", "fuse", NULL };
    json_only(n, fields, r->errs);
    cut->piece = pattern_read_piece_name(r, n);
    read_number(r, n, cut);
    if (cut->piece != PATTERN_NONE && cut->hand != PATTERN_AS_DRAWN && r->p->pieces[cut->piece].fold != PATTERN_NONE)
        json_fault(r->errs, n, &fold_hand, ERR_TEXT(r->p->pieces[cut->piece].name));
    const struct json_node *cloth = json_maybe(n, "cloth", JSON_TEXT, r->errs);
    if (cloth)
        cut->cloth = pattern_read_word(r, cloth, pattern_cloth_words, PATTERN_FABRIC, PATTERN_LINING, &no_cloth);
    read_fuse(r, json_maybe(n, "fuse", JSON_TEXT, r->errs), cut);
}

static void read_view(const struct pattern_reader *r, const struct json_node *n, struct pattern_view *view)
{
    static const char *const fields[] = { "name", "label", "cut", "notions", NULL };
    json_only(n, fields, r->errs);
    const char *name = json_need_text(n, "name", r->errs);
    if (name && pattern_find_view(r->p, name) != PATTERN_NONE)
        json_fault(r->errs, n, &view_twice, ERR_TEXT(name));
    view->name = name;
    view->shown = pattern_shown(r, name);
    view->label = json_maybe(n, "label", JSON_TEXT, r->errs) ? pattern_shown(r, json_need_text(n, "label", r->errs))
                                                             : view->shown;
    const struct json_node *notions = json_maybe(n, "notions", JSON_LIST, r->errs);
    if (notions)
        pattern_read_notions(r, notions, &view->notions);
    const struct json_node *list = json_need(n, "cut", JSON_LIST, r->errs);
    if (!list)
        return;
    if (!list->count)
        json_fault(r->errs, list, &nothing_to_cut, ERR_NONE);
    struct pattern_cut *cuts = base_arena_alloc(r->a, list->count, sizeof *cuts);
    for (const struct json_node *c = list->first; c; c = c->next)
        if (json_is(c, JSON_OBJECT, r->errs))
            read_cut(r, c, &cuts[view->cut_count++]);
    view->cuts = cuts;
}

void pattern_read_views(const struct pattern_reader *r, const struct json_node *list)
{
    if (!list->count)
        json_fault(r->errs, list, &no_views, ERR_NONE);
    struct pattern_view *views = base_arena_alloc(r->a, list->count, sizeof *views);
    r->p->views = views;
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (!json_is(n, JSON_OBJECT, r->errs))
            continue;
        read_view(r, n, &views[r->p->view_count]);
        r->p->view_count++;
    }
}
