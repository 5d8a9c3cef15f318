/* The tearing plan of a view's rectangles. */
#include "app/fitted.h"
#include "app/tear_report.h"
#include "app/torn.h"
#include "base/words.h"
#include "cli/lay_cloth.h"
#include "cli/memory.h"
#include "export/tear_svg.h"
#include "job/cloth.h"

#include <string.h>

static const struct err_kind layout_gone = { "use.torn_layout_cleared", ERR_WARNING,
                                             BASE_TR("what is laid on the {0} has changed, so its layout was taken off "
                                                     "the cloth; `chalklight lay` arranges it anew") };

struct tear_run {
    struct cli_run *run;
    struct cli_lay_wish wish;
    struct job job;
    struct draft draft;
    struct cli_lay_cloth on;
    struct tearing_task task;
    struct tearing_rests rests; /* that other pieces can be cut of */
    struct app_torn_worth worth;
};

/* A length from nothing on; untouched where the option is not given. */
static bool read_length(struct cli_run *run, enum cli_option o, double most_mm, double *mm)
{
    const char *text = run->args.value[o];
    double read;
    if (!text)
        return true;
    if (!units_parse_length(text, run->unit, &read) || read < 0 || read > most_mm) {
        char most[UNITS_TEXT];
        const char *sentence =
            base_arena_print(run->a, base_tr("%s needs a length from 0 to %s, not “{0}”"), cli_option_usage(run->a, o),
                             units_print_length(most, most_mm, UNITS_CM));
        return cli_wrong(run, sentence, text);
    }
    *mm = read;
    return true;
}

static bool read_options(struct tear_run *t)
{
    const char *out = t->run->args.value[OPT_OUT];
    bool along = t->run->args.value[OPT_ALONG] != NULL, across = t->run->args.value[OPT_TEAR_ACROSS] != NULL;
    bool keep = t->run->args.value[OPT_TEAR_KEEP] != NULL, drop = t->run->args.value[OPT_TEAR_DROP] != NULL;
    if (out && !cli_ends_in(out, ".svg"))
        return cli_wrong(t->run, "a tearing plan's drawing ends in .svg, unlike “{0}”", out);
    if (along && across)
        return cli_wrong(t->run, "strips run one way or the other; give one of --along and {0}", "--across");
    if (drop && t->run->args.value[OPT_LEAVE_RESTS])
        return cli_wrong(t->run, "a plan that is dropped leaves nothing; give one of --drop and {0}", "--leave-rests");
    if (keep && drop)
        return cli_wrong(t->run, "a plan is kept or it is not; give one of --keep and {0}", "--drop");
    t->task.margin_mm = TEARING_MARGIN_MM;
    t->task.way = along ? TEARING_ALONG : across ? TEARING_ACROSS : TEARING_LEAST;
    return read_length(t->run, OPT_OFF_SQUARE, JOB_MOST_OFF_SQUARE_MM, &t->task.off_square_mm) &&
           read_length(t->run, OPT_MARGIN, JOB_MOST_MARGIN_MM, &t->task.margin_mm) &&
           cli_lay_read_wish(t->run, &t->wish);
}

/* What is not said anew is as the job keeps it. */
static void take_kept(struct tear_run *t, const struct job_torn *torn)
{
    const char *const *value = t->run->args.value;
    if (!torn->is_kept)
        return;
    if (t->task.way == TEARING_LEAST)
        t->task.way = torn->along ? TEARING_ALONG : TEARING_ACROSS;
    if (!value[OPT_OFF_SQUARE])
        t->task.off_square_mm = torn->off_square_mm;
    if (!value[OPT_MARGIN])
        t->task.margin_mm = torn->margin_mm;
}

