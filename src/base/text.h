/* Small questions about text that the C library does not answer. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Whether the bytes are well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates, at most U+10FFFF). */
bool base_text_is_utf8(const char *bytes, size_t count);

/* The next code point of well-formed UTF-8 text, and *text moved past it; 0 at the end. */
unsigned long base_text_next(const char **text);

/* Writes a code point as UTF-8, without a zero byte; how many bytes (1 to 4). */
size_t base_text_put(char out[4], unsigned long point);

/* What is typed: one character more, where a text of `size` bytes has room for it; one less, where there is one. */
void base_text_type(char *text, size_t size, unsigned long point);
void base_text_rub_out(char *text);

/* How many code points well-formed UTF-8 text has: its letters, as far as columns and widths go. */
size_t base_text_letters(const char *text);

/* What stands behind a word that the text begins with; NULL when it does not begin so, or is NULL. */
const char *base_text_behind(const char *text, const char *word);

/* A copy with its control characters, but line ends, as question marks: names come from files, and what reads them (a
 * terminal, an XML reader) obeys or refuses such characters; so is every byte that is not UTF-8. Lives in `a`. */
const char *base_text_plain(struct arena *a, const char *text);

/* A copy that begins with a capital, where its first letter has one among A to Z. Lives in `a`. */
const char *base_text_capital(struct arena *a, const char *text);

/* A copy in one line, its line ends as blanks. Lives in `a`. */
const char *base_text_one_line(struct arena *a, const char *text);

/* A copy that has at most so many letters (one or more), the last of them an ellipsis where it was cut. Lives in `a`.
 */
const char *base_text_cut(struct arena *a, const char *text, size_t letters);

/* "A", "A and B", "A, B and C", "A, B and 2 more": names told one after the other, at most so many by name; nothing for
 * none. Lives in `a`. */
const char *base_text_list(struct arena *a, const char *const *names, size_t count, size_t most);

/* A text as one word of a typed command (POSIX shell, XCU 2.2): in straight quotes where it has anything but letters,
 * digits and - _ . , / + : = @ %. Lives in `a`. */
const char *base_text_typed(struct arena *a, const char *text);

/* How many single-character edits turn one text into the other, ignoring ASCII case; counting stops at `limit`.
 * (Levenshtein 1966.) */
int base_text_distance(const char *a, const char *b, int limit);

/* The nearest of `count` names to `text`, or NULL when none is near enough to be meant. */
const char *base_text_nearest(const char *text, const char *const *names, size_t count);

#endif
