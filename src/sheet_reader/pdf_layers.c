#include "sheet_reader/pdf_layers.h"
#include "sheet_reader/pdf_condition.h"
#include "sheet_reader/pdf_layers_in.h"

#include <stdio.h>
#include <string.h>

enum { ORDER_DEEP = 32, ORDER_MOST = 100000 };

static void row_add(fz_context *ctx, struct pdf_layers *l, const struct layer_row *row)
{
    if (l->count == l->cap) {
        size_t cap = l->cap ? l->cap * 2 : 64;
        l->rows = fz_realloc(ctx, l->rows, cap * sizeof *l->rows);
        l->cap = cap;
    }
    l->rows[l->count++] = *row;
}

/* The row of an object by its number, none yet: NO_ROW. */
static uint32_t *row_slot(struct pdf_layers *l, int num)
{
    return num > 0 && num < l->slot_count ? &l->slots[num] : NULL;
}

static uint32_t row_of_key(const struct pdf_layers *l, const char *key)
{
    for (size_t i = 0; i < l->count; i++)
        if (strcmp(l->rows[i].key, key) == 0)
            return (uint32_t)i;
    return NO_ROW;
}

/* A new row; its texts are copied. */
static uint32_t row_new(fz_context *ctx, struct pdf_layers *l, struct layer_row row)
{
    if (l->count >= SHEET_LAYERS_MOST)
        fz_throw(ctx, FZ_ERROR_GENERIC, "too many layers");
    row.name = fz_pool_strdup(ctx, l->pool, row.name);
    row.key = fz_pool_strdup(ctx, l->pool, row.key);
    row.layer = SHEET_NONE;
    row.parent = NO_ROW;
    row_add(ctx, l, &row);
    return (uint32_t)l->count - 1;
}

/* A group written out in place has no number; its name stands for it. */
static void group_key(int num, const char *name, char *key, size_t room)
{
    if (num > 0)
        snprintf(key, room, "%d", num);
    else
        snprintf(key, room, "\"%s\"", name);
}

uint32_t layer_group(fz_context *ctx, struct pdf_layers *l, pdf_obj *group)
{
    int num = pdf_to_num(ctx, group);
    uint32_t *slot = row_slot(l, num);
    if (slot && *slot != NO_ROW)
        return *slot;
    char key[256];
    const char *name = pdf_dict_get_text_string(ctx, group, PDF_NAME(Name));
    group_key(num, name, key, sizeof key);
    uint32_t at = row_of_key(l, key);
    if (at == NO_ROW)
        at = row_new(ctx, l, (struct layer_row){ .name = name, .key = key, .flags = l->base_on ? SHEET_LAYER_ON : 0 });
    if (slot)
        *slot = at;
    return at;
}

/* Sets and clears flags of the groups of an array. */
static void flag_all(fz_context *ctx, struct pdf_layers *l, pdf_obj *groups, unsigned set, unsigned clear)
{
    int n = pdf_array_len(ctx, groups);
    for (int i = 0; i < n; i++) {
        pdf_obj *group = pdf_array_get(ctx, groups, i);
        if (!pdf_is_dict(ctx, group))
            continue;
        uint32_t at = layer_group(ctx, l, group);
        struct layer_row *row = &l->rows[at];
        row->flags = (row->flags & ~clear) | set;
    }
}

static void read_groups(fz_context *ctx, struct pdf_layers *l, pdf_obj *properties, pdf_obj *config)
{
    l->base_on = !pdf_name_eq(ctx, pdf_dict_get(ctx, config, PDF_NAME(BaseState)), PDF_NAME(OFF));
    flag_all(ctx, l, pdf_dict_get(ctx, properties, PDF_NAME(OCGs)), 0, 0);
    flag_all(ctx, l, pdf_dict_get(ctx, config, PDF_NAME(ON)), SHEET_LAYER_ON, 0);
    flag_all(ctx, l, pdf_dict_get(ctx, config, PDF_NAME(OFF)), 0, SHEET_LAYER_ON);
    flag_all(ctx, l, pdf_dict_get(ctx, config, PDF_NAME(Locked)), SHEET_LAYER_LOCKED, 0);
    pdf_obj *radios = pdf_dict_get(ctx, config, PDF_NAME(RBGroups));
    int n = pdf_array_len(ctx, radios);
    for (int i = 0; i < n; i++)
        flag_all(ctx, l, pdf_array_get(ctx, radios, i), SHEET_LAYER_RADIO, 0);
}

/* Hands a row to the sheet, below `parent`. */
static void place(struct pdf_layers *l, uint32_t at, uint32_t parent)
{
    struct layer_row *row = &l->rows[at];
    if (row->layer != SHEET_NONE)
        return;
    row->parent = parent;
    row->layer =
        collect_layer(l->collect, parent == NO_ROW ? SHEET_NONE : l->rows[parent].layer, row->name, row->flags);
}

/* A heading: a layer without content. */
static uint32_t add_heading(fz_context *ctx, struct pdf_layers *l, pdf_obj *label, uint32_t parent)
{
    const char *name = pdf_to_text_string(ctx, label);
    uint32_t at = row_new(ctx, l, (struct layer_row){ .name = name, .key = "", .flags = SHEET_LAYER_ON });
    place(l, at, parent);
    return at;
}

