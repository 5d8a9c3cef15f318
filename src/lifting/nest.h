/* Which closed outlines are pieces: those that lie in no other, but in frames. For this folder alone. */
#ifndef LIFTING_NEST_H
#define LIFTING_NEST_H

#include "drawing/squares.h"
#include "lifting/regions.h"

enum { NEST_NONE = -1 };

/* A drawn line along an outline, and how much of the outline it is. */
struct nest_use {
    size_t line; /* of the drawing */
    double length_mm;
};

struct nest_outline {
    struct geometry_path path; /* counter-clockwise */
    double area_mm2, length_mm, gap_mm;
    struct geometry_box box;
    bool of_size, of_cup;        /* some of it is drawn for one size, for one cup group alone */
    const struct nest_use *uses; /* in order of the lines */
    size_t use_count;
    int in; /* the smallest outline that it lies in; NEST_NONE: in none */
    bool piece;
    const struct nest_outline *rooms; /* of a piece: outlines within that tell a count of their own, as it does too */
    size_t room_count;
};

/* What else a sheet tells of its outlines. */
struct nest_asked {
    const struct drawing_square *squares;
    size_t square_count;
    const vec2 *counts; /* where it is written how often something is cut */
    size_t count_count;
    vec2 page; /* its width and height, mm; 0, 0: not known */
};

/* Whether two outlines have one box and, by so much of their length, one area: then they are one, as near as that. */
bool nest_is_same(const struct nest_outline *a, const struct nest_outline *b, double near_mm);

/* Whether it is a rectangle with its sides along the page's, all but its corners. */
bool nest_is_rectangle(const struct nest_outline *o);

/* Whether that square is the outline. */
bool nest_is_square(const struct nest_outline *o, const struct drawing_square *s);

/* Sorts the outlines, the larger first, and finds `in`, `piece` and the rooms, in `a`. False when *work does not
 * suffice. */
bool nest_find(struct arena *a, struct nest_outline *outlines, size_t count, const struct nest_asked *asked,
               size_t *work);

#endif
