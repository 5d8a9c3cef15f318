#include "app/arrange_look.h"
#include "app/arrange_state.h"

#include "app/fitted.h"
#include "app/sentence.h"
#include "app/torn.h"
#include "base/words.h"
#include "job/places.h"
#include "scene/names.h"

#include <stdarg.h>
#include <string.h>

const struct app_arrange_effects app_arrange_redraw = { .redraw = true };
const struct app_arrange_effects app_arrange_changed = { .redraw = true, .keep = true };

struct app_arranged *app_arrange_now(struct app_arrange *ar)
{
    return &ar->cloths[ar->cloth];
}

struct app_arrange_effects app_arrange_tell(struct app_arrange *ar, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    ar->told = base_arena_vprint(ar->told_in, format, args);
    va_end(args);
    return app_arrange_redraw;
}

bool app_arrange_take_kept(struct app_arranged *cloth, const struct job *job, struct err_list *errs)
{
    struct lay_place *places;
    size_t found = job_places(cloth->room, job, &cloth->task, &places, errs);
    memcpy(cloth->steps.values[0], places, cloth->task.item_count * sizeof *places);
    return found > 0;
}

/* Which items of it are begun on the table, and which are cut. */
static void note_cut(const struct app_arrange *ar, struct app_arranged *cloth)
{
    size_t count = cloth->task.item_count;
    const struct app_cloth_progress *known = app_progress_find(ar->start.cut, cloth->task.material);
    bool *begun = base_arena_alloc(cloth->room, count + 1, sizeof *begun),
         *cut = base_arena_alloc(cloth->room, count + 1, sizeof *cut);
    for (size_t i = 0; known && known->item_count == count && i < count; i++) {
        begun[i] = known->begun[i];
        cut[i] = known->done[i];
    }
    cloth->begun = begun;
    cloth->cut = cut;
}

bool app_arrange_make_items(struct app_arrange *ar, struct app_arranged *cloth, const struct job *job,
                            struct err_list *errs)
{
    struct err_list *own = base_err_list_create();
    struct arena *a = cloth->room;
    struct app_material m = { job, &ar->draft, &cloth->from->cloth, cloth->from->material, ar->start.unit, NULL };
    bool ok = app_torn_task(a, &m, &cloth->task, &cloth->torn, own);
    cloth->refused = NULL;
    if (!ok) {
        cloth->refused =
            own->count ? app_sentence(a, &own->items[0], ar->start.unit) : base_tr("Nothing can be laid on it");
        for (int i = 0; i < own->count; i++)
            base_err_add(errs, own->items[i].kind, own->items[i].place, own->items[i].args);
    }
    if (!ok)
        cloth->task.item_count = 0;
    note_cut(ar, cloth);
    app_arrange_begin_steps(a, &cloth->steps, cloth->task.item_count);
    cloth->in_hand = cloth->task.item_count;
    base_err_list_destroy(own);
    return ok;
}

/* What is all torn is no reason not to look at the layouts: there are none to make. */
static bool is_all_torn(const struct app_arranged *cloth)
{
    return cloth->torn && app_torn_is_all(cloth->torn);
}

static bool begin_cloths(struct app_arrange *ar, struct err_list *errs)
{
    const struct job *job = ar->start.job;
    struct err_list *refused = base_err_list_create();
    bool any = false, any_torn = false;
    ar->cloths = base_arena_alloc(ar->a, job->cloth_count + 1, sizeof *ar->cloths);
    for (size_t i = 0; i < job->cloth_count; i++, ar->cloth_count++) {
        ar->cloths[i] = (struct app_arranged){
            .from = &job->cloths[i], .room = base_arena_create(), .made = base_arena_create(), .gained_s = -1
        };
        bool ok = app_arrange_make_items(ar, &ar->cloths[i], job, refused);
        if (ok && !any)
            ar->cloth = i;
        any = any || ok;
        any_torn = any_torn || is_all_torn(&ar->cloths[i]);
    }
    for (int i = 0; !any && i < refused->count; i++)
        base_err_add(errs, refused->items[i].kind, refused->items[i].place, refused->items[i].args);
    base_err_list_destroy(refused);
    return any || any_torn;
}

struct app_arrange *app_arrange_create(const struct app_arrange_start *start, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    struct app_arrange *ar = base_arena_alloc(a, 1, sizeof *ar);
    *ar = (struct app_arrange){ .start = *start,
                                .a = a,
                                .told_in = base_arena_create(),
                                .names = scene_names_create(),
                                .side = start->side,
                                .cautions = start->cautions };
    if (!app_draft(a, start->job, &ar->draft, errs) || !begin_cloths(ar, errs)) {
        app_arrange_destroy(ar);
        return NULL;
    }
    app_arrange_begin_rounds(ar);
    app_arrange_begin_widths(ar);
    const struct job *job = start->job;
    for (size_t i = 0; i < ar->cloth_count; i++)
        if (!ar->cloths[i].refused && !app_arrange_take_kept(&ar->cloths[i], job, errs))
            app_arrange_begin_search(ar, &ar->cloths[i]);
    app_arrange_follow(ar);
    app_arrange_attend(ar);
    return ar;
}

void app_arrange_destroy(struct app_arrange *ar)
{
    if (!ar)
        return;
    app_arrange_end_rounds(ar);
    app_arrange_end_widths(ar);
    for (size_t i = 0; i < ar->cloth_count; i++) {
        base_arena_destroy(ar->cloths[i].made);
        base_arena_destroy(ar->cloths[i].room);
    }
    scene_names_destroy(ar->names);
    base_arena_destroy(ar->told_in);
    base_arena_destroy(ar->a);
}

const struct geometry_map *app_arrange_map(const struct app_arrange *ar)
{
    return &ar->start.table.map;
}

struct job app_arrange_job(const struct app_arrange *ar, struct arena *a)
{
    struct job job = *ar->start.job;
    for (size_t i = 0; i < ar->cloth_count; i++)
        if (!ar->cloths[i].refused)
            job_keep_places(a, &job, &ar->cloths[i].task, app_arrange_places(&ar->cloths[i]));
    return job;
}

void app_arrange_show_cloth(struct app_arrange *ar, size_t cloth)
{
    if (cloth < ar->cloth_count)
        ar->cloth = cloth;
    app_arrange_attend(ar);
}

void app_arrange_rest(struct app_arrange *ar, bool rests)
{
    ar->rests = rests;
    app_arrange_attend(ar);
}

void app_arrange_set_trouble(struct app_arrange *ar, const char *sentence)
{
    ar->trouble = sentence;
}
