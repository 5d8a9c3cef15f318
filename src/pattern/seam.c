/* The seams of a pattern file: which edges are joined, and by how much their lengths are meant to differ. */
#include "pattern/reader.h"

#include <string.h>

static const struct err_kind join_form = { "pattern.join_form", ERR_FAULT,
                                           BASE_TR("a seam joins two lists of edges, each written \"piece.edge\"") };
static const struct err_kind no_such_edge = { "pattern.seam_edge", ERR_FAULT,
                                              BASE_TR("there is no edge “{0}”; write it as \"piece.edge\"") };
static const struct err_kind two_groups = {
    "pattern.seam_two_groups", ERR_FAULT,
    BASE_TR("joins pieces of two different cup groups, which are never cut together")
};
static const struct err_kind mark_form = {
    "pattern.seam_mark", ERR_FAULT, BASE_TR("\"|\" stands between two edges, whose meeting place is then a mark")
};
static const struct err_kind reversed_form = { "pattern.seam_reversed", ERR_FAULT, BASE_TR("is true or false") };
static const struct err_kind interval_count = {
    "pattern.seam_intervals", ERR_FAULT,
    BASE_TR(
        "has {0} differences, but {1} marks divide the {2} side; give one for each interval, one more than marks")
};
static const struct err_kind seam_twice = { "pattern.seam_twice", ERR_FAULT,
                                            BASE_TR("a seam “{0}” is there already; give this one another name") };
static const struct err_kind two_rules = { "pattern.seam_two_rules", ERR_FAULT,
                                           BASE_TR("give one of difference, ratio and intervals") };
static const struct err_kind bad_ratio = { "pattern.seam_ratio", ERR_FAULT,
                                           BASE_TR("a ratio lies between 0.01 and 100, not {0}") };

/* The edge that the first `count` bytes name as "piece.edge". */
static bool find_edge(const struct pattern_reader *r, const char *text, size_t count, struct pattern_edge_ref *out)
{
    const char *name = base_arena_copy_bytes(r->a, text, count), *dot = strchr(name, '.');
    if (!dot)
        return false;
    out->piece = pattern_find_piece(r->p, base_arena_copy_bytes(r->a, name, (size_t)(dot - name)));
    if (out->piece == PATTERN_NONE)
        return false;
    out->edge = pattern_find_edge(&r->p->pieces[out->piece], dot + 1);
    return out->edge != PATTERN_NONE;
}

/* "piece.edge", or "piece.edge backwards"; an edge whose own name ends like that is found first. */
static bool split_reference(const struct pattern_reader *r, const char *text, struct pattern_edge_ref *out)
{
    static const char backwards[] = " backwards";
    size_t count = strlen(text), tail = sizeof backwards - 1;
    *out = (struct pattern_edge_ref){ PATTERN_NONE, PATTERN_NONE, false, false };
    if (find_edge(r, text, count, out))
        return true;
    out->backwards = count > tail && strcmp(text + count - tail, backwards) == 0;
    return out->backwards && find_edge(r, text, count - tail, out);
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

static bool is_mark(const struct json_node *n)
{
    return n->type == JSON_TEXT && strcmp(n->text, "|") == 0;
}

static void read_side(const struct pattern_reader *r, const struct json_node *list, int side, struct pattern_seam *seam)
{
    if (list->type != JSON_LIST || !list->count) {
        json_fault(r->errs, list, &join_form, ERR_NONE);
        return;
    }
    struct pattern_edge_ref *edges = base_arena_alloc(r->a, list->count, sizeof *edges);
    size_t *count = &seam->sides[side].count;
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (!json_is(n, JSON_TEXT, r->errs))
            continue;
        if (is_mark(n)) {
            if (n->index == 0 || !n->next || is_mark(n->next))
                json_fault(r->errs, n, &mark_form, ERR_NONE);
            else if (*count)
                edges[*count - 1].mark_after = true;
            continue;
        }
        struct pattern_edge_ref ref;
        if (!split_reference(r, n->text, &ref)) {
            json_fault(r->errs, n, &no_such_edge, ERR_TEXT(n->text));
            continue;
        }
        note_cup_group(r, n, ref, seam);
        edges[(*count)++] = ref;
    }
    seam->sides[side].edges = edges;
}

