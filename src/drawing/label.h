/* What a page says of where it belongs: "A1", "1a", "3/24", "Page 3 of 24", "Seite 3 von 24", "row 2, column 3",
 * "Reihe 2 Spalte 3". Only the words are read here; grid.h makes cells of them. */
#ifndef DRAWING_LABEL_H
#define DRAWING_LABEL_H

#include <stdbool.h>

enum drawing_label_kind {
    DRAWING_LABEL_NONE,
    DRAWING_LABEL_ROW_COLUMN, /* first: row, second: column, from words that say so */
    DRAWING_LABEL_ROW,        /* first: row; the column may stand elsewhere on the page */
    DRAWING_LABEL_COLUMN,     /* second: column */
    DRAWING_LABEL_LETTER,     /* first: the letter (A: 1, AA: 27; at most two), second: the number beside it */
    DRAWING_LABEL_PAIR,       /* two numbers, which is the row is not said */
    DRAWING_LABEL_OF,         /* first: running number, second: of how many */
    DRAWING_LABEL_RUNNING,    /* first: running number, a word says so */
    DRAWING_LABEL_NUMBER,     /* first: a number alone */
    DRAWING_LABEL_KINDS
};

/* Larger ones are no labels. */
enum { DRAWING_LABEL_MOST = 100000, DRAWING_LABEL_BYTES_MOST = 48 };

struct drawing_label {
    enum drawing_label_kind kind;
    int first, second;
};

/* Reads a text as the label of a page; kind DRAWING_LABEL_NONE when it says anything else. */
struct drawing_label drawing_label_read(const char *text);

#endif
