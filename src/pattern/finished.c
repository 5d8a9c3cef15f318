/* What a pattern file says of the sewn garment, by the names of its size chart: what it measures and what ease is
 * meant. */
#include "pattern/reader.h"

#include <string.h>

static const struct err_kind no_measurement = {
    "pattern.finished_row", ERR_FAULT,
    BASE_TR(
        "the size chart has no row “{0}”; a finished measurement stands beside the body's measurement of that name")
};
static const struct err_kind no_finished = { "pattern.ease_unfinished", ERR_FAULT,
                                             BASE_TR("neither “finished” nor “girths” says anything of “{0}”; ease is "
                                                     "what the garment measures there beyond the body") };
static const struct err_kind no_groups = { "pattern.finished_groups", ERR_FAULT,
                                           BASE_TR("is given by cup group, but the pattern has no cup groups") };

/* Every cup group its own value: an object of them by name. */
static void read_each_group(const struct pattern_reader *r, const struct json_node *object, enum pattern_bound bound,
                            struct pattern_value *out)
{
    if (!r->p->cup_group_count) {
        json_fault(r->errs, object, &no_groups, ERR_NONE);
        return;
    }
    const char **names = base_arena_alloc(r->a, r->p->cup_group_count + 1, sizeof *names);
    for (size_t g = 0; g < r->p->cup_group_count; g++) {
        const char *name = r->p->cup_groups[g].name;
        if (!name)
            return; /* a group without a name has been told */
        names[g] = name;
        const struct json_node *value = json_find(object, name);
        if (value)
            pattern_read_value(r, value, bound, &out[g]);
        else
            json_need(object, name, JSON_LIST, r->errs);
    }
    json_only(object, names, r->errs);
}

/* All cup groups the same value. */
static void read_one(const struct pattern_reader *r, const struct json_node *node, enum pattern_bound bound,
                     struct pattern_value *out)
{
    struct pattern_value value;
    pattern_read_value(r, node, bound, &value);
    out[0] = value;
    for (size_t g = 1; g < r->p->cup_group_count; g++)
        out[g] = value;
}

/* Whether the body has a measurement of that name; its lengths may be at fault. */
static bool is_drawn_for(const struct pattern *p, const char *name)
{
    return pattern_find_row(p, name) != PATTERN_NONE || (pattern_has_group_busts(p) && strcmp(name, PATTERN_BUST) == 0);
}

/* One row; where the name belongs to nothing that is known, `unknown` is its fault. */
static struct pattern_finished read_row(const struct pattern_reader *r, const struct json_node *node,
                                        enum pattern_bound bound, const struct err_kind *unknown)
{
    size_t groups = r->p->cup_group_count ? r->p->cup_group_count : 1;
    struct pattern_value *written = base_arena_alloc(r->a, groups, sizeof *written);
    struct pattern_value *by_group = base_arena_alloc(r->a, groups, sizeof *by_group);
    if (unknown)
        json_fault(r->errs, node, unknown, ERR_TEXT(node->key));
    else if (node->type == JSON_OBJECT)
        read_each_group(r, node, bound, written);
    else
        read_one(r, node, bound, written);
    for (size_t g = 0; g < groups; g++)
        by_group[g] = pattern_by_size(r, &written[g], r->p->cup_group_count ? (int)g : PATTERN_NONE);
    return (struct pattern_finished){ node->key, written, by_group, json_place(r->a, node) };
}

void pattern_read_finished(const struct pattern_reader *r, const struct json_node *object)
{
    struct pattern_finished *finished = base_arena_alloc(r->a, object->count, sizeof *finished);
    r->p->finished = finished;
    for (const struct json_node *n = object->first; n; n = n->next)
        finished[r->p->finished_count++] =
            read_row(r, n, PATTERN_POSITIVE, is_drawn_for(r->p, n->key) ? NULL : &no_measurement);
}

/* Given, or measured on the pieces beside a row that the body is compared with. */
static bool is_finished(const struct pattern *p, const char *name)
{
    if (is_drawn_for(p, name) && pattern_find_girth(p, name))
        return true;
    for (size_t i = 0; i < p->finished_count; i++)
        if (strcmp(p->finished[i].name, name) == 0)
            return true;
    return false;
}

void pattern_read_ease(const struct pattern_reader *r, const struct json_node *object)
{
    struct pattern_finished *ease = base_arena_alloc(r->a, object->count, sizeof *ease);
    r->p->ease = ease;
    for (const struct json_node *n = object->first; n; n = n->next)
        ease[r->p->ease_count++] = read_row(r, n, PATTERN_ANY, is_finished(r->p, n->key) ? NULL : &no_finished);
}