/* The second side written from the seam's other end: the same edges the other way round. */
static void turn_round(const struct pattern_reader *r, struct pattern_seam *seam)
{
    size_t count = seam->sides[1].count;
    const struct pattern_edge_ref *written = seam->sides[1].edges;
    struct pattern_edge_ref *walked = base_arena_alloc(r->a, count, sizeof *walked);
    for (size_t i = 0; i < count; i++) {
        size_t from = count - 1 - i;
        walked[i] = written[from];
        walked[i].backwards = !written[from].backwards;
        walked[i].mark_after = from > 0 && written[from - 1].mark_after;
    }
    seam->sides[1].edges = walked;
}

static void read_intervals(const struct pattern_reader *r, const struct json_node *list, struct pattern_seam *seam)
{
    struct pattern_value *intervals = base_arena_alloc(r->a, list->count, sizeof *intervals);
    for (const struct json_node *n = list->first; n; n = n->next)
        pattern_read_value(r, n, PATTERN_ANY, &intervals[n->index]);
    seam->intervals = intervals;
    seam->interval_count = list->count;
    for (int side = 0; side < 2; side++) {
        size_t marks = pattern_seam_marks(r->p, seam, side);
        if (seam->sides[side].count && marks + 1 != list->count) {
            json_fault(r->errs, list, &interval_count, ERR_NUMBER(list->count), ERR_NUMBER(marks),
                       ERR_TEXT(side ? "second" : "first"));
            return;
        }
    }
}

static void read_ratio(const struct pattern_reader *r, const struct json_node *node, struct pattern_seam *seam)
{
    if (!pattern_read_number(r, node, &seam->ratio))
        return;
    for (size_t i = 0; i < seam->ratio.count; i++)
        if (!(seam->ratio.formulas && seam->ratio.formulas[i]) && !pattern_is_seam_ratio(seam->ratio.mm[i]))
            json_fault(r->errs, node, &bad_ratio, ERR_NUMBER(seam->ratio.mm[i]));
}

static void read_rule(const struct pattern_reader *r, const struct json_node *n, struct pattern_seam *seam)
{
    const struct json_node *difference = json_find(n, "difference"), *ratio = json_find(n, "ratio");
    const struct json_node *intervals = json_maybe(n, "intervals", JSON_LIST, r->errs);
    if ((difference != NULL) + (ratio != NULL) + (json_find(n, "intervals") != NULL) > 1)
        json_fault(r->errs, n, &two_rules, ERR_NONE);
    else if (intervals)
        read_intervals(r, intervals, seam);
    if (difference)
        pattern_read_value(r, difference, PATTERN_ANY, &seam->difference);
    if (ratio)
        read_ratio(r, ratio, seam);
}

static void read_seam(const struct pattern_reader *r, const struct json_node *n, struct pattern_seam *seam)
{
    static const char *const fields[] = { "name", "join", "reversed", "difference", "ratio", "intervals", NULL };
    json_only(n, fields, r->errs);
    *seam = (struct pattern_seam){ .cup_group = PATTERN_NONE, .place = json_place(r->a, n) };
    seam->name = json_need_text(n, "name", r->errs);
    seam->label = pattern_shown(r, seam->name);
    const struct json_node *join = json_need(n, "join", JSON_LIST, r->errs);
    if (join && join->count == 2) {
        read_side(r, join->first, 0, seam);
        read_side(r, join->first->next, 1, seam);
    } else if (join) {
        json_fault(r->errs, join, &join_form, ERR_NONE);
    }
    const struct json_node *reversed = json_find(n, "reversed");
    if (reversed && reversed->type != JSON_TRUE && reversed->type != JSON_FALSE)
        json_fault(r->errs, reversed, &reversed_form, ERR_NONE);
    else if (reversed && reversed->type == JSON_TRUE)
        turn_round(r, seam);
    read_rule(r, n, seam);
}

/* Seams of two cup groups, which are never sewn together, may have one name. */
static void check_name(const struct pattern_reader *r, const struct json_node *node, size_t index)
{
    const struct pattern_seam *seams = r->p->seams, *seam = &seams[index];
    for (size_t i = 0; seam->name && i < index; i++) {
        bool together = pattern_in_cup_group(seams[i].cup_group, seam->cup_group) || seam->cup_group == PATTERN_NONE;
        if (!together || !seams[i].name || strcmp(seams[i].name, seam->name) != 0)
            continue;
        json_fault(r->errs, node, &seam_twice, ERR_TEXT(seam->name));
        return;
    }
}

void pattern_read_seams(const struct pattern_reader *r, const struct json_node *list)
{
    struct pattern_seam *seams = base_arena_alloc(r->a, list->count, sizeof *seams);
    r->p->seams = seams;
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs)) {
            read_seam(r, n, &seams[r->p->seam_count]);
            check_name(r, n, r->p->seam_count++);
        }
}
