#include "packing/task.h"

#include "packing/simplify.h"

/* Of the strip's width. Sums of coordinates are off by a few 1e-16 of it. */
#define SLACK 1e-9

/* The part of a range from lo to hi; false when nothing is left. */
static bool clip_range(struct packing_range *r, double lo, double hi, double slack)
{
    if (r->last < lo - slack || r->first > hi + slack || hi < lo - slack)
        return false;
    hi = fmax(hi, lo);
    if (!(r->step > 0)) {
        r->first = fmin(fmax(r->first, lo), hi);
        r->last = fmin(fmax(r->last, r->first), hi);
        return true;
    }
    double from = fmax(ceil((lo - slack - r->first) / r->step), 0);
    double to = floor((fmin(hi, r->last) + slack - r->first) / r->step);
    double first = r->first;
    r->first = first + from * r->step;
    r->last = first + to * r->step;
    return to >= from;
}

static void set_across(struct arena *a, struct task_shape *s, const struct packing_shape *from, double width,
                       double slack)
{
    static const struct packing_range anywhere = { -INFINITY, INFINITY, 0 };
    const struct packing_range *ranges = from->across_count ? from->across : &anywhere;
    size_t count = from->across_count ? from->across_count : 1;
    s->across = base_arena_alloc(a, count, sizeof *s->across);
    for (size_t i = 0; i < count; i++) {
        struct packing_range range = ranges[i];
        if (clip_range(&range, -s->box.min.y, width - s->box.max.y, slack))
            s->across[s->across_count++] = range;
    }
}

static void set_along(struct task_shape *s, struct packing_range along, double slack)
{
    double lowest = -s->box.min.x;
    s->along = (struct packing_range){ .first = lowest, .step = along.step > 0 ? along.step : 0 };
    if (along.step > 0)
        s->along.first = along.first + ceil((lowest - slack - along.first) / along.step) * along.step;
}

static void set_shape(struct arena *a, struct task *t, struct task_shape *s, const struct packing_shape *from)
{
    s->outline = simplify_outwards(a, geometry_path_copy(a, from->outline));
    s->box = geometry_path_box(from->outline);
    s->area = geometry_path_area(from->outline);
    set_across(a, s, from, t->width, t->slack);
    set_along(s, from->along, t->slack);
}

/* Whether both are there and point for point each other, turned, but for rounding. */
static bool are_half_turns(const struct task *t, int a, int b)
{
    if (a < 0 || b < 0 || (size_t)a >= t->shape_count || (size_t)b >= t->shape_count)
        return false;
    struct geometry_path p = t->shapes[a].outline, q = t->shapes[b].outline;
    bool same = p.count == q.count;
    for (size_t i = 0; i < p.count && same; i++)
        same = vec2_length(vec2_add(p.points[i], q.points[i])) <= t->slack * 1e-2;
    return same;
}

/* A hint that does not hold is not followed. */
static void set_half_turns(struct task *t, const struct packing_problem *p)
{
    for (size_t i = 0; i < p->shape_count; i++) {
        int half = p->shapes[i].half_turn;
        bool mutual = half >= 0 && (size_t)half < p->shape_count && p->shapes[half].half_turn == (int)i;
        t->shapes[i].half_turn = mutual && are_half_turns(t, (int)i, half) ? half : PACKING_NONE;
    }
}

static void set_item(struct arena *a, struct packing_item *item, const int *as, size_t count)
{
    int *copy = base_arena_alloc(a, count, sizeof *copy);
    for (size_t i = 0; i < count; i++)
        copy[i] = as[i];
    *item = (struct packing_item){ copy, count };
}

static void set_blocked(struct arena *a, struct task *t, const struct packing_problem *p, size_t i)
{
    int shape = (int)(p->shape_count + i);
    struct task_shape *s = &t->shapes[shape];
    s->outline = simplify_outwards(a, geometry_path_copy(a, p->blocked[i]));
    s->box = geometry_path_box(p->blocked[i]);
    s->area = geometry_path_area(s->outline);
    s->half_turn = PACKING_NONE;
    set_item(a, &t->items[p->item_count + i], &shape, 1);
    t->pinned[p->item_count + i] = (struct packing_place){ .shape = shape };
}

struct task *task_of(struct arena *a, const struct packing_problem *p)
{
    struct task *t = base_arena_alloc(a, 1, sizeof *t);
    t->width = p->width;
    t->most_length = p->most_length;
    t->slack = SLACK * p->width;
    t->shape_count = p->shape_count + p->blocked_count;
    t->item_count = p->item_count;
    t->blocked_count = p->blocked_count;
    t->shapes = base_arena_alloc(a, t->shape_count, sizeof *t->shapes);
    t->items = base_arena_alloc(a, task_all(t), sizeof *t->items);
    t->pinned = base_arena_alloc(a, task_all(t), sizeof *t->pinned);
    for (size_t i = 0; i < p->shape_count; i++)
        set_shape(a, t, &t->shapes[i], &p->shapes[i]);
    set_half_turns(t, p);
    for (size_t i = 0; i < p->item_count; i++) {
        set_item(a, &t->items[i], p->items[i].as, p->items[i].as_count);
        t->pinned[i] = p->pinned ? p->pinned[i] : (struct packing_place){ .shape = PACKING_NONE };
    }
    for (size_t i = 0; i < p->blocked_count; i++)
        set_blocked(a, t, p, i);
    return t;
}

size_t task_all(const struct task *t)
{
    return t->item_count + t->blocked_count;
}

double task_area(const struct task *t, size_t item)
{
    return t->shapes[t->items[item].as[0]].area;
}

static double nearest_in(const struct packing_range *r, double at)
{
    if (r->step > 0)
        at = r->first + floor((at - r->first) / r->step + 0.5) * r->step;
    at = at > r->first ? at : r->first; /* fmin and fmax are calls, and this is asked often */
    return at < r->last ? at : r->last;
}

double task_nearest_across(const struct task_shape *s, double y)
{
    double best = y, least = INFINITY;
    for (size_t i = 0; i < s->across_count; i++) {
        double at = nearest_in(&s->across[i], y);
        if (fabs(at - y) < least) {
            least = fabs(at - y);
            best = at;
        }
    }
    return best;
}

double task_last_along(const struct task_shape *s, double length)
{
    double last = length - s->box.max.x;
    if (!(s->along.step > 0))
        return last;
    double tiny = SLACK * (fabs(length) + s->along.step);
    return s->along.first + floor((last + tiny - s->along.first) / s->along.step) * s->along.step;
}

double task_nearest_along(const struct task_shape *s, double length, double x)
{
    double last = fmax(task_last_along(s, length), s->along.first);
    return nearest_in(&(struct packing_range){ s->along.first, last, s->along.step }, x);
}

double task_end(const struct task_shape *s, double x)
{
    return x + s->box.max.x;
}

bool task_allows(const struct task *t, const struct task_shape *s, vec2 shift)
{
    if (!s->across_count || fabs(task_nearest_across(s, shift.y) - shift.y) > t->slack)
        return false;
    return fabs(task_nearest_along(s, INFINITY, shift.x) - shift.x) <= t->slack;
}
