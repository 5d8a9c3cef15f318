#include "lettering/ink.h"

#include <stdlib.h>

/* Own bounds, no source: letters from 1 mm to about 45 mm, and their dots. */
#define LARGEST_MM 60.0
#define SMALLEST_MM 0.08
#define HOLE_LEAST 0.06 /* of the size of what it is a hole in */
#define DOT_MOST 0.5    /* of the hole that it is in */

/* WORK_MOST: pairs of contours near each other, and points of those that one may lie in: a tenth of a second each. */
enum { POINTS_MOST = 1000, HOLES_MOST = 3, CONTOURS_MOST = 200000, WORK_MOST = 50000000 };

struct contour {
    size_t shape;
    size_t kind;
    struct geometry_path path;
    struct geometry_box box;
    size_t parent;      /* + 1; 0: none */
    size_t child_count; /* right within */
    bool frame;         /* has letters within, and is none */
    int depth;          /* without frames */
    size_t ink;         /* + 1: which it is part of; of what is skipped 0 */
};

static double size_of(struct geometry_box box)
{
    return fmax(box.max.x - box.min.x, box.max.y - box.min.y);
}

double lettering_ink_size(const struct lettering_ink *ink)
{
    return size_of(ink->box);
}

static int by_place(const void *pa, const void *pb)
{
    const struct contour *a = pa, *b = pb;
    if (a->kind != b->kind)
        return a->kind < b->kind ? -1 : 1;
    if (a->box.min.x != b->box.min.x)
        return a->box.min.x < b->box.min.x ? -1 : 1;
    if (size_of(a->box) != size_of(b->box))
        return size_of(a->box) > size_of(b->box) ? -1 : 1;
    return (a->shape > b->shape) - (a->shape < b->shape);
}

static size_t small_contours(struct arena *a, const struct lettering_shape *shapes, size_t count, struct contour **out)
{
    size_t used = 0, cap = 0;
    *out = NULL;
    for (size_t i = 0; i < count; i++) {
        struct geometry_path path = shapes[i].path;
        if (path.count < 3 || path.count > POINTS_MOST || used == CONTOURS_MOST)
            continue;
        struct geometry_box box = geometry_path_box(path);
        if (!(size_of(box) <= LARGEST_MM) || !(size_of(box) >= SMALLEST_MM))
            continue;
        *out = base_arena_grow(a, *out, &cap, used + 1, sizeof **out);
        (*out)[used++] = (struct contour){ .shape = i, .kind = shapes[i].kind, .path = path, .box = box };
    }
    if (used)
        qsort(*out, used, sizeof **out, by_place);
    return used;
}

static bool may_hold(const struct contour *out, const struct contour *in)
{
    return in->box.min.y >= out->box.min.y && in->box.max.y <= out->box.max.y && in->box.max.x <= out->box.max.x &&
           size_of(in->box) < size_of(out->box) * 1.0001;
}

static void find_parent(struct contour *all, size_t first, size_t i, size_t *work)
{
    for (size_t k = first; k < i; k++) {
        bool nearer = !all[i].parent || size_of(all[k].box) <= size_of(all[all[i].parent - 1].box);
        if (!nearer || !may_hold(&all[k], &all[i]))
            continue;
        *work += all[k].path.count;
        if (geometry_path_holds(all[k].path, all[i].path.points[0]))
            all[i].parent = k + 1;
    }
    *work += i - first;
    if (!all[i].parent)
        return;
    struct contour *parent = &all[all[i].parent - 1];
    parent->child_count++;
    parent->frame =
        parent->frame || parent->child_count > HOLES_MOST || size_of(all[i].box) < HOLE_LEAST * size_of(parent->box);
}

/* The smallest that each lies in. What holds another begins before it, and no farther than it may be wide. False: they
 * are so many in one place that they are none of letters. */
static bool find_parents(struct contour *all, size_t count)
{
    size_t first = 0, work = 0;
    for (size_t i = 0; i < count && work <= WORK_MOST; i++) {
        while (all[first].kind != all[i].kind || all[first].box.min.x < all[i].box.min.x - LARGEST_MM)
            first++;
        find_parent(all, first, i, &work);
    }
    return work <= WORK_MOST;
}

