/* The bench and its window: `chalklight` alone, or with a file. Keeps the ticket as it is changed, and sends her to the
 * table and back. */
#include "bench/bench.h"
#include "app/sentence.h"
#include "base/file.h"
#include "base/xdg.h"
#include "cli/light.h"
#include "cli/memory.h"
#include "cli/run.h"
#include "job/change.h"
#include "screen/bench.h"
#include "screen/window.h"

#include <string.h>

enum { MINUTE_MS = 60000, THREADS = 2, MOST_TICKETS = 10000 };

static const struct err_kind no_display = {
    "bench.no_display", ERR_FAULT, BASE_TR("there is no display here; {0} lists the commands that need none")
};
static const struct err_kind no_room = { "bench.no_room", ERR_FAULT,
                                         BASE_TR("no folder for tickets and table set-ups: HOME names none") };

_Static_assert((int)BENCH_AS_DESKTOP == SETTINGS_LANGUAGE_AS_DESKTOP &&
                   (int)BENCH_ENGLISH == SETTINGS_LANGUAGE_ENGLISH && (int)BENCH_GERMAN == SETTINGS_LANGUAGE_GERMAN,
               "a language is remembered as the bench has it");

struct bench_run {
    struct cli_run *run;
    struct bench *bench;
    struct screen_window *window;
    struct screen_letters *letters;
    struct arena *frame; /* the picture, of the window's size */
    struct paint_image image;
    const char *path; /* where the ticket is kept; NULL: none is open, or nothing of it was written yet */
    const char *kept; /* its text as it was kept last, in `kept_in` */
    struct arena *kept_in;
    const char *choices; /* what was laid and cut when progress was looked at last, in `progress_in`; NULL: anew */
    struct arena *progress_in;
    bool due; /* what the window should show has changed */
};

/* --- the window -------------------------------------------------------------------------------------------------- */

static void fit(struct bench_run *r)
{
    int width, height;
    screen_size(r->window, &width, &height);
    if (width != r->image.width || height != r->image.height) {
        base_arena_reset(r->frame);
        r->image = paint_image_create(r->frame, width, height);
    }
    bench_fit(r->bench, width, height, screen_letters_at(r->letters, bench_scale(r->bench, width, height)));
}

/* A window that takes no picture now (its size may be changing) is shown the next one. */
static void draw(struct bench_run *r)
{
    struct err_list *ignored = base_err_list_create();
    fit(r);
    screen_draw_bench(r->letters, bench_picture(r->bench), &r->image);
    screen_show(r->window, &r->image, ignored);
    base_err_list_destroy(ignored);
    r->due = false;
}

/* --- keeping ----------------------------------------------------------------------------------------------------- */

/* A free name in the folder of tickets; NULL with the reason. */
static const char *new_path(struct bench_run *r, struct err_list *errs)
{
    for (int i = 1; i < MOST_TICKETS; i++) {
        const char *path =
            base_xdg_path(r->run->a, BASE_XDG_DATA, base_arena_print(r->run->a, "tickets/ticket-%d.json", i));
        if (!path)
            break;
        if (!base_file_exists(path))
            return base_xdg_make_folders(path, errs) ? path : NULL;
    }
    base_err(errs, &no_room, (struct err_place){ 0 }, ERR_NONE);
    return NULL;
}

static bool save(struct bench_run *r, const char *text, struct err_list *errs)
{
    if (!r->path)
        r->path = new_path(r, errs);
    return r->path && base_file_save(r->path, text, strlen(text), errs);
}

/* What of it is cut already: an app without a window is told what the table's journal says. */
static const struct app_progress *look_at_progress(struct bench_run *r, struct arena *a, const struct job *job)
{
    struct err_list *ignored = base_err_list_create();
    struct cli_run own = { .a = a, .errs = ignored, .settings = r->run->settings };
    struct app_start start = { .job = job, .table = job->table, .unit = UNITS_MM };
    struct app_progress *progress = NULL;
    bool wanted = r->path && job_is_finished(job) && base_file_exists(base_arena_print(a, "%s.journal", r->path)) &&
                  (job->has_table || cli_sample_table(&own, 0, 0, &start.table));
    struct app *app = wanted ? app_create(a, &start, ignored) : NULL;
    if (app && cli_memory_look(a, app, r->path, job)) {
        progress = base_arena_alloc(a, 1, sizeof *progress);
        *progress = app_progress_of(app, a);
    }
    base_err_list_destroy(ignored);
    return progress;
}

