/* What a job still lacks. */
#include "job/needs.h"

#include "job/cloth.h"
#include "job/places.h"

/* The list as it grows. */
struct listing {
    struct arena *a;
    const struct job *job;
    struct job_lacking *items;
    size_t count, cap;
};

static struct job_lacking *add(struct listing *l, enum job_stage stage, enum job_lack kind)
{
    l->items = base_arena_grow(l->a, l->items, &l->cap, l->count + 1, sizeof *l->items);
    struct job_lacking *item = &l->items[l->count++];
    *item = (struct job_lacking){ .stage = stage, .kind = kind };
    return item;
}

static void add_of(struct listing *l, enum job_stage stage, enum job_lack kind, enum pattern_cloth material,
                   size_t count)
{
    struct job_lacking *item = add(l, stage, kind);
    item->material = material;
    item->count = count;
}

/* --- measurements and pattern ------------------------------------------------------------------------------------- */

static void add_measurements(struct listing *l)
{
    const struct job_measure *m;
    size_t count = job_needed_measurements(l->a, l->job, &m);
    if (!l->job->pattern && !job_has_measurements(l->job))
        add(l, JOB_STAGE_MEASUREMENTS, JOB_LACKS_MEASUREMENT);
    for (size_t i = 0; i < count; i++) {
        if (m[i].is_wanted)
            add(l, JOB_STAGE_MEASUREMENTS, JOB_LACKS_MEASUREMENT)->name = m[i].name;
        if (m[i].question.range || m[i].at_odds)
            add(l, JOB_STAGE_MEASUREMENTS, JOB_DOUBTS_MEASUREMENT)->name = m[i].name;
    }
}

static void add_pattern(struct listing *l)
{
    const struct job *job = l->job;
    if (!job->pattern) {
        add(l, JOB_STAGE_PATTERN, JOB_LACKS_PATTERN);
        return;
    }
    if (job->view == PATTERN_NONE)
        add(l, JOB_STAGE_PATTERN, JOB_LACKS_VIEW);
    if (job->position == PATTERN_NONE)
        add(l, JOB_STAGE_PATTERN, JOB_LACKS_SIZE);
    if (job->cup_group == PATTERN_NONE && job->pattern->cup_group_count)
        add(l, JOB_STAGE_PATTERN, JOB_LACKS_CUP_GROUP);
    if (job->position != PATTERN_NONE && !job->ticket.size_confirmed && job->pattern->size_count > 1)
        add(l, JOB_STAGE_PATTERN, JOB_LACKS_CONFIRMATION);
}

/* --- cloth and layout --------------------------------------------------------------------------------------------- */

bool job_cuts_from(const struct job *job, enum pattern_cloth material)
{
    const struct pattern_view *view =
        job->pattern && job->view != PATTERN_NONE ? &job->pattern->views[job->view] : NULL;
    for (size_t i = 0; view && i < view->cut_count; i++) {
        const struct pattern_piece *piece = &job->pattern->pieces[view->cuts[i].piece];
        bool is_in_group = job->cup_group == PATTERN_NONE || pattern_in_cup_group(piece->cup_group, job->cup_group);
        bool is_in_trial = !job->trial || (material == PATTERN_FABRIC && !piece->left_out_of_trial);
        if (view->cuts[i].cloth == material && is_in_group && is_in_trial)
            return true;
    }
    return false;
}

static void add_cloth(struct listing *l, enum pattern_cloth material)
{
    const struct job_cloth *cloth = job_find_cloth(l->job, material);
    const struct cloth_ready *steps;
    if (!cloth) {
        add_of(l, JOB_STAGE_CLOTH, JOB_LACKS_CLOTH, material, 0);
        return;
    }
    size_t count = cloth_ready_list(l->a, &cloth->cloth, cloth->cloth.unit, &steps), left = 0;
    for (size_t i = 0; i < count; i++)
        left += !l->job->ticket.ready[material][steps[i].step];
    if (left)
        add_of(l, JOB_STAGE_CLOTH, JOB_LACKS_READY, material, left);
}

/* Whether an item is torn off rather than laid, as far as can be told without the strips. */
static bool is_torn(const struct job *job, const struct job_cloth *cloth, const struct lay_item *item)
{
    return cloth->torn.is_kept && item->piece->index != PATTERN_NONE &&
           job->pattern->pieces[item->piece->index].is_rectangle;
}

/* Of a drafted job: the items of a cloth that have no place, of those that need one. False: they cannot lie there. */
static bool count_places(struct arena *scratch, const struct job *job, const struct draft *draft,
                         const struct job_cloth *cloth, size_t *lacking, size_t *needed)
{
    struct err_list *untold = base_err_list_create();
    struct lay_task task;
    struct lay_place *places;
    *lacking = *needed = 0;
    bool ok = job_lay_task(scratch, job, draft, cloth, &task, untold);
    if (ok)
        job_places(scratch, job, &task, &places, NULL);
    for (size_t i = 0; ok && i < task.item_count; i++) {
        bool counts = places[i].is_laid || !is_torn(job, cloth, &task.items[i]);
        *needed += counts;
        *lacking += counts && !places[i].is_laid;
    }
    base_err_list_destroy(untold);
    return ok;
}

static void add_layout(struct listing *l, const struct draft *draft, const struct job_cloth *cloth)
{
    struct arena *scratch = base_arena_create();
    size_t lacking, needed;
    bool can_lie = count_places(scratch, l->job, draft, cloth, &lacking, &needed);
    base_arena_destroy(scratch);
    if (!can_lie || (needed && lacking == needed))
        add_of(l, JOB_STAGE_LAYOUT, JOB_LACKS_LAYOUT, cloth->material, 0);
    else if (lacking)
        add_of(l, JOB_STAGE_LAYOUT, JOB_LACKS_PLACES, cloth->material, lacking);
}

/* Of materials without a cloth, and of a job that cannot be drafted, there is no layout to be looked at. */
static void add_layouts(struct listing *l)
{
    struct arena *scratch = base_arena_create();
    struct err_list *untold = base_err_list_create();
    struct draft draft;
    bool is_drafted = false;
    if (job_is_finished(l->job)) {
        struct draft_figure figure = job_figure(l->job);
        is_drafted = draft_make(scratch, l->job->pattern, &figure, l->job->view, &draft, untold);
    }
    for (int m = 0; m < JOB_MATERIALS; m++) {
        const struct job_cloth *cloth = job_find_cloth(l->job, (enum pattern_cloth)m);
        if (!job_cuts_from(l->job, (enum pattern_cloth)m))
            continue;
        if (is_drafted && cloth)
            add_layout(l, &draft, cloth);
        else
            add_of(l, JOB_STAGE_LAYOUT, JOB_LACKS_LAYOUT, (enum pattern_cloth)m, 0);
    }
    base_err_list_destroy(untold);
    base_arena_destroy(scratch);
}

size_t job_lacks(struct arena *a, const struct job *job, const struct job_lacking **out)
{
    struct listing l = { .a = a, .job = job };
    add_measurements(&l);
    add_pattern(&l);
    for (int m = 0; m < JOB_MATERIALS; m++)
        if (job_cuts_from(job, (enum pattern_cloth)m))
            add_cloth(&l, (enum pattern_cloth)m);
    add_layouts(&l);
    if (!job->has_table)
        add(&l, JOB_STAGE_TABLE, JOB_LACKS_TABLE);
    *out = l.items;
    return l.count;
}
