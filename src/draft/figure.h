/* Whom and what size a pattern is drafted for. */
#ifndef DRAFT_FIGURE_H
#define DRAFT_FIGURE_H

#include "geometry/vec2.h"
#include "pattern/pattern.h"

#include <stdbool.h>

/* A change of the draft for this person. */
enum draft_alteration_kind {
    DRAFT_LENGTHEN,  /* `what`: the name of lengthen lines; by `amount_mm` along the grain, below zero shorter */
    DRAFT_ALLOWANCE, /* `what`: "piece.edge"; its allowance is `amount_mm` */
    DRAFT_BUST,      /* a bust fuller by `amount_mm` in all, half of it on either side, in every piece with a spread */
    DRAFT_WIDTH,     /* `what`: a rectangle; it is cut `amount_mm` wide, opened out where it lies on the fold */
    DRAFT_TAKE_IN    /* `what`: a seam; at the level `row` it is moved into either piece by `amount_mm`, across the
                        grain (or along it, where the seam itself runs across), below zero out of it */
};

struct draft_alteration {
    enum draft_alteration_kind kind;
    const char *what;
    int row; /* of the chart; PATTERN_NONE where it has none */
    double amount_mm;
};

#define DRAFT_TRIAL_ALLOWANCE_MM 25.4 /* 1 in to let out from (common practice, no source) */

struct draft_figure {
    double position; /* of the size chart, within the pattern's sizes */
    int cup_group;   /* PATTERN_NONE: those pieces alone that are in every group */

    /* A blend: the size position of every level, one for each row of the chart; NULL: `position` everywhere. */
    const double *level_position;

    /* To the body: the person's own measurement for each of the pattern's figures, 0 where she lacks it and the chart's
     * is taken; NULL: the chart's for all. */
    const double *body_mm;

    const struct draft_alteration *alterations; /* in the order they are made */
    size_t alteration_count;

    bool trial; /* a trial garment: every edge but the fold has DRAFT_TRIAL_ALLOWANCE_MM, and the cutting list only the
                   fabric's main pieces */
};

struct draft_figure draft_figure_at(double position, int cup_group);

/* Whether a person means that seam: by its name, or by what stands before a comma in it ("side" of "side, A-B"). */
bool draft_is_seam(const struct pattern_seam *seam, const char *name);

/* "Size 12, cup C-D", "To the body, trial", "Size 5 to 6, blended, altered": for who reads it on the cloth. In `a`. */
const char *draft_figure_text(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure);

/* Whether an edge has a point, at an end or on its way, that follows that level of the body (a row of the chart). */
bool draft_edge_has_level(const struct pattern_piece *piece, int edge, int row);

/* Whether an edge begins, ends or passes at a point by its name. */
bool draft_edge_has_point(const struct pattern_edge *edge, int point);

/* Whether it is more than a size as it is drawn: to the body, blended or altered. */
bool draft_is_fitted(const struct draft_figure *figure);

/* What the figure measures there, mm: her own, or the chart's at that size position; 0 when neither is known. */
double draft_figure_mm(const struct pattern *pattern, const struct draft_figure *figure, int index, double position);

#endif
