/* An edge in all sizes as lines and cubics: the same steps in every size, whose points differ. */
#ifndef LIFTING_FIT_H
#define LIFTING_FIT_H

#include "geometry/path.h"

#include <stdbool.h>

/* What is written lies this near to what was drawn, and that to it, mm; where a curve was drawn in coarser chords,
 * within its points so near, and as far beyond its chords as the curve itself. Where points tremble, rounded when the
 * file was saved, a little more, so that it has no more steps than the eye sees. */
#define LIFTING_FIT_MM 0.01

/* An edge in one size. */
struct lifting_run {
    const vec2 *points;      /* at least two, no point twice in a row */
    const double *along_mm;  /* of each from the first */
    const double *number;    /* of each among the points of the outline, also between two */
    const double *beyond_mm; /* of the side behind each: how far a curve lies beyond it that was drawn in chords */
    size_t count;
};

/* How far along a closed path each of its points is, and how long it is all around; in `a`. */
const double *lifting_along(struct arena *a, struct geometry_path outline);

/* The part of a closed outline from one place on it to another, around its end where that lies before; the whole of it
 * where they are one. `along` is the outline's. In `a`. */
struct lifting_run lifting_run_of(struct arena *a, struct geometry_path outline, const double *along, double from_mm,
                                  double to_mm);

struct lifting_curve {
    size_t step_count, size_count;
    const bool *is_line; /* of each step */
    const vec2 *points;  /* [place * size_count + size]: the start, then of each step two controls and its end; the
                            controls of a line mean nothing */
};

/* The fewest steps that were found; in `a`. */
struct lifting_curve lifting_fit(struct arena *a, const struct lifting_run *runs, size_t count);

#endif
