/* A pattern at one size becomes outlines in mm: the stitching (seam) line as written, the cut line grown from it by
 * each edge's allowance, grain, fold and the place of the label. */
#ifndef DRAFT_DRAFT_H
#define DRAFT_DRAFT_H

#include "base/err_list.h"
#include "geometry/space.h"
#include "pattern/pattern.h"

#include <stdbool.h>

/* Curves are flattened to within this; grown lines, whose radius may be larger, stay within 0.05 mm. Smaller makes more
 * points, larger shows as corners under a 3 mm line. */
#define DRAFT_FLATTEN_MM 0.01

/* Where an edge lies in the seam line: from point `first` to point `first + count`, around the closed path's end. */
struct draft_edge {
    size_t first, count;
    double length_mm;
};

struct draft_piece {
    const char *name, *label;
    int index;                   /* in the pattern's pieces */
    struct piece_path seam, cut; /* closed, counter-clockwise */
    struct piece_path seam_line,
        cut_line;                   /* the same, open along the fold when there is one: what is sewn, what is cut */
    const struct draft_edge *edges; /* one for each edge of the pattern's piece, in its order */
    size_t edge_count;
    bool has_fold;
    struct piece_pt fold[2];  /* ends of the fold on the cut outline, in the outline's direction */
    struct piece_pt grain[2]; /* a line along the grain through the middle of the piece */
    struct piece_pt label_at;
};

/* One line of the cutting list. */
struct draft_cut {
    int piece; /* in the draft's pieces */
    int count;
    enum pattern_cloth cloth;
};

struct draft {
    double position; /* of the size chart */
    int cup_group;
    const struct draft_piece *pieces; /* those of the cup group that were asked for */
    size_t piece_count;
    const struct draft_cut *cuts; /* of the view; empty when none was asked for */
    size_t cut_count;
};

/* Drafts the pieces of a view (or, with PATTERN_NONE, every piece of the cup group) at a size position; everything
 * lives in `a`. An outline without area, one that crosses itself or reaches past its own fold, and a grain without
 * direction are told with piece and size; false then, and the rest is drafted all the same, so that all such faults are
 * told at once. `position` lies within the pattern's sizes. */
bool draft_make(struct arena *a, const struct pattern *pattern, double position, int cup_group, int view,
                struct draft *out, struct err_list *errs);

/* Length along the stitching line of an edge of a pattern's piece at a size position, mm. */
double draft_edge_length(struct arena *scratch, const struct pattern_piece *piece, int edge, double position);

#endif
