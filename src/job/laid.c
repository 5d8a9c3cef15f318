#include "job/laid.h"

#include "job/cloth.h"
#include "job/places.h"

#include <string.h>

static const struct err_kind layout_off = {
    "job.layout_off", ERR_WARNING,
    BASE_TR("pieces no longer fit where they lay on the {0}, so its layout was taken off; arrange it anew")
};
static const struct err_kind layout_less = {
    "job.layout_less", ERR_WARNING,
    BASE_TR("places in the layout of the {0} were taken out, as so many pieces are not to be cut of it now: {1}")
};

static const struct err_place nowhere = { NULL, NULL, 0 };

/* --- whether the pieces are the same ------------------------------------------------------------------------------ */

static bool same_numbers(const double *one, const double *other, size_t count)
{
    return one && other ? memcmp(one, other, count * sizeof *one) == 0 : one == other;
}

static bool same_text(const char *one, const char *other)
{
    return one && other ? strcmp(one, other) == 0 : one == other;
}

static bool same_alterations(const struct job *one, const struct job *other)
{
    if (one->alteration_count != other->alteration_count)
        return false;
    for (size_t i = 0; i < one->alteration_count; i++) {
        const struct draft_alteration *a = &one->alterations[i], *b = &other->alterations[i];
        if (a->kind != b->kind || a->row != b->row || a->amount_mm != b->amount_mm || !same_text(a->what, b->what))
            return false;
    }
    return true;
}

/* Whether both are drafted to the same pieces. */
static bool same_pieces(const struct job *one, const struct job *other)
{
    const struct pattern *p = one->pattern;
    if (p != other->pattern || one->view != other->view || one->position != other->position ||
        one->cup_group != other->cup_group || one->to_body != other->to_body || one->trial != other->trial)
        return false;
    return same_numbers(one->level_position, other->level_position, p->row_count) &&
           (!one->to_body || same_numbers(one->own_mm, other->own_mm, p->figure_count)) && same_alterations(one, other);
}

/* --- how they lie ------------------------------------------------------------------------------------------------- */

/* A job whose layouts are looked at. */
struct judged {
    struct arena *a;
    const struct job *job;
    struct draft draft;
    bool is_drafted;
    struct err_list *untold;
};

static void begin(struct judged *j, const struct job *job)
{
    *j = (struct judged){ .a = base_arena_create(), .job = job, .untold = base_err_list_create() };
    if (!job_is_finished(job))
        return;
    struct draft_figure figure = job_figure(job);
    j->is_drafted = draft_make(j->a, job->pattern, &figure, job->view, &j->draft, j->untold);
}

static void end(struct judged *j)
{
    base_err_list_destroy(j->untold);
    base_arena_destroy(j->a);
}

/* What a person puts a piece off the grain or the stripes for is her own affair. */
static bool is_wrong(const struct lay_finding *finding)
{
    return finding->fault != LAY_OFF_GRAIN && finding->fault != LAY_OFF_REPEAT;
}

/* What of the layout of a material is wrong; the task and the places come with it. False: it cannot be told, or nothing
 * can lie there. */
static bool count_wrong(struct judged *j, const struct job_cloth *cloth, struct lay_task *task,
                        struct lay_place **places, size_t *wrong)
{
    const struct lay_finding *found;
    *wrong = 0;
    if (!j->is_drafted || !job_lay_task(j->a, j->job, &j->draft, cloth, task, j->untold))
        return false;
    job_places(j->a, j->job, task, places, NULL);
    struct lay lay = lay_of(j->a, task, *places);
    size_t count = lay_judge(j->a, &lay, &found);
    for (size_t i = 0; i < count; i++)
        *wrong += is_wrong(&found[i]);
    return true;
}

static size_t wrong_before(const struct job *was, enum pattern_cloth material)
{
    const struct job_cloth *cloth = job_find_cloth(was, material);
    struct judged j;
    struct lay_task task;
    struct lay_place *places;
    size_t wrong = 0;
    begin(&j, was);
    if (cloth)
        count_wrong(&j, cloth, &task, &places, &wrong);
    end(&j);
    return wrong;
}

/* --- what is left of it ------------------------------------------------------------------------------------------- */

void job_clear_layout(struct arena *a, struct job *job, enum pattern_cloth material)
{
    struct job_cloth cloth = *job_find_cloth(job, material);
    cloth.laid = NULL;
    cloth.laid_count = 0;
    job_put_cloth(a, job, &cloth);
}

static void take_off(struct arena *a, struct job *job, enum pattern_cloth material, struct err_list *errs)
{
    job_clear_layout(a, job, material);
    base_err(errs, &layout_off, nowhere, ERR_TEXT(base_tr(pattern_cloth_name(material))));
}

/* Keeps what is still cut, with the names of the job's own pattern. */
static void keep_found(struct arena *a, struct job *job, const struct lay_task *task, const struct lay_place *places,
                       struct err_list *errs)
{
    size_t before = job_find_cloth(job, task->material)->laid_count;
    job_keep_places(a, job, task, places);
    size_t lost = before - job_find_cloth(job, task->material)->laid_count;
    if (lost)
        base_err(errs, &layout_less, nowhere, ERR_TEXT(base_tr(pattern_cloth_name(task->material))), ERR_NUMBER(lost));
}

/* What is left of a cloth when strips were torn off it follows from the strips: a layout of that is not judged. */
static void judge(struct arena *a, const struct job *was, struct judged *j, enum pattern_cloth material,
                  struct job *job, struct err_list *errs)
{
    const struct job_cloth *cloth = job_find_cloth(job, material);
    struct lay_task task;
    struct lay_place *places;
    size_t wrong;
    if (cloth->torn.is_kept || !count_wrong(j, cloth, &task, &places, &wrong) ||
        (wrong && wrong > wrong_before(was, material)))
        take_off(a, job, material, errs);
    else
        keep_found(a, job, &task, places, errs);
}

void job_judge_layouts(struct arena *a, const struct job *was, int changed, struct job *job, struct err_list *errs)
{
    bool same = same_pieces(was, job);
    struct judged j;
    begin(&j, job);
    for (int m = 0; j.is_drafted && m < JOB_MATERIALS; m++) {
        const struct job_cloth *cloth = job_find_cloth(job, (enum pattern_cloth)m);
        if (cloth && cloth->laid_count && (!same || m == changed))
            judge(a, was, &j, (enum pattern_cloth)m, job, errs);
    }
    end(&j);
}
