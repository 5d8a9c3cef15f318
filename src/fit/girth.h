/* The sewn garment measured on its pieces: how much cloth lies along a level line, or how long an edge is, as often as
 * it goes into the girth. */
#ifndef FIT_GIRTH_H
#define FIT_GIRTH_H

#include "draft/sized.h"

#include "base/arena.h"

/* A girth may be this much off what is given for it: a tape tells no more (our own choice, no source). */
#define FIT_GIRTH_TOLERANCE_MM 2.0

struct fit_girth_part {
    bool counts;      /* its piece is of the figure's cup group */
    double mm;        /* once; of a level line the sum of its stretches, without what darts take */
    size_t stretches; /* in how many the level line lies on the piece: 0 when it misses it; an edge has one */
    bool meets_mouth; /* the level line leaves the piece through a dart's mouth: the tape would turn off along a leg */
};

struct fit_girth {
    double mm;                          /* all round */
    const struct fit_girth_part *parts; /* one for each of the pattern's, in `a` */
};

/* Whether a part of it is of the figure's cup group, and all pieces of such parts are sound. */
bool fit_girth_can_be_measured(const struct draft_sized *sized, const struct pattern_girth *girth);

/* Measures one that can be. A level line runs through its point, square to the grain; on it counts what is cloth just
 * above or just below, so that a line along an edge or a dart's leg has its length. A dart takes what lies between its
 * legs, apex and mouth. On a piece that is spread for a fuller bust, a line between hinge and apex (or the slash to the
 * side, if that ends lower) is measured over the apex: with what the spread turned turned back. */
struct fit_girth fit_girth_measure(struct arena *a, const struct draft_sized *sized, const struct pattern_girth *girth);

/* The girth of that name all round, mm; 0 when the pattern does not measure it or it cannot be measured. */
double fit_girth_mm(const struct draft_sized *sized, const char *name);

#endif
