#include "packing/misses.h"

#include "packing/random.h"

struct misses misses_of(struct arena *a, const struct trial *like)
{
    struct misses m = { .count = 0 };
    for (size_t i = 0; i < MISSES_MOST; i++)
        m.trials[i] = trial_of(a, like->task, like->tables);
    return m;
}

void misses_keep(struct misses *m, const struct trial *trial, double overlap)
{
    if (m->count == MISSES_MOST && m->overlap[MISSES_MOST - 1] <= overlap)
        return;
    size_t at = m->count < MISSES_MOST ? m->count++ : MISSES_MOST - 1;
    struct trial room = m->trials[at];
    for (; at > 0 && m->overlap[at - 1] > overlap; at--) {
        m->trials[at] = m->trials[at - 1];
        m->overlap[at] = m->overlap[at - 1];
    }
    trial_copy(&room, trial);
    m->trials[at] = room;
    m->overlap[at] = overlap;
}

const struct trial *misses_pick(const struct misses *m, uint64_t *random)
{
    double share = random_share(random);
    return &m->trials[(size_t)(share * share * (double)m->count)];
}