/* Again where the job's choices are others than they were. */
static void tell_progress(struct bench_run *r)
{
    struct arena *a = base_arena_create();
    const char *choices = job_print_choices(a, bench_job(r->bench));
    if (!r->choices || strcmp(choices, r->choices) != 0) {
        bench_set_progress(r->bench, look_at_progress(r, a, bench_job(r->bench)));
        base_arena_reset(r->progress_in);
        r->choices = base_arena_copy_text(r->progress_in, choices);
    }
    base_arena_destroy(a);
}

/* Before the next event is taken. What could not be kept is told, and tried again with the next change. */
static void keep(struct bench_run *r)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const char *text = job_print(a, bench_job(r->bench));
    if (!r->kept || strcmp(text, r->kept) != 0) {
        bool good = save(r, text, errs);
        bench_set_trouble(r->bench, good ? NULL : app_sentence(a, &errs->items[0], bench_manner(r->bench).unit));
        if (good && !r->kept)
            cli_remember_job(r->run, r->path);
        if (good) {
            base_arena_reset(r->kept_in);
            r->kept = base_arena_copy_text(r->kept_in, text);
        }
    }
    tell_progress(r);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

/* --- what is remembered of her ------------------------------------------------------------------------------------ */

static struct bench_manner manner_of(const struct cli_run *run)
{
    return (struct bench_manner){ .unit = run->unit == UNITS_MM ? UNITS_CM : run->unit,
                                  .language = (enum bench_language)settings_word(run->settings, SETTINGS_LANGUAGE),
                                  .night = settings_word(run->settings, SETTINGS_NIGHT) == SETTINGS_NIGHT_YES,
                                  .steps = -settings_number(run->settings, SETTINGS_BENCH_SIZE) };
}

static void remember_manner(struct bench_run *r)
{
    struct bench_manner manner = bench_manner(r->bench);
    struct settings *s = r->run->settings;
    settings_set_word(s, SETTINGS_UNIT, manner.unit == UNITS_IN ? SETTINGS_UNIT_INCHES : SETTINGS_UNIT_CM);
    settings_set_word(s, SETTINGS_NIGHT, manner.night ? SETTINGS_NIGHT_YES : SETTINGS_NIGHT_NO);
    settings_set_number(s, SETTINGS_BENCH_SIZE, -manner.steps);
    if ((int)manner.language != settings_word(s, SETTINGS_LANGUAGE)) {
        settings_set_word(s, SETTINGS_LANGUAGE, (int)manner.language);
        cli_speak((int)manner.language, r->run->desktop_language);
    }
    settings_save(s, r->run->settings_told);
}

static const char *recent_job(const struct cli_run *run)
{
    const char *const *paths;
    size_t count = settings_texts(run->settings, SETTINGS_RECENT, &paths);
    return count && base_file_exists(paths[0]) ? paths[0] : NULL;
}

/* --- the loop ---------------------------------------------------------------------------------------------------- */

static const struct {
    int (*run)(struct cli_run *run);
    bool on_job; /* its operand is the ticket; else the table set-up */
} ways[] = {
    [BENCH_TO_SET_UP] = { cli_run_setup, false },
    [BENCH_TO_ARRANGE] = { cli_run_arrange, true },
    [BENCH_TO_CUT] = { cli_run_cut, true },
};

/* The job with the table as it is set up now; NULL: there is none. */
static const struct job *with_table(struct bench_run *r, const char *path, struct err_list *errs)
{
    return base_file_exists(path) ? job_with_table(r->run->a, bench_job(r->bench), path, errs) : NULL;
}

/* The job as its file has it now; NULL where that cannot be read. */
static const struct job *as_kept(struct bench_run *r, struct err_list *errs)
{
    struct job *job = base_arena_alloc(r->run->a, 1, sizeof *job);
    return job_read_begun(r->run->a, r->path, job, errs) ? job : NULL;
}

static bool is_as_kept(const struct bench_run *r, const struct job *job)
{
    return r->kept && strcmp(job_print(r->run->a, job), r->kept) == 0;
}

