/* The depth tables of all pairs of shapes that can meet, each made once: a pair taken in the other order, or with both
 * shapes turned by half a turn, has the same table read backwards, and with both changes the very same. */
#ifndef PACKING_TABLES_H
#define PACKING_TABLES_H

#include "base/pool.h"
#include "packing/depth_table.h"
#include "packing/task.h"

struct tables {
    size_t shape_count;
    double step;
    const struct depth_table **of; /* of [a * shape_count + b]: shifts of b against a; NULL: they never meet */
    struct depth_rough *rough;     /* theirs, of [b * shape_count + a], so that those of one b are together */
    struct arena **arenas;         /* where they live */
    size_t arena_count;
};

/* `step` is told by how many points there may be in all and how small the shapes are. Lives in `a` and arenas of its
 * own. */
struct tables tables_of(struct arena *a, const struct task *t, struct base_pool *pool);
void tables_finish(struct tables *t);

static inline const struct depth_table *tables_find(const struct tables *t, int a, int b)
{
    return t->of[(size_t)a * t->shape_count + (size_t)b];
}

/* Those of shifts of `b` against each shape; where `points` is NULL they never meet. */
static inline const struct depth_rough *tables_rough(const struct tables *t, int b)
{
    return t->rough + (size_t)b * t->shape_count;
}

#endif
