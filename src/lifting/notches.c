#include "lifting/finding.h"

#include <assert.h>
#include <stdlib.h>

/* Notches: common practice of pattern sheets, no source. */
#define TOUCH_MM 0.7
#define TICK_MOST_MM 16
#define TICK_LEAST_MM 1
#define OUT_TICK_MOST_MM 9 /* that lies without */
#define V_MOST_MM 20
#define ACROSS 0.5     /* sine of the angle to the outline */
#define OUT_MOST_MM 14 /* beyond the outermost and innermost of the sizes it crosses */
#define THROUGH_MOST_MM 120
#define PAIR_LEAST_MM 0.6
#define PAIR_MOST_MM 10
#define BAR_MM 0.8
#define SAME_PLACE_MM 0.1

struct notch {
    int size;
    double along;
    vec2 at;
    bool is_v;
};

struct notches {
    struct notch *items;
    size_t count, cap;
    struct lifting_spots stems; /* ends of notches that may have a bar */
    size_t stem_cap;
};

static void put(struct lifting_finding *m, struct notches *n, int size, const struct lifting_place *place, bool is_v)
{
    n->items = base_arena_grow(m->a, n->items, &n->cap, n->count + 1, sizeof *n->items);
    n->items[n->count++] = (struct notch){ size, place->along, place->at, is_v };
}

static void put_stem(struct lifting_finding *m, struct notches *n, vec2 end, size_t stroke)
{
    n->stems.items = base_arena_grow(m->a, n->stems.items, &n->stem_cap, n->stems.count + 1, sizeof *n->stems.items);
    n->stems.items[n->stems.count++] = (struct lifting_spot){ end, stroke };
}

/* Where a tick meets an outline: it crosses it or ends at it. */
static bool meets(const struct lifting_near *near, vec2 a, vec2 b, struct lifting_place *place)
{
    struct lifting_place from, to;
    vec2 way = vec2_unit(vec2_sub(b, a));
    if (!lifting_near_cross(near, a, b, place)) {
        bool at_a = lifting_near_find(near, a, TOUCH_MM, &from), at_b = lifting_near_find(near, b, TOUCH_MM, &to);
        if (!at_a && !at_b)
            return false;
        *place = at_a && (!at_b || from.away <= to.away) ? from : to;
    }
    return fabs(vec2_cross(place->way, way)) >= ACROSS;
}

/* A tick of all sizes may be one line through all of them, or touch where their outlines are one. */
static bool is_tick(const struct lifting_finding *m, const struct lifting_stroke *s)
{
    struct lifting_place first = { .away = 0 }, last = { .away = 0 }, place;
    size_t met = 0;
    vec2 a = s->corners[0], b = s->corners[1];
    if (s->length_mm <= TICK_MOST_MM)
        return s->length_mm >= TICK_LEAST_MM;
    for (size_t k = 0; k < m->division->size_count && s->length_mm <= THROUGH_MOST_MM && s->size == LIFTING_NONE; k++) {
        if (!m->near[k] || !lifting_near_cross(m->near[k], a, b, &place))
            continue;
        if (!met || place.away < first.away)
            first = place;
        if (!met || place.away > last.away)
            last = place;
        met++;
    }
    return met > 1 && first.away <= OUT_MOST_MM && s->length_mm - last.away <= OUT_MOST_MM;
}

/* For each size that a line may be of, whether it meets that outline. */
typedef bool meeting(const struct lifting_finding *m, size_t size, const struct lifting_stroke *s,
                     struct lifting_place *place);

static bool put_where_met(struct lifting_finding *m, struct notches *n, const struct lifting_stroke *s, meeting *how,
                          bool is_v)
{
    size_t sizes = m->division->size_count, met = 0, there = 0, before = n->count;
    bool same = true;
    struct lifting_place place;
    for (size_t k = 0; k < sizes; k++) {
        if (!m->near[k] || (s->size != LIFTING_NONE && s->size != (int)k))
            continue;
        there++;
        if (!how(m, k, s, &place))
            continue;
        met++;
        put(m, n, (int)k, &place, is_v);
        same = same && vec2_length(vec2_sub(place.at, n->items[before].at)) <= SAME_PLACE_MM;
    }
    if (s->size == LIFTING_NONE && met == there && met > 0 && same) {
        n->count = before + 1;
        n->items[before].size = LIFTING_NONE;
    }
    return met > 0;
}

/* A longer line that lies without is a neighbour's. */
static bool tick_meets(const struct lifting_finding *m, size_t size, const struct lifting_stroke *s,
                       struct lifting_place *place)
{
    vec2 middle = vec2_lerp(s->corners[0], s->corners[1], 0.5);
    return meets(m->near[size], s->corners[0], s->corners[1], place) &&
           (s->length_mm <= OUT_TICK_MOST_MM || s->length_mm > TICK_MOST_MM ||
            geometry_path_holds(m->shape->outlines[size].path.path, middle));
}

