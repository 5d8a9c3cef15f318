#include "lifting/finding.h"

#include <stdlib.h>

struct lifting_mark *lifting_put_mark(struct lifting_finding *m, enum lifting_mark_kind kind, int size,
                                      const vec2 *points, size_t count)
{
    struct geometry_path path = geometry_path_copy(m->a, (struct geometry_path){ (vec2 *)points, count, false });
    m->marks = base_arena_grow(m->a, m->marks, &m->mark_cap, m->mark_count + 1, sizeof *m->marks);
    m->marks[m->mark_count] = (struct lifting_mark){ .kind = kind, .size = size, .path = { path }, .sure = true };
    return &m->marks[m->mark_count++];
}

bool lifting_is_straight(const struct lifting_stroke *s)
{
    return !s->path.closed && s->corner_count == 2;
}

double lifting_stroke_reach(const struct lifting_stroke *s)
{
    return vec2_length(vec2_sub(s->box.max, s->box.min));
}

int lifting_outline_for(const struct lifting_finding *m, int size)
{
    if (size != LIFTING_NONE)
        return m->near[size] ? size : LIFTING_NONE;
    for (size_t k = 0; k < m->division->size_count; k++)
        if (m->near[k])
            return (int)k;
    return LIFTING_NONE;
}

double lifting_off_line(vec2 at, vec2 a, vec2 b)
{
    vec2 way = vec2_sub(b, a);
    double length = vec2_length(way);
    double t = length > 0 ? vec2_dot(vec2_sub(at, a), way) / (length * length) : 0;
    return vec2_length(vec2_sub(at, vec2_lerp(a, b, fmax(0, fmin(1, t)))));
}

static int by_x(const void *pa, const void *pb)
{
    const struct lifting_spot *a = pa, *b = pb;
    if (a->at.x != b->at.x)
        return a->at.x < b->at.x ? -1 : 1;
    return (a->of > b->of) - (a->of < b->of);
}

void lifting_sort_spots(struct lifting_spots *spots)
{
    if (spots->count)
        qsort(spots->items, spots->count, sizeof *spots->items, by_x);
}

static size_t first_from(const struct lifting_spots *spots, double x)
{
    size_t low = 0, high = spots->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (spots->items[middle].at.x < x)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

const struct lifting_spot *lifting_next_spot(const struct lifting_spots *spots, vec2 at, double reach, size_t *cursor)
{
    size_t k = *cursor ? *cursor : first_from(spots, at.x - reach);
    for (; k < spots->count && spots->items[k].at.x <= at.x + reach; k++)
        if (vec2_length(vec2_sub(spots->items[k].at, at)) <= reach) {
            *cursor = k + 1;
            return &spots->items[k];
        }
    *cursor = spots->count;
    return NULL;
}

struct lifting_spots lifting_ends_of_straights(const struct lifting_finding *m)
{
    struct lifting_spots ends = { base_arena_alloc(m->a, 2 * m->stroke_count, sizeof *ends.items), 0 };
    for (size_t i = 0; i < m->stroke_count; i++)
        for (size_t k = 0; k < 2 && !m->strokes[i].taken && lifting_is_straight(&m->strokes[i]); k++)
            ends.items[ends.count++] = (struct lifting_spot){ m->strokes[i].corners[k], i };
    lifting_sort_spots(&ends);
    return ends;
}
