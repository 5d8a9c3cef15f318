/* Small pictures of a pattern's pieces on the bench; none of them true to scale. */
#ifndef BENCH_PIECES_H
#define BENCH_PIECES_H

#include "draft/draft.h"
#include "form/picture.h"
#include "job/job.h"

/* Outlines of all pieces of a view at a size, side by side in a box: what a view looks like at a glance. */
void bench_draw_view(struct form_picture *p, struct bench_box box, const struct job *job, int view, bool bold);

/* A view's pieces in all sizes of the chart, drafted once. */
struct bench_nest {
    struct arena *a; /* owns the drafts */
    const struct pattern *pattern;
    int view, cup_group;
    struct draft *sizes;
    size_t count; /* 0: nothing is drafted */
};

/* Before the pattern goes. */
void bench_nest_forget(struct bench_nest *nest);

/* The view's two largest pieces in every size, thin, and as the job has them, bold; with a bar that says how long it
 * is. */
void bench_draw_nest(struct form_picture *p, struct bench_box box, struct bench_nest *nest, const struct job *job,
                     enum units_length unit);

/* A finished job's pieces; false where they cannot be drafted. */
bool bench_draft(struct arena *a, const struct job *job, struct draft *out);

/* What a piece of the job's pattern is called; its name where the pattern has none such. */
const char *bench_piece_label(const struct job *job, const char *name);

/* One piece as it is cut, with what is marked on it. */
void bench_draw_piece(struct form_picture *p, struct bench_box box, const struct draft_piece *piece);

#endif
