/* The main loop: the app on the projector, or, where there is no display, the same frames as pictures. */
#include "base/words.h"
#include "cli/bench.h"
#include "cli/display.h"
#include "cli/light.h"
#include "cli/memory.h"
#include "cli/run.h"
#include "screen/window.h"

#include <stdio.h>

#define DEMO_PATTERN "assets/demo/pinafore.json"
#define DEMO_BODY "assets/demo/guide.json"
#define DEMO_VIEW "A"

enum { MINUTE_MS = 60000 };

static bool draw(struct cli_run *run, struct app *app, struct cli_light *light)
{
    const struct geometry_map *map = app_map(app);
    struct arena *a = cli_light_begin(light);
    if (cli_light_is_the_tables(light, map->width_px, map->height_px)) {
        struct paint_scene scene = app_scene(app, a);
        return cli_light_show(light, run, &scene, map);
    }
    int width, height;
    cli_light_size(light, &width, &height);
    app_doubt_scale(app, APP_DOUBT_AWAY);
    struct paint_scene scene = app_away_scene(app, a, width, height, cli_light_is_home(light));
    return cli_light_show(light, run, &scene, NULL);
}

static struct app_effects tell_time(struct app *app)
{
    double with_sleep_s, awake_s;
    cli_light_time(&with_sleep_s, &awake_s);
    return app_pass_time(app, with_sleep_s, awake_s);
}

/* How long to wait for an event, ms: no longer than a minute, so that the app is told the time. */
static int patience(const struct app *app, const struct cli_memory *memory, bool due)
{
    const int most[] = { due ? 0 : MINUTE_MS, cli_memory_patience(memory), app_patience_ms(app) };
    int wait_ms = most[0];
    for (int i = 1; i < 3; i++)
        wait_ms = most[i] >= 0 && most[i] < wait_ms ? most[i] : wait_ms;
    return wait_ms;
}

static void merge(struct app_effects *all, struct app_effects now)
{
    all->redraw = all->redraw || now.redraw;
    all->show = all->show || now.show;
    all->quit = all->quit || now.quit;
}

/* What the events so far ask for. */
static bool carry_out(struct cli_run *run, struct app *app, struct cli_light *light, struct app_effects *effects)
{
    bool ok = true;
    if (effects->redraw && run->bench)
        cli_bench_look(run->bench, app);
    if (effects->redraw)
        ok = draw(run, app, light);
    if (!effects->redraw && effects->show)
        ok = cli_light_again(light, run);
    *effects = (struct app_effects){ 0 };
    return ok;
}

static bool is_at_rest(struct input_stick stick)
{
    return stick.right == 0 && stick.away == 0;
}

/* Whether an event ends an action: what a stick moves is kept once it is let go. */
static bool is_to_be_kept(const struct input_event *event, const struct app_effects *now)
{
    if (event->type == INPUT_STICKS)
        return is_at_rest(event->left) && is_at_rest(event->right);
    return event->type == INPUT_KEY && now->redraw;
}

/* Events are taken until none waits, then the table is drawn once if anything changed. Each action is kept in the
 * journal before the next event is taken; a demo has none. */
static bool loop(struct cli_run *run, struct app *app, struct cli_light *light, struct cli_memory *memory)
{
    struct app_effects effects = { .redraw = true };
    bool ok = true;
    while (ok && !effects.quit) {
        bool due = effects.redraw || effects.show;
        struct input_event event = cli_light_wait(light, patience(app, memory, due));
        merge(&effects, tell_time(app));
        cli_memory_settle(memory, run, event.type == INPUT_NONE && !due);
        if (event.type == INPUT_NONE) {
            ok = carry_out(run, app, light, &effects);
            continue;
        }
        if (!cli_light_is_for_table(light, event))
            continue;
        struct app_effects now = app_handle(app, event);
        merge(&effects, now);
        if (memory && is_to_be_kept(&event, &now))
            app_set_trouble(app, cli_memory_keep(memory, app));
    }
    return ok;
}

/* `job_path`: the job file that the journal stands beside, or NULL for a demo. */
static int cut_on_display(struct cli_run *run, struct app_start *start, const char *job_path)
{
    int display = cli_choose_display(run, start->table.map.width_px, start->table.map.height_px);
    if (display < 0)
        return CLI_FAULT;
    struct cli_light *light = cli_light_open(run, display);
    if (!light)
        return CLI_FAULT;
    struct screen_notes *notes = cli_open_notes(run, display, start->job);
    start->cautions = cli_show_cautions(run);
    struct app *app = NULL;
    if (cli_light_fit(run, light, &start->table))
        app = cli_create_app(run, start);
    if (app)
        app_doubt_scale(app, cli_light_doubt(run, light, &start->table));
    struct cli_memory *memory = app && job_path ? cli_memory_open(run, app, job_path, start) : NULL;
    if (app && run->cloth)
        app_show_cloth(app, *run->cloth);
    bool ok = app && (memory || !job_path) && loop(run, app, light, memory);
    cli_memory_close(memory, run);
    screen_notes_close(notes);
    cli_light_close(light);
    return ok ? CLI_OK : CLI_FAULT;
}

static int cut_without_display(struct cli_run *run, const struct app_start *start)
{
    const char *folder = run->args.value[OPT_OUT] ? run->args.value[OPT_OUT] : "chalklight-frames";
    fprintf(stderr, "chalklight: %s\n",
            base_arena_print(run->a,
                             base_tr("there is no display here; the frames that the projector would show go to %s"),
                             folder));
    struct app *app = cli_create_app(run, start);
    return app ? cli_write_frames(run, app, folder) : CLI_FAULT;
}

static int cut_job(struct cli_run *run, const struct job *job, const char *job_path)
{
    struct app_start start = { .job = job, .unit = cli_person_unit(run, job) };
    if (job->has_table)
        start.table = job->table;
    else if (!cli_sample_table(run, 0, 0, &start.table))
        return CLI_FAULT;
    start.font = text_font_open(run->errs);
    if (!start.font)
        return CLI_FAULT;
    bool shown = screen_is_there();
    int code = shown ? cut_on_display(run, &start, job_path) : cut_without_display(run, &start);
    if (shown)
        screen_leave();
    text_font_close(start.font);
    return code;
}

int cli_cut(struct cli_run *run, const struct job *job)
{
    return cut_job(run, job, NULL);
}

int cli_run_cut(struct cli_run *run)
{
    struct job job;
    if (!run->args.operand)
        run->args.operand = cli_last_job(run);
    if (!run->args.operand)
        return cli_run_demo(run);
    if (!cli_read_job(run, &job))
        return CLI_FAULT;
    return cut_job(run, &job, run->args.operand);
}

int cli_run_demo(struct cli_run *run)
{
    struct job job;
    struct job_choices choices = { .pattern = cli_data_path(run, DEMO_PATTERN),
                                   .body = cli_data_path(run, DEMO_BODY),
                                   .view = DEMO_VIEW };
    if (!job_make(run->a, &choices, &job, NULL, run->errs))
        return CLI_FAULT;
    return cli_cut(run, &job);
}
