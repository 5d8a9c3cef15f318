/* The job's cutting list on the bench: what is cut of each line. */
#ifndef BENCH_CUT_LIST_H
#define BENCH_CUT_LIST_H

#include "draft/draft.h"
#include "job/job.h"

struct bench;

struct bench_cut_line {
    const struct draft_piece *piece;
    const char *copies; /* "2", "1 pair", "1 on the fold, interfacing" */
    const char *brief;  /* the same where there is little room: "1, interfacing" */
    size_t snips;
    const char *kinds; /* of marks: "dots, dart points"; NULL: none */
    const char *marks; /* "4 notches, marks", or "nothing to mark" */
    int wanted, cut;   /* pieces; of what lies in no layout nothing is known, and 0 of it is cut */
    bool in_hand;      /* at the table */
};

struct bench_cut_list {
    struct draft draft;
    const struct bench_cut_line *lines;
    size_t count, done; /* lines, and those of which all is cut */
    int left;           /* pieces still to be cut, and of each material: the table tells those of one */
    int left_of[JOB_MATERIALS];
};

/* In `a`. False while pieces cannot be drafted. */
bool bench_cut_list_of(struct arena *a, const struct bench *b, struct bench_cut_list *out);

#endif
