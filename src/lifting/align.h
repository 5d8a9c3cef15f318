/* Which corner of one outline is which of another. */
#ifndef LIFTING_ALIGN_H
#define LIFTING_ALIGN_H

#include "lifting/corners.h"
#include "lifting/lifting.h"

/* An outline's corners, at least one, in their order around it. */
struct lifting_corners {
    const struct lifting_corner *items;
    size_t count;
    struct geometry_box box; /* of the outline */
};

/* Corners that are only placed where another outline has them need not have a partner; `placed` (one for each of a's)
 * may be NULL. *partner: for each of a's corners its like in b, or LIFTING_NONE; in the same order around, at least
 * one.
 */
void lifting_align(const struct lifting_corners *a, const bool *placed, const struct lifting_corners *b, int *partner);

#endif
