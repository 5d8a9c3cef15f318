/* The ways in which an item may lie, each an outline that is only shifted; for this folder alone. */
#ifndef LAY_WAYS_H
#define LAY_WAYS_H

#include "lay/lay.h"
#include "packing/packing.h"

struct lay_way {
    struct geometry_motion turn;           /* mirrored and turned, not shifted */
    struct geometry_path outline;          /* the cut outline so moved, counter-clockwise */
    int half_turn;                         /* the way that is this one turned round; LAY_NONE: there is none */
    struct packing_range across[2], along; /* where the shift may lie, cloth mm; along: first and step, 0: anywhere */
    size_t across_count;                   /* 0: nowhere */
};

/* All ways of an item, in `a`; returns how many. */
size_t lay_ways(struct arena *a, const struct lay_task *task, const struct lay_item *item, struct lay_way **out);

/* The one way of a place as it is turned, whatever the rules. */
struct lay_way lay_way_of(struct arena *a, const struct lay_task *task, const struct lay_item *item,
                          const struct lay_place *place);

/* An outline as it takes part when gaps are kept: grown by half the gap. */
struct geometry_path lay_grown(struct arena *a, const struct lay_task *task, struct geometry_path outline);

/* An outline of fewer points that holds it and is nowhere further from it than that; in `a`. */
struct geometry_path lay_simplified(struct arena *a, struct geometry_path outline, double most_mm);

#endif
