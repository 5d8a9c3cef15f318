/* What is done with a piece besides cutting it, and how that is said. Where pieces are cut along the light, all of it
 * then; where all is chalked first, its outline, notches and marks are, and the rest is done when it is cut. */
#include "app/piece_marks.h"
#include "app/place_state.h"
#include "base/text.h"
#include "base/words.h"

static const struct lay_item *item_of(const struct app_place_cloth *c, const struct app_step *step)
{
    return &c->lay->task->items[step->item];
}

/* On the fold, and of pairs, there is a layer below. */
static bool is_doubled(const struct lay_item *item)
{
    return item->on_fold || item->copies > 1;
}

/* Of a piece longer than the light what is done once is done with its last part. */
static bool is_last_of_piece(const struct app_place_cloth *c, const struct app_step *step)
{
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].kind == step->kind && c->steps[i].item == step->item && c->steps[i].span > step->span)
            return false;
    return true;
}

static bool has_part(const struct app_place_cloth *c, const struct app_step *step, enum app_part part)
{
    const char *kinds[APP_MARK_KINDS];
    bool lamp = step->kind == APP_STEP_LAMP;
    if (part == APP_PART_CUT)
        return true;
    if ((step->kind != APP_STEP_CUT && !lamp) || !is_last_of_piece(c, step))
        return false;
    const struct lay_item *item = item_of(c, step);
    switch (part) {
    case APP_PART_NOTCHES:
        return app_snips(item->piece) > 0;
    case APP_PART_MARKS: /* chalked on the layer that lies up, the rest is left */
        return app_mark_kinds(item->piece, kinds) > 0 && (!lamp || is_doubled(item));
    case APP_PART_NAME:
        return lamp || !c->chalks_all;
    case APP_PART_CUT:
    case APP_PARTS:
        break;
    }
    return false;
}

enum app_part app_place_part_from(const struct app_place_cloth *c, const struct app_step *step, int part, int by)
{
    while (part >= 0 && part < APP_PARTS && !has_part(c, step, (enum app_part)part))
        part += by;
    return part >= 0 && part < APP_PARTS ? (enum app_part)part : APP_PARTS;
}

static const char *notches_text(const struct app_place_cloth *c, const struct app_step *step, const char *name,
                                struct arena *a)
{
    size_t count = app_snips(item_of(c, step)->piece);
    bool chalks = c->chalks_all && step->kind == APP_STEP_CUT;
    const char *form = chalks ? base_tr_count(count, "%s: chalk %zu notch", "%s: chalk %zu notches")
                              : base_tr_count(count, "%s: snip %zu notch", "%s: snip %zu notches");
    return base_arena_print(a, form, name, count);
}

static const char *marks_text(const struct app_place_cloth *c, const struct app_step *step, const char *name,
                              struct arena *a)
{
    const char *kinds[APP_MARK_KINDS];
    const char *what = base_text_list(a, kinds, app_mark_kinds(item_of(c, step)->piece, kinds), APP_MARK_KINDS);
    const char *form = step->kind == APP_STEP_LAMP    ? base_tr("%s: mark %s on the other layer")
                       : c->chalks_all                ? base_tr("%s: chalk %s")
                       : is_doubled(item_of(c, step)) ? base_tr("%s: mark %s on every layer")
                                                      : base_tr("%s: mark %s");
    return base_arena_print(a, form, name, what);
}

static const char *name_text(const struct app_place_cloth *c, const char *name, struct arena *a)
{
    const char *form = cloth_side_up(c->lay->task->cloth) ? base_tr("%s: wrong side and name on tape")
                                                          : base_tr("%s: its name on tape");
    return base_arena_print(a, form, name);
}

const char *app_place_part_text(const struct app_place_cloth *c, const struct app_step *step, struct arena *a)
{
    const char *name = step->part == APP_PART_CUT ? NULL : lay_item_name(a, c->lay->task, (size_t)step->item);
    switch (step->part) {
    case APP_PART_NOTCHES:
        return notches_text(c, step, name, a);
    case APP_PART_MARKS:
        return marks_text(c, step, name, a);
    case APP_PART_NAME:
        return name_text(c, name, a);
    case APP_PART_CUT:
    case APP_PARTS:
        break;
    }
    return NULL;
}
