/* The finished measurements of a pattern file: what the sewn garment measures, by the names of its size chart. */
#include "pattern/reader.h"

#include <string.h>

static const struct err_kind no_measurement = {
    "pattern.finished_row", ERR_FAULT,
    "the size chart has no row “{0}”; a finished measurement stands beside the body's measurement of that name"
};
static const struct err_kind no_groups = { "pattern.finished_groups", ERR_FAULT,
                                           "is given by cup group, but the pattern has no cup groups" };

/* Every cup group its own value: an object of them by name. */
static void read_each_group(const struct pattern_reader *r, const struct json_node *object, struct pattern_value *out)
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
            pattern_read_graded(r, value, PATTERN_POSITIVE, &out[g]);
        else
            json_need(object, name, JSON_LIST, r->errs);
    }
    json_only(object, names, r->errs);
}

/* All cup groups the same value. */
static void read_one(const struct pattern_reader *r, const struct json_node *node, struct pattern_value *out)
{
    struct pattern_value value;
    pattern_read_graded(r, node, PATTERN_POSITIVE, &value);
    out[0] = value;
    for (size_t g = 1; g < r->p->cup_group_count; g++)
        out[g] = value;
}

/* Whether the body has a measurement of that name; its lengths may be at fault. */
static bool is_drawn_for(const struct pattern *p, const char *name)
{
    return pattern_find_row(p, name) != PATTERN_NONE || (p->cup_group_count && strcmp(name, PATTERN_BUST) == 0);
}

void pattern_read_finished(const struct pattern_reader *r, const struct json_node *object)
{
    size_t groups = r->p->cup_group_count ? r->p->cup_group_count : 1;
    struct pattern_finished *finished = base_arena_alloc(r->a, object->count, sizeof *finished);
    for (const struct json_node *n = object->first; n; n = n->next) {
        struct pattern_value *by_group = base_arena_alloc(r->a, groups, sizeof *by_group);
        if (!is_drawn_for(r->p, n->key))
            json_fault(r->errs, n, &no_measurement, ERR_TEXT(n->key));
        else if (n->type == JSON_OBJECT)
            read_each_group(r, n, by_group);
        else
            read_one(r, n, by_group);
        finished[r->p->finished_count++] = (struct pattern_finished){ n->key, by_group };
    }
    r->p->finished = finished;
}
