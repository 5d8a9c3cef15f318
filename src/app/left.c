/* What is left to be done, as a page of the table: piece by piece, where it lies. */
#include "app/place.h"
#include "app/place_state.h"
#include "app/torn.h"
#include "base/words.h"
#include "export/list_words.h"

enum { MOST_LINES = 26 /* that stand on a page in letters to be read from a metre away */ };

struct list {
    const struct app *app;
    struct arena *a;
    struct scene_help_line *lines;
    size_t count, more;
    size_t copies; /* in pieces: one cut through two layers gives two */
};

static void add(struct list *list, const char *name, size_t copies, const char *what)
{
    list->copies += copies;
    if (list->count == MOST_LINES)
        list->more += copies;
    else
        list->lines[list->count++] = (struct scene_help_line){ name, what };
}

static void add_item(struct list *list, const struct app_place_cloth *c, size_t item, const char *what)
{
    const struct lay_task *task = c->lay->task;
    add(list, lay_item_name(list->a, task, item), (size_t)task->items[item].copies, what);
}

/* "2 × torn off first, 12 × 140 cm · fabric". */
static void add_torn(struct list *list, const struct app_place_cloth *c)
{
    const struct export_words words = { list->a, list->app->unit, 8, false };
    const struct tearing_plan *torn = c->torn;
    for (size_t i = 0; i < torn->need_count; i++) {
        const struct tearing_need *need = &torn->needs[i];
        const char *size = export_extent_text(&words, (struct export_extent){ need->width_mm, need->height_mm });
        const char *what = base_arena_print(list->a, base_tr("%d × torn off first, %s · %s"), need->count, size,
                                            base_tr(pattern_cloth_name(torn->task->material)));
        add(list, app_torn_part_name(list->a, need), need->is_rest ? 0 : (size_t)need->pieces, what);
    }
}

/* Over both columns, the first of all. */
static const char *head_of(const struct list *list)
{
    const char *form = base_tr_count(list->copies, "%zu piece is left to be cut", "%zu pieces are left to be cut");
    if (list->copies)
        return base_arena_print(list->a, form, list->copies);
    return list->app->place ? base_tr("Nothing is left") : base_tr("Without a layout nothing is ticked off");
}

static bool is_open(const struct app_step *step, enum app_step_kind kind, int item)
{
    return step->kind == kind && step->item == item && !step->done;
}

/* The last section that something of it is left to be cut in. */
static size_t last_section(const struct app_place_cloth *c, const struct app_step *step)
{
    size_t last = step->span;
    for (size_t i = 0; i < c->step_count; i++)
        if (is_open(&c->steps[i], step->kind, step->item) && c->steps[i].span > last)
            last = c->steps[i].span;
    return last;
}

/* "Both layers, fabric": with its section, where that is not the only one. */
static const char *where(const struct list *list, const struct app_place_cloth *c, const struct app_step *step)
{
    const char *copies = app_place_copies(list->a, c, step->item), *cloth = app_place_name(list->a, c);
    if (step->kind == APP_STEP_LAMP || c->plan.count < 2)
        return base_arena_print(list->a, base_tr("%s · %s"), copies, cloth);
    size_t last = last_section(c, step);
    if (last > step->span)
        return base_arena_print(list->a, base_tr("%s · %s, sections %zu to %zu of %zu"), copies, cloth, step->span + 1,
                                last + 1, c->plan.count);
    return base_arena_print(list->a, base_tr("%s · %s, section %zu of %zu"), copies, cloth, step->span + 1,
                            c->plan.count);
}

/* What reaches over several sections has a step in each, and is one piece. */
static bool is_first(const struct app_place_cloth *c, size_t step, enum app_step_kind kind)
{
    size_t i = 0;
    while (i < step && !is_open(&c->steps[i], kind, c->steps[step].item))
        i++;
    return i == step;
}

/* Where all is chalked first, what is chalked and what is not is both still to be cut. */
static void add_cloth(struct list *list, const struct app_place_cloth *c)
{
    enum app_step_kind kind = c->chalks_all ? APP_STEP_LAMP : APP_STEP_CUT;
    if (app_place_is_to_tear(c))
        add_torn(list, c);
    for (size_t i = 0; i < c->step_count; i++)
        if (is_open(&c->steps[i], kind, c->steps[i].item) && is_first(c, i, kind))
            add_item(list, c, (size_t)c->steps[i].item, where(list, c, &c->steps[i]));
    for (size_t i = 0; i < c->lay->task->item_count; i++)
        if (!c->lay->places[i].is_laid)
            add_item(list, c, i, base_tr("has no place on its cloth"));
}

size_t app_left_lines(const struct app *app, struct arena *a, const struct scene_help_line **out)
{
    struct list list = {
        .app = app, .a = a, .lines = base_arena_alloc(a, MOST_LINES + 1, sizeof *list.lines), .count = 1
    };
    for (size_t i = 0; app->place && i < app->place->count; i++)
        add_cloth(&list, &app->place->cloths[i]);
    if (list.more)
        list.lines[list.count++].what =
            base_arena_print(a, base_tr_count(list.more, "and %zu piece more", "and %zu pieces more"), list.more);
    list.lines[0].what = head_of(&list);
    *out = list.lines;
    return list.count;
}

static struct app_effects run_left(struct app *app, double unused)
{
    (void)unused;
    app->mode = app->mode == SCENE_LIST ? SCENE_PIECES : SCENE_LIST;
    return (struct app_effects){ .redraw = true };
}

const struct app_action app_act_left = { BASE_TR("what is left to be cut, and where it lies"),
                                         APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT, run_left };
