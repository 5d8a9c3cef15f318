#include "app/progress.h"

#include "app/place.h"
#include "app/place_state.h"

/* A step is done once for all the copies that are cut at it. */
static void count_step(const struct app_place_cloth *cloth, const struct app_step *step, struct app_cut_progress *lines)
{
    if (step->kind != (cloth->chalks_all ? APP_STEP_LAMP : APP_STEP_CUT) || step->item == LAY_NONE)
        return;
    const struct lay_item *item = &cloth->lay->task->items[step->item];
    if (item->cut != LAY_NONE && step->done)
        lines[item->cut].cut += item->copies;
}

static void count_cloth(const struct app_place_cloth *cloth, struct app_cut_progress *lines)
{
    const struct lay *lay = cloth->lay;
    for (size_t i = 0; i < lay->task->item_count; i++)
        if (lay->places[i].is_laid && lay->task->items[i].cut != LAY_NONE)
            lines[lay->task->items[i].cut].laid += lay->task->items[i].copies;
    for (size_t i = 0; i < cloth->step_count; i++)
        count_step(cloth, &cloth->steps[i], lines);
}

/* The item that the step in hand is about; LAY_NONE: none. */
static int item_of_step(const struct app_place_cloth *cloth)
{
    const struct app_step *step = cloth->now < cloth->step_count ? &cloth->steps[cloth->now] : NULL;
    bool works = cloth->stage == APP_PLACE_CUT || cloth->stage == APP_PLACE_LAMP;
    return step && works ? step->item : LAY_NONE;
}

static int line_of_step(const struct app_place_cloth *cloth)
{
    int item = item_of_step(cloth), cut = item == LAY_NONE ? LAY_NONE : cloth->lay->task->items[item].cut;
    return cut == LAY_NONE ? APP_NO_LINE : cut;
}

static struct table_path outline_in_hand(const struct app *app, struct arena *a)
{
    const struct app_place_cloth *cloth = app_place_is_shown(app) ? app_place_now(app) : NULL;
    int item = cloth ? item_of_step(cloth) : LAY_NONE;
    if (item == LAY_NONE)
        return (struct table_path){ { 0 } };
    struct geometry_path path =
        lay_outline(a, cloth->lay->task, (size_t)item, &cloth->lay->places[item]).path;
    for (size_t i = 0; i < path.count; i++) {
        struct table_pt at = app_place_at(&cloth->seat.to_table, (struct cloth_pt){ path.points[i].x, path.points[i].y });
        path.points[i] = (vec2){ at.x, at.y };
    }
    return (struct table_path){ path };
}

static int line_in_hand(const struct app *app)
{
    if (app_place_is_shown(app))
        return line_of_step(app_place_now(app));
    return app->all ? APP_NO_LINE : (int)app->cut;
}

struct app_progress app_progress_of(const struct app *app, struct arena *a)
{
    struct app_cut_progress *lines = base_arena_alloc(a, app->draft.cut_count, sizeof *lines);
    struct app_progress progress = { .lines = lines, .line_count = app->draft.cut_count,
                                     .in_hand = line_in_hand(app),
                                     .outline = outline_in_hand(app, a) };
    for (size_t i = 0; app->place && i < app->place->count; i++) {
        count_cloth(&app->place->cloths[i], lines);
        progress.is_placed = progress.is_placed || app->place->cloths[i].seen_count > 0;
    }
    return progress;
}
