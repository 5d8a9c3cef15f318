/* Proof-reading the layouts that a job keeps: the cloth can be spread so, and every piece lies where it may. */
#include "app/check_state.h"
#include "app/lay_found.h"
#include "app/lay_report.h"
#include "app/lay_words.h"
#include "app/torn.h"
#include "job/cloth.h"
#include "job/places.h"

static const struct err_kind not_laid = { "app.not_laid", ERR_WARNING,
                                          BASE_TR("{0} of {1} pieces have no place in the layout of the {2}") };

static const struct err_kind more = {
    "app.laid_more", ERR_FAULT,
    BASE_TR("in the layout of the {1} there are {0} more such faults; arrange it anew with `chalklight "
            "lay`")
};

enum { MOST_TOLD = 5 }; /* of a layout: it is arranged anew as a whole */

/* Whether that is a fault, and no note. */
static bool tell(struct check *c, const struct lay *lay, const struct lay_finding *f)
{
    const char *where =
        base_arena_print(c->a, base_tr("layout of the %s"), base_tr(pattern_cloth_name(lay->task->material)));
    const struct err found = app_lay_found(c->a, lay, f, base_tr("; arrange it anew with `chalklight lay`"));
    base_err_add(c->errs, found.kind, (struct err_place){ .file = c->path, .path = where }, found.args);
    return found.kind->severity == ERR_FAULT;
}

static void check_laid(struct check *c, const struct lay_task *task, const struct tearing_plan *torn,
                       const struct lay_place *places, enum units_length unit)
{
    struct lay lay = lay_of(c->a, task, places);
    struct app_layout layout = { .lay = &lay, .figures = lay_figures_of(&lay, unit), .torn = torn };
    const struct lay_finding *findings;
    size_t count = lay_judge(c->a, &lay, &findings);
    bool is_faulty = count > MOST_TOLD;
    for (size_t i = 0; i < count && i < MOST_TOLD; i++)
        is_faulty = tell(c, &lay, &findings[i]) || is_faulty;
    if (count > MOST_TOLD)
        base_err(c->errs, &more, base_err_in_file(c->path), ERR_NUMBER(count - MOST_TOLD),
                 ERR_TEXT(base_tr(pattern_cloth_name(task->material))));
    if (lay.left_out)
        base_err(c->errs, &not_laid, base_err_in_file(c->path), ERR_NUMBER(lay.left_out), ERR_NUMBER(task->item_count),
                 ERR_TEXT(base_tr(pattern_cloth_name(task->material))));
    if (!is_faulty)
        check_say(c, app_lay_title(c->a, &layout, unit));
}

/* The job keeps a cloth that nothing is cut of now; it may be wanted again. */
static void say_not_needed(struct check *c, const struct job *job, const struct job_cloth *cloth,
                           enum units_length unit)
{
    const struct lay_task task = { .cloth = &cloth->cloth, .material = cloth->material };
    check_say(c, base_arena_print(c->a,
                                  job->trial
                                      ? base_tr("%s: not needed, as a trial garment is cut of its main fabric alone")
                                      : base_tr("%s: not needed, as nothing of this view is cut of it"),
                                  app_lay_cloth(c->a, &task, unit)));
}

/* What `lay` would only note of the cloth's use is no slip in the job. */
static void pass_on_faults(struct check *c, enum pattern_cloth material, const struct err_list *told)
{
    struct err_place place = { .file = c->path, .path = base_tr(pattern_cloth_name(material)) };
    for (int i = 0; i < told->count; i++)
        if (told->items[i].kind->severity == ERR_FAULT)
            base_err_add(c->errs, told->items[i].kind, place, told->items[i].args);
}

void check_layouts(struct check *c, const struct job *job, const struct draft *draft)
{
    enum units_length unit = job_unit(job);
    for (size_t i = 0; i < job->cloth_count; i++) {
        const struct job_cloth *cloth = &job->cloths[i];
        if (!lay_is_cut(draft, cloth->material)) {
            say_not_needed(c, job, cloth, unit);
            continue;
        }
        struct err_list *told = base_err_list_create();
        struct lay_task task;
        struct lay_place *places;
        const struct tearing_plan *torn;
        struct app_material m = { job, draft, &cloth->cloth, cloth->material, unit, NULL };
        if (!app_torn_task(c->a, &m, &task, &torn, told))
            pass_on_faults(c, cloth->material, told);
        else if (cloth->laid_count && job_places(c->a, job, &task, &places, c->errs))
            check_laid(c, &task, torn, places, unit);
        base_err_list_destroy(told);
    }
}
