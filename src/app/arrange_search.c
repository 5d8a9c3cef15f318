#include "app/arrange_state.h"
#include "app/sentence.h"
#include "base/words.h"

#define PICTURE_S (APP_LOOK_MS / 1000.0) /* between two pictures of what is found */
#define PATIENCE_S 60.0                  /* without a better one the search ends by itself: no source */

static const struct app_arrange_effects nothing;

/* The first reason, until the next key. */
static void tell_reason(struct app_arrange *ar, const struct err_list *errs)
{
    if (errs->count)
        app_arrange_tell(ar, "%s", app_sentence(errs->arena, &errs->items[0], ar->start.unit));
}

/* Of the places as they are now: those that stay, in the cloth's own order; the others are nowhere. */
static struct lay_place *held_places(struct arena *a, const struct app_arranged *cloth, size_t *held)
{
    size_t count = cloth->task.item_count;
    struct lay_place *places = base_arena_alloc(a, count + 1, sizeof *places);
    *held = 0;
    for (size_t i = 0; i < count; i++) {
        struct lay_place place = app_arrange_places(cloth)[i];
        bool stays = app_arrange_stays(cloth, i);
        place.is_pinned = stays;
        places[i] = stays ? place : (struct lay_place){ .is_laid = false };
        *held += stays;
    }
    return places;
}

/* Whether something is wrong that the search may put right: with a piece that is not held. */
static bool is_wrong(struct app_arranged *cloth)
{
    const struct lay_finding *findings;
    size_t count = app_arrange_findings(cloth, &findings);
    for (size_t i = 0; i < count; i++)
        if (!app_arrange_stays(cloth, (size_t)findings[i].item) ||
            (findings[i].other != LAY_NONE && !app_arrange_stays(cloth, (size_t)findings[i].other)))
            return true;
    return false;
}

/* Whether what the search has is to be had in place of what is there. */
static bool is_better(struct app_arranged *cloth, const struct lay *best)
{
    const struct lay *now = app_arrange_lay(cloth);
    if (best->left_out != now->left_out)
        return best->left_out < now->left_out;
    return best->length_mm < now->length_mm || is_wrong(cloth);
}

/* What the search has, where that is better: all of one search is one step. What is held stays as it is. */
static bool take(struct app_arranged *cloth, struct lay_place *places)
{
    struct arena *a = base_arena_create();
    struct lay best = lay_of(a, &cloth->task, places);
    bool better = is_better(cloth, &best);
    if (better) {
        struct lay_place *now = app_arrange_step(cloth, APP_ARRANGE_FOUND);
        for (size_t i = 0; i < cloth->task.item_count; i++)
            if (!app_arrange_stays(cloth, i))
                now[i] = places[i];
    }
    base_arena_destroy(a);
    return better;
}

void app_arrange_stop(struct app_arranged *cloth)
{
    cloth->searching = false;
}

void app_arrange_end_search(struct app_arrange *ar, struct app_arranged *cloth)
{
    app_arrange_drop_rounds(ar, cloth);
    cloth->searching = false;
}

bool app_arrange_begin_search(struct app_arrange *ar, struct app_arranged *cloth)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    size_t held;
    struct lay_place *places = held_places(a, cloth, &held);
    app_arrange_end_search(ar, cloth);
    cloth->search = lay_search_begin(&cloth->task, held ? places : NULL, ++cloth->seed, ar->start.pool, NULL, errs);
    if (cloth->search) {
        cloth->deed = APP_ARRANGE_ELSE;
        take(cloth, lay_search_best(a, cloth->search).places);
        cloth->searching = cloth->can_gain = lay_search_can_gain(cloth->search);
        cloth->gained_s = -1;
    } else {
        tell_reason(ar, errs);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return cloth->search != NULL;
}

void app_arrange_go_on(struct app_arrange *ar, struct app_arranged *cloth)
{
    if (!cloth->search) {
        app_arrange_begin_search(ar, cloth);
        return;
    }
    cloth->searching = cloth->can_gain;
    cloth->gained_s = -1;
    if (!cloth->searching)
        app_arrange_tell(ar, base_tr("This is as short as it can be"));
}

bool app_arrange_is_searching(const struct app_arrange *ar)
{
    return ar->cloths[ar->cloth].searching || app_arrange_reckons(ar);
}

struct app_arrange_effects app_arrange_search(struct app_arrange *ar, double now_s)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    bool told = app_arrange_take_widths(ar, now_s);
    if (!cloth->searching)
        return told ? app_arrange_redraw : nothing;
    if (cloth->gained_s < 0)
        cloth->gained_s = now_s;
    if (app_arrange_take_found(ar, cloth)) {
        cloth->gained_s = now_s;
        cloth->can_gain = ar->found->can_gain;
        ar->unshown = take(cloth, ar->found->places) || ar->unshown;
    }
    bool ends = !cloth->can_gain || now_s - cloth->gained_s > PATIENCE_S;
    if (ends)
        app_arrange_stop(cloth);
    app_arrange_attend(ar);
    if (!ends && !(ar->unshown && now_s - ar->shown_s >= PICTURE_S))
        return told ? app_arrange_redraw : nothing;
    ar->unshown = false;
    ar->shown_s = now_s;
    app_arrange_follow(ar);
    return app_arrange_changed;
}

/* The task of one item among those that are laid, which stay: itself it comes last. *places: one for each. */
static struct lay_task task_among(struct arena *a, const struct app_arranged *cloth, size_t item,
                                  struct lay_place **places)
{
    struct lay_task task = cloth->task;
    const struct lay_place *now = app_arrange_places(cloth);
    struct lay_item *items = base_arena_alloc(a, task.item_count, sizeof *items);
    *places = base_arena_alloc(a, task.item_count, sizeof **places);
    task.item_count = 0;
    for (size_t i = 0; i < cloth->task.item_count; i++)
        if (i != item && now[i].is_laid) {
            (*places)[task.item_count] = now[i];
            (*places)[task.item_count].is_pinned = true;
            items[task.item_count++] = cloth->task.items[i];
        }
    (*places)[task.item_count] = (struct lay_place){ .is_laid = false };
    items[task.item_count++] = cloth->task.items[item];
    task.items = items;
    return task;
}

bool app_arrange_find_room(struct app_arrange *ar, struct app_arranged *cloth, size_t item, struct lay_place *out)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct lay_place *places;
    struct lay_task task = task_among(a, cloth, item, &places);
    struct lay_search *search = lay_search_begin(&task, places, 1, ar->start.pool, NULL, errs);
    *out = (struct lay_place){ .is_laid = false };
    if (search)
        *out = lay_search_best(a, search).places[task.item_count - 1];
    if (!search)
        app_arrange_tell(ar, base_tr("Put right first what lies over another piece or past the edge"));
    else if (!out->is_laid)
        app_arrange_tell(ar, base_tr("There is no room left for it on this cloth"));
    out->is_pinned = false;
    lay_search_end(search);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return out->is_laid;
}
