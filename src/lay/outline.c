/* Where items lie, and what a lay of such places comes to. */
#include "lay/items.h"

#include <string.h>

struct cloth_path lay_outline(struct arena *a, const struct lay_task *task, size_t item, const struct lay_place *place)
{
    struct geometry_mover m = geometry_mover_of(place->motion);
    struct geometry_path path = geometry_path_copy(a, task->items[item].piece->cut.path);
    for (size_t i = 0; i < path.count; i++)
        path.points[i] = geometry_move(&m, path.points[i]);
    if (place->motion.mirror)
        geometry_path_reverse(path);
    return (struct cloth_path){ path };
}

double lay_off_grain(const struct lay_place *place, const struct lay_item *item)
{
    struct geometry_motion turn = { .mirror = place->motion.mirror, .turn_deg = place->motion.turn_deg };
    struct geometry_mover m = geometry_mover_of(turn);
    vec2 grain = geometry_move(&m, lay_lengthwise(item->piece, false));
    return fabs(geometry_direction(fabs(grain.y), fabs(grain.x)));
}

/* All that is cut of an item, over both layers: what is left over there is waste. */
static double area_of(const struct lay_item *item)
{
    return geometry_path_area(item->piece->cut.path) * (item->on_fold ? 2 : item->copies);
}

/* Of cloth of that length, over all layers; of a scrap all that there is. */
static double cloth_area(struct arena *scratch, const struct lay_task *task, double length_mm)
{
    if (task->cloth->outline.path.count)
        return fabs(geometry_path_area(cloth_washed_path(scratch, task->cloth, task->cloth->outline.path)));
    return task->spread.usable_mm * length_mm * task->spread.layers_long;
}

struct lay lay_of(struct arena *a, const struct lay_task *task, const struct lay_place *places)
{
    struct lay lay = { .task = task, .places = base_arena_alloc(a, task->item_count, sizeof *lay.places) };
    struct arena *scratch = base_arena_create();
    double area = 0;
    if (task->item_count)
        memcpy(lay.places, places, task->item_count * sizeof *places);
    for (size_t i = 0; i < task->item_count; i++) {
        if (!places[i].is_laid) {
            lay.left_out++;
            continue;
        }
        lay.length_mm = fmax(lay.length_mm, geometry_path_box(lay_outline(scratch, task, i, &places[i]).path).max.x);
        area += area_of(&task->items[i]);
        base_arena_reset(scratch);
    }
    double cloth = cloth_area(scratch, task, lay.length_mm);
    base_arena_destroy(scratch);
    lay.used = cloth > 0 ? area / cloth : 0;
    return lay;
}
