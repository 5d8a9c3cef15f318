#include "app/progress.h"

#include "app/place.h"
#include "app/place_state.h"
#include "base/words.h"
#include "job/cloth.h"

#include <math.h>
#include <string.h>

static void count_cloth(const struct app_place_cloth *cloth, struct app_cut_progress *lines)
{
    const struct lay *lay = cloth->lay;
    for (size_t i = 0; i < lay->task->item_count; i++) {
        const struct lay_item *item = &lay->task->items[i];
        if (!lay->places[i].is_laid || item->cut == LAY_NONE)
            continue;
        lines[item->cut].laid += item->copies;
        lines[item->cut].cut += app_place_is_cut(cloth, i) ? item->copies : 0;
    }
}

/* The material's layout, the first of it; what its strips left comes behind. */
static struct app_cloth_progress *of_material(struct arena *a, struct app_progress *progress,
                                              struct app_cloth_progress *cloths, const struct app_place_cloth *from,
                                              enum scene_side side)
{
    const struct lay_task *task = from->lay->task;
    size_t i = 0;
    while (i < progress->cloth_count && cloths[i].material != task->material)
        i++;
    if (i == progress->cloth_count)
        cloths[progress->cloth_count++] = (struct app_cloth_progress){
            .material = task->material,
            .begun = base_arena_alloc(a, from->rest ? 0 : task->item_count, sizeof(bool)),
            .done = base_arena_alloc(a, from->rest ? 0 : task->item_count, sizeof(bool)),
            .item_count = from->rest ? 0 : task->item_count,
            .is_cut = true,
            .trouble = from->trouble,
            .turn = (from->quarter - (int)side + SCENE_SIDES) % SCENE_SIDES,
        };
    return &cloths[i];
}

static void note_begun(struct arena *a, const struct app_place_cloth *from, struct app_cloth_progress *cloth)
{
    size_t count = from->lay->task->item_count;
    bool *begun = base_arena_alloc(a, count, sizeof *begun), *done = base_arena_alloc(a, count, sizeof *done);
    for (size_t i = 0; i < count; i++) {
        begun[i] = app_place_cut_to(from, i) > -INFINITY;
        done[i] = app_place_is_cut(from, i);
        cloth->cut += begun[i];
    }
    if (!from->rest) {
        cloth->begun = begun;
        cloth->done = done;
    }
    cloth->is_placed = cloth->is_placed || from->seen_count > 0;
    cloth->is_cut = cloth->is_cut && from->stage == APP_PLACE_DONE;
}

/* The item that the step in hand is about; LAY_NONE: none. */
static int item_of_step(const struct app_place_cloth *cloth)
{
    const struct app_step *step = cloth->now < cloth->step_count ? &cloth->steps[cloth->now] : NULL;
    bool works = cloth->stage == APP_PLACE_CUT || cloth->stage == APP_PLACE_LAMP;
    return step && works ? step->item : LAY_NONE;
}

