/* One of the searches that go on side by side: lays overlapping trials into ever shorter strips and parts them.
 *
 * Its tries are quick at first: ever smaller steps from its best lay. When these bring nothing more it goes on so, or
 * explores, as it was told to: what cannot be parted is kept, and one of the nearest misses so far is stirred and tried
 * again. After many that did not do it compresses its best lay by ever smaller steps for a while, then explores on: the
 * two phases of Gardeyn, Vanden Berghe, Wauters, arXiv 2509.13329 (2025), by turns. */
#ifndef PACKING_WORKER_H
#define PACKING_WORKER_H

#include "packing/attempt.h"
#include "packing/misses.h"
#include "packing/parting.h"

struct worker {
    uint64_t random;
    struct parting parting;
    struct trial best;    /* without overlap */
    struct misses misses; /* of all lengths */
    struct seeker seeker;
    size_t *order;              /* room for all items */
    struct packing_place *kept; /* likewise */
    bool will_explore;          /* once quick tries from its best bring nothing more */
    bool explores;              /* it does, and compresses by turns */
    bool compresses;            /* now */
    double step;     /* to the next strip while it explores: a share of the gap between the best length and the bound */
    double press;    /* likewise, while it compresses */
    size_t failures; /* tries since the last that parted all, or since it began to explore or compress */
    size_t work;     /* done since it was set to 0 */
};

/* No lay is shorter: the area bound, and the item that is longest at its shortest; a little above for rounding. */
double worker_bound(const struct task *t);

/* Whether a lay leaves less area out, or as much and is shorter. */
bool worker_is_better(const struct trial *a, const struct trial *b);

struct worker worker_of(struct arena *a, const struct trial *first, uint64_t seed, bool will_explore);

/* Takes over a better lay; what is being parted goes on, in a shorter strip where need be. */
void worker_take(struct worker *w, const struct trial *better);

/* One sweep over what overlaps, and what follows from it. */
void worker_step(struct worker *w);

#endif
