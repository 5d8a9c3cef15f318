/* The cutting list of a view: on the terminal, as CSV, and as sheets to print. */
#include "app/list.h"
#include "app/block.h"
#include "app/fitted.h"
#include "base/file.h"
#include "base/words.h"
#include "cli/run.h"
#include "export/csv.h"
#include "export/worksheet.h"

#include <stdio.h>
#include <string.h>

static bool read_fraction(struct cli_run *run, int *fraction)
{
    const char *text = run->args.value[OPT_FRACTION];
    *fraction = text && strcmp(text, "16") == 0 ? 16 : 8;
    if (!text || strcmp(text, "8") == 0 || strcmp(text, "16") == 0)
        return true;
    return cli_wrong(run, "--fraction is 8 or 16, not “{0}”", text);
}

/* What the options ask for must be there to give before anything is read. */
static bool may_run(struct cli_run *run)
{
    const char *out = run->args.value[OPT_OUT];
    if (run->args.value[OPT_CSV] && run->json)
        return cli_wrong(run, "--csv and --json are two ways to print one list; give one of them", NULL);
    if (out && !cli_ends_in(out, ".csv") && !cli_ends_in(out, ".svg"))
        return cli_wrong(
            run, "--out needs a name that ends in .csv for a list or in .svg for sheets to print, not “{0}”", out);
    return true;
}

/* "list-2.svg" of "list.svg". */
static const char *page_path(struct cli_run *run, size_t page)
{
    const char *out = run->args.value[OPT_OUT];
    const char *ending = strrchr(out, '.');
    return base_arena_print(run->a, "%.*s-%zu%s", (int)(ending - out), out, page + 1, ending);
}

/* A sheet that is there already stops all of them, before the first is written. */
static size_t first_page(struct cli_run *run, size_t count)
{
    size_t page = 0;
    while (!run->args.value[OPT_REPLACE] && page < count && !base_file_exists(page_path(run, page)))
        page++;
    return page < count ? page : 0;
}

static int save_pages(struct cli_run *run, const struct export_words *w, const struct export_list *list)
{
    size_t count = export_worksheet_pages(list), first = first_page(run, count);
    for (size_t i = 0; i < count; i++) {
        size_t page = (first + i) % count;
        if (cli_save_text(run, page_path(run, page), export_worksheet_page(w, list, page)) != CLI_OK)
            return CLI_FAULT;
    }
    if (!run->args.value[OPT_CSV] && count > 1)
        cli_say(run, base_tr("Sheets to print: %s to %s"), page_path(run, 0), page_path(run, count - 1));
    else if (!run->args.value[OPT_CSV])
        cli_say(run, base_tr("Sheets to print: %s"), page_path(run, 0));
    return CLI_OK;
}

static int save(struct cli_run *run, const struct export_words *w, const struct export_list *list)
{
    const char *out = run->args.value[OPT_OUT];
    if (!out)
        return CLI_OK;
    if (cli_ends_in(out, ".csv"))
        return cli_save_text(run, out, export_csv_list(w, list));
    return save_pages(run, w, list);
}

/* Of a job whose fabric is fused in a block, and laid. */
static void put_block(struct cli_run *run, const struct job *job, const struct draft *draft, struct export_list *list)
{
    const struct app_material m = { job, draft, NULL, PATTERN_INTERFACING, cli_person_unit(run, job), NULL };
    if (!lay_is_cut(draft, PATTERN_INTERFACING))
        return;
    const struct app_block of = app_block_of(run->a, &m, run->errs);
    export_list_put_block(run->a, list, &of.block, of.within);
    if (run->json)
        app_block_json(run->json, "fabric_block", &of.block);
}

int cli_run_list(struct cli_run *run)
{
    struct export_words w = { .a = run->a };
    struct job job;
    struct draft draft;
    if (!read_fraction(run, &w.fraction) || !may_run(run))
        return CLI_WRONG_USE;
    int code = cli_job(run, false, &job);
    if (code != CLI_OK)
        return code;
    if (!app_draft(run->a, &job, &draft, run->errs))
        return CLI_FAULT;
    w.unit = cli_person_unit(run, &job);
    struct export_list list = export_list_of(run->a, job.pattern, job.view, &draft);
    list.wearer = job.body && *job.body->name ? job.body->name : NULL;
    if (run->json)
        app_list_json(run->json, &list);
    put_block(run, &job, &draft, &list);
    if (run->args.value[OPT_CSV])
        fputs(export_csv_list(&w, &list), stdout);
    else
        cli_say(run, "%s", app_list_table(&w, &list));
    if (!run->args.value[OPT_CSV])
        cli_say_fitted(run, &job);
    return save(run, &w, &list);
}
