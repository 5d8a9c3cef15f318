/* The bench while she is at the table: its window lives on, its ticket stays its own. What comes of the work there is
 * handed to it; nobody else writes the ticket's file. */
#ifndef CLI_BENCH_H
#define CLI_BENCH_H

#include "app/app.h"
#include "input/event.h"
#include "paint/draw_list.h"

struct cli_bench;
struct screen_window;

struct screen_window *cli_bench_window(const struct cli_bench *bench);

/* What becomes of an event of its window. */
enum cli_bench_took {
    CLI_BENCH_TOOK,     /* it was for the bench */
    CLI_BENCH_PASSES,   /* a key that does nothing there: for the table */
    CLI_BENCH_TO_TABLE, /* she goes on at the table */
    CLI_BENCH_LEAVES    /* the table is left */
};
enum cli_bench_took cli_bench_take(struct cli_bench *bench, struct input_event event);

/* Draws what has changed, when nothing else waits; whether anything had. What only follows the table's light is drawn
 * twice a second: how long it may wait still, ms, at most `wait_ms` (below 0: as long as it likes). */
bool cli_bench_draw(struct cli_bench *bench);
int cli_bench_patience(const struct cli_bench *bench, int wait_ms);

/* The light as it is shown now: a scene in a window of so many px, through that map or NULL. */
void cli_bench_follow(struct cli_bench *bench, const struct paint_scene *scene, const struct geometry_map *map,
                      int width, int height);

/* What the table shows now, and what is ticked off. */
void cli_bench_look(struct cli_bench *bench, const struct app *app);

/* A pattern was made at the table, to be opened here. */
void cli_bench_lifted(struct cli_bench *bench, const char *path);

/* Takes a job's layouts and keeps them; false, with the reason, when they cannot be kept now. */
bool cli_bench_keep_layouts(struct cli_bench *bench, const struct job *job, struct err_list *errs);

#endif
