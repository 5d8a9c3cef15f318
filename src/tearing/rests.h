/* What is left of torn strips, and what of the other pieces is cut of it: a strip is torn right across the cloth, so
 * what its rectangles leave is a length of cloth by itself, its grain still true. */
#ifndef TEARING_RESTS_H
#define TEARING_RESTS_H

#include "lay/lay.h"
#include "tearing/tearing.h"

enum { TEARING_BESIDE = -1 }; /* all strips that run along the cloth: what is left of its width */

struct tearing_rest {
    int strip;              /* whose rest it is, or TEARING_BESIDE */
    const char *above;      /* names of the rectangles of the strip that it lies above; NULL: behind all of them */
    bool along;             /* strips run along the cloth */
    struct geometry_box at; /* as the plan has it: x from the squared end, y from the near edge */
    struct cloth cloth;     /* that rectangle, trimmed, in a single layer */
    const struct lay *lay;  /* what is cut of it; NULL: nothing */
};

struct tearing_rests {
    const struct tearing_rest *rests; /* of which something is cut, in the order of the strips */
    size_t count;
    const struct lay_hands *pieces; /* how many of each line of the cutting list are cut of them */
    double area_mm2;                /* of all those */
};

/* All that strips leave, strip by strip: above rectangles that are lower than the strip, then behind the last; beside
 * strips along the cloth last. In `a`; returns how many. */
size_t tearing_left(struct arena *a, const struct tearing_plan *plan, struct tearing_rest **out);

bool tearing_is_worth_telling(const struct tearing_rest *rest);

/* Finds what of the plan's material, other than its rectangles, can be cut of what is left of its strips: the largest
 * pieces first, each of the smallest rest that has room for it; of cloth that is laid double, a pair or none of it.
 * Nothing of cloth with stripes or checks, by which pieces would have to match, or that is fused in a block. The same
 * plan has the same rests, to the bit. Everything lives in `a`, the plan's draft and its cloth. False, and no rests,
 * when the task's `stop` is set before all are found. */
bool tearing_rests_find(struct arena *a, const struct tearing_plan *plan, struct tearing_rests *out);

/* The plan with those pieces cut of its rests; the rests outlive it. */
void tearing_rests_take(struct tearing_plan *plan, const struct tearing_rests *rests);

#endif
