/* Lays that came near to fitting into a strip without doing so, the nearest first. A try that goes on from one of them,
 * stirred, ends elsewhere than one that begins from the best lay again: searches that keep a pool of such, drawn from
 * with a preference for the nearest, go much further (Gardeyn, Vanden Berghe, Wauters, arXiv 2509.13329, 2025). */
#ifndef PACKING_MISSES_H
#define PACKING_MISSES_H

#include "packing/trial.h"

#include <stdint.h>

enum { MISSES_MOST = 8 };

struct misses {
    struct trial trials[MISSES_MOST]; /* the first `count` are in use */
    double overlap[MISSES_MOST];      /* of each, rising */
    size_t count;
};

/* None yet; room for trials like that one, in `a`. */
struct misses misses_of(struct arena *a, const struct trial *like);

/* Copies one in; of more than there is room for, those of most overlap go. */
void misses_keep(struct misses *m, const struct trial *trial, double overlap);

/* A random one of at least one, those of less overlap more often. */
const struct trial *misses_pick(const struct misses *m, uint64_t *random);

#endif
