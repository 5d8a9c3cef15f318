/* A drawn sheet taken to pieces at the table: full screen, what she says kept in a file as she says it, a pattern at
 * the end. */
#include "app/lift.h"
#include "app/import_keep.h"
#include "app/sentence.h"
#include "base/file.h"
#include "base/words.h"
#include "cli/bench.h"
#include "cli/display.h"
#include "cli/light.h"
#include "cli/run.h"
#include "screen/window.h"

#include <string.h>
#include <unistd.h>

enum { MINUTE_MS = 60000 };

static const struct err_kind no_display = {
    "lift.no_display", ERR_FAULT,
    BASE_TR("there is no display here; {0} says what is on the drawing, and makes a "
            "pattern of it")
};
static const struct err_kind not_kept = { "lift.not_kept", ERR_FAULT,
                                          BASE_TR("what you said last could not be kept there and is lost") };

/* One sheet, from its file to its pattern. */
struct lifting_run {
    struct cli_run *run;
    struct app_lift_start start;
    struct app_lift *lift;
    struct cli_light *light;
    const char *password; /* from standard input, or NULL */
    const char *keep;     /* the path of what she says */
    bool unkept;          /* what she said last is not in that file */
    bool saved, cut;
    bool given_up;      /* reading was */
    struct arena *told; /* the sentence that says why something is not kept */
};

/* Where the pattern goes: as asked, else beside the sheet under its name. */
static const char *pattern_path(struct cli_run *run)
{
    const char *file = run->args.operand, *slash = strrchr(file, '/'), *dot = strrchr(file, '.');
    if (run->args.value[OPT_OUT])
        return run->args.value[OPT_OUT];
    size_t length = dot && dot != file && (!slash || dot > slash + 1) ? (size_t)(dot - file) : strlen(file);
    return base_arena_print(run->a, "%.*s.json", (int)length, file);
}

/* A window that takes no picture now (its size may be changing) is shown the next one. */
static void draw(struct lifting_run *l)
{
    const struct geometry_map *map = app_lift_map(l->lift);
    struct arena *a = cli_light_begin(l->light);
    struct cli_run quiet = *l->run;
    quiet.errs = base_err_list_create();
    if (cli_light_is_the_tables(l->light, map->width_px, map->height_px)) {
        struct paint_scene scene = app_lift_scene(l->lift, a);
        cli_light_show(l->light, &quiet, &scene, map);
    } else {
        int width, height;
        cli_light_size(l->light, &width, &height);
        app_lift_doubt_scale(l->lift, APP_DOUBT_AWAY);
        struct paint_scene scene = app_lift_away_scene(l->lift, a, width, height, cli_light_is_home(l->light));
        cli_light_show(l->light, &quiet, &scene, NULL);
    }
    base_err_list_destroy(quiet.errs);
}

/* --- reading ----------------------------------------------------------------------------------------------------- */

/* Called by the reading now and then: keys are heard meanwhile. */
static bool go_on(void *with, unsigned percent)
{
    struct lifting_run *l = with;
    struct app_lift_effects all = app_lift_progress(l->lift, percent);
    struct input_event event;
    while ((event = cli_light_wait(l->light, 0)).type != INPUT_NONE) {
        if (!cli_light_is_for_table(l->light, event))
            continue;
        struct app_lift_effects now = app_lift_handle(l->lift, event);
        all.redraw = all.redraw || now.redraw || now.show;
        l->given_up = l->given_up || now.cancel || now.quit;
    }
    if (all.redraw)
        draw(l);
    return !l->given_up;
}

/* What she said before, and which layers are used. */
static bool take(struct lifting_run *l, struct app_import *im)
{
    struct cli_run *run = l->run;
    const char *layers = run->args.value[OPT_SHEET_LAYERS];
    bool ok = !base_file_exists(l->keep) || app_import_go_on(im, l->keep, run->errs);
    ok = ok && (!layers || app_import_use_layers(im, layers, run->errs));
    if (ok)
        app_lift_take(l->lift, im);
    else
        app_import_destroy(im);
    return ok;
}

