/* What every piece should say of its edges and its grain. */
#include "app/check_state.h"

static const struct err_kind no_grain = {
    "check.no_grain", ERR_WARNING,
    BASE_TR("piece “{0}” has no grain; it is taken to run straight up, as the piece is written")
};
static const struct err_kind no_allowance = {
    "check.no_allowance", ERR_WARNING,
    BASE_TR("piece “{0}” has no allowance on {1}; give one, or 0 where it is cut on the stitching line")
};
static const struct err_kind sewn_without = {
    "check.sewn_without_allowance", ERR_WARNING,
    BASE_TR("edge “{1}” of piece “{0}” is sewn in seam “{2}”, but its allowance is 0 in size {3}")
};

static bool has_none_said(const struct pattern_piece *piece, int edge)
{
    return edge != piece->fold && !pattern_value_is_given(piece->edges[edge].allowance);
}

/* All edges of one piece in one sentence, at the first of them. */
static void check_said(const struct check_pattern *k, const struct pattern_piece *piece)
{
    const char *list = "";
    size_t count = 0, first = 0;
    for (size_t e = 0; e < piece->edge_count; e++) {
        if (!has_none_said(piece, (int)e))
            continue;
        first = count++ ? first : e;
        list = check_listed(k->c->a, list, base_arena_print(k->c->a, "“%s”", piece->edges[e].name));
    }
    if (!count)
        return;
    /* To: stands in “piece … has no allowance on …” */
    const char *edges = base_arena_print(k->c->a, base_tr_count(count, "edge %s", "edges %s"), list);
    base_err(k->c->errs, &no_allowance, piece->edges[first].place, ERR_TEXT(piece->name), ERR_TEXT(edges));
}

/* The first size in which an edge's allowance is 0; the count of sizes: there is none. */
static size_t size_without(const struct check_pattern *k, int piece, size_t edge, size_t group)
{
    size_t size = 0;
    for (; size < k->p->size_count; size++) {
        const struct draft_sized_piece *at = &check_draft_at(k, group, size)->sized->pieces[piece];
        if (at->is_sound && at->allowance_mm[edge] == 0)
            break;
    }
    return size;
}

/* An edge without a word of its allowance was told with its piece. */
static void check_sewn_edge(const struct check_pattern *k, int index, size_t edge)
{
    const struct pattern_piece *piece = &k->p->pieces[index];
    int seam = k->sewn[index].seams[edge];
    if (seam == PATTERN_NONE || has_none_said(piece, (int)edge))
        return;
    size_t size = size_without(k, index, edge, check_first_group(piece->cup_group));
    if (size < k->p->size_count)
        base_err(k->c->errs, &sewn_without, piece->edges[edge].place, ERR_TEXT(piece->name),
                 ERR_TEXT(piece->edges[edge].name), ERR_TEXT(k->p->seams[seam].label), ERR_TEXT(k->p->sizes[size]));
}

void check_allowances(struct check_pattern *k)
{
    for (int i = 0; i < (int)k->p->piece_count; i++) {
        const struct pattern_piece *piece = &k->p->pieces[i];
        if (piece->grain[0] == PATTERN_NONE)
            base_err(k->c->errs, &no_grain, piece->place, ERR_TEXT(piece->name));
        check_said(k, piece);
        for (size_t e = 0; e < piece->edge_count; e++)
            check_sewn_edge(k, i, e);
    }
}
