/* The seams of a pattern file: which edges are joined, and by how much their lengths are meant to differ. */
#include "pattern/reader.h"
#include "values/length.h"

#include <string.h>

static const struct err_kind join_form = { "pattern.join_form", ERR_FAULT,
                                           "a seam joins two lists of edges, each written \"piece.edge\"" };
static const struct err_kind no_such_edge = { "pattern.seam_edge", ERR_FAULT,
                                              "there is no edge “{0}”; write it as \"piece.edge\"" };
static const struct err_kind two_groups = { "pattern.seam_two_groups", ERR_FAULT,
                                            "joins pieces of two different cup groups, which are never cut together" };
static const struct err_kind both_rules = { "pattern.seam_both_rules", ERR_FAULT,
                                            "has a difference and a ratio; give one of them" };
static const struct err_kind bad_ratio = { "pattern.seam_ratio", ERR_FAULT,
                                           "a ratio lies between 0.01 and 100, not {0}" };

static bool split_reference(const struct pattern_reader *r, const char *text, struct pattern_edge_ref *out)
{
    const char *dot = strchr(text, '.');
    if (!dot)
        return false;
    out->piece = pattern_find_piece(r->p, base_arena_copy_bytes(r->a, text, (size_t)(dot - text)));
    if (out->piece == PATTERN_NONE)
        return false;
    out->edge = pattern_find_edge(&r->p->pieces[out->piece], dot + 1);
    return out->edge != PATTERN_NONE;
}

/* A seam belongs to the cup group of its pieces; two groups in one seam are a fault. */
static void note_cup_group(const struct pattern_reader *r, const struct json_node *node, struct pattern_edge_ref ref,
                           struct pattern_seam *seam)
{
    int group = r->p->pieces[ref.piece].cup_group;
    if (group == PATTERN_NONE || group == seam->cup_group)
        return;
    if (seam->cup_group != PATTERN_NONE)
        json_fault(r->errs, node, &two_groups, ERR_NONE);
    seam->cup_group = group;
}

static void read_side(const struct pattern_reader *r, const struct json_node *list, int side, struct pattern_seam *seam)
{
    if (list->type != JSON_LIST || !list->count) {
        json_fault(r->errs, list, &join_form, ERR_NONE);
        return;
    }
    struct pattern_edge_ref *edges = base_arena_alloc(r->a, list->count, sizeof *edges);
    for (const struct json_node *n = list->first; n; n = n->next) {
        struct pattern_edge_ref ref;
        if (!json_is(n, JSON_TEXT, r->errs))
            continue;
        if (!split_reference(r, n->text, &ref)) {
            json_fault(r->errs, n, &no_such_edge, ERR_TEXT(n->text));
            continue;
        }
        note_cup_group(r, n, ref, seam);
        edges[seam->sides[side].count++] = ref;
    }
    seam->sides[side].edges = edges;
}

static void read_rule(const struct pattern_reader *r, const struct json_node *n, struct pattern_seam *seam)
{
    const struct json_node *difference = json_find(n, "difference");
    const struct json_node *ratio = json_maybe(n, "ratio", JSON_NUMBER, r->errs);
    if (difference && json_find(n, "ratio"))
        json_fault(r->errs, n, &both_rules, ERR_NONE);
    if (difference)
        values_length(difference, r->p->unit, &seam->difference_mm, r->errs);
    if (!ratio)
        return;
    seam->by_ratio = true;
    seam->ratio = ratio->number;
    if (!(ratio->number >= 0.01 && ratio->number <= 100))
        json_fault(r->errs, ratio, &bad_ratio, ERR_NUMBER(ratio->number));
}

static void read_seam(const struct pattern_reader *r, const struct json_node *n, struct pattern_seam *seam)
{
    static const char *const fields[] = { "name", "join", "difference", "ratio", NULL };
    json_only(n, fields, r->errs);
    *seam = (struct pattern_seam){ .cup_group = PATTERN_NONE, .place = json_place(r->a, n) };
    seam->name = json_need_text(n, "name", r->errs);
    const struct json_node *join = json_need(n, "join", JSON_LIST, r->errs);
    if (join && join->count == 2) {
        read_side(r, join->first, 0, seam);
        read_side(r, join->first->next, 1, seam);
    } else if (join) {
        json_fault(r->errs, join, &join_form, ERR_NONE);
    }
    read_rule(r, n, seam);
}

void pattern_read_seams(const struct pattern_reader *r, const struct json_node *list)
{
    struct pattern_seam *seams = base_arena_alloc(r->a, list->count, sizeof *seams);
    r->p->seams = seams;
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs))
            read_seam(r, n, &seams[r->p->seam_count++]);
}
