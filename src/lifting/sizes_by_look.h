/* Which looks of lines are sizes where no layer says so. Inside lifting alone. */
#ifndef LIFTING_SIZES_BY_LOOK_H
#define LIFTING_SIZES_BY_LOOK_H

#include "lifting/strands.h"

/* A look that is a size. */
struct lifting_look_size {
    int look;
    const char *size; /* as it is written; NULL: only that it is one, from small to large */
};

/* From a legend: short straight lines with a size's name beside them, each with a look of its own. `open` says of which
 * strands nothing is known yet. How many, in `a`; none or at least two. */
size_t lifting_sizes_by_legend(struct arena *a, const struct drawing *d, const struct lifting_strands *s,
                               const bool *open, const struct lifting_look_size **out);

/* From the drawing itself: looks of about as much line each, whose lines run beside each other all over the sheet. How
 * many, in `a`; none or at least two. */
size_t lifting_sizes_by_nesting(struct arena *a, const struct drawing *d, const struct lifting_strands *s,
                                const bool *open, const struct lifting_look_size **out);

/* Whether the outlines of one look run all within those of the other, at one distance as wide as a seam allowance: then
 * they are where the pieces are sewn, and no other size. All of them must be closed. */
bool lifting_is_stitching_line(struct arena *work, const struct drawing *d, const struct lifting_strands *s,
                               const bool *open, int inner_look, int outer_look);

#endif
