#include "packing/trial.h"

#include <string.h>

struct trial trial_of(struct arena *a, const struct task *task, const struct tables *tables)
{
    struct trial t = { .task = task, .tables = tables, .all = task_all(task) };
    t.at = base_arena_alloc(a, t.all, sizeof *t.at);
    t.overlap = base_arena_alloc(a, t.all * t.all, sizeof *t.overlap);
    t.weight = base_arena_alloc(a, t.all * t.all, sizeof *t.weight);
    for (size_t i = 0; i < t.all; i++)
        t.at[i] = task->pinned[i];
    trial_reset_weights(&t);
    return t;
}

/* Of a pair, the second against the first. */
static double overlap_of(const struct trial *t, struct packing_place still_at, struct packing_place at)
{
    const struct depth_table *table = tables_find(t->tables, still_at.shape, at.shape);
    return table ? depth_table_overlap(table, vec2_sub(at.shift, still_at.shift)) : 0;
}

void trial_put(struct trial *t, size_t item, struct packing_place place)
{
    t->at[item] = place;
    for (size_t k = 0; k < t->all; k++) {
        bool meets = k != item && place.shape != PACKING_NONE && t->at[k].shape != PACKING_NONE &&
                     (trial_is_free(t, item) || trial_is_free(t, k)); /* what is pinned stays, whatever it lies on */
        double overlap = meets ? overlap_of(t, t->at[k], place) : 0;
        t->overlap[item * t->all + k] = t->overlap[k * t->all + item] = overlap;
    }
}

void trial_measure(struct trial *t)
{
    for (size_t i = 0; i < t->task->item_count; i++)
        trial_put(t, i, t->at[i]);
}

void trial_copy(struct trial *t, const struct trial *from)
{
    t->length = from->length;
    memcpy(t->at, from->at, t->all * sizeof *t->at);
    memcpy(t->overlap, from->overlap, t->all * t->all * sizeof *t->overlap);
}

double trial_item_overlap(const struct trial *t, size_t item)
{
    double sum = 0;
    for (size_t k = 0; k < t->all; k++)
        sum += t->overlap[item * t->all + k];
    return sum;
}

double trial_item_cost(const struct trial *t, size_t item)
{
    double sum = 0;
    for (size_t k = 0; k < t->all; k++)
        sum += t->overlap[item * t->all + k] * (double)t->weight[item * t->all + k];
    return sum;
}

double trial_overlap(const struct trial *t)
{
    double sum = 0;
    for (size_t i = 0; i < t->task->item_count; i++)
        for (size_t k = i + 1; k < t->all; k++)
            sum += t->overlap[i * t->all + k];
    return sum;
}

void trial_reset_weights(struct trial *t)
{
    for (size_t i = 0; i < t->all * t->all; i++)
        t->weight[i] = 1;
}

double trial_end(const struct trial *t)
{
    double end = 0;
    for (size_t i = 0; i < t->task->item_count; i++)
        if (t->at[i].shape != PACKING_NONE)
            end = fmax(end, task_end(&t->task->shapes[t->at[i].shape], t->at[i].shift.x));
    return end;
}
