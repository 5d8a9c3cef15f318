/* What is written on a piece, in English or German. */
#ifndef LIFTING_WORDS_H
#define LIFTING_WORDS_H

#include "lifting/outlines.h"

/* Reads the runs of all shapes, one `out` for each: its name, number, how often it is cut from what, whether on the
 * fold. Runs that say one thing in several parts are put together first, in reading order. What stands on most shapes
 * alike is the pattern's name and none of theirs; a size's name is no number. In `a`. */
void lifting_read_words(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                        const struct lifting_shape *shapes, size_t count, struct lifting_words *out);

/* Reads a count that a person types: “2”, “1 pair”, “2 of fabric, 1 of interfacing”, “1 on the fold”. Sets count,
 * pairs, on_fold, cloths and counts; false, `out` untouched, when a word of it is not understood or no count is told. */
bool lifting_read_count(const char *text, struct lifting_words *out);

/* Whether a text says that a line is the grain, is on the fold, or is to lengthen or shorten at. */
enum lifting_said { LIFTING_SAID_NOTHING, LIFTING_SAID_GRAIN, LIFTING_SAID_FOLD, LIFTING_SAID_LENGTHEN };
enum lifting_said lifting_said_of_line(const char *text);

#endif
