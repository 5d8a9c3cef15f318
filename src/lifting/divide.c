#include "lifting/layer_name.h"
#include "lifting/sizes_by_look.h"
#include "lifting/sizes_by_name.h"
#include "lifting/tokens.h"

#include <stdlib.h>
#include <string.h>

/* What the only size of a sheet is called. */
#define ONLY_SIZE "one size"

/* A name that the division knows, while it is being made. */
struct named {
    const char *text, *plain;
    double place, length_mm;       /* its place by its name; how much line is drawn for it */
    bool placed, letters, new_one; /* new_one: the person's own, behind the others */
    int first;                     /* number it had when it was met */
};

struct names {
    struct arena *a;
    struct named *items;
    size_t count, cap;
};

struct dividing {
    struct arena *a;
    const struct drawing *d;
    struct lifting_strands s;
    struct names sizes, cups;
    bool by_layer; /* looks are those of layers, of which all lines are of one size, whatever their colour */
};

/* The number of a name, which is added where it is new; LIFTING_NONE when there are too many. */
static int number_of(struct names *n, const char *text, bool is_new)
{
    const char *plain = lifting_plain(n->a, text);
    for (size_t i = 0; i < n->count; i++)
        if (strcmp(n->items[i].plain, plain) == 0)
            return (int)i;
    if (n->count == LIFTING_SIZES_MOST)
        return LIFTING_NONE;
    n->items = base_arena_grow(n->a, n->items, &n->cap, n->count + 1, sizeof *n->items);
    struct named *item = &n->items[n->count];
    *item = (struct named){ .text = text, .plain = plain, .new_one = is_new, .first = (int)n->count };
    item->placed = lifting_size_place(n->a, text, &item->place, &item->letters);
    return (int)n->count++;
}

static void make_size(struct dividing *v, struct lifting_strand *strand, const char *size, const char *cup, bool is_new)
{
    strand->size = number_of(&v->sizes, size, is_new);
    strand->cup_group = cup ? number_of(&v->cups, cup, is_new) : LIFTING_NONE;
    strand->role = strand->size == LIFTING_NONE ? LIFTING_COMMON : LIFTING_SIZE;
}

static void role_by_name(struct dividing *v, struct lifting_strand *strand, const struct lifting_layer_role *role)
{
    strand->role = role->kind == LIFTING_NAMED_UNUSED ? LIFTING_UNUSED : LIFTING_COMMON;
    strand->sure = role->sure;
    if (role->kind == LIFTING_NAMED_SIZE)
        make_size(v, strand, role->size, role->cup, false);
    else if (role->cup && role->kind != LIFTING_NAMED_UNUSED)
        strand->cup_group = number_of(&v->cups, role->cup, false);
}

/* Strands of which the layers say nothing. */
static bool *open_strands(const struct dividing *v, const struct lifting_layer_role *roles)
{
    bool *open = base_arena_alloc(v->a, v->s.count, sizeof *open);
    for (size_t i = 0; i < v->s.count; i++) {
        int layer = v->s.items[i].layer;
        open[i] = layer == DRAWING_NONE || roles[layer].kind == LIFTING_NAMED_NOTHING;
    }
    return open;
}

static const struct lifting_look_size *size_of_look(const struct lifting_look_size *sizes, size_t count, int look)
{
    for (size_t i = 0; i < count; i++)
        if (sizes[i].look == look)
            return &sizes[i];
    return NULL;
}

/* Of which strand of that look a size's colour is, or NULL where several have it. */
static const struct lifting_look_size *size_of_colour(const struct dividing *v, const struct lifting_look_size *sizes,
                                                      size_t count, uint32_t rgb)
{
    const struct lifting_look_size *found = NULL;
    for (size_t i = 0; i < v->s.count; i++) {
        const struct lifting_look_size *size = size_of_look(sizes, count, v->s.looks[i]);
        if (!size || v->s.items[i].rgb != rgb)
            continue;
        if (found && found != size)
            return NULL;
        found = size;
    }
    return found;
}

/* Small marks of a size are drawn in its colour, though not with its dashes. */
static void roles_by_look(struct dividing *v, const bool *open, const struct lifting_look_size *sizes, size_t count,
                          bool sure)
{
    for (size_t i = 0; i < v->s.count; i++) {
        const struct lifting_look_size *size = size_of_look(sizes, count, v->s.looks[i]);
        bool by_colour = !size;
        size = size || v->by_layer ? size : size_of_colour(v, sizes, count, v->s.items[i].rgb);
        if (!open[i] || !size)
            continue;
        const char *name = size->size ? size->size : base_arena_print(v->a, "%d", (int)(size - sizes) + 1);
        make_size(v, &v->s.items[i], name, NULL, false);
        v->s.items[i].sure = sure && !by_colour;
        v->s.items[i].shares_colour = !v->by_layer && !by_colour && v->s.items[i].dash_count == 0 &&
                                      !size_of_colour(v, sizes, count, v->s.items[i].rgb);
    }
}

/* Takes each layer for a look of its own. */
static void look_by_layer(struct dividing *v)
{
    int *looks = base_arena_alloc(v->a, v->s.count, sizeof *looks), count = (int)v->s.look_count;
    for (size_t i = 0; i < v->s.count; i++)
        looks[i] = v->s.items[i].layer == DRAWING_NONE ? v->s.looks[i] : count + v->s.items[i].layer;
    v->s.looks = looks;
    v->s.look_count += v->d->layer_count;
    v->by_layer = true;
}

