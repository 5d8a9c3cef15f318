/* The marks of a piece made ready to be written: what is marked in several sizes is one mark with a place in each. Not
 * for other folders. */
#ifndef LIFTING_MARKING_H
#define LIFTING_MARKING_H

#include "lifting/made.h"
#include "lifting/write.h"

/* A mark in all drawn sizes. */
struct lifting_marked {
    enum lifting_mark_kind kind;
    const struct lifting_mark *like; /* one of its sizes' */
    const vec2 *points;  /* [point * size_count + drawn], in the piece's plane; a notch and a drill mark have
                            one, a line two, a dart leg, apex, leg */
    const bool *found;   /* of each drawn size; false: put where its neighbour has it */
    size_t edge;         /* of a notch or dart */
    const double *at_mm; /* of a notch in each drawn size: along the stitching line of its edge */
    bool from_end;       /* from its end backwards */
};

/* Notches, drill marks, darts, lengthen lines, straight lines within; what cannot be written is left out and counted in
 * *left_out. In `a`; how many. */
size_t lifting_gather_marks(struct arena *a, const struct lifting_made *made, const struct lifting_wish *wish,
                            const struct lifting_marked **out, size_t *left_out);

#endif
