/* A lay's task as a problem of packing; for this folder alone.
 *
 * The strip is the cloth with half a gap more on either side and at both ends, since outlines are grown by half a gap:
 * pieces may touch the cloth's edges. Outlines are simplified outwards, which is judged on the exact ones; across, the
 * strip has that much more room, and where a piece may lie is told by its exact outline. */
#ifndef LAY_PROBLEM_H
#define LAY_PROBLEM_H

#include "lay/ways.h"

/* A shape of packing as a way of an item. */
struct lay_shape {
    struct lay_way way;
    vec2 anchor; /* what is subtracted from the outline, so that its middle is the origin */
};

struct lay_problem {
    struct packing_problem packing;
    struct lay_shape *shapes; /* of each of packing's shapes */
    size_t *items;            /* of each of packing's items: the task's */
    vec2 margin;              /* from the cloth's corner to the strip's */
};

/* The items that are neither pinned nor left out; those that are pinned block, and so does `block` (no points: there is
 * none). In `a`. */
struct lay_problem lay_problem_of(struct arena *a, const struct lay_task *task, const struct lay_place *pinned,
                                  struct geometry_path block, const bool *left_out);

/* A place of packing's as a place on the cloth; exact where a fold or a line holds it. */
struct lay_place lay_place_of(const struct lay_problem *p, const struct packing_place *place);

#endif
