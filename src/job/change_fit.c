/* Changes of the view, the size, and how the pattern is fitted to her. */
#include "job/change.h"

#include "job/changed.h"
#include "job/fitting.h"

#include <assert.h>

static const struct err_kind cannot_blend = {
    "job.no_levels", ERR_FAULT,
    BASE_TR("no piece of the pattern says which level its points follow, so that it cannot be blended")
};
static const struct err_kind too_early = {
    "job.too_early", ERR_FAULT, BASE_TR("what is altered depends on the view and the size: choose these first")
};

static const struct err_place nowhere = { NULL, NULL, 0 };

const struct job *job_with_view(struct arena *a, const struct job *job, int view, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    assert(job->pattern && view < (int)job->pattern->view_count);
    out->view = view;
    return job_settled(a, job, out, errs);
}

const struct job *job_with_size(struct arena *a, const struct job *job, double position, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    assert(job->pattern && position >= 0 && position <= (double)(job->pattern->size_count - 1));
    out->position = position;
    out->ticket.size_by_hand = out->ticket.size_confirmed = true;
    return job_settled(a, job, out, errs);
}

const struct job *job_with_size_by_body(struct arena *a, const struct job *job, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    out->ticket.size_by_hand = out->ticket.size_confirmed = false;
    return job_settled(a, job, out, errs);
}

const struct job *job_with_cup_group(struct arena *a, const struct job *job, int group, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    assert(job->pattern && group < (int)job->pattern->cup_group_count);
    out->cup_group = group;
    out->ticket.cup_by_hand = group != PATTERN_NONE;
    return job_settled(a, job, out, errs);
}

static bool can_blend(const struct job *job, struct err_list *errs)
{
    bool can = job->pattern && pattern_has_chart(job->pattern) && job_has_levels(job->pattern);
    if (!can)
        base_err(errs, &cannot_blend, nowhere, ERR_NONE);
    return can;
}

/* The levels as they are, or, where there is no blend, at the size; to be changed. */
static double *levels_of(struct arena *a, const struct job *job)
{
    double *levels = base_arena_alloc(a, job->pattern->row_count, sizeof *levels);
    for (size_t i = 0; i < job->pattern->row_count; i++)
        levels[i] = job->level_position ? job->level_position[i] : fmax(job->position, 0);
    return levels;
}

const struct job *job_with_blend(struct arena *a, const struct job *job, int level, double position,
                                 struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    if (!can_blend(job, errs))
        return job;
    assert(level >= 0 && level < (int)job->pattern->row_count);
    assert(position <= (double)(job->pattern->size_count - 1));
    double *levels = levels_of(a, job);
    levels[level] = position >= 0 ? position : fmax(job->position, 0);
    out->level_position = levels;
    out->ticket.blend_by_body = false;
    return job_settled(a, job, out, errs);
}

const struct job *job_with_blend_by_body(struct arena *a, const struct job *job, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    if (!can_blend(job, errs))
        return job;
    out->level_position = levels_of(a, job);
    out->ticket.blend_by_body = true;
    return job_settled(a, job, out, errs);
}

const struct job *job_without_blend(struct arena *a, const struct job *job, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    out->level_position = NULL;
    out->ticket.blend_by_body = false;
    return job_settled(a, job, out, errs);
}

const struct job *job_with_made_to(struct arena *a, const struct job *job, bool to_body, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    out->to_body = to_body;
    return job_settled(a, job, out, errs);
}

const struct job *job_with_alteration(struct arena *a, const struct job *job, const char *text, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    if (!job_is_finished(job)) {
        base_err(errs, &too_early, nowhere, ERR_NONE);
        return job;
    }
    return job_alter(a, out, text, NULL, nowhere, errs) ? job_settled(a, job, out, errs) : job;
}

const struct job *job_without_alteration(struct arena *a, const struct job *job, size_t which, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    const char **texts = base_arena_alloc(a, job->alteration_count, sizeof *texts);
    assert(which < job->alteration_count);
    out->alteration_count = 0;
    for (size_t i = 0; i < job->alteration_count; i++)
        if (i != which)
            texts[out->alteration_count++] = job->alteration_texts[i];
    out->alteration_texts = texts; /* read anew when the job is settled */
    return job_settled(a, job, out, errs);
}

const struct job *job_with_trial(struct arena *a, const struct job *job, bool trial, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    out->trial = trial;
    return job_settled(a, job, out, errs);
}
