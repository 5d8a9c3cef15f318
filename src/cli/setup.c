/* The walk at the table: crosses full screen, readings kept in a file as they are made, a table at the end. */
#include "app/sentence.h"
#include "app/walk.h"
#include "base/file.h"
#include "base/words.h"
#include "cli/display.h"
#include "cli/light.h"
#include "cli/run.h"
#include "screen/window.h"

#include <string.h>
#include <unistd.h>

static const struct err_kind no_display = { "setup.no_display", ERR_FAULT,
                                            BASE_TR("there is no display here; {0} writes the crosses as a picture") };
static const struct err_kind other_size = {
    "setup.other_size", ERR_FAULT,
    BASE_TR("its readings were made in a frame of {0} × {1} pixels, and this display "
            "shows {2} × {3}. Choose the projector with "
            "--display, or take that file away to begin anew")
};
/* The same, told in the bench. */
static const struct err_kind other_size_in_window = {
    "setup.other_size_in_window", ERR_FAULT,
    BASE_TR("its readings were made in a frame of {0} × {1} pixels, and this display shows {2} × {3}. Connect the "
            "projector they were made with, or take that file away to begin anew")
};
static const struct err_kind no_table = {
    "setup.no_table", ERR_FAULT,
    BASE_TR("is there already and is no table, so nothing is written over it; give the table "
            "another name")
};
static const struct err_kind other_mat = {
    "setup.other_mat", ERR_WARNING,
    BASE_TR("its readings were made on the mat “{0}” of {2} × {3}, and that one holds, not “{1}”. "
            "Take that file away to begin anew on another mat")
};
static const struct err_kind one_file = {
    "setup.one_file", ERR_FAULT, BASE_TR("cannot hold both the table and its readings; give --readings another name")
};
static const struct err_kind not_saved = { "setup.not_saved", ERR_FAULT,
                                           BASE_TR("the last readings could not be saved there and are lost") };

/* One walk, from its first cross to its table. */
struct setup {
    struct cli_run *run;
    struct app_walk_start start;
    struct calibration_mat named; /* by the person; without a name: none was */
    struct app_walk *walk;
    struct cli_light *light;
    const char *readings; /* the path they are kept at */
    bool unsaved;         /* what was made last is not in the file */
    const char *kept;     /* where the table that was there before stands now, or NULL */
    bool due, saved;      /* the table: to be saved, or there as it stands */
    struct arena *told;   /* the sentence that says why */
};

/* Where the readings are kept: the file named, else beside the table. */
static const char *readings_path(struct cli_run *run)
{
    const char *named = run->args.value[OPT_READINGS];
    return named ? named : base_arena_print(run->a, "%s.readings", run->args.operand);
}

/* A table may be made anew; any other file is the person's, and stays. */
static bool may_become_table(struct cli_run *run)
{
    const char *path = run->args.operand;
    struct err_list *complaints = base_err_list_create();
    struct calibration_table table;
    bool ok = !base_file_exists(path) || calibration_table_read(run->a, path, &table, complaints);
    if (!ok)
        base_err(run->errs, &no_table, base_err_in_file(path), ERR_NONE);
    base_err_list_destroy(complaints);
    return ok;
}

static bool same_mat(const struct calibration_mat *a, const struct calibration_mat *b)
{
    return strcmp(a->name, b->name) == 0 && a->width_mm == b->width_mm && a->height_mm == b->height_mm &&
           a->ruling_mm == b->ruling_mm;
}

/* The mat that readings were made on holds: a second one would be mixed with it. The person is told on the table, where
 * she is, and in the terminal. */
static void settle_mat(struct setup *s, const struct calibration_mat *first)
{
    struct cli_run *run = s->run;
    const struct calibration_mat *asked = &s->start.mat;
    if (!first->name)
        return;
    if (asked->name && !same_mat(asked, first)) {
        base_err(run->errs, &other_mat, base_err_in_file(s->readings), ERR_TEXT(first->name), ERR_TEXT(asked->name),
                 ERR_MM(first->width_mm), ERR_MM(first->height_mm));
        s->start.notice = base_arena_print(run->a, base_tr("Begun on the mat “%s”: that one holds, not “%s”"),
                                           first->name, asked->name);
    }
    s->start.mat = *first;
}

