#include "app/lacks.h"

#include "app/fitted.h"
#include "app/torn.h"
#include "job/cloth.h"
#include "job/places.h"

static bool uses_rests(const struct job *job, enum pattern_cloth material)
{
    const struct job_cloth *cloth = job_find_cloth(job, material);
    return cloth && cloth->torn.is_kept && cloth->torn.rests && job_is_finished(job);
}

/* Counts anew what has no place on what the strips leave of the length. False: nothing is lacking. */
static bool count_behind(struct arena *scratch, const struct job *job, const struct draft *draft,
                         struct job_lacking *lacks)
{
    const struct job_cloth *cloth = job_find_cloth(job, lacks->material);
    struct app_material m = { job, draft, &cloth->cloth, lacks->material, job_unit(job), NULL };
    struct err_list *untold = base_err_list_create();
    struct lay_task task;
    struct lay_place *places;
    const struct tearing_plan *torn;
    bool is_laid = app_torn_task(scratch, &m, &task, &torn, untold);
    bool is_all_torn = !is_laid && torn && app_torn_is_all(torn);
    base_err_list_destroy(untold);
    if (!is_laid)
        return !is_all_torn;
    lacks->count = task.item_count - job_places(scratch, job, &task, &places, NULL);
    lacks->kind = lacks->count < task.item_count ? JOB_LACKS_PLACES : JOB_LACKS_LAYOUT;
    return lacks->count > 0;
}

static bool is_lacking(const struct job *job, struct job_lacking *lacks)
{
    if (lacks->stage != JOB_STAGE_LAYOUT || !uses_rests(job, lacks->material))
        return true;
    struct arena *scratch = base_arena_create();
    struct err_list *untold = base_err_list_create();
    struct draft draft;
    bool lacking = !app_draft(scratch, job, &draft, untold) || count_behind(scratch, job, &draft, lacks);
    base_err_list_destroy(untold);
    base_arena_destroy(scratch);
    return lacking;
}

size_t app_lacks(struct arena *a, const struct job *job, const struct job_lacking **out)
{
    const struct job_lacking *all;
    size_t count = job_lacks(a, job, &all), kept = 0;
    struct job_lacking *items = base_arena_alloc(a, count + 1, sizeof *items);
    for (size_t i = 0; i < count; i++) {
        items[kept] = all[i];
        kept += is_lacking(job, &items[kept]);
    }
    *out = items;
    return kept;
}