/* The work at the table has its own window; the bench's stays as it is meanwhile. */
static void go_to_table(struct bench_run *r, enum bench_way way)
{
    struct err_list *errs = base_err_list_create();
    const char *table = base_xdg_path(r->run->a, BASE_XDG_DATA, "table.json");
    const char *operand = ways[way].on_job ? r->path : table;
    const struct job *job = NULL;
    struct cli_run own = {
        .a = r->run->a, .errs = errs, .operand_is_read = ways[way].on_job, .unit = r->run->unit, .from_bench = true
    };
    own.settings = r->run->settings;
    own.settings_told = r->run->settings_told;
    own.args.operand = operand;
    bool good = operand && (ways[way].on_job || base_xdg_make_folders(table, errs));
    if (!operand)
        base_err(errs, &no_room, (struct err_place){ 0 }, ERR_NONE);
    int code = good ? ways[way].run(&own) : CLI_FAULT;
    if (good)
        job = ways[way].on_job ? as_kept(r, errs) : with_table(r, table, errs);
    if (job && is_as_kept(r, job))
        job = NULL;
    bool tell = code != CLI_OK && errs->count;
    bench_come_back(r->bench, job, tell ? app_sentence(r->run->a, &errs->items[0], bench_manner(r->bench).unit) : NULL);
    base_err_list_destroy(errs);
    r->choices = NULL;
    screen_come_forward(r->window);
    keep(r);
    r->due = true;
}

static void take(struct bench_run *r, struct bench_effects effects)
{
    if (effects.opened) {
        r->path = *effects.opened ? effects.opened : NULL;
        r->kept = r->choices = NULL;
    }
    if (effects.settings)
        remember_manner(r);
    if (effects.keep)
        keep(r);
    r->due = r->due || effects.redraw || effects.keep;
    if (effects.to != BENCH_STAY && r->path)
        go_to_table(r, effects.to);
}

static double now_s(void)
{
    double with_sleep, awake;
    cli_light_time(&with_sleep, &awake);
    return awake;
}

/* Nothing waits: what has changed is drawn first, then a better layout looked for. */
static void go_on(struct bench_run *r)
{
    if (r->due)
        draw(r);
    else if (bench_is_working(r->bench))
        take(r, bench_work(r->bench, now_s()));
}

/* Events are taken until none waits, then the window is drawn once. */
static void loop(struct bench_run *r)
{
    draw(r);
    for (bool going = true; going;) {
        bool busy = r->due || bench_is_working(r->bench);
        struct input_event event = screen_wait(r->window, busy ? 0 : MINUTE_MS);
        if (event.type == INPUT_NONE) {
            go_on(r);
        } else if (event.type == INPUT_SIZE || event.type == INPUT_EXPOSE || event.type == INPUT_MOVED) {
            fit(r);
            r->due = true;
        } else {
            struct bench_effects effects = bench_handle(r->bench, event);
            take(r, effects);
            going = !effects.quit;
        }
    }
}

static int show(struct bench_run *r)
{
    r->window = screen_open_bench(-1, "Chalklight", r->run->errs);
    if (!r->window)
        return CLI_FAULT;
    loop(r);
    screen_close(r->window);
    return CLI_OK;
}

int cli_run_bench(struct cli_run *run)
{
    struct bench_run r = { .run = run };
    if (!screen_is_there()) {
        base_err(run->errs, &no_display, base_err_in_file(NULL), ERR_TEXT("chalklight --help"));
        return CLI_FAULT;
    }
    struct bench_start start = { .manner = manner_of(run),
                                 .recent = recent_job(run),
                                 .pool = base_pool_create(THREADS),
                                 .example_pattern = cli_data_path(run, "assets/demo/pinafore.json"),
                                 .example_body = cli_data_path(run, "assets/demo/guide.json") };
    r.letters = screen_letters_open(run->errs);
    r.frame = base_arena_create();
    r.kept_in = base_arena_create();
    r.progress_in = base_arena_create();
    r.bench = bench_create(&start);
    if (run->args.operand)
        take(&r, bench_handle(r.bench, (struct input_event){ .type = INPUT_DROP, .path = run->args.operand }));
    int code = r.letters ? show(&r) : CLI_FAULT;
    bench_destroy(r.bench);
    base_pool_destroy(start.pool);
    screen_letters_close(r.letters);
    base_arena_destroy(r.kept_in);
    base_arena_destroy(r.progress_in);
    base_arena_destroy(r.frame);
    screen_leave();
    return code;
}
