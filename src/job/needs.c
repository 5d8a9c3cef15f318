/* Which measurements a job is made by. */
#include "job/needs.h"

#include "pattern/figures.h"

#include <string.h>

/* What patterns often ask for, as charts call it (common practice, no source). */
static const char *const usual[] = { "height", "upper bust", "bust", "waist", "hip", "back waist length" };

enum { USUAL = sizeof usual / sizeof usual[0] };

/* The list as it grows. */
struct listing {
    struct arena *a;
    const struct job *job;
    const bool *reads; /* of each piece: the figures it is drafted by; NULL without a pattern */
    struct job_measure *items;
    size_t count;
};

/* As where the size is chosen (sizing/choose.h): what lies within the chart is not questioned, whoever it is for. */
static struct sizing_question question_of(const struct listing *l, const struct sizing_measurement *m)
{
    const struct pattern *p = l->job->pattern;
    struct pattern_value row = { .count = 0 };
    if (p)
        row = pattern_drawn_for(p, m->name, l->job->cup_group);
    if (!row.count)
        return sizing_question_of(m->name, m->mm, l->job->body->unit);
    double first = row.mm[0], last = row.mm[row.count - 1];
    if (p->size_count > 1 && first == last)
        return sizing_question_beside(l->a, m->name, first, m->mm, l->job->body->unit);
    if (sizing_row_is_below(row, m->mm) || sizing_row_is_above(row, m->mm))
        return sizing_question_of(m->name, m->mm, l->job->body->unit);
    return (struct sizing_question){ .range = NULL };
}

static void add(struct listing *l, const char *name, enum job_use use, const char *piece, bool wanted)
{
    const struct sizing_body *body = l->job->body;
    const struct sizing_measurement *m = body ? sizing_body_find(body, name) : NULL;
    struct job_measure *item = &l->items[l->count++];
    *item = (struct job_measure){ .name = name, .use = use, .piece = piece, .is_wanted = wanted && !m };
    if (!m)
        return;
    item->mm = m->mm;
    item->question = question_of(l, m);
    item->at_odds = sizing_is_at_odds(body, name);
}

static bool is_listed(const struct listing *l, const char *name)
{
    for (size_t i = 0; i < l->count; i++)
        if (strcmp(l->items[i].name, name) == 0)
            return true;
    return false;
}

static bool is_cut(const struct job *job, int piece)
{
    const struct pattern *p = job->pattern;
    const struct pattern_view *view = job->view == PATTERN_NONE ? NULL : &p->views[job->view];
    if (job->cup_group != PATTERN_NONE && !pattern_in_cup_group(p->pieces[piece].cup_group, job->cup_group))
        return false;
    for (size_t i = 0; view && i < view->cut_count; i++)
        if (view->cuts[i].piece == piece)
            return true;
    return !view;
}

/* The label of the first piece that is cut and drafted by that figure. */
static const char *piece_of(const struct listing *l, size_t figure)
{
    const struct pattern *p = l->job->pattern;
    for (size_t i = 0; i < p->piece_count; i++)
        if (l->reads[i * p->figure_count + figure] && is_cut(l->job, (int)i))
            return p->pieces[i].label;
    return NULL;
}

/* Which of a pattern's figures it is, and what for. What a piece alone is drafted by is not asked for before it is known
 * that the piece is cut. */
static void add_figure(struct listing *l, size_t figure)
{
    const struct job *job = l->job;
    const struct pattern *p = job->pattern;
    const char *name = p->figures[figure], *piece = piece_of(l, figure);
    bool has_row = pattern_find_row(p, name) != PATTERN_NONE;
    bool picks_size = p->main_row != PATTERN_NONE && strcmp(name, p->chart[p->main_row].name) == 0;
    bool picks_cup = pattern_has_group_busts(p) && strcmp(name, PATTERN_BUST) == 0;
    bool drafts = piece && (job->to_body || !has_row);
    if (picks_size)
        add(l, name, JOB_PICKS_SIZE, NULL, (!job->ticket.size_by_hand && p->size_count > 1) || drafts);
    else if (picks_cup)
        add(l, name, JOB_PICKS_CUP_GROUP, NULL, !job->ticket.cup_by_hand || drafts);
    else if (drafts)
        add(l, name, JOB_DRAFTS, piece, job->view != PATTERN_NONE);
    else if (has_row)
        add(l, name, JOB_COMPARED, NULL, false);
}

/* The bust of cup groups is no figure where nothing is drafted by it. */
static void add_bust(struct listing *l)
{
    if (pattern_has_group_busts(l->job->pattern) && !is_listed(l, PATTERN_BUST))
        add(l, PATTERN_BUST, JOB_PICKS_CUP_GROUP, NULL, !l->job->ticket.cup_by_hand);
}

static void add_others(struct listing *l)
{
    const struct sizing_body *body = l->job->body;
    for (size_t i = 0; body && i < body->count; i++)
        if (!is_listed(l, body->items[i].name))
            add(l, body->items[i].name, l->job->pattern ? JOB_UNUSED : JOB_USUAL, NULL, false);
}

size_t job_needed_measurements(struct arena *a, const struct job *job, const struct job_measure **out)
{
    const struct pattern *p = job->pattern;
    size_t most = (p ? p->figure_count + 1 : USUAL) + (job->body ? job->body->count : 0);
    struct listing l = { .a = a, .job = job, .items = base_arena_alloc(a, most, sizeof *l.items) };
    if (p)
        l.reads = pattern_figures_by_piece(a, p);
    for (size_t i = 0; p && i < p->figure_count; i++)
        add_figure(&l, i);
    for (size_t i = 0; !p && i < USUAL; i++)
        add(&l, usual[i], JOB_USUAL, NULL, false);
    if (p)
        add_bust(&l);
    add_others(&l);
    *out = l.items;
    return l.count;
}
