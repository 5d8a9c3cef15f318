/* The bench and its window: `chalklight` alone, or with a file. Keeps the ticket as it is changed, and sends her to the
 * table and back. */
#include "cli/bench.h"
#include "app/arrange.h"
#include "app/sentence.h"
#include "base/file.h"
#include "base/hold.h"
#include "base/saving.h"
#include "base/xdg.h"
#include "bench/bench.h"
#include "cli/display.h"
#include "cli/light.h"
#include "cli/manner.h"
#include "cli/memory.h"
#include "cli/own_table.h"
#include "cli/run.h"
#include "cli/tickets.h"
#include "job/change.h"
#include "screen/bench.h"
#include "screen/window.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { MINUTE_MS = 60000, FOLLOW_MS = 500, LAMP_S = 30, THREADS = 2 };

static const struct err_kind no_display = {
    "bench.no_display", ERR_FAULT, BASE_TR("there is no display here; {0} lists the commands that need none")
};

static const struct err_kind changed_there = { "bench.changed_there", ERR_WARNING,
                                               BASE_TR("was changed by another program meanwhile: what that one wrote "
                                                       "is kept as {0}, and this window goes on with its "
                                                       "own") };

struct cli_bench {
    struct cli_run *run;
    struct bench *bench;
    struct screen_window *window;
    struct screen_letters *letters;
    struct arena *frame; /* the picture, of the window's size */
    struct paint_image image;
    const char *path; /* where the ticket is kept; NULL: none is open, or nothing of it was written yet */
    struct base_file_hold hold, claimed; /* of it, and of the one that is about to be opened */
    const char *kept;                    /* its text as it was kept last, in `kept_in` */
    struct arena *kept_in;
    struct base_saving *saving; /* a newer text of it, on its way to the disk; NULL: none */
    bool troubled;              /* the last could not be kept */
    const char *choices; /* what was laid and cut when progress was looked at last, in `progress_in`; NULL: anew */
    struct arena *progress_in;
    bool due;     /* what the window should show has changed */
    bool follows; /* what it shows of the table's light has */
    double drawn_s;
    bool at_table, quits;
    const enum pattern_cloth *cloth; /* that cutting begins with, or NULL */
    const char *sheet, *lifted;      /* what pieces are taken from, and the pattern that came of it; NULL: none */
    time_t lit;                      /* when the light was shown something first; 0: not yet */
    double lamp_s;                   /* when the bench was told last of how long that is ago */
};

/* --- the window -------------------------------------------------------------------------------------------------- */

static double now_s(void)
{
    double with_sleep, awake;
    cli_light_time(&with_sleep, &awake);
    return awake;
}

static void fit(struct cli_bench *r)
{
    int width, height;
    screen_size(r->window, &width, &height);
    if (width != r->image.width || height != r->image.height) {
        base_arena_reset(r->frame);
        r->image = paint_image_create(r->frame, width, height);
    }
    bench_fit(r->bench, width, height, screen_letters_at(r->letters, bench_scale(r->bench, width, height)));
}

/* --- keeping ----------------------------------------------------------------------------------------------------- */

/* Another program may have changed the file all the same: then that one is kept beside, and told. */
static bool keep_what_is_there(struct cli_bench *r, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    struct cli_run own = *r->run;
    const char *there = cli_ticket_text(a, r->path), *beside = NULL;
    bool other = there && r->kept && strcmp(there, r->kept) != 0;
    own.errs = errs;
    if (other)
        beside = cli_keep_beside(&own, r->path);
    if (beside) {
        struct err_list *told = base_err_list_create();
        base_err(told, &changed_there, base_err_in_file(r->path), ERR_TEXT(beside));
        bench_tell(r->bench, app_sentence_short(a, &told->items[0], bench_manner(r->bench).unit));
        base_err_list_destroy(told);
    }
    base_arena_destroy(a);
    return !other || beside;
}

static void set_kept(struct cli_bench *r, const char *text)
{
    base_arena_reset(r->kept_in);
    r->kept = text ? base_arena_copy_text(r->kept_in, text) : NULL;
}

/* Once an event was taken; it goes on while the picture is drawn. False, with the reason: it cannot begin. */
static bool begin_keeping(struct cli_bench *r, const char *text, struct err_list *errs)
{
    if (r->kept && strcmp(text, r->kept) == 0)
        return true;
    if (r->path && !keep_what_is_there(r, errs))
        return false;
    if (!r->path) {
        r->path = cli_ticket_new(r->run, &r->hold, errs);
        bench_set_path(r->bench, r->path);
    }
    if (r->path)
        r->saving = base_saving_begin(r->path, text);
    return r->path != NULL;
}

