/* What of a layout is cut, and what is left of it to be cut. */
#include "app/place_state.h"

#include <math.h>

double app_place_cut_to(const struct app_place_cloth *c, size_t item)
{
    double to = c->earlier ? c->earlier->cut_to_mm[item] : -INFINITY;
    size_t done = 0, open = 0;
    for (size_t i = 0; i < c->step_count; i++) {
        if (c->steps[i].kind != APP_STEP_CUT || c->steps[i].item != (int)item)
            continue;
        if (c->steps[i].done)
            to = fmax(to, c->plan.spans[c->steps[i].span].to_mm);
        else if (c->steps[i].part > APP_PART_CUT)
            to = fmax(to, APP_PLACE_BEGUN_MM);
        done += c->steps[i].done;
        open += !c->steps[i].done;
    }
    return done && !open ? (double)INFINITY : to;
}

bool app_place_is_cut(const struct app_place_cloth *c, size_t item)
{
    if (!c->chalks_all)
        return app_place_cut_to(c, item) == INFINITY;
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].kind == APP_STEP_LAMP && c->steps[i].item == (int)item && c->steps[i].done)
            return true;
    return false;
}

/* What of an outline lies beyond a line across the cloth, or before it. */
static struct cloth_path part_of(struct arena *a, struct cloth_path outline, double line_mm, bool beyond)
{
    struct geometry_path from = outline.path, to = { base_arena_alloc(a, 2 * from.count, sizeof(vec2)), 0, true };
    double way = beyond ? 1 : -1;
    for (size_t i = 0; i < from.count; i++) {
        vec2 p = from.points[i], q = from.points[(i + 1) % from.count];
        double p_in = way * (p.x - line_mm), q_in = way * (q.x - line_mm);
        if (p_in >= 0)
            to.points[to.count++] = p;
        if ((p_in > 0 && q_in < 0) || (p_in < 0 && q_in > 0))
            to.points[to.count++] = (vec2){ line_mm, p.y + (q.y - p.y) * (line_mm - p.x) / (q.x - p.x) };
    }
    if (to.count < 3)
        to.count = 0;
    return (struct cloth_path){ to };
}

static bool has_step(const struct app_place_cloth *c, size_t item)
{
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].kind == APP_STEP_CUT && c->steps[i].item == (int)item && !c->steps[i].done)
            return true;
    return false;
}

struct spans_cloth app_place_to_cut(struct arena *a, const struct app_place_cloth *c, bool all)
{
    const struct lay_task *task = c->lay->task;
    const struct cloth_spread *spread = &task->spread;
    struct cloth_path *left = base_arena_alloc(a, task->item_count, sizeof *left);
    struct cloth_path *blocked = base_arena_alloc(a, spread->blocked_count + task->item_count, sizeof *blocked);
    size_t blocked_count = 0;
    for (; blocked_count < spread->blocked_count; blocked_count++)
        blocked[blocked_count] = spread->blocked[blocked_count];
    for (size_t i = 0; i < task->item_count; i++) {
        if (!c->lay->places[i].is_laid)
            continue;
        struct cloth_path outline = lay_outline(a, task, i, &c->lay->places[i]);
        double cut_to = app_place_cut_to(c, i);
        bool wanted = (all || has_step(c, i)) && cut_to < INFINITY;
        if (wanted)
            left[i] = cut_to > -INFINITY ? part_of(a, outline, cut_to, true) : outline;
        struct cloth_path gone = wanted ? part_of(a, outline, cut_to, false) : outline;
        if (gone.path.count)
            blocked[blocked_count++] = gone;
    }
    const struct app_chalk *chalk;
    int chalk_count = app_place_all_chalk(a, c, &chalk);
    struct cloth_pt *chalked = base_arena_alloc(a, (size_t)chalk_count, sizeof *chalked);
    for (int i = 0; i < chalk_count; i++)
        chalked[i] = chalk[i].at;
    double length = spread->most_length_mm > 0 ? spread->most_length_mm : c->lay->length_mm;
    return (struct spans_cloth){ .outlines = left,
                                 .count = task->item_count,
                                 .blocked = blocked,
                                 .blocked_count = blocked_count,
                                 .width_mm = spread->width_mm,
                                 .length_mm = length,
                                 .chalked = chalked,
                                 .chalked_count = (size_t)chalk_count };
}
