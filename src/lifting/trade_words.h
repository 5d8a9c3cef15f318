/* Words of the trade, English and German, and what they stand for on a pattern sheet. Inside lifting alone. Common
 * words of sewing and cutting out; no names of makers or products. */
#ifndef LIFTING_TRADE_WORDS_H
#define LIFTING_TRADE_WORDS_H

enum trade_word {
    TRADE_UNKNOWN,
    TRADE_CUT,
    TRADE_TIMES,
    TRADE_NUMBER, /* two */
    TRADE_ONCE,   /* twice: a number with its “times” */
    TRADE_PAIR,
    TRADE_MIRROR,
    TRADE_FOLD,
    TRADE_FOLD_ELSE, /* a fold of the piece, none of the cloth */
    TRADE_CLOTH,     /* any; the main one if nothing else is said */
    TRADE_FABRIC,
    TRADE_INTERFACING,
    TRADE_LINING,
    TRADE_GLUE, /* on, the, from */
    TRADE_GRAIN,
    TRADE_LENGTHEN,
    TRADE_ALLOWANCE,
    TRADE_SIZE,
    TRADE_PIECE,
    TRADE_NOT,
    TRADE_EDGE, /* what stands at an edge or a mark, not a piece's name */
    TRADE_VIEW,
    TRADE_UNIT,
    TRADE_FURNITURE, /* of the page: whose it is, how it is printed */
    TRADE_PART       /* a piece's name, or part of it */
};

/* What a plain word (lifting/tokens.h) stands for; *number, unless NULL, is what a word for a number says. */
enum trade_word lifting_trade_word(const char *plain, int *number);

#endif
