/* A try at parting what overlaps in a trial, sweep by sweep, by guided local search over weighted overlaps: Umetani,
 * Yagiura, Imahori, Imamichi, Nonobe, Ibaraki, "Solving the irregular strip packing problem via guided local search for
 * overlap minimization" (2009). A try that is stuck goes back to where it overlapped least, with the weights it has
 * learnt, and is given up once that brings nothing: Gardeyn, Vanden Berghe, Wauters, arXiv 2509.13329 (2025). */
#ifndef PACKING_PARTING_H
#define PACKING_PARTING_H

#include "packing/seek.h"

struct parting {
    struct trial now;
    struct trial least; /* as it was with the least overlap of this try */
    double least_overlap;
    double stuck_overlap; /* the least when it was last stuck */
    size_t stalled;       /* sweeps since it sank */
    size_t *order;        /* room for all items */
};

enum parting_state {
    PARTING_GOES_ON,
    PARTING_DONE, /* nothing overlaps */
    PARTING_STUCK
};

/* For trials like that one, in `a`. */
struct parting parting_of(struct arena *a, const struct trial *like);

/* The trial as it stands begins a try. */
void parting_begin(struct parting *p);

/* One sweep over what overlaps. */
enum parting_state parting_sweep(struct parting *p, struct seeker *s, uint64_t *random);

#endif
