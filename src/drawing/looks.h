/* Which lines look alike: pages come with layers and styles of their own that are the same by name and by numbers. */
#ifndef DRAWING_LOOKS_H
#define DRAWING_LOOKS_H

#include "drawing/drawing.h"

struct drawing_looks {
    const int *layers; /* for each layer the first of the same name below the same parent */
    const int *styles; /* for each style the first that looks the same */
    size_t style_count;
};

struct drawing_looks drawing_find_looks(struct arena *a, const struct drawing *d);

/* The same number for lines of one layer and one look. */
long drawing_look_of(const struct drawing_looks *looks, const struct drawing_line *line);

#endif
