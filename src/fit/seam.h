/* Whether the edges that are sewn together have the lengths they are meant to have: walked on the stitching line from
 * mark to mark, darts' mouths left out. */
#ifndef FIT_SEAM_H
#define FIT_SEAM_H

#include "draft/sized.h"

#include "base/arena.h"

/* Seams may miss their intended difference by this much: thinner than a chalk line. Our own choice; common practice is
 * 1 to 2 mm. */
#define FIT_SEAM_TOLERANCE_MM 1.0

/* From one mark to the next, or to an end of the seam. */
struct fit_interval {
    double length_mm[2]; /* of each side */
    double meant_mm;     /* the difference that is meant: first side minus second */
    double off_mm;       /* first side's length minus what it should be */
};

struct fit_seam {
    double length_mm[2];                  /* of each side, whole */
    double ratio;                         /* that is meant, first side over second; 0: not by ratio */
    double off_mm;                        /* of the whole seam: first side's length minus what it should be */
    bool marks_agree;                     /* both sides have the same number of marks */
    size_t unlike_mark;                   /* the first, from 1, that is a double notch on one side alone; 0: none */
    const struct fit_interval *intervals; /* in the arena; only the whole seam when marks do not agree */
    size_t interval_count;
    double worst_mm;       /* the largest miss, without its sign, of the whole and of all intervals */
    size_t worst_interval; /* where that is; interval_count: only in the sum */
};

/* How long an edge or curve of a sound piece is as it is sewn: on the stitching line, without darts' mouths. */
double fit_sewn_mm(const struct draft_sized *sized, int piece, int edge);

/* Whether it can be told what is meant, and all its pieces are there: of the figure's cup group, and sound. */
bool fit_seam_can_be_measured(const struct draft_sized *sized, const struct pattern_seam *seam);

/* Measures one seam that can be. What is meant: by ratio, first = ratio x second in every interval; with intervals
 * given, first = second + that interval's difference; otherwise the seam's difference shared out over the intervals by
 * the second side's lengths. The scratch arena holds the intervals. */
struct fit_seam fit_seam_measure(struct arena *scratch, const struct draft_sized *sized,
                                 const struct pattern_seam *seam);

#endif
