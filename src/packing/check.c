/* Why a problem has no lay at all. */
#include "packing/nofit.h"
#include "packing/task.h"

struct checking {
    struct arena *arena;   /* the task's */
    struct arena *scratch; /* empty between questions */
    const struct task *task;
    const struct packing_problem *problem;
};

/* As it was given: the task's may be simpler and so larger. */
static struct geometry_path outline_of(const struct checking *c, int shape)
{
    size_t i = (size_t)shape, count = c->problem->shape_count;
    return i < count ? c->problem->shapes[i].outline : c->problem->blocked[i - count];
}

/* Lowest shift along the strip at which a shape that fits across lies within the most length; false: there is none. */
static bool fits_along(const struct task *t, const struct task_shape *s)
{
    return !(t->most_length > 0) || task_last_along(s, t->most_length + t->slack) >= s->along.first;
}

static enum packing_refusal check_size(const struct task *t, size_t item)
{
    bool fits_across = false;
    for (size_t k = 0; k < t->items[item].as_count; k++) {
        const struct task_shape *s = &t->shapes[t->items[item].as[k]];
        if (!s->across_count)
            continue;
        fits_across = true;
        if (fits_along(t, s))
            return PACKING_CAN_BE_LAID;
    }
    return fits_across ? PACKING_TOO_LONG : PACKING_TOO_WIDE;
}

static bool may_be(const struct packing_item *item, int shape)
{
    for (size_t k = 0; k < item->as_count; k++)
        if (item->as[k] == shape)
            return true;
    return false;
}

static enum packing_refusal check_pin(const struct task *t, size_t item)
{
    struct packing_place pin = t->pinned[item];
    if (!may_be(&t->items[item], pin.shape))
        return PACKING_PINNED_OUTSIDE;
    const struct task_shape *s = &t->shapes[pin.shape];
    bool in_time = !(t->most_length > 0) || task_end(s, pin.shift.x) <= t->most_length + t->slack;
    return in_time && task_allows(t, s, pin.shift) ? PACKING_CAN_BE_LAID : PACKING_PINNED_OUTSIDE;
}

static bool overlap(struct checking *c, struct packing_place a, struct packing_place b)
{
    base_arena_reset(c->scratch);
    return packing_depth(c->scratch, outline_of(c, a.shape), a.shift, outline_of(c, b.shape), b.shift, NULL) > 0;
}

static bool find_pinned_overlap(struct checking *c, size_t item, int *other)
{
    const struct task *t = c->task;
    for (size_t k = item + 1; k < task_all(t); k++) {
        if (t->pinned[k].shape == PACKING_NONE || !overlap(c, t->pinned[item], t->pinned[k]))
            continue;
        *other = k < t->item_count ? (int)k : PACKING_NONE;
        return true;
    }
    return false;
}

/* What a shape may not lie over: places at which it would overlap, with the shifts they are seen from. */
struct obstacles {
    struct nofit *nofits;
    vec2 *at;
    size_t count;
};

static struct obstacles obstacles_of(struct checking *c, int shape)
{
    const struct task *t = c->task;
    struct obstacles o = { .nofits = base_arena_alloc(c->scratch, task_all(t), sizeof *o.nofits),
                           .at = base_arena_alloc(c->scratch, task_all(t), sizeof *o.at) };
    for (size_t i = 0; i < task_all(t); i++) {
        if (t->pinned[i].shape == PACKING_NONE)
            continue;
        o.at[o.count] = t->pinned[i].shift;
        o.nofits[o.count++] = nofit_of(c->scratch, c->scratch, outline_of(c, t->pinned[i].shape), outline_of(c, shape));
    }
    return o;
}

static bool is_free(const struct task *t, const struct task_shape *s, const struct obstacles *o, vec2 shift)
{
    if (!task_allows(t, s, shift) || task_end(s, shift.x) > t->most_length + t->slack)
        return false;
    for (size_t i = 0; i < o->count; i++)
        if (nofit_depth(&o->nofits[i], vec2_sub(shift, o->at[i]), NULL) > 0)
            return false;
    return true;
}

/* The lowest shift along the strip where a shape that lies at y is free, or NAN: from the start on, past one obstacle
 * after the other. */
