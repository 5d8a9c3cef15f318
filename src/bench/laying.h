/* The layout on the bench: the arranging that also the table shows (app/arrange.h), for the job as it is. */
#ifndef BENCH_LAYING_H
#define BENCH_LAYING_H

#include "app/arrange_look.h"

struct bench;
struct form_key;

/* All keys of arranging that do something here. Returns how many. */
size_t bench_laying_keys(const struct form_key **out);

void bench_end_laying(struct bench *b);

/* Lays the job out as far as it can be, unless it is; and that arranging, NULL: there is none of the job as it is. */
void bench_need_laying(struct bench *b);
struct app_arrange *bench_laying_now(const struct bench *b);

/* Takes what lies where now into the job. */
void bench_keep_laying(struct bench *b);

#endif