/* Parents come before what lies in them. */
static void skip_frames(struct contour *all, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        all[i].child_count = 0;
        while (all[i].parent && all[all[i].parent - 1].frame)
            all[i].parent = all[all[i].parent - 1].parent;
        if (!all[i].parent)
            continue;
        all[i].depth = all[all[i].parent - 1].depth + 1;
        all[all[i].parent - 1].child_count++;
    }
}

static struct geometry_path turned(struct arena *a, struct geometry_path path, bool hole)
{
    struct geometry_path copy = geometry_path_copy(a, path);
    copy.closed = true;
    if ((geometry_path_area(copy) < 0) != hole)
        geometry_path_reverse(copy);
    return copy;
}

static void take_samples(struct lettering_ink *ink, struct geometry_path outer)
{
    double length = geometry_path_length(outer);
    double gone = 0, step = length / INK_SAMPLES;
    int taken = 0;
    for (size_t i = 0; i < outer.count && taken < INK_SAMPLES; i++) {
        vec2 p = outer.points[i], q = outer.points[i + 1 < outer.count ? i + 1 : 0];
        double side = vec2_length(vec2_sub(q, p));
        for (; taken < INK_SAMPLES && side > 0 && taken * step <= gone + side; taken++)
            ink->samples[taken] = vec2_lerp(p, q, (taken * step - gone) / side);
        gone += side;
    }
    for (; taken < INK_SAMPLES; taken++)
        ink->samples[taken] = outer.points[0];
}

/* A hole belongs to what it is in, and the dot in a nought to the nought; else what lies in a hole is another ink. */
static size_t number_inks(struct contour *all, size_t count)
{
    size_t inks = 0;
    for (size_t i = 0; i < count; i++) {
        const struct contour *parent = all[i].parent ? &all[all[i].parent - 1] : NULL;
        if (all[i].frame)
            continue;
        bool dot = parent && all[i].depth == 2 && size_of(all[i].box) <= DOT_MOST * size_of(parent->box);
        all[i].ink = parent && (all[i].depth % 2 || dot) ? parent->ink : ++inks;
    }
    return inks;
}

static void put_contour(struct arena *a, const struct contour *c, struct lettering_ink *ink)
{
    ink->contours[ink->count] = turned(a, c->path, c->depth % 2);
    ink->shapes[ink->count] = c->shape;
    if (ink->count++)
        return;
    ink->kind = c->kind;
    ink->box = c->box;
    take_samples(ink, ink->contours[0]);
}

/* What holds others comes before them, so an ink's outer contour is its first. */
static void gather(struct arena *a, const struct contour *all, size_t count, struct lettering_ink *inks,
                   size_t ink_count)
{
    size_t *sizes = base_arena_alloc(a, ink_count, sizeof *sizes);
    for (size_t i = 0; i < count; i++)
        if (all[i].ink)
            sizes[all[i].ink - 1]++;
    for (size_t i = 0; i < ink_count; i++) {
        inks[i].contours = base_arena_alloc(a, sizes[i], sizeof *inks[i].contours);
        inks[i].shapes = base_arena_alloc(a, sizes[i], sizeof *inks[i].shapes);
    }
    for (size_t i = 0; i < count; i++)
        if (all[i].ink)
            put_contour(a, &all[i], &inks[all[i].ink - 1]);
}

size_t lettering_find_inks(struct arena *a, const struct lettering_shape *shapes, size_t count,
                           const struct lettering_ink **out)
{
    struct contour *all;
    size_t used = small_contours(a, shapes, count, &all), ink_count;
    *out = NULL;
    if (!find_parents(all, used))
        return 0;
    skip_frames(all, used);
    ink_count = number_inks(all, used);
    struct lettering_ink *inks = base_arena_alloc(a, ink_count, sizeof *inks);
    gather(a, all, used, inks, ink_count);
    *out = inks;
    return ink_count;
}
