/* A pattern file, proof-read whole. */
#include "app/check_state.h"
#include "pattern/each.h"
#include "pattern/read.h"

int check_group(const struct check_pattern *k, size_t group)
{
    return k->p->cup_group_count ? (int)group : PATTERN_NONE;
}

const char *check_group_text(const struct check_pattern *k, int cup_group)
{
    if (cup_group == PATTERN_NONE)
        return "";
    return base_arena_print(k->c->a, base_tr(", cup group %s"), k->p->cup_groups[cup_group].name);
}

const struct draft *check_draft_at(const struct check_pattern *k, size_t group, size_t size)
{
    return &k->drafts[group * k->p->size_count + size];
}

size_t check_first_group(int cup_group)
{
    return cup_group == PATTERN_NONE ? 0 : (size_t)cup_group;
}

const char *check_listed(struct arena *a, const char *list, const char *next)
{
    return base_arena_print(a, "%s%s%s", list, *list ? ", " : "", next);
}

static const char *summary(struct check *c, const struct pattern *p)
{
    const struct {
        size_t count;
        const char *text;
    } parts[] = {
        { p->size_count, check_count(c->a, p->size_count, "%zu size", "%zu sizes") },
        { p->cup_group_count, check_count(c->a, p->cup_group_count, "%zu cup group", "%zu cup groups") },
        { p->piece_count, check_count(c->a, p->piece_count, "%zu piece", "%zu pieces") },
        { p->seam_count, check_count(c->a, p->seam_count, "%zu seam", "%zu seams") },
        { p->view_count, check_count(c->a, p->view_count, "%zu view", "%zu views") },
    };
    const char *list = "";
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (parts[i].count)
            list = check_listed(c->a, list, parts[i].text);
    return base_arena_print(c->a, base_tr("pattern “%s”: %s"), p->name, list);
}

static struct check_sewn *find_sewn(struct arena *a, const struct pattern *p)
{
    struct check_sewn *sewn = base_arena_alloc(a, p->piece_count, sizeof *sewn);
    for (size_t i = 0; i < p->piece_count; i++) {
        size_t count = p->pieces[i].edge_count + p->pieces[i].curve_count;
        sewn[i].seams = base_arena_alloc(a, count, sizeof(int));
        for (size_t e = 0; e < count; e++)
            sewn[i].seams[e] = PATTERN_NONE;
    }
    for (size_t s = p->seam_count; s-- > 0;)
        for (int side = 0; side < 2; side++)
            for (size_t i = 0; i < p->seams[s].sides[side].count; i++) {
                struct pattern_edge_ref ref = p->seams[s].sides[side].edges[i];
                sewn[ref.piece].seams[ref.edge] = (int)s;
            }
    return sewn;
}

static void (*const parts[])(struct check_pattern *k) = {
    check_numbers, check_outlines, check_to_body,    check_ease, check_girths,
    check_sizes,   check_seams,    check_allowances, check_use,
};

void check_pattern_file(struct check *c)
{
    const struct pattern *p = pattern_read(c->a, c->path, c->errs);
    if (!p)
        return;
    struct check_pattern k = { .c = c, .p = p, .group_count = p->cup_group_count ? p->cup_group_count : 1 };
    k.has_slip = base_arena_alloc(c->a, p->piece_count, sizeof *k.has_slip);
    k.sewn = find_sewn(c->a, p);
    k.body_alone = base_err_list_create();
    k.groups_differ = p->cup_group_count > 1 && pattern_reads_bust(p);
    check_say(c, summary(c, p));
    check_say(c, p->outline == PATTERN_STITCHING_LINE ? base_tr("Outlines are the stitching line")
                                                      : base_tr("Outlines are the cutting line"));
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        parts[i](&k);
    for (size_t i = 0; i < k.group_count * p->size_count; i++)
        base_arena_destroy(k.arenas[i]);
}
