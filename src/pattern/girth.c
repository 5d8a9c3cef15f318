/* How a pattern file says that the sewn garment is measured on its pieces, by the names of the body's measurements. */
#include "pattern/reader.h"

static const struct err_kind no_measurement = { "pattern.girth_row", ERR_FAULT,
                                                BASE_TR("the pattern has no measurement “{0}”; a girth has the name of "
                                                        "a row of the chart or of one of “measurements”") };
static const struct err_kind no_parts = { "pattern.girth_parts", ERR_FAULT,
                                          BASE_TR("a girth is a list of what it goes across, with at least one part") };
static const struct err_kind many_parts = {
    "pattern.girth_many", ERR_FAULT, BASE_TR("the girths have {0} parts in all; no garment needs more than {1}")
};
static const struct err_kind level_or_edge = {
    "pattern.girth_form", ERR_FAULT,
    BASE_TR("a part of a girth is a \"piece\" at a \"level\", or an \"edge\"; give one of the two")
};

enum { MOST_PARTS = 1000 }; /* each is measured across its whole piece in every size */

static void read_level(const struct pattern_reader *r, const struct json_node *n, struct pattern_girth_part *part)
{
    struct pattern_reader in_piece = *r;
    in_piece.piece = part->piece = pattern_read_piece_name(r, n);
    const struct json_node *level = json_need(n, "level", JSON_TEXT, r->errs);
    if (part->piece != PATTERN_NONE && level)
        part->level = pattern_read_point_name(&in_piece, level);
}

static void read_edge(const struct pattern_reader *r, const struct json_node *n, struct pattern_girth_part *part)
{
    struct pattern_ref ref;
    if (!pattern_read_edge_ref(r, json_find(n, "edge"), &ref))
        return;
    part->piece = ref.piece;
    part->edge = ref.index;
}

static void read_part(const struct pattern_reader *r, const struct json_node *n, struct pattern_girth_part *part)
{
    static const char *const fields[] = { "piece", "level", "edge", "times", NULL };
    bool by_level = json_find(n, "piece") || json_find(n, "level"), by_edge = json_find(n, "edge") != NULL;
    *part = (struct pattern_girth_part){ PATTERN_NONE, PATTERN_NONE, PATTERN_NONE, 1, json_place(r->a, n) };
    json_only(n, fields, r->errs);
    if (by_level == by_edge)
        json_fault(r->errs, n, &level_or_edge, ERR_NONE);
    else if (by_level)
        read_level(r, n, part);
    else
        read_edge(r, n, part);
    json_need_whole(n, "times", 1, PATTERN_MOST_COPIES, &part->times, r->errs);
}

static void read_girth(const struct pattern_reader *r, const struct json_node *list, struct pattern_girth *girth)
{
    struct pattern_girth_part *parts = base_arena_alloc(r->a, list->count, sizeof *parts);
    *girth = (struct pattern_girth){ .name = list->key, .parts = parts, .place = json_place(r->a, list) };
    if (pattern_names_find(r->names, PATTERN_NAME_FIGURE, PATTERN_NONE, list->key) == PATTERN_NONE)
        json_fault(r->errs, list, &no_measurement, ERR_TEXT(list->key));
    if (!json_is(list, JSON_LIST, r->errs))
        return;
    if (!list->count)
        json_fault(r->errs, list, &no_parts, ERR_NONE);
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs))
            read_part(r, n, &parts[girth->part_count++]);
}

void pattern_read_girths(const struct pattern_reader *r, const struct json_node *object)
{
    size_t parts = 0;
    for (const struct json_node *n = object->first; n; n = n->next)
        parts += n->count;
    if (parts > MOST_PARTS) {
        json_fault(r->errs, object, &many_parts, ERR_NUMBER(parts), ERR_NUMBER(MOST_PARTS));
        return;
    }
    struct pattern_girth *girths = base_arena_alloc(r->a, object->count, sizeof *girths);
    r->p->girths = girths;
    for (const struct json_node *n = object->first; n; n = n->next)
        read_girth(r, n, &girths[r->p->girth_count++]);
}
