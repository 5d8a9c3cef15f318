/* A lay longer than the light reaches: cut span by span. Where the spans end, how far the cloth is slid between them,
 * which marks both see; and where the cloth lies once it was slid, from marks and lines that were nudged, with its
 * doubt. Knows no garment: outlines on cloth alone.
 *
 * The cloth lies on the table by a rigid motion, cloth space to table space: never scaled to stretched cloth.
 *
 * Free is at first the cut end: what was cut is slid on, past the light, and the rest of the cloth, with all that is
 * still to be cut, holds on at larger x. */
#ifndef SPANS_SPANS_H
#define SPANS_SPANS_H

#include "base/err_list.h"
#include "geometry/space.h"
#include "geometry/turn.h"

#include <stdbool.h>
#include <stddef.h>

/* What is cut, and out of what. */
struct spans_cloth {
    const struct cloth_path *outlines; /* of the items as they lie: closed; no points: it is not laid */
    size_t count;
    const struct cloth_path
        *blocked; /* where there is no cloth, or none to trust: faults, holes, what was cut before */
    size_t blocked_count;
    double width_mm, length_mm;     /* of the cloth as it lies */
    double begin_mm;                /* where the light begins in the first span; 0: at the cut end */
    const struct cloth_pt *chalked; /* marks that are on the cloth already: they serve again */
    size_t chalked_count;
};

/* How much of the cloth the light reaches at once. */
struct spans_reach {
    double along_mm, across_mm;
};

/* How much of two neighbours is seen by both: room for a chalk mark that keeps its distance, and twice as much again so
 * that it is not always where a piece lies. Our own choice. */
#define SPANS_OVERLAP_MM 100.0

/* Marks keep this far from what is cut, from the cloth's borders and from where the light ends: a cross of chalk is a
 * centimetre wide, and scissors need cloth to hold. Where that leaves no room for two, the lesser one. Our own choice:
 * of 242 changes of spans in the demo's lays 82 % have room for two so, 92 % with the lesser one. */
#define SPANS_CLEAR_MM 15.0
#define SPANS_LEAST_CLEAR_MM 8.0

/* So far along it cloth may be pushed before a span's own marks leave the light. Our own choice. */
#define SPANS_PUSHED_MM 80.0

/* Marks nearer to each other than this are taken for one another, and tell little more than one: where there is waste
 * elsewhere, none is chalked so near another. Our own choice. */
#define SPANS_APART_MM 150.0

/* Within no item. */
enum { SPANS_WASTE = -1 };

/* Marks that two neighbours share, and a span's own: with an edge of the cloth, all that it takes. */
enum { SPANS_MARKS = 2, SPANS_WITNESSES = 2 };

struct spans_span {
    double from_mm, to_mm; /* of the cloth, in x: what the light shows */
    const int *items;      /* that are cut in this span, nearest to the free end first, so that neighbours stay put */
    size_t item_count;
    const int *parts; /* items that no span shows whole, of which this span shows a part; in the same order */
    size_t part_count;
    double slide_mm; /* how far the cloth is slid before it; 0 for the first */
    /* Chalked in the span before, on cloth that still holds on once that is cut: those by which pieces may be off the
     * least. None in the first. */
    struct cloth_pt marks[SPANS_MARKS];
    int mark_items[SPANS_MARKS]; /* the item that each lies within, where the waste has no room; SPANS_WASTE: none */
    int mark_count;
    /* Chalked before anything is cut in this span: should the cloth move, these two tell where to. Either pair may have
     * marks of spans before. */
    struct cloth_pt witnesses[SPANS_WITNESSES];
    int witness_count;
};

struct spans_plan {
    const struct spans_span *spans;
    size_t count;
};

/* The fewest parts of items, none unless one is longer than the reach, then the fewest spans, the first of which shows
 * the cut end, or begins where the cloth says; `overlap_mm` or more is seen by neighbours both. Nothing laid: no spans.
 * In `a`. Warns where the waste has not room for two marks: one or both lie within pieces, or there are too few. False
 * with a sentence when pieces lie beyond the reach across, the near edge in view, or the reach along is less than two
 * overlaps. */
bool spans_make(struct arena *a, const struct spans_cloth *cloth, struct spans_reach reach, double overlap_mm,
                struct spans_plan *out, struct err_list *errs);

/* --- where the cloth lies (seat.c) --- */

enum spans_sign {
    SPANS_MARK,       /* a chalked mark, nudged onto: both coordinates tell */
    SPANS_ALONG_LINE, /* on a line along the cloth, a fold or selvedge, at cloth.y: across the line alone tells */
    SPANS_ACROSS_LINE /* likewise on a line across it, the cut end, at cloth.x */
};

struct spans_sighting {
    enum spans_sign sign;
    struct cloth_pt cloth; /* the mark's place; of a line's point the coordinate along the line, roughly: it only says
                              which way round the cloth lies */
    struct table_pt table; /* where it was found */
    double sigma_mm;       /* of chalk and eye together, in each coordinate; > 0 */
};

struct spans_seat {
    struct geometry_motion to_table; /* cloth to table, no mirror */
    double covariance[3][3];         /* of shift x, shift y (mm, of the cloth's point `about`) and turn (radians) */
    struct cloth_pt about;
    double stretch; /* how much longer the cloth is between sightings than it was, 0.01: 1 %; NAN: not told by these.
                       Never applied */
    double stretch_sigma;
    double worst_off_mm; /* the largest that is left of any sighting … */
    size_t worst;        /* … which is this one */
};

/* Weighted least squares: the turn comes mostly from what lies farthest apart, the longest line. Warns of cloth that
 * lies stretched or pushed together, where that alone explains what the sightings leave. False with a sentence when
 * they do not tell shift and turn (too few, too close), or contradict each other more than chalk and eye can
 * (chi-square, 99.9 %). */
bool spans_sit(const struct spans_sighting *sightings, size_t count, struct spans_seat *out, struct err_list *errs);

/* Whether the cloth lies stretched, or pushed together, by more than chalk and eye can feign. */
bool spans_is_stretched(const struct spans_seat *seat);

/* By how much a place of the cloth may be off on the table, by the seat alone: the half of the longest diameter of its
 * 95 % ellipse, as calibration/doubt.h has it. */
double spans_doubt(const struct spans_seat *seat, struct cloth_pt at);

#endif