/* What she can be asked for where a file cannot be read. */
static enum app_lift_lack lack_of(const struct err_list *errs)
{
    static const struct {
        const char *code;
        enum app_lift_lack lack;
    } rows[] = { { "sheet.password_needed", APP_LIFT_LACKS_PASSWORD },
                 { "sheet.password_wrong", APP_LIFT_LACKS_PASSWORD },
                 { "sheet.password_long", APP_LIFT_LACKS_PASSWORD },
                 { "sheet.dpi_needed", APP_LIFT_LACKS_DPI },
                 { "sheet.dpi_range", APP_LIFT_LACKS_DPI } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (base_err_list_has(errs, rows[i].code))
            return rows[i].lack;
    return APP_LIFT_LACKS_ALL;
}

/* True when there is something to go on with: the sheet, or another password to be typed. */
static bool read_sheet(struct lifting_run *l)
{
    const char *typed = app_lift_password(l->lift);
    struct sheet_how how = {
        .password = typed ? typed : l->password, .dpi = app_lift_dpi(l->lift), .go_on = go_on, .with = l
    };
    struct err_list *errs = base_err_list_create();
    struct app_import *im = app_import_read(l->start.file, &how, errs);
    bool going = !l->given_up, asks = lack_of(errs) != APP_LIFT_LACKS_ALL;
    if (im && going)
        going = take(l, im);
    else if (im)
        app_import_destroy(im);
    else if (going && errs->count)
        app_lift_refuse(l->lift, app_sentence(errs->arena, &errs->items[0], l->run->unit), lack_of(errs));
    if (!im && !asks)
        cli_pass_on(l->run, errs);
    base_err_list_destroy(errs);
    return going;
}

/* --- keeping and saving ------------------------------------------------------------------------------------------ */

/* The reason of a file that could not be saved, without the file's name: the table has little room. */
static const char *reason_of(const struct err_list *complaints)
{
    const struct err_arg *reason = &complaints->items[0].args[0];
    return reason->type == ERR_ARG_TEXT ? reason->text : base_tr("the disk takes nothing");
}

static void keep(struct lifting_run *l)
{
    struct arena *a = base_arena_create();
    struct err_list *complaints = base_err_list_create();
    const char *text = app_import_keep(a, app_lift_import(l->lift));
    l->unkept = !base_file_save(l->keep, text, strlen(text), complaints);
    base_arena_reset(l->told);
    app_lift_set_trouble(
        l->lift, l->unkept ? base_arena_print(l->told, base_tr("What you say is not kept: %s. Every key tries again"),
                                              reason_of(complaints))
                           : NULL);
    base_err_list_destroy(complaints);
    base_arena_destroy(a);
}

/* One sentence of what stands in the way. */
static void refuse(struct lifting_run *l, const struct err_list *errs)
{
    app_lift_not_saved(l->lift, errs->count ? app_sentence(errs->arena, &errs->items[0], l->run->unit)
                                            : base_tr("The pattern is not saved"));
}

static bool is_one_of_its_files(const struct lifting_run *l, const char *path)
{
    struct arena *a = base_arena_create();
    const char *whole = base_file_whole_path(a, path);
    const char *const own[] = { l->start.file, l->run->args.value[OPT_TABLE], l->keep };
    bool is = false;
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++)
        is = is || (own[i] && strcmp(whole, base_file_whole_path(a, own[i])) == 0);
    base_arena_destroy(a);
    return is;
}

/* *kept: where what stood there is now; NULL where nothing did. False with the reason. */
static bool write_pattern(struct lifting_run *l, struct cli_run *own, const char **kept)
{
    const char *path = app_lift_out(l->lift);
    struct arena *a = base_arena_create();
    struct lifting_wish wish = app_lift_wish(l->lift, a);
    const char *text = lifting_write(a, &app_lift_import(l->lift)->lifting, &wish, own->errs);
    *kept = text && base_file_exists(path) ? cli_keep_beside(own, path) : NULL;
    bool ok = text && (*kept || !base_file_exists(path));
    ok = ok && base_file_save(path, text, strlen(text), own->errs);
    base_arena_destroy(a);
    return ok;
}

/* Over another file only when she said so, and then that one is kept beside. */
static void save(struct lifting_run *l)
{
    const char *path = app_lift_out(l->lift), *kept;
    struct cli_run own = *l->run;
    bool is_there = base_file_exists(path);
    app_lift_is_there(l->lift, is_there);
    own.errs = base_err_list_create();
    if (is_one_of_its_files(l, path)) {
        app_lift_not_saved(l->lift, base_tr("That is a file this is made from: give the pattern another name (N)"));
    } else if (is_there && !app_lift_replaces(l->lift)) {
        app_lift_not_saved(l->lift,
                           base_tr("A file stands there. R: replace it, the old one is kept beside · N: another name"));
    } else if (write_pattern(l, &own, &kept)) {
        app_lift_saved(l->lift, kept);
        cli_pass_on(l->run, own.errs);
        l->saved = true;
    } else {
        refuse(l, own.errs);
    }
    base_err_list_destroy(own.errs);
}

/* What an event asks for is done before the next one; what could not be kept is tried again with every key. */
static void carry_out(struct lifting_run *l, struct app_lift_effects *effects, bool key)
{
    if (effects->keep || (l->unkept && key)) {
        keep(l);
        effects->redraw = true;
    }
    if (effects->save)
        save(l);
    if (effects->read) {
        draw(l);
        effects->quit = !read_sheet(l);
    }
    l->cut = effects->cut;
}

/* --- the loop ---------------------------------------------------------------------------------------------------- */

