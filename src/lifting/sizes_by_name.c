#include "lifting/sizes_by_name.h"
#include "lifting/tokens.h"

#include <stdlib.h>
#include <string.h>

enum { SERIES_LEAST = 2, ODD_SERIES_LEAST = 3 };

struct naming {
    struct arena *a;
    const struct drawing *d;
    struct lifting_layer_name *names;
    const char **plain; /* of sizes, to compare by; else "" */
    bool *accepted, *sure;
};

/* A layer by its name, to be sorted. */
struct keyed {
    const char *first, *second;
    size_t layer;
};

static int by_key(const void *pa, const void *pb)
{
    const struct keyed *a = pa, *b = pb;
    int order = strcmp(a->first, b->first);
    order = order ? order : strcmp(a->second, b->second);
    return order ? order : (a->layer > b->layer) - (a->layer < b->layer);
}

static bool is_size(const struct naming *n, size_t layer)
{
    return n->names[layer].kind == LIFTING_NAMED_SIZE;
}

/* Sizes that only a series makes so, sorted by what else stands in their names. */
static size_t sort_by_stem(const struct naming *n, struct keyed **out)
{
    struct keyed *keys = base_arena_alloc(n->a, n->d->layer_count, sizeof *keys);
    size_t count = 0;
    for (size_t i = 0; i < n->d->layer_count; i++)
        if (is_size(n, i))
            keys[count++] = (struct keyed){ n->names[i].stem, n->plain[i], i };
    qsort(keys, count, sizeof *keys, by_key);
    *out = keys;
    return count;
}

/* 1, 2, 3 may be sizes or just the numbers of layers. */
static bool merely_counts(const struct keyed *keys, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strlen(keys[i].second) > 1 || *keys[i].second < '0' || *keys[i].second > '9')
            return false;
    return true;
}

/* How many cups differ in a series, up to as many as one needs. */
static size_t count_cups(const struct naming *n, const struct keyed *keys, size_t count)
{
    const char *met[ODD_SERIES_LEAST];
    size_t cups = 0;
    for (size_t i = 0, k; i < count && cups < ODD_SERIES_LEAST; i++) {
        const char *cup = n->names[keys[i].layer].cup;
        for (k = 0; cup && k < cups && strcmp(met[k], cup) != 0;)
            k++;
        if (cup && k == cups)
            met[cups++] = cup;
    }
    return cups;
}

static void judge_series(struct naming *n, const struct keyed *keys, size_t count)
{
    size_t distinct = 1;
    bool odd = n->names[keys[0].layer].odd, counts = merely_counts(keys, count);
    for (size_t i = 1; i < count; i++)
        distinct += strcmp(keys[i - 1].second, keys[i].second) != 0;
    size_t cups = counts ? 0 : count_cups(n, keys, count); /* “36 B”, “36 C”: one size for several cups */
    distinct = cups > distinct ? cups : distinct;
    for (size_t i = 0; i < count; i++) {
        bool surely = n->names[keys[i].layer].surely;
        n->accepted[keys[i].layer] = surely || distinct >= (odd ? ODD_SERIES_LEAST : SERIES_LEAST);
        n->sure[keys[i].layer] = surely || (!odd && !counts);
    }
}

static bool has_size_word(const struct naming *n, int layer)
{
    if (layer == DRAWING_NONE)
        return false;
    struct lifting_layer_name probe =
        lifting_layer_name(n->a, base_arena_print(n->a, "%.200s 34", n->d->layers[layer].name));
    return n->names[layer].kind == LIFTING_NAMED_NOTHING && probe.surely;
}

/* Layers below one that is called “Sizes”. */
static void accept_below_sizes(struct naming *n)
{
    bool *above = base_arena_alloc(n->a, n->d->layer_count, sizeof *above);
    for (size_t i = 0; i < n->d->layer_count; i++)
        above[i] = !n->names[i].size && has_size_word(n, (int)i);
    for (size_t i = 0; i < n->d->layer_count; i++) {
        int parent = n->d->layers[i].parent;
        if (is_size(n, i) && parent != DRAWING_NONE && above[parent])
            n->accepted[i] = n->sure[i] = true;
    }
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* “Notches 34” where 34 is a size already. */
static void accept_of_known(struct naming *n)
{
    const char **known = base_arena_alloc(n->a, n->d->layer_count, sizeof *known);
    size_t count = 0;
    for (size_t i = 0; i < n->d->layer_count; i++)
        if (n->accepted[i] && n->sure[i])
            known[count++] = n->plain[i];
    qsort(known, count, sizeof *known, by_text);
    for (size_t i = 0; i < n->d->layer_count && count; i++)
        if (is_size(n, i) && bsearch(&n->plain[i], known, count, sizeof *known, by_text))
            n->accepted[i] = n->sure[i] = true;
}

static void accept_sizes(struct naming *n)
{
    struct keyed *keys;
    size_t count = sort_by_stem(n, &keys);
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count && strcmp(keys[first].first, keys[end].first) == 0;)
            end++;
        judge_series(n, keys + first, end - first);
    }
    accept_below_sizes(n);
    accept_of_known(n);
}

