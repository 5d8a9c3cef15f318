/* A pattern for one figure: every value a number, every point a place, every edge a row of curves. Values, points and
 * edges may each rest on any others, of other pieces too; they are worked out in the order they need one another. */
#ifndef DRAFT_SIZED_H
#define DRAFT_SIZED_H

#include "base/err_list.h"
#include "draft/figure.h"
#include "geometry/path.h"

#include <stdbool.h>

/* Curves are flattened to within this; grown lines, whose radius may be larger, stay within 0.05 mm. Smaller makes more
 * points, larger shows as corners under a 3 mm line. */
#define DRAFT_FLATTEN_MM 0.01

/* What a row of buttons comes to, mm. */
struct draft_sized_buttons {
    int count;
    double first_mm, last_mm, length_mm;
};

struct draft_sized_piece {
    bool is_sound;                          /* of the cup group, and all of it could be worked out */
    const vec2 *points;                     /* in piece space, in the order of the pattern's, where they are drawn; a
                                               dart's leg on the stitching line */
    const struct geometry_path *edge_paths; /* each edge on the stitching line, as it is written, within
                                               DRAFT_FLATTEN_MM, open, no point twice in a row; curves after them */
    const double *edge_mm;                  /* how long each of those paths is */
    const struct geometry_path *cut_paths;  /* each edge where it is cut; NULL: the cut line is grown from the
                                               stitching line */
    const double *allowance_mm;             /* one for each edge; 0 where no stitching line can be drawn */
    const double *notch_mm; /* of each notch: how far along its edge, the middle of a double one; may lie off it */
    const struct draft_sized_buttons *button_rows;
};

struct sizer;

/* What a seam is meant to be. */
struct draft_sized_seam {
    bool is_sound;             /* of the cup group, and all of it could be worked out */
    double ratio;              /* first side over second; 0: not by ratio */
    double difference_mm;      /* first side minus second; not by ratio */
    const double *interval_mm; /* first side minus second, one for each interval; NULL: shared out by length */
};

struct draft_sized {
    const struct pattern *pattern;
    struct draft_figure figure;
    const struct draft_sized_piece *pieces; /* in the order of the pattern's */
    const struct draft_sized_seam *seams;   /* likewise */
    struct sizer *sizer; /* what is worked out already, for what draft_value_mm and draft_count are asked */
};

/* Works out the pieces of the figure's cup group; lives in `a`. Told: what leans on itself, with its whole way round;
 * what divides by zero or has no answer; constructions without a place; values out of their bounds. Pieces with such a
 * fault are not sound, all others are. */
const struct draft_sized *draft_size(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure,
                                     struct err_list *errs);

/* The same, but told only of the pieces that are wanted; `wanted` says it of each of the pattern's. What is wrong with
 * others of the cup group only leaves them unsound. */
const struct draft_sized *draft_size_wanted(struct arena *a, const struct pattern *pattern,
                                            const struct draft_figure *figure, const bool *wanted,
                                            struct err_list *errs);

/* What one of the pattern's seams is meant to be. */
const struct draft_sized_seam *draft_seam_at(const struct draft_sized *sized, const struct pattern_seam *seam);

/* What a value of the pattern comes to for the figure, mm (or a plain number); one that is not given is 0. False when
 * it was told that it has no answer: what it rests on, once. Not from two threads at a time. */
bool draft_value_mm(const struct draft_sized *sized, const struct pattern_value *value, double *out,
                    struct err_list *errs);

/* How many a count comes to for the figure; false when it was told that it is no whole number from 1 on. */
bool draft_count(const struct draft_sized *sized, const struct pattern_count *count, int *out, struct err_list *errs);

#endif
