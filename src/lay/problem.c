#include "lay/problem.h"

#define SIMPLER_MM 0.2 /* outwards; it costs about its share of a piece's width in cloth */
#define NEAR_MM 1e-6   /* a place this near to an exact one is it */

struct building {
    struct arena *a;
    const struct lay_task *task;
    struct lay_problem *out;
    struct packing_shape *shapes;
    size_t cap;
};

static struct geometry_path prepared(struct arena *a, const struct lay_task *task, struct geometry_path outline)
{
    return lay_simplified(a, lay_grown(a, task, outline), SIMPLER_MM);
}

static struct geometry_path shifted(struct arena *a, struct geometry_path path, vec2 by)
{
    struct geometry_path out = geometry_path_copy(a, path);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = vec2_add(out.points[i], by);
    return out;
}

static vec2 middle_of(struct geometry_path path)
{
    struct geometry_box box = geometry_path_box(path);
    return vec2_scale(vec2_add(box.min, box.max), 0.5);
}

/* The same outline, turned round about the origin, to the bit. */
static struct geometry_path turned_round(struct arena *a, struct geometry_path path)
{
    struct geometry_path out = geometry_path_copy(a, path);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = vec2_scale(out.points[i], -1);
    return out;
}

/* Ranges of the shift on the cloth as ranges of packing's shift. */
static void set_ranges(const struct building *b, struct packing_shape *s, const struct lay_shape *of)
{
    vec2 off = vec2_add(of->anchor, b->out->margin);
    struct packing_range *across = base_arena_alloc(b->a, of->way.across_count, sizeof *across);
    for (size_t i = 0; i < of->way.across_count; i++)
        across[i] = (struct packing_range){ of->way.across[i].first + off.y, of->way.across[i].last + off.y,
                                            of->way.across[i].step };
    s->across = across;
    s->across_count = of->way.across_count;
    s->along = (struct packing_range){ .first = of->way.along.first + off.x, .step = of->way.along.step };
}

static void add_shape(struct building *b, const struct lay_way *way, size_t first)
{
    size_t index = b->out->packing.shape_count++;
    size_t cap = b->cap;
    b->shapes = base_arena_grow(b->a, b->shapes, &b->cap, index + 1, sizeof *b->shapes);
    b->out->shapes = base_arena_grow(b->a, b->out->shapes, &cap, index + 1, sizeof *b->out->shapes);
    struct lay_shape *shape = &b->out->shapes[index];
    struct packing_shape *s = &b->shapes[index];
    *shape = (struct lay_shape){ *way, middle_of(way->outline) };
    bool is_second = way->half_turn >= 0 && first + (size_t)way->half_turn < index;
    if (is_second) {
        size_t twin = first + (size_t)way->half_turn;
        shape->anchor = vec2_scale(b->out->shapes[twin].anchor, -1);
        s->outline = turned_round(b->a, b->shapes[twin].outline);
    } else {
        s->outline = shifted(b->a, prepared(b->a, b->task, way->outline), vec2_scale(shape->anchor, -1));
    }
    s->half_turn = way->half_turn < 0 ? PACKING_NONE : (int)first + way->half_turn;
    set_ranges(b, s, shape);
}

/* Items of one line that are laid alike have the same shapes. */
static bool is_alike(const struct lay_item *a, const struct lay_item *b)
{
    return a->piece == b->piece && a->layers == b->layers && a->on_fold == b->on_fold && a->mirrored == b->mirrored &&
           a->either_hand == b->either_hand;
}

/* The shapes that an item may be laid as: those that can lie anywhere across. */
static struct packing_item item_of(struct building *b, size_t item)
{
    struct lay_way *ways;
    size_t count = lay_ways(b->a, b->task, &b->task->items[item], &ways), first = b->out->packing.shape_count;
    int *as = base_arena_alloc(b->a, count, sizeof *as);
    struct packing_item made = { as, 0 };
    for (size_t w = 0; w < count; w++) {
        add_shape(b, &ways[w], first);
        if (ways[w].across_count)
            as[made.as_count++] = (int)(first + w);
    }
    return made;
}

static void add_items(struct building *b, const struct lay_place *pinned, const bool *left_out)
{
    const struct lay_task *task = b->task;
    struct packing_problem *p = &b->out->packing;
    struct packing_item *items = base_arena_alloc(b->a, task->item_count, sizeof *items);
    b->out->items = base_arena_alloc(b->a, task->item_count, sizeof *b->out->items);
    for (size_t i = 0; i < task->item_count; i++) {
        if (left_out[i] || pinned[i].is_laid)
            continue;
        size_t k = 0;
        while (k < p->item_count && !is_alike(&task->items[b->out->items[k]], &task->items[i]))
            k++;
        items[p->item_count] = k < p->item_count ? items[k] : item_of(b, i);
        b->out->items[p->item_count++] = i;
    }
    p->items = items;
    p->shapes = b->shapes;
}

static void add_blocked(struct building *b, const struct lay_place *pinned, struct geometry_path block)
{
    const struct lay_task *task = b->task;
    struct packing_problem *p = &b->out->packing;
    struct geometry_path *blocked =
        base_arena_alloc(b->a, task->spread.blocked_count + task->item_count + 1, sizeof *blocked);
    for (size_t i = 0; i < task->spread.blocked_count; i++)
        blocked[p->blocked_count++] = shifted(b->a, task->spread.blocked[i].path, b->out->margin);
    if (block.count)
        blocked[p->blocked_count++] = shifted(b->a, block, b->out->margin);
    for (size_t i = 0; i < task->item_count; i++)
        if (pinned[i].is_laid)
            blocked[p->blocked_count++] =
                shifted(b->a, prepared(b->a, task, lay_outline(b->a, task, i, &pinned[i]).path), b->out->margin);
    p->blocked = blocked;
}

struct lay_problem lay_problem_of(struct arena *a, const struct lay_task *task, const struct lay_place *pinned,
                                  struct geometry_path block, const bool *left_out)
{
    double half = task->cloth->gap_mm / 2, most = task->spread.most_length_mm;
    struct lay_problem out = { .margin = { half, half + SIMPLER_MM } };
    out.packing.width = task->spread.width_mm + 2 * out.margin.y;
    out.packing.most_length = most > 0 ? most + 2 * half : 0;
    struct building b = { .a = a, .task = task, .out = &out };
    add_items(&b, pinned, left_out);
    add_blocked(&b, pinned, block);
    return out;
}

static double exact_in(double at, const struct packing_range *range)
{
    double place = at;
    if (range->step > 0)
        place = range->first + floor((at - range->first) / range->step + 0.5) * range->step;
    else
        place = fmin(fmax(at, range->first), range->last);
    return fabs(place - at) < NEAR_MM ? place : at;
}

struct lay_place lay_place_of(const struct lay_problem *p, const struct packing_place *place)
{
    const struct lay_shape *shape = &p->shapes[place->shape];
    struct lay_place out = { .is_laid = true, .motion = shape->way.turn };
    vec2 shift = vec2_sub(place->shift, vec2_add(shape->anchor, p->margin));
    for (size_t i = 0; i < shape->way.across_count; i++)
        shift.y = exact_in(shift.y, &shape->way.across[i]);
    if (shape->way.along.step > 0)
        shift.x = exact_in(shift.x, &shape->way.along);
    out.motion.shift = shift;
    return out;
}