/* Where no look is a size, layers whose names say nothing may be, all in one look. */
static size_t sizes_by_nesting(struct dividing *v, const bool *open, const struct lifting_look_size **out)
{
    size_t count = lifting_sizes_by_nesting(v->a, v->d, &v->s, open, out);
    if (count || !v->d->layer_count)
        return count;
    look_by_layer(v);
    return lifting_sizes_by_nesting(v->a, v->d, &v->s, open, out);
}

static void find_roles(struct dividing *v)
{
    const struct lifting_layer_role *roles = lifting_roles_by_name(v->a, v->d);
    const struct lifting_look_size *looks;
    for (size_t i = 0; i < v->s.count; i++) {
        v->s.items[i].role = LIFTING_COMMON;
        if (v->s.items[i].layer != DRAWING_NONE)
            role_by_name(v, &v->s.items[i], &roles[v->s.items[i].layer]);
    }
    if (v->sizes.count)
        return;
    const bool *open = open_strands(v, roles);
    size_t count = lifting_sizes_by_legend(v->a, v->d, &v->s, open, &looks);
    if (count)
        roles_by_look(v, open, looks, count, true);
    else if ((count = sizes_by_nesting(v, open, &looks)) > 0)
        roles_by_look(v, open, looks, count, false);
}

static void take_says(struct dividing *v, const struct lifting_say *says, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (says[i].strand >= v->s.count)
            continue;
        struct lifting_strand *strand = &v->s.items[says[i].strand];
        strand->role = says[i].role;
        strand->size = LIFTING_NONE;
        strand->cup_group = says[i].cup_group ? number_of(&v->cups, says[i].cup_group, true) : LIFTING_NONE;
        if (says[i].role == LIFTING_SIZE)
            make_size(v, strand, says[i].size ? says[i].size : ONLY_SIZE, says[i].cup_group, true);
        strand->sure = true;
    }
}

static int by_place(const void *pa, const void *pb)
{
    const struct named *a = pa, *b = pb;
    if (a->new_one != b->new_one)
        return a->new_one ? 1 : -1;
    if (!a->new_one && a->place != b->place)
        return a->place < b->place ? -1 : 1;
    return a->first - b->first;
}

/* From small to large: by name where all are numbers or all letters, else by how much line they have. */
static void set_in_order(struct names *n)
{
    size_t letters = 0, placed = 0;
    if (!n->items)
        return;
    for (size_t i = 0; i < n->count; i++) {
        letters += n->items[i].placed && n->items[i].letters;
        placed += n->items[i].placed;
    }
    bool by_name = placed == n->count && (letters == 0 || letters == n->count);
    for (size_t i = 0; i < n->count && !by_name; i++)
        n->items[i].place = n->items[i].length_mm;
    qsort(n->items, n->count, sizeof *n->items, by_place);
}

static int by_text(const void *pa, const void *pb)
{
    const struct named *a = pa, *b = pb;
    int order = strcmp(a->plain, b->plain);
    return order ? order : a->first - b->first;
}

/* Leaves out what no strand is of, and gives the rest their numbers; `to` is for each old number the new one. */
static const char *const *settle_names(struct names *n, const bool *used, int *to, size_t *count)
{
    const char **texts = base_arena_alloc(n->a, n->count, sizeof *texts);
    *count = 0;
    for (size_t i = 0; n->items && i < n->count; i++) {
        int first = n->items[i].first;
        to[first] = used[first] ? (int)*count : LIFTING_NONE;
        if (used[first])
            texts[(*count)++] = n->items[i].text;
    }
    return texts;
}

static void settle_sizes(struct dividing *v, struct lifting_division *out)
{
    bool used[LIFTING_SIZES_MOST] = { false };
    int to[LIFTING_SIZES_MOST];
    for (size_t i = 0; i < v->s.count; i++)
        if (v->s.items[i].size != LIFTING_NONE && v->sizes.items) {
            used[v->s.items[i].size] = true;
            v->sizes.items[v->s.items[i].size].length_mm += v->s.items[i].length_mm;
        }
    set_in_order(&v->sizes);
    out->sizes = settle_names(&v->sizes, used, to, &out->size_count);
    for (size_t i = 0; i < v->s.count; i++)
        if (v->s.items[i].size != LIFTING_NONE)
            v->s.items[i].size = to[v->s.items[i].size];
}

static void settle_cups(struct dividing *v, struct lifting_division *out)
{
    bool used[LIFTING_SIZES_MOST] = { false };
    int to[LIFTING_SIZES_MOST];
    for (size_t i = 0; i < v->s.count; i++)
        if (v->s.items[i].cup_group != LIFTING_NONE)
            used[v->s.items[i].cup_group] = true;
    if (v->cups.count)
        qsort(v->cups.items, v->cups.count, sizeof *v->cups.items, by_text);
    out->cup_groups = settle_names(&v->cups, used, to, &out->cup_group_count);
    for (size_t i = 0; i < v->s.count; i++)
        if (v->s.items[i].cup_group != LIFTING_NONE)
            v->s.items[i].cup_group = to[v->s.items[i].cup_group];
}

void lifting_divide(struct arena *a, const struct drawing *d, const struct lifting_say *says, size_t say_count,
                    struct lifting_division *out)
{
    static const char *const only[] = { ONLY_SIZE };
    struct dividing v = { .a = a, .d = d, .s = lifting_sort_strands(a, d), .sizes = { .a = a }, .cups = { .a = a } };
    find_roles(&v);
    take_says(&v, says, say_count);
    *out = (struct lifting_division){ v.s.items, v.s.count, v.s.of_line, NULL, 0, NULL, 0 };
    settle_sizes(&v, out);
    settle_cups(&v, out);
    if (!out->size_count)
        out->sizes = only, out->size_count = 1;
}
