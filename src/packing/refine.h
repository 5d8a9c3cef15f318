/* From a cheap place on a map to the cheapest one near it, exactly. */
#ifndef PACKING_REFINE_H
#define PACKING_REFINE_H

#include "packing/trial.h"

/* What a shape of an item may lie over near a place. */
struct refine_other {
    const struct depth_table *table;
    vec2 at;
    double weight;
};

struct refining {
    const struct trial *trial;
    size_t item;
    const struct task_shape *shape;
    double length;
    struct refine_other *others; /* room for all */
    size_t other_count;
    size_t work; /* overlaps asked for since it was set to 0 */
};

/* Moves the place to the nearest that is allowed and takes the others within reach of it. */
void refine_begin(struct refining *r, size_t item, struct packing_place *place, double length, double reach);

/* Weighted overlaps at a shift. */
double refine_cost(struct refining *r, vec2 shift);

/* Goes down from a shift by steps, from `step` to `least`; the cost there. Not below 0: it stops where nothing is left.
 * `shift` is moved. */
double refine_descend(struct refining *r, vec2 *shift, double cost, double step, double least);

/* Tries where edges of the others' regions and the strip's borders meet near a shift; the cost there. */
double refine_meet(struct refining *r, vec2 *shift, double cost, double reach);

#endif
