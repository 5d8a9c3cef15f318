/* Text taken apart for looking words up: whoever drew the sheet wrote “Größe”, “GROESSE” or “groesse” and means one
 * thing. Inside lifting alone. */
#ifndef LIFTING_TOKENS_H
#define LIFTING_TOKENS_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

enum lifting_token_kind { LIFTING_WORD, LIFTING_NUMBER, LIFTING_SIGN };

struct lifting_token {
    enum lifting_token_kind kind;
    const char *plain; /* in small ASCII letters: ä as ae, é as e, × as x; a letter that has no such form is * */
    bool spaced;       /* stands behind a blank, or first */
    size_t first, end; /* its bytes in the text */
};

struct lifting_tokens {
    const char *text;
    const struct lifting_token *items;
    size_t count;
};

/* Words are runs of letters, numbers runs of digits (with digits behind a point or comma), signs single marks. Soft
 * hyphens are left out. In `a`; `text` must live as long. */
struct lifting_tokens lifting_tokens_of(struct arena *a, const char *text);

/* All of a text in plain small letters, its signs and blanks as they are; in `a`. */
const char *lifting_plain(struct arena *a, const char *text);

/* Whether the token is that plain word, number or sign. */
bool lifting_token_is(const struct lifting_tokens *t, size_t k, const char *plain);

#endif
