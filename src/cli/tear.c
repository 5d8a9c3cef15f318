/* The tearing plan of a view's rectangles. */
#include "app/fitted.h"
#include "app/tear_report.h"
#include "cli/lay_cloth.h"

#define MOST_OFF_MM 1000.0
#define MOST_MARGIN_MM 100.0

struct tear_run {
    struct cli_run *run;
    struct cli_lay_wish wish;
    struct job job;
    struct draft draft;
    struct cli_lay_cloth on;
    struct tearing_task task;
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
            base_arena_print(run->a, "%s needs a length from 0 to %s, not “{0}”", cli_option_usage(run->a, o),
                             units_print_length(most, most_mm, UNITS_CM));
        return cli_wrong(run, sentence, text);
    }
    *mm = read;
    return true;
}

static bool read_options(struct tear_run *t)
{
    t->task.margin_mm = TEARING_MARGIN_MM;
    bool along = t->run->args.value[OPT_ALONG] != NULL, across = t->run->args.value[OPT_TEAR_ACROSS] != NULL;
    t->task.way = along ? TEARING_ALONG : across ? TEARING_ACROSS : TEARING_LEAST;
    if (along && across)
        return cli_wrong(t->run, "strips run one way or the other; give one of --along and {0}", "--across");
    return read_length(t->run, OPT_OFF_SQUARE, MOST_OFF_MM, &t->task.off_square_mm) &&
           read_length(t->run, OPT_MARGIN, MOST_MARGIN_MM, &t->task.margin_mm) && cli_lay_read_wish(t->run, &t->wish);
}

static bool plan(struct tear_run *t, struct tearing_plan *out)
{
    struct cli_run *run = t->run;
    cli_lay_settle(&t->wish, &t->draft);
    if (!cli_lay_choose(run, &t->wish, &t->job, t->wish.material, &t->on))
        return false;
    t->task.pattern = t->job.pattern;
    t->task.draft = &t->draft;
    t->task.cloth = &t->on.cloth;
    t->task.material = t->wish.material;
    t->task.unit = cli_person_unit(run, &t->job);
    return tearing_plan_make(run->a, &t->task, out, run->errs);
}

static void tell(struct tear_run *t, const struct tearing_plan *plan)
{
    struct cli_run *run = t->run;
    struct export_words w = { .a = run->a, .unit = t->task.unit, .fraction = 8 };
    const struct draft_figure figure = job_figure(&t->job);
    struct app_tearing told = { .plan = plan,
                                .title = base_arena_print(run->a, "%s, view %s", t->job.pattern->name,
                                                          t->job.pattern->views[t->job.view].name),
                                .whom = draft_figure_text(run->a, t->job.pattern, &figure),
                                .job = cli_is_job(run) ? run->args.operand : NULL,
                                .off_square_told = run->args.value[OPT_OFF_SQUARE] != NULL };
    told.choice_count = tearing_choices(run->a, plan, &told.choices);
    if (run->json)
        app_tear_json(run->json, &told);
    if (t->on.is_usual)
        cli_say(run, "No cloth was told (--on, --width); a usual one is supposed.");
    cli_say(run, "%s", app_tear_report(&w, &told));
    cli_say_fitted(run, &t->job);
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
    if (t.wish.says_cloth && !cloth_read(run->a, run->args.value[OPT_ON], &t.wish.cloth, run->errs))
        return CLI_FAULT;
    if (!app_draft(run->a, &t.job, &t.draft, run->errs) || !plan(&t, &found))
        return CLI_FAULT;
    tell(&t, &found);
    return CLI_OK;
}
