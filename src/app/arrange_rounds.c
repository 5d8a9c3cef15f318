/* Where the rounds of searching are made: in a thread of low priority, so that no key waits for one, or by whoever
 * calls app_arrange_search. A search belongs to that thread from when it is asked for until it is dropped. */
#include "app/arrange_state.h"

#include <string.h>

/* A round more of a search; what it has then is found. */
static enum base_background_news make_round(void *user, const struct base_background_turn *turn)
{
    struct lay_search *search = user;
    struct app_arrange_found *found = turn->answer;
    lay_search_use_pool(search, turn->pool);
    bool gain = lay_search_round(search, turn->stop), can_gain = lay_search_can_gain(search);
    if (!gain && can_gain && !turn->first)
        return BASE_NO_NEWS;
    struct arena *a = base_arena_create();
    struct lay best = lay_search_best(a, search);
    found->can_gain = can_gain;
    memcpy(found->places, best.places, best.task->item_count * sizeof *best.places);
    base_arena_destroy(a);
    return can_gain ? BASE_NEWS : BASE_LAST_NEWS;
}

static void end(void *search)
{
    lay_search_end(search);
}

void app_arrange_begin_rounds(struct app_arrange *ar)
{
    size_t most = ar->found_items;
    for (size_t i = 0; i < ar->cloth_count; i++)
        most = ar->cloths[i].task.item_count > most ? ar->cloths[i].task.item_count : most;
    size_t bytes = sizeof *ar->found + most * sizeof ar->found->places[0];
    if (!ar->found || most > ar->found_items)
        ar->found = base_arena_alloc(ar->a, 1, bytes);
    ar->found_items = most;
    const struct base_background_work work = { make_round,          end,   ar->start.wake,
                                               ar->start.wake_user, bytes, base_pool_threads(ar->start.pool) };
    if (ar->start.wake)
        ar->background = base_background_create(&work);
}

void app_arrange_halt_rounds(struct app_arrange *ar)
{
    base_background_destroy(ar->background);
    ar->background = NULL;
}

void app_arrange_end_rounds(struct app_arrange *ar)
{
    app_arrange_halt_rounds(ar);
    for (size_t i = 0; i < ar->cloth_count; i++)
        lay_search_end(ar->cloths[i].search);
}

void app_arrange_drop_rounds(struct app_arrange *ar, struct app_arranged *cloth)
{
    if (cloth->search && ar->background)
        base_background_drop(ar->background, cloth->search);
    else
        lay_search_end(cloth->search);
    cloth->search = NULL;
}

void app_arrange_attend(struct app_arrange *ar)
{
    const struct app_arranged *cloth = app_arrange_now(ar);
    if (ar->background)
        base_background_ask(ar->background, cloth->searching && !ar->rests ? cloth->search : NULL);
    app_arrange_attend_widths(ar);
}

bool app_arrange_take_found(struct app_arrange *ar, struct app_arranged *cloth)
{
    if (ar->background)
        return base_background_take(ar->background, ar->found);
    const struct base_background_turn turn = { .pool = ar->start.pool, .answer = ar->found };
    return make_round(cloth->search, &turn) != BASE_NO_NEWS;
}
