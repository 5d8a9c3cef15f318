/* Whether a sheet is at true scale: its test squares, found by themselves, and what they say. */
#ifndef DRAWING_SQUARES_H
#define DRAWING_SQUARES_H

#include "drawing/drawing.h"

#define DRAWING_FAR 2.5

/* A square to be measured, as it is drawn. */
struct drawing_square {
    int page, layer;
    struct sheet_pt corner;     /* lower left, on its page; as if it stood straight */
    double width_mm, height_mm; /* of the middle of its lines */
    double written_mm;          /* the side that stands written in it or near it; 0: none */
    double likely_mm[2];        /* without it: round sides it may be meant as, the likelier first; 0: none */
    double dot_mm;              /* of a scan: what its sides may be off by; of a drawn one 0 */
};

/* All squares of a flattened sheet with a length written in or near them that they are near (one written in them may be
 * up to DRAWING_FAR times it), and those without that are near 1, 2, 4 in, 5 or 10 cm and not just an area of colour;
 * of four lines, one path, dashes or a thin filled frame. Not: rulings and page frames, many equal squares without a
 * length, squares that a page's edge cuts. What is the same on page after page is told once, where it is seen whole.
 * Those with their size written first, then those where two are written that fit equally well (both are likely_mm),
 * then the larger. How many; in `a`. */
size_t drawing_find_squares(struct arena *a, const struct drawing *flat, const struct drawing_square **out);

/* What lengths as drawn are to be multiplied by to be true, along x and along y of the page. */
struct drawing_scale {
    double across, up;
};

enum drawing_truth_kind {
    DRAWING_NO_SQUARE, /* the person marks two points and types what is true */
    DRAWING_ASK_SIZE,  /* a square, but not what it is meant as: she says which */
    DRAWING_TRUE,      /* within DRAWING_TRUE_SHARE, or a scan's dot, both ways: nothing is corrected */
    DRAWING_OFF,       /* saved at another scale: a correction is offered */
    DRAWING_DISAGREE   /* squares say different things: she says which holds */
};

/* A file's lengths that are off by less are true: 0.1 mm in 100 mm, the width of a fine line. */
#define DRAWING_TRUE_SHARE 0.001

struct drawing_truth {
    enum drawing_truth_kind kind;
    const struct drawing_square *square; /* the one that it rests on, or that is to be asked about */
    double side_mm;                      /* what it is meant as; 0: not known */
    struct drawing_scale
        saved; /* what the file was saved at: drawn / true; 1, 1 where it is true or nothing is known */
};

/* What the squares say together. Those with a size written are believed as long as they agree, or three agree against
 * each that does not. Without any, a square that is a round side to DRAWING_TRUE_SHARE is believed, and squares of
 * different sizes that are round sides at one scale only; all else is asked. */
struct drawing_truth drawing_judge(const struct drawing_square *squares, size_t count);

/* The same of one square, when the person says what its side is meant as. */
struct drawing_truth drawing_judge_as(const struct drawing_square *square, double side_mm);

/* What makes lengths true, from two points as drawn and how far apart they truly are. False when that cannot be: they
 * lie on one another, or the scale is beyond 1 to 10 either way. */
bool drawing_scale_by_points(vec2 from, vec2 to, double true_mm, struct drawing_scale *scale);

/* What corrects a file saved so. */
struct drawing_scale drawing_correction(struct drawing_scale saved);

#endif
