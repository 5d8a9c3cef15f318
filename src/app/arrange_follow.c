/* Interfacing follows its fabric: what is fused in a block is told by where the fabric's pieces lie (app/block.h), so
 * each time these change the interfacing may be cut of something else. */
#include "app/arrange_state.h"

#include "job/cloth.h"
#include "job/places.h"

#include <string.h>

static struct app_arranged *find(const struct app_arrange *ar, enum pattern_cloth material)
{
    for (size_t i = 0; i < ar->cloth_count; i++)
        if (ar->cloths[i].from->material == material)
            return &ar->cloths[i];
    return NULL;
}

static bool is_any_begun(const struct app_arranged *cloth)
{
    size_t i = 0;
    while (i < cloth->task.item_count && !cloth->begun[i])
        i++;
    return i < cloth->task.item_count;
}

/* Where the block lies is all the same to its interfacing. */
static bool is_same_block(const struct lay_block *one, const struct lay_block *other)
{
    return one->count == other->count &&
           (!one->count || (one->length_mm == other->length_mm && one->width_mm == other->width_mm));
}

/* Whether the interfacing's items are those that this layout of the fabric leaves. */
static bool is_up_to_date(const struct app_arranged *interfacing, const struct lay *fabric)
{
    const struct lay_task *task = &interfacing->task;
    struct lay_block block = lay_block_of(fabric);
    if (interfacing->refused || !is_same_block(&task->fabric_block, &block))
        return false;
    if (!block.count)
        return true;
    struct arena *a = base_arena_create();
    const struct lay_hands *within = lay_in_block(a, fabric);
    bool same = memcmp(within, task->elsewhere, task->draft->cut_count * sizeof *within) == 0;
    base_arena_destroy(a);
    return same;
}

/* Whether it lies as it should, all of it. */
static bool lies_well(struct app_arranged *cloth)
{
    const struct lay_finding *findings;
    return !app_arrange_lay(cloth)->left_out && app_arrange_findings(cloth, &findings) == 0;
}

/* The items as the job has them now, where they lay. */
static void make_anew(struct app_arrange *ar, struct app_arranged *cloth, const struct job *job)
{
    struct arena *before = cloth->room;
    struct err_list *untold = base_err_list_create();
    bool was_found = cloth->deed == APP_ARRANGE_FOUND;
    app_arrange_end_search(ar, cloth);
    app_arrange_halt_rounds(ar); /* a round under way may still look at what was */
    cloth->room = base_arena_create();
    cloth->is_made = false;
    cloth->deed = APP_ARRANGE_ELSE;
    if (app_arrange_make_items(ar, cloth, job, untold))
        app_arrange_take_kept(cloth, job, NULL);
    base_arena_destroy(before);
    base_err_list_destroy(untold);
    app_arrange_begin_rounds(ar);
    if (!cloth->refused && (was_found || !lies_well(cloth)))
        app_arrange_begin_search(ar, cloth);
}

void app_arrange_follow(struct app_arrange *ar)
{
    struct app_arranged *fabric = find(ar, PATTERN_FABRIC), *interfacing = find(ar, PATTERN_INTERFACING);
    if (!fabric || !interfacing || fabric->refused || !(fabric->from->cloth.block_mm > 0) || interfacing->torn ||
        is_any_begun(interfacing) || is_up_to_date(interfacing, app_arrange_lay(fabric)))
        return;
    struct arena *a = base_arena_create();
    struct job job = app_arrange_job(ar, a);
    make_anew(ar, interfacing, &job);
    base_arena_destroy(a);
}
