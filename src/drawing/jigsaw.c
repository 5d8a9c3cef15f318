#include "drawing/jigsaw.h"

#include <stdlib.h>

#define GO_ON_LEAST 0.6 /* of the lines between two tiles */
enum { MATCHED_LEAST = 2 };

struct join {
    size_t p, q;
    int axis;
    size_t matched, runs_out;
};

struct joins {
    struct join *all;
    size_t count, cap;
};

/* Tiles that hold together are told from the first of them. */
struct lot {
    size_t *root;
    struct drawing_cell *at;
    size_t *size;
    size_t count;
};

static int by_lines(const void *x, const void *y)
{
    const struct join *a = x, *b = y;
    if (a->matched != b->matched)
        return a->matched > b->matched ? -1 : 1;
    if (a->runs_out != b->runs_out)
        return a->runs_out < b->runs_out ? -1 : 1;
    if (a->p != b->p)
        return a->p < b->p ? -1 : 1;
    if (a->q != b->q)
        return a->q < b->q ? -1 : 1;
    return a->axis - b->axis;
}

static struct joins find_joins(const struct drawing_trial *trial, const struct drawing_tiling *t)
{
    struct joins j = { NULL, 0, 0 };
    for (size_t p = 0; p < t->count; p++)
        for (size_t q = 0; q < t->count; q++)
            for (int axis = 0; axis < DRAWING_AXES && p != q; axis++) {
                struct join join = { .p = p, .q = q, .axis = axis };
                join.matched = drawing_try_pair(trial, p, q, axis, &join.runs_out);
                if (join.matched < MATCHED_LEAST || (double)join.matched < GO_ON_LEAST * (double)join.runs_out)
                    continue;
                j.all = base_arena_grow(t->a, j.all, &j.cap, j.count + 1, sizeof *j.all);
                j.all[j.count++] = join;
            }
    if (j.count)
        qsort(j.all, j.count, sizeof *j.all, by_lines);
    return j;
}

static struct lot every_tile_alone(struct arena *a, size_t count)
{
    struct lot l = { base_arena_alloc(a, count, sizeof *l.root), base_arena_alloc(a, count, sizeof *l.at),
                     base_arena_alloc(a, count, sizeof *l.size), count };
    for (size_t i = 0; i < count; i++) {
        l.root[i] = i;
        l.size[i] = 1;
    }
    return l;
}

static struct drawing_cell moved(struct drawing_cell c, struct drawing_cell by)
{
    return (struct drawing_cell){ c.column + by.column, c.row + by.row };
}

/* Whether the lots lie over each other nowhere when the second is moved so. */
static bool is_free(const struct lot *l, size_t first, size_t second, struct drawing_cell by)
{
    for (size_t i = 0; i < l->count; i++)
        for (size_t k = 0; l->root[i] == second && k < l->count; k++) {
            struct drawing_cell c = moved(l->at[i], by);
            if (l->root[k] == first && l->at[k].column == c.column && l->at[k].row == c.row)
                return false;
        }
    return true;
}

static void put_together(struct lot *l, const struct join *j)
{
    size_t first = l->root[j->p], second = l->root[j->q];
    struct drawing_cell want = { l->at[j->p].column + (j->axis == 0), l->at[j->p].row - (j->axis == 1) };
    struct drawing_cell by = { want.column - l->at[j->q].column, want.row - l->at[j->q].row };
    if (first == second || !is_free(l, first, second, by))
        return;
    for (size_t i = 0; i < l->count; i++)
        if (l->root[i] == second) {
            l->root[i] = first;
            l->at[i] = moved(l->at[i], by);
        }
    l->size[first] += l->size[second];
}

bool drawing_jigsaw(const struct drawing_trial *trial, const struct drawing_tiling *t, struct drawing_grid *g)
{
    struct joins j = find_joins(trial, t);
    struct lot l = every_tile_alone(t->a, t->count);
    size_t best = 0;
    for (size_t i = 0; i < j.count; i++)
        put_together(&l, &j.all[i]);
    for (size_t i = 0; i < t->count; i++)
        if (l.root[i] == i && l.size[i] > l.size[best])
            best = i;
    if (t->count == 0 || l.size[best] < 2)
        return false;
    for (size_t i = 0; i < t->count; i++)
        g->cells[i] = l.root[i] == best ? l.at[i] : (struct drawing_cell){ DRAWING_NONE, 0 };
    return true;
}
