/* A job as it is once some of its first layout is cut at the table, without a window: keys to the program's own state,
 * its journal kept as the program keeps it.
 *
 * cut_some JOB PIECES [WIDTH HEIGHT] - on the sample table of that frame */
#include "app/progress.h"
#include "cli/memory.h"
#include "cli/run.h"
#include "input/key.h"
#include "job/job.h"

#include <stdio.h>
#include <stdlib.h>

enum { MOST_KEYS = 200 };

static int cut_of(const struct app *app, struct arena *a)
{
    struct app_progress progress = app_progress_of(app, a);
    int cut = 0;
    for (size_t i = 0; i < progress.cloth_count; i++)
        cut += progress.cloths[i].cut;
    return cut;
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct cli_run run = { .a = a, .errs = base_err_list_create() };
    struct job job;
    if ((argc != 3 && argc != 5) || !job_read(a, argv[1], &job, run.errs))
        return EXIT_FAILURE;
    struct app_start start = { .job = &job, .table = job.table, .unit = UNITS_MM };
    int width = argc == 5 ? atoi(argv[3]) : 0, height = argc == 5 ? atoi(argv[4]) : 0;
    if (!job.has_table && !cli_sample_table(&run, width, height, &start.table))
        return EXIT_FAILURE;
    struct app *app = app_create(a, &start, run.errs);
    struct cli_memory *memory = app ? cli_memory_open(&run, app, argv[1], &start) : NULL;
    for (int i = 0; memory && i < MOST_KEYS && cut_of(app, a) < atoi(argv[2]); i++) {
        app_handle(app, (struct input_event){ .type = INPUT_KEY, .key = KEY_ENTER });
        cli_memory_keep(memory, app);
    }
    int cut = app ? cut_of(app, a) : 0;
    cli_memory_close(memory, &run);
    printf("%d\n", cut);
    base_err_list_destroy(run.errs);
    base_arena_destroy(a);
    return cut == atoi(argv[2]) ? EXIT_SUCCESS : EXIT_FAILURE;
}