/* Two numbers with other sizes between them: “34 - 46” is of all those. */
static void set_ranges_apart(struct naming *n)
{
    size_t count = n->d->layer_count, others = 0;
    double *places = base_arena_alloc(n->a, count, sizeof *places), low, high;
    bool letters;
    for (size_t i = 0; i < count; i++)
        if (n->accepted[i] && n->names[i].size && lifting_size_place(n->a, n->names[i].size, &low, &letters) &&
            !letters && !strpbrk(n->names[i].size, "-/"))
            places[others++] = low;
    for (size_t i = 0; i < count; i++) {
        const char *dash = n->accepted[i] && n->names[i].size ? strpbrk(n->names[i].size, "-/") : NULL;
        if (!dash || !lifting_size_place(n->a, n->names[i].size, &low, &letters) || letters ||
            !lifting_size_place(n->a, dash + 1, &high, &letters) || letters)
            continue;
        size_t within = 0;
        for (size_t k = 0; k < others && within < SERIES_LEAST; k++)
            within += places[k] >= low && places[k] <= high;
        if (within >= SERIES_LEAST)
            n->names[i] = (struct lifting_layer_name){ .kind = LIFTING_NAMED_COMMON }, n->accepted[i] = false;
    }
}

/* Whether in a sorted run of equal sizes there are several cups. */
static void judge_cups(struct naming *n, const struct keyed *keys, size_t count, bool *found)
{
    bool several = false;
    for (size_t i = 1; i < count; i++)
        several = several || strcmp(keys[i - 1].second, keys[i].second) != 0;
    for (size_t i = 0; i < count; i++)
        *found = *found || several || n->names[keys[i].layer].cup_surely;
}

/* Letters behind sizes are cups where one size has several; letters alone where there are several. Else they belong to
 * the size's name, or say nothing. */
static void settle_cups(struct naming *n, bool alone)
{
    struct keyed *keys = base_arena_alloc(n->a, n->d->layer_count, sizeof *keys);
    size_t count = 0;
    bool found = false;
    for (size_t i = 0; i < n->d->layer_count; i++)
        if (n->names[i].cup && (n->names[i].size == NULL) == alone)
            keys[count++] = (struct keyed){ alone ? "" : n->plain[i], n->names[i].cup, i };
    qsort(keys, count, sizeof *keys, by_key);
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count && strcmp(keys[first].first, keys[end].first) == 0;)
            end++;
        judge_cups(n, keys + first, end - first, &found);
    }
    for (size_t i = 0; i < count && !found; i++) {
        struct lifting_layer_name *name = &n->names[keys[i].layer];
        name->cup = NULL;
        name->size = name->size ? name->whole : NULL;
    }
}

static struct lifting_layer_role own_role(const struct naming *n, size_t layer)
{
    const struct lifting_layer_name *name = &n->names[layer];
    struct lifting_layer_role role = { name->kind, NULL, name->cup, name->kind != LIFTING_NAMED_NOTHING };
    if (name->kind == LIFTING_NAMED_SIZE && !n->accepted[layer])
        role.kind = LIFTING_NAMED_NOTHING, role.sure = false;
    if (role.kind == LIFTING_NAMED_SIZE)
        role.size = name->size, role.sure = n->sure[layer];
    return role;
}

/* A layer is of the size of the group that it lies in, unless it says otherwise. */
static struct lifting_layer_role within(struct lifting_layer_role role, const struct lifting_layer_role *above)
{
    role.cup = role.cup ? role.cup : above->cup;
    if (role.size || role.kind == LIFTING_NAMED_UNUSED)
        return role;
    bool takes = role.kind == LIFTING_NAMED_NOTHING || above->kind == LIFTING_NAMED_SIZE;
    if (takes && above->kind != LIFTING_NAMED_NOTHING)
        role.kind = above->kind, role.size = above->size, role.sure = above->sure;
    return role;
}

const struct lifting_layer_role *lifting_roles_by_name(struct arena *a, const struct drawing *d)
{
    size_t count = d->layer_count;
    struct naming n = { a,
                        d,
                        base_arena_alloc(a, count, sizeof *n.names),
                        base_arena_alloc(a, count, sizeof *n.plain),
                        base_arena_alloc(a, count, sizeof *n.accepted),
                        base_arena_alloc(a, count, sizeof *n.sure) };
    struct lifting_layer_role *roles = base_arena_alloc(a, count, sizeof *roles);
    for (size_t i = 0; i < count; i++) {
        n.names[i] = lifting_layer_name(a, d->layers[i].name);
        n.plain[i] = n.names[i].size ? lifting_plain(a, n.names[i].size) : "";
        n.names[i].stem = n.names[i].stem ? n.names[i].stem : "";
    }
    accept_sizes(&n);
    set_ranges_apart(&n);
    settle_cups(&n, false);
    settle_cups(&n, true);
    for (size_t i = 0; i < count; i++) {
        roles[i] = own_role(&n, i);
        if (d->layers[i].parent != DRAWING_NONE)
            roles[i] = within(roles[i], &roles[d->layers[i].parent]);
    }
    return roles;
}

const enum lifting_role *lifting_layer_roles(struct arena *a, const struct drawing *d)
{
    const struct lifting_layer_role *named = lifting_roles_by_name(a, d);
    enum lifting_role *roles = base_arena_alloc(a, d->layer_count, sizeof *roles);
    for (size_t i = 0; i < d->layer_count; i++)
        roles[i] = named[i].kind == LIFTING_NAMED_SIZE     ? LIFTING_SIZE
                   : named[i].kind == LIFTING_NAMED_UNUSED ? LIFTING_UNUSED
                                                           : LIFTING_COMMON;
    return roles;
}