/* Order: groups; an array after a group holds what stands below it; one that begins with a text has that as heading. */
static void place_order(fz_context *ctx, struct pdf_layers *l, pdf_obj *order, uint32_t parent, int deep)
{
    int n = pdf_array_len(ctx, order);
    uint32_t above = parent;
    for (int i = 0; i < n && deep < ORDER_DEEP && l->order_left-- > 0; i++) {
        pdf_obj *entry = pdf_array_get(ctx, order, i);
        pdf_obj *label = pdf_is_array(ctx, entry) ? pdf_array_get(ctx, entry, 0) : NULL;
        if (pdf_is_dict(ctx, entry)) {
            above = layer_group(ctx, l, entry);
            place(l, above, parent);
        } else if (pdf_is_string(ctx, label)) {
            place_order(ctx, l, entry, add_heading(ctx, l, label, parent), deep + 1);
        } else if (label) {
            place_order(ctx, l, entry, above, deep + 1);
        }
    }
}

static void read_all(fz_context *ctx, struct pdf_layers *l)
{
    pdf_obj *root = pdf_dict_get(ctx, pdf_trailer(ctx, l->doc), PDF_NAME(Root));
    pdf_obj *properties = pdf_dict_get(ctx, root, PDF_NAME(OCProperties));
    pdf_obj *config = pdf_dict_get(ctx, properties, PDF_NAME(D));
    read_groups(ctx, l, properties, config);
    l->order_left = ORDER_MOST;
    place_order(ctx, l, pdf_dict_get(ctx, config, PDF_NAME(Order)), NO_ROW, 0);
    for (uint32_t i = 0; i < l->count; i++)
        place(l, i, NO_ROW);
}

struct pdf_layers *pdf_layers_read(fz_context *ctx, pdf_document *doc, struct collect *c)
{
    struct pdf_layers *l = fz_malloc_struct(ctx, struct pdf_layers);
    l->doc = doc;
    l->collect = c;
    l->base_on = true;
    fz_try(ctx)
    {
        l->pool = fz_new_pool(ctx);
        l->slot_count = pdf_xref_len(ctx, doc);
        l->slots = fz_malloc_array(ctx, (size_t)l->slot_count + 1, uint32_t);
        memset(l->slots, 0xff, ((size_t)l->slot_count + 1) * sizeof *l->slots);
        read_all(ctx, l);
    }
    fz_catch(ctx)
    {
        pdf_layers_drop(ctx, l);
        fz_rethrow(ctx);
    }
    return l;
}

void pdf_layers_drop(fz_context *ctx, struct pdf_layers *l)
{
    if (!l)
        return;
    fz_free(ctx, l->rows);
    fz_free(ctx, l->slots);
    fz_drop_pool(ctx, l->pool);
    fz_free(ctx, l);
}

/* The row of a condition by its key, else a new one. */
static uint32_t row_of_condition(fz_context *ctx, struct pdf_layers *l, const struct pdf_condition *is)
{
    uint32_t at = row_of_key(l, is->key);
    if (at != NO_ROW)
        return at;
    return row_new(
        ctx, l,
        (struct layer_row){
            .name = is->name, .key = is->key, .several = is->several, .flags = is->on ? SHEET_LAYER_ON : 0 });
}

/* The row of a group or membership dictionary; NO_ROW when it is neither, or sets no condition. */
static uint32_t row_of(fz_context *ctx, struct pdf_layers *l, pdf_obj *oc)
{
    if (!pdf_is_dict(ctx, oc))
        return NO_ROW;
    uint32_t *slot = row_slot(l, pdf_to_num(ctx, oc));
    if (slot && *slot != NO_ROW)
        return *slot;
    if (!pdf_condition_is_membership(ctx, oc))
        return layer_group(ctx, l, oc);
    struct pdf_condition is;
    pdf_condition_read(ctx, l, oc, &is);
    if (!*is.key)
        return NO_ROW;
    uint32_t at = row_of_condition(ctx, l, &is);
    if (slot)
        *slot = at;
    return at;
}

static bool stands_below(const struct pdf_layers *l, uint32_t row, uint32_t above)
{
    while (row != NO_ROW && row != above)
        row = l->rows[row].parent;
    return row == above;
}

static uint32_t row_of_layer(const struct pdf_layers *l, uint32_t layer)
{
    for (size_t i = 0; i < l->count; i++)
        if (l->rows[i].layer == layer)
            return (uint32_t)i;
    return NO_ROW;
}

/* Content of `inner` within content of `outer`: that of the inner one where the tree has it below the outer one anyway.
 */
static uint32_t row_within(fz_context *ctx, struct pdf_layers *l, uint32_t outer, uint32_t inner)
{
    if (stands_below(l, inner, outer))
        return inner;
    struct pdf_condition is;
    pdf_condition_both(l, outer, inner, &is);
    return row_of_condition(ctx, l, &is);
}

uint32_t pdf_layers_find(fz_context *ctx, struct pdf_layers *l, uint32_t outer, pdf_obj *oc)
{
    uint32_t at = row_of(ctx, l, oc);
    if (at == NO_ROW)
        return outer;
    if (outer != SHEET_NONE && l->rows[at].layer != outer)
        at = row_within(ctx, l, row_of_layer(l, outer), at);
    place(l, at, NO_ROW);
    return l->rows[at].layer;
}
