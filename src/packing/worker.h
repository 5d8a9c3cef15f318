/* One of the searches that go on side by side: lays overlapping trials into ever shorter strips and parts them. */
#ifndef PACKING_WORKER_H
#define PACKING_WORKER_H

#include "packing/seek.h"

struct worker {
    uint64_t random;
    struct trial now;   /* being parted */
    struct trial least; /* of this attempt: the one with the least overlap */
    double least_overlap;
    struct trial best; /* without overlap */
    struct seeker seeker;
    size_t *order;   /* room for all items */
    size_t stalled;  /* sweeps since the least overlap sank */
    size_t strikes;  /* times gone back to the least */
    double shrink;   /* of the next strip, a share of the best length */
    size_t failures; /* attempts since the last that parted all */
    size_t work;     /* done since it was set to 0 */
};

/* No lay is shorter: the area bound, and the item that is longest at its shortest; a little above for rounding. */
double worker_bound(const struct task *t);

struct worker worker_of(struct arena *a, const struct trial *first, uint64_t seed);

/* Takes over a better lay. */
void worker_take(struct worker *w, const struct trial *better);

/* One sweep over what overlaps, and what follows from it. */
void worker_step(struct worker *w);

#endif
