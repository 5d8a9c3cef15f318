/* The job that a command is about: a job file, or one made on the spot from a pattern and options; and how it is made
 * and altered. */
#include "app/fitted.h"
#include "app/size_report.h"
#include "base/words.h"
#include "cli/memory.h"
#include "cli/run.h"
#include "job/cloth.h"
#include "json/tree.h"

#include <stdlib.h>
#include <string.h>

/* NULL where none was. */
static const enum units_length *unit_told(const struct cli_run *run)
{
    return run->unit_is_told ? &run->unit : NULL;
}

static struct job_choices choices_of(const struct cli_run *run)
{
    const char *const *value = run->args.value;
    return (struct job_choices){ .pattern = run->args.operand,
                                 .body = value[OPT_BODY],
                                 .table = value[OPT_TABLE],
                                 .view = value[OPT_VIEW],
                                 .size = value[OPT_SIZE],
                                 .cup_group = value[OPT_CUP],
                                 .made_to = value[OPT_MADE_TO],
                                 .blend = value[OPT_BLEND],
                                 .alter = value[OPT_ALTER],
                                 .unit = unit_told(run),
                                 .trial = value[OPT_TRIAL] != NULL };
}

bool cli_is_job(struct cli_run *run)
{
    struct err_list *ignored = base_err_list_create();
    const struct json_node *top = json_read_file(run->a, run->args.operand, ignored);
    const struct json_node *kind = json_find(top, "chalklight");
    base_err_list_destroy(ignored);
    return kind && kind->type == JSON_TEXT && strcmp(kind->text, "job") == 0;
}

/* A job file has its choices; only a command that changes them takes others. */
static bool has_choices(const struct cli_run *run)
{
    static const enum cli_option options[] = { OPT_BODY,    OPT_VIEW,  OPT_SIZE,  OPT_CUP,
                                               OPT_MADE_TO, OPT_BLEND, OPT_ALTER, OPT_TRIAL };
    for (size_t i = 0; i < sizeof options / sizeof options[0]; i++)
        if (run->args.value[options[i]])
            return true;
    return false;
}

int cli_job(struct cli_run *run, bool all_pieces, struct job *job)
{
    if (cli_is_job(run)) {
        if (has_choices(run)) {
            cli_wrong(run, "{0} is a job, which has its size, view and alterations; `alter` changes them",
                      run->args.operand);
            return CLI_WRONG_USE;
        }
        return cli_read_job(run, job) ? CLI_OK : CLI_FAULT;
    }
    struct job_choices choices = choices_of(run);
    choices.table = NULL;
    choices.all_pieces = all_pieces;
    return job_make(run->a, &choices, job, NULL, run->errs) ? CLI_OK : CLI_FAULT;
}

/* How it is fitted, where there is anything to say. */
void cli_say_fitted(struct cli_run *run, const struct job *job)
{
    const char *text = app_fitted_report(run->a, job, cli_person_unit(run, job));
    if (run->json)
        app_fitted_json(run->a, run->json, job);
    if (*text)
        cli_say(run, "%.*s", (int)strlen(text) - 1, text); /* without its last line end */
}

/* The size of a job without a body. */
static void say_named(struct cli_run *run, const struct job *job, const char *more)
{
    const char *size = pattern_size_text(run->a, job->pattern, job->position);
    if (run->json) {
        json_out_text(run->json, "size", size);
        json_out_number(run->json, "size_position", job->position);
    }
    cli_say(run, "%s\n%s",
            base_arena_print(run->a, base_tr("Size %s, as you chose."),
                             pattern_size_shown(run->a, job->pattern, job->position)),
            more);
}

/* Which size and why, with what the pieces measure as they are fitted; ends in `more`. */
static void say_size(struct cli_run *run, const struct job *job, const struct sizing_choice *choice, const char *more)
{
    if (!job->body) {
        say_named(run, job, more);
        return;
    }
    struct draft_figure figure = job_figure(job);
    struct app_measured measured = app_measure(run->a, job->pattern, choice, &figure);
    if (run->json)
        app_size_json(run->a, run->json, job->pattern, choice, &measured);
    cli_say(run, "%s%s", app_size_report(run->a, job->pattern, choice, &measured, cli_person_unit(run, job)), more);
}

int cli_run_size(struct cli_run *run)
{
    struct job_choices choices = choices_of(run);
    struct sizing_choice choice;
    struct job job;
    if (!cli_need(run, OPT_BODY))
        return CLI_WRONG_USE;
    choices.all_pieces = true;
    if (!job_make(run->a, &choices, &job, &choice, run->errs))
        return CLI_FAULT;
    say_size(run, &job, &choice, "");
    cli_say_fitted(run, &job);
    return CLI_OK;
}

