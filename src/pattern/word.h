/* Letters, signs and names as formulas know them. Texts are UTF-8. Not for other folders. */
#ifndef PATTERN_WORD_H
#define PATTERN_WORD_H

#include <stdbool.h>

/* The operator, bracket or comma at hand, − × · ÷ of word processors as - * /; 0 where none is. */
char pattern_mark_at(const char *at);

/* Past the letter, digit or "_" at hand; the same place where none is. */
const char *pattern_past_letter(const char *at);

/* Past a name: words with single spaces between them, the first without a digit in front. The same place where none
 * begins. */
const char *pattern_past_name(const char *at);

/* Past spaces of any kind and line ends. */
const char *pattern_past_space(const char *at);

/* Whether formulas can call something by that name. */
bool pattern_is_formula_name(const char *name);

#endif