/* Between the two places at which it touches or crosses the outline, or at the one. */
static bool v_meets(const struct lifting_finding *m, size_t size, const struct lifting_stroke *s,
                    struct lifting_place *place)
{
    const struct lifting_near *near = m->near[size];
    struct lifting_place found[2 * LIFTING_CORNERS_MOST], here;
    assert(s->corner_count > 0);
    size_t count = 0, sides = s->path.closed ? s->corner_count : s->corner_count - 1;
    for (size_t k = 0; k < s->corner_count; k++)
        if (lifting_near_find(near, s->corners[k], TOUCH_MM, &here))
            found[count++] = here;
    for (size_t k = 0; k < sides && count < 2; k++)
        if (lifting_near_cross(near, s->corners[k], s->corners[(k + 1) % s->corner_count], &here))
            found[count++] = here;
    if (!count)
        return false;
    double around = lifting_near_length(near), first = found[0].along, last = found[count - 1].along;
    if (fabs(last - first) > around / 2)
        *(first < last ? &first : &last) += around;
    vec2 middle = vec2_lerp(found[0].at, found[count - 1].at, 0.5);
    if (!lifting_near_find(near, middle, V_MOST_MM, place))
        return false;
    return fabs(last - first) <= V_MOST_MM;
}

/* A V, a triangle, a diamond. */
static bool is_v(const struct lifting_stroke *s)
{
    return (s->corner_count == 3 || (s->corner_count == 4 && s->path.closed)) && lifting_stroke_reach(s) <= V_MOST_MM;
}

static void find_ticks(struct lifting_finding *m, struct notches *n)
{
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_stroke *s = &m->strokes[i];
        if (s->taken || !lifting_is_straight(s) || !is_tick(m, s) || !put_where_met(m, n, s, tick_meets, false))
            continue;
        s->taken = true;
        put_stem(m, n, s->corners[0], i);
        put_stem(m, n, s->corners[1], i);
    }
}

static void find_vs(struct lifting_finding *m, struct notches *n)
{
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_stroke *s = &m->strokes[i];
        if (!s->taken && is_v(s) && put_where_met(m, n, s, v_meets, true))
            s->taken = true;
    }
}

/* The bar of a T lies across the end of its stem. */
static void take_bars(struct lifting_finding *m, struct notches *n)
{
    const struct lifting_spot *stem;
    lifting_sort_spots(&n->stems);
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_stroke *s = &m->strokes[i];
        if (s->taken || !lifting_is_straight(s) || s->length_mm > TICK_MOST_MM)
            continue;
        vec2 way = vec2_unit(vec2_sub(s->corners[1], s->corners[0])),
             middle = vec2_lerp(s->corners[0], s->corners[1], 0.5);
        for (size_t cursor = 0; !s->taken && (stem = lifting_next_spot(&n->stems, middle, BAR_MM, &cursor));) {
            const struct lifting_stroke *t = &m->strokes[stem->of];
            vec2 along = vec2_unit(vec2_sub(t->corners[1], t->corners[0]));
            s->taken = fabs(vec2_cross(way, along)) > 0.9;
        }
    }
}

static int by_place(const void *pa, const void *pb)
{
    const struct notch *a = pa, *b = pb;
    if (a->size != b->size)
        return a->size < b->size ? -1 : 1;
    if (a->is_v != b->is_v)
        return a->is_v ? 1 : -1;
    if (a->along != b->along)
        return a->along < b->along ? -1 : 1;
    return 0;
}

static bool are_near(const struct notch *a, const struct notch *b)
{
    return a->size == b->size && a->is_v == b->is_v && vec2_length(vec2_sub(a->at, b->at)) <= PAIR_MOST_MM &&
           fabs(a->along - b->along) <= 2 * PAIR_MOST_MM;
}

/* Drawn over each other they are one. */
static size_t drop_same(struct notch *items, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (!kept || !are_near(&items[kept - 1], &items[i]) ||
            vec2_length(vec2_sub(items[kept - 1].at, items[i].at)) >= PAIR_LEAST_MM)
            items[kept++] = items[i];
    return kept;
}

static void put_single(struct lifting_finding *m, const struct notch *n)
{
    lifting_put_mark(m, LIFTING_NOTCH, n->size, &n->at, 1)->is_v = n->is_v;
}

/* The middle of two, on the outline between them. */
static void put_double(struct lifting_finding *m, const struct notch *a, const struct notch *b)
{
    vec2 middle = vec2_lerp(a->at, b->at, 0.5);
    struct lifting_place place = { .at = middle };
    int size = lifting_outline_for(m, a->size);
    if (size != LIFTING_NONE && lifting_near_find(m->near[size], middle, PAIR_MOST_MM, &place))
        middle = place.at;
    struct lifting_mark *mark = lifting_put_mark(m, LIFTING_NOTCH, a->size, &middle, 1);
    mark->apart_mm = vec2_length(vec2_sub(a->at, b->at));
    mark->is_v = a->is_v;
}

static void put_all(struct lifting_finding *m, struct notches *n)
{
    if (n->count)
        qsort(n->items, n->count, sizeof *n->items, by_place);
    n->count = drop_same(n->items, n->count);
    for (size_t first = 0, end; first < n->count; first = end) {
        for (end = first + 1; end < n->count && are_near(&n->items[end - 1], &n->items[end]);)
            end++;
        if (end - first == 2)
            put_double(m, &n->items[first], &n->items[first + 1]);
        for (size_t i = first; i < end && end - first != 2; i++)
            put_single(m, &n->items[i]);
    }
}

void lifting_find_notches(struct lifting_finding *m)
{
    struct notches n = { 0 };
    find_ticks(m, &n);
    find_vs(m, &n);
    take_bars(m, &n);
    put_all(m, &n);
}
