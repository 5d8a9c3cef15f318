/* The cheapest place for an item while the others stay. */
#ifndef PACKING_SEEK_H
#define PACKING_SEEK_H

#include "packing/overlap_map.h"
#include "packing/refine.h"

/* Memory and the count of work for one worker. */
struct seeker {
    struct overlap_map map;
    struct refining refining;
};

/* For trials of one task. */
struct seeker seeker_of(struct arena *a, const struct trial *trial);

/* Among all of the item's shapes and allowed places in the trial's length; *cost is what it costs. The place where it
 * lies counts as well. */
struct packing_place seek_cheapest(struct seeker *s, const struct trial *t, size_t item, double *cost);

/* The place nearest to the strip's start where the item lies free, slid against what is there; shape PACKING_NONE when
 * there is none up to `length`. */
struct packing_place seek_first(struct seeker *s, const struct trial *t, size_t item, double length);

size_t seek_work(const struct seeker *s);

#endif
