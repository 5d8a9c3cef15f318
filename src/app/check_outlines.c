/* Every piece drafted in every size of every cup group: what is wrong with it, its edges and its marks. */
#include "app/check_state.h"
#include "base/pool.h"
#include "base/words.h"

#include <math.h>

static const struct err_kind huge = { "check.huge", ERR_WARNING,
                                      BASE_TR("piece “{0}” is {2} long in size {1}; is a number or its unit wrong?") };
static const struct err_kind label_outside = {
    "check.label_outside", ERR_WARNING,
    BASE_TR("\"label_at\" of piece “{0}” lies outside the piece in size {1}; the letters stand somewhere within it")
};
static const struct err_kind no_length = {
    "check.no_length", ERR_FAULT,
    BASE_TR("edge “{2}” of piece “{0}” has no length in size {1}: it begins and ends at one place")
};
static const struct err_kind no_snip = {
    "check.no_snip", ERR_WARNING,
    BASE_TR(
        "a notch of piece “{0}” is shown without its snip in size {1}: edge “{2}” has no allowance to snip there")
};
static const struct err_kind drill_twice = {
    "check.drill_twice", ERR_WARNING,
    BASE_TR("drill mark “{2}” of piece “{0}” is at the place of {3} in size {1}; take one away, or move it")
};
enum { THREADS = 4 }; /* as many cores as small computers have */

#define SAME_DRILL_MM 1.0 /* nearer to each other two holes of an awl are one (our own, no source) */
#define HUGE_MM 10000.0   /* longer than any one piece of clothing is cut (our own, no source) */

static void check_sense(const struct pattern *p, const struct draft *draft, const char *size, struct err_list *errs)
{
    for (size_t i = 0; i < draft->piece_count; i++) {
        const struct draft_piece *d = &draft->pieces[i];
        const struct pattern_piece *piece = &p->pieces[d->index];
        struct geometry_box box = geometry_path_box(d->seam.path);
        double length = fmax(box.max.x - box.min.x, box.max.y - box.min.y);
        if (length > HUGE_MM)
            base_err(errs, &huge, piece->place, ERR_TEXT(d->name), ERR_TEXT(size), ERR_MM(length));
        if (piece->label_at != PATTERN_NONE &&
            !geometry_path_holds(d->cut.path, (vec2){ d->label_at.x, d->label_at.y }))
            base_err(errs, &label_outside, piece->place, ERR_TEXT(d->name), ERR_TEXT(size));
    }
}

static void check_edges(const struct pattern_piece *piece, const struct draft_piece *d, const char *size,
                        struct err_list *errs)
{
    for (size_t e = 0; e < d->edge_count; e++)
        if (!(d->edges[e].length_mm > 0))
            base_err(errs, &no_length, piece->edges[e].place, ERR_TEXT(d->name), ERR_TEXT(size),
                     ERR_TEXT(piece->edges[e].name));
}

static void check_snips(const struct pattern_piece *piece, const struct draft_piece *d, const char *size,
                        struct err_list *errs)
{
    for (size_t i = 0; i < d->notch_count; i++)
        if (!(d->notches[i].depth_mm > 0))
            base_err(errs, &no_snip, piece->notches[i].place, ERR_TEXT(d->name), ERR_TEXT(size),
                     ERR_TEXT(piece->edges[d->notches[i].edge].name));
}

static bool is_one_hole(struct piece_pt p, struct piece_pt q)
{
    return hypot(p.x - q.x, p.y - q.y) < SAME_DRILL_MM;
}

/* The mark it lies at, as one point may be marked twice. */
static const char *name_of_other(struct arena *a, const struct pattern_piece *piece, size_t mark, size_t other)
{
    int point = piece->drill_marks[other].point;
    return point == piece->drill_marks[mark].point ? base_tr_in("drill mark", "another one")
                                                   : base_arena_print(a, base_tr("“%s”"), piece->points[point].name);
}

static void check_drill_marks(const struct pattern_piece *piece, const struct draft_piece *d, const char *size,
                              struct err_list *errs)
{
    for (size_t i = 1; i < d->drill_mark_count; i++) {
        size_t k = 0;
        while (k < i && !is_one_hole(d->drill_marks[k], d->drill_marks[i]))
            k++;
        if (k < i)
            base_err(errs, &drill_twice, piece->drill_marks[i].place, ERR_TEXT(d->name), ERR_TEXT(size),
                     ERR_TEXT(piece->points[piece->drill_marks[i].point].name),
                     ERR_TEXT(name_of_other(errs->arena, piece, i, k)));
    }
}

/* A piece that is drafted has all its notches and drill marks, in the pattern's order. */
static void check_parts(const struct pattern *p, const struct draft *draft, const char *size, struct err_list *errs)
{
    for (size_t i = 0; i < draft->piece_count; i++) {
        const struct draft_piece *d = &draft->pieces[i];
        const struct pattern_piece *piece = &p->pieces[d->index];
        check_edges(piece, d, size, errs);
        check_snips(piece, d, size, errs);
        check_drill_marks(piece, d, size, errs);
    }
}

