/* The cutting list of a view in one size, as figures: table, JSON, CSV and worksheet are all written from it. */
#ifndef EXPORT_LIST_H
#define EXPORT_LIST_H

#include "draft/draft.h"
#include "fit/fullness.h"
#include "lay/lay.h"

struct export_extent {
    double width_mm, height_mm;
};

/* One line of the cutting list. */
struct export_line {
    const struct draft_piece *piece;
    struct draft_cut cut;
    bool is_rectangle;
    struct export_extent finished;       /* from stitching line to stitching line; of a piece on the fold the half */
    struct export_extent as_cut;         /* the same with allowances, from cut line to cut line */
    struct export_extent opened;         /* as cut, a piece on the fold opened out; of any other as_cut */
    const struct fit_fullness *fullness; /* none of interfacing, which is cut to its piece */
    size_t fullness_count;
    bool is_block; /* the interfacing that a block of fabric is fused with first */
    int in_block;  /* how many are not cut by themselves, but out of that */
};

struct export_list {
    const struct pattern *pattern;
    const struct pattern_view *view;
    const char *size;      /* its name, or "3 to 4" */
    const char *cup_group; /* NULL: the pattern has none */
    const char *whom;      /* "Size 5, cup C-D", "To the body, trial" */
    const char *wearer;    /* whose body it is cut for; NULL: no body, left to be written by hand */
    const struct export_line *lines;
    size_t line_count;
    const struct draft_notion *notions; /* those of all views first */
    size_t notion_count;
};

/* The list of a view that was drafted without fault. What it holds lives in `a`, the pattern and the draft. */
struct export_list export_list_of(struct arena *a, const struct pattern *pattern, int view, const struct draft *draft);

/* Puts the block that is laid so (lay/lay.h) before the interfacing of the list; `in_block` tells of each line how many
 * are cut out of it. Nothing is done where there is no block. */
void export_list_put_block(struct arena *a, struct export_list *list, const struct lay_block *block,
                           const struct lay_hands *in_block);

#endif
