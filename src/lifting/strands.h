/* Lines sorted by layer and look. Inside lifting alone. */
#ifndef LIFTING_STRANDS_H
#define LIFTING_STRANDS_H

#include "lifting/lifting.h"

struct lifting_strands {
    struct lifting_strand *items; /* in the order of the layers, then as they are met; roles not yet told */
    size_t count;
    int *of_line;
    int *looks; /* for each strand the number of its look: equal ones look alike */
    size_t look_count;
};

/* Everything lives in `a` and in what the drawing lives in. */
struct lifting_strands lifting_sort_strands(struct arena *a, const struct drawing *d);

#endif