void check_drafted(const struct pattern *p, const struct draft *draft, const char *size, struct err_list *errs)
{
    check_sense(p, draft, size, errs);
    check_parts(p, draft, size, errs);
}

/* What is drafted together: the pieces of a cup group, and perhaps those of none. */
struct drafted_group {
    int cup_group;
    bool with_common;
};

static bool is_in(const struct check_pattern *k, int piece, struct drafted_group group)
{
    int own = k->p->pieces[piece].cup_group;
    return (own != PATTERN_NONE || group.with_common) && pattern_in_cup_group(own, group.cup_group);
}

/* Lines of all views' cutting lists, that their counts are worked out, too; before them each piece once, whether a view
 * cuts it or not. */
static void list_all_cuts(const struct check_pattern *k, struct drafted_group group, struct pattern_view *all)
{
    size_t count = k->p->piece_count;
    for (size_t v = 0; v < k->p->view_count; v++)
        count += k->p->views[v].cut_count;
    struct pattern_cut *cuts = base_arena_alloc(k->c->a, count, sizeof *cuts);
    for (int i = 0; i < (int)k->p->piece_count; i++)
        if (is_in(k, i, group))
            cuts[all->cut_count++].piece = i;
    for (size_t v = 0; v < k->p->view_count; v++)
        for (size_t i = 0; i < k->p->views[v].cut_count; i++)
            if (is_in(k, k->p->views[v].cuts[i].piece, group))
                cuts[all->cut_count++] = k->p->views[v].cuts[i];
    all->cuts = cuts;
}

/* The same of their notions; those of all views are the pattern's own. */
static void list_all_notions(const struct check_pattern *k, struct pattern_notions *all)
{
    size_t count = 0;
    for (size_t v = 0; v < k->p->view_count; v++)
        count += k->p->views[v].notions.count;
    struct pattern_notion *items = base_arena_alloc(k->c->a, count, sizeof *items);
    for (size_t v = 0; v < k->p->view_count; v++)
        for (size_t i = 0; i < k->p->views[v].notions.count; i++)
            items[all->count++] = k->p->views[v].notions.items[i];
    all->items = items;
}

static struct pattern with_view_of(const struct check_pattern *k, struct drafted_group group)
{
    struct pattern with = *k->p;
    struct pattern_view *view = base_arena_alloc(k->c->a, 1, sizeof *view);
    *view = (struct pattern_view){ .name = "", .label = "", .shown = "" };
    list_all_cuts(k, group, view);
    list_all_notions(k, &view->notions);
    with.views = view;
    with.view_count = 1;
    return with;
}

struct pattern check_with_all(const struct check_pattern *k, int cup_group)
{
    return with_view_of(k, (struct drafted_group){ cup_group, true });
}

/* All that is drafted, shared out: one size of one group is a part. */
struct drafting {
    struct check_pattern *k;
    const struct pattern *with; /* one for each group */
    struct sheet {
        struct err_list *found;
        int drafted; /* how many of those the draft found */
    } * sheets;
};

static void draft_sheet(void *user, size_t part, int worker)
{
    const struct drafting *d = user;
    const struct check_pattern *k = d->k;
    size_t group = part / k->p->size_count, size = part % k->p->size_count;
    const struct pattern *with = &d->with[group];
    struct sheet *sheet = &d->sheets[part];
    struct draft_figure figure = draft_figure_at((double)size, check_group(k, group));
    (void)worker;
    sheet->found = base_err_list_create();
    if (!with->views->cut_count)
        return;
    k->arenas[part] = base_arena_create();
    draft_make(k->arenas[part], with, &figure, 0, &k->drafts[part], sheet->found);
    sheet->drafted = sheet->found->count;
    check_drafted(k->p, &k->drafts[part], k->p->sizes[size], sheet->found);
}

/* A group without a piece of its own has no drafts, and nothing asks for them. */
void check_outlines(struct check_pattern *k)
{
    struct pattern *with = base_arena_alloc(k->c->a, k->group_count, sizeof *with);
    size_t count = k->group_count * k->p->size_count;
    for (size_t g = 0; g < k->group_count; g++)
        with[g] = with_view_of(k, (struct drafted_group){ check_group(k, g), g == 0 || k->groups_differ });
    k->drafts = base_arena_alloc(k->c->a, count, sizeof *k->drafts);
    k->arenas = base_arena_alloc(k->c->a, count, sizeof(struct arena *));
    struct drafting d = { k, with, base_arena_alloc(k->c->a, count, sizeof *d.sheets) };
    struct base_pool *pool = base_pool_create(THREADS);
    base_pool_run(pool, count, draft_sheet, &d);
    base_pool_destroy(pool);
    for (size_t i = 0; i < count; i++) {
        check_sift_body_alone(k, d.sheets[i].found, &d.sheets[i].drafted);
        check_tell_new(k->c, d.sheets[i].found, d.sheets[i].drafted);
        base_err_list_destroy(d.sheets[i].found);
    }
}
