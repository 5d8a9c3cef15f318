#include "sheet_reader/pdf_condition.h"

#include <stdio.h>
#include <string.h>

enum { EXPRESSION_DEEP = 16, EXPRESSION_STEPS = 1000 };

/* One of And, Or: a list of conditions joined by a word. */
struct joined {
    struct pdf_condition *out;
    bool all; /* And; else Or */
    int count;
};

static void put(char *to, const char *before, const char *what, const char *after)
{
    size_t used = strlen(to);
    snprintf(to + used, CONDITION_TEXT - used, "%s%s%s", before, what, after);
}

static void set_group(const struct layer_row *row, bool off, struct pdf_condition *out)
{
    memset(out, 0, sizeof *out);
    put(out->name, off ? "not " : "", row->name, "");
    put(out->key, off ? "!" : "", row->key, "");
    out->on = ((row->flags & SHEET_LAYER_ON) != 0) != off;
}

static struct joined join_start(struct pdf_condition *out, bool all)
{
    memset(out, 0, sizeof *out);
    out->on = all;
    return (struct joined){ out, all, 0 };
}

static void join(struct joined *j, const struct pdf_condition *part)
{
    struct pdf_condition *out = j->out;
    if (!*part->key)
        return;
    const char *word = j->count ? j->all ? " and " : " or " : "", *sign = j->count ? j->all ? "&" : "|" : "";
    put(out->name, word, part->several ? "(" : "", "");
    put(out->name, part->name, part->several ? ")" : "", "");
    put(out->key, sign, part->several ? "(" : "", "");
    put(out->key, part->key, part->several ? ")" : "", "");
    out->on = j->count == 0 ? part->on : j->all ? out->on && part->on : out->on || part->on;
    out->several = j->count > 0 || part->several;
    j->count++;
}

/* The first part alone must not be wrapped: (a and b) is a and b. */
static void join_end(struct joined *j, const struct pdf_condition *only)
{
    if (j->count == 1)
        *j->out = *only;
}

static void negate(struct pdf_condition *c)
{
    struct pdf_condition was = *c;
    if (!*was.key)
        return;
    memset(c, 0, sizeof *c);
    put(c->name, was.several ? "not (" : "not ", was.name, was.several ? ")" : "");
    put(c->key, was.several ? "!(" : "!", was.key, was.several ? ")" : "");
    c->on = !was.on;
}

static void read_expression(fz_context *ctx, struct pdf_layers *l, pdf_obj *e, int deep, int *steps,
                            struct pdf_condition *out)
{
    memset(out, 0, sizeof *out);
    if (deep > EXPRESSION_DEEP || (*steps)-- <= 0)
        return;
    if (pdf_is_dict(ctx, e)) {
        uint32_t at = layer_group(ctx, l, e);
        set_group(&l->rows[at], false, out);
        return;
    }
    const char *word = pdf_to_name(ctx, pdf_array_get(ctx, e, 0));
    if (strcmp(word, "Not") == 0) {
        read_expression(ctx, l, pdf_array_get(ctx, e, 1), deep + 1, steps, out);
        negate(out);
        return;
    }
    bool all = strcmp(word, "And") == 0;
    if (!all && strcmp(word, "Or") != 0)
        return;
    struct joined j = join_start(out, all);
    struct pdf_condition part, only = { .on = true };
    int n = pdf_array_len(ctx, e);
    for (int i = 1; i<n && * steps> 0; i++) {
        read_expression(ctx, l, pdf_array_get(ctx, e, i), deep + 1, steps, &part);
        if (j.count == 0)
            only = part;
        join(&j, &part);
    }
    join_end(&j, &only);
}

struct policy_row {
    const char *name;
    bool all, off;
};
static const struct policy_row policy_rows[] = {
    { "AnyOn", false, false }, /* the default comes first */
    { "AllOn", true, false },
    { "AnyOff", false, true },
    { "AllOff", true, true },
};

static const struct policy_row *policy_of(const char *name)
{
    for (size_t i = 0; i < sizeof policy_rows / sizeof *policy_rows; i++)
        if (strcmp(policy_rows[i].name, name) == 0)
            return &policy_rows[i];
    return policy_rows;
}

static void read_policy(fz_context *ctx, struct pdf_layers *l, pdf_obj *membership, struct pdf_condition *out)
{
    const struct policy_row *policy = policy_of(pdf_to_name(ctx, pdf_dict_get(ctx, membership, PDF_NAME(P))));
    pdf_obj *groups = pdf_dict_get(ctx, membership, PDF_NAME(OCGs));
    struct joined j = join_start(out, policy->all);
    int n = pdf_is_array(ctx, groups) ? pdf_array_len(ctx, groups) : 1;
    for (int i = 0; i < n && i < EXPRESSION_STEPS; i++) {
        pdf_obj *group = pdf_is_array(ctx, groups) ? pdf_array_get(ctx, groups, i) : groups;
        if (!pdf_is_dict(ctx, group))
            continue;
        struct pdf_condition part;
        uint32_t at = layer_group(ctx, l, group);
        set_group(&l->rows[at], policy->off, &part);
        join(&j, &part);
    }
}

bool pdf_condition_is_membership(fz_context *ctx, pdf_obj *oc)
{
    pdf_obj *type = pdf_dict_get(ctx, oc, PDF_NAME(Type));
    if (pdf_is_name(ctx, type))
        return pdf_name_eq(ctx, type, PDF_NAME(OCMD));
    return pdf_dict_get(ctx, oc, PDF_NAME(OCGs)) || pdf_dict_get(ctx, oc, PDF_NAME(VE));
}

void pdf_condition_read(fz_context *ctx, struct pdf_layers *l, pdf_obj *membership, struct pdf_condition *out)
{
    pdf_obj *expression = pdf_dict_get(ctx, membership, PDF_NAME(VE));
    int steps = EXPRESSION_STEPS;
    memset(out, 0, sizeof *out);
    if (pdf_is_array(ctx, expression))
        read_expression(ctx, l, expression, 0, &steps, out);
    if (!*out->key)
        read_policy(ctx, l, membership, out);
}

static void set_row(const struct layer_row *row, struct pdf_condition *out)
{
    set_group(row, false, out);
    out->several = row->several;
}

void pdf_condition_both(const struct pdf_layers *l, uint32_t a, uint32_t b, struct pdf_condition *out)
{
    struct joined j = join_start(out, true);
    struct pdf_condition part;
    set_row(&l->rows[a], &part);
    join(&j, &part);
    set_row(&l->rows[b], &part);
    join(&j, &part);
}