static bool end_keeping(struct cli_bench *r, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    const char *text = base_arena_copy_text(a, base_saving_text(r->saving));
    bool good = base_saving_end(r->saving, errs);
    r->saving = NULL;
    if (good && !r->kept)
        cli_remember_job(r->run, r->path);
    if (good)
        set_kept(r, text);
    base_arena_destroy(a);
    return good;
}

/* What could not be kept is told, and tried again with the next change. */
static void tell_kept(struct cli_bench *r, bool good, const struct err_list *errs)
{
    struct arena *a = base_arena_create();
    bench_set_trouble(r->bench, good ? NULL : app_sentence_short(a, &errs->items[0], bench_manner(r->bench).unit));
    r->due = r->due || good == r->troubled;
    r->troubled = !good;
    base_arena_destroy(a);
}

/* Whether what is on its way has come there, or nothing is. */
static bool settle_or_tell(struct cli_bench *r, struct err_list *errs)
{
    if (!r->saving)
        return true;
    bool good = end_keeping(r, errs);
    tell_kept(r, good, errs);
    return good;
}

/* Before anything that goes by the file, and before what was done is shown. */
static void settle(struct cli_bench *r)
{
    struct err_list *errs = base_err_list_create();
    settle_or_tell(r, errs);
    base_err_list_destroy(errs);
}

/* --- which ticket ------------------------------------------------------------------------------------------------- */

/* Whether it may be opened here: nobody else has it. */
static bool claim(void *of, const char *path, struct err_list *errs)
{
    struct cli_bench *r = of;
    base_hold_end_file(&r->claimed);
    return cli_ticket_is(r->run, path, r->path) || cli_ticket_claim(r->run, path, &r->claimed, errs);
}

