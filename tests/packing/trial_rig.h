/* Unit squares in a strip, and trials of them. */
#ifndef TESTS_PACKING_TRIAL_RIG_H
#define TESTS_PACKING_TRIAL_RIG_H

#include "packing/trial.h"
#include "support/cmocka_all.h"

enum { RIG_MOST = 4 };

struct rig {
    struct arena *arena;
    struct packing_shape square;
    struct packing_item items[RIG_MOST];
    struct packing_place pinned[RIG_MOST];
    struct packing_problem problem;
    struct task *task;
    struct tables tables;
};

/* None is pinned. */
static inline void rig_set(struct rig *r, double width, size_t count)
{
    static const int square[1] = { 0 };
    static vec2 corners[4] = { { 0, 0 }, { 1, 0 }, { 1, 1 }, { 0, 1 } };
    *r = (struct rig){ .square = { .outline = { corners, 4, true }, .half_turn = PACKING_NONE } };
    for (size_t i = 0; i < count; i++) {
        r->items[i] = (struct packing_item){ square, 1 };
        r->pinned[i] = (struct packing_place){ .shape = PACKING_NONE };
    }
    r->problem = (struct packing_problem){ .width = width,
                                           .shapes = &r->square,
                                           .shape_count = 1,
                                           .items = r->items,
                                           .item_count = count,
                                           .pinned = r->pinned };
}

/* The squares' lower left corners lie there, in a strip of that length. */
static inline struct trial rig_trial(struct rig *r, const vec2 *at, double length)
{
    r->arena = base_arena_create();
    r->task = task_of(r->arena, &r->problem);
    r->tables = tables_of(r->arena, r->task, NULL);
    struct trial t = trial_of(r->arena, r->task, &r->tables);
    t.length = length;
    for (size_t i = 0; i < r->problem.item_count; i++)
        t.at[i] = (struct packing_place){ 0, at[i] };
    trial_measure(&t);
    return t;
}

static inline void rig_end(struct rig *r)
{
    tables_finish(&r->tables);
    base_arena_destroy(r->arena);
}

#endif
