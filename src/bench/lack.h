/* What has to be told on another page before the work of a page can begin. */
#ifndef BENCH_LACK_H
#define BENCH_LACK_H

#include "job/job.h"

struct bench_page;

struct bench_lack {
    int page; /* where it is told */
    const char *sentence;
    const char *brief; /* on the ticket, at most 154 u */
};

/* The first that pattern, view, size and, where the page wants it, cloth still lack; false: nothing. */
bool bench_first_lack(const struct job *job, bool wants_cloth, struct bench_lack *out);

/* Says so on the page, with a card that leads to where it is told. */
void bench_tell_lack(struct bench_page *page, const struct bench_lack *lack);

#endif