static bool plan(struct tear_run *t, struct tearing_plan *out)
{
    struct cli_run *run = t->run;
    const struct job_cloth *own = job_find_cloth(&t->job, t->wish.material);
    if (own)
        take_kept(t, &own->torn);
    if (!cli_lay_choose(run, &t->wish, &t->job, t->wish.material, &t->on))
        return false;
    t->task.pattern = t->job.pattern;
    t->task.draft = &t->draft;
    t->task.cloth = &t->on.cloth;
    t->task.material = t->wish.material;
    t->task.unit = cli_person_unit(run, &t->job);
    return tearing_plan_make(run->a, &t->task, out, run->errs);
}

/* What strips leave is used as the job has it; where a plan is to be kept anew, where that is worth it. */
static void use_rests(struct tear_run *t, struct tearing_plan *plan)
{
    struct arena *a = t->run->a;
    const struct job_cloth *own = job_find_cloth(&t->job, t->wish.material);
    if (t->run->args.value[OPT_LEAVE_RESTS])
        return;
    tearing_rests_find(a, plan, &t->rests);
    t->worth = app_torn_worth_of(a, plan, &t->rests);
    bool kept = own && own->torn.is_kept && own->torn.rests;
    bool keeps = t->run->args.value[OPT_TEAR_KEEP] && t->worth.is_worth_it;
    if (t->rests.count && (kept || keeps))
        tearing_rests_take(plan, &t->rests);
}

/* --- kept in the job ---------------------------------------------------------------------------------------------- */

static bool is_same(const struct job_torn *a, const struct job_torn *b)
{
    return a->is_kept == b->is_kept && a->along == b->along && a->off_square_mm == b->off_square_mm &&
           a->margin_mm == b->margin_mm && a->rests == b->rests;
}

static struct job_torn torn_by(const struct tearing_plan *plan)
{
    return (struct job_torn){ true, plan->along, plan->task->off_square_mm, plan->task->margin_mm,
                              plan->rests != NULL };
}

/* What is partly cut by a plan keeps it. */
static bool may_change(struct tear_run *t, const struct job_cloth *put)
{
    struct app_progress cut;
    struct job other = t->job;
    if (!cli_memory_progress(t->run, t->run->a, t->run->args.operand, &t->job, &cut))
        return true;
    job_put_cloth(t->run->a, &other, put);
    return app_progress_allows(&cut, &t->job, &other, t->run->errs);
}

/* With another plan, other pieces are laid on another length: a layout does not outlive it. */
static bool save(struct tear_run *t, const struct job_cloth *before, struct job_torn torn)
{
    struct cli_run *run = t->run;
    struct job_cloth put = { .material = t->wish.material, .cloth = t->on.cloth, .torn = torn };
    bool clears = before && before->laid_count;
    if (!cli_is_free(run, run->args.operand) || !may_change(t, &put))
        return false;
    if (clears)
        base_err(run->errs, &layout_gone, base_err_in_file(run->args.operand),
                 ERR_TEXT(base_tr(pattern_cloth_name(put.material))));
    job_put_cloth(run->a, &t->job, &put);
    return (clears ? cli_save_over : cli_save_more)(run, run->args.operand, job_print(run->a, &t->job)) == CLI_OK;
}

static bool keep(struct tear_run *t, const struct tearing_plan *plan)
{
    const struct job_cloth *before = job_find_cloth(&t->job, t->wish.material);
    struct job_torn torn = torn_by(plan);
    return (before && t->on.is_jobs && is_same(&before->torn, &torn)) || save(t, before, torn);
}

static int drop(struct tear_run *t)
{
    const struct job_cloth *before = job_find_cloth(&t->job, t->wish.material);
    const char *name = base_tr(pattern_cloth_name(t->wish.material));
    if (!before || !before->torn.is_kept) {
        cli_wrong(t->run, "the job keeps no tearing plan of the {0}; leave out --drop", name);
        return CLI_WRONG_USE;
    }
    t->on.cloth = before->cloth;
    if (!save(t, before, (struct job_torn){ 0 }))
        return CLI_FAULT;
    cli_say(t->run, base_tr("The rectangles of the %s are laid out with the rest again."), name);
    return CLI_OK;
}

