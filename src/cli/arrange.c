/* A job's layout at the table: better ones found while she watches, pieces moved by hand, all of it kept in the job as
 * it is done. Or the same page as a picture, where there is no display. */
#include "app/arrange.h"
#include "app/sentence.h"
#include "base/file.h"
#include "base/words.h"
#include "cli/bench.h"
#include "cli/display.h"
#include "cli/light.h"
#include "cli/memory.h"
#include "cli/run.h"
#include "export/png.h"
#include "paint/frame.h"
#include "screen/window.h"

#include <string.h>

/* Of a picture: so many rounds of searching, a tenth of a second each as far as the page is told. */
enum { MINUTE_MS = 60000, THREADS = 2, PICTURE_ROUNDS = 40 };

#define ROUND_S 0.1

static const struct err_kind no_display = { "arrange.no_display", ERR_FAULT,
                                            BASE_TR("there is no display here; {0} makes a picture of the layout") };
static const struct err_kind no_cloth = { "arrange.no_cloth", ERR_FAULT,
                                          BASE_TR("no cloth is told for this job yet: {0} lays it on one") };
static const struct err_kind not_kept = { "arrange.not_kept", ERR_FAULT,
                                          BASE_TR("what you did last could not be kept there and is lost") };

struct arranging_run {
    struct cli_run *run;
    struct job job;
    struct app_progress cut; /* as its journal says */
    struct app_arrange_start start;
    struct app_arrange *arrange;
    struct cli_light *light;
    const char *kept; /* the job's text as it was kept last */
    bool replaced;    /* the job as it was at first is kept beside */
    bool unkept;
    struct arena *kept_in, *told;
};

/* A window that takes no picture now (its size may be changing) is shown the next one. */
static void draw(struct arranging_run *r)
{
    const struct geometry_map *map = app_arrange_map(r->arrange);
    struct arena *a = cli_light_begin(r->light);
    struct cli_run quiet = *r->run;
    quiet.errs = base_err_list_create();
    if (cli_light_is_the_tables(r->light, map->width_px, map->height_px)) {
        struct paint_scene scene = app_arrange_scene(r->arrange, a);
        cli_light_show(r->light, &quiet, &scene, map);
    } else {
        int width, height;
        cli_light_size(r->light, &width, &height);
        struct paint_scene scene = app_arrange_away_scene(r->arrange, a, width, height, cli_light_is_home(r->light));
        cli_light_show(r->light, &quiet, &scene, NULL);
    }
    base_err_list_destroy(quiet.errs);
}

/* --- keeping ----------------------------------------------------------------------------------------------------- */

/* The job as it was before the first change is kept beside it, with what was done at the table; a bench has its steps.
 */
static bool save(struct arranging_run *r, const struct job *job, const char *text, struct err_list *errs)
{
    struct cli_run own = *r->run;
    if (r->run->bench)
        return cli_bench_keep_layouts(r->run->bench, job, errs);
    if (r->replaced)
        return base_file_save(r->run->args.operand, text, strlen(text), errs);
    own.errs = errs;
    r->replaced = cli_save_over(&own, r->run->args.operand, text) == CLI_OK;
    if (r->replaced)
        cli_pass_on(r->run, errs);
    return r->replaced;
}

/* The reason of what could not be saved, without the file's name where it can be told so: the table has little room. */
static const char *reason_of(struct arranging_run *r, const struct err_list *errs)
{
    const struct err *e = &errs->items[0];
    if (e->args[0].type == ERR_ARG_TEXT && e->args[0].text)
        return e->args[0].text;
    return app_sentence(r->told, e, r->run->unit);
}

static void keep(struct arranging_run *r)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct job now = app_arrange_job(r->arrange, a);
    const char *text = job_print(a, &now);
    bool same = strcmp(text, r->kept) == 0;
    r->unkept = !same && !save(r, &now, text, errs);
    if (!same && !r->unkept) {
        base_arena_reset(r->kept_in);
        r->kept = base_arena_copy_text(r->kept_in, text);
    }
    base_arena_reset(r->told);
    app_arrange_set_trouble(
        r->arrange,
        r->unkept ? base_arena_print(r->told, base_tr("Nothing is kept: %s. Every key tries again"), reason_of(r, errs))
                  : NULL);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

/* --- the loop ---------------------------------------------------------------------------------------------------- */

static double now_s(void)
{
    double with_sleep, awake;
    cli_light_time(&with_sleep, &awake);
    return awake;
}

/* The next event, or what the search has found meanwhile. */
static struct app_arrange_effects next(struct arranging_run *r)
{
    bool searching = app_arrange_is_searching(r->arrange);
    struct input_event event = cli_light_wait(r->light, searching ? APP_LOOK_MS : MINUTE_MS);
    if (event.type == INPUT_NONE)
        return searching ? app_arrange_search(r->arrange, now_s()) : (struct app_arrange_effects){ 0 };
    if (!cli_light_is_for_table(r->light, event))
        return (struct app_arrange_effects){ 0 };
    struct app_arrange_effects effects = app_arrange_handle(r->arrange, event);
    effects.keep = effects.keep || (r->unkept && event.type == INPUT_KEY);
    return effects;
}

