/* Whom and what size a pattern is drafted for. */
#ifndef DRAFT_FIGURE_H
#define DRAFT_FIGURE_H

#include "geometry/vec2.h"
#include "pattern/pattern.h"

struct draft_figure {
    double position; /* of the size chart, within the pattern's sizes */
    int cup_group;   /* PATTERN_NONE: those pieces alone that are in every group */

    /* A blend: the size position of every level, one for each row of the chart; NULL: `position` everywhere. */
    const double *level_position;

    /* To the body: the person's own measurement for each of the pattern's figures, 0 where she lacks it and the chart's
     * is taken; NULL: the chart's for all. */
    const double *body_mm;
};

struct draft_figure draft_figure_at(double position, int cup_group);

/* What the figure measures there, mm: her own, or the chart's at that size position; 0 when neither is known. */
double draft_figure_mm(const struct pattern *pattern, const struct draft_figure *figure, int index, double position);

/* "12", or between two sizes "12 to 14", in `a`. */
const char *draft_size_name(struct arena *a, const struct pattern *pattern, double position);

#endif
