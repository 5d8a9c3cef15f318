/* What the name of a layer (or a word of a legend) says: “Größe 34”, “EU 34 / UK 8”, “Cup C”, “All sizes”. Inside
 * lifting alone. */
#ifndef LIFTING_LAYER_NAME_H
#define LIFTING_LAYER_NAME_H

#include "base/arena.h"

#include <stdbool.h>

enum lifting_named {
    LIFTING_NAMED_NOTHING, /* “Layer 1” */
    LIFTING_NAMED_UNUSED,
    LIFTING_NAMED_COMMON,
    LIFTING_NAMED_SIZE
};

struct lifting_layer_name {
    enum lifting_named kind;
    bool surely;       /* a word says that it is a size; else it is one only beside others */
    bool odd;          /* there are words in the name that say nothing: “Blouse 34” */
    const char *size;  /* as it is written; or NULL */
    const char *whole; /* from the size on, with a cup that may be part of its name */
    const char *stem;  /* all else of a size's name, plain: alike in the names of a series */
    const char *cup;   /* “A”, “A/B”; or NULL */
    bool cup_surely;
};

/* Everything lives in `a`. */
struct lifting_layer_name lifting_layer_name(struct arena *a, const char *name);

/* Sizes from small to large: a place for each by its name (numbers, letters, months and years). False when the name has
 * none; *letters tells numbers and letters apart, which cannot be put in order by their names. */
bool lifting_size_place(struct arena *a, const char *size, double *place, bool *letters);

#endif