static void note_part(const struct app *app, struct app_progress *progress)
{
    const struct app_place_cloth *cloth = app_place_is_shown(app) ? app_place_now(app) : NULL;
    const struct app_step *step = cloth && item_of_step(cloth) != LAY_NONE ? &cloth->steps[cloth->now] : NULL;
    progress->part = step ? step->part : APP_PARTS;
    progress->chalks = step && cloth->chalks_all && step->kind == APP_STEP_CUT;
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
    struct geometry_path path = lay_outline(a, cloth->lay->task, (size_t)item, &cloth->lay->places[item]).path;
    for (size_t i = 0; i < path.count; i++) {
        struct table_pt at =
            app_place_at(&cloth->seat.to_table, (struct cloth_pt){ path.points[i].x, path.points[i].y });
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
    size_t count = app->place ? app->place->count : 0;
    struct app_cloth_progress *cloths = base_arena_alloc(a, count, sizeof *cloths);
    struct app_progress progress = { .lines = lines,
                                     .line_count = app->draft.cut_count,
                                     .cloths = cloths,
                                     .in_hand = line_in_hand(app),
                                     .outline = outline_in_hand(app, a) };
    note_part(app, &progress);
    for (size_t i = 0; i < count; i++) {
        const struct app_place_cloth *cloth = &app->place->cloths[i];
        count_cloth(cloth, lines);
        note_begun(a, cloth, of_material(a, &progress, cloths, cloth, app->side));
        progress.is_placed = progress.is_placed || cloth->seen_count > 0;
    }
    return progress;
}

const struct app_cloth_progress *app_progress_find(const struct app_progress *progress, enum pattern_cloth material)
{
    for (size_t i = 0; progress && i < progress->cloth_count; i++)
        if (progress->cloths[i].material == material && progress->cloths[i].cut)
            return &progress->cloths[i];
    return NULL;
}

static const bool *copy_of(struct arena *a, const bool *from, size_t count)
{
    bool *to = base_arena_alloc(a, count, sizeof *to);
    for (size_t i = 0; i < count; i++)
        to[i] = from[i];
    return to;
}

struct app_progress app_progress_copy(struct arena *a, const struct app_progress *from)
{
    struct app_progress to = *from;
    struct app_cut_progress *lines = base_arena_alloc(a, from->line_count, sizeof *lines);
    struct app_cloth_progress *cloths = base_arena_alloc(a, from->cloth_count, sizeof *cloths);
    for (size_t i = 0; i < from->line_count; i++)
        lines[i] = from->lines[i];
    for (size_t i = 0; i < from->cloth_count; i++) {
        cloths[i] = from->cloths[i];
        cloths[i].begun = copy_of(a, cloths[i].begun, cloths[i].item_count);
        cloths[i].done = copy_of(a, cloths[i].done, cloths[i].item_count);
        cloths[i].trouble = from->cloths[i].trouble ? base_arena_copy_text(a, from->cloths[i].trouble) : NULL;
    }
    to.lines = lines;
    to.cloths = cloths;
    to.outline.path = geometry_path_copy(a, from->outline.path);
    return to;
}

/* --- what may not be changed any more ----------------------------------------------------------------------------- */

static const struct err_kind pieces_stay = {
    "app.partly_cut", ERR_FAULT,
    BASE_TR("the {0} is partly cut: pattern, view, size, measurements and alterations stay as they are; make another "
            "ticket for others")
};
static const struct err_kind cloth_stays = {
    "app.partly_cut", ERR_FAULT,
    BASE_TR("the {0} is partly cut: that cloth and what is torn off it stay as they are; make another ticket for other "
            "cloth")
};

static bool has_same_cloth(struct arena *a, const struct job *was, const struct job *is, enum pattern_cloth material)
{
    const struct job_cloth *from = job_find_cloth(was, material), *to = job_find_cloth(is, material);
    return from && to && strcmp(job_print_cloth(a, from), job_print_cloth(a, to)) == 0;
}

bool app_progress_allows(const struct app_progress *progress, const struct job *was, const struct job *job,
                         struct err_list *errs)
{
    struct arena *a = base_arena_create();
    const struct err_kind *why = NULL;
    enum pattern_cloth material = PATTERN_FABRIC;
    for (size_t i = 0; progress && i < progress->cloth_count && !why; i++) {
        material = progress->cloths[i].material;
        if (progress->cloths[i].cut && strcmp(job_print_pieces(a, was), job_print_pieces(a, job)) != 0)
            why = &pieces_stay;
        else if (progress->cloths[i].cut && !has_same_cloth(a, was, job, material))
            why = &cloth_stays;
    }
    if (why)
        base_err(errs, why, base_err_in_file(NULL), ERR_TEXT(base_tr(pattern_cloth_name(material))));
    base_arena_destroy(a);
    return !why;
}
