/* Stripes and checks: a piece's match line lies on a line of the cloth.
 *
 * A match line that runs across the grain is laid on the repeat along the cloth, one that runs with the grain on the
 * repeat across it; the middle of the line counts. A repeat that is even is its own mirror image in each of its lines,
 * so that pieces which are turned round, and the upper of two layers, match all the same. Through two layers the lines
 * match where the fold lies on one of them: lines are counted from the fold then, and it is told to fold there. */
#include "lay/match.h"

#include "lay/items.h"
#include "lay/sewn.h"

bool lay_is_one_way(const struct cloth *cloth)
{
    return cloth->one_way || cloth->repeat.uneven;
}

struct lay_match lay_match_of(const struct lay_task *task, const struct lay_item *item)
{
    struct lay_match m = { 0 };
    lay_own_match(item->piece, &m);
    const struct cloth_repeat *repeat = &task->cloth->repeat;
    if (!m.has_along && repeat->along_mm > 0)
        m.has_along = lay_sewn_match(task, item->piece, &m.along);
    m.has_along = m.has_along && repeat->along_mm > 0;
    m.has_across = m.has_across && repeat->across_mm > 0;
    return m;
}

/* The corner of a scrap's box is where the cloth begins. */
static vec2 origin_of(const struct cloth *cloth)
{
    return cloth->outline.path.count ? geometry_path_box(cloth->outline.path).min : (vec2){ 0, 0 };
}

struct packing_range lay_lines_along(const struct lay_task *task)
{
    const struct cloth_repeat *r = &task->cloth->repeat;
    return (struct packing_range){ .first = r->line_along_mm - origin_of(task->cloth).x, .step = r->along_mm };
}

struct packing_range lay_lines_across(const struct lay_task *task, const struct cloth_band *band)
{
    const struct cloth_repeat *r = &task->cloth->repeat;
    double first = band->fold_at_to ? band->to_mm : 0; /* the fold that the band hangs on */
    if (task->cloth->spread == CLOTH_SINGLE || task->cloth->spread == CLOTH_FOLDED_ACROSS)
        first = r->line_across_mm - origin_of(task->cloth).y;
    return (struct packing_range){ .first = first, .step = r->across_mm };
}