static void loop(struct arranging_run *r)
{
    struct app_arrange_effects effects = { .redraw = true, .keep = true };
    while (!effects.quit) {
        if (effects.keep)
            keep(r);
        if (effects.redraw || effects.keep)
            draw(r);
        else if (effects.show)
            cli_light_again(r->light, r->run);
        effects = next(r);
    }
    keep(r);
}

static int say_how_it_ended(struct arranging_run *r)
{
    if (!r->unkept)
        return CLI_OK;
    base_err(r->run->errs, &not_kept, base_err_in_file(r->run->args.operand), ERR_NONE);
    return CLI_FAULT;
}

static int arrange_on_display(struct arranging_run *r)
{
    int display = cli_choose_display(r->run, r->start.table.map.width_px, r->start.table.map.height_px);
    r->light = display < 0 ? NULL : cli_light_open(r->run, display);
    r->start.cautions = r->light && cli_show_cautions(r->run);
    r->start.locks = true;
    r->start.keys = cli_given_keys(r->run);
    r->start.left_handed = settings_word(r->run->settings, SETTINGS_HAND) == SETTINGS_HAND_LEFT;
    r->start.wake = screen_wake;
    bool ok = r->light && cli_light_fit(r->run, r->light, &r->start.table);
    r->arrange = ok ? app_arrange_create(&r->start, r->run->errs) : NULL;
    int code = CLI_FAULT;
    if (r->arrange) {
        loop(r);
        code = say_how_it_ended(r);
    }
    app_arrange_destroy(r->arrange); /* its search wakes a window */
    r->arrange = NULL;
    cli_light_close(r->light);
    screen_leave();
    return code;
}

/* --- as a picture ------------------------------------------------------------------------------------------------ */

static int draw_picture(struct arranging_run *r, const char *path)
{
    struct cli_run *run = r->run;
    r->arrange = cli_may_draw(run, path) ? app_arrange_create(&r->start, run->errs) : NULL;
    if (!r->arrange)
        return CLI_FAULT;
    for (int round = 0; round < PICTURE_ROUNDS && app_arrange_is_searching(r->arrange); round++)
        app_arrange_search(r->arrange, ROUND_S * round);
    const struct geometry_map *map = app_arrange_map(r->arrange);
    struct paint_image image = paint_image_create(run->a, map->width_px, map->height_px);
    struct paint_scene scene = app_arrange_scene(r->arrange, run->a);
    paint_frame(run->a, &scene, map, &image);
    if (!export_png(path, &image, run->errs))
        return CLI_FAULT;
    if (run->json)
        json_out_text(run->json, "picture", path);
    cli_say(run, "%s", path);
    return CLI_OK;
}

/* --- the command ------------------------------------------------------------------------------------------------- */

static int begin(struct arranging_run *r)
{
    struct cli_run *run = r->run;
    const char *side = run->args.value[OPT_SIDE];
    r->start.side = (enum scene_side)settings_word(run->settings, SETTINGS_SIDE);
    if (side && !scene_side_find(side, &r->start.side)) {
        cli_wrong(run, "--side is near, right, far or left, not “{0}”", side);
        return CLI_WRONG_USE;
    }
    if (!cli_read_job(run, &r->job))
        return CLI_FAULT;
    if (!r->job.cloth_count) {
        base_err(run->errs, &no_cloth, base_err_in_file(run->args.operand),
                 ERR_TEXT(run->bench ? base_tr("the page “Cloth”") : "chalklight lay JOB --on CLOTH.json"));
        return CLI_FAULT;
    }
    r->start.job = &r->job;
    r->start.unit = cli_person_unit(run, &r->job);
    r->kept = job_print(run->a, &r->job);
    return cli_table_of_job(run, &r->job, &r->start.table);
}

/* NULL: nothing is cut. */
static const char *note_of(struct arena *a, const struct app_progress *cut)
{
    int count = 0;
    for (size_t i = 0; i < cut->cloth_count; i++)
        count += cut->cloths[i].cut;
    if (!count)
        return NULL;
    return base_arena_print(a,
                            base_tr_count((size_t)count, "One piece is cut already and stays where it lies",
                                          "%d pieces are cut already and stay where they lie"),
                            count);
}

int cli_run_arrange(struct cli_run *run)
{
    struct arranging_run r = { .run = run };
    const char *out = run->args.value[OPT_OUT];
    int code = begin(&r);
    if (code != CLI_OK)
        return code;
    if (!out && !screen_is_there()) {
        base_err(run->errs, &no_display, base_err_in_file(NULL), ERR_TEXT("--out FILE.png"));
        return CLI_FAULT;
    }
    if (!out && !cli_is_free(run, run->args.operand))
        return CLI_FAULT;
    if (cli_memory_progress(run, run->a, run->args.operand, &r.job, &r.cut)) {
        r.start.cut = &r.cut;
        r.start.note = note_of(run->a, &r.cut);
    }
    r.start.font = text_font_open(run->errs);
    r.start.pool = base_pool_create(THREADS);
    r.kept_in = base_arena_create();
    r.told = base_arena_create();
    code = !r.start.font ? CLI_FAULT : out ? draw_picture(&r, out) : arrange_on_display(&r);
    app_arrange_destroy(r.arrange);
    base_arena_destroy(r.told);
    base_arena_destroy(r.kept_in);
    base_pool_destroy(r.start.pool);
    text_font_close(r.start.font);
    return code;
}
