/* What is marked on a piece: grain, fold, notches, drill marks, darts, the line to lengthen at. */
#ifndef LIFTING_MARKS_H
#define LIFTING_MARKS_H

#include "lifting/words.h"

/* The marks of a shape, and the direction of its grain; *doubts gains what is doubtful. In `a`; how many. */
size_t lifting_find_marks(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                          const struct lifting_shape *shape, const struct lifting_words *words,
                          const struct lifting_mark **out, vec2 *grain, unsigned *doubts);

#endif
