/* What is written on a piece of its size, and of how many are cut. */
#ifndef APP_COPIES_H
#define APP_COPIES_H

#include "draft/draft.h"
#include "job/job.h"

/* "Cut 2", "1 pair", "Cut 1, left", "Cut 1 on the fold"; in `a`. */
const char *app_copies_text(struct arena *a, const struct draft_cut *cut, const struct draft_piece *piece);

/* The same in a list that is headed so: "2", "1 pair", "1, left", "1 on the fold". */
const char *app_copies_cell(struct arena *a, const struct draft_cut *cut, const struct draft_piece *piece);

/* "Size 5", "Size 5, cup C-D", "Size 5 to 6", as the job has chosen; in `a`. */
const char *app_size_text(struct arena *a, const struct job *job);

#endif
