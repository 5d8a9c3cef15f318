/* A packing set as a problem: JSON with strip_width and pieces, each with count, rotations_deg and outline. */
#ifndef TESTS_PACKING_LAY_SET_H
#define TESTS_PACKING_LAY_SET_H

#include "packing/packing.h"

/* What a shape of the problem is. */
struct lay_shape {
    int piece;
    double turn_deg; /* about the outline's origin */
};

struct lay_set {
    struct packing_problem problem;
    const struct lay_shape *shapes;
};

/* False, with a sentence on stderr, when the file is no set. Lives in `a`. */
bool lay_set_read(struct arena *a, const char *path, struct lay_set *out);

#endif
