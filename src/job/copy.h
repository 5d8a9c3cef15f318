/* A job copied into another arena. */
#ifndef JOB_COPY_H
#define JOB_COPY_H

#include "job/job.h"

/* Copies of several jobs that share much: what they share is copied once. Begins with the arena alone. */
struct job_copying {
    struct arena *a;
    struct job_copied *done;
    size_t count, cap;
};

/* A copy with all that it points at, in the arena. */
const struct job *job_copy(struct job_copying *c, const struct job *job);

#endif
