/* Words of a drawing whose letters were turned into outlines when it was saved. */
#ifndef LIFTING_LETTERS_H
#define LIFTING_LETTERS_H

#include "drawing/drawing.h"

/* The same drawing with what could be read as texts, and the lines that are their letters as lettering: no part of any
 * piece. What is not read stays lines. Pages as before; items are numbered anew. In `a` and in what `flat` lives in. */
struct drawing lifting_read_letters(struct arena *a, const struct drawing *flat);

#endif
