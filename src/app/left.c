/* What is left to be done, as a page of the table: piece by piece, where it lies. */
#include "app/place.h"
#include "app/place_state.h"
#include "base/words.h"

enum { MOST_LINES = 26 /* that stand on a page in letters to be read from a metre away */ };

struct list {
    const struct app *app;
    struct arena *a;
    struct scene_help_line *lines;
    size_t count, more;
    size_t copies; /* in pieces: one cut through two layers gives two */
};

static void add(struct list *list, const struct app_place_cloth *c, size_t item, const char *what)
{
    size_t copies = (size_t)c->lay->task->items[item].copies;
    list->copies += copies;
    if (list->count == MOST_LINES)
        list->more += copies;
    else
        list->lines[list->count++] = (struct scene_help_line){ lay_item_name(list->a, c->lay->task, item), what };
}

/* Over both columns, the first of all. */
static const char *head_of(const struct list *list)
{
    const char *form = base_tr_count(list->copies, "%zu piece is left to be cut", "%zu pieces are left to be cut");
    if (list->copies)
        return base_arena_print(list->a, form, list->copies);
    return list->app->place ? base_tr("Nothing is left") : base_tr("Without a layout nothing is ticked off");
}

/* "Both layers, fabric": with its section, where that is not the only one. */
static const char *where(const struct list *list, const struct app_place_cloth *c, const struct app_step *step)
{
    const char *copies = app_place_copies(list->a, c, step->item), *cloth = app_place_name(list->a, c);
    if (step->kind == APP_STEP_LAMP || c->plan.count < 2)
        return base_arena_print(list->a, base_tr("%s · %s"), copies, cloth);
    return base_arena_print(list->a, base_tr("%s · %s, section %zu of %zu"), copies, cloth, step->span + 1,
                            c->plan.count);
}

/* Where all is chalked first, what is chalked and what is not is both still to be cut. */
static void add_cloth(struct list *list, const struct app_place_cloth *c)
{
    enum app_step_kind kind = c->chalks_all ? APP_STEP_LAMP : APP_STEP_CUT;
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].kind == kind && !c->steps[i].done)
            add(list, c, (size_t)c->steps[i].item, where(list, c, &c->steps[i]));
    for (size_t i = 0; i < c->lay->task->item_count; i++)
        if (!c->lay->places[i].is_laid)
            add(list, c, i, base_tr("has no place on its cloth"));
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
