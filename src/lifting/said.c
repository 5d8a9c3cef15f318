#include "lifting/counts.h"
#include "lifting/words.h"

#include <string.h>

enum { LONGEST_SAID = 200 }; /* bytes; longer texts are instructions */

/* Each kind of word makes a text say something, or keeps it from saying what it would; the first row that holds. */
static const struct {
    enum trade_word has, unless;
    enum lifting_said said;
} rows[] = {
    { TRADE_LENGTHEN, TRADE_NOT, LIFTING_SAID_LENGTHEN },
    { TRADE_FOLD, TRADE_NOT, LIFTING_SAID_FOLD },
    { TRADE_GRAIN, TRADE_NOT, LIFTING_SAID_GRAIN },
};

/* A dress may be of denim, straight or bias; of the words for the grain these say so only beside another. */
static bool is_weak(const char *plain)
{
    static const char *const weak[] = { "straight",  "bias",   "gerade", "gerader",    "schraeg",
                                        "schraeger", "laengs", "querer", "lengthwise", "crosswise" };
    for (size_t i = 0; i < sizeof weak / sizeof weak[0]; i++)
        if (strcmp(plain, weak[i]) == 0)
            return true;
    return false;
}

/* “fold line”, “fold here”, “fold to wrong side”: of the piece, when it is sewn. */
static bool folds_piece(const struct lifting_tokens *t, size_t k)
{
    static const char *const behind[] = { "line", "lines", "here",  "up", "under", "back",
                                          "over", "in",    "along", "to", "hem" };
    for (size_t i = 0; i < sizeof behind / sizeof behind[0]; i++)
        if (lifting_token_is(t, k + 1, behind[i]))
            return lifting_token_is(t, k, "fold") && !lifting_token_is(t, k - 1, "on") &&
                   !(k > 1 && lifting_token_is(t, k - 1, "the"));
    return lifting_token_is(t, k, "folded");
}

static unsigned kinds_of(const struct lifting_tokens *t)
{
    unsigned kinds = 0;
    for (size_t k = 0; k < t->count; k++) {
        enum trade_word word = lifting_trade_word(t->items[k].plain, NULL);
        bool counts =
            !(word == TRADE_GRAIN && is_weak(t->items[k].plain)) && !(word == TRADE_FOLD && folds_piece(t, k));
        if (counts)
            kinds |= 1U << word;
    }
    return kinds;
}

enum lifting_said lifting_said_of_line(const char *text)
{
    if (strlen(text) > LONGEST_SAID)
        return LIFTING_SAID_NOTHING;
    struct arena *a = base_arena_create();
    struct lifting_tokens t = lifting_tokens_of(a, text);
    unsigned kinds = kinds_of(&t);
    enum lifting_said said = LIFTING_SAID_NOTHING;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0] && !said; i++)
        if ((kinds >> rows[i].has & 1U) && !(kinds >> rows[i].unless & 1U))
            said = rows[i].said;
    base_arena_destroy(a);
    return said;
}

/* Behind “cut”, as it stands on pieces. Every word has to belong to a count: nothing that she types is passed over. */
bool lifting_read_count(const char *text, struct lifting_words *out)
{
    if (strlen(text) > LONGEST_SAID)
        return false;
    struct arena *a = base_arena_create();
    struct lifting_tokens t = lifting_tokens_of(a, base_arena_print(a, "cut %s", text));
    struct lifting_spoken *spoken = base_arena_alloc(a, t.count, sizeof *spoken);
    struct lifting_counts found = { .count = 0 };
    struct lifting_words words = { .sure = true };
    lifting_speak(&t, spoken);
    lifting_find_counts(spoken, t.count, &found);
    lifting_settle_counts(&found, &words);
    bool all = true;
    for (size_t k = 0; k < t.count; k++)
        all = all && (spoken[k].taken || spoken[k].sign || spoken[k].word == TRADE_CUT);
    base_arena_destroy(a);
    if (!all || !words.sure || words.count < 1)
        return false;
    *out = words;
    return true;
}
