/* A lay longer than the light reaches: cut span by span. Where the spans end, how far the cloth is slid between them,
 * which marks both see; and where the cloth lies once it was slid, from marks and lines that were nudged, with its
 * doubt.
 *
 * The cloth lies on the table by a rigid motion, cloth space to table space: never scaled to stretched cloth. */
#ifndef SPANS_SPANS_H
#define SPANS_SPANS_H

#include "geometry/space.h"
#include "geometry/turn.h"
#include "lay/lay.h"

/* How much of the cloth the light reaches at once. */
struct spans_reach {
    double along_mm, across_mm;
};

struct spans_span {
    double from_mm, to_mm; /* of the lay, in x: what the light shows */
    const int *items;      /* that are cut in this span, nearest to the free end first */
    size_t item_count;
    const int *parts; /* items longer than the reach, of which this span shows a part */
    size_t part_count;
    double slide_mm;          /* how far the cloth is slid before it; 0 for the first */
    struct cloth_pt marks[4]; /* seen by this span and the one before, in the waste; the first span's: its own two */
    int mark_count;
};

struct spans_plan {
    const struct spans_span *spans;
    size_t count;
};

/* The fewest spans; with no item longer than the reach none is parted (greedy windows: optimal, an interval argument in
 * the .c), else by dynamic programming the fewest parts, then the fewest spans. `marks_mm` is how much of two
 * neighbours must be seen by both. In `a`. False with a sentence when the cloth is wider than the reach across, or the
 * reach is nothing. */
bool spans_make(struct arena *a, const struct lay *lay, struct spans_reach reach, double marks_mm,
                struct spans_plan *out, struct err_list *errs);

/* --- where the cloth lies (seat.c) --- */

enum spans_sign {
    SPANS_MARK, /* a chalked mark of the cloth, nudged onto: both coordinates tell */
    SPANS_NEAR_EDGE /* the light's point lies on the fold or selvage line (y = 0 of the cloth): only across tells */,
    SPANS_CUT_END /* likewise on the cut end (x = 0) */
};

struct spans_sighting {
    enum spans_sign sign;
    struct cloth_pt cloth; /* the mark's place */
    struct table_pt table; /* where it was found */
    double sigma_mm;       /* of chalk and eye together */
};

struct spans_seat {
    struct geometry_motion to_table; /* cloth to table, no mirror */
    double covariance[3][3];         /* of shift x, shift y (mm, of the cloth's point `about`) and turn (radians) */
    struct cloth_pt about;
    double stretch; /* how much longer the cloth is between marks than it was, 0.01: 1 %; NAN: not told by these */
    double stretch_sigma;
    double worst_off_mm; /* the largest that is left of any sighting … */
    int worst;           /* … which is this one */
};

/* Least squares. False with a sentence when they do not tell shift and turn (too few, too close), or contradict each
 * other more than chalk and eye can (chi-square, 99.9 %). */
bool spans_sit(const struct spans_sighting *sightings, size_t count, struct spans_seat *out, struct err_list *errs);

/* By how much a place of the cloth may be off on the table (95 %, radius of a circle), by the seat alone. */
double spans_doubt(const struct spans_seat *seat, struct cloth_pt at);

#endif
