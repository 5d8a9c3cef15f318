#include "job/refit.h"

#include "job/fitting.h"
#include "job/phrases.h"

static const struct err_kind alteration_lost = {
    "job.alteration_lost", ERR_WARNING,
    BASE_TR("the alteration “{0}” cannot be made any more and was taken out; add it anew in words that fit")
};

static const struct err_place nowhere = { NULL, NULL, 0 };

/* The choice that her measurements lead to; false when they lead to none. What they are to be asked about is told where
 * they are typed. */
static bool choose(struct arena *a, const struct job *job, double position, int group, struct sizing_choice *out)
{
    struct err_list *untold = base_err_list_create();
    bool ok = sizing_choose_named(a, job->pattern, job->body, position, group, out, untold);
    base_err_list_destroy(untold);
    return ok;
}

/* The size is picked whatever the cup group. */
double job_position_by_body(const struct job *job)
{
    const struct pattern *p = job->pattern;
    struct sizing_choice choice = { .position = PATTERN_NONE };
    if (p->size_count == 1)
        return 0;
    if (!job->body || !pattern_has_chart(p))
        return PATTERN_NONE;
    struct arena *scratch = base_arena_create();
    bool ok = choose(scratch, job, PATTERN_NONE, p->cup_group_count ? 0 : PATTERN_NONE, &choice);
    base_arena_destroy(scratch);
    return ok ? choice.position : PATTERN_NONE;
}

static int cup_group_by_body(const struct job *job)
{
    const struct pattern *p = job->pattern;
    struct sizing_choice choice = { .cup_group = PATTERN_NONE };
    if (!p->cup_group_count || !pattern_has_group_busts(p) || !job->body || job->position == PATTERN_NONE)
        return PATTERN_NONE;
    struct arena *scratch = base_arena_create();
    bool ok = choose(scratch, job, job->position, PATTERN_NONE, &choice);
    base_arena_destroy(scratch);
    return ok ? choice.cup_group : PATTERN_NONE;
}

static void follow_body(const struct job *was, struct job *job)
{
    if (!job->ticket.size_by_hand)
        job->position = job_position_by_body(job);
    if (!job->ticket.cup_by_hand)
        job->cup_group = cup_group_by_body(job);
    bool same = was->pattern == job->pattern && was->position == job->position && was->cup_group == job->cup_group;
    if (!same && !job->ticket.size_by_hand)
        job->ticket.size_confirmed = false;
}

/* A level that is where the size was stays at the size. */
static void follow_size(struct arena *a, double before, struct job *job)
{
    double *levels = base_arena_alloc(a, job->pattern->row_count, sizeof *levels);
    for (size_t i = 0; i < job->pattern->row_count; i++)
        levels[i] = job->level_position[i] == before ? job->position : job->level_position[i];
    job->level_position = levels;
}

static void follow_blend(struct arena *a, double before, struct job *job)
{
    if (!job->level_position || job->position == PATTERN_NONE)
        return;
    if (job->ticket.blend_by_body)
        job->level_position = job_levels_of_body(a, job);
    else if (job->position != before)
        follow_size(a, before, job);
}

static void alter_anew(struct arena *a, enum units_length unit, struct job *job, struct err_list *errs)
{
    const char *const *texts = job->alteration_texts;
    size_t count = job->alteration_count;
    job->alteration_count = 0;
    for (size_t i = 0; i < count; i++) {
        struct err_list *why = base_err_list_create();
        if (!job_is_finished(job))
            job_alter_later(a, job, texts[i], unit);
        else if (!job_alter(a, job, texts[i], &unit, nowhere, why))
            base_err(errs, &alteration_lost, nowhere, ERR_TEXT(job_phrase_shown(a, job->pattern, texts[i])));
        base_err_list_destroy(why);
    }
}

void job_refit(struct arena *a, const struct job *was, double before, struct job *job, struct err_list *errs)
{
    job->own_mm = job_own_figures(a, job);
    if (!job->pattern)
        return;
    follow_body(was, job);
    follow_blend(a, before, job);
    alter_anew(a, job_unit(was), job, errs);
}
