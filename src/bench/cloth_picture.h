/* A cloth as it lies on the table to be cut, drawn on the bench, with the lines of light that it is laid along. Not
 * true to scale. */
#ifndef BENCH_CLOTH_PICTURE_H
#define BENCH_CLOTH_PICTURE_H

#include "form/picture.h"
#include "job/job.h"
#include "lay/lay.h"

struct bench_lying {
    struct lay_task task;     /* its cloth and how that is spread; items only where a layout could be made */
    struct lay_place *places; /* one for each of them */
    int turn;                 /* its length runs from her left to her right; by so many quarter turns to the left */
};

/* How one of a job's cloths lies, along the table; in `a`. False: there is none, or it cannot be spread. */
bool bench_lying_of(struct arena *a, const struct job *job, size_t cloth, struct bench_lying *out);

/* Whether a fold lies at the edge it is laid by, and across from that. */
bool bench_fold_is_near(const struct bench_lying *lying);
bool bench_fold_is_far(const struct bench_lying *lying);

/* How far along it pieces lie; 0: none does. */
double bench_length_laid(const struct bench_lying *lying);

/* What a tape says across it, selvedges and all; mm. */
double bench_width_lying(const struct bench_lying *lying);

/* Into a box; `across` stands at both of its ends: how wide it is to be. */
void bench_draw_cloth(struct form_picture *p, struct bench_box box, const struct bench_lying *lying,
                      const char *across);

#endif