/* What is partly cut by a job needs that job. */
static bool is_not_begun(struct cli_run *run, const char *path)
{
    static const struct err_kind begun = { "use.partly_cut", ERR_FAULT,
                                           BASE_TR("is a job that is partly cut at the table; give the new one "
                                                   "another name") };
    struct err_list *ignored = base_err_list_create();
    struct job job;
    struct app_progress cut = { .line_count = 0 };
    bool any = false;
    if (job_read_begun(run->a, path, &job, ignored))
        cli_memory_progress(run, run->a, path, &job, &cut);
    base_err_list_destroy(ignored);
    for (size_t i = 0; i < cut.cloth_count; i++)
        any = any || cut.cloths[i].cut;
    if (any)
        base_err(run->errs, &begun, base_err_in_file(path), ERR_NONE);
    return !any;
}

int cli_run_job(struct cli_run *run)
{
    struct job_choices choices = choices_of(run);
    const char *out = cli_need(run, OPT_OUT);
    struct sizing_choice choice;
    struct job job;
    struct draft draft;
    if (!cli_surface(run, &choices.surface) || !out)
        return CLI_WRONG_USE;
    if (!job_make(run->a, &choices, &job, &choice, run->errs) || !app_draft(run->a, &job, &draft, run->errs) ||
        !is_not_begun(run, out) || cli_save_text(run, out, job_print(run->a, &job)) != CLI_OK)
        return CLI_FAULT;
    cli_remember_job(run, out);
    say_size(run, &job, &choice,
             base_arena_print(run->a,
                              job.has_table ? base_tr("Lines of the cutting list: %zu")
                                            : base_tr("Lines of the cutting list: %zu; no table yet, so its frames are "
                                                      "shown on the sample table"),
                              draft.cut_count));
    if (run->json) {
        json_out_number(run->json, "lines_to_cut", (double)draft.cut_count);
        json_out_text(run->json, "job", out);
    }
    cli_say_fitted(run, &job);
    cli_say_surface(run, &job);
    return CLI_OK;
}

/* Takes the alteration of that number out again: the words are read anew without it. */
static bool drop(struct cli_run *run, struct job *job, const char *number)
{
    char *end;
    long which = strtol(number, &end, 10);
    if (*end || which < 1 || which > (long)job->alteration_count)
        return cli_wrong(run, "--drop takes the number of an alteration; `alter` without options lists them, not “{0}”",
                         number);
    const char *const *texts = job->alteration_texts;
    size_t count = job->alteration_count;
    bool ok = true;
    job->alteration_count = 0;
    for (size_t i = 0; i < count; i++)
        if ((long)i + 1 != which)
            ok = job_alter(run->a, job, texts[i], NULL, (struct err_place){ NULL, NULL, 0 }, run->errs) && ok;
    return ok;
}

/* What the options ask for; false with a sentence. *changed tells whether they ask for anything. */
static bool alter(struct cli_run *run, struct job *job, bool *changed)
{
    const char *const *value = run->args.value;
    *changed = value[OPT_ALTER] || value[OPT_DROP] || value[OPT_TRIAL] || value[OPT_FINAL];
    if (value[OPT_TRIAL] && value[OPT_FINAL])
        return cli_wrong(run, "it is a trial garment or the final one; give one of --trial and {0}", "--final");
    if (value[OPT_FINAL] && !job->trial)
        return cli_wrong(run, "{0} is no trial garment; leave out --final", run->args.operand);
    if (value[OPT_DROP] && !drop(run, job, value[OPT_DROP]))
        return false;
    if (value[OPT_TRIAL] || value[OPT_FINAL])
        job->trial = value[OPT_TRIAL] != NULL;
    return !value[OPT_ALTER] ||
           job_alter(run->a, job, value[OPT_ALTER], unit_told(run), (struct err_place){ NULL, NULL, 0 }, run->errs);
}

/* Pieces of another shape do not lie where they lay. */
static void clear_places(struct cli_run *run, struct job *job)
{
    static const struct err_kind cleared = {
        "use.layout_cleared", ERR_WARNING,
        BASE_TR(
            "the pieces have changed, so their layout was taken off the cloth; `chalklight lay` arranges them anew")
    };
    if (job_clear_places(run->a, job))
        base_err(run->errs, &cleared, base_err_in_file(run->args.operand), ERR_NONE);
}

int cli_run_alter(struct cli_run *run)
{
    struct job job, was;
    struct draft draft;
    struct app_progress cut;
    bool changed;
    if (!cli_read_job(run, &job))
        return CLI_FAULT;
    was = job;
    if (!alter(run, &job, &changed))
        return base_err_list_has(run->errs, "use.wrong") ? CLI_WRONG_USE : CLI_FAULT;
    if (!app_draft(run->a, &job, &draft, run->errs))
        return CLI_FAULT;
    if (changed && cli_memory_progress(run, run->a, run->args.operand, &was, &cut) &&
        !app_progress_allows(&cut, &was, &job, run->errs))
        return CLI_FAULT;
    if (changed)
        clear_places(run, &job);
    if (changed && cli_save_over(run, run->args.operand, job_print(run->a, &job)) != CLI_OK)
        return CLI_FAULT;
    cli_say_fitted(run, &job);
    if (!job.alteration_count)
        cli_say(run, base_tr("Nothing is altered."));
    return CLI_OK;
}
