/* What a lay takes of cloth, here and on other widths. */
#include "lay/items.h"

#include <math.h>

/* Of all that is needed: where the cloth is folded past the last piece, what lies between counts, too. */
static double used_of(const struct lay *lay, double length_mm)
{
    double laid_mm = lay->length_mm * lay->task->spread.layers_long;
    bool is_scrap = lay->task->cloth->outline.path.count > 0;
    return is_scrap || !(length_mm > 0) ? lay->used : lay->used * laid_mm / length_mm;
}

struct lay_figures lay_figures_of(const struct lay *lay, enum units_length unit)
{
    const struct cloth *cloth = lay->task->cloth;
    double length = cloth_fold_past(cloth, lay->length_mm) * lay->task->spread.layers_long;
    double at_hand = cloth_washed_length(cloth);
    return (struct lay_figures){ .length_mm = length,
                                 .to_buy_mm =
                                     cloth->outline.path.count ? (double)NAN : cloth_to_buy(cloth, length, unit),
                                 .used = used_of(lay, length),
                                 .block = lay_block_of(lay),
                                 .spare_mm = at_hand > 0 ? at_hand - length : (double)NAN };
}

static struct cloth as_bought(const struct cloth *cloth)
{
    struct cloth other = *cloth;
    other.length_mm = 0;
    other.outline = (struct cloth_path){ { NULL, 0, true } };
    other.faults = NULL;
    other.fault_count = 0;
    return other;
}

struct cloth lay_cloth_as_wide(const struct cloth *cloth, double width_mm)
{
    struct cloth other = as_bought(cloth);
    other.width_mm = width_mm;
    other.washed_width_mm = 0;
    other.fold_depth_mm = fmin(cloth->fold_depth_mm, cloth_usable_width(&other) / 2);
    return other;
}

/* Across the grain, opened out. */
static double width_of(const struct lay_item *item)
{
    return (item->on_fold ? 2 : 1) * lay_extent(item->piece, item->on_fold).y;
}

const struct draft_piece *lay_too_wide_on(const struct lay_task *task, double width_mm)
{
    struct cloth other = lay_cloth_as_wide(task->cloth, width_mm);
    size_t widest = 0;
    for (size_t i = 1; i < task->item_count; i++)
        widest = width_of(&task->items[i]) > width_of(&task->items[widest]) ? i : widest;
    bool is_wide = task->item_count && width_of(&task->items[widest]) > cloth_usable_width(&other) + LAY_FIT_MM;
    return is_wide ? task->items[widest].piece : NULL;
}

static bool lay_on(struct arena *a, const struct lay_task *task, const struct cloth *other,
                   const struct lay_effort *effort, struct lay_figures *out, enum units_length unit)
{
    struct err_list *errs = base_err_list_create();
    struct lay_task on;
    struct lay_search *search = NULL;
    if (lay_task_on(a, task, other, &on, errs))
        search = lay_search_begin(&on, NULL, 1, effort->pool, effort->stop, errs);
    for (size_t i = 0; search && i < effort->rounds && !(effort->stop && *effort->stop) && lay_search_can_gain(search);
         i++)
        lay_search_round(search, effort->stop);
    bool all = false;
    if (search) {
        struct lay best = lay_search_best(a, search);
        *out = lay_figures_of(&best, unit);
        all = best.left_out == 0;
    }
    lay_search_end(search);
    base_err_list_destroy(errs);
    return all;
}

bool lay_on_width(struct arena *a, const struct lay_task *task, double width_mm, const struct lay_effort *effort,
                  struct lay_figures *out, enum units_length unit)
{
    struct cloth other = lay_cloth_as_wide(task->cloth, width_mm);
    return lay_on(a, task, &other, effort, out, unit);
}

bool lay_on_enough(struct arena *a, const struct lay_task *task, const struct lay_effort *effort,
                   struct lay_figures *out, enum units_length unit)
{
    struct cloth other = as_bought(task->cloth);
    return lay_on(a, task, &other, effort, out, unit);
}
