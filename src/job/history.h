/* A job as it changes, with the way back: each step is a whole job that is never changed again (job/change.h). */
#ifndef JOB_HISTORY_H
#define JOB_HISTORY_H

#include "job/job.h"

enum { JOB_HISTORY_STEPS = 100, JOB_HISTORY_BYTES = 64 * 1024 * 1024 };

struct job_history;

/* Begins with a blank job. `most_bytes`: JOB_HISTORY_BYTES; when its arena has grown past that, all that can be gone
 * back to moves into a new one, and where that takes more than half of it the oldest steps are forgotten. */
struct job_history *job_history_create(size_t most_bytes);
void job_history_destroy(struct job_history *h); /* NULL is allowed */

/* The job as it is, and the arena in which its changes are made. Both hold until the next call of job_history_step,
 * job_history_replace, job_history_restart or job_history_read_anew: what points into the job is then to be asked for anew. */
const struct job *job_history_now(const struct job_history *h);
struct arena *job_history_arena(struct job_history *h);

/* A job that was made from the one as it is, in that arena, becomes it; `what` says for the person what was done. Steps
 * that were taken back are forgotten, and beyond JOB_HISTORY_STEPS the oldest. The same job is no step. */
void job_history_step(struct job_history *h, const struct job *job, const char *what);

/* The same without a step of its own: going back goes past it. */
void job_history_replace(struct job_history *h, const struct job *job);

/* Begins anew with another job, which was read into that arena. */
void job_history_restart(struct job_history *h, const struct job *job);

/* Reads all patterns anew: what they show is in the language in use when they are read. */
void job_history_read_anew(struct job_history *h);

/* One step back, or forward again; false where there is none. */
bool job_history_undo(struct job_history *h);
bool job_history_redo(struct job_history *h);

/* What going back takes back, what going forward does again; NULL: there is no such step. */
const char *job_history_undo_text(const struct job_history *h);
const char *job_history_redo_text(const struct job_history *h);

#endif
