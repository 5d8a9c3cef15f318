/* A pattern at one size becomes outlines in mm: the stitching (seam) line as written, the cut line grown from it by
 * each edge's allowance, grain, fold, notches and other marks, and the place of the label. */
#ifndef DRAFT_DRAFT_H
#define DRAFT_DRAFT_H

#include "draft/sized.h"
#include "geometry/space.h"

#include <stdbool.h>

/* Where an edge lies in the seam line: from point `first` to point `first + count`, around the closed path's end. */
struct draft_edge {
    size_t first, count;
    double length_mm;
};

struct draft_notch_place {
    struct piece_pt at;      /* on the cut line */
    struct piece_pt on_seam; /* on the stitching line, square to it */
    vec2 inward;             /* unit direction from the cut line into the piece */
    struct piece_pt mouth[2]; /* where its cuts begin on the cut line: a slit's one at `at`; a V's two on either side of
                                 it, of a V on the fold one at the fold */
};

/* A notch with one place, or a double one with two. */
struct draft_notch {
    int edge; /* in the pattern's piece */
    enum pattern_notch_shape shape;
    struct draft_notch_place places[2];
    size_t place_count;
    double depth_mm; /* of the snip (a V's is twice as wide): 3, or half the allowance; 0 where there is none to be
                        snipped */
};

/* A line that is marked, not cut. */
struct draft_line {
    enum pattern_line_kind kind; /* PATTERN_LINE_DART: a dart's leg, from the stitching line to the apex */
    struct piece_pt ends[2];
    const char *label; /* written beside it, or NULL */
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
    int fold_edge;            /* the edge that lies on it, or PATTERN_NONE */
    struct piece_pt fold[2];  /* ends of the fold on the cut outline, in the outline's direction */
    struct piece_pt grain[2]; /* a line along the grain through the middle of the piece */
    struct piece_pt label_at;
    const struct draft_notch *notches;
    size_t notch_count;
    const struct piece_pt *drill_marks;
    size_t drill_mark_count;
    const struct draft_line *lines; /* darts' legs first, a dart's two in a row */
    size_t line_count;
    const struct piece_pt *buttons; /* their middles; buttonholes are lines */
    size_t button_count;
};

/* One line of the cutting list. */
struct draft_cut {
    int piece; /* in the draft's pieces */
    int count;
    enum pattern_cloth cloth;
    enum pattern_hand hand; /* left: mirrored; of pairs, half the count is */
    enum pattern_side fuse; /* of interfacing */
};

/* A notion of the view. */
struct draft_notion {
    const char *name;
    int count;
    double size_mm, length_mm; /* 0: not given */
};

struct draft {
    const struct draft_sized *sized;  /* for whom */
    const struct draft_piece *pieces; /* those of the cup group that were asked for */
    size_t piece_count;
    const struct draft_cut *cuts; /* of the view; empty when none was asked for */
    size_t cut_count;
    const struct draft_notion *notions; /* of the view, those of all views first; none for a trial garment */
    size_t notion_count;
};

/* Drafts the pieces of a view (or, with PATTERN_NONE, every piece of the cup group) for a figure; everything lives in
 * `a`. Told with piece and size: what draft_size tells; an outline without area, one that crosses itself or reaches
 * past its own fold, a grain without direction, a notch off its edge or in a dart's mouth, a dart that does not begin
 * on its edge, ends outside the piece or has no room to be folded, a drill mark or a line's end outside it, a row of
 * buttons without room for them, one of them outside the stitching line; and a view with nothing to cut for
 * the cup group; false then, and the rest is drafted all the same, so that all such faults are told at once. Warned of,
 * as what a person may cut all the same: an outline that runs back along itself, allowances that close over an edge
 * or are wider than the piece, legs of a dart that differ, two notches at one place, buttonholes that run into each
 * other. */
bool draft_make(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure, int view,
                struct draft *out, struct err_list *errs);

/* Where along its edge a dart's mouth begins and ends, mm; false when a leg does not begin on the edge. The piece is
 * sound. */
bool draft_dart_mouth(const struct draft_sized_piece *at, const struct pattern_dart *dart, double mouth[2]);

/* The unit direction of a sound piece's grain; {0, 0} when its two points are one place. */
vec2 draft_grain_of(const struct pattern_piece *piece, const struct draft_sized_piece *at);

/* A piece on the fold as the whole piece, for cutting in one layer: its outlines closed over the fold, notches, drill
 * marks, buttons and lines on both halves (one on the fold only once), no fold. `edges` are those of the half as drawn,
 * the fold without length; the label stays there. Any other piece comes out as it is. Lives in `a` and in what `half`
 * lives in.
 */
struct draft_piece draft_unfold(struct arena *a, const struct draft_piece *half);

#endif
