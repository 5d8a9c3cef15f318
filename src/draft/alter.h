/* How a piece is altered, worked out from its points as they are written. Not for other folders. */
#ifndef DRAFT_ALTER_H
#define DRAFT_ALTER_H

#include "draft/sizer.h"

#include <string.h>

/* What lies past a line in direction `down` moves along the grain, downwards. */
struct sizer_strip {
    const struct pattern_line *line;
    vec2 at, down;
    double amount_mm;
};

struct sizer_spread;

struct sizer_change {
    bool can_be_made; /* otherwise it was told why not */
    vec2 up;          /* along the grain */
    struct sizer_strip *strips;
    size_t strip_count;
    const struct sizer_spread *spread; /* for a fuller bust, or NULL */
    double spread_mm;                  /* of all alterations that spread it */
    vec2 *taken_in;                    /* of each point, by all seams */
    vec2 widen_across;                 /* unit direction in which a rectangle is made wider … */
    double widen_from, widen_share;    /* … by that share of how far it lies past there, below 0 narrower */
};

/* Slashes the piece for a bust that is fuller by the change's `spread_mm` on it: gives the change its spread. The part
 * between the slashes to armhole and side turns about the hinge until the apex has moved out by the amount, square to
 * the grain; the part between the slashes to side and waist goes with the apex without turning; and the middle below the
 * lengthen line (or the apex, without one) comes down as far as the apex did. False when it was told that it cannot be
 * done. */
bool sizer_spread_bust(struct sizer *z, int piece, struct sizer_change *change);

/* Gives a rectangle the width that it is to have as it is cut, opened out where it lies on the fold, with her own
 * allowances or else those that are written: adds it to the change. The last word counts. False when it was told that
 * it cannot be so narrow. */
bool sizer_widen(struct sizer *z, int piece, double cut_mm, struct sizer_change *change);

/* How far a place moves with the part it is in; `point` is its index where it is one. */
vec2 sizer_spread_shift(const struct sizer_spread *spread, vec2 at, int point);

#endif