/* Whether the job keeps the very plan that is told. */
static bool is_kept(const struct tear_run *t, const struct tearing_plan *plan)
{
    const struct job_cloth *own = job_find_cloth(&t->job, t->wish.material);
    struct job_torn torn = torn_by(plan);
    return own && (t->on.is_jobs || t->run->args.value[OPT_TEAR_KEEP]) && is_same(&own->torn, &torn);
}

static bool may_be_kept(struct cli_run *run)
{
    bool is_asked = run->args.value[OPT_TEAR_KEEP] || run->args.value[OPT_TEAR_DROP];
    return !is_asked || cli_is_job(run) ||
           cli_wrong(run, "“{0}” is no job, which alone keeps a plan; begin one with `chalklight job`",
                     run->args.operand);
}

/* A drawing of the plan that is told; a file that is there already was told of before. */
static bool draw(struct cli_run *run, const struct export_words *w, const struct app_tearing *told)
{
    const char *out = run->args.value[OPT_OUT];
    if (!out)
        return true;
    if (cli_save_text(run, out, export_tear_svg(w, told->plan, app_tear_title(w, told))) != CLI_OK)
        return false;
    if (run->json)
        json_out_text(run->json, "drawing", out);
    cli_say(run, "\n  %s", base_arena_print(run->a, base_tr("Drawn at true scale: %s"), out));
    return true;
}

static bool tell(struct tear_run *t, const struct tearing_plan *plan)
{
    struct cli_run *run = t->run;
    struct export_words w = { .a = run->a, .unit = t->task.unit, .fraction = 8 };
    const struct draft_figure figure = job_figure(&t->job);
    struct app_tearing told = { .plan = plan,
                                .title = base_arena_print(run->a, base_tr("%s, view %s"), t->job.pattern->name,
                                                          t->job.pattern->views[t->job.view].shown),
                                .whom = draft_figure_text(run->a, t->job.pattern, &figure),
                                .job = cli_is_job(run) ? run->args.operand : NULL,
                                .rests = t->worth.is_worth_it ? &t->rests : plan->rests,
                                .spared_mm = t->worth.spared_mm,
                                .is_short = t->worth.is_short,
                                .off_square_told = run->args.value[OPT_OFF_SQUARE] || t->task.off_square_mm > 0,
                                .is_kept = is_kept(t, plan) };
    told.choice_count = tearing_choices(run->a, plan, &told.choices);
    if (run->json)
        app_tear_json(run->a, run->json, &told);
    if (t->on.is_usual)
        cli_say(run, base_tr("No cloth was told (--on, --width); a usual one is supposed."));
    const char *report = app_tear_report(&w, &told);
    cli_say(run, "%.*s", (int)strlen(report) - 1, report); /* without its last line end */
    bool ok = draw(run, &w, &told);
    cli_say_fitted(run, &t->job);
    return ok;
}

int cli_run_tear(struct cli_run *run)
{
    struct tear_run t = { .run = run };
    struct tearing_plan found;
    if (!read_options(&t))
        return CLI_WRONG_USE;
    int code = cli_job(run, false, &t.job);
    if (code != CLI_OK)
        return code;
    if (!may_be_kept(run))
        return CLI_WRONG_USE;
    if (run->args.value[OPT_OUT] && !cli_may_save(run, run->args.value[OPT_OUT]))
        return CLI_FAULT;
    if (t.wish.says_cloth && !cloth_read(run->a, run->args.value[OPT_ON], &t.wish.cloth, run->errs))
        return CLI_FAULT;
    if (!app_draft(run->a, &t.job, &t.draft, run->errs))
        return CLI_FAULT;
    cli_lay_settle(&t.wish, &t.draft);
    if (run->args.value[OPT_TEAR_DROP])
        return drop(&t);
    if (!plan(&t, &found))
        return CLI_FAULT;
    use_rests(&t, &found);
    if (run->args.value[OPT_TEAR_KEEP] && !run->errs->faults && !keep(&t, &found))
        return CLI_FAULT;
    return tell(&t, &found) && !run->errs->faults ? CLI_OK : CLI_FAULT;
}
