/* Proof-reading the layouts that a job keeps: the cloth can be spread so, and every piece lies where it may. */
#include "app/check_state.h"
#include "app/lay_report.h"
#include "app/torn.h"
#include "job/cloth.h"
#include "job/places.h"

static const struct err_kind over = {
    "app.laid_over", ERR_FAULT,
    "in the layout of the {3} “{0}” lies over “{1}”, or nearer to it than the gap, by "
    "{2}; arrange it anew with `chalklight lay`"
};
static const struct err_kind off_cloth = {
    "app.laid_off_cloth", ERR_FAULT,
    "in the layout of the {3} “{0}” lies {2} past what can be cut there; arrange "
    "it anew with `chalklight lay`"
};
static const struct err_kind off_fold = { "app.laid_off_fold", ERR_FAULT,
                                          "in the layout of the {3} “{0}” lies {2} off the fold; arrange it anew with "
                                          "`chalklight lay`" };
static const struct err_kind wrong_hand = { "app.laid_wrong_hand", ERR_FAULT,
                                            "in the layout of the {3} “{0}” would be cut for the other side; turn it "
                                            "over, or arrange it anew with `chalklight lay`" };
static const struct err_kind against_nap = {
    "app.laid_against_nap", ERR_FAULT,
    "in the layout of the {3} “{0}” lies the other way up, and the cloth has a "
    "direction; turn it round, or arrange it anew with `chalklight lay`"
};
static const struct err_kind off_grain = { "app.laid_off_grain", ERR_WARNING,
                                           "in the layout of the {3} “{0}” lies {2}° off the grain" };
static const struct err_kind off_repeat = {
    "app.laid_off_repeat", ERR_WARNING,
    "in the layout of the {3} “{0}” lies {2} off the stripes that it is matched "
    "by"
};
static const struct err_kind not_laid = { "app.not_laid", ERR_WARNING,
                                          "{0} of {1} pieces have no place in the layout of the {2}" };

static const struct err_kind more = {
    "app.laid_more", ERR_FAULT,
    "in the layout of the {1} there are {0} more such faults; arrange it anew with `chalklight "
    "lay`"
};

enum { MOST_TOLD = 5 }; /* of a layout: it is arranged anew as a whole */

static const struct err_kind *const kinds[] = {
    [LAY_OVERLAP] = &over,          [LAY_OFF_CLOTH] = &off_cloth,     [LAY_OFF_FOLD] = &off_fold,
    [LAY_WRONG_HAND] = &wrong_hand, [LAY_AGAINST_NAP] = &against_nap, [LAY_OFF_GRAIN] = &off_grain,
    [LAY_OFF_REPEAT] = &off_repeat,
};

static void tell(struct check *c, const struct lay *lay, const struct lay_finding *f)
{
    const char *other = f->other == LAY_NONE ? "" : lay_item_name(c->a, lay->task, (size_t)f->other);
    struct err_arg amount = f->fault == LAY_OFF_GRAIN ? ERR_NUMBER(round(10 * f->amount) / 10) : ERR_OFF_MM(f->amount);
    base_err(c->errs, kinds[f->fault], base_err_in_file(c->path),
             ERR_TEXT(lay_item_name(c->a, lay->task, (size_t)f->item)), ERR_TEXT(other), amount,
             ERR_TEXT(pattern_cloth_name(lay->task->material)));
}

static void check_laid(struct check *c, const struct lay_task *task, const struct tearing_plan *torn,
                       const struct lay_place *places, enum units_length unit)
{
    struct lay lay = lay_of(c->a, task, places);
    struct app_layout layout = { .lay = &lay, .figures = lay_figures_of(&lay, unit), .torn = torn };
    const struct lay_finding *findings;
    size_t count = lay_judge(c->a, &lay, &findings);
    for (size_t i = 0; i < count && i < MOST_TOLD; i++)
        tell(c, &lay, &findings[i]);
    if (count > MOST_TOLD)
        base_err(c->errs, &more, base_err_in_file(c->path), ERR_NUMBER(count - MOST_TOLD),
                 ERR_TEXT(pattern_cloth_name(task->material)));
    if (lay.left_out)
        base_err(c->errs, &not_laid, base_err_in_file(c->path), ERR_NUMBER(lay.left_out), ERR_NUMBER(task->item_count),
                 ERR_TEXT(pattern_cloth_name(task->material)));
    if (!count)
        check_say(c, app_lay_title(c->a, &layout, unit));
}

/* What `lay` would only note of the cloth's use is no slip in the job. */
static void pass_on_faults(struct check *c, enum pattern_cloth material, const struct err_list *told)
{
    struct err_place place = { .file = c->path, .path = pattern_cloth_name(material) };
    for (int i = 0; i < told->count; i++)
        if (told->items[i].kind->severity == ERR_FAULT)
            base_err_add(c->errs, told->items[i].kind, place, told->items[i].args);
}

void check_layouts(struct check *c, const struct job *job, const struct draft *draft)
{
    enum units_length unit = job->body ? job->body->unit : job->pattern->unit;
    for (size_t i = 0; i < job->cloth_count; i++) {
        const struct job_cloth *cloth = &job->cloths[i];
        struct err_list *told = base_err_list_create();
        struct lay_task task;
        struct lay_place *places;
        const struct tearing_plan *torn;
        struct app_material m = { job, draft, &cloth->cloth, cloth->material, unit };
        if (!app_torn_task(c->a, &m, &task, &torn, told))
            pass_on_faults(c, cloth->material, told);
        else if (cloth->laid_count && job_places(c->a, job, &task, &places, c->errs))
            check_laid(c, &task, torn, places, unit);
        base_err_list_destroy(told);
    }
}
