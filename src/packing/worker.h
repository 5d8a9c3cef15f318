/* One of the searches that go on side by side: lays overlapping trials into ever shorter strips and parts them. Its
 * tries begin from its best lay, by ever smaller steps; when these bring nothing more, stirred. Keeping tries that came
 * near and going on from them (Gardeyn, Vanden Berghe, Wauters, arXiv 2509.13329, 2025) was tried: it took longer and
 * brought less. */
#ifndef PACKING_WORKER_H
#define PACKING_WORKER_H

#include "packing/attempt.h"
#include "packing/parting.h"

struct worker {
    uint64_t random;
    struct parting parting;
    struct trial best; /* without overlap */
    struct seeker seeker;
    size_t *order;              /* room for all items */
    struct packing_place *kept; /* likewise */
    double step;                /* to the next strip: a share of the gap between the best length and the bound */
    size_t failures;            /* tries since the last that parted all */
    size_t work;                /* done since it was set to 0 */
};

/* No lay is shorter: the area bound, and the item that is longest at its shortest; a little above for rounding. */
double worker_bound(const struct task *t);

/* Whether a lay leaves less area out, or as much and is shorter. */
bool worker_is_better(const struct trial *a, const struct trial *b);

struct worker worker_of(struct arena *a, const struct trial *first, uint64_t seed);

/* Takes over a better lay and begins again from it. */
void worker_take(struct worker *w, const struct trial *better);

/* One sweep over what overlaps, and what follows from it. */
void worker_step(struct worker *w);

#endif
