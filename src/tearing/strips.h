/* Rectangles in strips: which of them lie side by side, so that the strips together are as short as can be. Plain
 * arithmetic: no cloth, no pieces. A strip is as high as its highest rectangle; beside that lie columns of others, each
 * as wide as its widest, one above the other as far as the strip is high. */
#ifndef TEARING_STRIPS_H
#define TEARING_STRIPS_H

#include "base/arena.h"

#include <stdbool.h>

struct tearing_kind {
    double width_mm, height_mm; /* across the cloth; along it */
    int count;                  /* of equal ones */
};

/* Where one rectangle lies in its strip. */
struct tearing_spot {
    int kind;
    double across_mm, along_mm; /* of its near corner */
};

struct tearing_row {
    double height_mm, used_mm; /* used: of the width, by all columns */
    const struct tearing_spot *spots;
    size_t spot_count;
};

struct tearing_rows {
    const struct tearing_row *rows; /* the highest first */
    size_t row_count;
    double length_mm; /* of all, each with its extra */
    bool is_least;    /* every way was looked at: no strips are shorter */
};

#define TEARING_SLACK_MM 1e-6 /* two halves are no wider than their whole */

enum { TEARING_MOST = 2000 }; /* rectangles in all: more than any quilt, few enough to be done at once */

/* Fills strips that are `width_mm` wide, each of which takes `extra_mm` of length more than it is high. The least
 * length where all ways can be looked at (a dozen different rectangles, or more of which many are alike), else each in
 * turn, the highest first, where it leaves least. No kind is wider than the strips, and there are at most TEARING_MOST.
 * The result lives in `a`. */
struct tearing_rows tearing_fill(struct arena *a, const struct tearing_kind *kinds, size_t count, double width_mm,
                                 double extra_mm);

/* The other way about: strips as long as each other, side by side across `width_mm`, each of which takes `extra_mm`
 * more of it than it is wide. Finds the least length that they need (*length_mm). In the result heights are across the
 * cloth and widths along it. False when they have no room side by side however long they are. */
bool tearing_fill_along(struct arena *a, const struct tearing_kind *kinds, size_t count, double width_mm,
                        double extra_mm, double *length_mm, struct tearing_rows *out);

#endif
