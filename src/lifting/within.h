/* Which lines and words belong to which shape. For this folder alone. */
#ifndef LIFTING_WITHIN_H
#define LIFTING_WITHIN_H

#include "lifting/one_size.h"
#include "lifting/outlines.h"

/* A shape with what its outlines are drawn by. */
struct within_shape {
    struct lifting_shape shape;
    const struct nest_outline **outlines; /* one for each of shape.outlines; NULL: not there */
};

/* Which lines are letters that were drawn as outlines; in `a`. */
const bool *within_find_letters(struct arena *a, const struct drawing *d, const struct lifting_division *division);

/* Where something is written, words and letters; in `a`, *count. */
const vec2 *within_written(struct arena *a, const struct drawing *d, const bool *is_letter, size_t *count);

/* Where a line of words tells how often something is cut, in the middle of it; in `a`, *count. */
const vec2 *within_counts(struct arena *a, const struct drawing *d, size_t *count);

/* Fills in the shapes' lines and texts, in `a`; how many lines of sizes belong to no shape. */
size_t within_sort(struct arena *a, const struct one_size_sheet *sheet, struct within_shape *shapes, size_t count,
                   size_t outline_count);

#endif
