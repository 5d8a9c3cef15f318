/* How the allowance of an edge ends where it meets its neighbours'. */
#include "pattern/reader.h"

static const struct err_kind ends_form = {
    "pattern.ends_form", ERR_FAULT,
    BASE_TR("how an edge ends is one word for both its ends, or a list of two: start and end")
};
static const struct err_kind end_word = {
    "pattern.end_word", ERR_FAULT,
    BASE_TR("“{0}” is no way an allowance ends; write \"mitre\", \"square\", \"folded back\" or \"clipped\"")
};
static const struct err_kind fold_ends = {
    "pattern.fold_ends", ERR_FAULT, BASE_TR("edge “{0}” lies on the fold: it has no allowance whose ends have a form")
};
static const struct err_kind ends_conflict = {
    "pattern.ends_conflict", ERR_FAULT,
    BASE_TR("edges “{0}” and “{1}” both say how the corner ends where they meet; let one of them say it")
};

static enum pattern_end read_end(const struct pattern_reader *r, const struct json_node *n)
{
    static const char *const names[] = { [PATTERN_END_MITRE] = "mitre",
                                         [PATTERN_END_SQUARE] = "square",
                                         [PATTERN_END_FOLDED_BACK] = "folded back",
                                         [PATTERN_END_CLIPPED] = "clipped" };
    if (!json_is(n, JSON_TEXT, r->errs))
        return PATTERN_END_MITRE;
    return pattern_read_word(r, n, names, PATTERN_END_MITRE, PATTERN_END_CLIPPED, &end_word);
}

void pattern_read_ends(const struct pattern_reader *r, const struct json_node *node, struct pattern_edge *edge)
{
    if (node->type == JSON_TEXT) {
        edge->ends[0] = edge->ends[1] = read_end(r, node);
    } else if (node->type == JSON_LIST && node->count == 2) {
        edge->ends[0] = read_end(r, node->first);
        edge->ends[1] = read_end(r, node->first->next);
    } else {
        json_fault(r->errs, node, &ends_form, ERR_NONE);
    }
}

/* Both may clip their corner: that is one thing. */
static bool are_at_odds(enum pattern_end one, enum pattern_end other)
{
    return one != PATTERN_END_MITRE && other != PATTERN_END_MITRE &&
           !(one == PATTERN_END_CLIPPED && other == PATTERN_END_CLIPPED);
}

void pattern_check_ends(const struct pattern_reader *r, const struct pattern_piece *piece)
{
    for (size_t e = 0; e < piece->edge_count; e++) {
        size_t next = (e + 1) % piece->edge_count;
        const struct pattern_edge *edge = &piece->edges[e], *after = &piece->edges[next];
        if ((int)e == piece->fold && (edge->ends[0] != PATTERN_END_MITRE || edge->ends[1] != PATTERN_END_MITRE))
            base_err(r->errs, &fold_ends, edge->place, ERR_TEXT(edge->name));
        if ((int)e != piece->fold && (int)next != piece->fold && are_at_odds(edge->ends[1], after->ends[0]))
            base_err(r->errs, &ends_conflict, after->place, ERR_TEXT(edge->name), ERR_TEXT(after->name));
    }
}
