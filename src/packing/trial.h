/* A lay while it is searched for: items may lie over each other, and each pair has a weight that says how much that
 * counts. */
#ifndef PACKING_TRIAL_H
#define PACKING_TRIAL_H

#include "packing/tables.h"

struct trial {
    const struct task *task;
    const struct tables *tables;
    size_t all;               /* items, then what is blocked */
    double length;            /* of the strip that they are laid into */
    struct packing_place *at; /* of each of all; shape PACKING_NONE: it is left out */
    double *overlap;          /* all x all: what that of each pair at its places counts */
    float *weight;            /* all x all; at least 1 */
};

struct trial trial_of(struct arena *a, const struct task *task, const struct tables *tables);

/* Lays an item, or leaves it out. */
void trial_put(struct trial *t, size_t item, struct packing_place place);

/* All overlaps anew. */
void trial_measure(struct trial *t);

/* Places, lengths and overlaps of another trial of the same task; not its weights. */
void trial_copy(struct trial *t, const struct trial *from);

/* Sum of overlaps of one item, with weights or without; of all pairs, without. */
double trial_item_overlap(const struct trial *t, size_t item);
double trial_item_cost(const struct trial *t, size_t item);
double trial_overlap(const struct trial *t);

void trial_reset_weights(struct trial *t);

/* Where what is laid ends. */
double trial_end(const struct trial *t);

static inline bool trial_is_free(const struct trial *t, size_t item)
{
    return t->task->pinned[item].shape == PACKING_NONE;
}

#endif
