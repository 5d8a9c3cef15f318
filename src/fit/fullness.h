/* Edges that are meant to be longer than what they are sewn to: gathered, eased, or folded in half. */
#ifndef FIT_FULLNESS_H
#define FIT_FULLNESS_H

#include "draft/draft.h"

enum fit_fullness_kind { FIT_EASED, FIT_GATHERED, FIT_FOLDED };

/* Up to this much longer an edge is eased in, beyond it gathered. Our own choice: gathers begin at 1.5 (common
 * practice), ease that is pressed flat stays under a tenth. */
#define FIT_MOST_EASE 1.2

struct fit_fullness {
    enum fit_fullness_kind kind;
    int seam;              /* in the pattern's seams */
    int edge;              /* of the piece */
    double from_mm, to_mm; /* the longer side's stitching line, and that of what it is sewn to */
    size_t interval;       /* the stretch of the seam, between marks, that is longer; with interval_count */
    size_t interval_count; /* 0: the whole seam */
    bool with_others;      /* other edges share the seam's side: the lengths are of all of them */
    bool is_half;          /* the edge ends at the piece's fold and is in the seam once: the lengths are of one half */
};

/* What is fuller at a piece of the draft (index in its pieces), by the seams whose pieces are all in the draft. An edge
 * is folded when a fold line of its piece ends in its middle and it is twice as long. Excess of less than
 * FIT_SEAM_TOLERANCE_MM is none. Returns how many; *out lives in `a`. */
size_t fit_fullness_of(struct arena *a, const struct pattern *pattern, const struct draft *draft, size_t piece,
                       const struct fit_fullness **out);

/* "eased", "gathered", "folded". */
const char *fit_fullness_name(enum fit_fullness_kind kind);

#endif