static bool row_has_room(struct checking *c, const struct task_shape *s, const struct obstacles *o, double y)
{
    const struct task *t = c->task;
    double last = task_last_along(s, t->most_length + t->slack);
    if (s->along.step > 0) {
        for (double x = s->along.first; x <= last; x += s->along.step)
            if (is_free(t, s, o, (vec2){ x, y }))
                return true;
        return false;
    }
    if (is_free(t, s, o, (vec2){ s->along.first, y }) || is_free(t, s, o, (vec2){ last, y }))
        return true;
    for (size_t i = 0; i < o->count; i++)
        for (size_t k = 0; k < o->nofits[i].count; k++) {
            const struct convolution_edge *e = &o->nofits[i].edges[k];
            double from = e->from.y + o->at[i].y - y, to = e->to.y + o->at[i].y - y;
            if ((from > 0 && to > 0) || (from < 0 && to < 0))
                continue;
            vec2 meet = vec2_lerp(e->from, e->to, from != to ? from / (from - to) : 0);
            if (is_free(t, s, o, (vec2){ meet.x + o->at[i].x, y }))
                return true;
        }
    return false;
}

/* Rows where room may begin: the ends of the ranges and the corners of the obstacles; between two of them room only
 * shrinks or grows steadily, so that the rows between neighbours need not be looked at, but for what lies between two
 * obstacles, whose crossings are rows as well. */
static bool crossing(const struct obstacles *o, size_t i, size_t k, size_t j, size_t l, double *y)
{
    const struct convolution_edge *e = &o->nofits[i].edges[k], *f = &o->nofits[j].edges[l];
    vec2 from = vec2_add(e->from, o->at[i]), other = vec2_add(f->from, o->at[j]);
    vec2 r = vec2_sub(e->to, e->from), s = vec2_sub(f->to, f->from);
    double sine = vec2_cross(r, s);
    if (sine == 0)
        return false;
    double at = vec2_cross(vec2_sub(other, from), s) / sine, on = vec2_cross(vec2_sub(other, from), r) / sine;
    *y = from.y + at * r.y;
    return at >= 0 && at <= 1 && on >= 0 && on <= 1;
}

static bool corner_rows_have_room(struct checking *c, const struct task_shape *s, const struct obstacles *o)
{
    double y;
    for (size_t i = 0; i < o->count; i++)
        for (size_t k = 0; k < o->nofits[i].count; k++) {
            if (row_has_room(c, s, o, o->nofits[i].edges[k].from.y + o->at[i].y))
                return true;
            for (size_t j = i + 1; j < o->count; j++)
                for (size_t l = 0; l < o->nofits[j].count; l++)
                    if (crossing(o, i, k, j, l, &y) && row_has_room(c, s, o, y))
                        return true;
        }
    return false;
}

static bool shape_has_room(struct checking *c, int shape)
{
    const struct task_shape *s = &c->task->shapes[shape];
    base_arena_reset(c->scratch);
    if (!s->across_count || !fits_along(c->task, s))
        return false;
    struct obstacles o = obstacles_of(c, shape);
    bool free_between = false;
    for (size_t i = 0; i < s->across_count; i++) {
        const struct packing_range *r = &s->across[i];
        double step = r->step > 0 ? r->step : r->last - r->first;
        for (double y = r->first; y <= r->last; y += step) {
            if (row_has_room(c, s, &o, y))
                return true;
            if (!(step > 0))
                break;
        }
        free_between = free_between || (!(r->step > 0) && r->last > r->first);
    }
    return free_between && corner_rows_have_room(c, s, &o);
}

static bool has_room(struct checking *c, size_t item)
{
    const struct task *t = c->task;
    bool obstacles = t->blocked_count > 0;
    for (size_t i = 0; i < t->item_count; i++)
        obstacles = obstacles || t->pinned[i].shape != PACKING_NONE;
    if (!(t->most_length > 0) || !obstacles)
        return true;
    for (size_t k = 0; k < t->items[item].as_count; k++)
        if (shape_has_room(c, t->items[item].as[k]))
            return true;
    return false;
}

static enum packing_refusal check_item(struct checking *c, size_t item, int *other)
{
    const struct task *t = c->task;
    if (t->pinned[item].shape == PACKING_NONE) {
        enum packing_refusal size = check_size(t, item);
        return size != PACKING_CAN_BE_LAID || has_room(c, item) ? size : PACKING_NO_ROOM;
    }
    enum packing_refusal pin = check_pin(t, item);
    if (pin == PACKING_CAN_BE_LAID && find_pinned_overlap(c, item, other))
        return PACKING_PINNED_OVERLAP;
    return pin;
}

enum packing_refusal packing_check(const struct packing_problem *problem, int *item, int *other)
{
    struct checking c = { base_arena_create(), base_arena_create(), NULL, problem };
    c.task = task_of(c.arena, problem);
    enum packing_refusal refusal = PACKING_CAN_BE_LAID;
    *item = *other = PACKING_NONE;
    for (size_t i = 0; i < problem->item_count && refusal == PACKING_CAN_BE_LAID; i++) {
        refusal = check_item(&c, i, other);
        if (refusal != PACKING_CAN_BE_LAID)
            *item = (int)i;
    }
    base_arena_destroy(c.scratch);
    base_arena_destroy(c.arena);
    return refusal;
}
