/* What stands at the same place on many pages: frames, crop marks, logos, "glue here". */
#ifndef DRAWING_REPEATS_H
#define DRAWING_REPEATS_H

#include "drawing/drawing.h"

/* Things count as at the same place within this, mm as drawn: half the width of a fine line. */
#define DRAWING_SAME_PLACE_MM 0.1

/* A shape that stands at one place of one or more pages. */
struct drawing_repeat {
    struct geometry_box box; /* on its page, as drawn */
    size_t first;            /* the first line, or text, that is one */
    size_t page_count;
    int last_page; /* the last that has it */
};

struct drawing_repeats {
    const struct drawing_repeat *shapes;
    size_t count;
    const size_t *of; /* for each line, or text, of the drawing its shape; SIZE_MAX for those of other pages */
};

/* Shapes of the lines of those pages, letters' outlines left out; in `a`. */
struct drawing_repeats drawing_repeated_lines(struct arena *a, const struct drawing *d, const int *pages, size_t count);

/* The same of their texts: the same words, or labels of one kind, at the same place. */
struct drawing_repeats drawing_repeated_texts(struct arena *a, const struct drawing *d, const int *pages, size_t count);

#endif
