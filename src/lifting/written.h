/* What is written on a piece, line by line, and which lines stand together. Inside lifting alone. */
#ifndef LIFTING_WRITTEN_H
#define LIFTING_WRITTEN_H

#include "drawing/phrases.h"
#include "lifting/tokens.h"

struct lifting_written {
    const struct drawing_phrase *phrase;
    struct lifting_tokens tokens;
    struct sheet_pt at; /* start of its baseline */
    size_t block;       /* lines that stand right below each other are one block; lines of a block follow each other */
};

/* The lines of some texts, without those that say the same again. Blocks in the order of their first lines, from the
 * top. How many; in `a`. */
size_t lifting_written_lines(struct arena *a, const struct drawing *d, const size_t *texts, size_t count,
                             const struct lifting_written **out);

#endif