static void put_away(struct cli_bench *r, const char *path)
{
    settle(r);
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    cli_ticket_put_away(r->run, path, errs);
    bench_look_again(r->bench, app_sentence_short(a, &errs->items[0], bench_manner(r->bench).unit));
    r->due = true;
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

/* Another ticket is open, from that file; "": one without a file yet. */
static void change_ticket(struct cli_bench *r, const char *path)
{
    settle(r);
    bool same = *path && r->claimed.fd < 0 && cli_ticket_is(r->run, path, r->path);
    if (!same) {
        base_hold_end_file(&r->hold);
        r->hold = r->claimed;
        r->claimed.fd = -1;
    }
    struct arena *a = base_arena_create();
    r->path = *path ? path : NULL;
    bench_set_path(r->bench, r->path);
    set_kept(r, r->path ? cli_ticket_text(a, r->path) : NULL);
    r->choices = NULL;
    if (r->path)
        cli_remember_job(r->run, r->path);
    base_arena_destroy(a);
}

/* --- how far it is ------------------------------------------------------------------------------------------------ */

/* What of it is cut already, by the table's journal; again where the job's choices are others than they were. */
static void tell_progress(struct cli_bench *r)
{
    struct arena *a = base_arena_create();
    const char *choices = job_print_choices(a, bench_job(r->bench));
    if (!r->choices || strcmp(choices, r->choices) != 0) {
        struct app_progress progress;
        bool known = cli_memory_progress(r->run, a, r->path, bench_job(r->bench), &progress);
        bench_set_progress(r->bench, known ? &progress : NULL);
        base_arena_reset(r->progress_in);
        r->choices = base_arena_copy_text(r->progress_in, choices);
    }
    base_arena_destroy(a);
}

/* The ticket as it is now; a fault that is known at once is told. */
static bool keep_or_tell(struct cli_bench *r, struct err_list *errs)
{
    settle(r);
    struct arena *a = base_arena_create();
    bool good = begin_keeping(r, job_print(a, bench_job(r->bench)), errs);
    if (!r->saving)
        tell_kept(r, good, errs);
    if (!r->at_table) /* which tells it itself */
        tell_progress(r);
    base_arena_destroy(a);
    return good;
}

static void keep(struct cli_bench *r)
{
    struct err_list *errs = base_err_list_create();
    keep_or_tell(r, errs);
    base_err_list_destroy(errs);
}

/* --- what is remembered of her ------------------------------------------------------------------------------------ */

static void remember_keys(struct cli_bench *r)
{
    const char *const *given;
    size_t count = bench_given_keys(r->bench, &given);
    settings_set_texts(r->run->settings, SETTINGS_KEYS, given, count);
    settings_save(r->run->settings, r->run->settings_told);
    r->run->keys_are_read = false;
}

/* --- the light ---------------------------------------------------------------------------------------------------- */

static void tell_lamp(struct cli_bench *r)
{
    r->lamp_s = now_s();
    struct arena *a = base_arena_create();
    struct bench_lamp lamp = { .since = NULL };
    char since[sizeof "20:05"];
    struct tm day;
    if (r->lit && localtime_r(&r->lit, &day) && strftime(since, sizeof since, "%H:%M", &day)) {
        lamp.since = since;
        lamp.left_min = (int)fmax(0, ceil(BENCH_WARM_MIN - difftime(time(NULL), r->lit) / 60));
    }
    cli_own_table_begun(&lamp);
    r->due = bench_set_lamp(r->bench, &lamp) || r->due;
    base_arena_destroy(a);
}

/* --- the table --------------------------------------------------------------------------------------------------- */

static const struct {
    int (*run)(struct cli_run *run);
    bool on_job; /* its operand is the ticket; else the table set-up, or a sheet */
} ways[] = {
    [BENCH_TO_SET_UP] = { cli_run_setup, false },
    [BENCH_TO_ARRANGE] = { cli_run_arrange, true },
    [BENCH_TO_CUT] = { cli_run_cut, true },
    [BENCH_TO_LIFT] = { cli_run_lift, false },
};

/* The job with the table as it is set up now; NULL: there is none, or it is as before. */
static const struct job *with_table(struct cli_bench *r, const char *path, struct err_list *errs)
{
    const struct job *now = bench_job(r->bench);
    const struct job *job = base_file_exists(path) ? job_with_table(r->run->a, now, path, errs) : NULL;
    bool same = job && strcmp(job_print(r->run->a, job), job_print(r->run->a, now)) == 0;
    return same ? NULL : job;
}

/* Where the table set-up is, and what is worked on; NULL, with the reason: nowhere. */
static const char *operand_of(struct cli_bench *r, enum bench_way way, struct err_list *errs)
{
    if (ways[way].on_job)
        return r->path;
    if (way == BENCH_TO_LIFT)
        return r->sheet;
    const char *table = cli_own_table(r->run->a);
    if (!table)
        cli_ticket_no_room(errs);
    return table && base_xdg_make_folders(table, errs) ? table : NULL;
}

/* The table set-up that sheets are shown with; NULL: none was made. */
static const char *table_there(struct arena *a)
{
    const char *table = cli_own_table(a);
    return table && base_file_exists(table) ? table : NULL;
}

static int work_at_table(struct cli_bench *r, enum bench_way way, const char *operand, struct err_list *errs)
{
    struct cli_run own = { .a = r->run->a,
                           .errs = errs,
                           .operand_is_read = ways[way].on_job,
                           .unit = bench_manner(r->bench).unit,
                           .unit_is_told = settings_word(r->run->settings, SETTINGS_UNIT) != SETTINGS_UNIT_AS_WRITTEN,
                           .bench = r,
                           .cloth = r->cloth,
                           .settings = r->run->settings,
                           .settings_told = r->run->settings_told };
    own.args.operand = operand;
    if (way == BENCH_TO_LIFT)
        own.args.value[OPT_TABLE] = table_there(r->run->a);
    bench_set_at_table(r->bench, way);
    r->at_table = r->due = true;
    int code = operand ? ways[way].run(&own) : CLI_FAULT;
    r->at_table = false;
    bench_set_at_table(r->bench, BENCH_STAY);
    return code;
}

/* The work at the table has its own window and its own loop, which sees to the bench's window too. */
static void go_to_table(struct cli_bench *r, enum bench_way way)
{
    struct err_list *errs = base_err_list_create();
    const char *operand = operand_of(r, way, errs);
    int code = work_at_table(r, way, operand, errs);
    const struct job *job = operand && way == BENCH_TO_SET_UP ? with_table(r, operand, errs) : NULL;
    bool tell = code != CLI_OK && errs->count;
    bench_come_back(r->bench, job,
                    tell ? app_sentence_short(r->run->a, &errs->items[0], bench_manner(r->bench).unit) : NULL);
    base_err_list_destroy(errs);
    r->choices = NULL;
    screen_come_forward(r->window);
    tell_lamp(r);
    keep(r);
    settle(r);
    r->due = true;
}

/* Where there is but one display there is nothing to ask. */
static void ask_projector(struct cli_bench *r)
{
    struct arena *a = base_arena_create();
    struct cli_run own = *r->run;
    struct screen_display displays[SCREEN_MOST_DISPLAYS];
    own.errs = base_err_list_create();
    int count = screen_list(displays, own.errs);
    int found = count > 1 ? cli_ask_projector(&own, displays, count) : -1;
    const char *told =
        count == 1   ? base_arena_print(a,
                                        base_tr("Only one display is connected, “%s”: the light goes there. Connect "
                                                  "the projector, then choose it here."),
                                        displays[0].name)
        : found >= 0 ? base_arena_print(a, base_tr("The projector is “%s” from now on."), displays[found].name)
                     : base_tr("No number was typed: the projector is the display that it was.");
    bench_tell(r->bench, told);
    screen_come_forward(r->window);
    r->due = true;
    base_err_list_destroy(own.errs);
    base_arena_destroy(a);
}

static void take(struct cli_bench *r, struct bench_effects effects);

/* A table to try: nothing of it was measured. It is opened from a file as any other. */
static void open_sample(struct cli_bench *r)
{
    struct arena *a = base_arena_create();
    struct cli_run own = *r->run;
    own.a = a;
    own.errs = base_err_list_create();
    const char *path = base_xdg_path(r->run->a, BASE_XDG_DATA, "sample-table.json");
    struct calibration_table table;
    bool good = path && base_xdg_make_folders(path, own.errs) && cli_sample_table(&own, 0, 0, &table);
    const char *text = good ? calibration_table_print(a, &table) : NULL;
    if (good && base_file_save(path, text, strlen(text), own.errs))
        take(r, bench_handle(r->bench, (struct input_event){ .type = INPUT_DROP, .path = path }));
    else if (own.errs->count)
        bench_tell(r->bench, app_sentence_short(a, &own.errs->items[0], bench_manner(r->bench).unit));
    r->due = true;
    base_err_list_destroy(own.errs);
    base_arena_destroy(a);
}

static void take(struct cli_bench *r, struct bench_effects effects)
{
    if (effects.opened)
        change_ticket(r, effects.opened);
    if (effects.put_away)
        put_away(r, effects.put_away);
    if (effects.settings && cli_remember_manner(r->run, bench_manner(r->bench)))
        bench_spoken(r->bench);
    if (effects.own_keys)
        remember_keys(r);
    if (effects.cautioned)
        cli_remember_cautions(r->run);
    if (effects.asks_projector)
        ask_projector(r);
    if (effects.wants_sample)
        open_sample(r);
    if (effects.keep)
        keep(r);
    r->due = r->due || effects.redraw || effects.keep;
    if (effects.to == BENCH_STAY || !r->path || r->at_table)
        return;
    settle(r);
    r->sheet = effects.sheet;
    r->cloth = effects.cloth;
    r->lifted = NULL;
    go_to_table(r, effects.to);
    if (r->lifted)
        take(r, bench_handle(r->bench, (struct input_event){ .type = INPUT_DROP, .path = r->lifted }));
}

/* An event of its window: its picture may be wanted anew, or the bench takes it. */
static struct bench_effects handle(struct cli_bench *r, struct input_event event)
{
    if (event.type == INPUT_SIZE || event.type == INPUT_EXPOSE || event.type == INPUT_MOVED) {
        fit(r);
        r->due = true;
        return (struct bench_effects){ 0 };
    }
    struct bench_effects effects = bench_handle(r->bench, event);
    take(r, effects);
    r->quits = r->quits || effects.quit;
    return effects;
}

/* A window that takes no picture now (its size may be changing) is shown the next one. Nothing is shown that is not
 * kept, but what cannot be. */
static void draw(struct cli_bench *r)
{
    struct err_list *ignored = base_err_list_create();
    fit(r);
    r->due = r->follows = false;
    screen_draw_bench(r->letters, bench_picture(r->bench), &r->image);
    settle(r);
    screen_show(r->window, &r->image, ignored);
    base_err_list_destroy(ignored);
    r->drawn_s = now_s();
}

/* --- beside the table -------------------------------------------------------------------------------------------- */

struct screen_window *cli_bench_window(const struct cli_bench *r)
{
    return r->window;
}

enum cli_bench_took cli_bench_take(struct cli_bench *r, struct input_event event)
{
    struct bench_effects effects = handle(r, event);
    if (effects.leave || effects.quit)
        return CLI_BENCH_LEAVES;
    if (effects.to != BENCH_STAY)
        return CLI_BENCH_TO_TABLE;
    return effects.not_mine ? CLI_BENCH_PASSES : CLI_BENCH_TOOK;
}

bool cli_bench_draw(struct cli_bench *r)
{
    bool due = r->due || (r->follows && cli_bench_patience(r, -1) == 0);
    if (due)
        draw(r);
    return due;
}

int cli_bench_patience(const struct cli_bench *r, int wait_ms)
{
    if (!r->follows)
        return wait_ms;
    double left_ms = fmax(0, FOLLOW_MS - 1000 * (now_s() - r->drawn_s));
    return wait_ms < 0 || wait_ms > left_ms ? (int)ceil(left_ms) : wait_ms;
}

void cli_bench_follow(struct cli_bench *r, const struct paint_scene *scene, const struct geometry_map *map, int width,
                      int height)
{
    if (!r->lit)
        r->lit = time(NULL);
    r->follows = bench_set_glance(r->bench, scene, map, width, height) || r->follows;
}

void cli_bench_look(struct cli_bench *r, const struct app *app)
{
    struct arena *a = base_arena_create();
    struct app_progress progress = app_progress_of(app, a);
    r->due = bench_set_progress(r->bench, &progress) || r->due;
    base_arena_destroy(a);
}

void cli_bench_lifted(struct cli_bench *r, const char *path)
{
    r->lifted = base_arena_copy_text(r->run->a, path);
}

bool cli_bench_keep_layouts(struct cli_bench *r, const struct job *job, struct err_list *errs)
{
    bench_take_layouts(r->bench, job);
    r->due = true;
    return keep_or_tell(r, errs) && settle_or_tell(r, errs);
}

/* --- the loop ---------------------------------------------------------------------------------------------------- */

/* Nothing waits: what has changed is drawn first, then what was found meanwhile is taken. */
static void go_on(struct cli_bench *r)
{
    if (r->lit && now_s() - r->lamp_s > LAMP_S)
        tell_lamp(r);
    if (r->due)
        draw(r);
    else if (bench_is_working(r->bench))
        take(r, bench_work(r->bench, now_s()));
}

/* Events are taken until none waits, then the window is drawn once. */
static void loop(struct cli_bench *r)
{
    draw(r);
    while (!r->quits) {
        int wait_ms = r->due ? 0 : bench_is_working(r->bench) ? APP_LOOK_MS : MINUTE_MS;
        struct input_event event = screen_wait(r->window, wait_ms);
        if (event.type == INPUT_NONE)
            go_on(r);
        else
            handle(r, event);
    }
}

static int show(struct cli_bench *r)
{
    r->window = screen_open_bench(cli_projector(r->run), "Chalklight", r->run->errs);
    if (!r->window)
        return CLI_FAULT;
    tell_lamp(r);
    if (r->run->args.operand)
        handle(r, (struct input_event){ .type = INPUT_DROP, .path = r->run->args.operand });
    loop(r);
    settle(r);
    screen_close(r->window);
    return CLI_OK;
}

int cli_run_bench(struct cli_run *run)
{
    struct cli_bench r = { .run = run, .hold.fd = -1, .claimed.fd = -1 };
    if (!screen_is_there()) {
        base_err(run->errs, &no_display, base_err_in_file(NULL), ERR_TEXT("chalklight --help"));
        return CLI_FAULT;
    }
    const char *const *given;
    size_t given_count = settings_texts(run->settings, SETTINGS_KEYS, &given);
    struct bench_start start = { .manner = cli_manner(run),
                                 .given_keys = given,
                                 .given_key_count = given_count,
                                 .recent = cli_last_job(run),
                                 .pool = base_pool_create(THREADS),
                                 .wake = screen_wake,
                                 .tickets = base_xdg_path(run->a, BASE_XDG_DATA, "tickets"),
                                 .example_pattern = cli_data_path(run, "assets/demo/pinafore.json"),
                                 .example_body = cli_data_path(run, "assets/demo/guide.json"),
                                 .own_table = cli_own_table(run->a),
                                 .cautions = !cli_cautioned_lately(run),
                                 .claim = claim,
                                 .claims_of = &r };
    r.letters = screen_letters_open(run->errs);
    r.frame = base_arena_create();
    r.kept_in = base_arena_create();
    r.progress_in = base_arena_create();
    r.bench = bench_create(&start);
    int code = r.letters ? show(&r) : CLI_FAULT;
    bench_destroy(r.bench);
    base_hold_end_file(&r.claimed);
    base_hold_end_file(&r.hold);
    base_pool_destroy(start.pool);
    screen_letters_close(r.letters);
    base_arena_destroy(r.kept_in);
    base_arena_destroy(r.progress_in);
    base_arena_destroy(r.frame);
    screen_leave();
    return code;
}
