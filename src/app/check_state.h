/* What the parts of proof-reading share. Not for other folders. */
#ifndef APP_CHECK_STATE_H
#define APP_CHECK_STATE_H

#include "base/buffer.h"
#include "draft/draft.h"
#include "job/job.h"
#include "json/write.h"

#include <stdbool.h>
#include <stddef.h>

struct check {
    struct arena *a;
    const char *path;
    const char *body; /* the file of whoever a pattern is drafted to besides, or NULL */
    struct base_buffer report;
    struct json_out *json; /* the object that is written, or NULL */
    struct err_list *errs;
};

/* The first seam that sews an edge; its index in the pattern, or PATTERN_NONE. */
struct check_sewn {
    int *seams; /* one for each edge of a piece */
};

/* A pattern under the proof-reader's eyes: sized and drafted once in every size of every cup group. */
struct check_pattern {
    struct check *c;
    const struct pattern *p;
    size_t group_count;          /* 1 for a pattern without cup groups */
    bool groups_differ;          /* a piece of no group may change with the group, as formulas read its bust */
    struct draft *drafts;        /* group by group, in each size by size; a piece of no group stands in the first group
                                    alone unless groups differ; of a group without pieces of its own nothing */
    struct arena **arenas;       /* of each draft, or NULL */
    struct check_sewn *sewn;     /* of each piece */
    bool *has_slip;              /* of each piece: a number in a list of its own was told to be out of line */
    bool pattern_has_slip;       /* the same of a list that all pieces may read */
    struct err_list *body_alone; /* formulas that read what no chart has */
};

/* Adds a line to the report. */
void check_say(struct check *c, const char *line);

/* "1 size", "3 sizes": both texts have a place for the count, and are collected for translators. In the arena. */
const char *check_count(struct arena *a, size_t count, const char *one, const char *more);

/* Texts one after the other, with commas between: "a, b, c"; in the arena. */
const char *check_listed(struct arena *a, const char *list, const char *next);

/* A length in the pattern's unit, without it, as exact as seams are shown. */
const char *check_length_text(const struct check_pattern *k, double mm);

/* Passes on what was not told already: the first size says it for the others, and a piece of all cup groups may be
 * drafted once for each of them. Of the first `drafted`, which the draft found, warnings become faults: a person may
 * cut all the same, but a proof-reader is stricter. */
void check_tell_new(struct check *c, const struct err_list *found, int drafted);

/* Takes out of what was found in a size the formulas that read what only a body has; of the first `*drafted` so many
 * less are left. */
void check_sift_body_alone(struct check_pattern *k, struct err_list *found, int *drafted);

/* The pattern with one view alone: of all pieces of a cup group, and of all that is counted. */
struct pattern check_with_all(const struct check_pattern *k, int cup_group);

/* Looks at what was drafted in a size: the pieces, their edges and their marks. */
void check_drafted(const struct pattern *p, const struct draft *draft, const char *size, struct err_list *errs);

/* The cup group that a group's number stands for: PATTERN_NONE in a pattern without. */
int check_group(const struct check_pattern *k, size_t group);

/* ", cup group A-B"; of PATTERN_NONE nothing. In the arena. */
const char *check_group_text(const struct check_pattern *k, int cup_group);

const struct draft *check_draft_at(const struct check_pattern *k, size_t group, size_t size);

/* The group in which a piece of that cup group was drafted first. */
size_t check_first_group(int cup_group);

/* What a job has laid on its cloths. */
void check_layouts(struct check *c, const struct job *job, const struct draft *draft);

/* A whole pattern file, and its parts in the order they are told. */
void check_pattern_file(struct check *c);
void check_numbers(struct check_pattern *k);    /* lists with a number out of line */
void check_outlines(struct check_pattern *k);   /* drafts; pieces, edges and marks in every size */
void check_to_body(struct check_pattern *k);    /* what is drafted to a body alone */
void check_ease(struct check_pattern *k);       /* against what is meant */
void check_girths(struct check_pattern *k);     /* measured on the pieces, against what is given and meant */
void check_sizes(struct check_pattern *k);      /* sizes that cross, sizes that shrink */
void check_seams(struct check_pattern *k);      /* walked and printed */
void check_allowances(struct check_pattern *k); /* missing ones, and seams without */
void check_use(struct check_pattern *k);        /* what nothing uses */

#endif
