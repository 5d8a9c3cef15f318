/* One piece on its way from the pattern to its lines, and the complaints about it. Not for other folders. */
#ifndef DRAFT_WORK_H
#define DRAFT_WORK_H

#include "draft/barrier.h"
#include "draft/outline.h"

struct draft_work {
    struct arena *a;
    const struct draft_sized *sized;
    int index; /* of the piece */
    const struct pattern_piece *piece;
    const struct draft_sized_piece *at; /* what it comes to */
    struct draft_outline outline;
    struct draft_barrier cut; /* its cut line, once that is grown */
    struct err_list *errs;
};

/* The size it is drafted in, as its faults name it. */
const char *draft_size_name(const struct draft_work *w);

/* Tells what is wrong with the piece at this size; the kind's sentence names {0} the piece, {1} the size, and {2}
 * something of the piece's. Always false. */
bool draft_refuse_part(const struct draft_work *w, const struct err_kind *kind, const char *part);

/* The same at the mark's own place in the file, with one more argument, or ERR_NONE, as {3}. */
bool draft_refuse_mark(const struct draft_work *w, const struct err_kind *kind, struct err_place place,
                       const char *part, struct err_arg more);

/* Puts notches, drill marks, darts and lines on a piece whose cut line is grown. False when one of them is told as a
 * fault. */
bool draft_place_marks(const struct draft_work *w, struct draft_piece *d);

/* Whether a place lies neither within a closed path nor on it. */
bool draft_lies_outside(struct geometry_path path, struct piece_pt pt);

/* How many buttonholes a piece has; and they added to the piece's `lines`, which have room for them, with the buttons.
 * False when one of them is told as a fault. */
size_t draft_buttonhole_count(const struct draft_work *w);
bool draft_place_buttons(const struct draft_work *w, struct draft_piece *d, struct draft_line *lines);

/* Tells an outline that runs back along itself, its first such place. A warning only. */
void draft_check_tips(const struct draft_work *w);

/* Tells allowances that close over an edge of the piece or are wider than the piece. Warnings only. */
void draft_check_allowances(const struct draft_work *w, const struct draft_piece *d);

/* A line along the grain through the middle (the centre of area) of the piece's seam outline. */
void draft_place_grain(struct draft_piece *d, vec2 middle, vec2 along);

static inline struct piece_pt draft_as_pt(vec2 v)
{
    return (struct piece_pt){ v.x, v.y };
}

static inline vec2 draft_as_vec2(struct piece_pt p)
{
    return (vec2){ p.x, p.y };
}

#endif
