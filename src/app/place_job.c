/* The layouts that a job keeps, brought to the table. */
#include "app/place.h"
#include "app/sentence.h"
#include "app/torn.h"
#include "job/places.h"

static const struct err_kind not_shown = { "app.layout_not_shown", ERR_WARNING,
                                           BASE_TR("the layout of the {0} is not shown: {1}") };

/* What is cut of what strips leave, after the layout behind them. */
static void add_rests(struct app *app, const struct tearing_plan *torn, bool is_first)
{
    for (size_t i = 0; torn && torn->rests && i < torn->rests->count; i++)
        app_place_add_rest(app, &torn->rests->rests[i], is_first && !i ? torn : NULL);
}

/* A layout that the job's pieces do not fit any more is no reason not to cut them one by one. */
static void tell_not_shown(const struct app *app, enum pattern_cloth material, const struct err_list *why,
                           struct err_list *errs)
{
    base_err(errs, &not_shown, base_err_in_file(NULL), ERR_TEXT(base_tr(pattern_cloth_name(material))),
             ERR_TEXT(app_sentence(app->a, &why->items[0], app->unit)));
}

/* What is only warned of was told when the layout was made. */
static void add_cloth(struct app *app, const struct job_cloth *cloth, struct err_list *errs)
{
    struct err_list *why = base_err_list_create();
    struct lay_task *task = base_arena_alloc(app->a, 1, sizeof *task);
    struct lay *lay = base_arena_alloc(app->a, 1, sizeof *lay);
    struct lay_place *places;
    const struct tearing_plan *torn;
    struct app_material m = { app->job, &app->draft, &cloth->cloth, cloth->material, app->unit, NULL };
    bool is_laid = false, ok = app_torn_task(app->a, &m, task, &torn, why);
    if (ok && job_places(app->a, app->job, task, &places, errs) > 0) {
        *lay = lay_of(app->a, task, places);
        app_place_add_behind(app, lay, torn);
        is_laid = true;
    }
    bool is_all = !ok && torn && app_torn_is_all(torn);
    if (is_laid || is_all)
        add_rests(app, torn, !is_laid);
    else if (!ok && cloth->laid_count)
        tell_not_shown(app, cloth->material, why, errs);
    base_err_list_destroy(why);
}

/* A trial garment needs no other cloth than its main fabric. */
static bool is_wanted(const struct app *app, const struct job_cloth *cloth)
{
    return (cloth->laid_count || cloth->torn.rests) && (!app->job->trial || lay_is_cut(&app->draft, cloth->material));
}

void app_place_of_job(struct app *app, struct err_list *errs)
{
    for (size_t i = 0; i < app->job->cloth_count; i++)
        if (is_wanted(app, &app->job->cloths[i]))
            add_cloth(app, &app->job->cloths[i], errs);
    app_place_first(app);
}
