/* The stitching line of one piece at one size: points evaluated, curves flattened. Not for other folders. */
#ifndef DRAFT_OUTLINE_H
#define DRAFT_OUTLINE_H

#include "draft/draft.h"

struct draft_outline {
    struct geometry_path path; /* closed, counter-clockwise, no point twice in a row */
    struct draft_edge *edges;
    double *allowance_mm; /* one a side of the path */
    bool turned;          /* it is written clockwise: edges run against the path */
};

/* Lives in `a`. The path may have no area or cross itself. */
struct draft_outline draft_outline_of(struct arena *a, const struct draft_sized *sized, int piece);

#endif
