/* The notions of a pattern file: what else is needed to sew, such as buttons and elastic. */
#include "pattern/reader.h"

static const struct err_kind no_notion = { "pattern.no_notion", ERR_FAULT,
                                           BASE_TR("the list of notions is empty; take it away") };

static void read_measure(const struct pattern_reader *r, const struct json_node *node, struct pattern_value *out)
{
    if (node)
        pattern_read_value(r, node, PATTERN_POSITIVE, out);
}

static void read_notion(const struct pattern_reader *r, const struct json_node *n, struct pattern_notion *notion)
{
    static const char *const fields[] = { "name", "count", "size", "length", NULL };
    json_only(n, fields, r->errs);
    notion->name = pattern_shown(r, json_need_text(n, "name", r->errs));
    notion->place = json_place(r->a, n);
    notion->count.number = 1;
    if (json_find(n, "count"))
        pattern_need_count(r, n, "count", PATTERN_MOST_COPIES, &notion->count);
    read_measure(r, json_find(n, "size"), &notion->size);
    read_measure(r, json_find(n, "length"), &notion->length);
}

void pattern_read_notions(const struct pattern_reader *r, const struct json_node *list, struct pattern_notions *out)
{
    if (!list->count)
        json_fault(r->errs, list, &no_notion, ERR_NONE);
    struct pattern_notion *items = base_arena_alloc(r->a, list->count, sizeof *items);
    out->items = items;
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs))
            read_notion(r, n, &items[out->count++]);
}