static bool go_on_from(struct setup *s)
{
    struct cli_run *run = s->run;
    struct calibration_readings *before = base_arena_alloc(run->a, 1, sizeof *before);
    int width = s->start.width_px, height = s->start.height_px;
    if (!calibration_readings_read(run->a, s->readings, before, run->errs))
        return false;
    if (before->width_px != width || before->height_px != height) {
        base_err(run->errs, run->bench ? &other_size_in_window : &other_size, base_err_in_file(s->readings),
                 ERR_NUMBER(before->width_px), ERR_NUMBER(before->height_px), ERR_NUMBER(width), ERR_NUMBER(height));
        return false;
    }
    settle_mat(s, &before->mat);
    if (!run->args.value[OPT_UNIT])
        s->start.unit = before->unit;
    if (!run->args.value[OPT_SIGMA])
        s->start.sigma_mm = before->sigma_mm;
    s->start.before = before;
    return true;
}

/* The reason in a complaint of a file that could not be saved, without the file's name: the table has little room. */
static const char *reason_of(const struct err_list *complaints)
{
    const struct err_arg *reason = &complaints->items[0].args[0];
    return reason->type == ERR_ARG_TEXT ? reason->text : base_tr("the disk takes nothing");
}

/* Whether a text was saved; if not, the table says why until it is. */
static bool save(struct setup *s, const char *path, const char *text, const char *what)
{
    struct err_list *complaints = base_err_list_create();
    bool ok = base_file_save(path, text, strlen(text), complaints);
    const char *trouble = NULL;
    if (!ok) {
        base_arena_reset(s->told);
        trouble = base_arena_print(s->told, base_tr("%s: %s. Mend that; it is kept here, and every key tries again"),
                                   what, reason_of(complaints));
    }
    app_walk_set_trouble(s->walk, trouble);
    base_err_list_destroy(complaints);
    return ok;
}

static void save_readings(struct setup *s)
{
    struct arena *a = base_arena_create();
    struct calibration_readings readings = app_walk_readings(s->walk, a);
    s->unsaved = !save(s, s->readings, calibration_readings_print(a, &readings), base_tr("The readings are not saved"));
    base_arena_destroy(a);
}

static bool save_table(struct setup *s)
{
    struct cli_run *run = s->run;
    struct calibration_table table = app_walk_table(s->walk, run->a, cli_today(run->a));
    table.display = cli_light_display(s->light);
    if (!s->saved && !s->kept && base_file_exists(run->args.operand))
        s->kept = cli_keep_beside(run, run->args.operand);
    return save(s, run->args.operand, calibration_table_print(run->a, &table), base_tr("The table is not saved"));
}

/* A window that takes no picture now (its size may be changing) is shown the next one. */
static void draw(struct setup *s)
{
    struct arena *a = cli_light_begin(s->light);
    struct cli_run quiet = *s->run;
    struct paint_scene scene;
    if (cli_light_is_the_tables(s->light, s->start.width_px, s->start.height_px)) {
        scene = app_walk_scene(s->walk, a);
    } else {
        int width, height;
        cli_light_size(s->light, &width, &height);
        scene = app_walk_away_scene(s->walk, a, width, height, cli_light_is_home(s->light));
    }
    quiet.errs = base_err_list_create();
    cli_light_show(s->light, &quiet, &scene, NULL);
    base_err_list_destroy(quiet.errs);
}

/* What was read is kept beside; the mat is asked for again. */
static void begin_anew(struct setup *s)
{
    if (base_file_exists(s->readings) && !cli_keep_beside(s->run, s->readings))
        return;
    unlink(s->readings);
    s->start.before = NULL;
    s->start.notice = NULL;
    s->start.mat = s->named;
    s->start.cautions_read = true;
    s->walk = app_walk_create(s->run->a, &s->start);
    s->unsaved = s->due = false;
}

/* What an event asks for is saved before the next one; what could not be saved is tried again with every key. */
static void keep(struct setup *s, struct app_walk_effects *effects, bool key)
{
    if (effects->save || (s->unsaved && key)) {
        save_readings(s);
        effects->redraw = true;
    }
    s->due = s->due || effects->done;
    if (!s->due || !(effects->done || key))
        return;
    s->saved = save_table(s);
    s->due = !s->saved;
    effects->redraw = true;
}

/* True when the person has accepted the table and it is saved; leaving before is no fault. */
static bool walk_to_the_end(struct setup *s)
{
    struct app_walk_effects effects = { .redraw = true };
    bool end = false;
    while (!effects.quit && !end) {
        if (effects.redraw)
            draw(s);
        struct input_event event = cli_light_wait(s->light, -1);
        effects = (struct app_walk_effects){ 0 };
        if (!cli_light_is_for_table(s->light, event))
            continue;
        effects = app_walk_handle(s->walk, event);
        if (effects.anew)
            begin_anew(s);
        keep(s, &effects, event.type == INPUT_KEY);
        end = effects.end && !s->due;
    }
    return s->saved && !s->due;
}

