/* Drafted pieces side by side on one sheet in mm, before they are written as a file (svg.h, dxf.h): where each stands,
 * which lines it has, where its letters go. Sheet mm: origin at the sheet's near left corner, y up. */
#ifndef EXPORT_SHEET_H
#define EXPORT_SHEET_H

#include "draft/draft.h"

#define EXPORT_SQUARE_MM 100.0 /* side of the test square */
#define EXPORT_LEADING 1.3     /* of the letters' size, from one line of words to the next */
#define EXPORT_LETTER_WIDE 0.6 /* of its size: more than the mean of common faces, no source */

/* What is written beside the shapes. */
struct export_names {
    const char *pattern;
    const char *size;          /* "Size 5, cup C-D" */
    const char *const *copies; /* of each line of the draft's cutting list: "Cut 2 on the fold" */
};

struct export_sheet {
    const vec2 *shifts;   /* of each of the draft's pieces, from piece mm to sheet mm */
    vec2 square;          /* near left corner of the test square */
    double width, height; /* a margin around everything included */
};

enum export_kind {
    EXPORT_CUT,
    EXPORT_STITCHING,
    EXPORT_FOLD,
    EXPORT_GRAIN,
    EXPORT_NOTCH,
    EXPORT_DRILL,
    EXPORT_DART,
    EXPORT_FOLD_LINE,
    EXPORT_LENGTHEN,
    EXPORT_MATCH,
    EXPORT_PLACEMENT,
    EXPORT_BUTTONHOLE,
    EXPORT_BUTTON,
    EXPORT_KINDS
};

/* In piece mm. A notch runs from the cut line to the end of its snip, a V back to the cut line; where there is no
 * allowance to be snipped it runs 3 mm outwards. A drill mark and a button have one point. Cut and stitching line are
 * open along a fold. */
struct export_stroke {
    enum export_kind kind;
    struct geometry_path path;
    vec2 at; /* of a notch: its place on the cut line */
};

/* Where words stand, in piece mm. */
struct export_lettering {
    vec2 at;        /* left end of the first line's base */
    vec2 along;     /* unit direction they read in: across, or turned to read upwards */
    double size_mm; /* of the letters */
};

/* In rows, the test square first; in `a`. */
struct export_sheet export_sheet_of(struct arena *a, const struct draft *draft);

/* All lines of a piece, those of a kind in a row; in `a`. Returns how many. */
size_t export_strokes(struct arena *a, const struct draft_piece *piece, const struct export_stroke **out);

/* Room for `count` lines of words (UTF-8) about the piece's label place: in the largest letters that keep clear of its
 * lines, else in the smallest there, 3 mm to 10 mm times `scale`. */
struct export_lettering export_lettering_place(const struct draft_piece *piece, const struct export_stroke *lines,
                                               size_t line_count, const char *const *words, size_t count, double scale);

/* The scale of letters on what is as large as cloth: it is looked at as a whole. */
#define EXPORT_ON_CLOTH 3.0

/* Left end of the base of line `index`. */
vec2 export_lettering_line(const struct export_lettering *place, size_t index);

/* A length without the sign that a rounded nought would show. */
double export_mm(double mm);

#endif
