/* What a clip leaves to be seen, as a box in mm: from the outlines it is made of, and through several at once. */
#ifndef SHEET_READER_CLIP_SHAPE_H
#define SHEET_READER_CLIP_SHAPE_H

#include "sheet/form.h"

#include <stdbool.h>

enum { CLIP_CORNERS = 4 };

/* A clip that hides nothing, and one of which nothing is known but that it hides something. */
struct sheet_clip clip_none(void);
struct sheet_clip clip_unknown(void);

/* What is seen through both; without width and height when that is nothing. */
struct sheet_clip clip_both(const struct sheet_clip *a, const struct sheet_clip *b);

/* Outlines that are being drawn, in mm: begin, then move, line, cubic and close as in any drawing. */
struct clip_shape {
    struct sheet_clip box;
    double xs[CLIP_CORNERS + 1], ys[CLIP_CORNERS + 1];
    int corners;   /* CLIP_CORNERS + 2: too many, or curves among them */
    int outlines;  /* of more than a point */
    double at[2];  /* the outline's first point */
    bool has_part; /* it went on from there */
};

struct clip_shape clip_shape_begin(void);
void clip_shape_move(struct clip_shape *s, double x, double y);
void clip_shape_line(struct clip_shape *s, double x, double y);
void clip_shape_cubic(struct clip_shape *s, double x1, double y1, double x2, double y2, double x, double y);
void clip_shape_close(struct clip_shape *s);

/* The box of all outlines: one that only holds them (by the controls of their curves), unless they are one rectangle
 * along the page. Without any outline nothing is seen. */
struct sheet_clip clip_shape_box(const struct clip_shape *s);

#endif
