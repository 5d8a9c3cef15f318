/* Stripes and checks: a piece's match line lies on a line of the cloth.
 *
 * A match line that runs across the grain is laid on the repeat along the cloth, one that runs with the grain on the
 * repeat across it; the middle of the line counts. Where none is drawn, what has to be alike has a line of its own:
 * right and left that are cut one by one the middle of their grain, and a piece that is opened out its fold. A repeat
 * that is even is its own mirror image in each of its lines, so that pieces which are turned round, and the upper of
 * two layers, match all the same: it is folded where they do (cloth/folds.c). */
#include "lay/match.h"

#include "lay/items.h"
#include "lay/sewn.h"

bool lay_is_one_way(const struct cloth *cloth)
{
    return cloth->one_way || cloth->repeat.uneven;
}

/* Where no match line says it. */
static void match_by_itself(const struct lay_task *task, const struct lay_item *item, struct lay_match *m)
{
    const struct piece_pt *grain = item->piece->grain;
    vec2 middle = { (grain[0].x + grain[1].x) / 2, (grain[0].y + grain[1].y) / 2 };
    if (item->by_grain && !m->has_along)
        m->along = middle;
    if (item->by_grain && !m->has_across)
        m->across = middle;
    if (item->by_fold && !m->has_across) {
        struct piece_pt fold = task->draft->pieces[task->draft->cuts[item->cut].piece].fold[0];
        m->across = (vec2){ fold.x, fold.y };
    }
    m->has_along = m->has_along || item->by_grain;
    m->has_across = m->has_across || item->by_grain || item->by_fold;
}

struct lay_match lay_match_of(const struct lay_task *task, const struct lay_item *item)
{
    struct lay_match m = { 0 };
    lay_own_match(item->piece, &m);
    const struct cloth_repeat *repeat = &task->spread.repeat;
    if (!m.has_along && repeat->along_mm > 0)
        m.has_along = lay_sewn_match(task, item->piece, &m.along);
    match_by_itself(task, item, &m);
    m.has_along = m.has_along && repeat->along_mm > 0;
    m.has_across = m.has_across && repeat->across_mm > 0;
    return m;
}

struct packing_range lay_lines_along(const struct lay_task *task)
{
    const struct cloth_repeat *r = &task->spread.repeat;
    return (struct packing_range){ .first = r->line_along_mm, .step = r->along_mm };
}

struct packing_range lay_lines_across(const struct lay_task *task)
{
    const struct cloth_repeat *r = &task->spread.repeat;
    return (struct packing_range){ .first = r->line_across_mm, .step = r->across_mm };
}