/* Leaving before the end: where the readings are, and how to go on. */
static int left_early(struct setup *s)
{
    struct cli_run *run = s->run;
    size_t count = app_walk_readings(s->walk, run->a).count;
    if (s->unsaved) {
        base_err(run->errs, &not_saved, base_err_in_file(s->readings), ERR_NONE);
        return CLI_FAULT;
    }
    if (count == 0)
        cli_say(run, base_tr("No cross was read; no table was made."));
    else
        cli_say(run,
                base_tr_count(
                    count,
                    "No table was made. The readings of %zu cross are kept in %s; the same command goes on from them.",
                    "No table was made. The readings of %zu crosses are kept in %s; the same command goes on from "
                    "them."),
                count, s->readings);
    return CLI_OK;
}

static int walk_in(struct setup *s)
{
    struct cli_run *run = s->run;
    cli_light_size(s->light, &s->start.width_px, &s->start.height_px);
    if (base_file_exists(s->readings) && !go_on_from(s))
        return CLI_FAULT;
    s->start.cautions_read = !cli_show_cautions(run);
    s->start.keys = cli_given_keys(run);
    s->walk = app_walk_create(run->a, &s->start);
    s->told = base_arena_create();
    int code = CLI_OK;
    if (!walk_to_the_end(s))
        code = left_early(s);
    else if (s->kept)
        cli_say(run, base_tr("%s; the table that was there before is kept as %s"), run->args.operand, s->kept);
    else
        cli_say(run, "%s", run->args.operand);
    base_arena_destroy(s->told);
    return code;
}

/* The mats that come with the program, to choose from; one that cannot be read is left out. */
static void read_mats(struct setup *s)
{
    static const char *const files[] = { "30x45cm", "45x60cm", "60x90cm", "12x18in", "18x24in", "24x36in" };
    enum { MATS = sizeof files / sizeof files[0] };
    struct cli_run *run = s->run;
    struct calibration_mat *mats = base_arena_alloc(run->a, MATS, sizeof *mats);
    struct err_list *unsaid = base_err_list_create();
    for (int i = 0; i < MATS; i++) {
        const char *path = cli_data_path(run, base_arena_print(run->a, "calibration/mats/%s.json", files[i]));
        s->start.mat_count += calibration_mat_read(run->a, path, &mats[s->start.mat_count], unsaid);
    }
    base_err_list_destroy(unsaid);
    s->start.mats = mats;
    s->start.unit_is_asked = run->args.value[OPT_UNIT] != NULL;
}

static int walk_on_display(struct setup *s)
{
    int display = cli_choose_display(s->run, 0, 0);
    s->light = display < 0 ? NULL : cli_light_open(s->run, display);
    s->start.font = s->light ? text_font_open(s->run->errs) : NULL;
    int code = s->start.font ? walk_in(s) : CLI_FAULT;
    text_font_close(s->start.font);
    cli_light_close(s->light);
    return code;
}

int cli_run_setup(struct cli_run *run)
{
    struct setup s = { .run = run,
                       .start = { .name = cli_operand_name(run),
                                  .unit = run->unit,
                                  .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                  .lockout_s = cli_lockout_s(run) } };
    const char *mat = run->args.value[OPT_MAT];
    if (!cli_sigma(run, &s.start.sigma_mm))
        return CLI_WRONG_USE;
    if (!may_become_table(run) || (mat && !calibration_mat_read(run->a, mat, &s.start.mat, run->errs)))
        return CLI_FAULT;
    s.named = s.start.mat;
    read_mats(&s);
    s.readings = readings_path(run);
    if (strcmp(s.readings, run->args.operand) == 0) {
        base_err(run->errs, &one_file, base_err_in_file(s.readings), ERR_NONE);
        return CLI_FAULT;
    }
    if (mat && !run->args.value[OPT_UNIT])
        s.start.unit = s.start.mat.unit;
    if (!screen_is_there()) {
        base_err(run->errs, &no_display, base_err_in_file(NULL), ERR_TEXT("chalklight crosses --out FILE.png"));
        return CLI_FAULT;
    }
    int code = walk_on_display(&s);
    screen_leave();
    return code;
}
