/* How a trial begins from a lay without overlap: in a shorter strip, now and then stirred, or with an item more. */
#ifndef PACKING_ATTEMPT_H
#define PACKING_ATTEMPT_H

#include "packing/seek.h"

/* What attempts need beside the trial. */
struct attempt {
    struct trial *trial;
    struct seeker *seeker;
    uint64_t *random;
    size_t *order;              /* room for all items */
    struct packing_place *kept; /* likewise */
};

/* What lies beyond a random place along the strip is moved back by so much, and then whatever sticks out moved in. */
void attempt_shrink(struct attempt *a, double by);

/* Two items of different shapes, neither small, change places. */
void attempt_swap(struct attempt *a);

/* All items in a window of the strip, of that share of its length, are lifted out and laid anew, large ones first. */
void attempt_window(struct attempt *a, double share);

/* Lays one of the items that are left out, over others where need be; now and then in place of a smaller one. */
void attempt_add(struct attempt *a);

#endif
