/* Whether the edges that are sewn together have the lengths they are meant to have. */
#ifndef FIT_SEAM_H
#define FIT_SEAM_H

#include "pattern/pattern.h"

#include "base/arena.h"

/* Seams may miss their intended difference by this much: thinner than a chalk line. Our own choice; common practice is
 * 1 to 2 mm. */
#define FIT_SEAM_TOLERANCE_MM 1.0

struct fit_seam {
    double length_mm[2]; /* of each side, along the stitching line */
    double off_mm;       /* first side's length minus what it should be */
};

/* Measures one seam at a size position. The scratch arena holds what is needed on the way. */
struct fit_seam fit_seam_measure(struct arena *scratch, const struct pattern *pattern, const struct pattern_seam *seam,
                                 double position);

#endif
