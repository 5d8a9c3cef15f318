/* Closed outlines out of lines, size by size, and which of them are one piece in several sizes. */
#ifndef LIFTING_OUTLINES_H
#define LIFTING_OUTLINES_H

#include "base/err_list.h"
#include "lifting/lifting.h"

/* Gaps up to this are closed, mm. */
#define LIFTING_GAP_MM 0.5

/* A shape in every size, and the lines within or on it that are no part of the outline. */
struct lifting_shape {
    bool one_size;
    int cup_group;
    const struct lifting_outline *outlines; /* one for each size */
    const size_t *lines; /* indices in the drawing: within it, or crossing its outline shortly (notches) */
    size_t line_count;
    const size_t *texts; /* indices of runs within it, or nearest to it */
    size_t text_count;
    size_t own_text_count; /* these come first; those behind stand in an outline within it that tells a count of its own
                            */
};

/* Lines of one size with the common ones, closed over gaps, those drawn over each other taken once, lines that meet
 * between their ends parted there; outermost closed outlines that are large enough are shapes, those of different sizes
 * that lie over each other one shape. From the top left, row by row. *loose counts lines of sizes that belong to none.
 * In `a`; how many. Lines that cross each other too often to be worked on are told, and their size has no outlines. */
size_t lifting_find_shapes(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                           const struct lifting_shape **out, size_t *loose, struct err_list *errs);

#endif
