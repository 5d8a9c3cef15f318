/* A dress form with the places where a tape goes, drawn in lines. */
#ifndef BENCH_FIGURE_H
#define BENCH_FIGURE_H

#include "form/picture.h"

/* Where one measurement is taken: round the body at a level, or up and down between two. */
struct bench_taken {
    const char *number; /* in its bubble */
    double at, to;      /* share of the form's height, 0 its neck to 1 its lower edge; `to` 0: round the body at `at` */
    bool here;          /* she is writing this one now */
};

/* Draws it into a box, the bubbles at its sides. */
void bench_draw_figure(struct form_picture *p, struct bench_box box, const struct bench_taken *taken, size_t count);

#endif
