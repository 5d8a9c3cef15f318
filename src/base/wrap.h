/* Sentences in lines, for where there is no room for one long line. */
#ifndef BASE_WRAP_H
#define BASE_WRAP_H

#include "base/arena.h"

/* Adds a sentence to `count` lines that stand already, in lines of at most `columns` bytes broken at blanks (a longer
 * word stays whole), as far as `most` lines leave room for one more. Returns how many stand then; they live in `a`. */
size_t base_wrap(struct arena *a, const char *text, size_t columns, const char **lines, size_t count, size_t most);

#endif
