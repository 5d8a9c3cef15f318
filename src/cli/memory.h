/* A job's journal: what was done at the table, kept line by line beside the job file, so that a program that is killed
 * comes back where it was. */
#ifndef CLI_MEMORY_H
#define CLI_MEMORY_H

#include "app/app.h"
#include "app/progress.h"
#include "cli/run.h"

struct cli_memory;

/* Opens the journal of a job file and brings the app, begun by `start`, to where it led; where that was on another
 * table set-up, cloth on the table is to be found again. A journal of another job's choices is begun anew, the old one
 * kept beside it, with a note. The caller closes it. NULL, with the reason, when another program has the job or the
 * file cannot be written. */
struct cli_memory *cli_memory_open(struct cli_run *run, struct app *app, const char *job_path,
                                   const struct app_start *start);
void cli_memory_close(struct cli_memory *memory, struct cli_run *run);

/* Brings an app, one that is shown nowhere, to where the journal of its job led; nothing is held or written. False,
 * with nothing told: there is no journal of that job's choices. */
bool cli_memory_look(struct arena *a, struct app *app, const char *job_path, const struct job *job);

/* Whether what its journal says holds for another job: one of the same pieces, whatever lies where. */
bool cli_memory_fits(struct arena *a, const char *job_path, const struct job *job);

/* What of a job is cut, as its journal says; false: there is none, or nothing can be told of it. In `a`. */
bool cli_memory_progress(const struct cli_run *run, struct arena *a, const char *job_path, const struct job *job,
                         struct app_progress *out);

/* Keeps how things stand now. NULL when it is kept; else a sentence that says why not, which lasts until the next call:
 * the work goes on, and the next that can be kept takes along what could not. */
const char *cli_memory_keep(struct cli_memory *memory, const struct app *app);

/* How long the loop may wait before it asks cli_memory_settle again, ms; -1: as long as it likes. */
int cli_memory_patience(const struct cli_memory *memory);

/* Brings what was kept to the disk itself, when nothing else is to be done or a second has gone by. */
void cli_memory_settle(struct cli_memory *memory, struct cli_run *run, bool idle);

#endif
