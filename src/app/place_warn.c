/* What of a layout must not be forgotten: a block that is fused before anything is cut; and what is not cut by it,
 * pieces without a place on the cloth, and pieces that lie over each other. */
#include "app/amount.h"
#include "app/block.h"
#include "app/lay_words.h"
#include "app/place.h"
#include "app/place_state.h"
#include "base/text.h"
#include "base/words.h"

#include <math.h>

enum { MOST_NAMED = 3 };

#define OVER_MM 0.5 /* less, and scissors tell no difference; our own choice */

/* What the gap between pieces asks for beyond that is no harm when they are cut. */
void app_place_find_overlaps(struct app *app, struct app_place_cloth *cloth)
{
    const struct lay_finding *findings;
    size_t count = lay_judge(app->a, cloth->lay, &findings);
    double gap = cloth->lay->task->cloth->gap_mm;
    struct lay_finding *over = base_arena_alloc(app->a, count, sizeof *over);
    cloth->overlap_count = 0;
    for (size_t i = 0; i < count; i++) {
        if (findings[i].fault != LAY_OVERLAP || findings[i].amount - gap < OVER_MM)
            continue;
        over[cloth->overlap_count] = findings[i];
        over[cloth->overlap_count++].amount -= gap;
    }
    cloth->overlaps = over;
}

bool app_place_overlaps(const struct app_place_cloth *cloth, int item)
{
    for (size_t i = 0; i < cloth->overlap_count; i++)
        if (cloth->overlaps[i].item == item || cloth->overlaps[i].other == item)
            return true;
    return false;
}

const char *app_place_amount(const struct app *app, struct arena *a, double mm)
{
    char text[UNITS_TEXT];
    double told = app->unit == UNITS_IN ? units_to_sixteenth(mm, app->unit) : round(10 * mm) / 10;
    return base_arena_print(a, "%s", units_print_length(text, told, app->unit));
}

static const char *left_out_names(const struct app_place_cloth *c, struct arena *a, size_t *count)
{
    const char **names = base_arena_alloc(a, c->lay->task->item_count, sizeof *names);
    *count = 0;
    for (size_t i = 0; i < c->lay->task->item_count; i++)
        if (!c->lay->places[i].is_laid)
            names[(*count)++] = lay_item_name(a, c->lay->task, i);
    return base_text_list(a, names, *count, MOST_NAMED);
}

static const char *left_out_text(const struct app_place_cloth *c, struct arena *a)
{
    size_t count;
    const char *names = left_out_names(c, a, &count);
    if (!count)
        return NULL;
    return base_arena_print(
        a,
        base_tr_count(count, "%s has no place on this cloth: arrange it, or cut it by itself (L)",
                      "%s have no place on this cloth: arrange them, or cut them by themselves (L)"),
        names);
}

static const char *overlap_text(const struct app *app, const struct app_place_cloth *c, struct arena *a)
{
    const struct lay_finding *worst = c->overlaps;
    const char *item = lay_item_name(a, c->lay->task, (size_t)worst->item);
    const char *other = lay_item_name(a, c->lay->task, (size_t)worst->other);
    const char *amount = app_place_amount(app, a, worst->amount);
    if (c->overlap_count == 1)
        return base_arena_print(a, base_tr("%s lies over %s by %s: not cut here, arrange them first"), item, other,
                                amount);
    return base_arena_print(a, base_tr("%s lies over %s by %s, and %zu more such: not cut here, arrange them first"),
                            item, other, amount, c->overlap_count - 1);
}

static bool is_laid_out(const struct app *app, enum pattern_cloth material)
{
    for (size_t i = 0; i < app->place->count; i++)
        if (app->place->cloths[i].lay->task->material == material)
            return true;
    return false;
}

const char *app_place_not_laid_out(const struct app *app)
{
    for (size_t i = 0; i < app->draft.cut_count; i++)
        if (!is_laid_out(app, app->draft.cuts[i].cloth))
            return base_tr(pattern_cloth_name(app->draft.cuts[i].cloth));
    return NULL;
}

static const char *fuse_text(const struct app *app, const struct app_place_cloth *c, struct arena *a)
{
    struct lay_block block = lay_block_of(c->lay);
    if (!block.count)
        return NULL;
    const char *where = app_block_where(a, c->lay, &block, app->unit);
    const char *words = app_block_words(a, &block, app->unit);
    if (!is_laid_out(app, PATTERN_INTERFACING))
        return base_arena_print(a, base_tr("Fuse its block first, %s: %s"), where, words);
    return base_arena_print(
        a,
        /* To: “Fuse its block first, on the wrong side, …: one piece of interfacing, …, which is cut before (N)” */
        base_tr_count((size_t)block.count, "Fuse its block first, %s: %s, which is cut before (N)",
                      "Fuse its block first, %s: %s, which are cut before (N)"),
        where, words);
}

static const char *torn_text(const struct app *app, const struct app_place_cloth *c, struct arena *a)
{
    const struct tearing_plan *torn = c->torn;
    if (!app_place_is_to_tear(c))
        return NULL;
    const char **names = base_arena_alloc(a, torn->need_count, sizeof *names);
    for (size_t i = 0; i < torn->need_count; i++)
        names[i] = base_arena_print(a, "%d × %s", torn->needs[i].count, app_torn_part_name(a, &torn->needs[i]));
    return base_arena_print(a, base_tr("Tear off first %s, which takes %s of this cloth (I tells the sizes)"),
                            base_text_list(a, names, torn->need_count, MOST_NAMED),
                            app_lay_length(a, torn->length_mm, app->unit));
}

/* Before anything of a section is done, and where what is cut leaves it room. */
static const char *doubt_notice(const struct app *app, const struct app_place_cloth *c, struct arena *a)
{
    if (c->stage != APP_PLACE_CUT || app_place_needs_notice_side(app))
        return NULL;
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].span == c->span && (c->steps[i].done || c->steps[i].part > APP_PART_CUT))
            return NULL;
    return app_place_doubt_warning(app, c, a);
}

const char *app_place_doubt_kept(const struct app *app, struct arena *a)
{
    const struct app_place_cloth *c = app_place_now(app);
    if (c->stage != APP_PLACE_CUT || !app_place_doubt_warning(app, c, a))
        return NULL;
    return base_arena_print(a, base_tr("may be off by %s"), app_mm(a, app_place_doubt_mm(app, c)));
}

bool app_place_is_cutting(const struct app *app)
{
    return app_place_is_shown(app) && app_place_now(app)->stage == APP_PLACE_CUT;
}

/* At the beginning and at the end; in between those over each other are hatched. */
const char *app_place_notice(const struct app *app, struct arena *frame)
{
    const struct app_place_cloth *c = app_place_now(app);
    bool ends = c->stage == APP_PLACE_LINES || c->stage == APP_PLACE_DONE;
    const char *over = ends && c->overlap_count ? overlap_text(app, c, frame) : NULL;
    const char *left_out = ends ? left_out_text(c, frame) : NULL;
    const char *fuse = c->stage == APP_PLACE_LINES ? fuse_text(app, c, frame) : NULL;
    const char *const all[] = { torn_text(app, c, frame), fuse, over, left_out, doubt_notice(app, c, frame) };
    const char *text = NULL;
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (all[i])
            text = text ? base_arena_print(frame, "%s. %s", text, all[i]) : all[i];
    return text;
}

bool app_place_is_whole(const struct app_place_cloth *cloth)
{
    return !cloth->lay->left_out && !cloth->overlap_count;
}
