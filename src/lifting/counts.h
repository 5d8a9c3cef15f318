/* How often a piece is cut, and from what: “cut 2 fabric, 1 lining”, “1 × im Stoffbruch”. Inside lifting alone. */
#ifndef LIFTING_COUNTS_H
#define LIFTING_COUNTS_H

#include "lifting/lifting.h"
#include "lifting/tokens.h"
#include "lifting/trade_words.h"

/* A token with what it stands for. */
struct lifting_spoken {
    enum trade_word word; /* of a number written in digits TRADE_NUMBER, if it can be a count */
    int number;
    bool digits, sign;
    bool parts; /* a sign that parts what is said: a comma, a bracket */
    bool last;  /* of its line */
    bool taken; /* belongs to a count */
};

enum { LIFTING_COUNTS_MOST = 8, LIFTING_COUNT_MOST = 99 };

/* So many of these cloths. */
struct lifting_count {
    int number; /* 0: not said */
    unsigned cloths;
    bool pairs, mirrored;
};

struct lifting_counts {
    struct lifting_count items[LIFTING_COUNTS_MOST];
    size_t count;
    bool on_fold;
};

/* Fills `out` with what a line's tokens stand for. */
void lifting_speak(const struct lifting_tokens *line, struct lifting_spoken *out);

/* Finds all that tells counts in the lines of a block, one behind the other, marks it as taken and adds it to `found`.
 */
void lifting_find_counts(struct lifting_spoken *spoken, size_t count, struct lifting_counts *found);

/* Puts what was found into words: count, pairs, on_fold, cloths, counts; `sure` is cleared where it contradicts itself.
 */
void lifting_settle_counts(const struct lifting_counts *found, struct lifting_words *words);

#endif
