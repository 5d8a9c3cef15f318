/* The pieces of one size and cup group: its lines and those of all sizes. For this folder alone. */
#ifndef LIFTING_ONE_SIZE_H
#define LIFTING_ONE_SIZE_H

#include "lifting/lifting.h"
#include "lifting/nest.h"

/* What is the same for all sizes of a sheet. */
struct one_size_sheet {
    const struct drawing *d;
    const struct lifting_division *division;
    const bool *is_letter;          /* for each line of the drawing */
    const uint32_t *dash_of_strand; /* equal where they are dashed alike */
    const vec2 *letters;            /* where something is written */
    size_t letter_count;
    struct nest_asked asked;
};

/* Whether the line is one of that size's and cup group's, or of all. Either may be LIFTING_NONE: only what is of all.
 */
bool one_size_has(const struct one_size_sheet *s, size_t line, int size, int cup_group);

/* Outlines that are pieces, in `a`, in no order that means anything; how many. False when *work does not suffice. */
bool one_size_find(struct arena *a, const struct one_size_sheet *s, int size, int cup_group, size_t *work,
                   const struct nest_outline **out, size_t *count);

#endif