static void loop(struct lifting_run *l)
{
    struct app_lift_effects effects = { .redraw = true };
    while (!effects.quit) {
        double with_sleep, awake;
        if (effects.redraw || effects.read)
            draw(l);
        else if (effects.show)
            cli_light_again(l->light, l->run);
        struct input_event event = cli_light_wait(l->light, MINUTE_MS);
        cli_light_time(&with_sleep, &awake);
        effects = app_lift_pass_time(l->lift, with_sleep, awake);
        if (event.type == INPUT_NONE || !cli_light_is_for_table(l->light, event))
            continue;
        struct app_lift_effects now = app_lift_handle(l->lift, event);
        now.redraw = now.redraw || effects.redraw;
        effects = now;
        carry_out(l, &effects, event.type == INPUT_KEY);
    }
}

static int say_how_it_ended(struct lifting_run *l)
{
    struct cli_run *run = l->run;
    if (l->unkept) {
        base_err(run->errs, &not_kept, base_err_in_file(l->keep), ERR_NONE);
        return CLI_FAULT;
    }
    if (l->saved && run->bench)
        cli_bench_lifted(run->bench, app_lift_out(l->lift));
    if (l->saved)
        cli_say(run, "%s", app_lift_out(l->lift));
    else if (!run->errs->faults)
        cli_say(
            run, "%s",
            base_file_exists(l->keep)
                ? base_arena_print(run->a,
                                   base_tr("No pattern was saved. What you said is kept in %s; the same command goes "
                                           "on from it."),
                                   l->keep)
                : base_tr("No pattern was saved."));
    return run->errs->faults ? CLI_FAULT : CLI_OK;
}

static int lift_in(struct lifting_run *l)
{
    struct calibration_table *table = &l->start.table;
    if (!cli_light_fit(l->run, l->light, table))
        return CLI_FAULT;
    l->lift = app_lift_create(&l->start);
    l->told = base_arena_create();
    app_lift_doubt_scale(l->lift, cli_light_doubt(l->run, l->light, table));
    loop(l);
    int code = say_how_it_ended(l);
    base_arena_destroy(l->told);
    return code;
}

static int lift_on_display(struct lifting_run *l)
{
    int display = cli_choose_display(l->run, l->start.table.map.width_px, l->start.table.map.height_px);
    l->light = display < 0 ? NULL : cli_light_open(l->run, display);
    l->start.font = l->light ? text_font_open(l->run->errs) : NULL;
    int code = l->start.font ? lift_in(l) : CLI_FAULT;
    cli_light_close(l->light);
    return code;
}

/* The pattern that was saved, cut in the size that was drawn. */
static int cut(struct lifting_run *l)
{
    struct job job;
    struct job_choices choices = { .pattern = app_lift_out(l->lift),
                                   .table = l->run->args.value[OPT_TABLE],
                                   .all_pieces = true,
                                   .size = app_lift_size(l->lift) };
    return job_make(l->run->a, &choices, &job, NULL, l->run->errs) ? cli_cut(l->run, &job) : CLI_FAULT;
}

/* Told before she has said anything that would be lost: that the sheet cannot be read, or the pattern not written. */
static bool can_begin(struct cli_run *run, const char *file, const char *out)
{
    if (!cli_has_folder(run, out))
        return false;
    int fd = base_file_open(file, SIZE_MAX, run->errs);
    if (fd >= 0)
        close(fd);
    return fd >= 0;
}

int cli_run_lift(struct cli_run *run)
{
    struct lifting_run l = { .run = run,
                             .start = { .unit = run->unit, .file = run->args.operand, .may_cut = !run->bench } };
    const char *table = run->args.value[OPT_TABLE];
    l.start.out = pattern_path(run);
    if (!cli_ends_in(l.start.out, ".json"))
        cli_wrong(run, "--out needs a name that ends in .json for a pattern of the pieces, not “{0}”", l.start.out);
    if (run->errs->faults || !cli_read_password(run, &l.password))
        return CLI_WRONG_USE;
    if (!can_begin(run, l.start.file, l.start.out))
        return CLI_FAULT;
    if (table ? !calibration_table_read(run->a, table, &l.start.table, run->errs)
              : !cli_sample_table(run, 0, 0, &l.start.table))
        return CLI_FAULT;
    if (table && !run->unit_is_told)
        l.start.unit = l.start.table.unit;
    l.start.table_path = table;
    l.start.out_is_there = base_file_exists(l.start.out);
    l.keep = base_arena_print(run->a, "%s.lift", l.start.out);
    if (!screen_is_there()) {
        base_err(run->errs, &no_display, base_err_in_file(NULL), ERR_TEXT("chalklight sheet FILE"));
        return CLI_FAULT;
    }
    int code = lift_on_display(&l);
    if (code == CLI_OK && l.cut)
        code = cut(&l);
    app_lift_destroy(l.lift);
    text_font_close(l.start.font);
    screen_leave();
    return code;
}
