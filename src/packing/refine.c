#include "packing/refine.h"

static bool reaches(const struct depth_table *t, vec2 shift, double reach)
{
    return shift.x > t->origin.x - reach && shift.y > t->origin.y - reach &&
           shift.x < t->origin.x + t->columns * t->step + reach && shift.y < t->origin.y + t->rows * t->step + reach;
}

static vec2 allowed(const struct refining *r, vec2 shift)
{
    return (vec2){ task_nearest_along(r->shape, r->length, shift.x), task_nearest_across(r->shape, shift.y) };
}

void refine_begin(struct refining *r, size_t item, struct packing_place *place, double length, double reach)
{
    const struct trial *t = r->trial;
    r->item = item;
    r->shape = &t->task->shapes[place->shape];
    r->length = length;
    place->shift = allowed(r, place->shift);
    r->other_count = 0;
    for (size_t k = 0; k < t->all; k++) {
        if (k == item || t->at[k].shape == PACKING_NONE)
            continue;
        const struct depth_table *table = tables_find(t->tables, t->at[k].shape, place->shape);
        if (!table || !reaches(table, vec2_sub(place->shift, t->at[k].shift), reach))
            continue;
        r->others[r->other_count++] =
            (struct refine_other){ table, t->at[k].shift, (double)t->weight[item * t->all + k] };
    }
    r->work += t->all / 8;
}

/* Those that cost much come to be asked first, since they end the sum early. */
static void ask_before(struct refining *r, size_t i)
{
    struct refine_other other = r->others[i];
    r->others[i] = r->others[i / 2];
    r->others[i / 2] = other;
}

static double cost_below(struct refining *r, vec2 shift, double most)
{
    double cost = 0;
    size_t i = 0;
    for (; i < r->other_count && cost < most; i++) {
        const struct refine_other *o = &r->others[i];
        cost += o->weight * depth_table_overlap(o->table, vec2_sub(shift, o->at));
    }
    r->work += i + 1;
    if (i > 1 && cost >= most)
        ask_before(r, i - 1);
    return cost;
}

double refine_cost(struct refining *r, vec2 shift)
{
    return cost_below(r, shift, INFINITY);
}

/* Moves to a shift near that one if it costs less. */
static bool try(struct refining *r, vec2 to, vec2 *shift, double *cost)
{
    to = allowed(r, to);
    if (to.x == shift->x && to.y == shift->y)
        return false;
    double there = cost_below(r, to, *cost);
    if (there >= *cost)
        return false;
    *cost = there;
    *shift = to;
    return true;
}

double refine_descend(struct refining *r, vec2 *shift, double cost, double step, double least)
{
    /* The slanted ones are near a length of 1; exactness is not needed. */
    static const vec2 ways[8] = { { 1, 0 },     { 0, 1 },      { -1, 0 },      { 0, -1 },
                                  { 0.7, 0.7 }, { -0.7, 0.7 }, { -0.7, -0.7 }, { 0.7, -0.7 } };
    int last = 0;
    while (step >= least && cost > 0) {
        bool moved = false;
        for (int k = 0; k < 8 && !moved; k++) {
            int way = (last + k) & 7;
            moved = try(r, vec2_add(*shift, vec2_scale(ways[way], step)), shift, &cost);
            if (moved)
                last = way;
        }
        if (!moved)
            step /= 2;
    }
    return cost;
}

/* Lines near a place on which something touches. */
struct line {
    vec2 at, along;
};

enum { MOST_LINES = 16 };

static size_t add_line(struct line *lines, size_t count, vec2 at, vec2 along)
{
    if (count < MOST_LINES)
        lines[count++] = (struct line){ at, along };
    return count;
}

static size_t lines_of(const struct refine_other *o, vec2 shift, double reach, struct line *lines, size_t count)
{
    size_t sides;
    vec2 at = vec2_sub(shift, o->at);
    const unsigned *near = depth_table_sides(o->table, at, &sides);
    for (size_t i = 0; i < sides; i++) {
        const struct depth_side *s = &o->table->sides[near[i]];
        double left;
        if (depth_side_square(s, at, &left) <= reach * reach)
            count = add_line(lines, count, vec2_add(s->from, o->at), s->unit);
    }
    return count;
}

static size_t border_lines(const struct refining *r, vec2 shift, double reach, struct line *lines, size_t count)
{
    const struct task_shape *s = r->shape;
    if (!(s->along.step > 0)) {
        double ends[2] = { s->along.first, task_last_along(s, r->length) };
        for (int k = 0; k < 2; k++)
            if (fabs(shift.x - ends[k]) <= reach)
                count = add_line(lines, count, (vec2){ ends[k], shift.y }, (vec2){ 0, 1 });
    }
    for (size_t i = 0; i < s->across_count; i++)
        for (int k = 0; k < 2; k++) {
            double y = k ? s->across[i].last : s->across[i].first;
            if (fabs(shift.y - y) <= reach)
                count = add_line(lines, count, (vec2){ shift.x, y }, (vec2){ 1, 0 });
        }
    return count;
}

static void try_meeting(struct refining *r, const struct line *p, const struct line *q, vec2 around, double reach,
                        vec2 *shift, double *cost)
{
    double sine = vec2_cross(p->along, q->along);
    if (fabs(sine) < 1e-4 * vec2_length(p->along) * vec2_length(q->along))
        return;
    double share = vec2_cross(vec2_sub(q->at, p->at), q->along) / sine;
    vec2 meet = vec2_add(p->at, vec2_scale(p->along, share));
    vec2 off = vec2_sub(meet, around);
    if (vec2_dot(off, off) <= 4 * reach * reach)
        try(r, meet, shift, cost);
}

double refine_meet(struct refining *r, vec2 *shift, double cost, double reach)
{
    struct line lines[MOST_LINES];
    size_t count = 0;
    vec2 around = *shift;
    for (size_t i = 0; i < r->other_count; i++)
        count = lines_of(&r->others[i], around, reach, lines, count);
    count = border_lines(r, around, reach, lines, count);
    for (size_t i = 0; i < count && cost > 0; i++) {
        double share =
            vec2_dot(vec2_sub(around, lines[i].at), lines[i].along) / vec2_dot(lines[i].along, lines[i].along);
        try(r, vec2_add(lines[i].at, vec2_scale(lines[i].along, share)), shift, &cost);
        for (size_t k = i + 1; k < count && cost > 0; k++)
            try_meeting(r, &lines[i], &lines[k], around, reach, shift, &cost);
    }
    return cost;
}
